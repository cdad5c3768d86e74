"""Where words stand on paper, read back by another library: inside their frame, none over another, none raw."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import pypdfium2
import pytest

from packet.pages.helper import write_helper_pdf
from packet.pages.kit.style import FOOT_MM, MM, SAFE_HEIGHT_MM, Frame, lay_full_frame, lay_text_frame
from tests.shop import load_job, write_whole

SAMPLES = ("boatshed", "schoolroom", "cart", "outdoor", "minimal")
HAIR_PT = 0.7  # strokes of the drawn letters may meet by this much
EDGE_PT = 1.0

# Sections whose words may lie over each other or outside the text frame, and why.
AT_TRUE_SIZE = {
    "templates": "1:1 drawings: the frame is what the printer reaches, names stand where the cut leaves room"
}
CARD = "tape to the board by this tab"  # a page of gauge cards at true size fills the printer's frame too
CURLY = "display: printer: {x:"  # the print check shows what to write into the project file


@dataclass(frozen=True, kw_only=True)
class Letter:
    left: float
    bottom: float
    right: float
    top: float
    at: int  # its number in the page's text
    text: str


@dataclass(frozen=True)
class Page:
    name: str
    section: str
    words: str
    letters: tuple[Letter, ...]


def read_page(page: pypdfium2.PdfPage, name: str, section: str) -> Page:
    text = page.get_textpage()
    words = text.get_text_range()
    letters = []
    for at in range(text.count_chars()):
        mark = text.get_text_range(at, 1)
        if mark.strip():
            left, bottom, right, top = text.get_charbox(at)
            if right > left and top > bottom:
                letters.append(Letter(left=left, bottom=bottom, right=right, top=top, at=at, text=mark))
    return Page(name, section, words, tuple(letters))


@cache
def read_sample(name: str) -> tuple[Page, ...]:
    """Return the pages of a sample's packet; the templates' own words stand in one section's pages."""
    data, pages = write_whole(name)
    document = pypdfium2.PdfDocument(data)
    sections = {n: key for key, (first, last) in pages.sections.items() for n in range(first, last + 1)}
    return tuple(
        read_page(document[n - 1], f"{name} page {n}", sections.get(n, ""))
        for n in range(1, len(document) + 1)
        if sections.get(n) not in AT_TRUE_SIZE
    )


@cache
def read_helper(name: str) -> tuple[Page, ...]:
    stream = io.BytesIO()
    write_helper_pdf(load_job(name), stream)
    document = pypdfium2.PdfDocument(stream.getvalue())
    return tuple(read_page(document[n], f"{name} helper {n + 1}", "helper") for n in range(len(document)))


def find_overlaps(letters: tuple[Letter, ...]) -> Iterator[tuple[Letter, Letter]]:
    """Yield pairs of letters that lie over each other; neighbours in one word may touch."""
    cells: dict[tuple[int, int], list[Letter]] = {}
    for letter in letters:
        spots = {(int(x // 12), int(y // 12)) for x in (letter.left, letter.right) for y in (letter.bottom, letter.top)}
        others = {id(o): o for spot in spots for o in cells.get(spot, ())}
        for other in others.values():
            wide = min(letter.right, other.right) - max(letter.left, other.left)
            tall = min(letter.top, other.top) - max(letter.bottom, other.bottom)
            if wide > HAIR_PT and tall > HAIR_PT and abs(letter.at - other.at) > 2:
                yield other, letter
        for spot in spots:
            cells.setdefault(spot, []).append(letter)


def is_inside(letter: Letter, frame: Frame) -> bool:
    across = frame.left - EDGE_PT <= letter.left and letter.right <= frame.right + EDGE_PT
    return across and frame.bottom - EDGE_PT <= letter.bottom and letter.top <= frame.top + EDGE_PT


def show(page: Page, at: int) -> str:
    return page.words[max(at - 20, 0) : at + 20].replace("\r\n", " ")


def test_the_rule_sees_words_over_words() -> None:
    one, two = (
        Letter(left=10, bottom=10, right=16, top=18, at=0, text="a"),
        Letter(left=13, bottom=12, right=19, top=20, at=9, text="b"),
    )
    beside, next_one = (
        Letter(left=16.5, bottom=10, right=22, top=18, at=30, text="c"),
        Letter(left=15, bottom=10, right=21, top=18, at=1, text="d"),
    )
    assert list(find_overlaps((one, two))) == [(one, two)]
    assert not list(find_overlaps((one, beside)))
    assert not list(find_overlaps((one, next_one)))


@pytest.mark.parametrize("name", SAMPLES)
def test_no_word_lies_over_another(name: str) -> None:
    found = [
        f"{page.name}: {show(page, a.at)!r} over {show(page, b.at)!r}"
        for page in (*read_sample(name), *read_helper(name))
        for a, b in find_overlaps(page.letters)
    ]
    assert not found, "\n".join(found[:20])


@pytest.mark.parametrize("name", SAMPLES)
def test_words_stay_in_their_frame(name: str) -> None:
    """In the text frame or on the footer's line; gauge cards at true size within what the printer reaches."""
    paper = load_job(name).project.display.paper
    frame, full = lay_text_frame(paper), lay_full_frame(paper)
    low = (max(paper.height_mm - SAFE_HEIGHT_MM, 0.0) / 2 + FOOT_MM) * MM
    footer = Frame(frame.left, low - 3.0, frame.width, 12.5)
    found = []
    for page in read_sample(name):
        own = full if CARD in page.words else frame
        lowest = min(footer.bottom, full.bottom - 20.0) if own is full else footer.bottom
        foot = Frame(footer.left, lowest, footer.width, footer.top - lowest)
        outside = [a for a in page.letters if not is_inside(a, own) and not is_inside(a, foot)]
        found += [f"{page.name}: {show(page, a.at)!r}" for a in outside[:1]]
    assert not found, "\n".join(found)


@pytest.mark.parametrize("name", SAMPLES)
def test_a_helpers_words_stay_on_the_sheet(name: str) -> None:
    paper = load_job(name).project.display.paper
    edge = paper.margin_mm * MM
    sheet = Frame(edge, edge, paper.width_mm * MM - 2 * edge, paper.height_mm * MM - 2 * edge)
    for page in read_helper(name):
        assert page.letters
        assert not [show(page, a.at) for a in page.letters if not is_inside(a, sheet)]


@pytest.mark.parametrize("name", SAMPLES)
def test_nothing_raw_is_printed(name: str) -> None:
    """No unfilled blank of a template, no markup, no box in place of a sign the font lacks."""
    for page in (*read_sample(name), *read_helper(name)):
        words = page.words.replace(CURLY, "")
        assert "{" not in words, page.name
        assert "}}" not in words, page.name
        assert not re.search(r"</?(b|i|br|font|para|su[bp]|link|a|span)\b[^>]*>|&(amp|lt|gt|#\d+);", words), page.name
        assert not {"■", "\ufffd"} & set(words), page.name

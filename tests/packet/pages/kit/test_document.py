"""The whole packet read back with other libraries: structure, page boxes, fonts, numbers, words inside their frame."""

from __future__ import annotations

import dataclasses
import hashlib
import io
import os
import re
import subprocess
import sys
from pathlib import Path

import pikepdf
import pypdf
import pypdfium2
import pytest
from fontTools.ttLib import TTFont

from calc.finding import Verdict
from calc.results import Later
from packet.draw.fonts import find_font_file
from packet.pages.kit.sections import SECTION_NAMES, SECTIONS
from packet.pages.kit.style import lay_full_frame
from packet.pages.packet_pages import CONTENTS, STORIES
from tests.shop import load_job, write_pages, write_whole

TOP = Path(__file__).parents[4]
MM = 72 / 25.4


@pytest.fixture(scope="module")
def packet() -> bytes:
    return write_whole("boatshed")[0]


@pytest.fixture(scope="module")
def reader(packet: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(packet))


def read_texts(data: bytes) -> list[str]:
    document = pypdfium2.PdfDocument(data)
    return [page.get_textpage().get_text_bounded().replace("\r\n", "\n") for page in document]


@pytest.fixture(scope="module")
def texts(packet: bytes) -> list[str]:
    return read_texts(packet)


def test_each_section_has_its_story_and_each_story_its_section() -> None:
    assert {*STORIES, CONTENTS} == set(SECTION_NAMES), "a page: kit/sections.py and packet/pages/packet_pages.py"


def test_every_section_is_there_in_order() -> None:
    pages = write_whole("boatshed")[1]
    keys = [section.key for section in SECTIONS]
    assert list(pages.sections) == keys
    assert pages.total == len(pypdf.PdfReader(io.BytesIO(write_whole("boatshed")[0])).pages)
    starts = [pages.sections[key][0] for key in keys]
    assert starts == sorted(starts)
    assert starts[0] == 1
    assert max(last for _, last in pages.sections.values()) == pages.total


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_pages_without_templates_are_few(name: str) -> None:
    pages = write_whole(name)[1]
    first, last = pages.sections["templates"]
    assert pages.total - (last - first + 1) <= 60


@pytest.mark.parametrize(("name", "size"), [("boatshed", (215.9, 279.4)), ("schoolroom", (210.0, 297.0))])
def test_one_page_size_and_one_box(name: str, size: tuple[float, float]) -> None:  # T4, T5, T6
    """Letter 8.5 x 11 in (ANSI/ASME Y14.1), A4 210 x 297 mm (ISO 216)."""
    for page in pypdf.PdfReader(io.BytesIO(write_whole(name)[0])).pages:
        box = [float(v) for v in page.mediabox]
        assert box[:2] == [0, 0]
        assert box[2:] == pytest.approx([v * MM for v in size], abs=0.01)
        assert page.cropbox == page.mediabox
        assert page.get("/Rotate", 0) == 0


def test_viewer_is_asked_not_to_scale(reader: pypdf.PdfReader) -> None:  # P2
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"


def test_metadata_and_labels(reader: pypdf.PdfReader) -> None:
    job = load_job("boatshed")
    about = reader.metadata
    assert about.title == job.project.title.title
    assert about.author == job.project.title.drawn_by
    assert job.project.title.revision in about.subject
    assert job.digest in about.subject
    assert reader.page_labels == [str(n) for n in range(1, len(reader.pages) + 1)]


def test_every_section_has_a_bookmark_on_its_page(reader: pypdf.PdfReader) -> None:
    pages = write_whole("boatshed")[1]
    found = {}
    for item in reader.outline:
        if not isinstance(item, list):
            found[item.title] = reader.get_destination_page_number(item) + 1
    assert list(found) == [item.title for item in reader.outline if not isinstance(item, list)]
    for section in SECTIONS[2:]:
        assert pages.sections[section.key][0] in found.values(), section.key


def test_contents_name_the_right_pages(packet: bytes, texts: list[str]) -> None:
    """Each line of the contents is a link; the number it prints is that of the page the link goes to."""
    pages = write_whole("boatshed")[1]
    number = pages.sections["contents"][0]
    with pikepdf.open(io.BytesIO(packet)) as document:
        place = {page.obj.objgen: index + 1 for index, page in enumerate(document.pages)}
        links = [note for note in document.pages[number - 1].Annots if note.Subtype == "/Link"]
        goals = [(([float(v) for v in link.Rect]), place[link.Dest[0].objgen]) for link in links]
    assert len(goals) == len(SECTIONS) - 2
    page = pypdfium2.PdfDocument(packet)[number - 1].get_textpage()
    for (left, bottom, right, top), target in goals:
        line = re.fullmatch(
            r"(?:\d+\s+)?(.+?)\s*(\d+)", page.get_text_bounded(left - 1, bottom, right + 1, top).strip()
        )
        assert line is not None
        assert int(line[2]) == target
        whole = line[1].rstrip("…") in texts[target - 1].replace("\n", " ")
        assert whole or target == pages.sections["templates"][0]  # a template's page has its own title


def test_footers_number_every_page(texts: list[str]) -> None:
    job = load_job("boatshed")
    for number, text in enumerate(texts, 1):
        assert f"page {number} of {len(texts)}" in text
        assert job.digest in text
        assert f"rev. {job.project.title.revision}" in text


def test_cover_says_where_the_sections_are(texts: list[str]) -> None:
    pages = write_whole("boatshed")[1]
    first, last = pages.sections["templates"]
    assert f"pages {first}–{last}" in texts[0]
    assert "Actual size" in texts[0]
    assert "100 %" in texts[0]
    assert "Scale: none" in texts[0]
    assert pages.sections["cover"] == (1, 1)


def test_only_our_typeface_is_drawn_and_it_is_embedded(packet: bytes) -> None:
    """Form fields keep to the plain letters of a built-in face; nothing that is printed on a page does."""
    drawn: set[str] = set()
    with pikepdf.open(io.BytesIO(packet)) as document:
        for page in document.pages:
            fonts = page.Resources.get("/Font", {})
            used = {str(o[0]) for o, op in pikepdf.parse_content_stream(page, "Tf") if str(op) == "Tf"}
            for name in used:
                drawn.add(str(fonts[name].BaseFont))
                assert "/FontFile2" in fonts[name].FontDescriptor, name
    assert drawn
    assert all("+SourceSansPro-" in name for name in drawn)


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_every_glyph_is_there(name: str) -> None:  # R4
    """Each sign that another library reads is in the typeface as a third reads it: none is drawn as .notdef."""
    signs = {sign for text in read_texts(write_whole(name)[0]) for sign in text} - set("\r\n\ufffe\x02")
    with TTFont(find_font_file("Regular")) as regular, TTFont(find_font_file("Bold")) as bold:
        known = set(regular.getBestCmap()) & set(bold.getBestCmap())
    assert {sign for sign in signs if ord(sign) not in known} == set()
    assert not signs & set("■□\ufffd")


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_no_words_leave_their_page_frame(name: str) -> None:
    """Text boxes as another library finds them lie inside the printable frame, the footer below everything else."""
    paper = load_job(name).project.display.paper
    frame = lay_full_frame(paper)
    data, pages = write_whole(name)
    tiles = pages.sections["templates"][0]  # from there on drawings are cut at the tile's edge, words and all
    for number, page in enumerate(list(pypdfium2.PdfDocument(data))[: tiles - 1], 1):
        text = page.get_textpage()
        for index in range(text.count_rects()):
            left, bottom, right, top = text.get_rect(index)
            where = (number, text.get_text_bounded(left, bottom, right, top)[:60])
            assert left >= frame.left - 1.0, where
            assert right <= frame.right + 1.0, where
            assert top <= frame.top + 1.0, where
            assert bottom >= 6.35 * MM - 1.0, where


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_no_placeholder_and_no_markup(name: str) -> None:
    wrong = (
        "{{",
        "}}",
        "{%",
        "<b>",
        "<br",
        "&amp;",
        "&lt;",
        "None",
        "nan ",
        "Amount(",
        "Said(",
        "Verdict.",
        "Traceback",
    )
    for number, text in enumerate(read_texts(write_whole(name)[0]), 1):
        assert [sign for sign in wrong if sign in text] == [], number


def test_fields_have_their_own_names_and_appearances(packet: bytes) -> None:  # F1, F3, F4, F5
    names: list[str] = []
    with pikepdf.open(io.BytesIO(packet)) as document:
        for page in document.pages:
            for note in page.get("/Annots", []):
                if note.Subtype != "/Widget":
                    continue
                names.append(str(note.T))
                normal = note.AP.N
                streams = [normal] if isinstance(normal, pikepdf.Stream) else list(normal.values())
                assert streams
                assert all(isinstance(s, pikepdf.Stream) for s in streams)
        assert len(document.Root.AcroForm.Fields) == len(names)
    assert len(names) > 20
    assert len(set(names)) == len(names)
    assert all(name.isascii() and "." not in name for name in names)


def test_misfit_is_said_on_every_page() -> None:
    job = load_job("boatshed")
    finding = dataclasses.replace(job.sizing.judged[0], verdict=Verdict.DOES_NOT_FIT)
    worse = dataclasses.replace(job, sizing=dataclasses.replace(job.sizing, judged=(finding, *job.sizing.judged[1:])))
    data, _ = write_pages(worse, ("cover", "report"))
    texts = read_texts(data)
    assert all("DOES NOT FIT" in text for text in texts)
    assert "IT DOES NOT FIT YET" in texts[0]


def test_sections_can_be_written_alone() -> None:
    data, pages = write_pages(load_job("boatshed"), ("gauge", "bill"))
    assert list(pages.sections) == ["bill", "gauge"]
    assert len(pypdf.PdfReader(io.BytesIO(data)).pages) == pages.total


def test_sections_that_hold_nothing_say_so() -> None:
    job = load_job("boatshed")
    nothing = dataclasses.replace(job.sizing.considered, worked=())
    bare = dataclasses.replace(job, sizing=dataclasses.replace(job.sizing, consider=Later(lambda _: nothing)))
    data, pages = write_pages(bare, ("worked",))
    assert pages.total == 1
    assert "hold nothing for this project yet" in read_texts(data)[0]


def test_an_unknown_section_is_refused() -> None:
    with pytest.raises(KeyError, match="reprot"):
        write_pages(load_job("boatshed"), ("reprot",))


def test_same_bytes_again(packet: bytes) -> None:
    assert write_pages(load_job("boatshed"))[0] == packet


def test_same_bytes_in_another_process(packet: bytes) -> None:
    """Another process, another order of hashes: the same file to the last bit."""
    script = (
        "import hashlib; from tests.shop import load_job, write_pages;"
        "print(hashlib.sha256(write_pages(load_job('boatshed'))[0]).hexdigest())"
    )
    words = {**os.environ, "PYTHONHASHSEED": "77", "PYTHONPATH": str(TOP)}
    done = subprocess.run(
        [sys.executable, "-c", script], env=words, cwd=TOP, capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == hashlib.sha256(packet).hexdigest()

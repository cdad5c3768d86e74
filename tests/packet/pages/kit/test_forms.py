"""Form fields: what is typed shows when printed, blanks are there on paper, values are read back."""

from __future__ import annotations

import io

import numpy as np
import pikepdf
import pypdf
import pypdfium2
import pytest

from packet.log.field_names import spell_plainly
from packet.pages.kit.kit import Kit
from tests.packet.pages.kit.test_kit import make_kit, print_story

SCALE = 4


def make_form() -> bytes:
    kit: Kit = make_kit()
    return print_story(
        kit,
        [
            kit.text("form"),
            kit.field("reading", 60, "Reading at the planer"),
            kit.field("passed", 6, "Passes", kind="tick"),
            kit.field("fluid", 40, "Fluid", kind="choice", choices=("water", "glycol mix")),
            kit.field("notes", 120, "Notes", kind="long text"),
        ],
    )


def fill(pdf: bytes, values: dict[str, str]) -> bytes:
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(pdf))
    for page in writer.pages:
        writer.update_page_form_field_values(page, values, auto_regenerate=False)
    stream = io.BytesIO()
    writer.write(stream)
    return stream.getvalue()


def find_ink(pdf: bytes, name: str) -> float:
    """Return the share of dark dots well inside a field's box, in a picture of the page with its forms."""
    with pikepdf.open(io.BytesIO(pdf)) as document:
        note = next(n for n in document.pages[0].Annots if n.get("/T") == name)
        left, bottom, right, top = (float(v) for v in note.Rect)
    document = pypdfium2.PdfDocument(pdf)
    document.init_forms()
    dots = document[0].render(scale=SCALE, may_draw_forms=True, grayscale=True).to_numpy()
    high = dots.shape[0]
    box = dots[
        round(high - (top - 2) * SCALE) : round(high - (bottom + 2) * SCALE),
        round((left + 2) * SCALE) : round((right - 2) * SCALE),
    ]
    return float(np.mean(box < 128))


@pytest.mark.parametrize(("name", "value"), [("reading", "12-1/2 in"), ("passed", "/Yes"), ("notes", "all tight")])
def test_what_is_filled_in_is_printed(name: str, value: str) -> None:  # F1
    empty = make_form()
    assert find_ink(empty, name) == 0.0
    filled = fill(empty, {name: value})
    assert find_ink(filled, name) > 0.003
    assert pypdf.PdfReader(io.BytesIO(filled)).get_fields()[name]["/V"] == value


def test_blanks_are_there_on_paper() -> None:
    """Without any field drawn, a line to write on and a square to tick are still on the page."""
    dots = pypdfium2.PdfDocument(make_form())[0].render(scale=SCALE, may_draw_forms=False, grayscale=True).to_numpy()
    rows = np.mean(dots < 128, axis=1)
    assert np.sum(rows > 0.2) >= 2  # the lines under text fields go far across


def test_every_state_has_an_appearance() -> None:  # F3, F7
    with pikepdf.open(io.BytesIO(make_form())) as document:
        tick = next(n for n in document.pages[0].Annots if n.get("/T") == "passed")
        assert set(tick.AP.N.keys()) == {"/Off", "/Yes"}
        assert all(isinstance(stream, pikepdf.Stream) for stream in tick.AP.N.values())


def test_the_file_is_sound() -> None:
    with pikepdf.open(io.BytesIO(make_form())) as document:
        assert document.check_pdf_syntax() == []


@pytest.mark.parametrize(
    ("text", "plain"),
    [("5⅛ in", "5-1/8 in"), ("⅜", "3/8"), ("Łódź", "Lodz"), ("66 °F", "66  degF"), ("木", ""), ("Straße", "Strasse")],
)
def test_field_words_are_plain_letters(text: str, plain: str) -> None:  # F2
    assert spell_plainly(text) == plain

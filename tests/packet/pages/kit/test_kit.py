"""The blocks of the kit: user text is data, tables flow, fields are unique, scales are usual ones."""

from __future__ import annotations

import io
from typing import Any

import pdfplumber
import pytest
from reportlab.platypus import BaseDocTemplate, PageTemplate
from reportlab.platypus import Frame as FlowFrame

from calc.measures.quantity import Reader
from calc.project import Paper
from calc.shapes.shapes import Box, Line, Point
from packet.draw.fonts import measure_text
from packet.draw.model import Drawing, Pen, Stroke
from packet.pages.kit.canvas import PacketCanvas
from packet.pages.kit.flow import break_words
from packet.pages.kit.kit import Kit

LETTER = Paper("letter", 215.9, 279.4)
A4 = Paper("a4", 210.0, 297.0)


def make_kit(paper: Paper = LETTER, system: str = "inch") -> Kit:
    return Kit(paper, Reader(system))  # type: ignore[arg-type]


def print_story(kit: Kit, story: list[Any]) -> bytes:
    stream = io.BytesIO()
    frame = kit.frame
    document = BaseDocTemplate(stream, pagesize=(612, 792), initialFontName="Body", invariant=1)
    flow = FlowFrame(frame.left, frame.bottom, frame.width, frame.height, 0, 0, 0, 0)
    document.addPageTemplates(PageTemplate("p", [flow], onPageEnd=lambda canvas, _: canvas.end_page()))
    document.build(story, canvasmaker=PacketCanvas)
    return stream.getvalue()


def read_words(pdf: bytes) -> str:
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        return "\n".join(page.extract_text() for page in document.pages)


HOSTILE = [
    "keep gap <A> under 1/8 in & seal",  # R1
    "0.1 <A <0.9",
    "<b>bold",
    "a<br>b",
    "</para>",
    "x<y>z",
    "S&P 500",  # R2
    "R&D bay",
    "&lt;6 in",
    '<font color="red">red</font>',  # R3
    '<img src="/etc/hostname" width="9" height="9"/>',
    '<a href="file:/etc/hostname">x</a>',
    "<onDraw name='x'/>",
    "Łódź ⅜ in ☐ Δp ≤ ½",  # R4
]


@pytest.mark.parametrize("text", HOSTILE)
def test_user_text_is_printed_as_typed(text: str) -> None:
    kit = make_kit()
    story = [
        kit.text(text),
        kit.rich(f"<b>{kit.escape(text)}</b>"),
        *kit.bullets([text]),
        kit.table([["head"], [text]]),
        kit.heading(text, 2),
        kit.signal("NOTICE", [text, text], title=text),
        kit.tick(text),
    ]
    assert read_words(print_story(kit, story)).count(text) == 9


def test_a_cell_of_four_thousand_words_flows_over_pages() -> None:  # R5
    kit = make_kit()
    rows = [["Part", "Notes"], ["panel", " ".join(f"word{n}" for n in range(4000))], ["x" * 300, "last"]]
    words = read_words(print_story(kit, [kit.table(rows)]))
    assert all(f"word{n}" in words for n in range(0, 4000, 97))
    assert words.count("Part Notes") >= 5  # the head is on every page
    assert words.replace("\n", "").count("x") >= 300
    assert "last" in words


def test_a_list_of_blocks_taller_than_a_page_flows() -> None:
    kit = make_kit()
    story = [kit.table([["a", "b"], ["x", [kit.text("word " * 300) for _ in range(14)]]], widths_mm=(20, 60))]
    assert read_words(print_story(kit, story)).count("word") == 4200


@pytest.mark.parametrize("left_mm", [0.0, 0.5, 2.0, 6.0, 14.0])
def test_columns_at_the_very_foot_of_a_page_move_on(left_mm: float) -> None:
    """Splitting inside a row with no room left gave an empty piece again and again, for ever."""
    kit = make_kit()
    blocks = [kit.text("left " * 40), kit.text("more " * 40)]
    story = [kit.space(kit.frame_height_mm - left_mm - 0.01), kit.columns([blocks, [kit.text("right " * 60)]])]
    words = read_words(print_story(kit, story))
    assert (words.count("left"), words.count("more"), words.count("right")) == (40, 40, 60)


@pytest.mark.parametrize("width", [30.0, 80.0, 200.0])
def test_no_line_is_wider_than_its_room(width: float) -> None:
    text = "Short words and a verylongwordwithoutanyspaceatallinit " + "x" * 120 + "\n\nend"
    lines = break_words(text, width, 9.0)
    assert max(measure_text(line, 9.0) for line in lines) <= width + 0.01
    assert "".join(lines).replace(" ", "") == text.replace(" ", "").replace("\n", "")


def test_rows_of_different_length_are_refused() -> None:
    with pytest.raises(ValueError, match="same number of cells"):
        make_kit().table([["a", "b"], ["c"]])


def test_two_fields_of_one_name_are_refused() -> None:  # F5
    kit = make_kit()
    kit.field("reading planer", 30)
    with pytest.raises(ValueError, match="reading-planer"):
        kit.field("reading planer", 30)


def test_field_names_and_tooltips_are_plain_letters() -> None:  # F2
    field = make_kit().field("hole 5⅛ Łódź.x", 30, tooltip="Hole of 5⅛ in, Łódź °")
    assert field.name == "hole-5-1-8-Lodz-x"
    assert field.tooltip == "Hole of 5-1/8 in, Lodz  deg"


@pytest.mark.parametrize(
    ("system", "length", "words"),
    [
        ("inch", 1200.0, "scale 1-1/2 in = 1 ft"),  # 1:8 is 1-1/2 in to the foot
        ("inch", 2400.0, "scale 3/4 in = 1 ft"),
        ("metric", 1200.0, "scale 1:10"),
        ("metric", 150.0, "full size"),
    ],
)
def test_drawings_get_the_largest_usual_scale(system: str, length: float, words: str) -> None:
    drawing = Drawing("edge", (Stroke(Line(Point(0, 0), Point(length, 0)), Pen.CUT),), Box(0, 0, length, 10))
    figure = make_kit(system=system).drawing(drawing)
    assert figure.scale_words == words
    assert figure.wide <= make_kit().frame.width + 0.01


def test_scale_bar_is_as_long_as_it_says() -> None:
    """A bar of 1 ft at 1-1/2 in to the foot is 1-1/2 in = 108 pt on paper."""
    drawing = Drawing("edge", (Stroke(Line(Point(0, 0), Point(1200, 0)), Pen.CUT),), Box(0, 0, 1200, 60))
    kit = make_kit()
    figure = kit.drawing(drawing, caption="an edge")
    with pdfplumber.open(io.BytesIO(print_story(kit, [figure]))) as document:
        page = document.pages[0]
        halves = [r for r in page.rects if abs(r["height"] - 2.0) < 0.01]
        edge = max(page.lines, key=lambda line: line["width"] if line["linewidth"] > 1 else 0)
    per_inch = {"1 in": 1, "2 in": 2, "4 in": 4, "6 in": 6, "1 ft": 12}[figure.bar.words]
    assert sum(r["width"] for r in halves) == pytest.approx(per_inch * 72 / 8, abs=0.02)
    assert edge["width"] == pytest.approx(1200 / 25.4 * 72 / 8, abs=0.02)


def test_heading_is_never_left_alone_at_the_foot() -> None:
    kit = make_kit()
    story = [kit.space(kit.frame_height_mm - 20), kit.heading("Alone?", 2), kit.text("under it")]
    with pdfplumber.open(io.BytesIO(print_story(kit, story))) as document:
        assert "Alone?" in document.pages[1].extract_text()


def test_page_break_leaves_no_empty_page() -> None:
    kit = make_kit()
    page = kit.full_page(lambda canvas, frame: canvas.rect(frame.left, frame.bottom, 9, 9), "tile")
    story = [
        kit.page_break(),
        kit.text("one"),
        kit.page_break(),
        kit.page_break(),
        page,
        kit.page_break(),
        kit.text("x"),
    ]
    with pdfplumber.open(io.BytesIO(print_story(kit, story))) as document:
        assert len(document.pages) == 3


@pytest.mark.parametrize("paper", [LETTER, A4])
def test_text_stays_inside_the_sheet_that_letter_and_a4_share(paper: Paper) -> None:  # T7
    frame = make_kit(paper).frame
    mm = 72 / 25.4
    assert frame.width <= (210.0 - 2 * 6.35) * mm
    assert frame.height <= (279.4 - 2 * 6.35) * mm
    # centred on the sheet, so that it prints whole on the other one
    assert frame.left == pytest.approx(paper.width_mm * mm - frame.right)

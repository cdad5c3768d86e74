"""The gauge's pages: ticks measured in the PDF and in a picture of it, the words a reader needs, the other gates."""

from __future__ import annotations

import io
import itertools
from dataclasses import replace

import numpy as np
import pikepdf
import pypdf
import pypdfium2
import pytest

from calc.gauges.cards import JOIN_MM
from calc.gauges.gauge_design import design_gauge
from calc.measures.quantity import Reader
from packet.draw.backends.pdf import paint
from packet.draw.fonts import measure_words, register_fonts
from packet.draw.model import Words
from packet.draw.views.gauge_card import draw_card
from tests.packet.read_pdf import read_lines
from tests.shop import INH2O, make_job, make_project, make_sizing, print_pages

KINDS = ["u-tube", "u-tube one leg", "inclined", "well"]


def make_card_pdf(kind: str, clean: float = 1.7, clean_me: float = 2.6):
    """Return the card alone on a sheet, its still-air mark's height on the page [mm], and the card.

    Every kind reads these pressures [inH2O] to 5 %.
    """
    from reportlab.pdfgen.canvas import Canvas

    register_fonts()
    project = make_project()
    project = replace(project, gauge=replace(project.gauge, kind=kind))
    card = design_gauge(project, make_sizing(clean, clean_me)).card
    assert card.instrument.kind == kind
    drawing = draw_card(card, Reader("inch"), "test", "planer")
    stream = io.BytesIO()
    canvas = Canvas(stream, pagesize=(612, 792), invariant=1)
    paint(canvas, drawing, 36, 36)
    canvas.save()
    return stream.getvalue(), 12.7 - drawing.bounds.bottom, 12.7 - drawing.bounds.left, card


def list_edge_ticks(pdf: bytes, zero: float, left: float) -> dict[float, float]:
    """Return height above still air -> length of the level lines that begin on the card's left edge."""
    found = {}
    for ink in read_lines(pdf):
        if len(ink.points) >= 2 and ink.height < 1e-6 and abs(min(x for x, _ in ink.points) - left) < 1e-3:
            found[round(ink.points[0][1] - zero, 4)] = ink.width
    return found


@pytest.mark.parametrize("kind", KINDS)
def test_last_tick_is_true_in_the_pdf(kind: str) -> None:
    pdf, zero, left, card = make_card_pdf(kind)
    edge = 0.0 if kind != "u-tube" else -45.0
    ticks = list_edge_ticks(pdf, zero, left + edge)
    pitch = card.instrument.mm_per_pa * INH2O
    last = max(y for y, length in ticks.items() if length == pytest.approx(8.5, abs=0.01))
    steps = last / pitch
    # The last numbered tick stands at a round pressure: within 0.05 mm of where physics puts it.
    assert abs(last - round(steps / 0.1) * 0.1 * pitch) < 0.05


def test_one_leg_card_numbers_stand_at_half_distance() -> None:
    """Marks of 1 inH2O are half an inch of water apart on one leg (0.501 in with 21 °C water): measured in the PDF."""
    pdf, zero, left, card = make_card_pdf("u-tube one leg")
    ticks = list_edge_ticks(pdf, zero, left)
    numbered = sorted(y for y, length in ticks.items() if length == pytest.approx(8.5, abs=0.01))
    step = numbered[1] - numbered[0]
    per_inh2o = step / (0.2 if step < 4 else 0.5 if step < 9 else 1.0)
    assert per_inh2o == pytest.approx(12.7, rel=0.005)
    assert card.instrument.mm_per_pa * INH2O == pytest.approx(12.7, rel=0.005)


def test_two_leg_card_has_the_same_ticks_below_zero() -> None:
    pdf, zero, left, _ = make_card_pdf("u-tube")
    ticks = list_edge_ticks(pdf, zero, left - 45.0)
    up = sorted(y for y, length in ticks.items() if y > 0.01 and length < 9)
    down = sorted(-y for y, length in ticks.items() if y < -0.01 and length < 9)
    assert up == pytest.approx(down, abs=1e-3)


@pytest.mark.parametrize("kind", ["inclined", "u-tube"])
def test_ticks_measure_true_in_a_picture_of_the_page(kind: str) -> None:
    """Rasterised at 508 dpi (0.05 mm a dot): every numbered tick within 0.06 mm of its place."""
    pdf, zero, left, card = make_card_pdf(kind)
    scale = 20.0 * 25.4 / 72
    picture = pypdfium2.PdfDocument(pdf)[0].render(scale=scale, grayscale=True).to_numpy().squeeze()
    dots = 20.0  # a mm
    edge = left + (0.0 if kind != "u-tube" else -45.0)
    column = picture[:, int((edge + 7.5) * dots)].astype(float)
    dark = column < 128
    starts = np.flatnonzero(dark[1:] & ~dark[:-1]) + 1
    ends = np.flatnonzero(~dark[1:] & dark[:-1]) + 1
    page_mm = picture.shape[0] / dots
    lines = [(a, b) for a, b in zip(starts, ends, strict=True) if b - a <= 10]  # wider: a mark touches a tick
    seen = [page_mm - (a + b) / 2 / dots - zero for a, b in lines]
    drawn = [
        y for y, length in list_edge_ticks(pdf, zero, edge).items() if length > 8.4 and abs(y) < card.scale_mm + 1.5
    ]
    inside = [y for y in seen if min(drawn) - 0.2 < y < max(drawn) + 0.2]
    assert len(inside) >= 5
    for y in inside:
        assert min(abs(y - at) for at in drawn) < 0.06
    for mark in card.marks:
        if mark.fits:
            assert min(abs(y - mark.travel_mm) for y in seen) < 0.06, mark


def read_text(pdf: bytes) -> str:
    return " ".join(" ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf)).pages).split())


@pytest.fixture(scope="module")
def gauge_words() -> str:
    return read_text(print_pages(make_job(sizing=make_sizing(0.1, 1.8)), "gauge"))


@pytest.mark.parametrize(
    "words",
    [
        "STILL AIR", "CLEAN ME", "TOO HIGH", "planer gate alone open", "ADD", "lowest point of the curved surface",
        "zero it first", "joined to the box", "open to the room", "Rises slowly", "Much lower than your clean",
        "drum sander",
        "with no air moving, a clogged filter reads like a clean one", "by this tab only", "on a steel rule", "1 in 10",
        "Actual size: 6 in",
    ],
)  # fmt: skip
def test_words_a_reader_needs(gauge_words: str, words: str) -> None:
    assert words in gauge_words


def test_blocked_end_reading_cannot_tell_a_dirty_filter(gauge_words: str) -> None:
    """Two like vacuums, one filter clean, one clogged, both read 80 in blocked: the card asks for flow."""
    assert "every gate shut says nothing about the filters" in gauge_words
    assert "close all gates and read" not in gauge_words.lower()


def test_card_sheets_fit_letter_and_a4_with_printer_correction() -> None:
    from calc.project import Paper

    for paper in (Paper("letter", 215.9, 279.4), Paper("a4", 210.0, 297.0)):
        project = make_project()
        display = replace(project.display, paper=paper, printer_x=0.99, printer_y=0.98)
        for kind in KINDS:
            job = make_job(
                replace(project, display=display, gauge=replace(project.gauge, kind=kind)), make_sizing(0.2, 1.9)
            )
            pdf = print_pages(job, "gauge")
            with pikepdf.open(io.BytesIO(pdf)) as document:
                pages = len(document.pages)
            for page in range(pages):
                for ink in read_lines(pdf, page):
                    assert min(x for x, _ in ink.points) >= 4.0
                    assert max(x for x, _ in ink.points) <= paper.width_mm - 4.0
                    assert max(y for _, y in ink.points) <= paper.height_mm - 4.0


def test_round_board_shows_its_calculation() -> None:
    project = make_project()
    on_lid = replace(project, gauge=replace(project.gauge, mount="lid"))
    words = read_text(print_pages(make_job(on_lid, make_sizing(0.9, 1.8)), "gauge"))
    assert "sin a = mu r / d" in words
    assert "pivot" in words
    assert "catch bottle" in words


def test_marks_beyond_the_card_bring_an_upright_one() -> None:
    project = make_project()
    steep = replace(project, gauge=replace(project.gauge, kind="inclined", slope=0.1))
    words = read_text(print_pages(make_job(steep, make_sizing(0.2, 1.9)), "gauge"))
    assert "There are two gauges on one hose, with a T." in words
    assert "CLEAN ME lies beyond its card: read it on the U-tube." in words
    assert "On the sloping tube: Level the board" in words
    assert "On the U-tube: Slide the card" in words


def test_page_says_what_is_built_in_place_of_what_was_asked_for() -> None:
    words = read_text(print_pages(make_job(sizing=make_sizing(0.4, 1.4)), "gauge"))
    assert "Built is a tube at 1 in 3" in words
    assert "The project file asks for: U-tube." in words
    assert "ADD" not in words, "nothing tells how to read a gauge that is not built"
    assert "two gauges" not in words


@pytest.mark.parametrize("kind", KINDS)
def test_a_scale_longer_than_paper_goes_on_over_strips(kind: str) -> None:
    """CLEAN ME at 20 in of water is 10 in up one leg: no sheet has it. Ticks of all strips stand from one origin."""
    project = make_project()
    project = replace(project, gauge=replace(project.gauge, kind=kind))
    gauge = design_gauge(project, make_sizing(6.0, 20.0, shut_off=40.0))
    assert gauge.strips
    first = gauge.companion or gauge.card
    assert first.instrument.kind == "u-tube one leg"
    assert any(mark.key == "clean me" and mark.fits for card in gauge.cards for mark in card.marks)
    assert any(mark.key == "too high" and mark.fits for card in gauge.strips for mark in card.marks)
    for below, above in itertools.pairwise([first, *gauge.strips]):
        assert above.from_mm == pytest.approx(below.scale_mm - JOIN_MM)
        assert below.joined
    assert not gauge.strips[-1].joined


def test_strips_measure_true_and_say_how_to_join() -> None:
    from reportlab.pdfgen.canvas import Canvas

    register_fonts()
    project = make_project()
    project = replace(project, gauge=replace(project.gauge, kind="u-tube one leg"))
    gauge = design_gauge(project, make_sizing(6.0, 20.2, shut_off=40.0))  # no mark upon a numbered tick
    strip = gauge.strips[-1]
    drawing = draw_card(strip, Reader("inch"), "test", "planer")
    stream = io.BytesIO()
    canvas = Canvas(stream, pagesize=(612, 792), invariant=1)
    paint(canvas, drawing, 36, 36)
    canvas.save()
    ticks = list_edge_ticks(stream.getvalue(), 12.7 - drawing.bounds.bottom, 12.7 - drawing.bounds.left)
    pitch = strip.instrument.mm_per_pa * INH2O
    numbered = [y for y, length in ticks.items() if length == pytest.approx(8.5, abs=0.01)]
    assert len(numbered) >= 3
    for y in numbered:
        assert abs(y - round(y / pitch / 0.1) * 0.1 * pitch) < 0.05
    words = read_text(print_pages(make_job(project, make_sizing(6.0, 20.0, shut_off=40.0)), "gauge"))
    assert "JOIN" in words
    assert "tick on tick" in words


def test_clean_me_far_above_clean_is_said() -> None:
    """Large filters on a small blower: 0.1 to 1.8 in is 18 times; a look at the cloth from 0.8 in on."""
    assert "18.0 times clean" in read_text(print_pages(make_job(sizing=make_sizing(0.1, 1.8)), "gauge"))
    assert "from 0.80 inH2O on look at the cloth" in read_text(
        print_pages(make_job(sizing=make_sizing(0.1, 1.8)), "gauge")
    )
    assert "look at the cloth" not in read_text(print_pages(make_job(sizing=make_sizing(0.4, 1.8)), "gauge"))


def test_words_of_a_mark_stay_on_the_card() -> None:
    project = make_project()
    project = replace(project, gauge=replace(project.gauge, kind="inclined"))
    gauge = design_gauge(project, make_sizing())
    marks = tuple(replace(mark, words="CLEAN, MEASURED BY US") for mark in gauge.card.marks)
    drawing = draw_card(replace(gauge.card, marks=marks), Reader("metric"), "test", "planer")
    for each in drawing.entities:
        if isinstance(each, Words) and each.text.startswith("CLEAN, MEASURED"):
            assert each.at.x + measure_words(each.text, each.size_mm, bold=True) <= drawing.bounds.right - 3.0


@pytest.mark.parametrize("kind", KINDS)
def test_a_long_name_stays_on_the_card(kind: str) -> None:
    project = make_project()
    card = design_gauge(replace(project, gauge=replace(project.gauge, kind=kind)), make_sizing()).card
    drawing = draw_card(card, Reader("inch"), "Water gauge", "resaw band saw by the window, lower port and fence")
    told = [each for each in drawing.entities if isinstance(each, Words) and "lower port" in each.text]
    assert told
    for each in told:
        assert measure_words(each.text, each.size_mm) / 2 <= drawing.bounds.right - 3.0 - each.at.x

"""The PDF backend: true circles, true lengths, places from one origin."""

from __future__ import annotations

import io
import math

import numpy as np
import pytest

from calc.shapes.shapes import Arc, Box, Circle, Line, Path, Point, find_bounds, make_rectangle
from packet.draw.backends.pdf import count_beziers, paint
from packet.draw.fonts import register_fonts
from packet.draw.model import Dimension, Drawing, Entity, Fill, Pen, Stroke, Words
from packet.draw.rules import Rule, draw_rule
from tests.packet.read_pdf import read_lines


def draw_pdf(drawing: Drawing, scale: float = 1.0, stretch_x: float = 1.0, stretch_y: float = 1.0) -> bytes:
    from reportlab.pdfgen.canvas import Canvas

    register_fonts()
    stream = io.BytesIO()
    canvas = Canvas(stream, pagesize=(2000, 2000), invariant=1)
    paint(canvas, drawing, 20.0, 20.0, scale, stretch_x=stretch_x, stretch_y=stretch_y)
    canvas.save()
    return stream.getvalue()


def as_drawing(*entities: Entity) -> Drawing:
    box = find_bounds(tuple(e.shape for e in entities if isinstance(e, Stroke))) if entities else Box(0, 0, 1, 1)
    return Drawing("test", entities, box)


@pytest.mark.parametrize("radius", [0.5, 1.6, 25.0, 150.7, 600.0])
def test_circles_are_true_to_a_thousandth_of_a_millimetre(radius: float) -> None:
    (line,) = read_lines(draw_pdf(as_drawing(Stroke(Circle(Point(0, 0), radius), Pen.CUT))))
    corner = np.array([20.0, 20.0]) * 25.4 / 72
    off = np.hypot(*(np.array(line.points) - corner - radius).T) - radius
    assert np.abs(off).max() < 0.001


@pytest.mark.parametrize("radius", [1.0, 150.0, 3000.0])
def test_curves_are_enough_and_not_many(radius: float) -> None:
    count = count_beziers(radius, 360.0)
    quarter = math.radians(360.0 / count) / 4
    assert radius * 4 / 27 * math.sin(quarter) ** 6 / math.cos(quarter) ** 2 <= 0.0005
    assert count <= 64


def test_an_arc_begins_and_ends_where_it_says() -> None:
    arc = Arc(Point(10, 10), 50.0, 30.0, 200.0)
    (line,) = read_lines(draw_pdf(Drawing("a", (Stroke(arc, Pen.CUT),), Box(0, 0, 1, 1))))
    shift = np.array([20.0, 20.0]) * 25.4 / 72
    for point, angle in ((line.points[0], 30.0), (line.points[-1], 200.0)):
        wanted = arc.at(angle)
        assert np.allclose(np.array(point) - shift, (wanted.x, wanted.y), atol=0.001)


def test_a_slot_is_followed_end_to_end_whichever_way_its_arcs_run() -> None:
    slot = Path(
        (
            Line(Point(0, -10), Point(50, -10)),
            Arc(Point(50, 0), 10, -90, 90),
            Line(Point(0, 10), Point(50, 10)),  # runs against the pen
            Arc(Point(0, 0), 10, 90, 270),
        )
    )
    (line,) = read_lines(draw_pdf(as_drawing(Stroke(slot, Pen.CUT))))
    steps = np.hypot(*np.diff(np.array(line.points), axis=0).T)
    assert line.closed
    assert steps.max() == pytest.approx(50.0, abs=0.01)  # no jump longer than the straight sides
    assert (line.width, line.height) == pytest.approx((70.0, 20.0), abs=0.001)
    assert steps.sum() == pytest.approx(2 * 50 + 2 * math.pi * 10, rel=0.01)


def test_forty_quarter_inch_ticks_end_at_ten_inches() -> None:
    """P6: places from one origin do not drift."""
    ticks = [Stroke(Line(Point(i * 6.35, 0), Point(i * 6.35, 3)), Pen.MARK) for i in range(41)]
    lines = read_lines(draw_pdf(as_drawing(*ticks)))
    places = sorted(line.points[0][0] for line in lines)
    assert places[-1] - places[0] == pytest.approx(254.0, abs=0.001)


def test_scale_and_stretch_multiply() -> None:
    line = as_drawing(Stroke(Line(Point(0, 0), Point(100, 200)), Pen.CUT))
    (read,) = read_lines(draw_pdf(line, 0.5, 1.01, 0.99))
    assert (read.width, read.height) == pytest.approx((50.5, 99.0), abs=0.001)


def test_rules_tick_from_their_start() -> None:
    for rule, length in ((Rule("mm", 150), 150.0), (Rule("in", 6), 152.4)):
        lines = read_lines(draw_pdf(Drawing("r", tuple(draw_rule(rule, Point(0, 0))), Box(0, 0, 200, 10))))
        ticks = sorted({round(line.points[0][0], 3) for line in lines if line.width < 0.001})
        assert ticks[-1] - ticks[0] == pytest.approx(length, abs=0.001)


def test_words_fills_and_sizes_are_drawn() -> None:
    import pypdfium2

    drawing = Drawing(
        "all",
        (
            Words(at=Point(5, 5), text="along", size_mm=3.0, anchor="middle", turn_deg=30.0),
            Words(at=Point(5, 15), text="scaled", size_mm=3.0, paper_size=False),
            Dimension(Point(0, 0), Point(100, 0), "100 mm"),
            Dimension(Point(40, 0), Point(40, 4), "4 mm"),
            Dimension(Point(7, 7), Point(7, 7), "nothing"),
            Fill(make_rectangle(0, 0, 9, 9), 0.5),
            Fill(make_rectangle(10, 0, 9, 9), hatch=True),
        ),
        Box(0, 0, 100, 50),
    )
    document = pypdfium2.PdfDocument(draw_pdf(drawing))
    text = document[0].get_textpage().get_text_bounded()
    document.close()
    for word in ("along", "scaled", "100 mm", "4 mm"):
        assert word in text
    assert "nothing" not in text


@pytest.mark.parametrize("bad", [float("nan"), float("inf")])
def test_a_place_that_is_no_number_is_refused(bad: float) -> None:
    drawing = Drawing("odd", (Stroke(Line(Point(0, 0), Point(bad, 1)), Pen.CUT),), Box(0, 0, 9, 9))
    with pytest.raises(ValueError, match="no number"):
        draw_pdf(drawing)

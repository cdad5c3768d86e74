"""Plots: round ticks, true positions, nothing outside the frame."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.shapes.shapes import Line, Path
from packet.draw.model import Drawing, Fill, Pen, Stroke, Words
from packet.draw.views.plots import (
    BOTTOM_MM,
    LEFT_MM,
    RIGHT_MM,
    TOP_MM,
    Axis,
    Curve,
    LimitLine,
    Plot,
    PlotSpot,
    PlotStrip,
    draw_plot,
    find_ticks,
    write_tick,
)


@given(st.floats(-1e6, 1e6), st.floats(1e-3, 1e6))
def test_ticks_are_round_evenly_spaced_and_cover(low: float, width: float) -> None:
    ticks = find_ticks(low, low + width)
    steps = {round(b - a, 9) for a, b in itertools.pairwise(ticks)}
    step = ticks[1] - ticks[0]
    assert ticks[0] <= low + 1e-6 * width
    assert ticks[-1] >= low + width - 1e-6 * width
    assert max(steps) - min(steps) < 1e-6 * max(1.0, abs(ticks[0]), abs(ticks[-1]))
    mantissa = step / 10 ** math.floor(math.log10(step) + 1e-9)
    assert min(abs(mantissa - m) for m in (1, 2, 2.5, 5, 10)) < 1e-3
    assert 2 <= len(ticks) <= 9


@pytest.mark.parametrize(
    ("value", "step", "text"),
    [
        (1000.0, 200.0, "1,000"),
        (2.5, 2.5, "2.5"),
        (0.25, 0.25, "0.25"),
        (-4.0, 2.0, "−4"),
        (0.3, 0.1, "0.3"),
        (17.5, 2.5, "17.5"),
    ],
)
def test_ticks_are_written_with_the_decimals_of_their_step(value: float, step: float, text: str) -> None:
    assert write_tick(value, step) == text


def test_an_axis_without_length_is_refused() -> None:
    with pytest.raises(ValueError, match="above"):
        find_ticks(3.0, 3.0)


def make_plot(**words: object) -> Drawing:
    plot = Plot(name="p", x=Axis("flow [cfm]", 0.0, 1000.0), y=Axis("pressure [inH2O]", 0.0, 10.0), **words)  # type: ignore[arg-type]
    return draw_plot(plot, 182.0, 80.0)


def test_a_curve_lies_where_its_values_say() -> None:
    drawing = make_plot(curves=(Curve(((0.0, 0.0), (500.0, 5.0), (1000.0, 10.0))),))
    path = next(e.shape for e in drawing.entities if isinstance(e, Stroke) and e.pen is Pen.PLOT)
    assert isinstance(path, Path)
    middle = path.pieces[0].end  # type: ignore[union-attr]
    assert middle.x == pytest.approx(LEFT_MM + (182.0 - LEFT_MM - RIGHT_MM) / 2)
    assert middle.y == pytest.approx(BOTTOM_MM + (80.0 - BOTTOM_MM - TOP_MM) / 2)


def test_a_curve_is_cut_where_it_leaves_the_frame() -> None:
    """A line from (0, 0) to (1000, 20) leaves a frame that ends at 10 at flow 500."""
    drawing = make_plot(curves=(Curve(((0.0, 0.0), (1000.0, 20.0))),))
    path = next(e.shape for e in drawing.entities if isinstance(e, Stroke) and e.pen is Pen.PLOT)
    end = path.pieces[-1].end  # type: ignore[union-attr]
    assert end.x == pytest.approx(LEFT_MM + (182.0 - LEFT_MM - RIGHT_MM) / 2)
    assert end.y == pytest.approx(80.0 - TOP_MM)


def test_nothing_lies_outside_the_drawing() -> None:
    drawing = make_plot(
        curves=(Curve(((-200.0, -5.0), (3000.0, 50.0)), label="wild"),),
        strips=(PlotStrip(((0.0, 0.0), (2000.0, 40.0)), ((0.0, 5.0), (2000.0, 90.0))),),
        spots=tuple(PlotSpot(x=500.0 + n, y=5.0, number=str(n)) for n in range(8)),
        limits=(LimitLine(4.0, "limit"), LimitLine(999.0, "upright", upright=True), LimitLine(77.0, "beyond")),
    )
    box = drawing.bounds
    for entity in drawing.entities:
        points = []
        if isinstance(entity, Words):
            points = [entity.at]
        elif isinstance(entity, Fill):
            points = [p for piece in entity.outline.pieces if isinstance(piece, Line) for p in (piece.start, piece.end)]
        elif isinstance(entity, Stroke) and isinstance(entity.shape, Line):
            points = [entity.shape.start, entity.shape.end]
        for point in points:
            assert box.left - 1e-6 <= point.x <= box.right + 1e-6
            assert box.bottom - 1e-6 <= point.y <= box.top + 1e-6
    assert not any(isinstance(e, Words) and e.text == "beyond" for e in drawing.entities)


def test_numbers_of_close_points_do_not_lie_on_each_other() -> None:
    drawing = make_plot(spots=tuple(PlotSpot(x=500.0 + 5 * n, y=5.0, number=str(n)) for n in range(8)))
    xs = sorted(e.at.x for e in drawing.entities if isinstance(e, Words) and e.bold and e.text.isdigit())
    assert len(xs) == 8
    assert min(b - a for a, b in itertools.pairwise(xs)) > 4.6  # two rings of 2.3 mm


def test_axes_are_named() -> None:
    words = {e.text for e in make_plot().entities if isinstance(e, Words)}
    assert {"flow [cfm]", "pressure [inH2O]"} <= words

"""The short cuts of the search for a grid against the long way round: every point asked, every origin worked out."""

from __future__ import annotations

import math

from hypothesis import given, settings
from hypothesis import strategies as st

from calc.cutting import tile_search
from calc.cutting.tile_search import Window, sample_shapes
from calc.shapes.shapes import Arc, Circle, Line, Point, Shape, make_rectangle

WINDOW = Window(188.9, 225.9, 10.0)

places = st.builds(Point, st.floats(-300, 300), st.sampled_from([0.0, 12.7, -203.2]) | st.floats(-300, 300))
drawings = st.lists(
    st.one_of(
        st.builds(Line, places, places),
        st.builds(Circle, places, st.floats(1, 250)),
        st.builds(lambda c, r, a, sweep: Arc(c, r, a, a + sweep), places, st.floats(1, 250), st.floats(-180, 180),
                  st.floats(1, 359)),
        st.builds(lambda p, w, h: make_rectangle(p.x, p.y, w, h), places, st.floats(20, 400), st.floats(20, 400)),
    ),
    min_size=1,
    max_size=4,
)  # fmt: skip


def code(value: float, origin: float, step: float) -> int:
    """Say which windows show a place, from the windows' edges."""
    first = math.floor((value - origin) / step) - 2
    seen = [
        n
        for n in range(first, first + 4)
        if n * step + 1.0 <= value - origin - 1e-9 and value - origin <= n * step + step + WINDOW.overlap - 1.0 + 1e-9
    ]
    return seen[0] + seen[-1]


@settings(max_examples=60, deadline=None)
@given(drawings, st.floats(-200, 200), st.floats(-200, 200))
def test_a_stretch_that_is_not_walked_hides_no_window(shapes: list[Shape], left: float, bottom: float) -> None:
    step_x, step_y = WINDOW.width - WINDOW.overlap, WINDOW.height - WINDOW.overlap
    every = {
        (
            tile_search._code(p.x, left, step_x, WINDOW.overlap),
            tile_search._code(p.y, bottom, step_y, WINDOW.overlap),
        )
        for p in sample_shapes(shapes, 1.0)
    }
    assert tile_search._list_codes(shapes, left, bottom, WINDOW) == every


@settings(max_examples=200, deadline=None)
@given(st.floats(-500, 500), st.floats(-500, 500), st.floats(60, 300))
def test_a_code_names_the_windows_that_show_a_place(value: float, origin: float, step: float) -> None:
    rest = (value - origin) % step
    if all(abs(rest - edge) > 1e-6 for edge in (0.0, 1.0, WINDOW.overlap - 1.0, step)):
        assert tile_search._code(value, origin, step, WINDOW.overlap) == code(value, origin, step)


@settings(max_examples=25, deadline=None)
@given(drawings)
def test_origins_come_in_the_order_of_all_worked_out(shapes: list[Shape]) -> None:
    drawn = {False: tuple(shapes)}
    rough = tile_search._make_rough(False, drawn[False], WINDOW)
    least = rough.list_least()
    tries = [tile_search._try_origin(rough, number, x, y, WINDOW) for _, number, x, y in least]
    assert all(sure <= one.sheets for (sure, *_), one in zip(least, tries, strict=True))
    assert list(tile_search._list_tries(drawn, WINDOW)) == sorted(tries, key=lambda one: one.rank)

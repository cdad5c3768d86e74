"""Tiling: nothing left out, as few sheets as an exhaustive search finds, names kept, refusals before any hang."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.cutting import tiles
from calc.cutting.tiles import (
    INK_MM,
    Tiling,
    TilingRefused,
    fits_plain_grid,
    name_row,
    pack_small,
    sample_shapes,
    tile_shapes,
)
from calc.shapes.shapes import Circle, Line, Path, Point, Shape, make_rectangle, turn_shape

LETTER = (188.9, 225.9)  # a window on letter paper
OVERLAP = 10.0


def ring(outside: float, inside: float) -> list[Shape]:
    return [Circle(Point(0.0, 0.0), outside / 2), Circle(Point(0.0, 0.0), inside / 2)]


def is_whole(tiling: Tiling, shapes: list[Shape]) -> bool:
    """Tell whether each point of the drawing lies in a kept window, with half the room for a line's weight round it."""
    drawn = [turn_shape(s) for s in shapes] if tiling.turned else shapes
    xy = np.array([(p.x, p.y) for p in sample_shapes(drawn, 0.5)])
    seen = np.zeros(len(xy), dtype=bool)
    for tile in tiling.tiles:
        box = tile.window
        seen |= (
            (xy[:, 0] >= box.left + INK_MM / 2)
            & (xy[:, 0] <= box.right - INK_MM / 2)
            & (xy[:, 1] >= box.bottom + INK_MM / 2)
            & (xy[:, 1] <= box.top - INK_MM / 2)
        )
    return bool(seen.all())


def search_exhaustively(shapes: list[Shape], width: float, height: float, overlap: float, every: float) -> int:
    """Return the fewest sheets over every grid origin (a step of `every` mm both ways) and both turns.

    A window counts when it alone shows some point; points that only strips show are then covered by brute force.
    """
    best = 10**9
    for turned in (False, True):
        drawn = [turn_shape(s) for s in shapes] if turned else shapes
        xy = np.unique(np.round([(p.x, p.y) for p in sample_shapes(drawn, 2.0)], 3), axis=0)
        for x, y in itertools.product(np.arange(0, width - overlap, every), np.arange(0, height - overlap, every)):
            best = min(best, count_sheets(xy, x, y, width, height, overlap, best))
    return best


def count_sheets(xy: np.ndarray, x: float, y: float, width: float, height: float, overlap: float, best: int) -> int:
    options = []
    for values, origin, window in ((xy[:, 0], x, width), (xy[:, 1], y, height)):
        step = window - overlap
        high = np.floor((values - INK_MM - origin) / step).astype(int)  # last window that begins early enough
        low = np.ceil((values + INK_MM - window - origin) / step).astype(int)  # first window that ends late enough
        options.append((low, high))
    (c0, c1), (r0, r1) = options
    keys = np.unique(np.column_stack([c0, c1, r0, r1]), axis=0)
    alone = {(c, r) for c, cc, r, rr in keys.tolist() if c == cc and r == rr}
    if len(alone) >= best:
        return best
    loose = [set(itertools.product(range(c, cc + 1), range(r, rr + 1))) for c, cc, r, rr in keys.tolist()]
    loose = [cells for cells in loose if not cells & alone]
    spare = sorted(set().union(*loose)) if loose else []
    for size in range(best - len(alone)):
        for chosen in itertools.combinations(spare, size):
            if all(cells & set(chosen) for cells in loose):
                return len(alone) + size
    return best


@pytest.mark.parametrize(
    ("shapes", "every"),
    [
        ([Circle(Point(0.0, 0.0), 97.5)], 5.0),  # hardly wider than the sheet
        ([Circle(Point(0.0, 0.0), 115.0)], 5.0),  # a corner sheet can be saved
        ([Circle(Point(40.0, -7.0), 150.7)], 6.0),  # a common pail
        ([Circle(Point(0.0, 0.0), 190.0)], 7.0),
        (ring(584.2, 533.4), 11.0),  # 23 in outside, 21 in inside: nothing in the middle
        ([make_rectangle(0.0, 0.0, 400.0, 30.0)], 6.0),
        ([Line(Point(0.0, 0.0), Point(420.0, 300.0))], 7.0),
        ([make_rectangle(0.0, 0.0, 60.0, 60.0), make_rectangle(300.0, 250.0, 60.0, 60.0)], 6.0),
    ],
)
def test_no_grid_takes_fewer_sheets(shapes: list[Shape], every: float) -> None:
    found = tile_shapes(shapes, *LETTER, OVERLAP)
    assert is_whole(found, shapes)
    assert len(found.tiles) <= search_exhaustively(shapes, *LETTER, OVERLAP, every)


def test_a_slip_of_search_would_be_seen() -> None:
    """The exhaustive search is no rubber stamp: the plain grid over this disc takes one sheet more."""
    shapes: list[Shape] = [Circle(Point(0.0, 0.0), 115.0)]
    assert len(tile_shapes(shapes, *LETTER, OVERLAP).tiles) == 3
    assert search_exhaustively(shapes, *LETTER, OVERLAP, 6.0) >= 3


@settings(max_examples=30, deadline=None)
@given(
    st.lists(st.tuples(st.floats(-200, 200), st.floats(-200, 200), st.floats(5, 220)), min_size=1, max_size=4),
    st.floats(90, 400),
    st.floats(90, 400),
    st.floats(3, 20),
)
def test_every_line_is_on_some_sheet(
    circles: list[tuple[float, float, float]], width: float, height: float, overlap: float
) -> None:
    shapes: list[Shape] = [Circle(Point(x, y), r) for x, y, r in circles]
    tiling = tile_shapes(shapes, width, height, overlap, most=400)
    assert is_whole(tiling, shapes)
    places = [(t.row, t.column) for t in tiling.tiles]
    assert len(set(places)) == len(places)
    assert min(r for r, _ in places) == 0
    assert min(c for _, c in places) == 0


def test_windows_stand_on_one_grid() -> None:
    tiling = tile_shapes(ring(584.2, 533.4), *LETTER, OVERLAP)
    first = tiling.tiles[0]
    for tile in tiling.tiles:
        right = (tile.column - first.column) * (LETTER[0] - OVERLAP)
        down = (tile.row - first.row) * (LETTER[1] - OVERLAP)
        assert tile.window.left == pytest.approx(first.window.left + right)
        assert tile.window.top == pytest.approx(first.window.top - down)


def test_empty_middle_sheets_are_skipped_by_name() -> None:
    tiling = tile_shapes(ring(584.2, 533.4), *LETTER, OVERLAP)
    assert tiling.skipped
    names = {tile.name for tile in tiling.tiles}
    assert not names & set(tiling.skipped)
    assert len(names) + len(tiling.skipped) == tiling.rows * tiling.columns


def test_content_is_turned_when_that_saves_paper() -> None:
    tiling = tile_shapes([make_rectangle(0.0, 0.0, 220.0, 100.0)], *LETTER, OVERLAP)
    assert tiling.turned
    assert len(tiling.tiles) == 1


def test_rows_have_letters() -> None:
    assert [name_row(i) for i in (0, 1, 25, 26, 27, 51, 52, 701, 702)] == [
        "A", "B", "Z", "AA", "AB", "AZ", "BA", "ZZ", "AAA",
    ]  # fmt: skip


@pytest.mark.parametrize("size", [24000.0, 4800 * 25.4, 1e9])
def test_absurd_sizes_are_refused_with_the_count_before_any_search(
    size: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delattr(tiles, "find_grid")
    with pytest.raises(TilingRefused, match="sheets") as refusal:
        tile_shapes([make_rectangle(0.0, 0.0, size, 600.0)], *LETTER, OVERLAP)
    assert refusal.value.count > 24


def test_more_sheets_than_allowed_are_refused_with_the_count() -> None:
    with pytest.raises(TilingRefused, match="at most 8") as refusal:
        tile_shapes(ring(584.2, 533.4), *LETTER, OVERLAP, most=8)
    assert refusal.value.count == 10


@pytest.mark.parametrize("overlap", [0.0, 1.0, 203.2, 100.0])
def test_overlap_must_leave_a_step(overlap: float) -> None:
    with pytest.raises(TilingRefused, match="overlap"):
        tile_shapes([Circle(Point(0.0, 0.0), 150.0)], *LETTER, overlap)


@pytest.mark.parametrize("bad", [float("nan"), float("inf")])
def test_no_number_is_refused(bad: float) -> None:
    with pytest.raises(TilingRefused, match="no number"):
        tile_shapes([Circle(Point(bad, 0.0), 150.0)], *LETTER, OVERLAP)


def test_an_open_path_is_sampled_end_to_end() -> None:
    path = Path((Line(Point(0, 0), Point(10, 0)), Line(Point(10, 0), Point(10, 7))), closed=False)
    points = sample_shapes([path], 1.0)
    assert Point(0, 0) in points
    assert Point(10, 7) in points


# --- small parts ----------------------------------------------------------------------------------------------------


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.floats(5, 180), st.floats(5, 220)), min_size=1, max_size=12))
def test_small_parts_lie_on_the_sheet_and_not_on_each_other(sizes: list[tuple[float, float]]) -> None:
    spots = pack_small(sizes, *LETTER)
    assert sorted(spot.index for spot in spots) == list(range(len(sizes)))
    rooms = []
    for spot in spots:
        wide, tall = sizes[spot.index]
        assert spot.left_mm >= 0
        assert spot.bottom_mm >= -1e-9
        assert spot.left_mm + wide <= LETTER[0] + 1e-9
        assert spot.bottom_mm + tall <= LETTER[1] + 1e-9
        rooms.append((spot.sheet, spot.left_mm, spot.bottom_mm, spot.left_mm + wide, spot.bottom_mm + tall))
    for one, two in itertools.combinations(rooms, 2):
        apart = one[3] <= two[1] + 1e-9 or two[3] <= one[1] + 1e-9 or one[4] <= two[2] + 1e-9 or two[4] <= one[2] + 1e-9
        assert one[0] != two[0] or apart


def test_a_part_larger_than_the_sheet_is_refused() -> None:
    with pytest.raises(ValueError, match="larger than the sheet"):
        pack_small([(300.0, 300.0)], *LETTER)


def test_four_small_cards_share_one_sheet() -> None:
    assert {spot.sheet for spot in pack_small([(90.0, 50.0)] * 4, *LETTER)} == {0}


@given(st.floats(50.0, 2400.0), st.floats(50.0, 2400.0), st.integers(2, 24))
@settings(max_examples=40, deadline=None)
def test_what_a_plain_grid_takes_in_is_never_refused(wide: float, tall: float, most: int) -> None:
    shapes = [make_rectangle(0.0, 0.0, wide, tall)]
    if fits_plain_grid(shapes, *LETTER, OVERLAP, most):
        assert len(tile_shapes(shapes, *LETTER, OVERLAP, most).tiles) <= most

"""Cuts a full-size drawing into the fewest sheets of paper, and lays small parts together on one sheet."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.cutting.tile_search import INK_MM, Grid, Window, count_windows, find_grid, sample_shapes
from calc.shapes.shapes import Box, Shape, find_bounds, turn_shape

__all__ = [
    "INK_MM",
    "Tile",
    "TileSpot",
    "Tiling",
    "TilingRefused",
    "fits_plain_grid",
    "name_row",
    "pack_small",
    "sample_shapes",
    "tile_shapes",
]


class TilingRefused(ValueError):
    """A drawing cannot be tiled: too many sheets (count says how many), or no room left between the overlaps."""

    def __init__(self, message: str, count: int = 0) -> None:
        super().__init__(message)
        self.count = count


@dataclass(frozen=True)
class Tile:
    """One sheet: row from the top (0 is A), column from the left (0 is 1), and the window it shows [mm]."""

    row: int
    column: int
    window: Box

    @property
    def name(self) -> str:
        return f"{name_row(self.row)}{self.column + 1}"


@dataclass(frozen=True, kw_only=True)
class Tiling:
    """The sheets of one drawing, in reading order; empty sheets are left out but rows and columns keep their names.

    turned: the drawing is turned a quarter anticlockwise about 0, 0 before it is cut into windows
    """

    tiles: tuple[Tile, ...]
    rows: int
    columns: int
    turned: bool
    overlap_mm: float
    bounds: Box

    def find(self, row: int, column: int) -> Tile | None:
        """Return the sheet in that place, or None where there is none."""
        return {(t.row, t.column): t for t in self.tiles}.get((row, column))

    @property
    def skipped(self) -> tuple[str, ...]:
        """Names of the empty sheets that are not printed."""
        kept = {(t.row, t.column) for t in self.tiles}
        every = itertools.product(range(self.rows), range(self.columns))
        return tuple(f"{name_row(r)}{c + 1}" for r, c in every if (r, c) not in kept)


@dataclass(frozen=True)
class TileSpot:
    """Where a small part lies: index in the list it came from, sheet, lower left corner [mm]."""

    index: int
    sheet: int
    left_mm: float
    bottom_mm: float


def name_row(row: int) -> str:
    """Return A, B ... Z, AA, AB ... for 0, 1 ..."""
    text = ""
    row += 1
    while row:
        row, rest = divmod(row - 1, 26)
        text = chr(65 + rest) + text
    return text


# --- tiling ---------------------------------------------------------------------------------------------------------


def tile_shapes(
    shapes: Sequence[Shape], width_mm: float, height_mm: float, overlap_mm: float, most: int = 24
) -> Tiling:
    """Return the fewest sheets, windows width x height [mm] that overlap, on which every shape is drawn whole.

    Grid origin and content turn are searched; sheets without any line are skipped. Raises TilingRefused when the
    overlap leaves no step, when the drawing is not finite, or when it would need more than `most` sheets.
    """
    step_x, step_y = width_mm - overlap_mm, height_mm - overlap_mm
    if overlap_mm <= 2 * INK_MM:
        raise TilingRefused(f"an overlap of {overlap_mm:.1f} mm is too small; it must be more than {2 * INK_MM:.0f} mm")
    if min(step_x, step_y) < overlap_mm:
        raise TilingRefused(
            f"an overlap of {overlap_mm:.1f} mm leaves no sheet: {width_mm:.0f} x {height_mm:.0f} mm are printable"
        )
    box = find_bounds(tuple(shapes))
    if not all(map(math.isfinite, (box.left, box.right, box.bottom, box.top))):
        raise TilingRefused("the drawing has a size that is no number")
    whole = min(
        _count_whole(box.width, box.height, width_mm, height_mm, overlap_mm),
        _count_whole(box.height, box.width, width_mm, height_mm, overlap_mm),
    )
    # A line of length L crosses at least L / step sheets; far beyond the cap there is no point in looking closer.
    longest = max(box.width, box.height)
    least = math.ceil(longest / math.hypot(width_mm, height_mm))
    if least > most:
        raise TilingRefused(
            f"{longest:.0f} mm would take at least {least} sheets; at most {most} are allowed", max(least, whole)
        )
    if whole == 1 or (whole == 2):
        return _tile_whole(shapes, box, width_mm, height_mm, overlap_mm)
    grid = find_grid(shapes, Window(width_mm, height_mm, overlap_mm))
    best = _tile_grid(shapes, grid, width_mm, height_mm, overlap_mm)
    if len(best.tiles) > whole:
        best = _tile_whole(shapes, box, width_mm, height_mm, overlap_mm)
    if len(best.tiles) > most:
        raise TilingRefused(
            f"{box.width:.0f} x {box.height:.0f} mm would take {len(best.tiles)} sheets; at most {most} are allowed",
            len(best.tiles),
        )
    return best


def fits_plain_grid(shapes: Sequence[Shape], width_mm: float, height_mm: float, overlap_mm: float, most: int) -> bool:
    """Tell whether a plain grid takes a drawing on at most `most` sheets, so that tile_shapes cannot refuse it."""
    if overlap_mm <= 2 * INK_MM or min(width_mm, height_mm) < 2 * overlap_mm:
        return False
    box = find_bounds(tuple(shapes))
    if not all(map(math.isfinite, (box.left, box.right, box.bottom, box.top))):
        return False
    ways = ((box.width, box.height), (box.height, box.width))
    return min(_count_whole(*sides, width_mm, height_mm, overlap_mm) for sides in ways) <= most


def _count_whole(width: float, height: float, window_x: float, window_y: float, overlap: float) -> int:
    """Return how many sheets a plain grid over the bounding box takes."""
    return count_windows(width, window_x, overlap) * count_windows(height, window_y, overlap)


def _tile_whole(shapes: Sequence[Shape], box: Box, width: float, height: float, overlap: float) -> Tiling:
    """Return the one or two sheets that a plain grid gives: fewer are impossible, so nothing is searched."""
    upright = _count_whole(box.width, box.height, width, height, overlap)
    turned = _count_whole(box.height, box.width, width, height, overlap) < upright
    if turned:
        box = find_bounds(tuple(turn_shape(s) for s in shapes))
    columns, rows = count_windows(box.width, width, overlap), count_windows(box.height, height, overlap)
    left = (box.left + box.right) / 2 - (columns * (width - overlap) + overlap) / 2
    bottom = (box.bottom + box.top) / 2 - (rows * (height - overlap) + overlap) / 2
    cells = [(column, row) for row in range(rows) for column in range(columns)]
    return _name_tiles(cells, left, bottom, width, height, overlap, turned, box)


def _tile_grid(shapes: Sequence[Shape], grid: Grid, width: float, height: float, overlap: float) -> Tiling:
    box = find_bounds(tuple(turn_shape(s) for s in shapes) if grid.turned else tuple(shapes))
    return _name_tiles(sorted(grid.cells), grid.left, grid.bottom, width, height, overlap, grid.turned, box)


def _name_tiles(
    cells: Sequence[tuple[int, int]],
    left: float,
    bottom: float,
    width: float,
    height: float,
    overlap: float,
    turned: bool,
    bounds: Box,
) -> Tiling:
    """Turn (column, row from the bottom) cells into named sheets, rows counted from the top."""
    first, top = min(c for c, _ in cells), max(r for _, r in cells)
    columns, rows = 1 + max(c for c, _ in cells) - first, 1 + top - min(r for _, r in cells)
    tiles = []
    for column, row in cells:
        x, y = left + column * (width - overlap), bottom + row * (height - overlap)
        tiles.append(Tile(top - row, column - first, Box(x, y, x + width, y + height)))
    tiles.sort(key=lambda t: (t.row, t.column))
    return Tiling(tiles=tuple(tiles), rows=rows, columns=columns, turned=turned, overlap_mm=overlap, bounds=bounds)


# --- small parts together -------------------------------------------------------------------------------------------


def pack_small(
    sizes: Sequence[tuple[float, float]], width_mm: float, height_mm: float, gap_mm: float = 4.0
) -> tuple[TileSpot, ...]:
    """Return a place for each small part (width, height) [mm] on as few sheets as shelves can make it.

    Tallest first, each on the first shelf with room; nothing is turned. Raises ValueError for a part that is larger
    than a sheet.
    """
    for index, (wide, tall) in enumerate(sizes):
        if wide > width_mm or tall > height_mm:
            raise ValueError(f"part {index} ({wide:.0f} x {tall:.0f} mm) is larger than the sheet")
    shelves: list[_Shelf] = []
    spots = []
    for index, (wide, tall) in sorted(enumerate(sizes), key=lambda part: (-part[1][1], -part[1][0], part[0])):
        shelf = next((s for s in shelves if s.tall >= tall and s.used + wide <= width_mm), None)
        if shelf is None:
            shelf = _open_shelf(shelves, tall, height_mm, gap_mm)
        spots.append(TileSpot(index, shelf.sheet, shelf.used, shelf.top - tall))
        shelf.used += wide + gap_mm
    return tuple(sorted(spots, key=lambda spot: spot.index))


@dataclass
class _Shelf:
    sheet: int
    top: float
    tall: float
    used: float = 0.0


def _open_shelf(shelves: list[_Shelf], tall: float, height: float, gap: float) -> _Shelf:
    """Add a shelf under the lowest one of the first sheet that has room, or on a fresh sheet."""
    lowest: dict[int, float] = {}
    for shelf in shelves:
        lowest[shelf.sheet] = min(lowest.get(shelf.sheet, height), shelf.top - shelf.tall - gap)
    sheet = next((s for s, y in sorted(lowest.items()) if y >= tall), len(lowest))
    shelf = _Shelf(sheet, lowest.get(sheet, height), tall)
    shelves.append(shelf)
    return shelf

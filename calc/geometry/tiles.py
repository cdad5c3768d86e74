"""Cuts a full-size drawing into the fewest sheets of paper, and lays small parts together on one sheet."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from calc.geometry.shapes import Arc, Box, Circle, Line, Path, Point, Shape, find_bounds, turn_shape

INK_MM = 1.0
"""A line needs this much paper on either side: half its weight and a hair for the eye."""

_COARSE_MM = 4.0
_THIN_MM = 9.0
_FINE_MM = 1.0
_GRID = 14  # origins tried over one step, each way, beside those that an edge of the drawing suggests


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


@dataclass(frozen=True)
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
class Spot:
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
    best = _search(shapes, width_mm, height_mm, overlap_mm)
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


def _count(length: float, window: float, overlap: float) -> int:
    return max(1, math.ceil((length + 2 * INK_MM - overlap) / (window - overlap) - 1e-9))


def _count_whole(width: float, height: float, window_x: float, window_y: float, overlap: float) -> int:
    """Return how many sheets a plain grid over the bounding box takes."""
    return _count(width, window_x, overlap) * _count(height, window_y, overlap)


def _tile_whole(shapes: Sequence[Shape], box: Box, width: float, height: float, overlap: float) -> Tiling:
    """Return the one or two sheets that a plain grid gives: fewer are impossible, so nothing is searched."""
    upright = _count_whole(box.width, box.height, width, height, overlap)
    turned = _count_whole(box.height, box.width, width, height, overlap) < upright
    if turned:
        box = find_bounds(tuple(turn_shape(s) for s in shapes))
    columns, rows = _count(box.width, width, overlap), _count(box.height, height, overlap)
    left = (box.left + box.right) / 2 - (columns * (width - overlap) + overlap) / 2
    bottom = (box.bottom + box.top) / 2 - (rows * (height - overlap) + overlap) / 2
    cells = [(column, row) for row in range(rows) for column in range(columns)]
    return _name_tiles(cells, left, bottom, width, height, overlap, turned, box)


@dataclass(frozen=True)
class _Try:
    """One origin: sheets needed, grid cells spanned, and how far it is from lying even on the paper."""

    sheets: int
    cells: int
    uneven: float
    turned: bool
    left: float
    bottom: float

    @property
    def rank(self) -> tuple[int, bool, int, float]:
        return (self.sheets, self.turned, self.cells, round(self.uneven, 3))


def _search(shapes: Sequence[Shape], width: float, height: float, overlap: float) -> Tiling:
    """Try many origins with few points, which can only promise too few sheets; look again at the promising ones."""
    tries: list[_Try] = []
    drawn = {False: tuple(shapes), True: tuple(turn_shape(s) for s in shapes)}
    for turned, these in drawn.items():
        points = _thin_out(sample_shapes(these, _COARSE_MM))
        box = find_bounds(these)
        marks = [find_bounds((s,)) for s in these]
        xs = _list_origins([(m.left, m.right) for m in marks], box.left, box.right, width, overlap)
        ys = _list_origins([(m.bottom, m.top) for m in marks], box.bottom, box.top, height, overlap)
        columns = {x: _gather(_code([p.x for p in points], x, width - overlap, overlap)) for x in xs}
        rows = {y: _gather(_code([p.y for p in points], y, height - overlap, overlap)) for y in ys}
        mid_x, mid_y = (box.left + box.right) / 2, (box.bottom + box.top) / 2
        for x, y in itertools.product(xs, ys):
            cells = _cover({(c, r) for c, across in columns[x] for r, along in rows[y] if across & along})
            low_c, high_c = min(c for c, _ in cells), max(c for c, _ in cells)
            low_r, high_r = min(r for _, r in cells), max(r for _, r in cells)
            centre_x = x + ((low_c + high_c + 1) * (width - overlap) + overlap) / 2
            centre_y = y + ((low_r + high_r + 1) * (height - overlap) + overlap) / 2
            uneven = math.hypot(centre_x - mid_x, centre_y - mid_y)
            spanned = (high_c - low_c + 1) * (high_r - low_r + 1)
            tries.append(_Try(len(cells), spanned, uneven, turned, x, y))
    tries.sort(key=lambda t: t.rank)
    return _settle(tries, drawn, width, height, overlap)


def _thin_out(points: Sequence[Point]) -> list[Point]:
    """Keep one point of each small square."""
    return list({(int(p.x // _THIN_MM), int(p.y // _THIN_MM)): p for p in points}.values())


def _settle(
    tries: Sequence[_Try],
    drawn: dict[bool, tuple[Shape, ...]],
    width: float,
    height: float,
    overlap: float,
) -> Tiling:
    """Look at the best tries closely until none of the rest can promise fewer sheets."""
    fine: dict[bool, list[Point]] = {}
    best: Tiling | None = None
    for attempt in tries[:40]:
        if best is not None and attempt.sheets >= len(best.tiles):
            break
        if attempt.turned not in fine:
            fine[attempt.turned] = sample_shapes(drawn[attempt.turned], _FINE_MM)
        points = fine[attempt.turned]
        columns = _code([p.x for p in points], attempt.left, width - overlap, overlap)
        rows = _code([p.y for p in points], attempt.bottom, height - overlap, overlap)
        cells = _cover(set(zip(columns, rows, strict=True)))
        if best is None or len(cells) < len(best.tiles):
            box = find_bounds(drawn[attempt.turned])
            best = _name_tiles(sorted(cells), attempt.left, attempt.bottom, width, height, overlap, attempt.turned, box)
    assert best is not None
    return best


def _list_origins(
    marks: Iterable[tuple[float, float]], low: float, high: float, window: float, overlap: float
) -> list[float]:
    """Return grid origins worth trying: even spread, centred, and with a window's edge at an edge of the drawing."""
    step = window - overlap
    count = _count(high - low, window, overlap)
    centred = (low + high) / 2 - (count * step + overlap) / 2
    origins = [centred, low - INK_MM, high + INK_MM - window]
    for left, right in marks:
        if right - left > overlap:
            origins += [left - INK_MM, right + INK_MM - window]
    origins += [low + index * step / _GRID for index in range(_GRID)]
    # Origins a whole step apart are the same grid.
    return list({round((o - low) % step, 3): low + (o - low) % step for o in origins}.values())


def _code(values: Sequence[float], origin: float, step: float, overlap: float) -> list[int]:
    """Return for each value 2 i when only window i shows it, 2 i - 1 when windows i - 1 and i both do."""
    low, high = INK_MM, overlap - INK_MM
    codes = []
    for value in values:
        index = math.floor((value - origin) / step)
        rest = value - origin - index * step
        codes.append(2 * index - (2 if rest < low else 1 if rest <= high else 0))
    return codes


def _gather(codes: Sequence[int]) -> list[tuple[int, int]]:
    """Return each code with the points that have it, one bit a point: two sets of points share one if ``a & b``."""
    places: dict[int, int] = {}
    for index, code in enumerate(codes):
        places[code] = places.get(code, 0) | 1 << index
    return sorted(places.items())


def _cover(codes: set[tuple[int, int]]) -> set[tuple[int, int]]:
    """Return the fewest (column, row) windows that show every point; points are given by their codes."""
    kept = {(c // 2, r // 2) for c, r in codes if c % 2 == 0 and r % 2 == 0}
    open_points = []
    for c, r in codes:
        if c % 2 == 0 and r % 2 == 0:
            continue
        cs = (c // 2,) if c % 2 == 0 else ((c - 1) // 2, (c + 1) // 2)
        rs = (r // 2,) if r % 2 == 0 else ((r - 1) // 2, (r + 1) // 2)
        options = frozenset(itertools.product(cs, rs))
        if not options & kept:
            open_points.append(options)
    if not open_points:
        return kept
    spare = sorted(frozenset().union(*open_points))
    for size in range(1, min(len(spare), 4) + 1):
        for chosen in itertools.combinations(spare, size):
            if all(options & set(chosen) for options in open_points):
                return kept | set(chosen)
    while open_points:  # very many loose strips: take the window that shows most of them
        busiest = max(spare, key=lambda cell: sum(cell in options for options in open_points))
        kept.add(busiest)
        open_points = [options for options in open_points if busiest not in options]
    return kept


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
    return Tiling(tuple(tiles), rows, columns, turned, overlap, bounds)


def sample_shapes(shapes: Sequence[Shape], every_mm: float) -> list[Point]:
    """Return points on all shapes, no more than every_mm apart, ends included."""
    return [point for shape in shapes for point in _sample(shape, every_mm)]


def _sample(shape: Shape, every: float) -> list[Point]:
    if isinstance(shape, Line):
        dx, dy = shape.end.x - shape.start.x, shape.end.y - shape.start.y
        count = max(1, math.ceil(math.hypot(dx, dy) / every))
        return [Point(shape.start.x + dx * i / count, shape.start.y + dy * i / count) for i in range(count + 1)]
    if isinstance(shape, Path):
        return [point for piece in shape.pieces for point in _sample(piece, every)]
    if isinstance(shape, Circle):
        shape = Arc(shape.centre, shape.radius, 0.0, 360.0)
    sweep = shape.end_deg - shape.start_deg
    count = max(4, 4 * math.ceil(math.radians(sweep) * shape.radius / every / 4))
    return [shape.at(shape.start_deg + sweep * i / count) for i in range(count + 1)]


# --- small parts together -------------------------------------------------------------------------------------------


def pack_small(
    sizes: Sequence[tuple[float, float]], width_mm: float, height_mm: float, gap_mm: float = 4.0
) -> tuple[Spot, ...]:
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
        spots.append(Spot(index, shelf.sheet, shelf.used, shelf.top - tall))
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

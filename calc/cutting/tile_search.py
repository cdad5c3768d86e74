"""Where a grid of windows lies best over a drawing: the origin and turn that take the fewest sheets of paper."""

from __future__ import annotations

import itertools
import math
from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from calc.shapes.shapes import Arc, Box, Circle, Line, Path, Point, Shape, find_bounds, turn_shape

INK_MM = 1.0
"""A line needs this much paper on either side: half its weight and a hair for the eye."""

_COARSE_MM = 4.0
_THIN_MM = 9.0
_FINE_MM = 1.0
_GRID = 14  # origins tried over one step, each way, beside those that an edge of the drawing suggests
_MOST_TRIES = 40
_HAIR_MM = 1e-6  # more than rounding moves a point

Cells = set[tuple[int, int]]
Coded = list[tuple[int, int]]


@dataclass(frozen=True)
class Window:
    """One sheet's view [mm], and how far it overlaps the next."""

    width: float
    height: float
    overlap: float


@dataclass(frozen=True)
class Grid:
    """A grid over a drawing that was turned or not: left, bottom of cell 0, 0 [mm]; cells: (column, row) to print."""

    turned: bool
    left: float
    bottom: float
    cells: frozenset[tuple[int, int]]


def find_grid(shapes: Sequence[Shape], window: Window) -> Grid:
    """Return the grid with the fewest windows that show every shape whole.

    Many origins are tried with few points, which can only promise too few sheets; those that promise most are looked
    at closely until none of the rest can promise fewer.
    """
    drawn = {False: tuple(shapes), True: tuple(turn_shape(s) for s in shapes)}
    best: Grid | None = None
    for attempt in itertools.islice(_list_tries(drawn, window), _MOST_TRIES):
        if best is not None and attempt.sheets >= len(best.cells):
            break
        cells = _cover(_list_codes(drawn[attempt.turned], attempt.left, attempt.bottom, window))
        if best is None or len(cells) < len(best.cells):
            best = Grid(attempt.turned, attempt.left, attempt.bottom, frozenset(cells))
    assert best is not None
    return best


# --- origins to try -------------------------------------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True)
class _OriginTry:
    """One origin: sheets needed, grid cells spanned, how far off the middle of the paper it puts the drawing."""

    sheets: int
    cells: int
    uneven: float
    number: int
    turned: bool
    left: float
    bottom: float

    @property
    def rank(self) -> tuple[int, int, float, int]:
        return (self.sheets, self.cells, round(self.uneven, 3), self.number)


@dataclass(frozen=True)
class _Rough:
    """A drawing as few points, turned or not: for every origin across and along, which points have which code."""

    turned: bool
    box: Box
    columns: dict[float, Coded]
    rows: dict[float, Coded]

    def list_least(self) -> list[tuple[int, int, float, float]]:
        """Return for every origin how many windows alone show some point, its number and itself; the least comes last.

        So many sheets it takes at least.
        """
        sure_rows = [(y, [points for code, points in coded if code % 2 == 0]) for y, coded in self.rows.items()]
        least: list[tuple[int, int, float, float]] = []
        for x, coded in self.columns.items():
            sure = [points for code, points in coded if code % 2 == 0]
            for y, others in sure_rows:
                count = len([0 for across in sure for along in others if across & along])
                least.append((count, len(least), x, y))
        return sorted(least, reverse=True)


def _list_tries(drawn: dict[bool, tuple[Shape, ...]], window: Window) -> Iterator[_OriginTry]:
    """Give the origins, best first: fewest sheets, then upright, then rank. Only what may be next is worked out."""
    rough = [_make_rough(turned, shapes, window) for turned, shapes in drawn.items()]
    waiting = [one.list_least() for one in rough]
    made: list[list[_OriginTry]] = [[] for _ in rough]
    sheets = 0
    while any(waiting) or any(made):
        sheets += 1
        for one, origins, tries in zip(rough, waiting, made, strict=True):
            while origins and origins[-1][0] <= sheets:
                _, number, x, y = origins.pop()
                tries.append(_try_origin(one, number, x, y, window))
            ready = sorted((t for t in tries if t.sheets <= sheets), key=lambda t: t.rank)
            tries[:] = [t for t in tries if t.sheets > sheets]
            yield from ready


def _make_rough(turned: bool, shapes: tuple[Shape, ...], window: Window) -> _Rough:
    points = _thin_out([place for shape in shapes for place in _sample(shape, _COARSE_MM)])
    box = find_bounds(shapes)
    marks = [find_bounds((s,)) for s in shapes]
    across, along = _line_up([x for x, _ in points]), _line_up([y for _, y in points])
    lefts = _list_origins([(m.left, m.right) for m in marks], box.left, box.right, window.width, window.overlap)
    bottoms = _list_origins([(m.bottom, m.top) for m in marks], box.bottom, box.top, window.height, window.overlap)
    return _Rough(
        turned,
        box,
        {x: _gather(across, x, window.width - window.overlap, window.overlap) for x in lefts},
        {y: _gather(along, y, window.height - window.overlap, window.overlap) for y in bottoms},
    )


def _try_origin(rough: _Rough, number: int, x: float, y: float, window: Window) -> _OriginTry:
    cells = _cover({(c, r) for c, across in rough.columns[x] for r, along in rough.rows[y] if across & along})
    low_c, high_c = min(c for c, _ in cells), max(c for c, _ in cells)
    low_r, high_r = min(r for _, r in cells), max(r for _, r in cells)
    centre_x = x + ((low_c + high_c + 1) * (window.width - window.overlap) + window.overlap) / 2
    centre_y = y + ((low_r + high_r + 1) * (window.height - window.overlap) + window.overlap) / 2
    box = rough.box
    uneven = math.hypot(centre_x - (box.left + box.right) / 2, centre_y - (box.bottom + box.top) / 2)
    spanned = (high_c - low_c + 1) * (high_r - low_r + 1)
    return _OriginTry(
        sheets=len(cells), cells=spanned, uneven=uneven, number=number, turned=rough.turned, left=x, bottom=y
    )


def _list_origins(
    marks: Iterable[tuple[float, float]], low: float, high: float, window: float, overlap: float
) -> list[float]:
    """Return grid origins worth trying: even spread, centred, and with a window's edge at an edge of the drawing."""
    step = window - overlap
    centred = (low + high) / 2 - (count_windows(high - low, window, overlap) * step + overlap) / 2
    origins = [centred, low - INK_MM, high + INK_MM - window]
    for left, right in marks:
        if right - left > overlap:
            origins += [left - INK_MM, right + INK_MM - window]
    origins += [low + index * step / _GRID for index in range(_GRID)]
    # Origins a whole step apart are the same grid.
    return list({round((o - low) % step, 3): low + (o - low) % step for o in origins}.values())


def count_windows(length: float, window: float, overlap: float) -> int:
    """Return how many windows in a row show a length whole, ink included [mm]."""
    return max(1, math.ceil((length + 2 * INK_MM - overlap) / (window - overlap) - 1e-9))


# --- which windows show a point -------------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Row:
    """Points along one way: their places rising, and ``before[n]``: the first n of them, one bit a point."""

    values: list[float]
    before: list[int]


def _line_up(values: Sequence[float]) -> _Row:
    order = sorted(range(len(values)), key=values.__getitem__)
    before = [0]
    for index in order:
        before.append(before[-1] | 1 << index)
    return _Row([values[index] for index in order], before)


def _code(value: float, origin: float, step: float, overlap: float) -> int:
    """Return 2 i when only window i shows a place, 2 i - 1 when i - 1 and i both do; it never falls along the way."""
    index = math.floor((value - origin) / step)
    rest = value - origin - index * step
    return 2 * index - (2 if rest < INK_MM else 1 if rest <= overlap - INK_MM else 0)


def _gather(row: _Row, origin: float, step: float, overlap: float) -> Coded:
    """Return each code with the points that have it, one bit a point: two sets of points share one if ``a & b``."""
    gathered, first = [], 0
    while first < len(row.values):
        code = _code(row.values[first], origin, step, overlap)
        past = bisect_right(row.values, code, lo=first, key=lambda value: _code(value, origin, step, overlap))
        gathered.append((code, row.before[past] ^ row.before[first]))
        first = past
    return gathered


def _cover(codes: Cells) -> Cells:
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


# --- points of a drawing --------------------------------------------------------------------------------------------


def sample_shapes(shapes: Sequence[Shape], every_mm: float) -> list[Point]:
    """Return points on all shapes, no more than every_mm apart, ends included."""
    return [Point(x, y) for shape in shapes for x, y in _sample(shape, every_mm)]


def _sample(shape: Shape, every: float) -> list[tuple[float, float]]:
    if isinstance(shape, Path):
        return [place for piece in shape.pieces for place in _sample(piece, every)]
    walk = _step_along(shape, every)
    return [walk.at(index) for index in range(walk.count + 1)]


@dataclass(frozen=True)
class _LineWalk:
    """A line in `count` steps of `step` mm."""

    start: Point
    dx: float
    dy: float
    count: int
    step: float

    def at(self, index: int) -> tuple[float, float]:
        return self.start.x + self.dx * index / self.count, self.start.y + self.dy * index / self.count


@dataclass(frozen=True)
class _ArcWalk:
    """An arc in `count` steps of `step` mm."""

    arc: Arc
    sweep_deg: float
    count: int
    step: float

    def at(self, index: int) -> tuple[float, float]:
        arc = self.arc
        turn = math.radians(arc.start_deg + self.sweep_deg * index / self.count)
        return arc.centre.x + arc.radius * math.cos(turn), arc.centre.y + arc.radius * math.sin(turn)


def _step_along(shape: Line | Circle | Arc, every: float) -> _LineWalk | _ArcWalk:
    if isinstance(shape, Line):
        dx, dy = shape.end.x - shape.start.x, shape.end.y - shape.start.y
        length = math.hypot(dx, dy)
        count = max(1, math.ceil(length / every))
        return _LineWalk(shape.start, dx, dy, count, length / count)
    arc = Arc(shape.centre, shape.radius, 0.0, 360.0) if isinstance(shape, Circle) else shape
    sweep = arc.end_deg - arc.start_deg
    length = math.radians(sweep) * arc.radius
    count = max(4, 4 * math.ceil(length / every / 4))
    return _ArcWalk(arc, sweep, count, length / count)


def _thin_out(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Keep one point of each small square."""
    return list({(int(x // _THIN_MM), int(y // _THIN_MM)): (x, y) for x, y in points}.values())


def _list_codes(shapes: Iterable[Shape], left: float, bottom: float, window: Window) -> Cells:
    """Return the codes, across and along, of all points of the shapes, taken no more than _FINE_MM apart."""
    codes: Cells = set()
    for shape in shapes:
        for piece in shape.pieces if isinstance(shape, Path) else (shape,):
            _add_codes(codes, _step_along(piece, _FINE_MM), left, bottom, window)
    return codes


def _add_codes(codes: Cells, walk: _LineWalk | _ArcWalk, left: float, bottom: float, window: Window) -> None:
    """Add the codes of every point of a walk. A stretch that cannot leave its window is not walked point by point."""
    overlap, step_x, step_y = window.overlap, window.width - window.overlap, window.height - window.overlap
    stretches = [(0, walk.count)]
    while stretches:
        first, last = stretches.pop()
        middle = (first + last) // 2
        x, y = walk.at(middle)
        reach = walk.step * (last - middle) + _HAIR_MM  # no point of the stretch is farther away
        across, along = _code(x - reach, left, step_x, overlap), _code(y - reach, bottom, step_y, overlap)
        if across == _code(x + reach, left, step_x, overlap) and along == _code(y + reach, bottom, step_y, overlap):
            codes.add((across, along))
            continue
        codes.add((_code(x, left, step_x, overlap), _code(y, bottom, step_y, overlap)))
        if first < middle:
            stretches.append((first, middle - 1))
        if middle < last:
            stretches.append((middle + 1, last))

"""Which stiffeners keep a panel from bowing too far: how many, across it or along it, and how high."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import product

from calc.box.parts import BoxPart
from calc.shapes.faces import AXIS, VIEWS, Block
from calc.stock import Stock
from calc.strength.rib_places import MOVE_SHARE, find_long_axis, find_rib_places, find_short_axis, find_widest_bay
from calc.strength.rib_room import SHORT_SHARE, RibRoom, Stand, find_along, stand_rib

MOST_RIBS = 3
RIB_SHARE = 0.5
"""No rib stands further into the box than this share of its inside (common practice, no source)."""

SLENDER = 12.0
"""No rib is higher than this many times its thickness: a thin strip on edge leans over (common practice, no source)."""

LEAST_HIGH_MM = 40.0
"""No rib is lower: its screws must hold (common practice, no source)."""

PANEL_SHARE = 0.95
"""Of the bow allowed, what the panel between ribs may use at most; the ribs' own bending gets the rest."""

BowOf = Callable[[int, tuple[float, ...]], float]
"""The bow [mm] of the worst bay between ribs at places [mm] along an axis of the box."""


@dataclass(frozen=True, kw_only=True)
class Ribs:
    """places_mm: along axis; span_mm: what each bridges.

    bow_mm: how far they bend, and sink where they stop short of a wall; blocks: as bricks
    """

    axis: int
    places_mm: tuple[float, ...]
    span_mm: float
    high_mm: float
    bow_mm: float
    blocks: tuple[Block, ...]

    @property
    def wood_mm2(self) -> float:
        """Return how much panel stock they take."""
        return len(self.places_mm) * self.span_mm * self.high_mm


def choose_ribs(
    stock: Stock, part: BoxPart, limit: float, bow_of: BowOf, bare: float, load: float, room: RibRoom
) -> Ribs | None:
    """Return the ribs that keep the bow in its limit: the fewest across or lengthwise, whichever is less wood.

    Those that reach from wall to wall near even places come first.
    None when none are needed, or when no number of them finds room between the holes and helps: the bow then says
    that the panel does not do.
    """
    shape = room.shape
    short_axis, long_axis = find_short_axis(shape, part.face), find_long_axis(shape, part.face)
    if bare <= limit:
        return None
    found = []
    for axis in (long_axis, short_axis):
        for short, share in product((0.0, SHORT_SHARE), (MOVE_SHARE, 1.0)):
            tries = (_RibTry(axis, share, short, count) for count in range(1, MOST_RIBS + 1))
            stood = (_stand_ribs(stock, part, limit, bow_of, load, room, wanted) for wanted in tries)
            ribs = next((one for one in stood if one is not None), None)
            if ribs is not None:
                found.append(ribs)
                break
    return min(found, key=lambda ribs: ribs.wood_mm2, default=None)


def would_ribs_help(
    stock: Stock, part: BoxPart, limit: float, bow_of: BowOf, bare: float, load: float, room: RibRoom
) -> bool:
    """Tell whether ribs would hold a panel if nothing stood in their way."""
    empty = replace(room, cleats=(), mouths=(), ribs=())
    return choose_ribs(stock, replace(part, holes=()), limit, bow_of, bare, load, empty) is not None


@dataclass(frozen=True)
class _RibTry:
    """Ribs to try: along which axis they are spread, how far each may be moved, how far it may stop short, how many."""

    axis: int
    share: float
    short: float
    count: int


def _stand_ribs(
    stock: Stock,
    part: BoxPart,
    limit: float,
    bow_of: BowOf,
    load: float,
    room: RibRoom,
    wanted: _RibTry,
) -> Ribs | None:
    """Return ribs that find their place at the height they need, or None.

    Where a rib may stand depends on its height, and its height on the bay it carries: from the lowest up until both
    agree.
    """
    shape, t, axis = room.shape, part.thickness_mm, wanted.axis
    other = find_along(Stand(part.face, axis, 0.0, t, 0.0))
    span, along = shape.inside.along(other), shape.inside.along(axis)
    high = LEAST_HIGH_MM
    while high <= min(RIB_SHARE * shape.inside.along(AXIS[part.face]), SLENDER * t):

        def stand(spot: float, high: float = high) -> Block | None:
            return stand_rib(room, Stand(part.face, axis, spot, t, high), wanted.short)

        places = find_rib_places(shape, part, wanted.count, axis, wanted.share, lambda spot: stand(spot) is not None)
        if not places:
            return None
        bay, bow = find_widest_bay(along, places), bow_of(axis, places)
        blocks = tuple(block for spot in places if (block := stand(spot)) is not None)
        ends = max(_find_short_end(shape.cavity, block, other) for block in blocks)
        sink = sink_ends(stock, part, other, ends, load * bay * span / 2e6)
        if bow + sink > PANEL_SHARE * limit:
            return None
        needed = _size_rib(stock, t, span, bay, load, limit - bow - sink)
        if needed <= high:
            return Ribs(
                axis=axis,
                places_mm=places,
                span_mm=span,
                high_mm=high,
                bow_mm=bow_rib(stock, t, span, bay, load, high) + sink,
                blocks=blocks,
            )
        high = needed
    return None


def _size_rib(stock: Stock, t: float, span_mm: float, carries_mm: float, pressure: float, limit_mm: float) -> float:
    """Return the height [mm] of a rib that bends within a limit, in 5 mm steps."""
    low = bow_rib(stock, t, span_mm, carries_mm, pressure, LEAST_HIGH_MM)
    high = LEAST_HIGH_MM * math.pow(low / limit_mm, 1 / 3)
    return max(LEAST_HIGH_MM, math.ceil(high / 5 - 1e-9) * 5.0)


def bow_rib(stock: Stock, t: float, span_mm: float, carries_mm: float, pressure: float, high_mm: float) -> float:
    """Return how far [mm] a rib of panel stock on edge bends: 5 w L^4 / 384 E I, E that of all its veneers."""
    inertia = t / 1000 * math.pow(high_mm / 1000, 3) / 12
    load = pressure * carries_mm / 1000
    return 5 * load * math.pow(span_mm / 1000, 4) / (384 * stock.on_edge_pa * inertia) * 1000


def sink_ends(stock: Stock, part: BoxPart, axis: int, short_mm: float, load_n: float) -> float:
    """Return how far [mm] the end of a rib along an axis sinks that stops short of the wall, under the load on it [N].

    The panel alone carries it there: a strip twice as wide as it is long, turning at the wall and straight at the rib,
    R e^2 / 6 D. Against finite elements it tells 0.9 to 2.2 times what the short end adds (own comparison).
    """
    view = VIEWS[part.face]
    grain = {"width": view.across_axis, "height": view.up_axis}.get(part.grain)
    modulus = stock.along_pa if axis == grain else stock.across_pa
    stiff = modulus * math.pow(part.thickness_mm / 1000, 3) / 12
    return load_n * math.pow(short_mm / 1000, 2) / (6 * stiff) * 1000


def _find_short_end(cavity: Block, block: Block, axis: int) -> float:
    """Return how far [mm] a rib along an axis stops short of the wall at its worse end."""
    return max(block.low[axis] - cavity.low[axis], cavity.high[axis] - block.high[axis])

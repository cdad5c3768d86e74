"""Which stiffeners keep a panel from bowing too far: how many, across it or along it, and how high."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from calc.box.parts import BoxPart
from calc.shapes.faces import AXIS, Block
from calc.strength.rib_places import MOVE_SHARE, find_long_axis, find_rib_places, find_short_axis, find_widest_bay
from calc.strength.rib_room import SHORT_SHARE, RibRoom, Stand, find_along, stand_rib
from calc.strength.stock import Stock

MOST_RIBS = 3
RIB_SHARE = 0.5
"""No rib stands further into the box than this share of its inside (common practice, no source)."""

LEAST_HIGH_MM = 40.0
"""No rib is lower: its screws must hold (common practice, no source)."""

PANEL_SHARE = 0.8
"""Of the bow allowed, what the panel between ribs may use; the ribs' own bending gets the rest."""

BowOf = Callable[[int, float], float]
"""The bow [mm] of a bay of so many mm along an axis of the box."""


@dataclass(frozen=True)
class Ribs:
    """places_mm: along axis; bay_mm: widest stretch between them; span_mm: what each bridges; blocks: as bricks."""

    axis: int
    places_mm: tuple[float, ...]
    bay_mm: float
    span_mm: float
    high_mm: float
    blocks: tuple[Block, ...]

    @property
    def wood_mm2(self) -> float:
        """Return how much panel stock they take."""
        return len(self.places_mm) * self.span_mm * self.high_mm


def choose_ribs(
    stock: Stock, part: BoxPart, limit: float, bow_of: BowOf, bare: float, load: float, room: RibRoom
) -> Ribs | None:
    """Return the ribs that keep the bow in its limit: the fewest across or lengthwise, whichever is less wood.

    None when none are needed, or when no number of them finds room between the holes and helps: the bow then says
    that the panel does not do.
    """
    shape = room.shape
    short_axis, long_axis = find_short_axis(shape, part.face), find_long_axis(shape, part.face)
    if bare <= limit:
        return None
    found = []
    for axis in (long_axis, short_axis):
        tries = ((share, short, count) for short in (0.0, SHORT_SHARE) for share in (MOVE_SHARE, 1.0)
                 for count in range(1, MOST_RIBS + 1))  # fmt: skip
        for share, short, count in tries:
            ribs = _stand_ribs(stock, part, limit, bow_of, load, room, _Try(axis, share, short, count))
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
class _Try:
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
    wanted: _Try,
) -> Ribs | None:
    """Return ribs that find their place at the height they need, or None.

    Where a rib may stand depends on its height, and its height on the bay it carries: from the lowest up until both
    agree.
    """
    shape, t, axis = room.shape, part.thickness_mm, wanted.axis
    other = find_along(Stand(part.face, axis, 0.0, t, 0.0))
    span, along = shape.inside.along(other), shape.inside.along(axis)
    if bow_of(axis, along / (wanted.count + 1)) > PANEL_SHARE * limit:
        return None  # too few of them, wherever they stand
    high = LEAST_HIGH_MM
    while high <= RIB_SHARE * shape.inside.along(AXIS[part.face]):

        def stand(spot: float, high: float = high) -> Block | None:
            return stand_rib(room, Stand(part.face, axis, spot, t, high), wanted.short)

        places = find_rib_places(shape, part, wanted.count, axis, wanted.share, lambda spot: stand(spot) is not None)
        bay = find_widest_bay(along, places) if places else along
        bow = bow_of(axis, bay)
        if not places or bow > PANEL_SHARE * limit:
            return None
        needed = _size_rib(stock, t, span, bay, load, limit - bow)
        if needed <= high:
            blocks = tuple(block for spot in places if (block := stand(spot)) is not None)
            return Ribs(axis, places, bay, span, high, blocks)
        high = needed
    return None


def _size_rib(stock: Stock, t: float, span_mm: float, carries_mm: float, pressure: float, limit_mm: float) -> float:
    """Return the height [mm] of a rib of panel stock on edge: 5 w L^4 / 384 E I within the limit, in 5 mm steps."""
    load = pressure * carries_mm / 1000
    inertia = 5 * load * (span_mm / 1000) ** 4 / (384 * stock.along_pa * limit_mm / 1000)
    high: float = (12 * inertia / (t / 1000)) ** (1 / 3) * 1000
    return max(LEAST_HIGH_MM, math.ceil(high / 5) * 5.0)

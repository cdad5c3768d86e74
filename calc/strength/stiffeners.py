"""Which stiffeners keep a panel from bowing too far: how many, across it or along it, and how high."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import product

from calc.geometry.faces import AXIS
from calc.geometry.joints import BoxShape
from calc.geometry.parts import BoxPart
from calc.geometry.rib_places import MOVE_SHARE, find_long_axis, find_rib_places, find_short_axis, find_widest_bay
from calc.strength.stock import Stock

MOST_RIBS = 3
RIB_SHARE = 0.5
"""No rib stands further into the box than this share of its inside (common practice, no source)."""

PANEL_SHARE = 0.8
"""Of the bow allowed, what the panel between ribs may use; the ribs' own bending gets the rest."""


@dataclass(frozen=True)
class Ribs:
    """places_mm: along axis; bay_mm: widest stretch left between them; span_mm: what each rib bridges."""

    axis: int
    places_mm: tuple[float, ...]
    bay_mm: float
    span_mm: float
    high_mm: float

    @property
    def wood_mm2(self) -> float:
        """Return how much panel stock they take."""
        return len(self.places_mm) * self.span_mm * self.high_mm


def choose_ribs(
    stock: Stock, shape: BoxShape, part: BoxPart, limit: float, bow_of: Callable[[float, float], float], load: float
) -> Ribs | None:
    """Return the ribs that keep the bow in its limit: the fewest across or lengthwise, whichever is less wood.

    None when none are needed, or when no number of them finds room between the holes and helps: the bow then says
    that the panel does not do.
    """
    short_axis, long_axis = find_short_axis(shape, part.face), find_long_axis(shape, part.face)
    if bow_of(shape.inside.along(short_axis), shape.inside.along(long_axis)) <= limit:
        return None
    found = []
    for axis, other in ((long_axis, short_axis), (short_axis, long_axis)):
        span, along = shape.inside.along(other), shape.inside.along(axis)
        for share, count in product((MOVE_SHARE, 1.0), range(1, MOST_RIBS + 1)):
            places = find_rib_places(shape, part, count, axis, share)
            bay = find_widest_bay(along, places) if places else along
            bow = bow_of(bay, span)
            if places and bow <= PANEL_SHARE * limit:
                high = _size_rib(stock, part.thickness_mm, span, bay, load, limit - bow)
                if high <= RIB_SHARE * shape.inside.along(AXIS[part.face]):
                    found.append(Ribs(axis, places, bay, span, high))
                    break
    return min(found, key=lambda ribs: ribs.wood_mm2, default=None)


def _size_rib(stock: Stock, t: float, span_mm: float, carries_mm: float, pressure: float, limit_mm: float) -> float:
    """Return the height [mm] of a rib of panel stock on edge: 5 w L^4 / 384 E I within the limit, in 5 mm steps."""
    load = pressure * carries_mm / 1000
    inertia = 5 * load * (span_mm / 1000) ** 4 / (384 * stock.bending_pa * limit_mm / 1000)
    high: float = (12 * inertia / (t / 1000)) ** (1 / 3) * 1000
    return max(40.0, math.ceil(high / 5) * 5.0)

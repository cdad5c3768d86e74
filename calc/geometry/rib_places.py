"""Where stiffeners may stand across a panel: at even parts of its long side, moved aside to clear the holes."""

from __future__ import annotations

import itertools

from calc.geometry.faces import VIEWS
from calc.geometry.joints import BoxShape
from calc.geometry.parts import BoxPart
from calc.project import Face

HOLE_GAP_MM = 3.0
MOVE_SHARE = 0.25
"""A rib moved further than this share of its bay no longer divides the panel."""


def find_long_axis(shape: BoxShape, face: Face) -> int:
    """Return the axis of space along a panel's long inside span."""
    view = VIEWS[face]
    across, up = shape.inside.along(view.across_axis), shape.inside.along(view.up_axis)
    return view.across_axis if across >= up else view.up_axis


def find_rib_places(shape: BoxShape, part: BoxPart, count: int) -> tuple[float, ...] | None:
    """Return where ribs stand along the long inside span [mm, from its low end in space]; None: one has no place."""
    long_axis = find_long_axis(shape, part.face)
    long, holes = shape.inside.along(long_axis), _list_holes(shape, part, long_axis)
    places = [_find_place(holes, long, long * index / (count + 1), count) for index in range(1, count + 1)]
    found = tuple(place for place in places if place is not None)
    return found if len(found) == count else None


def find_widest_bay(long_mm: float, places: tuple[float, ...]) -> float:
    """Return the widest stretch [mm] of a panel between its ends and its ribs."""
    stops = [0.0, *sorted(places), long_mm]
    return max(b - a for a, b in itertools.pairwise(stops))


def _list_holes(shape: BoxShape, part: BoxPart, long_axis: int) -> list[tuple[float, float]]:
    """Return the holes as (place along the long span, room a rib's middle must keep)."""
    view, holes = VIEWS[part.face], []
    along_across = long_axis == view.across_axis
    back = view.across_back if along_across else view.up_back
    for hole in part.holes:
        at = hole.across_mm + part.left_mm if along_across else hole.up_mm + part.bottom_mm
        spot = shape.outside.along(long_axis) - at if back else at
        room = hole.diameter_mm / 2 + part.thickness_mm / 2 + HOLE_GAP_MM
        holes.append((spot - shape.cavity.low[long_axis], room))
    return holes


def _find_place(holes: list[tuple[float, float]], long: float, wanted: float, count: int) -> float | None:
    free = long / (count + 1) * MOVE_SHARE
    for step in range(0, int(free) + 1, 2):
        for spot in (wanted + step, wanted - step):
            if all(abs(spot - at) >= room for at, room in holes):
                return spot
    return None

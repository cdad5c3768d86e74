"""Where stiffeners may stand on a panel: at even parts of one of its sides, moved aside to clear the holes."""

from __future__ import annotations

import itertools
from collections.abc import Callable

from calc.box.joints import BoxShape
from calc.box.parts import BoxPart
from calc.project import Face
from calc.shapes.faces import VIEWS

HOLE_GAP_MM = 3.0
MOVE_SHARE = 0.25
"""A rib moved further than this share of its bay divides the panel badly: tried only when nothing else helps."""


def find_long_axis(shape: BoxShape, face: Face) -> int:
    """Return the axis of space along a panel's long inside span."""
    view = VIEWS[face]
    across, up = shape.inside.along(view.across_axis), shape.inside.along(view.up_axis)
    return view.across_axis if across >= up else view.up_axis


def find_short_axis(shape: BoxShape, face: Face) -> int:
    """Return the other axis of space of a panel."""
    view = VIEWS[face]
    return view.up_axis if find_long_axis(shape, face) == view.across_axis else view.across_axis


def find_rib_places(
    shape: BoxShape,
    part: BoxPart,
    count: int,
    axis: int,
    share: float = MOVE_SHARE,
    is_free: Callable[[float], bool] = lambda spot: True,
) -> tuple[float, ...] | None:
    """Return where ribs stand along an axis of the panel [mm, from its low end inside]; None: one has no place.

    share: of its bay that a rib may be moved to clear a hole and the flange round it; is_free: whether nothing else
    in the box bars a rib at a place
    """
    long, holes = shape.inside.along(axis), _list_holes(shape, part, axis)
    places = [
        _find_place(holes, long, long * index / (count + 1), long / (count + 1) * share, part.thickness_mm, is_free)
        for index in range(1, count + 1)
    ]
    found = tuple(place for place in places if place is not None)
    apart = all(b - a > 2 * part.thickness_mm for a, b in itertools.pairwise(found))
    return found if len(found) == count and apart else None


def find_widest_bay(long_mm: float, places: tuple[float, ...]) -> float:
    """Return the widest stretch [mm] of a panel between its ends and its ribs."""
    stops = [0.0, *sorted(places), long_mm]
    return max(b - a for a, b in itertools.pairwise(stops))


def _list_holes(shape: BoxShape, part: BoxPart, axis: int) -> list[tuple[float, float]]:
    """Return the holes as (place along the axis, room a rib's middle must keep)."""
    view, holes = VIEWS[part.face], []
    along_across = axis == view.across_axis
    back = view.across_back if along_across else view.up_back
    for hole in part.holes:
        at = hole.across_mm + part.left_mm if along_across else hole.up_mm + part.bottom_mm
        spot = shape.outside.along(axis) - at if back else at
        room = max(hole.diameter_mm, hole.flange_mm) / 2 + part.thickness_mm / 2 + HOLE_GAP_MM
        holes.append((spot - shape.cavity.low[axis], room))
    return holes


def _find_place(
    holes: list[tuple[float, float]],
    long: float,
    wanted: float,
    free: float,
    t: float,
    is_free: Callable[[float], bool],
) -> float | None:
    for step in range(0, int(free) + 1, 2):
        for spot in (wanted + step, wanted - step):
            if t <= spot <= long - t and all(abs(spot - at) >= room for at, room in holes) and is_free(spot):
                return spot
    return None

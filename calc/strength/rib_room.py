"""Where a rib stands in the box: on its panel, clear of cleats, of other ribs and of what every opening needs."""

from __future__ import annotations

from dataclasses import dataclass

from calc.box.joints import CLEAT_WIDE_MM, BoxShape
from calc.box.parts import BoxPart
from calc.project import Face
from calc.shapes.faces import AXIS, VIEWS, Block, find_flat, is_low, meet_blocks

PLAY_MM = 1.0
"""Air between a rib's end and what it stops at, so that it goes in (common practice, no source)."""

SHORT_SHARE = 0.2
"""A rib may stop this share of its span short where another rib's foot or an opening bars the corner: the short strip
of panel beyond is held by the edge beside it (common practice, no source)."""

MOUTH_MM = 25.0
"""No rib stands this near behind an opening: air and hand must get by (common practice, no source)."""


@dataclass(frozen=True)
class Mouth:
    """What must stay free behind an opening: a circle on the box's face, and as a brick."""

    face: Face
    across_mm: float
    up_mm: float
    radius_mm: float
    block: Block


@dataclass(frozen=True)
class RibRoom:
    """What stands in the box before a rib. lining_mm: how far the ends stay back from the walls for it."""

    shape: BoxShape
    lining_mm: float
    cleats: tuple[Block, ...]
    mouths: tuple[Mouth, ...]
    ribs: tuple[Block, ...] = ()


@dataclass(frozen=True)
class Stand:
    """A rib to be: on which face, at which place along an axis of the cavity, how thick and high [mm]."""

    face: Face
    axis: int
    spot_mm: float
    thick_mm: float
    high_mm: float


def find_mouths(shape: BoxShape, panels: tuple[BoxPart, ...]) -> tuple[Mouth, ...]:
    """Return what must stay free behind every hole of the panels."""
    found = []
    for part in panels:
        normal = AXIS[part.face]
        for hole in part.holes:
            across, up, radius = hole.across_mm + part.left_mm, hole.up_mm + part.bottom_mm, hole.diameter_mm / 2
            low, high = list(shape.cavity.low), list(shape.cavity.high)
            if is_low(part.face):
                high[normal] = low[normal] + MOUTH_MM
            else:
                low[normal] = high[normal] - MOUTH_MM
            slab = Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))
            left, bottom, right, top = find_flat(part.face, slab, shape.outside)
            less = (max(across - radius - left, 0.0), max(up - radius - bottom, 0.0))
            more = (max(right - across - radius, 0.0), max(top - up - radius, 0.0))
            block = _shrink_on_face(part.face, slab, less, more)
            found.append(Mouth(part.face, across, up, radius, block))
    return tuple(found)


def _shrink_on_face(face: Face, block: Block, less: tuple[float, float], more: tuple[float, float]) -> Block:
    view, low, high = VIEWS[face], list(block.low), list(block.high)
    for axis, back, start, end in (
        (view.across_axis, view.across_back, less[0], more[0]),
        (view.up_axis, view.up_back, less[1], more[1]),
    ):
        low[axis] += end if back else start
        high[axis] -= start if back else end
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def stand_rib(room: RibRoom, stand: Stand, short_share: float) -> Block | None:
    """Return the rib as a brick, its ends stopped at what bars them; None where it has no place.

    short_share: of its span that an end may stop short at another rib or an opening; at a cleat it always may.
    """
    block, along = _stand_whole(room, stand), find_along(stand)
    for cleat in room.cleats:
        block_or_none = stop_short(block, cleat, along, CLEAT_WIDE_MM + PLAY_MM)
        if block_or_none is None:
            return None
        block = block_or_none
    span = room.shape.inside.along(along)
    barring = [*room.ribs, *(mouth.block for mouth in room.mouths if mouth.face != stand.face)]
    bars = [None] * len(room.ribs) + [mouth for mouth in room.mouths if mouth.face != stand.face]
    for other, mouth in zip(barring, bars, strict=True):
        if mouth is not None and not is_before(block, mouth, room.shape):
            continue
        block_or_none = stop_short(block, other, along, short_share * span)
        if block_or_none is None:
            return None
        block = block_or_none
    return block


def find_along(stand: Stand) -> int:
    """Return the axis a rib runs along."""
    return next(axis for axis in range(3) if axis not in (AXIS[stand.face], stand.axis))


def _stand_whole(room: RibRoom, stand: Stand) -> Block:
    """Return the rib from wall to wall."""
    normal, low, high = AXIS[stand.face], list(room.shape.cavity.low), list(room.shape.cavity.high)
    if is_low(stand.face):
        high[normal] = low[normal] + stand.high_mm
    else:
        low[normal] = high[normal] - stand.high_mm
    middle = room.shape.cavity.low[stand.axis] + stand.spot_mm
    low[stand.axis], high[stand.axis] = middle - stand.thick_mm / 2, middle + stand.thick_mm / 2
    along = find_along(stand)
    low[along] += room.lining_mm + PLAY_MM
    high[along] -= room.lining_mm + PLAY_MM
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def stop_short(block: Block, other: Block, along: int, most_mm: float) -> Block | None:
    """Return a rib cut back along its length until it clears another brick; None where that takes more than `most_mm`
    off the end."""
    if meet_blocks(block, other) is None:
        return block
    low, high = list(block.low), list(block.high)
    from_low, from_high = other.high[along] + PLAY_MM - low[along], high[along] - other.low[along] + PLAY_MM
    if min(from_low, from_high) > most_mm:
        return None
    if from_low <= from_high:
        low[along] += from_low
    else:
        high[along] -= from_high
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2])) if high[along] > low[along] else None


def is_before(block: Block, mouth: Mouth, shape: BoxShape) -> bool:
    """Tell whether a brick stands right behind an opening."""
    if meet_blocks(block, mouth.block) is None:
        return False
    left, bottom, right, top = find_flat(mouth.face, block, shape.outside)
    across = max(left - mouth.across_mm, mouth.across_mm - right, 0.0)
    up = max(bottom - mouth.up_mm, mouth.up_mm - top, 0.0)
    return bool((across**2 + up**2) ** 0.5 < mouth.radius_mm)

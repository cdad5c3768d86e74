"""Rails and cart in the views of the box: what is seen from a side is drawn in full, what something covers dashed."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from calc.box.parts import BoxPart
from calc.box.standing import CASTER_MM
from calc.design import Design
from calc.project import Face
from calc.shapes.faces import AXIS, VIEWS, Block, find_face_size, find_flat, is_low
from calc.shapes.shapes import Box
from packet.draw.model import Entity, Pen
from packet.draw.strokes import draw_circle, draw_line, draw_rectangle, write_at

CASTER_WHEEL_MM = 75.0
Flat = tuple[float, float]


@dataclass(frozen=True)
class _Cover:
    """What a brick covers on a face, and how near the eye its near side is."""

    left: float
    bottom: float
    right: float
    top: float
    near: float


def find_extent(design: Design, face: Face) -> Box:
    """Return what box and mount fill on a face, from the box's own lower left corner there [mm]."""
    wide, high = find_face_size(face, design.box.outside)
    flats = [find_flat(face, block, design.box.outside) for block in _list_blocks(design)]
    low = min([0.0, *(flat[1] for flat in flats)])
    if design.mount.wheels_mm is not None and VIEWS[face].up_axis == 2:
        low -= CASTER_MM
    return Box(
        min([0.0, *(flat[0] for flat in flats)]),
        low,
        max([wide, *(flat[2] for flat in flats)]),
        max([high, *(flat[3] for flat in flats)]),
    )


def _list_blocks(design: Design) -> list[Block]:
    blower = design.mount.blower
    return [*(part.block for part in design.mount.parts), *([blower] if blower is not None else [])]


def draw_blower(design: Design, face: Face, x0: float, y0: float, name: str) -> list[Entity]:
    """Return what a blower on the cart fills as seen on a face, dash-dotted, with its name; nothing without one."""
    if design.mount.blower is None:
        return []
    left, low, right, top = find_flat(face, design.mount.blower, design.box.outside)
    words = write_at(x0 + (left + right) / 2, y0 + (low + top) / 2, name, 2.2, ground=True)
    return [draw_rectangle(x0 + left, y0 + low, x0 + right, y0 + top, Pen.GHOST), words]


def draw_mount(design: Design, face: Face, x0: float, y0: float) -> list[Entity]:
    """Return rails or cart as seen on a face. x0, y0: where the box's lower left corner stands there [mm].

    From below, a cart's base would hide everything: it is drawn thin, as taken off.
    """
    outside = design.box.outside
    box = Block((0.0, 0.0, 0.0), (outside.width, outside.depth, outside.height))
    parts = design.mount.parts
    covers = [_cover(design, box, face)]
    covers += [_cover(design, part.block, face) for part in parts if not _is_taken_off(part, face)]
    entities: list[Entity] = []
    for part in parts:
        near = _find_near(part.block, face)
        corners = _trace(design, part, face)
        for a, b in zip(corners, [*corners[1:], corners[0]], strict=True):
            if _is_taken_off(part, face):
                entities.append(draw_line(x0 + a[0], y0 + a[1], x0 + b[0], y0 + b[1], Pen.GHOST))
                continue
            above = [cover for cover in covers if cover.near > near + 1e-6]
            entities += _draw_edge((x0, y0), a, b, above)
    return entities + _draw_casters(design, face, x0, y0)


def _is_taken_off(part: BoxPart, face: Face) -> bool:
    return face == "bottom" and part.member == "cart base"


def _cover(design: Design, block: Block, face: Face) -> _Cover:
    return _Cover(*find_flat(face, block, design.box.outside), _find_near(block, face))


def _find_near(block: Block, face: Face) -> float:
    axis = AXIS[face]
    return -block.low[axis] if is_low(face) else block.high[axis]


def _trace(design: Design, part: BoxPart, face: Face) -> list[Flat]:
    """Return a part's corners on a face; from the side, the long edges of wall rails are sawn at 45 degrees."""
    left, low, right, top = find_flat(face, part.block, design.box.outside)
    bevel = right - left
    if face in ("left", "right") and part.member in ("box rail", "wall rail"):
        box_side, wall_side = (left, right) if face == "right" else (right, left)
        if part.member == "box rail":
            return [(box_side, low + bevel), (wall_side, low), (wall_side, top), (box_side, top)]
        return [(box_side, low), (wall_side, low), (wall_side, top - bevel), (box_side, top)]
    return [(left, low), (right, low), (right, top), (left, top)]


def _draw_edge(at: Flat, a: Flat, b: Flat, above: list[_Cover]) -> list[Entity]:
    """Return an edge in pieces: dashed where something nearer the eye covers it."""
    cuts = {0.0, 1.0}
    for cover in above:
        for i, ends in ((0, (cover.left, cover.right)), (1, (cover.bottom, cover.top))):
            if abs(b[i] - a[i]) > 1e-9:
                cuts |= {share for end in ends if 0.0 < (share := (end - a[i]) / (b[i] - a[i])) < 1.0}
    entities: list[Entity] = []
    shares = sorted(cuts)
    for one, two in itertools.pairwise(shares):
        p, q = ((a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1])) for s in (one, two))
        x, y = (p[0] + q[0]) / 2, (p[1] + q[1]) / 2
        hidden = any(c.left + 1e-6 < x < c.right - 1e-6 and c.bottom + 1e-6 < y < c.top - 1e-6 for c in above)
        pen = Pen.HIDDEN if hidden else Pen.OUTLINE
        entities.append(draw_line(at[0] + p[0], at[1] + p[1], at[0] + q[0], at[1] + q[1], pen))
    return entities


def find_wheel_places(design: Design, face: Face) -> tuple[float, float]:
    """Return where a cart's wheels stand across an upright face, from the box's lower left corner [mm]."""
    assert design.mount.base is not None
    left, right, front, back = design.mount.base.wheel_lines
    flat = find_flat(face, Block((left, front, 0.0), (right, back, 1.0)), design.box.outside)
    return flat[0], flat[2]


def _draw_casters(design: Design, face: Face, x0: float, y0: float) -> list[Entity]:
    """Return the casters seen upright, under the base."""
    if design.mount.wheels_mm is None or VIEWS[face].up_axis != 2:
        return []
    floor = y0 + find_extent(design, face).bottom
    entities: list[Entity] = []
    for x in (x0 + at for at in find_wheel_places(design, face)):
        entities.append(draw_circle(x, floor + CASTER_WHEEL_MM / 2, CASTER_WHEEL_MM))
        entities.append(draw_line(x, floor + CASTER_WHEEL_MM / 2, x, floor + CASTER_MM))
    return entities

"""The box taken apart, in isometric projection: parts numbered as in the cut list, drawn from the back forward."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.box.joints import CART_CLEATS
from calc.box.parts import BoxPart, Hole
from calc.box.ports import PortDesign
from calc.design import Design
from calc.project import Face
from calc.settled import Settled
from calc.shapes.faces import AXIS, Block, find_spot, is_low
from calc.shapes.shapes import Box, find_bounds
from packet.draw.model import Drawing, Entity, Fill, Pen, Stroke
from packet.draw.rings import Ring, draw_beside, draw_rings
from packet.draw.seen import find_seen, list_covers
from packet.draw.strokes import close_drawing, join_points, trace_round, write_at

MARGINS = (4.0, 4.0, 8.0, 4.0)
SPREAD = 0.55  # how far panels are pulled apart, of the box's size along their face
HANGING_GAPS_MM = 260.0  # gaps between ring, lid, filter and pail, which push the base of a cart further down
CROWDED = 12
SPOTS = 7  # spots looked at along each side of a part
BESIDE_MM = 4.0  # on paper, from the drawing to the middles of the numbers beside it
Vector = tuple[float, float, float]
Flat = tuple[float, float]


@dataclass(frozen=True)
class Sight:
    """Where the eye stands: front, above, and on the left or right; and how far it sees things pulled apart.

    spread: of the box's size along a face; 0: put together
    """

    from_left: bool
    spread: float = SPREAD

    @property
    def toward(self) -> Vector:
        """Direction from the box to the eye."""
        return (-1.0 if self.from_left else 1.0, -1.0, 1.0)

    def see(self, at: Vector) -> Flat:
        """Return where a point appears (isometric: all three axes equally shortened)."""
        x, y, z = at
        if self.from_left:
            return (x - y) / math.sqrt(2), (x + y + 2 * z) / math.sqrt(6)
        return (x + y) / math.sqrt(2), (-x + y + 2 * z) / math.sqrt(6)

    def measure_depth(self, at: Vector) -> float:
        """Return how near the eye a point is; more is nearer."""
        return sum(a * b for a, b in zip(at, self.toward, strict=True))


@dataclass(frozen=True)
class _Thing:
    depth: float
    entities: tuple[Entity, ...]
    number: str = ""


def draw_exploded(project: Settled, design: Design, scale: float) -> Drawing:
    """Return the exploded view with its numbers."""
    sight = Sight(project.box.inlet.face == "left")
    things = [_draw_part(design, part, sight) for part in design.parts]
    for port in design.ports:
        things += _draw_port(project, design, port, sight)
    ordered = sorted(things, key=lambda t: t.depth)
    entities = [entity for thing in ordered for entity in thing.entities]
    rings = [_number_part(design, part, sight) for part in design.parts]
    if is_crowded(design):
        rings = [_point_at(design, part, ring, ordered, sight) for part, ring in zip(design.parts, rings, strict=True)]
        drawn = find_bounds(tuple(e.shape for e in entities if isinstance(e, Stroke)))
        entities += draw_beside(rings, drawn.left - BESIDE_MM / scale, drawn.right + BESIDE_MM / scale, scale, 2.5)
    else:
        entities += draw_rings(rings, scale, 2.5)
    marks = [_name_port(project, design, port, sight, scale) for port in design.ports]
    entities += [mark for group in marks for mark in group]
    shapes = tuple(e.shape for e in entities if isinstance(e, Stroke))
    bounds = find_bounds(shapes)
    return close_drawing("exploded view", entities, bounds, MARGINS, scale)


def is_crowded(design: Design) -> bool:
    """Tell whether the parts are so many that their numbers stand beside the drawing."""
    return len(design.parts) > CROWDED


def draw_together(project: Settled, design: Design, scale: float) -> Drawing:
    """Return the box put together with what hangs on it, without numbers or names."""
    sight = Sight(project.box.inlet.face == "left", 0.0)
    panels = [_draw_part(design, part, sight) for part in design.parts if part.kind == "panel"]
    below, before = list[_Thing](), list[_Thing]()  # the box hides what hangs under it and nothing that sits on it
    for port in design.ports:
        group = below if AXIS[port.port.face] == 2 else before
        group += _draw_port(project, design, port, sight)
    groups = [sorted(group, key=lambda t: t.depth) for group in (below, panels, before)]
    entities = [entity for group in groups for thing in group for entity in thing.entities]
    bounds = find_bounds(tuple(e.shape for e in entities if isinstance(e, Stroke)))
    return close_drawing("the box put together", entities, bounds, (1.0, 1.0, 1.0, 1.0), scale)


def measure_exploded(project: Settled, design: Design) -> Box:
    """Return the box [mm, isometric] that the exploded view fills."""
    drawing = draw_exploded(project, design, 1000.0)
    return drawing.bounds


def find_shift(design: Design, face: Face, spread: float = SPREAD) -> Vector:
    """Return how far [mm] things of a face are pulled out of the box."""
    axis, outside = AXIS[face], design.box.outside
    pull = spread * max(outside.height, outside.depth) * (-1 if is_low(face) else 1)
    shift = [0.0, 0.0, 0.0]
    shift[axis] = pull
    return (shift[0], shift[1], shift[2])


def _move(block: Block, shift: Vector) -> Block:
    low = tuple(a + b for a, b in zip(block.low, shift, strict=True))
    high = tuple(a + b for a, b in zip(block.high, shift, strict=True))
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _place_part(design: Design, part: BoxPart, sight: Sight) -> Block:
    shift = find_shift(design, part.face, sight.spread)
    if part.kind == "mount":
        return _move(part.block, _shift_mount(design, part, sight))
    if part.kind != "panel":
        shift = (shift[0] * 0.35, shift[1] * 0.35, shift[2] * 0.35)
    return _move(part.block, shift)


def _shift_mount(design: Design, part: BoxPart, sight: Sight) -> Vector:
    """Return how far [mm] a rail is pulled off beyond its panel, or a cart's part aside or down from what hangs."""
    if design.mount.wheels_mm is None:
        x, y, z = find_shift(design, part.face, sight.spread)
        far = 2.0 if part.member == "wall rail" else 1.5
        return x * far, y * far, z * far
    down = 1.7 * find_shift(design, "bottom", sight.spread)[2]
    if part.member == "cart base":
        return 0.0, 0.0, down - (HANGING_GAPS_MM if sight.spread else 0.0)
    if part.member in CART_CLEATS:
        return 0.0, 0.0, 0.5 * down
    way: Face = "back" if part.face == "back" else "left" if part.block.low[0] < 1e-6 else "right"
    x, y, _ = find_shift(design, way, sight.spread)
    return x, y, down


def _draw_part(design: Design, part: BoxPart, sight: Sight) -> _Thing:
    block = _place_part(design, part, sight)
    entities: list[Entity] = []
    for axis in range(3):
        entities += _draw_side(block, axis, sight)
    for hole in part.holes:
        entities += _draw_hole(design, part, block, hole, sight)
    middle = tuple((a + b) / 2 for a, b in zip(block.low, block.high, strict=True))
    return _Thing(sight.measure_depth((middle[0], middle[1], middle[2])), tuple(entities), part.number)


def _draw_side(block: Block, axis: int, sight: Sight) -> list[Entity]:
    """Return the side of a brick that faces the eye along an axis."""
    at = block.high[axis] if sight.toward[axis] > 0 else block.low[axis]
    a, b = (i for i in range(3) if i != axis)
    corners = []
    for pa, pb in ((0, 0), (1, 0), (1, 1), (0, 1)):
        spot = [0.0, 0.0, 0.0]
        spot[axis] = at
        spot[a] = block.high[a] if pa else block.low[a]
        spot[b] = block.high[b] if pb else block.low[b]
        corners.append(sight.see((spot[0], spot[1], spot[2])))
    outline = join_points(corners)
    return [Fill(outline, (0.93, 0.98, 1.0)[axis]), Stroke(outline, Pen.OUTLINE)]


def _draw_hole(design: Design, part: BoxPart, block: Block, hole: Hole, sight: Sight) -> list[Entity]:
    """Return a hole on the side of its panel that the eye sees."""
    axis = AXIS[part.face]
    across, up = hole.across_mm + part.left_mm, hole.up_mm + part.bottom_mm
    spot = find_spot(part.face, across, up, design.box.outside)
    shift = find_shift(design, part.face, sight.spread)
    middle = [spot.x + shift[0], spot.y + shift[1], spot.z + shift[2]]
    middle[axis] = block.high[axis] if sight.toward[axis] > 0 else block.low[axis]
    return _round((middle[0], middle[1], middle[2]), axis, hole.diameter_mm, sight, 0.6)


def _round(middle: Vector, axis: int, diameter: float, sight: Sight, tone: float) -> list[Entity]:
    """Return a circle standing across an axis, as the eye sees it."""
    path = trace_round(*sight.see(middle), *_half_axes(axis, diameter, sight))
    return [Fill(path, tone), Stroke(path, Pen.OUTLINE)]


def _half_axes(axis: int, diameter: float, sight: Sight) -> tuple[Flat, Flat]:
    a, b = (i for i in range(3) if i != axis)
    ways = []
    for i in (a, b):
        step = [0.0, 0.0, 0.0]
        step[i] = diameter / 2
        ways.append(sight.see((step[0], step[1], step[2])))
    return ways[0], ways[1]


def _find_port_place(design: Design, port: PortDesign, sight: Sight) -> Vector:
    spot = find_spot(port.port.face, port.port.across_mm, port.port.up_mm, design.box.outside)
    shift = find_shift(design, port.port.face, sight.spread)
    return spot.x + shift[0] * 1.7, spot.y + shift[1] * 1.7, spot.z + shift[2] * 1.7


def _draw_port(project: Settled, design: Design, port: PortDesign, sight: Sight) -> list[_Thing]:
    """Return ring and lid, and for a filter port the filter and the pail on their axis."""
    axis, at = AXIS[port.port.face], _find_port_place(design, port, sight)
    out = -1.0 if is_low(port.port.face) else 1.0
    closure = port.port.closure
    sizes = [(port.flange_mm, closure.flange_thick_mm + closure.ring_height_mm, 0.0)]
    gap = 60.0 if sight.spread else 0.0
    at_along = closure.ring_height_mm + gap
    sizes.append((closure.lid_mm, closure.lid_height_mm, at_along))
    if port.port.kind == "filter" and project.filters:
        at_along += closure.lid_height_mm + gap
        cartridge = project.get_filter(port.port)
        sizes.append((cartridge.outside_mm, cartridge.height_mm, at_along))
        at_along += cartridge.height_mm + gap
        sizes.append((port.port.pail.top_mm, port.port.pail.height_mm, at_along))
    things = []
    for diameter, long, start in sizes:
        ends = []
        for along in (start, start + long):
            spot = list(at)
            spot[axis] += out * along
            ends.append((spot[0], spot[1], spot[2]))
        things.append(_draw_drum(ends[0], ends[1], axis, diameter, sight))
    return things


def _draw_drum(a: Vector, b: Vector, axis: int, diameter: float, sight: Sight) -> _Thing:
    """Return a cylinder: its far end, its side, then the end that faces the eye."""
    near, far = (a, b) if sight.measure_depth(a) > sight.measure_depth(b) else (b, a)
    half = _half_axes(axis, diameter, sight)
    (nx, ny), (fx, fy) = sight.see(near), sight.see(far)
    length = math.hypot(nx - fx, ny - fy) or 1.0
    side = (-(ny - fy) / length, (nx - fx) / length)  # across the drum's axis on paper
    # the ellipse's widest reach across the axis: where its tangent runs along the axis
    p, q = (half[i][0] * side[0] + half[i][1] * side[1] for i in (0, 1))
    turn = math.atan2(q, p)
    ox = math.cos(turn) * half[0][0] + math.sin(turn) * half[1][0]
    oy = math.cos(turn) * half[0][1] + math.sin(turn) * half[1][1]
    body = join_points([(fx + ox, fy + oy), (nx + ox, ny + oy), (nx - ox, ny - oy), (fx - ox, fy - oy)])
    end, back = trace_round(nx, ny, *half), trace_round(fx, fy, *half)
    edges = [join_points([(fx + s * ox, fy + s * oy), (nx + s * ox, ny + s * oy)], closed=False) for s in (1, -1)]
    entities: list[Entity] = [Fill(back, 0.96), Stroke(back, Pen.OUTLINE), Fill(body, 0.96)]
    entities += [Stroke(edge, Pen.OUTLINE) for edge in edges]
    entities += [Fill(end, 1.0), Stroke(end, Pen.OUTLINE)]
    middle = tuple((p + q) / 2 for p, q in zip(a, b, strict=True))
    return _Thing(sight.measure_depth((middle[0], middle[1], middle[2])), tuple(entities))


def _number_part(design: Design, part: BoxPart, sight: Sight) -> Ring:
    """Return the part's number for a white ring at a free corner of its side that is seen."""
    block = _place_part(design, part, sight)
    axis = AXIS[part.face]
    spot = [0.0, 0.0, 0.0]
    for i in range(3):
        spot[i] = block.low[i] + 0.1 * block.along(i) if i != axis else block.high[i]
    spot[axis] = block.high[axis] if sight.toward[axis] > 0 else block.low[axis]
    if part.kind == "mount" and design.mount.base is not None and axis == 0:  # names of lids stand before its upper end
        spot[2] = block.low[2] + 0.3 * block.along(2)
    elif axis == 2:  # things under the box stand in front of its near corner
        spot[0], spot[1] = block.low[0] + 0.5 * block.along(0), block.low[1] + 0.8 * block.along(1)
    else:
        spot[2] = block.high[2] - 0.18 * block.along(2)
        if part.kind == "mount" and part.face == "back":
            spot[0] = block.low[0] + (0.04 if sight.from_left else 0.96) * block.along(0)  # beyond the back's end
        elif part.face == "back" and not sight.from_left:  # the top panel stands before its other end
            spot[0] = block.high[0] - 0.1 * block.along(0)
    x, y = sight.see((spot[0], spot[1], spot[2]))
    return Ring(x, y, part.number)


def _point_at(design: Design, part: BoxPart, ring: Ring, ordered: list[_Thing], sight: Sight) -> Ring:
    """Return a part's number with its spot moved to where the part is seen, as near as can be to where it was."""
    block = _place_part(design, part, sight)
    shares = [(i + 0.5) / SPOTS for i in range(SPOTS)]
    spots = []
    for axis in range(3):
        a, b = (i for i in range(3) if i != axis)
        for share_a in shares:
            for share_b in shares:
                spot = [0.0, 0.0, 0.0]
                spot[axis] = block.high[axis] if sight.toward[axis] > 0 else block.low[axis]
                spot[a] = block.low[a] + share_a * block.along(a)
                spot[b] = block.low[b] + share_b * block.along(b)
                spots.append(sight.see((spot[0], spot[1], spot[2])))
    spots.sort(key=lambda at: math.hypot(at[0] - ring.x, at[1] - ring.y))
    index = next(i for i, thing in enumerate(ordered) if thing.number == part.number)
    covers = list_covers(e for thing in ordered[index + 1 :] for e in thing.entities)
    covers += list_covers(_draw_own_holes(design, part, block, sight))
    x, y = find_seen(spots, covers) or (ring.x, ring.y)
    return Ring(x, y, ring.number)


def _draw_own_holes(design: Design, part: BoxPart, block: Block, sight: Sight) -> list[Entity]:
    return [entity for hole in part.holes for entity in _draw_hole(design, part, block, hole, sight)]


def _name_port(project: Settled, design: Design, port: PortDesign, sight: Sight, scale: float) -> list[Entity]:
    at = list(_find_port_place(design, port, sight))
    axis = AXIS[port.port.face]
    out = -1.0 if is_low(port.port.face) else 1.0
    along = 100.0 + port.port.closure.ring_height_mm
    if port.port.kind == "filter" and project.filters:
        along += 0.66 * project.get_filter(port.port).height_mm
    at[axis] += out * along
    x, y = sight.see((at[0], at[1], at[2]))
    if port.port.kind != "filter":  # a lid is smaller than its name: it stands below the lid
        y -= 0.62 * port.port.closure.lid_mm + 2.5 / scale
    return [write_at(x, y, port.name, 2.2, bold=True, ground=True)]

"""How the box's panels meet: which covers which, how deep one enters the other, and the sizes that follow.

The removable face covers the whole front of the other five (screws and gasket, never a joint). Opposite it, the fixed
face covers the tube of four. In the tube one pair covers the other; what lies between enters the pair by the joint's
depth. A rabbet is cut at the edge, a dado a lip's width inside it; cleats are strips screwed into the inner corners
of a butt joint.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from calc.finding import Said
from calc.project import FACES, Face, FilterBox
from calc.settled import SizedBox
from calc.shapes.faces import AXIS, OPPOSITE, Block, Sizes, is_low, meet_blocks
from calc.shapes.part_names import say_cleat, say_face

CLEAT_WIDE_MM = 40.0


@dataclass(frozen=True)
class Joint:
    """depth_mm: how far one panel enters the other; lip_mm: left outside a dado; cleats: strips in the corners."""

    kind: str
    depth_mm: float
    lip_mm: float
    cleats: bool


@dataclass(frozen=True, kw_only=True)
class BoxShape:
    """The box's sizes: inside between the panels, outside over all, and the cavity's place in space [mm].

    cover: faces from outermost to innermost: removable and its opposite, the covering pair, the pair between
    """

    inside: Sizes
    outside: Sizes
    cavity: Block
    joint: Joint
    cover: tuple[tuple[Face, Face], tuple[Face, Face], tuple[Face, Face]]
    removable: Face


Member = Literal[
    "wall rail", "box rail", "lower spacer", "left rail", "right rail",
    "cart base", "cart left side", "cart right side", "cart back", "cart left cleat", "cart right cleat",
]  # fmt: skip
"""The pieces that carry the box, of which there is one each."""

CART_SIDES: tuple[Member, ...] = ("cart left side", "cart right side")
CART_CLEATS: tuple[Member, ...] = ("cart left cleat", "cart right cleat")


@dataclass(frozen=True)
class Solid:
    """One piece of wood as a brick in space, before its grooves are cut.

    called: what it is called in print; member: of what carries the box, if it is
    """

    name: str
    face: Face
    block: Block
    called: Said
    member: Member | None = None


def choose_joint(kind: str, thickness_mm: float) -> Joint:
    """Return the joint's allowances for a panel of a thickness [mm].

    A rabbet goes half the thickness deep, a dado a third with a lip of two thirds (common practice, no source),
    in half millimetres.
    """
    if kind == "rabbet":
        return Joint(kind, round(thickness_mm) / 2, 0.0, False)
    if kind == "dado":
        return Joint(kind, round(thickness_mm * 2 / 3) / 2, round(thickness_mm * 4 / 3) / 2, False)
    return Joint(kind, 0.0, 0.0, kind == "cleat")


def order_faces(removable: Face) -> tuple[tuple[Face, Face], tuple[Face, Face], tuple[Face, Face]]:
    """Return the pairs of faces from outermost to innermost; in the tube the upright pair covers top and bottom."""
    fixed = OPPOSITE[removable]
    pairs: list[tuple[Face, Face]] = [("left", "right"), ("front", "back"), ("bottom", "top")]
    rest = [pair for pair in pairs if removable not in pair]
    return (removable, fixed), rest[0], rest[1]


def measure_box(box: SizedBox) -> BoxShape:
    """Return the sizes of a settled box."""
    return measure_shape(box, Sizes(box.width_mm, box.depth_mm, box.height_mm))


def measure_shape(box: FilterBox, inside: Sizes) -> BoxShape:
    """Return the sizes of a box that is this large inside, whatever it says of its own sizes."""
    t, joint, cover = (
        box.panel.thickness_mm,
        choose_joint(box.joint, box.panel.thickness_mm),
        order_faces(box.removable),
    )
    first = AXIS[cover[0][0]]
    walls = [t if axis == first else t + joint.lip_mm for axis in range(3)]
    outside = Sizes(*(inside.along(axis) + 2 * walls[axis] for axis in range(3)))
    low = (walls[0], walls[1], walls[2])
    high = (walls[0] + inside.width, walls[1] + inside.depth, walls[2] + inside.height)
    return BoxShape(
        inside=inside, outside=outside, cavity=Block(low, high), joint=joint, cover=cover, removable=box.removable
    )


def place_panels(shape: BoxShape, thickness_mm: float) -> tuple[Solid, ...]:
    """Return the six panels as bricks in space, in the order of FACES."""
    solids = {face: Solid(face, face, _place_panel(shape, face, thickness_mm), say_face(face)) for face in FACES}
    return tuple(solids[face] for face in FACES)


def _place_panel(shape: BoxShape, face: Face, t: float) -> Block:
    rank = next(i for i, pair in enumerate(shape.cover) if face in pair)
    depth = shape.joint.depth_mm
    low, high = [0.0] * 3, [0.0] * 3
    for axis in range(3):
        inner_low, inner_high = shape.cavity.low[axis], shape.cavity.high[axis]
        if axis == AXIS[face]:
            low[axis], high[axis] = (inner_low - t, inner_low) if is_low(face) else (inner_high, inner_high + t)
            continue
        other = next(i for i, pair in enumerate(shape.cover) if AXIS[pair[0]] == axis)
        if rank < other:  # covers that pair: runs over it to the outside, lip and all
            low[axis], high[axis] = 0.0, shape.outside.along(axis)
        else:
            fixed = shape.cover[0][1]
            enter_low = 0.0 if other == 0 and not is_low(fixed) else depth
            enter_high = 0.0 if other == 0 and is_low(fixed) else depth
            low[axis], high[axis] = inner_low - enter_low, inner_high + enter_high
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def find_grooves(solid: Solid, solids: tuple[Solid, ...]) -> tuple[Block, ...]:
    """Return what must be cut out of a panel so that the panels entering it find room (rabbets or dados)."""
    own = AXIS[solid.face]
    grooves = []
    for other in solids:
        shared = None if other is solid else meet_blocks(solid.block, other.block)
        # the panel that gives way is the one the other enters through its face, not through its edge
        if shared and shared.along(own) < solid.block.along(own) - 1e-9:
            grooves.append(shared)
    return tuple(grooves)


def place_cleats(shape: BoxShape, thickness_mm: float) -> tuple[Solid, ...]:
    """Return the cleats of a cleated box: four along the tube, then four against the fixed face between them."""
    if not shape.joint.cleats:
        return ()
    first, second, third = (AXIS[pair[0]] for pair in shape.cover)
    t, wide, fixed = thickness_mm, CLEAT_WIDE_MM, shape.cover[0][1]
    strips = []
    for face2 in shape.cover[1]:
        for face3 in shape.cover[2]:
            span = {first: _whole(shape, first), second: _end(shape, face2, t), third: _end(shape, face3, wide)}
            strips.append(((face2, face3), span))
    for face3 in shape.cover[2]:
        span = {first: _end(shape, fixed, t), second: _within(shape, second, t), third: _end(shape, face3, wide)}
        strips.append(((fixed, face3), span))
    for face2 in shape.cover[1]:
        span = {first: _end(shape, fixed, t), second: _end(shape, face2, wide), third: _within(shape, third, wide)}
        strips.append(((fixed, face2), span))
    return tuple(
        Solid(
            f"cleat {one} {other}",
            one,
            Block(
                (span[0][0], span[1][0], span[2][0]),
                (span[0][1], span[1][1], span[2][1]),
            ),
            say_cleat(one, other),
        )
        for (one, other), span in strips
    )


def find_cleat_width(shape: BoxShape, thickness_mm: float, face: Face, wall: Face) -> float:
    """Return how far [mm] cleats reach out from a wall over the inside of a face (0 without cleats)."""
    axis, reach = AXIS[wall], 0.0
    panel = _place_panel(shape, face, thickness_mm)
    inner = shape.cavity.low[axis] if is_low(wall) else shape.cavity.high[axis]
    for cleat in place_cleats(shape, thickness_mm):
        block, normal = cleat.block, AXIS[face]
        lies = min(abs(block.low[normal] - panel.high[normal]), abs(block.high[normal] - panel.low[normal])) < 1e-6
        along = max(range(3), key=block.along)
        if lies and along not in (normal, axis):
            end, other = (block.low[axis], block.high[axis]) if is_low(wall) else (block.high[axis], block.low[axis])
            if abs(end - inner) < 1e-6:
                reach = max(reach, abs(other - inner))
    return reach


def _whole(shape: BoxShape, axis: int) -> tuple[float, float]:
    return shape.cavity.low[axis], shape.cavity.high[axis]


def _within(shape: BoxShape, axis: int, less: float) -> tuple[float, float]:
    return shape.cavity.low[axis] + less, shape.cavity.high[axis] - less


def _end(shape: BoxShape, face: Face, size: float) -> tuple[float, float]:
    low, high = _whole(shape, AXIS[face])
    return (low, low + size) if is_low(face) else (high - size, high)

"""What carries the box: rails on a wall, rails under a ceiling, or a cart, all cut from the panel stock."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from calc.box.joints import CART_CLEATS, CLEAT_WIDE_MM, BoxShape, Member, Solid
from calc.box.parts import BoxPart, make_strip
from calc.box.screws import ScrewRow, make_row, space_row
from calc.box.standing import (
    CASTER_MM,
    RAIL_OVER_MM,
    RAIL_PLAY_MM,
    RAIL_WIDE_MM,
    Base,
    count_layers,
    find_rail_thickness,
    find_rails_high,
    find_stand,
    place_base,
    place_blower,
)
from calc.project import Face
from calc.settled import Settled
from calc.shapes.faces import AXIS, Block
from calc.shapes.part_names import say_member

RAIL_BELOW_MM = 50.0
"""The box rail's upper edge lies this far below the top of the box (common practice, no source)."""

CART_BACK_SHARE = 0.5
CASTERS, CASTER_SCREWS = 4, 4
CART_BOLTS = 4
CLEAT_LAYERS = 2

LOCK_SCREWS, LOCK_MM = 2, 45.0
"""One at each end of a wall's rails, slanting across the seam between them: how many, and their least length (common
practice, no source)."""


@dataclass(frozen=True, kw_only=True)
class Mount:
    """The mount's parts and fixings.

    parts: kind ``mount``, sizes as cut, several layers where the stock is thin
    carried: names of the parts that are screwed to the box and go up with it
    rows: screws from inside the box into its rails; screws: further screws that hold a cart together
    casters, bolts: how many, 0 unless on a cart; wheels_mm: their spacing from middle to middle, across and deep
    base: a cart's; blower: what it fills where it stands on the cart
    """

    parts: tuple[BoxPart, ...]
    rows: tuple[ScrewRow, ...]
    screws: int = 0
    casters: int = 0
    bolts: int = 0
    carried: tuple[str, ...] = ()
    wheels_mm: tuple[float, float] | None = None
    base: Base | None = None
    blower: Block | None = None


def plan_mount(project: Settled, shape: BoxShape, panels: tuple[Solid, ...], first_number: int) -> Mount:
    """Return what carries a settled box, parts numbered from `first_number`."""
    if project.box.hung == "cart":
        return _plan_cart(project, shape, first_number)
    solids = _place_wall(project, shape) if project.box.hung == "wall" else _place_ceiling(project, shape)
    layers = count_layers(project)
    parts = tuple(
        replace(make_strip(project, shape, solid, "mount", str(number)), quantity=layers)
        for number, solid in enumerate(solids, start=first_number)
    )
    face: Face = "back" if project.box.hung == "wall" else "top"
    panel = next(each for each in panels if each.face == face)
    reached = replace(panel, block=_clip_to_inside(panel.block, shape, AXIS[face]))
    rows = tuple(
        make_row(reached, solid, shape.outside, project.methods.screw_spacing_mm, outward=True)
        for solid in solids
        if solid.member != "wall rail"
    )
    return Mount(parts=parts, rows=rows, carried=tuple(solid.name for solid in solids if solid.member != "wall rail"))


def _clip_to_inside(block: Block, shape: BoxShape, normal: int) -> Block:
    """Return what of a panel is seen from inside the box: a driver reaches no screw behind its neighbours' edges."""
    low = [block.low[i] if i == normal else max(block.low[i], shape.cavity.low[i]) for i in range(3)]
    high = [block.high[i] if i == normal else min(block.high[i], shape.cavity.high[i]) for i in range(3)]
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def find_rail_up(parts: Sequence[BoxPart], box_bottom_mm: float) -> float | None:
    """Return the wall rail's upper edge above the floor [mm], the box's underside so high; None without such a rail."""
    rail = next((part for part in parts if part.member == "wall rail"), None)
    return None if rail is None else box_bottom_mm + rail.block.high[2]


def _place_wall(project: Settled, shape: BoxShape) -> list[Solid]:
    """A rail on the back, the rail on the wall that it hooks over, and a spacer below that keeps the box upright.

    The rails' long edges are sawn at 45 degrees: as bricks they overlap by their thickness.
    """
    wide, deep, high = shape.outside.width, shape.outside.depth, shape.outside.height
    thick = find_rail_thickness(project)
    top = high - _find_below(project, shape)
    spans: dict[Member, tuple[float, float]] = {
        "box rail": (top - RAIL_WIDE_MM, top),
        "wall rail": (top - 2 * RAIL_WIDE_MM + thick, top - RAIL_WIDE_MM + thick),
        "lower spacer": (0.0, RAIL_WIDE_MM),
    }
    return [
        Solid(name, "back", Block((0.0, deep, low), (wide, deep + thick, up)), say_member(name), name)
        for name, (low, up) in spans.items()
    ]


def _find_below(project: Settled, shape: BoxShape) -> float:
    """Return how far [mm] under the top the box rail starts: level with it where a duct at the back needs the room."""
    inlet, high = project.box.inlet, shape.outside.height
    usual = min(RAIL_BELOW_MM, max(high - 3 * RAIL_WIDE_MM, 0.0))
    duct = inlet.up_mm + inlet.diameter_mm / 2 + RAIL_PLAY_MM
    crossed = inlet.face == "back" and duct > high - usual - find_rails_high(project) + 1e-6
    return 0.0 if crossed else usual


def _place_ceiling(project: Settled, shape: BoxShape) -> list[Solid]:
    """Two rails across the top, one near each end, sticking out at front and back for the lag screws."""
    wide, deep, high = shape.outside.width, shape.outside.depth, shape.outside.height
    thick = find_rail_thickness(project)
    starts: dict[Member, float] = {"left rail": 0.0, "right rail": wide - RAIL_WIDE_MM}
    return [
        Solid(
            name,
            "top",
            Block((x, -RAIL_OVER_MM, high), (x + RAIL_WIDE_MM, deep + RAIL_OVER_MM, high + thick)),
            say_member(name),
            name,
        )
        for name, x in starts.items()
    ]


def _plan_cart(project: Settled, shape: BoxShape, first_number: int) -> Mount:
    """A base on casters, a side under each end of the box, and a back that braces them; the front stays open."""
    wide, deep, t = shape.outside.width, shape.outside.depth, project.box.panel.thickness_mm
    base = place_base(project, shape)
    underside = project.box.underside_mm
    low = CASTER_MM - underside  # the base's underside, as seen from the box's own corner
    foot = find_stand(project) - underside
    legs = max(-foot, 1.0)  # a box too low for its cart is told by the findings, not by a part without size
    back = max(CART_BACK_SHARE * legs, min(legs, RAIL_WIDE_MM))
    blocks: dict[Member, tuple[tuple[float, float, float], tuple[float, float, float]]] = {
        "cart base": ((base.left_mm, base.front_mm, low), (base.right_mm, base.back_mm, low + t)),
        "cart left side": ((0.0, 0.0, foot), (t, deep, foot + legs)),
        "cart right side": ((wide - t, 0.0, foot), (wide, deep, foot + legs)),
        "cart back": ((t, deep - t, foot + legs - back), (wide - t, deep, foot + legs)),
        "cart left cleat": ((t, 0.0, -CLEAT_LAYERS * t), (t + CLEAT_WIDE_MM, deep - t, 0.0)),
        "cart right cleat": ((wide - t - CLEAT_WIDE_MM, 0.0, -CLEAT_LAYERS * t), (wide - t, deep - t, 0.0)),
    }
    parts = tuple(
        _make_flat(project, shape, member, Block(*ends), str(number))
        for number, (member, ends) in enumerate(blocks.items(), start=first_number)
    )
    most = project.methods.screw_spacing_mm
    # each side: to the base, to the back, to its cleat; the box is bolted to the cleats from inside
    screws = 2 * sum(len(space_row(along, most)) for along in (deep, back, deep - t))
    blower = place_blower(project, shape)
    return Mount(
        parts=parts,
        rows=(),
        screws=screws,
        casters=CASTERS,
        bolts=CART_BOLTS,
        carried=(),
        wheels_mm=base.wheels_mm,
        base=base,
        blower=blower,
    )


def _make_flat(project: Settled, shape: BoxShape, member: Member, block: Block, number: str) -> BoxPart:
    """Return a panel or cleat of the cart: its longer side is its width in the cut list."""
    flat = min(range(3), key=block.along)
    face: Face = next(f for f in ("right", "back", "bottom") if AXIS[f] == flat)
    part = make_strip(project, shape, Solid(member, face, block, say_member(member), member), "mount", number)
    return replace(part, quantity=CLEAT_LAYERS if member in CART_CLEATS else 1)

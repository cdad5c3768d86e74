"""How far the box stands off the building or the floor: rails behind or over it, or a cart's base below it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.box.joints import BoxShape
from calc.project import Boxed
from calc.settled import Settled
from calc.shapes.faces import Block

RAIL_LEAST_MM = 15.0
"""A rail thinner than this is made of layers (common practice, no source)."""

RAIL_WIDE_MM = 75.0
RAIL_PLAY_MM = 10.0
"""Room between a rail and an opening beside it."""

RAIL_OVER_MM = 50.0
"""What a ceiling rail sticks out beyond the box for its lag screws (common practice, no source)."""

CASTER_MM = 100.0
"""Height over all of a 3 in (75 mm) caster with its plate (common practice, no source: measure yours)."""

CASTER_INSET_MM = 40.0
"""Middle of a caster's plate from the edge of the base (common practice, no source)."""


BLOWER_OUTLETS = 3.2
"""A blower with its motor takes about so many of its outlet's diameters each way (common practice, no source: measure
yours)."""

BLOWER_GAP_MM = 25.0


@dataclass(frozen=True)
class Base:
    """A cart's base [mm] from the box's lower left front corner; wheels_mm: their spacing across and deep."""

    left_mm: float
    right_mm: float
    front_mm: float
    back_mm: float
    wheels_mm: tuple[float, float]

    @property
    def wheel_lines(self) -> tuple[float, float, float, float]:
        """Return the lines through the wheels' middles: left, right, front, back."""
        x, y = (self.left_mm + self.right_mm) / 2, (self.front_mm + self.back_mm) / 2
        across, deep = self.wheels_mm
        return x - across / 2, x + across / 2, y - deep / 2, y + deep / 2


def count_layers(project: Boxed) -> int:
    """Return how many layers of panel stock make a rail: two under a ceiling, else enough for the least thickness."""
    t = project.box.panel.thickness_mm
    enough = max(1, math.ceil(RAIL_LEAST_MM / t - 1e-9)) if t > 0 else 1
    return max(2, enough) if project.box.hung == "ceiling" else enough


def find_rail_thickness(project: Boxed) -> float:
    """Return how thick [mm] a rail is."""
    return count_layers(project) * project.box.panel.thickness_mm


def find_stand_off(project: Boxed) -> float:
    """Return how far [mm] a box on a wall stands off it: its rail's thickness; 0 elsewhere."""
    return find_rail_thickness(project) if project.box.hung == "wall" else 0.0


def find_rails_high(project: Boxed) -> float:
    """Return how far [mm] down the back a wall's two rails reach: their bevels let them overlap by their thickness."""
    return 2 * RAIL_WIDE_MM - find_rail_thickness(project)


def find_top_gap(project: Boxed) -> float:
    """Return the least gap [mm] between box and ceiling: the one asked for, or the rails that lie there."""
    rails = find_rail_thickness(project) if project.box.hung == "ceiling" else 0.0
    return max(project.box.ceiling_gap_mm, rails)


def find_stand(project: Boxed) -> float:
    """Return how high [mm] the top of a cart's base stands above the floor; 0 elsewhere."""
    return CASTER_MM + project.box.panel.thickness_mm if project.box.hung == "cart" else 0.0


def place_blower(project: Settled, shape: BoxShape) -> Block | None:
    """Return what a blower that stands on a box's cart fills: on the base beside the side that the duct comes in by,
    behind the box when that is no side; None where it stands elsewhere."""
    blower = project.blower
    if blower is None or project.box.hung != "cart" or blower.stands_on != "cart":
        return None
    usual = BLOWER_OUTLETS * blower.outlet_m * 1000
    across, deep = blower.footprint_mm or (usual, usual)
    high = blower.height_mm or usual
    wide, through = shape.outside.width, shape.outside.depth
    foot = find_stand(project) - project.box.underside_mm
    x, y = (wide - across) / 2, (through - deep) / 2
    if project.box.inlet.face == "left":
        x = -BLOWER_GAP_MM - across
    elif project.box.inlet.face == "right":
        x = wide + BLOWER_GAP_MM
    else:
        y = through + BLOWER_GAP_MM
    return Block((x, y, foot), (x + across, y + deep, foot + high))


def place_base(project: Settled, shape: BoxShape) -> Base:
    """Return a cart's base: under the box and a blower beside it, and as large as its wheels ask for.

    The wheels stand under the corners; front to back as far apart as the file says, and across no nearer than that.
    """
    left, right, front, back = 0.0, shape.outside.width, 0.0, shape.outside.depth
    blower = place_blower(project, shape)
    if blower is not None:
        left, right = min(left, blower.low[0]), max(right, blower.high[0])
        front, back = min(front, blower.low[1]), max(back, blower.high[1])
    asked, rim = project.box.cart_wheelbase_mm, 2 * CASTER_INSET_MM
    across = max(right - left - rim, asked or 0.0)
    deep = asked if asked is not None else back - front - rim
    if back - front > shape.outside.depth + 1e-6:  # what stands behind the box has wheels behind it
        deep = max(deep, back - front - rim)
    over_x = max(0.0, across + rim - (right - left)) / 2
    over_y = max(0.0, deep + rim - (back - front)) / 2
    return Base(left - over_x, right + over_x, front - over_y, back + over_y, (across, deep))

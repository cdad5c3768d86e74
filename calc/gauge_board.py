"""The board behind the gauge: flat on the wall, or round on the screw lid, hanging plumb while the lid turns."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.gauge_design import Card
from calc.project import Closure

FRICTION = 0.3
"""Wood or plastic on a dry screw, taken high (common practice, no source)."""

SCREW_RADIUS_MM = 2.1
"""Shank of a No. 8 screw, 4.2 mm across: what the board turns on."""

PLUMB_WITHIN_DEG = 1.0
BOARD_DENSITY = 680.0
"""Birch plywood [kg/m3], from memory."""

CLEARANCE_MM = 12.0


@dataclass(frozen=True)
class HangingPart:
    """Something that hangs on the pivot. up_mm: its centre of gravity above the middle of the board."""

    name: str
    mass_kg: float
    up_mm: float


@dataclass(frozen=True)
class LidBoard:
    """A round board on the screw lid.

    radius_mm: of the board; pivot_up_mm: pivot above the board's middle; gravity_up_mm: centre of gravity above it
    (below when negative); hang_mm: pivot above the centre of gravity; off_plumb_deg: at most, held by friction
    tall_mm: height for tube between the board's edges; fits_lid: it stays inside the lid while the lid turns
    """

    radius_mm: float
    thickness_mm: float
    parts: tuple[HangingPart, ...]
    mass_kg: float
    gravity_up_mm: float
    pivot_up_mm: float
    hang_mm: float
    off_plumb_deg: float
    tall_mm: float
    needs_tall_mm: float
    fits_lid: bool

    @property
    def needs_bulb(self) -> bool:
        """Whether shut-off pressure would lift liquid out of legs as short as this board's."""
        return self.needs_tall_mm > self.tall_mm


@dataclass(frozen=True)
class WallBoard:
    """An upright board on the wall [mm]; zero_up_mm: still-air mark above the lower edge; screws at both ends."""

    width_mm: float
    height_mm: float
    zero_up_mm: float
    screw_inset_mm: float
    leg_gap_mm: float


def find_least_hang(friction: float, screw_radius_mm: float, within_deg: float) -> float:
    """Return how far [mm] a pivot must be above the centre of gravity to bring a board plumb within an angle [deg].

    Turning moment W d sin(a) against friction moment mu W r: d = mu r / sin(a). The weight cancels. Statics.
    """
    return friction * screw_radius_mm / math.sin(math.radians(within_deg))


def design_lid_board(card: Card, closure: Closure, leg_gap_mm: float, thickness_mm: float = 6.0) -> LidBoard:
    """Return the round board that hangs on a screw through the lid's middle."""
    lid_radius = closure.lid_mm / 2
    least = 1.25 * find_least_hang(FRICTION, SCREW_RADIUS_MM, PLUMB_WITHIN_DEG)
    radius = lid_radius - CLEARANCE_MM / 2 - least
    board = math.pi * (radius / 1000) ** 2 * thickness_mm / 1000 * BOARD_DENSITY
    half = math.sqrt(max(radius**2 - (leg_gap_mm / 2) ** 2, 0.0))
    tube_kg = 0.06 * 4 * half / 1000 + 1000.0 * card.tube.liquid_m3
    parts = (HangingPart("board", board, 0.0), HangingPart("tube and liquid", tube_kg, -half / 3))
    mass = sum(part.mass_kg for part in parts)
    gravity = sum(part.mass_kg * part.up_mm for part in parts) / mass
    pivot = gravity + least
    off = math.degrees(math.asin(min(FRICTION * SCREW_RADIUS_MM / least, 1.0)))
    needs = card.tube.above_mm + card.tube.below_mm
    reach = max(radius + pivot, radius - pivot)
    return LidBoard(
        radius, thickness_mm, parts, mass, gravity, pivot, least, off, 2 * half, needs, reach <= lid_radius + 1e-9
    )


def design_wall_board(card: Card, leg_gap_mm: float) -> WallBoard:
    """Return the wall board for an upright gauge: legs, bend, and a hand's edge round them."""
    edge = 22.0
    width = leg_gap_mm + 2 * edge
    bend = leg_gap_mm / 2 if card.both_ways else 30.0
    below = card.tube.below_mm + bend + edge
    return WallBoard(width, below + card.tube.above_mm + edge, below, 15.0, leg_gap_mm)

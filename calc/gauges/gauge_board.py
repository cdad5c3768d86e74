"""The board behind the gauge: flat on the wall, or round on the screw lid, hanging plumb while the lid turns."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.finding import Said
from calc.gauges.cards import Card
from calc.project import Closure

FRICTION = 0.3
"""Wood or plastic on a dry fitting, taken high (common practice, no source)."""

PIVOT_PLAY_MM = 0.5
PLUMB_WITHIN_DEG = 2.0
"""Off plumb by 2 deg the legs read short by 1 - cos 2 deg = 0.06 %: nothing to the eye. The zero is set as it hangs."""

BOARD_DENSITY = 680.0
"""Birch plywood [kg/m3], from memory."""

CLEARANCE_MM = 12.0
EDGE_MM = 22.0
BEND_MM = 30.0
BRACKET_WIDE_MM, BRACKET_HIGH_MM, BRACKET_DEEP_MM = 110.0, 40.0, 18.0
"""Room behind the board for the ends of the clips and a 10 mm hose (common practice, no source)."""

CLIPS_APART_MM = 90.0
"""A hand's width between clips along the tube (common practice, no source)."""


CLIP_CLEAR_MM = 20.0
"""No clip stands so near to still air: the eye must see the liquid there (common practice, no source)."""


@dataclass(frozen=True)
class HangingPart:
    """Something that hangs on the pivot. up_mm: its centre of gravity above the middle of the board."""

    what: Said
    mass_kg: float
    up_mm: float


@dataclass(frozen=True, kw_only=True)
class LidBoard:
    """A round board that turns on the hose fitting in the middle of the screw lid.

    radius_mm: of the board; pivot_up_mm: pivot above the board's middle; gravity_up_mm: centre of gravity above it
    (below when negative); hang_mm: pivot above the centre of gravity; off_plumb_deg: at most, held by friction
    pivot_hole_mm: hole for the fitting; tall_mm: height for tube between the board's edges; needs_tall_mm: what
    shut-off pressure wants
    """

    radius_mm: float
    thickness_mm: float
    parts: tuple[HangingPart, ...]
    mass_kg: float
    gravity_up_mm: float
    pivot_up_mm: float
    pivot_hole_mm: float
    hang_mm: float
    off_plumb_deg: float
    tall_mm: float
    needs_tall_mm: float

    @property
    def needs_bulb(self) -> bool:
        """Whether the highest pressure would lift liquid out of legs as short as this board's."""
        return self.needs_tall_mm > self.tall_mm


@dataclass(frozen=True, kw_only=True)
class WallBoard:
    """A board on the wall [mm]; zero_up_mm: still-air mark above the lower edge (at the low end of a sloping tube).

    legs: 2 for a U, else 1; slope: rise over length of a sloping tube, 1 upright; along_mm: its length on the board
    clips: across and up from the lower left corner; screws likewise
    """

    width_mm: float
    height_mm: float
    zero_up_mm: float
    leg_gap_mm: float
    legs: int
    slope: float
    along_mm: float
    clips: tuple[tuple[float, float], ...]
    screws: tuple[tuple[float, float], ...]

    @property
    def low_end(self) -> tuple[float, float]:
        """Return where a sloping tube begins: at still air."""
        return EDGE_MM, self.zero_up_mm


@dataclass(frozen=True)
class Bracket:
    """A block between wall and board [mm], one to each of the board's screws; wall screws beside it, board on it.

    wall_holes: across from the block's middle; the board's screw goes into the middle
    """

    width_mm: float
    height_mm: float
    thickness_mm: float
    wall_holes: tuple[float, float]


def design_bracket(board: WallBoard) -> Bracket:
    """Return the bracket of a wall board: as wide as hides behind it, deep enough for clip ends and the hose."""
    width = min(BRACKET_WIDE_MM, board.width_mm)
    return Bracket(width, BRACKET_HIGH_MM, BRACKET_DEEP_MM, (-width / 2 + 15.0, width / 2 - 15.0))


def find_least_hang(friction: float, pivot_radius_mm: float, within_deg: float) -> float:
    """Return how far [mm] a pivot must be above the centre of gravity to bring a board plumb within an angle [deg].

    Turning moment W d sin(a) against friction moment mu W r: d = mu r / sin(a). The weight cancels. Statics.
    """
    return friction * pivot_radius_mm / math.sin(math.radians(within_deg))


def design_lid_board(
    card: Card, closure: Closure, fitting_mm: float, leg_gap_mm: float, thickness_mm: float = 6.0
) -> LidBoard:
    """Return the round board that hangs on the hose fitting through the lid's middle."""
    lid_radius, pivot_radius = closure.lid_mm / 2, fitting_mm / 2
    least = 1.1 * find_least_hang(FRICTION, pivot_radius, PLUMB_WITHIN_DEG)
    radius = lid_radius - CLEARANCE_MM / 2 - least
    board = math.pi * (radius / 1000) ** 2 * thickness_mm / 1000 * BOARD_DENSITY
    half = math.sqrt(max(radius**2 - (leg_gap_mm / 2) ** 2, 0.0))
    tube_kg = 0.06 * 4 * half / 1000 + 1000.0 * card.tube.liquid_m3
    wood = HangingPart(Said("gauge_board.board"), board, 0.0)
    parts = (wood, HangingPart(Said("gauge_board.tube"), tube_kg, -half / 3))
    mass = sum(part.mass_kg for part in parts)
    gravity = sum(part.mass_kg * part.up_mm for part in parts) / mass
    pivot = gravity + least
    off = math.degrees(math.asin(min(FRICTION * pivot_radius / least, 1.0)))
    return LidBoard(
        radius_mm=radius,
        thickness_mm=thickness_mm,
        parts=parts,
        mass_kg=mass,
        gravity_up_mm=gravity,
        pivot_up_mm=pivot,
        pivot_hole_mm=fitting_mm + PIVOT_PLAY_MM,
        hang_mm=least,
        off_plumb_deg=off,
        tall_mm=2 * half,
        needs_tall_mm=card.tube.above_mm + card.tube.below_mm,
    )


def design_wall_board(card: Card, leg_gap_mm: float) -> WallBoard:
    """Return the wall board: upright for U and well, lying for a sloping tube, with clips and two screws."""
    kind = card.instrument.kind
    if kind == "inclined":
        return _design_lying(card)
    legs = 2 if kind in ("u-tube", "u-tube one leg") else 1
    width = leg_gap_mm + 2 * EDGE_MM
    below = card.tube.below_mm + (leg_gap_mm / 2 if legs == 2 else BEND_MM) + EDGE_MM
    height = below + card.tube.above_mm + EDGE_MM
    low, high = below - card.tube.below_mm, height - EDGE_MM
    count = max(2, math.ceil((high - low) / CLIPS_APART_MM) + 1)
    evenly = [low + (high - low) * index / (count - 1) for index in range(count)]
    rows = [below - CLIP_CLEAR_MM if abs(row - below) < CLIP_CLEAR_MM else row for row in evenly]
    sides = (-leg_gap_mm / 2, leg_gap_mm / 2) if legs == 2 else (0.0,)
    clips = tuple((width / 2 + side, row) for side in sides for row in rows)
    screws = ((width / 2, 12.0), (width / 2, height - 12.0))
    return WallBoard(
        width_mm=width,
        height_mm=height,
        zero_up_mm=below,
        leg_gap_mm=leg_gap_mm,
        legs=legs,
        slope=1.0,
        along_mm=0.0,
        clips=clips,
        screws=screws,
    )


def _design_lying(card: Card) -> WallBoard:
    """Return the board of a sloping tube: low end left, the jar beside it, the tube's high end turned up."""
    slope, along = card.instrument.slope, card.tube.along_mm
    run = along * math.sqrt(1.0 - slope**2)
    width, height = run + 2 * EDGE_MM, along * slope + 2 * EDGE_MM + BEND_MM
    count = max(2, math.ceil(along / CLIPS_APART_MM) + 1)
    shares = [max(index / (count - 1), min(CLIP_CLEAR_MM / along, 1.0)) for index in range(count)]
    clips = tuple((EDGE_MM + run * share, EDGE_MM + along * slope * share) for share in shares)
    screws = ((12.0, height - 12.0), (width - 12.0, 12.0))
    return WallBoard(
        width_mm=width,
        height_mm=height,
        zero_up_mm=EDGE_MM,
        leg_gap_mm=0.0,
        legs=1,
        slope=slope,
        along_mm=along,
        clips=clips,
        screws=screws,
    )

"""How much a screw holds, in withdrawal from wood and across a wall fixing."""

from __future__ import annotations

import math

from calc.project import System

NO8_MM = 4.17
"""Diameter of a No. 8 wood screw, 0.164 in (ASME B18.6.1, from memory)."""

EDGE_SHARE = 0.75
"""A screw in end grain or panel edge holds about 75 % of one in side grain (Wood Handbook ch. 8, from memory)."""

WITHDRAWAL_FACTOR = 5.0
"""Ultimate over allowed load: handbooks design with a fifth to a sixth of the ultimate (from memory)."""

LAG_MM = 7.94
"""Lag screw for hanging the box: 5/16 in."""

LAG_SOLD_MM: dict[System, float] = {"inch": LAG_MM, "metric": 8.0}
"""What is bought for it (common practice, no source)."""

LAG_SIDEWAYS_N = 710.0
"""Allowed sideways load of a 5/16 in lag screw in a stud: about 160 lbf (timber design tables, from memory)."""


SCREW_LENGTHS_MM: dict[System, tuple[float, ...]] = {
    "inch": (12.7, 15.875, 19.05, 25.4, 31.75, 38.1, 50.8, 63.5, 76.2),
    "metric": (12.0, 16.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 80.0),
}
"""Lengths of screw that shops keep (common practice, no source)."""


def choose_screw(system: System, least_mm: float, most_mm: float = math.inf) -> float:
    """Return the shortest stocked screw length [mm] of at least `least_mm`, or the longest within most_mm."""
    stocked = SCREW_LENGTHS_MM[system]
    fitting = [length for length in stocked if length <= most_mm] or [stocked[0]]
    return next((length for length in fitting if length >= least_mm), fitting[-1])


def choose_ring_screw(system: System, panel_mm: float, flange_mm: float) -> float:
    """Return the screw [mm] through a ring's flange: the longest that does not come out of the panel behind it."""
    return choose_screw(system, math.inf, panel_mm + flange_mm - 1.0)


def choose_inside_screw(system: System, grip_mm: float, panel_mm: float) -> float:
    """Return the screw [mm] driven from inside through a strip: well into the panel behind it, but not out of it."""
    return choose_screw(system, grip_mm + 0.6 * panel_mm, grip_mm + panel_mm - 1.0)


def choose_plate_screw(system: System, panel_mm: float) -> float:
    """Return the screw [mm] that holds a caster's plate: well into the panel below it, but not out of it."""
    return choose_screw(system, 0.6 * panel_mm, panel_mm - 1.0)


def find_withdrawal(gravity: float, diameter_mm: float, thread_mm: float) -> float:
    """Return the ultimate withdrawal load [N] of a wood screw in side grain: 108.25 G^2 D L.

    Wood Handbook, chapter 8, wood screws (from memory). gravity: specific gravity; thread_mm: length of thread that
    holds. Over-predicts plywood somewhat. Raises ValueError for a negative size.
    """
    if min(gravity, diameter_mm, thread_mm) < 0:
        raise ValueError("a screw cannot have a negative size")
    return 108.25 * gravity**2 * diameter_mm * thread_mm


def find_lag_withdrawal(gravity: float, diameter_mm: float, thread_mm: float) -> float:
    """Return the allowed withdrawal load [N] of a lag screw: 1800 G^1.5 D^0.75 lbf per inch.

    Timber design formula, from memory. diameter_mm, thread_mm: shank diameter and length of thread that holds.
    """
    per_inch: float = 1800 * gravity**1.5 * (diameter_mm / 25.4) ** 0.75
    return per_inch * thread_mm / 25.4 * 4.4482216

"""How much a screw holds, in withdrawal from wood and across a wall fixing."""

from __future__ import annotations

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

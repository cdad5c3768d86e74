"""Whether the rails reach the framing they are screwed to: studs of a wall, joists of a ceiling.

No project file tells where studs stand: what the rails ask of them is told, so that it can be measured.
"""

from __future__ import annotations

import math

from calc.box.joints import BoxShape
from calc.box.standing import RAIL_OVER_MM
from calc.finding import Amount, Finding, Limit, Said, Verdict, hold, tell
from calc.settled import Settled
from calc.shapes.judge import say_with

NEAR_SPACING_MM, WIDE_SPACING_MM = 406.4, 609.6
"""Studs and joists are 16 or 24 in apart, middle to middle, in most light framing (common practice, no source)."""

LAG_END_MM = 25.0
"""A lag screw stays this far from a rail's end (common practice, no source)."""

LAGS_EACH = 2
"""Lag screws into one stud, one above the other (common practice, no source)."""


def count_studs(lags: int) -> int:
    """Return how many studs a wall rail must be screwed into: two at least, or it turns on one."""
    return max(2, math.ceil(lags / LAGS_EACH))


def find_widest_spacing(rail_mm: float, studs: int) -> float:
    """Return how far apart [mm] studs may be so that the rail, shifted along the wall, reaches so many of them."""
    return (rail_mm - 2 * LAG_END_MM) / (studs - 1)


def judge_framing(project: Settled, shape: BoxShape, lags: int) -> tuple[Finding, ...]:
    """Return what the rails ask of studs or joists; nothing on a cart. lags: lag screws that hold the box."""
    if project.box.hung == "wall":
        studs = count_studs(lags)
        widest = find_widest_spacing(shape.outside.width, studs)
        count = {"studs": Amount(studs, "count")}
        return (
            hold(
                "mount.studs",
                Said("framing.studs_what", count),
                widest,
                # nobody measured the studs: where only near ones do, the wall decides
                Limit(NEAR_SPACING_MM, "at least", tight=WIDE_SPACING_MM - NEAR_SPACING_MM),
                Said("framing.studs_why", count),
                topic="box",
                eases=(say_with("framing.studs_mend", by=max(WIDE_SPACING_MM - widest, 0.0) * (studs - 1)),),
            ),
        )
    if project.box.hung == "ceiling":
        apart = shape.outside.depth + 2 * (RAIL_OVER_MM - LAG_END_MM)  # lag screws stand where the rails stick out
        return (
            tell(
                "mount.joists",
                Said("framing.joists_what"),
                say_with("framing.joists_why", apart=apart),
                Verdict.TIGHT,
                topic="box",
                mends=(Said("framing.joists_mend"),),
            ),
        )
    return ()

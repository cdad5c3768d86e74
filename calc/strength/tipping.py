"""When a cart tips: on a slope, or when its hose is pulled sideways; and what its casters carry. Elementary statics."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.box.standing import Base

GRAVITY = 9.80665

PULL_N = 110.0
"""A firm tug at a hose that caught on something, about 25 lbf (common practice, no source)."""

CASTERS, CASTERS_CARRY = 4, 3
"""Four casters on an uneven floor: three carry (common practice, no source)."""


@dataclass(frozen=True)
class Weight:
    """Something of kg at a spot [mm]: x, y as in the box's own corner, z above the floor."""

    kg: float
    x_mm: float
    y_mm: float
    z_mm: float


def find_centre(weights: Sequence[Weight]) -> Weight:
    """Return all weights as one at their common centre. Raises ZeroDivisionError when nothing weighs anything."""
    total = sum(weight.kg for weight in weights)
    x, y, z = (
        sum(weight.kg * at for weight, at in zip(weights, places, strict=True)) / total
        for places in (
            [weight.x_mm for weight in weights],
            [weight.y_mm for weight in weights],
            [weight.z_mm for weight in weights],
        )
    )
    return Weight(total, x, y, z)


def find_nearest_edge(centre: Weight, base: Base) -> float:
    """Return how far [mm] the centre stands inside the nearest line of wheels; 0 when it is outside."""
    left, right, front, back = base.wheel_lines
    return max(0.0, min(centre.x_mm - left, right - centre.x_mm, centre.y_mm - front, back - centre.y_mm))


def find_tip_slope(weights: Sequence[Weight], base: Base) -> float:
    """Return the slope [deg] at which the centre of weight passes over the nearest line of wheels."""
    centre = find_centre(weights)
    return math.degrees(math.atan2(find_nearest_edge(centre, base), centre.z_mm))


def find_tip_pull(weights: Sequence[Weight], base: Base, at_mm: float) -> float:
    """Return the level pull [N] at a height [mm] that lifts the first wheel, casters locked: moments about the
    nearest line of wheels."""
    centre = find_centre(weights)
    return centre.kg * GRAVITY * find_nearest_edge(centre, base) / max(at_mm, 1.0)


def find_caster_load(weights: Sequence[Weight], base: Base) -> float:
    """Return what the heaviest laden caster must carry [kg]: its corner's share by levers both ways, and a third more
    because one of the four may hang in the air."""
    centre = find_centre(weights)
    left, right, front, back = base.wheel_lines
    shares = []
    for at, low, high in ((centre.x_mm, left, right), (centre.y_mm, front, back)):
        spacing = high - low  # none where the box is absurdly small: one pair then bears it all
        shares.append(min(1.0, max(at - low, high - at) / spacing) if spacing > 0 else 1.0)
    return centre.kg * shares[0] * shares[1] * CASTERS / CASTERS_CARRY

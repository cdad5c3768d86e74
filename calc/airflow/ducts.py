"""Straight duct and hose: area, speed, velocity pressure, friction."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.project import DuctMaterial, Hose, Pipe

_LN10 = math.log(10.0)


@dataclass(frozen=True)
class Roughness:
    """Absolute roughness [m] of a duct wall: low, best, high."""

    low: float
    best: float
    high: float
    source: str


_ASHRAE = "ASHRAE Handbook Fundamentals, Duct Design, duct roughness table"
TRADE_ROUGHNESS = 0.1524e-3
"""0.0005 ft, in metres: galvanised pipe joined every 2.5 ft, on which the friction tables of the trade rest. Trade hose
factors compare with it too."""

# Galvanised: the handbook's table (read) gives 0.05 to 0.10 mm, 0.09 as its category's average, to long pipes with few
# joints, and 0.15 mm to pipe joined every 2.5 ft; Idelchik gives new galvanised sheet 0.15 mm (fluids library). Ducts
# in a shop are short pieces, crimped and screwed at each joint, so 0.15 mm is the best value: the closed forms of ACGIH
# (Loeffler) and of the general handbooks then lie 2 % under to 5 % over it (at 0.09 mm they were 9 to 13 % over), and
# the EPA's form lies between low and best. Low is the seam alone; high, 0.20 mm, takes in every table of the trade.
# Spiral comes in 10 ft lengths; its three values, as PVC's best and high, stand in the same table. PVC's low is drawn
# plastic, 0.0015 mm (Idelchik).
ROUGHNESS: dict[DuctMaterial | str, Roughness] = {
    "galvanised": Roughness(0.05e-3, TRADE_ROUGHNESS, 0.20e-3, f"{_ASHRAE}; Idelchik, new galvanised sheet"),
    "spiral": Roughness(0.06e-3, 0.09e-3, 0.12e-3, _ASHRAE),
    "steel": Roughness(0.046e-3, 0.046e-3, 0.09e-3, _ASHRAE),
    "aluminium": Roughness(0.04e-3, 0.05e-3, 0.06e-3, _ASHRAE),
    "pvc": Roughness(0.0015e-3, 0.0457e-3, 0.05e-3, f"{_ASHRAE}; Idelchik, smooth plastic"),
    "smooth hose": Roughness(0.09e-3, 0.9e-3, 0.9e-3, _ASHRAE + ", flexible duct fully extended: use 0.003 ft"),
}
# Ribbed hose over smooth pipe of the same bore: common practice, no source (trade figures run from 2.5 to 3.75).
RIBBED_FACTOR = (2.5, 3.0, 3.75)


@dataclass(frozen=True)
class Friction:
    """A length of duct: factor multiplies the friction of a pipe of that diameter and roughness."""

    diameter_m: float
    length_m: float
    roughness_m: float
    factor: float = 1.0


def find_area(diameter_m: float) -> float:
    """Return the area [m2] of a round duct."""
    return math.pi * diameter_m * diameter_m / 4


def find_velocity_pressure(speed_ms: float, density_kgm3: float) -> float:
    """Return the velocity pressure [Pa], rho V^2 / 2 (ASHRAE Handbook Fundamentals, Duct Design)."""
    return density_kgm3 * speed_ms * speed_ms / 2


def find_reynolds(speed_ms: float, diameter_m: float, density_kgm3: float, viscosity_pas: float) -> float:
    """Return the Reynolds number rho V D / mu."""
    return density_kgm3 * speed_ms * diameter_m / viscosity_pas


def solve_colebrook(reynolds: float, relative_roughness: float) -> tuple[float, float]:
    """Return the Darcy friction factor and its slope d f / d ln(Re).

    Colebrook 1/sqrt(f) = -2 log10(e/(3.7 D) + 2.51/(Re sqrt(f))) (ASHRAE Fundamentals, Duct Design) above Re 4,000;
    64/Re below 2,000; a straight line between the two, where flow is unsteady and no equation holds.
    """
    if reynolds <= 2000.0:
        laminar = 64.0 / max(reynolds, 1e-9)
        return laminar, -laminar
    if reynolds < 4000.0:
        top, _ = solve_colebrook(4000.0, relative_roughness)
        slope = (top - 0.032) / 2000.0
        return 0.032 + slope * (reynolds - 2000.0), slope * reynolds
    a = relative_roughness / 3.7
    b = 2.51 / reynolds
    x = -2.0 * math.log10(a + 5.74 / reynolds**0.9)  # Swamee and Jain 1976 to start from
    for _ in range(3):
        inner = a + b * x
        step = (x + 2.0 * math.log10(inner)) / (1.0 + 2.0 / _LN10 * b / inner)
        x -= step
        if abs(step) < 1e-10 * x:
            break
    k = 2.0 / _LN10 * b / (a + b * x)
    slope_x = k * x / (1.0 + k)  # d x / d ln(Re)
    return 1.0 / (x * x), -2.0 * slope_x / (x * x * x)


def find_friction_factor(reynolds: float, relative_roughness: float) -> float:
    """Return the Darcy friction factor (see solve_colebrook)."""
    return solve_colebrook(reynolds, relative_roughness)[0]


def find_film_slack(compression: float, diameter_m: float) -> float:
    """Return how many times more a hose of thin film on a wire loses when slack than when pulled tight.

    1 + 0.58 r exp(-0.126 D), r compression in %, D in inches: ASHRAE Handbook Fundamentals, Duct Design, after
    Abushakra, Walker and Sherman 2004 (from memory). Measured from 0 to 45 % on air-conditioning duct of 6, 8 and 10
    in, whose film folds into the air; narrower hose and hose pushed together further take the equation as it stands.
    """
    percent = 100 * max(compression, 0.0)
    return 1 + 0.58 * percent * math.exp(-0.126 * diameter_m / 0.0254)


def find_slack_factors(compression: float, diameter_m: float) -> tuple[float, float, float]:
    """Return how many times more a dust hose loses than one pulled tight: low, best, high.

    Nobody's measurement of slack dust hose was found; its wall is stiff and lies in curves before it folds. Low: the
    air runs through all of the hose and nothing folds, 1 / (1 - compression). High: it folds as film does
    (find_film_slack). Best: midway as ratios go, the root of their product: common practice, no source.
    """
    whole = 1 / (1 - min(max(compression, 0.0), 0.95))
    folded = max(find_film_slack(compression, diameter_m), whole)
    return whole, math.sqrt(whole * folded), folded


def lay_pipe(pipe: Pipe) -> tuple[Friction, Friction, Friction]:
    """Return a pipe's friction with low, best and high roughness."""
    wall = ROUGHNESS[pipe.material]
    low, best, high = (Friction(pipe.diameter_m, pipe.length_m, e) for e in (wall.low, wall.best, wall.high))
    return low, best, high


def lay_hose(hose: Hose) -> tuple[Friction, Friction, Friction]:
    """Return a hose's friction: low, best, high. Slack (stretched length over installed length) is in the factor."""
    stretched = hose.stretched_m or hose.length_m
    slack = find_slack_factors(1 - hose.length_m / stretched if stretched > 0 else 0.0, hose.diameter_m)
    if hose.wall == "smooth":
        wall = ROUGHNESS["smooth hose"]
        walls, times = (wall.low, wall.best, wall.high), (1.0, 1.0, 1.0)
    else:
        walls, times = (TRADE_ROUGHNESS,) * 3, RIBBED_FACTOR
    low, best, high = (
        Friction(hose.diameter_m, hose.length_m, e, t * s) for e, t, s in zip(walls, times, slack, strict=True)
    )
    return low, best, high

"""Looks up loss coefficients: fittings library, changes of diameter, hoods, elbows."""

from __future__ import annotations

import math
from bisect import bisect_right
from dataclasses import dataclass, replace
from functools import lru_cache

from calc.airflow.fitting_table import LIBRARY, Fitting, PressureSection
from calc.project import Elbow, Hood, Join, Taper

_BY_NAME = {fitting.name: fitting for fitting in LIBRARY}


@dataclass(frozen=True)
class Coefficient:
    """Loss over the velocity pressure at diameter_m of the section named."""

    low: float
    best: float
    high: float
    section: PressureSection
    source: str

    def scale(self, factor: float) -> Coefficient:
        """Return the coefficient times a factor, for several alike or for another reference area."""
        return Coefficient(self.low * factor, self.best * factor, self.high * factor, self.section, self.source)


def interpolate(at: tuple[float, ...], values: tuple[float, ...], where: float) -> float:
    """Return the value at ``where`` on the straight lines through a table; the end values beyond its ends."""
    if where <= at[0]:
        return values[0]
    if where >= at[-1]:
        return values[-1]
    i = bisect_right(at, where)
    share = (where - at[i - 1]) / (at[i] - at[i - 1])
    return values[i - 1] + share * (values[i] - values[i - 1])


def get_fitting(name: str) -> Fitting:
    """Return the library's entry. Raises KeyError."""
    return _BY_NAME[name]


@lru_cache(maxsize=2048)
def look_up(name: str, at: float = 0.0) -> Coefficient:
    """Return the coefficient of a library fitting at its parameter. Raises KeyError."""
    fitting = _BY_NAME[name]
    if not fitting.at:
        low, best, high = fitting.low[0], fitting.best[0], fitting.high[0]
    else:
        low, best, high = (interpolate(fitting.at, v, at) for v in (fitting.low, fitting.best, fitting.high))
    return Coefficient(low, best, high, fitting.section, fitting.source)


def find_elbow(elbow: Elbow) -> Coefficient:
    """Return the coefficient of one elbow on its own velocity pressure."""
    if elbow.make == "mitred":
        return look_up("elbow mitred", elbow.turn_deg)
    if elbow.make == "pleated":
        square = look_up("elbow pleated", elbow.diameter_m * 1000)
    elif elbow.make == "pvc short":
        square = look_up("elbow pvc short")
    else:
        square = _find_square(elbow)
    turn = look_up("elbow turn", elbow.turn_deg)
    source = square.source if elbow.turn_deg == 90 else f"{square.source}; {turn.source}"
    return Coefficient(square.low * turn.low, square.best * turn.best, square.high * turn.high, square.section, source)


def _find_square(elbow: Elbow) -> Coefficient:
    """Return the coefficient of a 90 degree elbow by its radius.

    Many gores are tabled down to 0.75 diameters; tighter than that they gain nothing, and three gores are taken.
    """
    name = f"elbow {elbow.make}"
    if elbow.make in ("4-piece", "5-piece") and elbow.radius_ratio < get_fitting(name).at[0]:
        tight = look_up("elbow 3-piece", elbow.radius_ratio)
        return replace(tight, source=f"{tight.source}; three gores, for the radius is below the table")
    square = look_up(name, elbow.radius_ratio)
    if elbow.radius_ratio < get_fitting(name).at[0]:
        return replace(square, source=f"{square.source}; the radius is below the table, its end was taken")
    return square


def find_join(join: Join) -> Coefficient:
    """Return the coefficient of a branch entering a run, on the branch's velocity pressure; 0 for the through way."""
    if join.kind == "straight":
        return Coefficient(0.0, 0.0, 0.0, "branch", get_fitting("branch entry").source)
    return look_up("branch entry", 90.0 if join.kind == "tee" else join.angle_deg)


# SMACNA HVAC Systems Duct Design, 1990, Table 14-12 A (read): contraction, on the smaller section.
_CONTRACTION_ANGLES = (10.0, 15.0, 40.0, 50.0, 60.0, 90.0, 120.0, 150.0, 180.0)
_CONTRACTION_LOST = tuple(1 - 1 / ratio for ratio in (1.0, 2.0, 4.0, 6.0, 10.0))  # share of the area
_CONTRACTION = (
    (0.0,) * 9,
    (0.05, 0.05, 0.05, 0.06, 0.06, 0.12, 0.18, 0.24, 0.26),
    (0.05, 0.04, 0.04, 0.07, 0.07, 0.17, 0.27, 0.35, 0.41),
    (0.05, 0.04, 0.04, 0.07, 0.07, 0.18, 0.28, 0.36, 0.42),
    (0.05, 0.05, 0.05, 0.08, 0.08, 0.19, 0.29, 0.37, 0.43),
)


def find_contraction(from_m: float, to_m: float, angle_deg: float | None) -> Coefficient:
    """Return the coefficient of a narrowing, on the smaller (downstream) section; angle None means sudden.

    Between the table's ratios the coefficient goes straight with the share of the area that is lost, 1 - A2/A1: so a
    sudden narrowing is Crane's 0.5 (1 - A2/A1) within a few per cent at small ratios too, where the table has no row.
    Low and high: Blevins and Rennels lie inside them from 1.2 to 9 times the area.
    """
    lost = 1 - (to_m / from_m) ** 2
    angle = 180.0 if angle_deg is None else angle_deg
    column = tuple(interpolate(_CONTRACTION_ANGLES, row, angle) for row in _CONTRACTION)
    best = interpolate(_CONTRACTION_LOST, column, lost)
    source = (
        "SMACNA HVAC Systems Duct Design 1990, Table 14-12 A; between its ratios after Crane TP-410; low: Blevins, "
        "high: Rennels and Hudson, sharp contraction"
    )
    return Coefficient(0.88 * best, best, best * 1.4, "downstream", source)


def find_expansion(from_m: float, to_m: float, angle_deg: float | None) -> Coefficient:
    """Return the coefficient of a widening, on the smaller (upstream) section; angle None means sudden.

    Sudden: (1 - A1/A2)^2 (Borda and Carnot). Gradual, full angle up to 45 degrees: 2.6 sin(angle/2) times that
    (Crane TP-410, from memory).
    """
    sudden = (1 - (from_m / to_m) ** 2) ** 2
    if angle_deg is None or angle_deg > 45:
        return Coefficient(0.8 * sudden, sudden, sudden, "upstream", "Borda and Carnot, sudden enlargement")
    share = min(1.0, 2.6 * math.sin(math.radians(angle_deg / 2)))
    best = share * sudden
    source = "Crane TP-410, gradual enlargement (from memory); spread: common practice, no source"
    return Coefficient(0.7 * best, best, min(sudden, 1.4 * best), "upstream", source)


def find_change(from_m: float, to_m: float, angle_deg: float | None) -> tuple[Coefficient, float]:
    """Return the coefficient of a change of diameter and the diameter [m] it refers to (the smaller)."""
    if to_m < from_m:
        return find_contraction(from_m, to_m, angle_deg), to_m
    return find_expansion(from_m, to_m, angle_deg), from_m


def find_taper(taper: Taper) -> tuple[Coefficient, float]:
    """Return a taper's coefficient and the diameter [m] it refers to."""
    return find_change(taper.from_m, taper.to_m, taper.angle_deg)


def find_hood(hood: Hood) -> Coefficient:
    """Return a hood's coefficient on the velocity pressure of its duct (diameter_m).

    A slot's or cabinet's own opening is counted in: its coefficient times (duct area / opening area)^2.
    Raises ValueError when a slot, cabinet or ``given`` hood lacks its number.
    """
    if hood.kind == "given":
        if hood.coefficient is None:
            raise ValueError("a hood with its own coefficient needs the coefficient")
        return Coefficient(hood.coefficient, hood.coefficient, hood.coefficient, "duct", "project file")
    if hood.kind == "tapered":
        shape = "rectangular" if hood.rectangular else "round"
        return look_up(f"hood tapered {shape}", 90.0 if hood.angle_deg is None else hood.angle_deg)
    if hood.kind not in ("slot", "cabinet"):
        return look_up(f"hood {hood.kind}")
    take_off = look_up("slot take-off" if hood.kind == "slot" else "hood flanged")
    if hood.opening_m2 is None:
        if hood.kind == "slot":
            raise ValueError("a slot needs the area of its opening")
        return take_off
    ratio = (math.pi * hood.diameter_m**2 / 4 / hood.opening_m2) ** 2
    opening = look_up("slot" if hood.kind == "slot" else "cabinet opening").scale(ratio)
    return Coefficient(
        take_off.low + opening.low,
        take_off.best + opening.best,
        take_off.high + opening.high,
        "duct",
        f"{opening.source}; {take_off.source}",
    )

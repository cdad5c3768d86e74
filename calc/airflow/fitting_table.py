"""The fittings library: loss coefficients, each with its section, spread, conditions, source and confidence.

To add one: one Fitting here and one check in tests/outside. Loss = coefficient x velocity pressure of the section.
Where published sources disagree, low and high are the two and best is the one named first under source.
confidence: ``read`` the page was read; ``from memory`` it was not; ``practice`` common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

PressureSection = Literal["duct", "branch", "upstream", "downstream", "opening"]


@dataclass(frozen=True)
class Fitting:
    """at: values of the parameter (empty: one value always); low, best, high: coefficients at those values."""

    name: str
    parameter: str
    at: tuple[float, ...]
    best: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]
    section: PressureSection
    conditions: str
    source: str
    confidence: Literal["read", "from memory", "practice"]


def _scale(values: tuple[float, ...], factor: float) -> tuple[float, ...]:
    return tuple(round(v * factor, 4) for v in values)


_A7 = "SMACNA HVAC Systems Duct Design, 4th ed., Table A-7"
_ACGIH_HOODS = "ACGIH Industrial Ventilation, 24th ed. 2001, figure 3-16"
_CD3 = "ASHRAE Handbook Fundamentals 2009, fitting"

_SMOOTH = (0.71, 0.33, 0.22, 0.15, 0.13, 0.12)
_FIVE = (0.46, 0.33, 0.24, 0.19)
_FOUR = (0.50, 0.37, 0.27, 0.24)
_THREE = (0.98, 0.54, 0.42, 0.34, 0.33)
_PLEATED = (0.57, 0.43, 0.34, 0.28, 0.26)
_MITRED = (0.08, 0.16, 0.34, 0.55, 0.81, 1.2)
_ROUND_HOOD = (0.15, 0.08, 0.06, 0.08, 0.15, 0.26, 0.40, 0.50)
_SQUARE_HOOD = (0.25, 0.16, 0.15, 0.17, 0.25, 0.35, 0.48, 0.50)
_HOOD_ANGLES = (15.0, 30.0, 45.0, 60.0, 90.0, 120.0, 150.0, 180.0)

LIBRARY: tuple[Fitting, ...] = (
    # --- elbows, 90 degrees; other turns by "elbow turn" ---
    Fitting(
        "elbow smooth", "radius over diameter", (0.5, 0.75, 1.0, 1.5, 2.0, 2.5),
        _SMOOTH, _scale(_SMOOTH, 0.73), _scale(_SMOOTH, 1.4), "duct",
        "die-stamped or moulded, round, 90 degrees, turbulent",
        f"{_A7} A; spread as {_CD3} CD3-1 has over 100 to 250 mm", "read",
    ),
    Fitting(
        "elbow 5-piece", "radius over diameter", (0.75, 1.0, 1.5, 2.0),
        _FIVE, _scale(_FIVE, 0.875), _scale(_FIVE, 1.17), "duct", "five gores, round, 90 degrees",
        f"{_A7} B; spread as {_CD3} CD3-9 has over 150 to 230 mm", "read",
    ),
    Fitting(
        "elbow 4-piece", "radius over diameter", (0.75, 1.0, 1.5, 2.0),
        _FOUR, _scale(_FOUR, 0.875), _scale(_FOUR, 1.17), "duct", "four gores, round, 90 degrees",
        f"{_A7} B; spread taken over from five gores", "read",
    ),
    Fitting(
        "elbow 3-piece", "radius over diameter", (0.5, 0.75, 1.0, 1.5, 2.0),
        _THREE, _THREE, _scale(_THREE, 1.17), "duct", "three gores, round, 90 degrees",
        f"{_A7} B; {_CD3} CD3-12 has the same", "read",
    ),
    Fitting(
        "elbow pleated", "diameter, mm", (100.0, 150.0, 200.0, 250.0, 300.0),
        _PLEATED, _scale(_PLEATED, 0.9), _scale(_PLEATED, 1.1), "duct", "pleated, 90 degrees, radius 1.5 diameters",
        f"{_CD3} CD3-5", "read",
    ),
    Fitting(
        "elbow pvc short", "", (), (0.33,), (0.22,), (0.71,), "duct",
        "short moulded drain-pipe elbow, radius taken as 0.75 diameters (0.5 to 1.0)", f"{_A7} A", "read",
    ),
    Fitting(
        "elbow mitred", "turn, degrees", (20.0, 30.0, 45.0, 60.0, 75.0, 90.0),
        _MITRED, _scale(_MITRED, 0.9), _scale(_MITRED, 1.1), "duct",
        "one mitre, no vanes, Reynolds number above 140,000", f"{_A7} C", "read",
    ),
    Fitting(
        "elbow turn", "turn, degrees", (0.0, 20.0, 30.0, 45.0, 60.0, 75.0, 90.0, 110.0, 130.0, 150.0, 180.0),
        (0.0, 0.31, 0.45, 0.60, 0.78, 0.90, 1.00, 1.13, 1.20, 1.28, 1.40),
        (0.0, 0.22, 0.33, 0.50, 0.67, 0.83, 1.00, 1.13, 1.20, 1.28, 1.40),
        (0.0, 0.31, 0.45, 0.60, 0.78, 0.90, 1.00, 1.22, 1.44, 1.67, 2.00), "duct",
        "multiplies the coefficient of the 90 degree elbow",
        f"{_A7} note 1; the other: in proportion to the angle, ACGIH Industrial Ventilation (from memory)", "read",
    ),
    # --- branches ---
    Fitting(
        "branch entry", "angle, degrees", (10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 90.0),
        (0.06, 0.09, 0.12, 0.15, 0.18, 0.21, 0.25, 0.28, 0.32, 0.44, 1.00),
        (0.00, 0.00, 0.03, 0.06, 0.09, 0.12, 0.15, 0.18, 0.21, 0.28, 0.72),
        (0.15, 0.18, 0.21, 0.25, 0.28, 0.32, 0.38, 0.44, 0.53, 0.72, 1.30), "branch",
        "converging; charged to the branch only, nothing to the through way; regain not counted",
        "ACGIH Industrial Ventilation, branch entry figure (from memory); low and high: made 15 degrees flatter and "
        "steeper, common practice, no source", "from memory",
    ),
    # --- hoods ---
    Fitting(
        "hood plain", "", (), (0.93,), (0.78,), (1.0,), "duct", "plain duct end, air from all sides",
        f"{_ACGIH_HOODS}; low: Crane TP-410; high: ASHRAE fitting 1-1 (Idelchik 3-1), thin wall", "read",
    ),
    Fitting(
        "hood flanged", "", (), (0.49,), (0.49,), (0.57,), "duct", "duct end with a flange or flush in a wall",
        f"{_ACGIH_HOODS}; high: Rennels and Hudson, sharp entrance", "read",
    ),
    Fitting(
        "hood bellmouth", "", (), (0.04,), (0.03,), (0.15,), "duct", "rounded, radius 0.2 diameters (high: 0.1)",
        f"{_ACGIH_HOODS}; spread: ASHRAE fitting 1-2 (Idelchik 3-4)", "read",
    ),
    Fitting(
        "hood tapered round", "included angle, degrees", _HOOD_ANGLES,
        _ROUND_HOOD, _scale(_ROUND_HOOD, 0.8), _scale(_ROUND_HOOD, 1.25), "duct",
        "face at least twice the duct's area",
        "ACGIH Industrial Ventilation, tapered hoods (from memory); spread: common practice, no source",
        "from memory",
    ),
    Fitting(
        "hood tapered rectangular", "included angle, degrees", _HOOD_ANGLES,
        _SQUARE_HOOD, _scale(_SQUARE_HOOD, 0.8), _scale(_SQUARE_HOOD, 1.25), "duct",
        "face at least twice the duct's area",
        "ACGIH Industrial Ventilation, tapered hoods (from memory); spread: common practice, no source",
        "from memory",
    ),
    Fitting(
        "hood booth", "", (), (0.50,), (0.49,), (0.57,), "duct", "duct butted to the back, no taper",
        "ACGIH Industrial Ventilation, booth (from memory)", "from memory",
    ),
    Fitting(
        "slot", "", (), (1.78,), (1.78,), (2.78,), "opening",
        "slot into a plenum; high: the slot's own speed is lost in the plenum", _ACGIH_HOODS, "read",
    ),
    Fitting(
        "slot take-off", "", (), (0.25,), (0.25,), (0.49,), "duct", "plenum into duct, tapered (high: flush)",
        "ACGIH Industrial Ventilation, compound hoods (from memory)", "from memory",
    ),
    Fitting(
        "cabinet opening", "", (), (2.78,), (1.78,), (2.78,), "opening",
        "sharp-edged opening into a machine housing, its speed lost inside; low: a quarter-rounded or long opening",
        f"{_ACGIH_HOODS}, sharp-edged orifice 1.78 plus the speed itself, = 1/0.6^2", "read",
    ),
    # --- the rest ---
    Fitting(
        "gate open", "", (), (0.2,), (0.0,), (0.2,), "duct", "slide gate fully open",
        "common practice, no source; low: ASHRAE damper tables, wide open (from memory)", "practice",
    ),
    Fitting(
        "into box", "", (), (1.0,), (1.0,), (1.0,), "upstream", "duct into a large box: all the speed is lost",
        "ASHRAE Handbook Fundamentals, abrupt exit (from memory)", "from memory",
    ),
    Fitting(
        "out of box", "", (), (0.5,), (0.49,), (0.57,), "downstream", "box into a duct flush with its wall",
        "ASHRAE fitting 1-1 (Idelchik 3-1)", "read",
    ),
    Fitting(
        "filter opening", "", (), (1.5,), (1.0,), (2.0,), "opening",
        "into the lid's opening (0.5) and the speed lost inside the cartridge (1.0)",
        "ASHRAE fitting 1-1 and abrupt exit; spread: common practice, no source", "read",
    ),
    Fitting(
        "cyclone", "", (), (8.0,), (4.0,), (12.0,), "upstream",
        "only where the file gives no loss; general-purpose proportions",
        "Shepherd and Lapple 1939, 16 H W / De^2 (from memory)", "from memory",
    ),
    Fitting(
        "drop box", "", (), (1.5,), (1.5,), (2.0,), "upstream", "trap or settling chamber, only where no loss is given",
        _ACGIH_HOODS, "read",
    ),
)  # fmt: skip

"""The fittings library: loss coefficients, each with its section, spread, conditions, source and confidence.

To add one: one Fitting here and one check in tests/outside. Loss = coefficient x velocity pressure of the section.
Where published sources disagree, low and high are the two and best is the one named first under source.
confidence: ``read`` the page was read; ``from memory`` it was not; ``practice`` common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

PressureSection = Literal["duct", "branch", "upstream", "downstream", "opening"]


@dataclass(frozen=True, kw_only=True)
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
        name="elbow smooth",
        parameter="radius over diameter",
        at=(0.5, 0.75, 1.0, 1.5, 2.0, 2.5),
        best=_SMOOTH,
        low=_scale(_SMOOTH, 0.73),
        high=_scale(_SMOOTH, 1.4),
        section="duct",
        conditions="die-stamped or moulded, round, 90 degrees, turbulent",
        source=f"{_A7} A; spread as {_CD3} CD3-1 has over 100 to 250 mm",
        confidence="read",
    ),
    Fitting(
        name="elbow 5-piece",
        parameter="radius over diameter",
        at=(0.75, 1.0, 1.5, 2.0),
        best=_FIVE,
        low=_scale(_FIVE, 0.875),
        high=_scale(_FIVE, 1.17),
        section="duct",
        conditions="five gores, round, 90 degrees",
        source=f"{_A7} B; spread as {_CD3} CD3-9 has over 150 to 230 mm",
        confidence="read",
    ),
    Fitting(
        name="elbow 4-piece",
        parameter="radius over diameter",
        at=(0.75, 1.0, 1.5, 2.0),
        best=_FOUR,
        low=_scale(_FOUR, 0.875),
        high=_scale(_FOUR, 1.17),
        section="duct",
        conditions="four gores, round, 90 degrees",
        source=f"{_A7} B; spread taken over from five gores",
        confidence="read",
    ),
    Fitting(
        name="elbow 3-piece",
        parameter="radius over diameter",
        at=(0.5, 0.75, 1.0, 1.5, 2.0),
        best=_THREE,
        low=_THREE,
        high=_scale(_THREE, 1.17),
        section="duct",
        conditions="three gores, round, 90 degrees",
        source=f"{_A7} B; {_CD3} CD3-12 has the same",
        confidence="read",
    ),
    Fitting(
        name="elbow pleated",
        parameter="diameter, mm",
        at=(100.0, 150.0, 200.0, 250.0, 300.0),
        best=_PLEATED,
        low=_scale(_PLEATED, 0.9),
        high=_scale(_PLEATED, 1.1),
        section="duct",
        conditions="pleated, 90 degrees, radius 1.5 diameters",
        source=f"{_CD3} CD3-5",
        confidence="read",
    ),
    Fitting(
        name="elbow pvc short",
        parameter="",
        at=(),
        best=(0.33,),
        low=(0.22,),
        high=(0.71,),
        section="duct",
        conditions="short moulded drain-pipe elbow, radius taken as 0.75 diameters (0.5 to 1.0)",
        source=f"{_A7} A",
        confidence="read",
    ),
    Fitting(
        name="elbow mitred",
        parameter="turn, degrees",
        at=(20.0, 30.0, 45.0, 60.0, 75.0, 90.0),
        best=_MITRED,
        low=_scale(_MITRED, 0.9),
        high=_scale(_MITRED, 1.1),
        section="duct",
        conditions="one mitre, no vanes, Reynolds number above 140,000",
        source=f"{_A7} C",
        confidence="read",
    ),
    Fitting(
        name="elbow turn",
        parameter="turn, degrees",
        at=(0.0, 20.0, 30.0, 45.0, 60.0, 75.0, 90.0, 110.0, 130.0, 150.0, 180.0),
        best=(0.0, 0.31, 0.45, 0.60, 0.78, 0.90, 1.00, 1.13, 1.20, 1.28, 1.40),
        low=(0.0, 0.22, 0.33, 0.50, 0.67, 0.83, 1.00, 1.13, 1.20, 1.28, 1.40),
        high=(0.0, 0.31, 0.45, 0.60, 0.78, 0.90, 1.00, 1.22, 1.44, 1.67, 2.00),
        section="duct",
        conditions="multiplies the coefficient of the 90 degree elbow",
        source=f"{_A7} note 1; the other: in proportion to the angle, ACGIH Industrial Ventilation (from memory)",
        confidence="read",
    ),
    # --- branches ---
    Fitting(
        name="branch entry",
        parameter="angle, degrees",
        at=(10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 90.0),
        best=(0.06, 0.09, 0.12, 0.15, 0.18, 0.21, 0.25, 0.28, 0.32, 0.44, 1.00),
        low=(0.00, 0.00, 0.03, 0.06, 0.09, 0.12, 0.15, 0.18, 0.21, 0.28, 0.72),
        high=(0.15, 0.18, 0.21, 0.25, 0.28, 0.32, 0.38, 0.44, 0.53, 0.72, 1.30),
        section="branch",
        conditions="converging; charged to the branch only, nothing to the through way; regain not counted",
        source="ACGIH Industrial Ventilation, branch entry figure (from memory); low and high: made 15 degrees "
        "flatter and steeper, common practice, no source",
        confidence="from memory",
    ),
    # --- hoods ---
    Fitting(
        name="hood plain",
        parameter="",
        at=(),
        best=(0.93,),
        low=(0.78,),
        high=(1.0,),
        section="duct",
        conditions="plain duct end, air from all sides",
        source=f"{_ACGIH_HOODS}; low: Crane TP-410; high: ASHRAE fitting 1-1 (Idelchik 3-1), thin wall",
        confidence="read",
    ),
    Fitting(
        name="hood flanged",
        parameter="",
        at=(),
        best=(0.49,),
        low=(0.49,),
        high=(0.57,),
        section="duct",
        conditions="duct end with a flange or flush in a wall",
        source=f"{_ACGIH_HOODS}; high: Rennels and Hudson, sharp entrance",
        confidence="read",
    ),
    Fitting(
        name="hood bellmouth",
        parameter="",
        at=(),
        best=(0.04,),
        low=(0.03,),
        high=(0.15,),
        section="duct",
        conditions="rounded, radius 0.2 diameters (high: 0.1)",
        source=f"{_ACGIH_HOODS}; spread: ASHRAE fitting 1-2 (Idelchik 3-4)",
        confidence="read",
    ),
    Fitting(
        name="hood tapered round",
        parameter="included angle, degrees",
        at=_HOOD_ANGLES,
        best=_ROUND_HOOD,
        low=_scale(_ROUND_HOOD, 0.8),
        high=_scale(_ROUND_HOOD, 1.25),
        section="duct",
        conditions="face at least twice the duct's area",
        source="ACGIH Industrial Ventilation, tapered hoods (from memory); spread: common practice, no source",
        confidence="from memory",
    ),
    Fitting(
        name="hood tapered rectangular",
        parameter="included angle, degrees",
        at=_HOOD_ANGLES,
        best=_SQUARE_HOOD,
        low=_scale(_SQUARE_HOOD, 0.8),
        high=_scale(_SQUARE_HOOD, 1.25),
        section="duct",
        conditions="face at least twice the duct's area",
        source="ACGIH Industrial Ventilation, tapered hoods (from memory); spread: common practice, no source",
        confidence="from memory",
    ),
    Fitting(
        name="hood booth",
        parameter="",
        at=(),
        best=(0.50,),
        low=(0.49,),
        high=(0.57,),
        section="duct",
        conditions="duct butted to the back, no taper",
        source="ACGIH Industrial Ventilation, booth (from memory)",
        confidence="from memory",
    ),
    Fitting(
        name="slot",
        parameter="",
        at=(),
        best=(1.78,),
        low=(1.78,),
        high=(2.78,),
        section="opening",
        conditions="slot into a plenum; high: the slot's own speed is lost in the plenum",
        source=_ACGIH_HOODS,
        confidence="read",
    ),
    Fitting(
        name="slot take-off",
        parameter="",
        at=(),
        best=(0.25,),
        low=(0.25,),
        high=(0.49,),
        section="duct",
        conditions="plenum into duct, tapered (high: flush)",
        source="ACGIH Industrial Ventilation, compound hoods (from memory)",
        confidence="from memory",
    ),
    Fitting(
        name="cabinet opening",
        parameter="",
        at=(),
        best=(2.78,),
        low=(1.78,),
        high=(2.78,),
        section="opening",
        conditions="sharp-edged opening into a machine housing, its speed lost inside; low: a quarter-rounded or long "
        "opening",
        source=f"{_ACGIH_HOODS}, sharp-edged orifice 1.78 plus the speed itself, = 1/0.6^2",
        confidence="read",
    ),
    # --- the rest ---
    Fitting(
        name="gate open",
        parameter="",
        at=(),
        best=(0.2,),
        low=(0.0,),
        high=(0.2,),
        section="duct",
        conditions="slide gate fully open",
        source="common practice, no source; low: ASHRAE damper tables, wide open (from memory)",
        confidence="practice",
    ),
    Fitting(
        name="into box",
        parameter="",
        at=(),
        best=(1.0,),
        low=(1.0,),
        high=(1.0,),
        section="upstream",
        conditions="duct into a large box: all the speed is lost",
        source="ASHRAE Handbook Fundamentals, abrupt exit (from memory)",
        confidence="from memory",
    ),
    Fitting(
        name="filter opening",
        parameter="",
        at=(),
        best=(1.5,),
        low=(1.0,),
        high=(2.0,),
        section="opening",
        conditions="into the lid's opening (0.5) and the speed lost inside the cartridge (1.0)",
        source="ASHRAE fitting 1-1 and abrupt exit; spread: common practice, no source",
        confidence="read",
    ),
    Fitting(
        name="cyclone",
        parameter="",
        at=(),
        best=(8.0,),
        low=(4.0,),
        high=(12.0,),
        section="upstream",
        conditions="only where the file gives no loss; general-purpose proportions",
        source="Shepherd and Lapple 1939, 16 H W / De^2 (from memory)",
        confidence="from memory",
    ),
    Fitting(
        name="drop box",
        parameter="",
        at=(),
        best=(1.5,),
        low=(1.5,),
        high=(2.0,),
        section="upstream",
        conditions="trap or settling chamber, only where no loss is given",
        source=_ACGIH_HOODS,
        confidence="read",
    ),
)

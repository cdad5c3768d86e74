"""What a person most likely meant, held against what the key may be: which comma, which unit.

Only a reading inside the key's limits is ever taken or suggested: no gate is six feet wide.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from calc.measures.commas import list_comma_readings
from calc.measures.numerals import clean_text
from calc.measures.quantity import Kind, Reader, ReadError, list_spellings, read_amount, read_size

LENGTHS = {"inch": ("in", "ft", "mm", "m"), "metric": ("mm", "m", "cm", "in")}
UNITS: Mapping[Kind, Mapping[str, tuple[str, ...]]] = {
    "length_mm": LENGTHS,
    "length_m": {"inch": ("ft", "in", "mm", "m"), "metric": ("m", "mm", "cm", "in")},
    "area_m2": {"inch": ("ft2", "in2"), "metric": ("m2", "cm2")},
    "flow_m3s": {"inch": ("cfm",), "metric": ("m3/h", "L/s")},
    "speed_ms": {"inch": ("fpm",), "metric": ("m/s",)},
    "face_speed_ms": {"inch": ("cfm/ft2",), "metric": ("m3/h/m2",)},
    "pressure_pa": {"inch": ("inH2O",), "metric": ("Pa",)},
    "draught_pa": {"inch": ("Pa",), "metric": ("Pa",)},
    "temperature_k": {"inch": ("degF",), "metric": ("degC",)},
    "power_w": {"inch": ("hp",), "metric": ("kW", "W")},
    "mass_kg": {"inch": ("lb",), "metric": ("kg",)},
    "mass_rate_kgs": {"inch": ("lb/h",), "metric": ("kg/h",)},
    "density_kgm3": {"inch": ("lb/ft3",), "metric": ("kg/m3",)},
}
"""The units a reader of each system would write behind a bare number, the likeliest first."""
BARE_NUMBER = r"(?:\d+(?:-|\s+)\d+\s*/\s*\d+|\d+\s*/\s*\d+|\d+\.?\d*|\.\d+)"
BARE = re.compile(rf"[-+]?{BARE_NUMBER}")
BARE_SIZE = re.compile(rf"({BARE_NUMBER})\s*(?:x|X|by)\s*({BARE_NUMBER})")


@dataclass(frozen=True)
class Allowed:
    """The hard limits and the usual range of a value, in the base unit of its kind."""

    kind: Kind
    low: float
    high: float
    usual: tuple[float, float]


def settle_comma(text: str, limits: Allowed) -> str:
    """Return a text whose comma can mean two things as the one that is inside the limits; else as it is."""
    readings = list_comma_readings(clean_text(text))
    if len(readings) != 2:
        return text
    inside = [reading for reading in readings if is_inside(reading, limits, (limits.low, limits.high))]
    return inside[0] if len(inside) == 1 else text


def suggest_units(text: str, limits: Allowed, reader: Reader) -> tuple[str, ...]:
    """Return a bare number with each unit that makes it plausible: in the usual range, else inside the limits."""
    number = clean_text(text)
    if not BARE.fullmatch(number):
        return ()
    units: Sequence[str] = UNITS.get(limits.kind, {}).get(reader.system) or list_spellings(limits.kind)
    written = [f"{number} {unit}" for unit in units]
    for bounds in (limits.usual, (limits.low, limits.high)):
        if plausible := [one for one in written if is_inside(one, limits, bounds)]:
            return tuple(plausible[:2])
    return ()


def is_inside(text: str, limits: Allowed, bounds: tuple[float, float]) -> bool:
    """Tell whether a text is read as a value between two bounds."""
    try:
        value = read_amount(text, limits.kind, negative=True)
    except ReadError:
        return False
    slack = 1e-9 * max(1.0, abs(value))
    return bounds[0] - slack <= value <= bounds[1] + slack


def suggest_size(text: str, ends: tuple[float, float], units: Sequence[str]) -> str:
    """Return two bare numbers with the first of some units that puts both between the ends [mm]; or nothing."""
    sides = BARE_SIZE.fullmatch(clean_text(text))
    if sides is None:
        return ""
    for unit in units:
        size = read_size(f"{sides[1]} x {sides[2]} {unit}")
        if all(ends[0] - 1e-6 <= side <= ends[1] + 1e-6 for side in (size.width_mm, size.height_mm)):
            return f"{sides[1]} x {sides[2]} {unit}"
    return ""

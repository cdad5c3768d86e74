"""Writing of values in the reader's units: reduced fractions for inch people, millimetres for metric people."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from calc.measures.kinds import Kind, Reader
from calc.measures.units import find_factor, find_offset

INCH_MM = 25.4


@dataclass(frozen=True)
class Worth:
    """How a kind is shown in one system: the pint expression, the printed unit, decimals, and whether fixed.

    steps: (from this size on, decimals), by falling size; trailing zeros go unless `fixed`.
    """

    pint: str
    name: str
    steps: tuple[tuple[float, int], ...]
    fixed: bool = False


def _worth(pint: str, name: str, *steps: tuple[float, int], fixed: bool = False) -> Worth:
    return Worth(pint, name, steps or ((0.0, 0),), fixed)


_PLAIN: Mapping[Kind, Worth] = {
    "draught_pa": _worth("pascal", "Pa", (10, 1), (0, 2)),  # limits and instruments of the trade are in Pa everywhere
    "angle_deg": _worth("degree", "°", (0, 1)),
    "time_s": _worth("second", "s", (100, 0), (0, 1)),
    "time_h": _worth("hour", "h", (10, 0), (0, 1)),
    "sound_db": _worth("degree", "dB", (0, 1)),
    "frequency_hz": _worth("1 / second", "Hz", (100, 0), (0, 1)),
    "rotation_hz": _worth("1 / minute", "rpm"),
    "share": _worth("percent", "%", (0, 1)),
    "ratio": _worth("degree", "", (100, 0), (10, 1), (0.1, 2), (0, 4)),
    "count": _worth("degree", "", (0, 2)),
    "sone": _worth("degree", "sone", (0, 1)),
    "money": _worth("degree", "", (0, 2), fixed=True),
}
_INCH: Mapping[Kind, Worth] = {
    "length_mm": _worth("inch", "in", (0, 3)),
    "length_m": _worth("foot", "ft", (20, 0), (0, 1)),
    "area_m2": _worth("foot ** 2", "ft²", (100, 0), (10, 1), (0, 2)),
    "volume_m3": _worth("gallon", "gal", (10, 0), (0, 1)),
    "flow_m3s": _worth("foot ** 3 / minute", "cfm"),
    "speed_ms": _worth("foot / minute", "fpm"),
    "face_speed_ms": _worth("foot / minute", "cfm/ft²", (100, 0), (20, 1), (0, 2)),
    "pressure_pa": _worth("inch_water", "inH2O", (0, 2), fixed=True),
    "barometer_pa": _worth("inch_mercury", "inHg", (0, 2), fixed=True),
    "temperature_k": _worth("degree_fahrenheit", "°F"),
    "temperature_rise_k": _worth("5 / 9 * kelvin", "°F"),
    "power_w": _worth("horsepower", "hp", (0, 2)),
    "mass_kg": _worth("pound", "lb", (100, 0), (0, 1)),
    "mass_rate_kgs": _worth("pound / hour", "lb/h", (10, 0), (1, 1), (0, 3)),
    "density_kgm3": _worth("pound / foot ** 3", "lb/ft³", (10, 1), (1, 2), (0, 4)),
    "areal_mass_kgm2": _worth("ounce / foot ** 2", "oz/ft²", (0, 2)),
    "force_n": _worth("pound_force", "lbf", (10, 0), (0, 1)),
    "stress_pa": _worth("pound_force / inch ** 2", "psi", (10, 0), (0, 2)),
}
_METRIC: Mapping[Kind, Worth] = {
    "length_mm": _worth("metre / 1000", "mm", (0, 1)),
    "length_m": _worth("metre", "m", (100, 0), (10, 1), (0, 2)),
    "area_m2": _worth("metre ** 2", "m²", (10, 1), (0, 2)),
    "volume_m3": _worth("litre", "L", (10, 0), (0, 1)),
    "flow_m3s": _worth("metre ** 3 / hour", "m³/h"),
    "speed_ms": _worth("metre / second", "m/s", (0, 1)),
    "face_speed_ms": _worth("metre / hour", "m³/h per m²", (100, 0), (0, 1)),
    "pressure_pa": _worth("pascal", "Pa", (10, 0), (0, 1)),
    "barometer_pa": _worth("100 * pascal", "hPa", (0, 1)),
    "temperature_k": _worth("degree_celsius", "°C", (0, 1)),
    "temperature_rise_k": _worth("kelvin", "°C", (0, 1)),
    "power_w": _worth("1000 * watt", "kW", (0, 2)),
    "mass_kg": _worth("kilogram", "kg", (100, 0), (0, 1)),
    "mass_rate_kgs": _worth("kilogram / hour", "kg/h", (10, 0), (1, 1), (0, 3)),
    "density_kgm3": _worth("kilogram / metre ** 3", "kg/m³", (100, 0), (0, 3)),
    "areal_mass_kgm2": _worth("kilogram / 1000 / metre ** 2", "g/m²"),
    "force_n": _worth("newton", "N", (10, 0), (0, 1)),
    "stress_pa": _worth("1000000 * pascal", "MPa", (0, 2)),
}


def find_worth(kind: Kind, reader: Reader) -> Worth:
    """Return how a kind is shown to a reader."""
    if kind in _PLAIN:
        return _PLAIN[kind]
    return (_INCH if reader.system == "inch" else _METRIC)[kind]


def unit_name(kind: Kind, reader: Reader) -> str:
    """Return the printed unit of a kind for a reader, for table heads and axes; empty for plain numbers."""
    return find_worth(kind, reader).name


def to_reader(value: float, kind: Kind, reader: Reader) -> float:
    """Return a base-unit value as the number the reader sees (inches, cfm, °F ...), for axes and columns."""
    worth = find_worth(kind, reader)
    return (value - float(find_offset(worth.pint))) / float(find_factor(kind, worth.pint))


def from_reader(value: float, kind: Kind, reader: Reader) -> float:
    """Return the base-unit value of a number in the reader's unit; the inverse of to_reader."""
    worth = find_worth(kind, reader)
    return value * float(find_factor(kind, worth.pint)) + float(find_offset(worth.pint))


def write_amount(value: float, kind: Kind, reader: Reader, *, digits: int | None = None, unit: bool = True) -> str:
    """Return a base-unit value in the reader's words.

    digits: decimals, kept as they are (None: what suits the kind; lengths of inch people are then fractions, and long
    ones feet and inches). unit: False leaves the unit out, for a column whose head names it. Raises ValueError for a
    value that is not finite.
    """
    if not math.isfinite(value):
        raise ValueError(f"a value of {kind} is not finite: {value}")
    if digits is None and reader.system == "inch":
        if kind == "length_mm":
            return _write_inches(value, reader, unit)
        if kind == "length_m" and unit:
            return _write_feet(value * 1000, reader)
    worth = find_worth(kind, reader)
    shown = to_reader(value, kind, reader)
    places = _choose_digits(shown, worth) if digits is None else digits
    text = f"{round(shown, places) + 0.0:.{places}f}"
    if digits is None and not worth.fixed and "." in text:
        text = text.rstrip("0").rstrip(".")
    if text.strip("-0.") == "":
        text = text.lstrip("-")
    if not unit or not worth.name:
        return text
    return f"{text}{'' if worth.name in ('°',) else ' '}{worth.name}"


def write_length(mm: float, reader: Reader, *, decimal: bool = False) -> str:
    """Return a length [mm] as the reader measures it: ``11-27/32 in`` or ``300.8 mm``.

    decimal: for inch people, put the true decimal beside it (``11-27/32 in (11.844)``). Raises ValueError when the
    length is not finite.
    """
    text = write_amount(mm, "length_mm", reader)
    if decimal and reader.system == "inch":
        return f"{text} ({mm / INCH_MM:.3f})"
    return text


def round_up(value: float, kind: Kind, reader: Reader) -> float:
    """Return a base-unit value moved up to the next one that is written without rounding."""
    shown = to_reader(value, kind, reader)
    step: float = 10.0 ** -_choose_digits(shown, find_worth(kind, reader))
    return from_reader(step * math.ceil(shown / step - 1e-6), kind, reader)


def _choose_digits(shown: float, worth: Worth) -> int:
    size = abs(shown)
    return next((digits for least, digits in worth.steps if size >= least), worth.steps[-1][1])


def _write_inches(mm: float, reader: Reader, unit: bool) -> str:
    parts = round(Fraction(mm) * 10 * reader.fraction / 254)
    sign = "-" if parts < 0 else ""
    whole, over = divmod(abs(parts), reader.fraction)
    text = str(whole)
    if over:
        part = Fraction(over, reader.fraction)
        text = f"{whole}-{part.numerator}/{part.denominator}" if whole else f"{part.numerator}/{part.denominator}"
    return f"{sign}{text}{' in' if unit else ''}"


def _write_feet(mm: float, reader: Reader) -> str:
    """Under a yard in inches and fractions, then feet and whole inches, from 100 ft on whole feet."""
    if abs(mm) < 36 * INCH_MM:
        return _write_inches(mm, reader, True)
    inches = round(abs(mm) / INCH_MM)
    sign = "-" if mm < 0 else ""
    feet, left = divmod(inches, 12)
    if feet >= 100:
        return f"{sign}{round(abs(mm) / INCH_MM / 12)} ft"
    return f"{sign}{feet} ft {left} in" if left else f"{sign}{feet} ft"

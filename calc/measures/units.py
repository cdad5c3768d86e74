"""The one pint registry, and the closed list of unit spellings each kind of quantity may be written in.

The registry is made from the definitions below and nothing else, in exact fractions: no prefix can turn ``cfm`` into a
centifermi, and every factor is the defined one (NIST SP 811, 2008, appendix B.8; exact ones are exact here too).
What it gives for the units below is kept in ``unit_factors``, because to load pint takes longer than to size a
shop; a test holds that table against the registry, and a unit the table does not have is asked of the registry.

One inch of water is the conventional 249.088 91 Pa everywhere: 25.4 mm of water of 1000 kg/m3 under 9.806 65 m/s2. It
is a unit of pressure and must not change with the weather; the real water in the gauge is handled by its density where
the scale is drawn (``calc.gauges.gauge``). Other definitions differ (249.082 at 4 °C, 248.84 at 60 °F): 0.1 % at most.
"""

from __future__ import annotations

import difflib
import functools
import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Any, get_args

from calc.measures.kinds import INH2O_PA, Kind
from calc.measures.unit_factors import FACTORS, OFFSETS

if TYPE_CHECKING:
    from pint import UnitRegistry

DEFINITIONS = f"""
metre = [length] = m
kilogram = [mass] = kg
second = [time] = s
kelvin = [temperature]; offset: 0 = K
radian = []
inch = 0.0254 * metre
foot = 12 * inch
minute = 60 * second
hour = 60 * minute
day = 24 * hour
degree = []
percent = 0.01 * degree
litre = 0.001 * metre ** 3
gallon = 231 * inch ** 3
fluid_ounce = gallon / 128
pound = 0.45359237 * kilogram
ounce = pound / 16
ton = 2000 * pound
newton = kilogram * metre / second ** 2
pound_force = 9.80665 * metre / second ** 2 * pound
pascal = newton / metre ** 2
inch_water = {INH2O_PA} * pascal
inch_mercury = 3386.389 * pascal
atmosphere = 101325 * pascal
watt = newton * metre / second
horsepower = 550 * foot * pound_force / second
degree_fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9
degree_celsius = kelvin; offset: 273.15
"""


@dataclass(frozen=True)
class Unit:
    """One unit of a kind.

    pint: its expression in the registry; spellings: how people write it, first the one we show in messages
    exact_case: only as spelled (mPa is not MPa)
    """

    pint: str
    spellings: tuple[str, ...]
    exact_case: bool = False


def _unit(pint: str, spellings: str, exact_case: bool = False) -> Unit:
    return Unit(pint, tuple(spellings.split("|")), exact_case)


_LENGTHS = (
    _unit("inch", 'in|inch|inches|"'),
    _unit("foot", "ft|foot|feet|'"),
    _unit("metre / 1000", "mm|millimetre|millimetres|millimeter|millimeters"),
    _unit("metre / 100", "cm|centimetre|centimetres|centimeter|centimeters"),
    _unit("metre", "m|metre|metres|meter|meters"),
    _unit("36 * inch", "yd|yard|yards"),
    _unit("inch / 1000", "mil|mils|thou"),
)
_PRESSURES = (
    _unit(
        "inch_water",
        "inH2O|in H2O|in w.g.|in w.c.|inwg|inwc|in WG|in of water|in water|inches of water|inch of water|inches water"
        '|"wc|"wg|"H2O|inches H2O|iwg|iwc|in w.g|in w.c|in. of water|"w.g.|"w.c.|"water',
    ),
    _unit("pascal", "Pa|pascal|pascals"),
    _unit("1000 * pascal", "kPa"),
    _unit("100 * pascal", "hPa|mbar|millibar"),
    _unit("9.80665 * pascal", "mmH2O|mm of water|mm w.g.|mm w.c.|mm water"),
    _unit("inch_mercury", "inHg|inches of mercury|in of mercury"),
    _unit("pound_force / inch ** 2", "psi|lbf/in2"),
    _unit("pound_force / foot ** 2", "psf|lbf/ft2|lb/ft2"),
    _unit("pound_force / inch ** 2 / 16", "osi|oz/in2|oz/sq in|ozf/in2"),
)
# Where water is read, the bare mark of an inch and the plate's "SP" are inches of water; a barometer's are of mercury.
_WATER_MARKS = _unit("inch_water", '"|"SP|in SP|inSP|inches SP|in. SP|"static')
_TIMES = (
    _unit("second", "s|sec|second|seconds"),
    _unit("minute", "min|minute|minutes"),
    _unit("hour", "h|hr|hour|hours"),
)

UNITS: Mapping[Kind, tuple[Unit, ...]] = {
    "length_mm": _LENGTHS,
    "length_m": _LENGTHS,
    "area_m2": (
        _unit("foot ** 2", "ft2|sq ft|square feet|square foot|sf"),
        _unit("inch ** 2", "in2|sq in|square inches|square inch"),
        _unit("metre ** 2", "m2|sq m|square metres|square meters"),
        _unit("metre ** 2 / 10000", "cm2|sq cm"),
        _unit("metre ** 2 / 1000000", "mm2|sq mm"),
    ),
    "volume_m3": (
        _unit("foot ** 3", "ft3|cu ft|cubic feet|cubic foot"),
        _unit("inch ** 3", "in3|cu in|cubic inches"),
        _unit("metre ** 3", "m3|cubic metres|cubic meters"),
        _unit("litre", "L|litre|litres|liter|liters"),
        _unit("litre / 1000", "mL|ml|cm3|cc"),
        _unit("fluid_ounce", "fl oz|fluid ounce|fluid ounces"),
        _unit("gallon", "gal|gallon|gallons|US gal"),
    ),
    "flow_m3s": (
        _unit("foot ** 3 / minute", "cfm|ft3/min|cu ft/min|cubic feet/minute|cubic feet/min"),
        _unit("metre ** 3 / second", "m3/s|m3/sec"),
        _unit("metre ** 3 / hour", "m3/h|m3/hr|cmh"),
        _unit("metre ** 3 / minute", "m3/min"),
        _unit("litre / second", "L/s|litres/second|liters/second"),
        _unit("litre / minute", "L/min"),
    ),
    "speed_ms": (
        _unit("foot / minute", "fpm|ft/min|feet/minute"),
        _unit("metre / second", "m/s|m/sec"),
        _unit("foot / second", "ft/s|fps"),
        _unit("metre / minute", "m/min"),
    ),
    "face_speed_ms": (
        _unit("foot / minute", "cfm/ft2|cfm/sq ft|cfm/square foot|fpm|ft/min|ft3/min/ft2"),
        _unit("metre / second", "m/s|m3/s/m2|m3/s per m2"),
        _unit("metre / 1000 / second", "mm/s|L/s/m2|L/m2/s"),
        _unit("metre / hour", "m3/h/m2|m3/m2/h|m3/h per m2"),
        _unit("metre / minute", "m/min|m3/min/m2"),
        _unit("litre / minute / metre ** 2 * 100", "L/dm2/min|L/min/dm2"),
    ),
    "pressure_pa": (*_PRESSURES, _WATER_MARKS),
    "barometer_pa": _PRESSURES,
    "draught_pa": (*_PRESSURES, _WATER_MARKS),
    "temperature_k": (
        _unit("degree_fahrenheit", "degF|°F|F|deg F|degrees F|fahrenheit|degrees fahrenheit"),
        _unit("degree_celsius", "degC|°C|C|deg C|degrees C|celsius|degrees celsius"),
        _unit("kelvin", "K|kelvin"),
    ),
    "temperature_rise_k": (
        _unit("5 / 9 * kelvin", "degF|°F|F|deg F|degrees F"),
        _unit("kelvin", "K|degC|°C|C|deg C|degrees C|kelvin"),
    ),
    "angle_deg": (_unit("degree", "deg|°|degree|degrees"),),
    "power_w": (
        _unit("horsepower", "hp|horsepower"),
        _unit("watt", "W|watt|watts"),
        _unit("1000 * watt", "kW|kilowatt|kilowatts"),
    ),
    "mass_kg": (
        _unit("pound", "lb|lbs|pound|pounds"),
        _unit("ounce", "oz|ounce|ounces"),
        _unit("kilogram", "kg|kilogram|kilograms"),
        _unit("kilogram / 1000", "g|gram|grams"),
    ),
    "mass_rate_kgs": (
        _unit("pound / hour", "lb/h|lb/hr|lbs/h|lbs/hr|lb/hour|lbs/hour|pounds/hour|pound/hour"),
        _unit("pound / minute", "lb/min"),
        _unit("kilogram / hour", "kg/h|kg/hr|kg/hour"),
        _unit("kilogram / 1000 / hour", "g/h|g/hr|g/hour"),
        _unit("kilogram / second", "kg/s"),
        _unit("kilogram / 1000 / second", "g/s"),
        _unit("ounce / hour", "oz/h|oz/hr"),
    ),
    "density_kgm3": (
        _unit("pound / foot ** 3", "lb/ft3|lbs/ft3|lb/cu ft|pcf"),
        _unit("kilogram / metre ** 3", "kg/m3"),
        _unit("1000 * kilogram / metre ** 3", "g/cm3"),
    ),
    "areal_mass_kgm2": (
        _unit("ounce / foot ** 2", "oz/ft2|oz/sq ft"),
        _unit("pound / foot ** 2", "lb/ft2|lb/sq ft"),
        _unit("kilogram / metre ** 2", "kg/m2"),
        _unit("kilogram / 1000 / metre ** 2", "g/m2"),
    ),
    "time_s": _TIMES,
    "time_h": (*_TIMES, _unit("day", "d|day|days")),
    "sound_db": (_unit("degree", "dB|dBA|dB(A)|decibel|decibels"),),
    "frequency_hz": (_unit("1 / second", "Hz|hertz"), _unit("1000 / second", "kHz")),
    "rotation_hz": (_unit("1 / minute", "rpm|r/min|rev/min|/min"), _unit("1 / second", "Hz|r/s|/s")),
    "force_n": (_unit("pound_force", "lbf|lb|lbs|pounds"), _unit("newton", "N|newtons"), _unit("1000 * newton", "kN")),
    "stress_pa": (
        _unit("pound_force / inch ** 2", "psi|lbf/in2"),
        _unit("1000 * pound_force / inch ** 2", "ksi"),
        _unit("1000000 * pound_force / inch ** 2", "Mpsi", True),
        _unit("1000000000 * pascal", "GPa", True),
        _unit("1000000 * pascal", "MPa|N/mm2", True),
        _unit("1000 * pascal", "kPa"),
        _unit("pascal", "Pa"),
    ),
    "share": (_unit("percent", "%|percent|pct|per cent"),),
    "ratio": (_unit("degree", ""),),
    "count": (_unit("degree", ""),),
    "sone": (_unit("degree", "sone|sones"),),
    "money": (_unit("degree", ""),),
}  # fmt: skip

NAMES: Mapping[Kind, tuple[str, str]] = {
    "length_mm": ("a length", "12-1/2 in"),
    "length_m": ("a length", "12 ft"),
    "area_m2": ("an area", "210 ft2"),
    "volume_m3": ("a volume", "10.1 fl oz"),
    "flow_m3s": ("a flow of air", "650 cfm"),
    "speed_ms": ("a speed", "4000 fpm"),
    "face_speed_ms": ("a flow through each area of cloth", "22 cfm/ft2"),
    "pressure_pa": ("a pressure", "2.0 inH2O"),
    "barometer_pa": ("a barometer's pressure", "29.92 inHg"),
    "draught_pa": ("a pressure", "2 Pa"),
    "temperature_k": ("a temperature", "70 degF"),
    "temperature_rise_k": ("a rise of temperature", "10 degF"),
    "angle_deg": ("an angle", "45 deg"),
    "power_w": ("a power", "3 hp"),
    "mass_kg": ("a weight", "16 lb"),
    "mass_rate_kgs": ("a weight in each hour", "6 lb/h"),
    "density_kgm3": ("a density", "0.075 lb/ft3"),
    "areal_mass_kgm2": ("a weight on each area", "2 oz/ft2"),
    "time_s": ("a time", "20 min"),
    "time_h": ("a time", "3 h"),
    "sound_db": ("a sound level", "86 dB"),
    "frequency_hz": ("a frequency", "500 Hz"),
    "rotation_hz": ("a speed of turning", "3450 rpm"),
    "force_n": ("a force", "40 lbf"),
    "stress_pa": ("a stress", "1200 psi"),
    "share": ("a share in percent", "12 %"),
    "ratio": ("a plain number", "1.5"),
    "count": ("a whole number", "2"),
    "sone": ("a loudness", "4 sone"),
    "money": ("an amount of money without its sign", "78.00"),
}

SPELLED_OUT = 5
"""A unit of so many letters is a word, and a wrong letter in it a slip of the pen."""

SCALES = ("degree_fahrenheit", "degree_celsius")

# Bases that the kind's name promises and that are not the registry's own base unit.
_BASE: Mapping[str, str] = {"length_mm": "metre / 1000", "time_h": "hour"}


@functools.cache
def get_registry() -> UnitRegistry[Any]:
    """Return the one registry, made on first use."""
    from pint import UnitRegistry

    registry: UnitRegistry[Any] = UnitRegistry(None, non_int_type=Fraction)
    registry.load_definitions(DEFINITIONS.strip().splitlines())
    return registry


@functools.cache
def find_factor(kind: Kind, expression: str) -> Fraction:
    """Return how many base units of the kind one unit of a pint expression is, exactly. Offsets are left out."""
    kept = FACTORS.get(kind, {}).get(expression)
    return Fraction(kept) if kept is not None else work_out_factor(kind, expression)


def work_out_factor(kind: Kind, expression: str) -> Fraction:
    """Return the factor as the registry gives it."""
    if expression.startswith("degree_"):
        expression = {"degree_fahrenheit": "5 / 9 * kelvin", "degree_celsius": "kelvin"}[expression]
    registry = get_registry()
    one = _to_base(registry, expression)
    base = _to_base(registry, _BASE[kind]) if kind in _BASE else Fraction(1)
    return one / base


def _to_base(registry: UnitRegistry[Any], expression: str) -> Fraction:
    magnitude: Any = registry.parse_expression(expression)
    if hasattr(magnitude, "to_base_units"):
        magnitude = magnitude.to_base_units().magnitude
    return Fraction(magnitude)


@functools.cache
def find_offset(expression: str) -> Fraction:
    """Return what a temperature scale's zero is in kelvin, exactly; 0 for every other unit."""
    if expression not in SCALES:
        return Fraction(0)
    kept = OFFSETS.get(expression)
    return Fraction(kept) if kept is not None else work_out_offset(expression)


def work_out_offset(expression: str) -> Fraction:
    """Return a temperature scale's zero [K] as the registry gives it."""
    return Fraction(get_registry().Quantity(Fraction(0), expression).to("kelvin").magnitude)


def squeeze_spelling(text: str) -> str:
    """Return a unit's spelling without what does not matter: spaces, dots, powers' characters, ``per``."""
    text = re.sub(r"(?:^|(?<=[\s\d]))per\s+", "/", text.strip())
    for character, plain in (
        ("**", ""),
        ("^", ""),
        (".", ""),
        ("·", ""),
        ("²", "2"),
        ("³", "3"),
        ("₂", "2"),
        ("º", "°"),
    ):
        text = text.replace(character, plain)
    return re.sub(r"\s+", "", text)


@functools.cache
def _list_spellings(kind: Kind) -> tuple[dict[str, Unit], dict[str, Unit]]:
    exact: dict[str, Unit] = {}
    caseless: dict[str, Unit] = {}
    for unit in UNITS[kind]:
        for spelling in unit.spellings:
            exact[squeeze_spelling(spelling)] = unit
            if not unit.exact_case:
                caseless.setdefault(squeeze_spelling(spelling).casefold(), unit)
    return exact, caseless


def find_unit(text: str, kind: Kind) -> Unit | None:
    """Return the unit of a kind that a spelling means; capitals do not matter unless they change the meaning."""
    exact, caseless = _list_spellings(kind)
    spelling = squeeze_spelling(text)
    if spelling in exact:
        return exact[spelling]
    return caseless.get(spelling.casefold())


def find_other_kinds(text: str, kind: Kind) -> tuple[str, ...]:
    """Return the names of the kinds (``a flow of air``) that do have this unit, without repeats."""
    found = [NAMES[other][0] for other in get_args(Kind) if other != kind and text and find_unit(text, other)]
    return tuple(dict.fromkeys(found))


def find_near_spelling(text: str, kind: Kind) -> str | None:
    """Return the unit that a mistyped spelling must mean, or None: never one of another size that only looks like it.

    Short spellings differ by a letter and by sixteen times (osi, psi): of those only swapped letters are mended.
    """
    shown = {squeeze_spelling(s).casefold(): u for u in UNITS[kind] for s in u.spellings if s}
    typed = squeeze_spelling(text).casefold()
    if len(typed) < SPELLED_OUT:
        close = [spelling for spelling in shown if len(typed) > 2 and sorted(spelling) == sorted(typed)]
    else:
        close = difflib.get_close_matches(typed, [s for s in shown if len(s) >= SPELLED_OUT - 1], n=3, cutoff=0.8)
    meant = {shown[spelling].pint: shown[spelling] for spelling in close}
    return next(iter(meant.values())).spellings[0] if len(meant) == 1 else None


def list_spellings(kind: Kind) -> tuple[str, ...]:
    """Return the first spelling of each unit of a kind, for messages and for the manual."""
    return tuple(unit.spellings[0] for unit in UNITS[kind] if unit.spellings[0])

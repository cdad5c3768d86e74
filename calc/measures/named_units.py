"""Units that are not on the trade's own list: looked up in pint's registry by their whole names.

The registry never sees what a person wrote, only the unit's own word, and only once our list does not know it for any
kind (or ``cfm`` would be a centifermi). A unit of another kind is refused. Nothing is loaded while the list suffices.
"""

from __future__ import annotations

import functools
import math
import re
from collections.abc import Mapping
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from calc.measures.kinds import Kind
from calc.measures.units import NAMES, find_other_kinds

if TYPE_CHECKING:
    from pint import UnitRegistry

BASES: Mapping[Kind, str] = {
    "length_mm": "millimeter",
    "length_m": "meter",
    "area_m2": "meter ** 2",
    "volume_m3": "meter ** 3",
    "flow_m3s": "meter ** 3 / second",
    "speed_ms": "meter / second",
    "pressure_pa": "pascal",
    "barometer_pa": "pascal",
    "draught_pa": "pascal",
    "power_w": "watt",
    "mass_kg": "kilogram",
    "mass_rate_kgs": "kilogram / second",
    "density_kgm3": "kilogram / meter ** 3",
    "areal_mass_kgm2": "kilogram / meter ** 2",
    "time_s": "second",
    "time_h": "hour",
    "force_n": "newton",
    "stress_pa": "pascal",
}
"""The base of each kind that has a dimension of its own; shares, angles, levels and temperatures keep to our list."""

WORD = re.compile(r"(?P<name>[A-Za-zµμ][A-Za-zµμ_]*|[A-Za-z]+(?:H2O|_H2O))(?:\^|\*\*)?(?P<power>[23²³])?")
POWERS = {"": 1, "2": 2, "3": 3, "²": 2, "³": 3}
LONGEST = 40


@functools.cache
def find_named_factor(text: str, kind: Kind) -> Fraction | None:
    """Return how many base units of the kind one unit of a whole name is; None for no unit, or one of another kind."""
    unit = find_named_unit(text) if kind in BASES and not find_other_kinds(text, kind) else None
    if unit is None:
        return None
    base = get_world_registry().Unit(BASES[kind])
    if unit.dimensionality != base.dimensionality:
        return None
    factor = float((1.0 * unit).to(base).magnitude)
    return Fraction(f"{factor:.14g}") if math.isfinite(factor) and factor > 0 else None


def find_named_kind(text: str, kind: Kind) -> tuple[str, ...]:
    """Return the names of the kinds (``an area``) a unit is of that is not of this kind."""
    unit = find_named_unit(text)
    if unit is None:
        return ()
    registry = get_world_registry()
    same = (other for other, base in BASES.items() if registry.Unit(base).dimensionality == unit.dimensionality)
    return tuple(dict.fromkeys(NAMES[other][0] for other in same if other != kind))


@functools.cache
def find_named_unit(text: str) -> Any:
    """Return pint's unit of words with powers, multiplied and divided: ``daPa``, ``kgf/m2``; or None."""
    parts = re.split(r"\s*([/*·])\s*", re.sub(r"\s+per\s+", "/", text.strip()))
    if not 0 < len(text) <= LONGEST or not all(WORD.fullmatch(word) for word in parts[::2]):
        return None
    unit: Any = None
    for sign, word in zip(("", *parts[1::2]), parts[::2], strict=True):
        found = WORD.fullmatch(word)
        one = look_up(found["name"]) if found else None
        if found is None or one is None:
            return None
        one = one ** POWERS[found["power"] or ""]
        unit = one if unit is None else unit / one if sign == "/" else unit * one
    return unit


def look_up(name: str) -> Any:
    """Return the unit of one whole word, or None; one with an offset (a temperature) has no factor."""
    from pint import UndefinedUnitError

    registry = get_world_registry()
    try:
        unit = registry.Unit(registry.UnitsContainer({registry.get_name(name): 1}))
    except UndefinedUnitError:
        return None
    return unit if registry.Quantity(1.0, unit)._is_multiplicative else None


@functools.cache
def get_world_registry() -> UnitRegistry[Any]:
    """Return pint's own registry of the world's units, made on first use."""
    from pint import UnitRegistry

    return UnitRegistry()

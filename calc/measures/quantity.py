"""Reading and writing of lengths, flows, pressures and the rest.

Text is read by our own grammar (``numerals``) and our own closed list of spellings for each kind (``units``); the
unit library sees unit expressions of our own only, never what a person wrote. Reading is exact: a length keeps its
fraction until it becomes a float, once.
"""

from __future__ import annotations

import itertools
import math
import re
from dataclasses import dataclass
from fractions import Fraction

from calc.measures.commas import list_comma_readings
from calc.measures.kinds import Kind, Reader
from calc.measures.named_units import find_named_factor, find_named_kind
from calc.measures.numerals import NumberError, Numeral, clean_text, read_number
from calc.measures.units import (
    NAMES,
    Unit,
    find_factor,
    find_near_spelling,
    find_offset,
    find_other_kinds,
    find_unit,
    list_spellings,
    squeeze_spelling,
)
from calc.measures.written import find_worth, from_reader, round_up, to_reader, unit_name, write_amount, write_length

__all__ = [
    "At", "Kind", "ReadError", "Reader", "WrittenSize", "find_worth", "from_reader", "list_spellings", "read_amount",
    "read_at", "read_ratio", "read_size", "round_up", "split_at", "to_reader", "unit_name", "write_amount",
    "write_length",
]  # fmt: skip

# Kinds written as a bare number.
_BARE: frozenset[Kind] = frozenset({"ratio", "count", "money"})
# Units that may follow each other in one value, large to small: 10 ft 6 in, 3 lb 4 oz, 1 h 30 min.
_FAMILIES = (
    ("foot", "inch"),
    ("metre", "metre / 100", "metre / 1000"),
    ("pound", "ounce"),
    ("hour", "minute", "second"),
)
_COMPOUND: frozenset[Kind] = frozenset({"length_mm", "length_m", "mass_kg", "time_s", "time_h"})


class ReadError(ValueError):
    """A value cannot be read.

    found: the text as written; wrong: what is the matter with it; expected: what it must be; example: one that is
    right; hint: how to put this one right, or empty.
    """

    def __init__(self, found: str, wrong: str, expected: str, example: str, hint: str = "") -> None:
        self.found, self.wrong, self.expected, self.example, self.hint = found, wrong, expected, example, hint
        super().__init__(str(self))

    def __str__(self) -> str:
        return f"'{self.found}' {self.wrong}; {self.hint or f'write {self.expected}, for example {self.example}'}"


@dataclass(frozen=True)
class At:
    """A value that holds at another value, each in the base unit of its kind."""

    value: float
    at: float


@dataclass(frozen=True)
class WrittenSize:
    """Width and height [mm], in the order written."""

    width_mm: float
    height_mm: float


def read_amount(text: str, kind: Kind, *, negative: bool = False, bare: str | None = None) -> float:
    """Return a value of a kind in the kind's base unit, from text such as ``11-27/32 in`` or ``650 cfm``.

    negative: whether less than nothing is allowed (heights below the sea, gauge readings); temperatures may always be
    below zero on their scale, never below absolute zero. bare: unit of a bare number, where a printed form names it.
    Raises ReadError.

    >>> read_amount("5 1/8 in", "length_mm")
    130.175
    """
    found = str(text).strip()
    cleaned = clean_text(found)
    if not cleaned:
        raise _refuse(found, "has no value", kind)
    if len(readings := list_comma_readings(cleaned)) == 1:
        cleaned = readings[0]
    if re.search(r"[\x00-\x1f\x7f]", cleaned):
        raise _refuse(found.encode("unicode_escape").decode("ascii"), "has characters that cannot be printed", kind)
    value = _read_exact(found, cleaned, kind, bare)
    result = float(value)
    if not math.isfinite(result):  # pragma: no cover - the number grammar keeps sizes within float
        raise _refuse(found, "is not a finite number", kind)
    if kind == "temperature_k":
        if value < 0:
            raise _refuse(found, "is below absolute zero", kind)
    elif value < 0 and not negative:
        raise _refuse(found, "is negative", kind)
    if kind == "count" and value.denominator != 1:
        raise _refuse(found, "is not a whole number", kind)
    return result


def read_at(text: str, kind: Kind, at_kind: Kind) -> At:
    """Return a value and the value it holds at: ``2.0 inH2O at 800 cfm``. Raises ReadError."""
    value, at = split_at(text, kind, at_kind)
    return At(read_amount(value, kind), read_amount(at, at_kind))


def split_at(text: str, kind: Kind, at_kind: Kind) -> tuple[str, str]:
    """Return the two sides of ``2.0 inH2O at 800 cfm``. Raises ReadError where it has not two."""
    example = f"{NAMES[kind][1]} at {NAMES[at_kind][1]}"
    parts = re.split(r"\s+at\s+|\s*@\s*", str(text).strip(), flags=re.IGNORECASE)
    if len(parts) != 2 or not all(parts):
        expected = f"{NAMES[kind][0]} at {NAMES[at_kind][0]}"
        raise ReadError(str(text).strip(), "does not say at what it holds", expected, f"'{example}'")
    return parts[0], parts[1]


def read_size(text: str) -> WrittenSize:
    """Return width and height from ``36 x 80 in`` or ``36 in x 80 in``; one unit serves both. Raises ReadError."""
    found = str(text).strip()
    parts = re.split(r"\s*x\s*|\s+by\s+", clean_text(found), flags=re.IGNORECASE)
    expected, example = "a width and a height", "'36 x 80 in'"
    if len(parts) != 2 or not all(parts):
        raise ReadError(found, "is not a width and a height", expected, example)
    try:
        last = read_number(parts[1])
        unit = parts[1][last.end :].strip()
        if not unit or find_unit(unit, "length_mm") is None:
            unit = ""
    except NumberError:
        unit = ""
    try:
        return WrittenSize(read_amount(parts[0], "length_mm", bare=unit or None), read_amount(parts[1], "length_mm"))
    except ReadError as error:
        raise ReadError(
            found, f"is not a width and a height ('{error.found}' {error.wrong})", expected, example
        ) from None


def read_ratio(text: str) -> float:
    """Return a slope or ratio as a plain number, from ``1:12``, ``1 in 12``, ``1/12`` or ``8 %``. Raises ReadError."""
    found = str(text).strip()
    expected, example = "a ratio", "'1:12'"
    match = re.fullmatch(r"(\d+(?:\.\d+)?)\s*(?::|/|\bin\b|\bto\b)\s*(\d+(?:\.\d+)?)", clean_text(found))
    if match:
        over, under = Fraction(match[1]), Fraction(match[2])
        if under == 0 or over == 0:
            raise ReadError(found, "has a zero in it", expected, example)
        return float(over / under)
    try:
        value = read_amount(found, "share" if found.endswith("%") else "ratio")
    except ReadError as error:
        raise ReadError(found, "is not a ratio" if "unit" in error.wrong else error.wrong, expected, example) from None
    return value


def _read_exact(found: str, cleaned: str, kind: Kind, bare: str | None) -> Fraction:
    try:
        number = read_number(cleaned)
    except NumberError as error:
        readings = list_comma_readings(cleaned)
        hint = "write the number without separators, with a point for decimals" if "comma" in str(error) else ""
        if len(readings) == 2:
            hint = f"write '{readings[0]}' or '{readings[1]}'"
        raise _refuse(found, str(error), kind, hint) from None
    tail = cleaned[number.end :].strip()
    if not tail:
        if kind in _BARE:
            return number.value
        if bare is None:
            raise _refuse_bare(found, cleaned, kind)
        tail = bare
    if kind not in _BARE or tail:
        unit = find_unit(tail, kind) if kind not in _BARE else None
        if unit is not None:
            return number.value * find_factor(kind, unit.pint) + find_offset(unit.pint)
        if (factor := find_named_factor(tail, kind)) is not None:
            return number.value * factor
    if kind in _COMPOUND:
        value = _read_compound(found, cleaned, tail, kind)
        if value is not None:
            return value
    raise _refuse_unit(found, tail, number, kind)


def _read_compound(found: str, cleaned: str, tail: str, kind: Kind) -> Fraction | None:
    """Return the exact value of ``10 ft 6-1/2 in``; None when the text is not a row of numbers with units.

    tail: what follows the first number; ``3 ft2`` is another kind, not feet and a number without a unit.
    """
    terms: list[tuple[Numeral, Unit]] = []
    rest = cleaned
    negative = rest.startswith("-")
    rest = rest.lstrip("-").strip()
    while rest:
        try:
            number = read_number(rest)
        except NumberError as error:
            if terms:
                raise _refuse(found, f"cannot be read after its first part ({error})", kind) from None
            return None
        match = re.match(r"\s*([A-Za-z]+\.?|['\"])", rest[number.end :])
        unit = find_unit(match[1], kind) if match else None
        if match is None or unit is None:
            if terms and not rest[number.end :].strip() and not find_other_kinds(tail, kind):
                raise _refuse(found, "has no unit after its last number", kind)
            return None
        terms.append((number, unit))
        rest = rest[number.end + match.end() :]
        rest = re.sub(r"^\s*-?\s*", "", rest) if unit.pint == "foot" else rest.strip()
    _check_row(found, terms, kind)
    value = sum((number.value * find_factor(kind, unit.pint) for number, unit in terms), Fraction(0))
    return -value if negative else value


def _check_row(found: str, terms: list[tuple[Numeral, Unit]], kind: Kind) -> None:
    units = [unit.pint for _, unit in terms]
    family = next((f for f in _FAMILIES if units[0] in f), ())
    places = [family.index(unit) for unit in units if unit in family]
    if len(places) != len(units) or any(b <= a for a, b in itertools.pairwise(places)):
        raise _refuse(
            found, "has units that do not follow each other", kind, "put the larger unit first, each unit once"
        )
    if any(number.value < 0 for number, _ in terms):
        raise _refuse(found, "has a minus sign in the middle", kind)
    if not all(number.whole for number, _ in terms[:-1]):
        raise _refuse(found, "has a part of a larger unit before a smaller one", kind)


def _refuse(found: str, wrong: str, kind: Kind, hint: str = "") -> ReadError:
    name, example = NAMES[kind]
    return ReadError(found, wrong, name, f"'{example}'", hint)


def _refuse_bare(found: str, cleaned: str, kind: Kind) -> ReadError:
    units = {"length_mm": ("in", "mm"), "length_m": ("ft", "in")}.get(kind) or list_spellings(kind)[:2]
    shown = " or ".join(f"'{cleaned}{' ' if unit[0] not in '°' else ''}{unit}'" for unit in units)
    return _refuse(found, "has no unit", kind, f"write {shown}")


def _refuse_unit(found: str, tail: str, number: Numeral, kind: Kind) -> ReadError:
    name, _ = NAMES[kind]
    squeezed = squeeze_spelling(tail)
    if kind in _BARE:
        return _refuse(found, f"has '{tail}' after the number", kind)
    if re.match(r"^[,_]", tail):
        return _refuse(found, "has a comma or underscore in the number", kind, "write the number without separators")
    if re.match(r"^[\d/.+-]", tail):
        return _refuse(found, "has more than one number", kind)
    if squeezed.casefold() in ("inh20", "mmh20", "inchesh20"):
        right = squeezed[:-1].replace("h", "H") + "O"
        return _refuse(found, "ends in a zero where the letter O belongs", kind, f"write '{right}' with the letter O")
    near = find_near_spelling(tail, kind)
    others = find_other_kinds(tail, kind) or find_named_kind(tail, kind)
    if others:
        inches = kind in ("pressure_pa", "draught_pa") and others[0] == NAMES["length_mm"][0]
        hint = f"for inches of water write '{found[: -len(tail)].strip()} inH2O'" if inches and "in" in tail else ""
        return _refuse(found, f"is {others[0]}, not {name}", kind, hint)
    hint = f"did you mean '{near}'?" if near else ""
    return _refuse(found, f"has the unknown unit '{tail}'", kind, hint)

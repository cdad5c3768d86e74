"""One scalar to one value: amounts, numbers, words, choices, dates. Each faulty one gives one clear message."""

from __future__ import annotations

import datetime
import math
import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from calc.measures.commas import list_comma_readings
from calc.measures.quantity import Kind, ReadError, read_amount, read_ratio, read_size, split_at, write_amount
from packet.fields import model as m
from packet.reading.context import Reading, Where
from packet.reading.nodes import Text
from packet.reading.plausible import LENGTHS, Allowed, settle_comma, suggest_size, suggest_units
from packet.reading.problem import find_nearest, list_words, quote_found
from packet.words.dates import list_days, write_day

NUMBER = re.compile(r"[+-]?(?:\d{1,15}(?:\.\d{0,15})?|\.\d{1,15})(?:[eE][+-]?\d{1,3})?")
FEET_FIRST = re.compile(r"\d+ ?(ft|feet|foot|') ?[\d /.-]+$")
MONEY_SIGNS = {"$": ("USD", "CAD", "AUD", "NZD", "US$"), "€": ("EUR",), "£": ("GBP",)}
YES, NO = ("yes", "true", "on", "y"), ("no", "false", "off", "n")
OTHER_SIDES = {"length_mm": "length", "length_m": "length"}


@dataclass(frozen=True)
class AtValue:
    """One amount at another, in base units."""

    value: float
    at: float


@dataclass(frozen=True)
class SizeValue:
    """Two lengths in millimetres, in the order they were typed."""

    width_mm: float
    height_mm: float


def read_scalar(what: m.What, node: Text, where: Where, reading: Reading) -> Any:
    """Return the value of a scalar field in base units, or None after noting its fault."""
    try:
        return read_by_kind(what, node, where, reading)
    except ReadError as error:
        note_read_error(error, node, where, reading)
        return None


def read_by_kind(what: m.What, node: Text, where: Where, reading: Reading) -> Any:
    match what:
        case m.Value():
            return read_value(what, node.value, node, where, reading)
        case m.ValueAt():
            parts = split_at(node.value, what.amount.kind, what.at.kind)
            amount = read_value(what.amount, parts[0], node, where, reading)
            at = read_value(what.at, parts[1], node, where, reading)
            return None if amount is None or at is None else AtValue(amount, at)
        case m.TwoLengths():
            return read_two_lengths(what, node, where, reading)
        case m.Number():
            return read_number(what, node, where, reading)
        case m.Ratio():
            return read_slope(what, node, where, reading)
        case m.InchFraction():
            return read_fraction(node, where, reading)
        case m.PrintedLength():
            return read_printed(what, node, where, reading)
        case m.OwnText():
            return read_words(what, node, where, reading)
        case m.Choice():
            return read_choice(what, node, where, reading)
        case m.YesNo():
            return read_yes_no(node, where, reading)
        case m.Day():
            return read_day(node, where, reading)
    raise TypeError(f"no scalar: {what!r}")


def read_value(what: m.Value, text: str, node: Text, where: Where, reading: Reading) -> float | None:
    """Return an amount in its base unit, as the key's limits settle it; a bare number is refused with its units."""
    limits = find_limits(what)
    try:
        value = read_amount(settle_comma(text, limits), what.kind, negative=what.least.startswith("-"))
    except ReadError as error:
        if written := suggest_units(text, limits, reading.reader):
            said = " or ".join(f"'{one}'" for one in written)
            reading.fault(
                node, where, f"{quote_found(text)} {error.wrong}", expected=error.expected, mend=f"write {said}"
            )
            return None
        raise
    return hold_in_limits(value, what, node, where, reading)


def find_limits(what: m.Value) -> Allowed:
    """Return what a value may be, in its base unit."""
    low = read_limit(what.least, what.kind) if what.least else -math.inf
    high = read_limit(what.most, what.kind) if what.most else math.inf
    usual = (read_limit(what.usual[0], what.kind), read_limit(what.usual[1], what.kind)) if what.usual else (low, high)
    return Allowed(what.kind, low, high, usual)


def note_read_error(error: ReadError, node: Text, where: Where, reading: Reading) -> None:
    """Turn the quantity reader's refusal into a problem of this file."""
    found = f"{quote_found(error.found)} {error.wrong}"
    if runs_on(node, reading):
        mend = "is there a colon missing in the next line, or a space too many before it?"
        reading.fault(node, where, f"{quote_found(node.value)} goes on in the next line", mend=mend)
        return
    example = error.example.strip("'")
    if "no unit after its last number" in error.wrong and FEET_FIRST.match(error.found):
        reading.fault(node, where, found, expected=error.expected, mend=f"write '{error.found} in'")
    elif error.hint:
        said = error.hint if "write '" in error.hint or "did you" in error.hint else f"{error.hint}, such as {example}"
        reading.fault(node, where, found, expected=error.expected, mend=suit_reader(said, reading))
    else:
        reading.fault(node, where, found, expected=error.expected, example=example)


def runs_on(node: Text, reading: Reading) -> bool:
    """Tell whether a bare value holds more than its own line."""
    lines = reading.faults.lines
    if not node.plain or not 0 < node.place.line <= len(lines):
        return False
    rest = lines[node.place.line - 1][node.place.column - 1 :]
    return bool(rest) and len(node.value) > len(rest.rstrip())


def suit_reader(hint: str, reading: Reading) -> str:
    """Return a hint on a missing unit in the reader's own units: ``write '12 ft' or '12 in'`` in metres and mm."""
    both = re.fullmatch(r"write '(\S+) ft' or '\1 in'", hint)
    return f"write '{both[1]} m' or '{both[1]} mm'" if both and reading.reader.system == "metric" else hint


@lru_cache(maxsize=2000)
def read_limit(text: str, kind: Kind) -> float:
    """Return a limit of the field table in base units."""
    return read_amount(text, kind, negative=True)


def hold_in_limits(value: float, what: m.Value, node: Text, where: Where, reading: Reading) -> float | None:
    """Return the value when it is inside the hard limits; warn when it is outside the usual range."""
    limits = find_limits(what)
    low, high = limits.low, limits.high
    slack = 1e-9 * max(1.0, abs(value))
    if not low - slack <= value <= high + slack:
        reading.fault(
            node,
            where,
            f"{quote_found(node.value)} is {'too small' if value < low else 'too large'}",
            expected=write_range(what.least, what.most, what.kind, reading),
            mend=guess_other_unit(node.value, what, low, high, reading),
        )
        return None
    if what.usual:
        usual = limits.usual
        if not usual[0] - slack <= value <= usual[1] + slack:
            said = write_range(what.usual[0], what.usual[1], what.kind, reading)
            reading.warn(node, where, f"{quote_found(node.value)} is unusual; usual is {said} ({what.source})")
    return value


def write_range(least: str, most: str, kind: Kind, reading: Reading) -> str:
    """Return '2 in to 14 in' in the reader's units."""
    typed = [end for end in (least, most) if end]
    as_typed = reading.reader.system == "inch" and all(end.endswith(" ft") for end in typed)
    ends = typed if as_typed else [write_amount(read_limit(end, kind), kind, reading.reader) for end in typed]
    if len(ends) == 2:
        return f"{ends[0]} to {ends[1]}"
    return f"at least {ends[0]}" if least else f"at most {ends[0]}"


def guess_other_unit(text: str, what: m.Value, low: float, high: float, reading: Reading) -> str:
    """Return the advice for a length that would be right in another unit: 24 m for 24 in."""
    if what.kind not in OTHER_SIDES:
        return ""
    number = NUMBER.match(text.strip())
    if not number or len(number.group()) > 4:
        return ""
    for unit in ("in", "mm", "cm", "ft", "m"):
        try:
            other = read_amount(f"{number.group()} {unit}", what.kind)
        except ReadError:
            continue
        if low <= other <= high:
            return f"is it {number.group()} {unit}?"
    return ""


def read_two_lengths(what: m.TwoLengths, node: Text, where: Where, reading: Reading) -> SizeValue | None:
    try:
        size = read_size(node.value)
    except ReadError as error:
        ends = (read_limit(what.least, "length_mm"), read_limit(what.most, "length_mm"))
        if written := suggest_size(node.value, ends, LENGTHS[reading.reader.system]):
            found = f"{quote_found(node.value)} has no unit"
            reading.fault(node, where, found, expected=error.expected, mend=f"write '{written}'")
            return None
        raise
    value = SizeValue(size.width_mm, size.height_mm)
    if what.least_second:
        if is_in_size(value, what):
            return value
        refuse_size(value, what, node, where, reading)
        return None
    limits = m.Value("length_mm", what.least, what.most)
    first = hold_in_limits(size.width_mm, limits, node, where, reading)
    second = hold_in_limits(size.height_mm, limits, node, where, reading)
    return None if first is None or second is None else value


def is_in_size(size: SizeValue, what: m.TwoLengths) -> bool:
    """Tell whether both sides are within their limits."""
    least, least_second, most = (read_limit(end, "length_mm") for end in (what.least, what.least_second, what.most))
    slack = 1e-6
    return least - slack <= size.width_mm <= most + slack and least_second - slack <= size.height_mm <= most + slack


def refuse_size(size: SizeValue, what: m.TwoLengths, node: Text, where: Where, reading: Reading) -> None:
    """Note a size out of limits, with both limits of both sides, and whether it would do the other way round."""
    most = read_limit(what.most, "length_mm")
    wide, high = (write_range(least, what.most, "length_mm", reading) for least in (what.least, what.least_second))
    turned = is_in_size(SizeValue(size.height_mm, size.width_mm), what)
    reading.fault(
        node,
        where,
        f"{quote_found(node.value)} is too {'large' if max(size.width_mm, size.height_mm) > most else 'small'}",
        expected=f"{wide} wide, {high} high",
        mend="turn it: the narrow side is the width" if turned else "",
    )


def read_number(what: m.Number, node: Text, where: Where, reading: Reading) -> float | int | None:
    """Return a plain number; with a fixed unit sign the sign must be there."""
    text = node.value.strip()
    expected = "a whole number" if what.whole else "a number"
    expected += f" with {what.unit}" if what.unit else " without a unit"
    number = what.usual[0] if what.usual else what.least or (1 if what.whole or what.most <= 1 else 12.5)
    example = f"{number:g} {what.unit}".strip()
    body = text.removesuffix(what.unit).strip() if what.unit else text
    if what.money:
        body = take_money_sign(body, node, where, reading)
    body = settle_number(body, what)
    if not NUMBER.fullmatch(body) or (what.unit and body == text):
        mend = ""
        if len(readings := list_comma_readings(body)) == 2:
            mend = f"write '{readings[0]}' or '{readings[1]}'"
        found = f"{quote_found(node.value)} is not {expected}"
        reading.fault(node, where, found, expected=expected, example=example, mend=mend)
        return None
    value = float(body)
    if not math.isfinite(value) or not what.least <= value <= what.most or (what.whole and value != int(value)):
        reading.fault(
            node,
            where,
            f"{quote_found(node.value)} is out of range",
            expected=f"{what.least:g}" if what.least == what.most else f"{expected}, {what.least:g} to {what.most:g}",
        )
        return None
    if what.usual and not what.usual[0] <= value <= what.usual[1]:
        reading.warn(
            node,
            where,
            f"{quote_found(node.value)} is unusual; usual is {what.usual[0]:g} to {what.usual[1]:g} ({what.source})",
        )
    return int(value) if what.whole else value


def take_money_sign(text: str, node: Text, where: Where, reading: Reading) -> str:
    """Return a price without the sign of its money; a sign of other money than the file's is a fault."""
    for sign, names in MONEY_SIGNS.items():
        if sign in text:
            if reading.money.upper() not in (*names, sign):
                found = f"{quote_found(node.value)} is in {sign}, but the money of this file is {reading.money}"
                reading.fault(node, where, found, mend=f"say which it is: money: {names[0]}")
            return text.replace(sign, "", 1).strip()
    return text


def settle_number(text: str, what: m.Number) -> str:
    """Return a plain number with its commas settled: by its limits; before three digits of money it is a thousand."""
    readings = list_comma_readings(text)
    if len(readings) == 2 and not what.money:
        readings = tuple(one for one in readings if NUMBER.fullmatch(one) and what.least <= float(one) <= what.most)
    return readings[0] if len(readings) == 1 or (readings and what.money) else text


def read_slope(what: m.Ratio, node: Text, where: Where, reading: Reading) -> float | None:
    value = read_ratio(node.value)
    if not what.least <= value <= what.most:
        expected = f"a slope from 1:{1 / what.least:g} to 1:{1 / what.most:g}"
        reading.fault(node, where, f"{quote_found(node.value)} is out of range", expected=expected, example="1:5")
        return None
    return value


def read_fraction(node: Text, where: Where, reading: Reading) -> int | None:
    found = re.fullmatch(r"1\s*/\s*(\d{1,3})(?:\s*(?:in|\"))?", node.value.strip())
    if not found or int(found[1]) not in (2, 4, 8, 16, 32, 64):
        reading.fault(
            node,
            where,
            f"{quote_found(node.value)} is not a fraction of the tape",
            expected="1/2, 1/4, 1/8, 1/16, 1/32 or 1/64",
            example="1/32",
        )
        return None
    return int(found[1])


def read_printed(what: m.PrintedLength, node: Text, where: Where, reading: Reading) -> float | None:
    """Return what a printer makes of a length of 1, from a share or from a check rule as measured."""
    text = node.value
    if "%" in text:
        share = read_amount(text, "share")
    else:
        measured = read_amount(text, "length_mm")
        share = measured / (150.0 if re.search(r"[mc]m\b", text) else 152.4)
    if not what.least - 1e-9 <= share <= what.most + 1e-9:
        reading.fault(
            node,
            where,
            f"{quote_found(text)} is {100 * share:.1f} % of the check rule",
            expected=f"{100 * what.least:g} % to {100 * what.most:g} %: the 150 mm rule in mm, the 6 in rule in inches",
            mend="print at actual size, then measure again",
        )
        return None
    return share


def read_words(what: m.OwnText, node: Text, where: Where, reading: Reading) -> str | None:
    text = " ".join(node.value.split())
    if len(text) > what.longest:
        reading.fault(
            node,
            where,
            f"a text of {len(text):,} characters",
            expected=f"at most {what.longest} characters",
            mend="shorten it",
        )
        return None
    if not text:
        reading.fault(node, where, "an empty text", expected="some words", mend="fill it in, or delete the key")
        return None
    return text


def read_choice(what: m.Choice, node: Text, where: Where, reading: Reading) -> str | None:
    word = " ".join(node.value.lower().split())
    for option in what.options:
        if word.replace("_", " ") == option:
            return option
    if word in (means := dict(what.means)):
        return means[word]
    reading.fault(
        node,
        where,
        f"{quote_found(node.value)} is not known here",
        expected=list_words(what.options),
        nearest=find_nearest(node.value, what.options),
    )
    return None


def read_yes_no(node: Text, where: Where, reading: Reading) -> bool | None:
    word = node.value.strip().lower()
    if word in YES or word in NO:
        return word in YES
    reading.fault(node, where, f"{quote_found(node.value)} is neither yes nor no", expected="yes or no")
    return None


def read_day(node: Text, where: Where, reading: Reading) -> datetime.date | None:
    days = list_days(node.value)
    if len(days) == 1:
        return days[0]
    if days:
        said = " or ".join(write_day(day) for day in days)
        found = f"{quote_found(node.value)} can be two days"
        reading.fault(node, where, found, expected="a date, year first", mend=f"write {said}")
        return None
    found, expected = f"{quote_found(node.value)} is not a date", "a date, year first"
    reading.fault(node, where, found, expected=expected, example="2026-03-14")
    return None

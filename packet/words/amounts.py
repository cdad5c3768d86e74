"""Amounts as table cells and sentences want them: bands, heads with units, margins."""

from __future__ import annotations

from calc.finding import Band, Finding
from calc.measures.kinds import Kind, Reader
from calc.measures.quantity import unit_name, write_amount
from packet.words.phrases import take_words
from packet.words.say import write

NONE = "–"
MOST_PERCENT = 100  # from here on the number says nothing more


def head(words: str, kind: Kind, reader: Reader) -> str:
    """Return a column's head with its unit on a second line."""
    unit = unit_name(kind, reader)
    return f"{words}\n{unit}" if unit else words


def axis(words: str, kind: Kind, reader: Reader) -> str:
    """Return an axis's label with its unit."""
    return f"{words} [{unit_name(kind, reader)}]"


def bare(value: float | None, kind: Kind, reader: Reader) -> str:
    """Return a value without its unit, for a column whose head names it; a dash for None."""
    return NONE if value is None else write_amount(value, kind, reader, unit=False)


def full(value: float | None, kind: Kind, reader: Reader) -> str:
    """Return a value with its unit; a dash for None."""
    return NONE if value is None else write_amount(value, kind, reader)


def bare_band(band: Band, kind: Kind, reader: Reader) -> str:
    """Return ``655 (610–690)`` without units; without the bracket when the band is narrower than a digit shows."""
    low, best, high = (write_amount(v, kind, reader, unit=False) for v in (band.low, band.best, band.high))
    return best if low == high else f"{best} ({low}–{high})"


def full_band(band: Band, kind: Kind, reader: Reader) -> str:
    """Return ``655 cfm (610–690)``."""
    low, high = (write_amount(v, kind, reader, unit=False) for v in (band.low, band.high))
    best = write_amount(band.best, kind, reader)
    return best if low == high else f"{best} ({low}–{high})"


def span(low: float, high: float, kind: Kind, reader: Reader) -> str:
    """Return ``450–655`` without the unit."""
    a, b = (write_amount(v, kind, reader, unit=False) for v in (low, high))
    return a if a == b else f"{a}–{b}"


def duct(diameter_m: float | None, reader: Reader) -> str:
    """Return a duct's diameter in the unit of the trade; a dash for None."""
    return NONE if diameter_m is None else write_amount(diameter_m * 1000, "length_mm", reader)


def value_of(finding: Finding, reader: Reader) -> str:
    """Return a finding's value, with its band where it has one."""
    if finding.value is None:
        return NONE
    text = write(finding.value, reader)
    if finding.low is not None and finding.high is not None:
        kind = finding.value.kind
        ends = span(finding.low.value, finding.high.value, kind, reader)
        if "–" in ends:
            return f"{text} ({ends})"
    return text


def limit_of(finding: Finding, reader: Reader) -> str:
    """Return a finding's limit with its sense."""
    if finding.limit is None:
        return NONE
    words = take_words("amounts", reader.language)
    limit = write(finding.limit, reader)
    if finding.sense in ("at least", "at most"):
        return words("at_least" if finding.sense == "at least" else "at_most", limit=limit)
    return limit


def margin_of(finding: Finding, reader: Reader) -> str:
    """Return a finding's margin in percent, in tenths below 1 %: room left with its sign, what lacks as ``over by`` or
    ``short by``; ``ample`` and ``far over`` where the number says nothing more."""
    if finding.margin is None:
        return NONE
    words, percent = take_words("amounts", reader.language), finding.margin * 100
    if percent >= MOST_PERCENT:
        return words("margin_ample")
    if abs(percent) < 0.05:
        return words("margin_none")
    share = f"{abs(percent):.{0 if abs(percent) >= 1 else 1}f} %"
    if percent > 0:
        return words("margin_room", share=share)
    far = percent <= -MOST_PERCENT
    if finding.sense == "at least":
        return words("margin_far_short") if far else words("margin_short", share=share)
    return words("margin_far_over") if far else words("margin_over", share=share)


class Sources:
    """Sources by number, in the order they are first named, to be listed under a table."""

    def __init__(self) -> None:
        self._numbers: dict[str, int] = {}

    def number(self, source: str) -> str:
        """Return the source's number; empty for none."""
        if not source:
            return ""
        return str(self._numbers.setdefault(source, len(self._numbers) + 1))

    def listed(self) -> str:
        """Return all sources with their numbers, as one text."""
        return " · ".join(f"[{number}] {source}" for source, number in self._numbers.items())

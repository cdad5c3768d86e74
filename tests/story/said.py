"""What was printed, as a value in one unit with the rounding of its print. Nothing here is the program's own reader."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

NUMBER = r"\d[\d,]*(?:\.\d+)?(?:-\d+/\d+|/\d+)?"
"""A number as it is printed: 103-19/32, 5/16, 1,618.95, 0.18."""

UNITS = {
    # NIST SP 811 (2008), appendix B: the inch, the foot, the pound, the inch of water; the rest follow from them
    "in": 25.4,
    "ft": 304.8,
    "mm": 1.0,
    "m": 1000.0,
    "lb": 0.45359237,
    "kg": 1.0,
    "inH2O": 249.0889,
    "Pa": 1.0,
    "cfm": 0.3048**3 / 60,
    "m³/h": 1 / 3600,
    "fpm": 0.3048 / 60,
    "m/s": 1.0,
    "h": 1.0,
    "dB": 1.0,
    "m²": 1.0,
    "ft²": 0.3048**2,
}
"""Factors to mm, kg, Pa, m³/s, m/s, h, dB, m²."""

UNIT = "(?:" + "|".join(sorted(map(re.escape, UNITS), key=len, reverse=True)) + r")(?![\w²³/])"
AMOUNT = rf"(?:\d+ ft {NUMBER} in|{NUMBER} {UNIT})"


@dataclass(frozen=True)
class Said:
    """One value as told in one place. within: how far the true value may lie from it, by its print."""

    value: float | str
    within: float = 0.0

    def agrees(self, other: Said) -> bool:
        """Tell whether both can be prints of one value."""
        if isinstance(self.value, str) or isinstance(other.value, str):
            return self.value == other.value
        room = self.within + other.within
        if self.within and abs(self.within - other.within) < 1e-9:
            room /= 2  # rounded alike, one value has one print
        return abs(self.value - other.value) <= room + 1e-6 * max(1.0, abs(self.value))

    def __str__(self) -> str:
        return repr(self.value[:60]) if isinstance(self.value, str) else f"{self.value:.6g} (± {self.within:.2g})"


def read_number(text: str) -> tuple[float, float]:
    """Return a printed number and half of its last place (0 for a fraction: its step is the tape's)."""
    text = text.replace(",", "")
    if "/" in text:
        whole, _, part = text.rpartition("-")
        return float((int(whole) if whole else 0) + Fraction(part)), 0.0
    return float(text), 0.5 * 10.0 ** -len(text.partition(".")[2])


def read_amount(text: str, step_mm: float = 0.0, unit: str = "") -> Said:
    """Return a printed amount in the unit of UNITS.

    step_mm: the mark of the tape a length was rounded to, 0 where its last place tells; unit: where none is printed
    """
    if feet := re.fullmatch(rf"(\d+) ft ({NUMBER}) in", text):
        return Said(float(feet[1]) * 304.8 + read_number(feet[2])[0] * 25.4, step_mm / 2)
    number, _, own = text.partition(" ")
    own = own or unit
    value, half = read_number(number)
    if own in ("in", "mm", "ft") and step_mm:
        return Said(value * UNITS[own], step_mm / 2)
    return Said(value * UNITS[own], half * UNITS[own])


def count(number: float | str) -> Said:
    """Return a count, or another number that is told whole."""
    return Said(float(str(number).replace(",", "")))

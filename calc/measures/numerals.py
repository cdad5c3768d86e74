"""Numbers as people write them: whole, decimal, fraction, mixed; never guessed at, always exact.

Grammar of one number::

    number  = whole [space or -] n/d  |  n/d  |  decimal
    decimal = digits [. digits] [e exponent]

A comma, an underscore or a space inside a number is refused: it means different things in different places.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

_CHARACTERS = {
    **dict.fromkeys("\u00a0\u2002\u2003\u2007\u2009\u200a\u202f\t", " "),
    **dict.fromkeys("\u2212\u2010\u2011\u2013", "-"),
    **dict.fromkeys("\u2018\u2019\u2032\u00b4", "'"),
    **dict.fromkeys("\u201c\u201d\u2033\u02ba", '"'),
    **dict.fromkeys("\u2044\u2215", "/"),
    **dict.fromkeys("\u00d7\u2715", "x"),
}
NUMBER = re.compile(
    r"(?P<sign>[-+]?)\s*(?:"
    r"(?P<whole>\d+)(?:-|\s+)(?P<over>\d+)\s*/\s*(?P<under>\d+)"
    r"|(?P<top>\d+)\s*/\s*(?P<bottom>\d+)"
    r"|(?P<decimal>(?:\d+\.\d*|\.\d+|\d+)(?:[eE][-+]?\d+(?![\w.]))?)"
    r")(?![\d.,_/])",
    re.ASCII,
)


class NumberError(ValueError):
    """A number cannot be read; the words say what is wrong with it."""


@dataclass(frozen=True)
class Numeral:
    """A number read from the front of a text: its exact value, where it ends, and whether it is written whole."""

    value: Fraction
    end: int
    whole: bool


def clean_text(text: str) -> str:
    """Return text with typographic characters made plain and fraction characters (⅛) spelled out (`` 1/8``).

    Compatibility normalisation is not used: it turns 5⅛ into 51/8.
    """
    plain: list[str] = []
    for character in text:
        if character in _CHARACTERS:
            plain.append(_CHARACTERS[character])
        elif "VULGAR FRACTION" in unicodedata.name(character, ""):
            value = Fraction(unicodedata.numeric(character)).limit_denominator(100)
            while plain and plain[-1] == " ":
                plain.pop()
            joined = plain and (plain[-1].isdigit() or plain[-1] == ".")
            plain.append(f"{' ' if joined else ''}{value.numerator}/{value.denominator}")
        else:
            plain.append(character)
    return "".join(plain).replace("''", '"').strip()


def read_number(text: str) -> Numeral:
    """Return the number at the front of cleaned text. Raises NumberError saying what is wrong."""
    match = NUMBER.match(text)
    if match is None:
        raise NumberError(_explain(text))
    part = match.groupdict()
    if part["over"] is not None:
        over, under = int(part["over"]), int(part["under"])
        if under == 0:
            raise NumberError("divides by zero")
        if over >= under:
            raise NumberError(f"has the fraction {over}/{under} after a whole number")
        value = Fraction(int(part["whole"])) + Fraction(over, under)
    elif part["top"] is not None:
        if int(part["bottom"]) == 0:
            raise NumberError("divides by zero")
        value = Fraction(int(part["top"]), int(part["bottom"]))
    else:
        value = _read_decimal(part["decimal"])
    if part["sign"] == "-":
        value = -value
    whole = part["decimal"] is not None and part["decimal"].isdigit()
    return Numeral(value, match.end(), whole)


def _read_decimal(text: str) -> Fraction:
    mantissa, _, exponent = text.lower().partition("e")
    if len(mantissa) > 40 or (exponent and abs(int(exponent[:6])) > 60):
        raise NumberError("is beyond any size")
    return Fraction(text if not text.endswith(".") else text[:-1])


def _explain(text: str) -> str:
    front = text.strip().lower()
    if re.match(r"[-+]?\.?(nan|inf)", front):
        return "is not a finite number"
    if re.match(r"[-+]?[\d.]*,", front):
        return "has a comma, which could mean a decimal or a thousand"
    if re.match(r"[-+]?\d[\d.]*_", front):
        return "has an underscore in the number"
    if re.match(r"[-+]?\d+\.\d+\.", front):
        return "has two decimal points"
    if not re.search(r"\d", front):
        return "has no number"
    return "does not begin with a number"

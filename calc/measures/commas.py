"""Commas in numbers as people write them: ``1,250 cfm`` is a thousand in one place and a decimal in another.

What can mean one thing only is read as that: a comma before any but three digits, behind a zero or behind more than
three digits is a decimal; several, or one with a point behind it, part thousands; behind points it is a decimal. One
before exactly three digits can mean both: only the key it stands behind can tell which, by its limits.
"""

from __future__ import annotations

import re

FIRST_NUMBER = re.compile(r"(?P<sign>[-+]?)(?P<number>\d[\d.,]*\d|\d)(?P<rest>.*)", re.DOTALL)
THOUSANDS = re.compile(r"[1-9]\d{0,2}(?:,\d{3}){2,}(?:\.\d+)?|[1-9]\d{0,2}(?:,\d{3})+\.\d+")
DECIMAL = re.compile(r"\d+,\d+")
POINTED = re.compile(r"[1-9]\d{0,2}(?:\.\d{3})+,\d+")
EITHER = re.compile(r"[1-9]\d{0,2},\d{3}")


def list_comma_readings(text: str) -> tuple[str, ...]:
    """Return what a cleaned text with a comma in its first number can mean, each written with a point or nothing.

    None where it has no comma or means nothing; two where it can mean a thousand or a decimal, the thousand first.
    """
    found = FIRST_NUMBER.fullmatch(text)
    if found is None or "," not in found["number"]:
        return ()
    number = found["number"]
    readings: tuple[str, ...]
    if EITHER.fullmatch(number):
        readings = (number.replace(",", ""), number.replace(",", "."))
    elif THOUSANDS.fullmatch(number):
        readings = (number.replace(",", ""),)
    elif DECIMAL.fullmatch(number):
        readings = (number.replace(",", "."),)
    elif POINTED.fullmatch(number):
        readings = (number.replace(".", "").replace(",", "."),)
    else:
        return ()
    return tuple(f"{found['sign']}{reading}{found['rest']}" for reading in readings)

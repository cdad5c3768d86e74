"""Said and Amount made into the reader's words."""

from __future__ import annotations

import math
import string

from calc.finding import Amount, Said
from calc.quantity import Reader, write_amount


def write(amount: Amount, reader: Reader, *, digits: int | None = None) -> str:
    """Return an amount in the reader's units. Raises ValueError when it is not finite."""
    if amount.fine and digits is None:
        digits = 3 if reader.system == "inch" else 2
    value = lean(amount, reader) if amount.toward else amount.value
    return write_amount(value, amount.kind, reader, digits=digits)


def lean(amount: Amount, reader: Reader) -> float:
    """Return a length [mm] moved to the next fraction of an inch or tenth of a millimetre on the safe side."""
    if amount.kind != "length_mm":
        return amount.value
    step = 25.4 / reader.fraction if reader.system == "inch" else 0.1
    steps = amount.value / step
    return step * (math.ceil(steps - 1e-6) if amount.toward == "up" else math.floor(steps + 1e-6))


def say(said: Said, reader: Reader) -> str:
    """Return the sentence with its numbers and the user's names filled in; plain text, not markup.

    Raises KeyError when the pattern asks for a name that is neither an amount nor a name.
    """
    parts: list[str] = []
    for literal, name, _, _ in string.Formatter().parse(said.pattern):
        parts.append(literal)
        if name is None:
            continue
        if name in said.amounts:
            parts.append(write(said.amounts[name], reader))
        else:
            parts.append(said.names[name])
    return "".join(parts)

"""Said and Amount made into the reader's words."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from calc.finding import Amount, Said
from calc.measures.marking import write_between
from calc.measures.quantity import Reader, round_up, write_amount
from packet.words.phrases import take_words

FINDINGS = "findings"

LONG_MM = 100.0
"""From here on a length in a sentence is told in whole millimetres: no tape tells more."""


def write(amount: Amount, reader: Reader, *, digits: int | None = None) -> str:
    """Return an amount in the reader's units. Raises ValueError when it is not finite."""
    if amount.base_mm is not None:
        return write_between(amount.base_mm, amount.base_mm + amount.value, reader)
    if amount.fine and digits is None:
        digits = 3 if reader.system == "inch" else 2
    elif digits is None and amount.kind == "length_mm" and reader.system == "metric" and abs(amount.value) >= LONG_MM:
        digits = 0
    value = lean(amount, reader) if amount.toward else amount.value
    return write_amount(value, amount.kind, reader, digits=digits)


def lean(amount: Amount, reader: Reader) -> float:
    """Return a length [mm] moved to the next fraction of an inch or whole millimetre on the safe side: it is cut to.

    Other kinds lean upward only, to the next value that is written without rounding.
    """
    if amount.kind != "length_mm":
        return round_up(amount.value, amount.kind, reader) if amount.toward == "up" else amount.value
    step = 25.4 / reader.fraction if reader.system == "inch" else 1.0
    steps = amount.value / step
    return step * (math.ceil(steps - 1e-6) if amount.toward == "up" else math.floor(steps + 1e-6))


def say(said: Said | str, reader: Reader) -> str:
    """Return the sentence with its numbers and the user's names filled in; plain text, not markup.

    A plain string is the user's own and stays as it is.

    Raises BadWords when templates/findings lacks the sentence, or the sentence asks for a name that is not known.
    """

    if isinstance(said, str):
        return said

    file, _, key = said.phrase.partition(".")
    return take_words(file, reader.language, FINDINGS).fill(key, SaidValues(said, reader))


class SaidValues(Mapping[str, str]):
    """What a sentence was given, written in the reader's words when it is asked for."""

    def __init__(self, said: Said, reader: Reader) -> None:
        self.said, self.reader = said, reader

    def __getitem__(self, name: str) -> str:
        if name in self.said.amounts:
            return write(self.said.amounts[name], self.reader)
        return say(self.said.names[name], self.reader)

    def __iter__(self) -> Iterator[str]:
        return iter((*self.said.amounts, *self.said.names))

    def __len__(self) -> int:
        return len(self.said.amounts) + len(self.said.names)

"""A project that reads well and whose blower and ducts find no balance: told as a fault of the file."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from calc.airflow.balance import NoBalance
from packet.reading.load import Loaded
from packet.reading.problem import BadProject, Problem, list_words, quote_found


@contextmanager
def refuse_no_balance(loaded: Loaded, file: str) -> Iterator[None]:
    """Turn a NoBalance inside into BadProject, with the line of the blower."""
    try:
        yield
    except NoBalance as lost:
        gates = list_words([quote_found(name) for name in lost.machines], 6)
        found = f"blower and ducts find no balance with the gate of {gates} open"
        mend = "look for a size or a flow in another unit: blower outlet and curve, link, delivery, separator"
        problem = Problem(
            file=file, line=loaded.line_of.get("blower", 1), column=1, path="blower", found=found, mend=mend
        )
        raise BadProject([problem], loaded.lines) from lost

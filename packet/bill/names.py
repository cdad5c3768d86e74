"""Names in the file's prices, stock and places to buy that no line of the bill goes by: doubts with their lines."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING

from packet.reading.load import Loaded, write_warning
from packet.reading.problem import Problem, find_nearest, quote_found

if TYPE_CHECKING:
    from packet.bill.model import Bill

TABLES = ("prices", "on_hand", "buy_at")


def add_doubts(loaded: Loaded, bill: Bill, file: str) -> Loaded:
    """Return the loaded file with a warning for each name that the bill does not know."""
    doubts = find_doubts(loaded, bill, file)
    if not doubts:
        return loaded
    every = tuple(sorted((*loaded.doubts, *doubts), key=lambda doubt: (doubt.line, doubt.column)))
    return replace(loaded, doubts=every, warnings=tuple(write_warning(doubt) for doubt in every))


def find_doubts(loaded: Loaded, bill: Bill, file: str) -> tuple[Problem, ...]:
    """Return one doubt for each unknown name in each table, with the bill's nearest name."""
    found = []
    for table in TABLES:
        for name in getattr(loaded.project, table):
            if name in bill.unknown:
                path = f"{table}.{name}"
                near = find_near_item(name, bill.names)
                said = f"nothing in the bill is called {quote_found(name)}" + (f" (nearest: {near})" if near else "")
                place = loaded.line_of.get(path, loaded.line_of.get(table, 0))
                found.append(Problem(file=file, line=place, column=1, path=path, found=said))
    return tuple(found)


def find_near_item(name: str, known: Iterable[str]) -> str:
    """Return the bill's nearest name: by its letters, else the first that shares the most words with it."""
    names = sorted(set(known))
    near = find_nearest(name, names)
    if near:
        return near
    words = {word for word in name.lower().split() if len(word) > 2}
    shared = max(names, key=lambda each: len(words & set(each.lower().split())), default="")
    return shared if words & set(shared.lower().split()) else ""

"""Worked calculations: each formula, the numbers put in, the value and the source, to follow with a pencil."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from calc.results import Worked
from packet.job import Job
from packet.pages.amounts import Sources
from packet.pages.kit import Kit
from packet.say import say, write


def make_story(job: Job, kit: Kit) -> list[Any]:
    """Return the calculations by subject; they are those of the worst machine with its gate alone open."""
    if not job.sizing.worked:
        return []
    blocks: list[Any] = [
        kit.heading("Worked calculations"),
        kit.text(
            f"For {job.sizing.worst}, the machine worst off, with its gate alone open and clean filters. Each line: "
            "symbol = formula, the numbers put in, the value, where the formula comes from. Printed numbers are "
            "rounded but the value is made from unrounded ones, so its last digit may differ from your pencil's."
        ),
    ]
    sources = Sources()
    for subject, rows in groupby(job.sizing.worked, key=lambda row: row.subject):
        blocks.append(_table(subject[:1].upper() + subject[1:], list(rows), kit, sources))
    blocks.append(kit.text(f"Sources: {sources.listed()}.", "fine"))
    return blocks


def _table(subject: str, rows: list[Worked], kit: Kit, sources: Sources) -> Any:
    cells: list[list[Any]] = [[subject, "Numbers put in", "Value", "Source"]]
    for row in rows:
        numbers = " ".join(say(piece, kit.reader) for piece in row.numbers)
        cells.append(
            [f"{row.symbol} = {row.formula}", numbers, write(row.value, kit.reader), sources.number(row.source)]
        )
    return kit.table(cells, (62, 82, 25, 13), align="llrr", size=8.2)

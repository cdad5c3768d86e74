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
    sources = Sources()
    rows: list[list[Any]] = [["Formula", "Numbers put in", "Value", "Source"]]
    for subject, calculations in groupby(job.sizing.worked, key=lambda row: row.subject):
        rows.append([kit.text(subject[:1].upper() + subject[1:], "cell-strong"), "", "", ""])
        rows += [_tell(calculation, kit, sources) for calculation in calculations]
    return [
        kit.heading("Worked calculations"),
        kit.text(
            f"For {job.sizing.worst}, the machine worst off, its gate alone open, filters clean. Values are made from "
            "unrounded numbers, so the last digit may differ from your pencil's."
        ),
        kit.table(rows, (62, 83, 25, 12), align="llrr", size=8.0),
        kit.text(f"Sources: {sources.listed()}.", "fine"),
    ]


def _tell(row: Worked, kit: Kit, sources: Sources) -> list[Any]:
    numbers = " ".join(say(piece, kit.reader) for piece in row.numbers)
    return [f"{row.symbol} = {row.formula}", numbers, write(row.value, kit.reader), sources.number(row.source)]

"""Worked calculations: each formula, the numbers put in, the value and the source, to follow with a pencil."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from calc.results import Worked
from packet.job import AirJob
from packet.pages.kit.kit import Kit
from packet.words.amounts import Sources
from packet.words.phrases import Phrases, take_words
from packet.words.say import say, write


def make_story(job: AirJob, kit: Kit) -> list[Any]:
    """Return the calculations by subject; they are those of the worst machine with its gate alone open."""
    if not job.sizing.worked:
        return []
    words, sources = take_words("worked", kit.reader.language), Sources()
    rows: list[list[Any]] = [[words(f"column_{name}") for name in ("formula", "numbers", "value", "source")]]
    for subject, calculations in groupby(job.sizing.worked, key=lambda row: row.subject):
        rows.append([kit.text(say(subject, kit.reader), "cell-strong"), "", "", ""])
        rows += [_tell(calculation, kit, words, sources) for calculation in calculations]
    return [
        kit.heading(words("title")),
        kit.text(words("lead", machine=job.sizing.worst)),
        kit.table(rows, (62, 83, 25, 12), align="llrr", size=8.0),
        kit.text(words("sources", sources=sources.listed()), "fine"),
    ]


def _tell(row: Worked, kit: Kit, words: Phrases, sources: Sources) -> list[Any]:
    numbers = " ".join(say(piece, kit.reader) for piece in row.numbers)
    equation = words("equation", symbol=say(row.symbol, kit.reader), formula=say(row.formula, kit.reader))
    return [equation, numbers, write(row.value, kit.reader), sources.number(row.source)]

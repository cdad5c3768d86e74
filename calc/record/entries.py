"""The as-built record: dated entries with their answers, oldest first. Plain data; reading and writing is packet's."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from calc.record.questions import AnswerKind


@dataclass(frozen=True)
class Answer:
    """One answer as written, and what it means.

    value: in the base unit of its kind, None for words; yes: for yes-no questions, None when it is not one
    """

    key: str
    written: str
    kind: AnswerKind
    value: float | None = None
    yes: bool | None = None


@dataclass(frozen=True, kw_only=True)
class Entry:
    """What was written down on one day.

    kind: ``as built``, ``test``, ``cleaning`` or ``note``; revision, digest: of the packet the sheet belongs to
    """

    date: datetime.date
    by: str
    kind: str
    revision: str
    digest: str
    answers: Mapping[str, Answer] = field(default_factory=lambda: MappingProxyType({}))
    notes: str = ""

    def get_value(self, key: str) -> float | None:
        """Return the value of an answer, None when it was not answered."""
        answer = self.answers.get(key)
        return answer.value if answer else None


@dataclass(frozen=True)
class Record:
    """All entries, in the order they were appended."""

    entries: tuple[Entry, ...] = ()

    def find_latest(self, key: str) -> tuple[Entry, Answer] | None:
        """Return the answer with the latest date for a key (the later one in the log when dates agree)."""
        dated = [(entry.date, index, entry) for index, entry in enumerate(self.entries) if key in entry.answers]
        if not dated:
            return None
        entry = max(dated, key=lambda row: row[:2])[2]
        return entry, entry.answers[key]


def find_baseline(record: Record | None) -> float | None:
    """Return the latest clean baseline [Pa] that was measured with clean filters; None when there is none."""
    found = None if record is None else record.find_latest("baseline.reading")
    if found is None or not found[1].value:
        return None
    clean = found[0].answers.get("baseline.clean")
    return abs(found[1].value) if clean is None or clean.yes else None

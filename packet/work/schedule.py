"""Who does what when: the critical path, and the job laid out for two people day by day."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from packet.work.model import Slot, Step

DAY_MINUTES = 7 * 60.0
"""Working time of a day in the shop (common practice, no source)."""

Person = Literal["builder", "helper"]


@dataclass(frozen=True)
class Schedule:
    """minutes: time worked by the later of the two, day for day; days: with the nights that glue and sealant take."""

    slots: tuple[Slot, ...]
    minutes: float
    days: int


def find_critical(steps: Sequence[Step]) -> tuple[float, tuple[str, ...]]:
    """Return minutes and ids of the longest chain of steps: no number of hands makes the job shorter than this."""
    best: dict[str, tuple[float, tuple[str, ...]]] = {}
    for step in steps:
        longest = max((best[other] for other in step.after), key=lambda chain: chain[0], default=(0.0, ()))
        best[step.id] = (longest[0] + step.minutes, (*longest[1], step.id))
    return max(best.values(), key=lambda chain: chain[0], default=(0.0, ()))


def find_tails(steps: Sequence[Step]) -> dict[str, float]:
    """Return for each step the minutes from its start to the end of the longest chain that hangs on it."""
    tails: dict[str, float] = {}
    for step in reversed(steps):
        after = [tails[other.id] for other in steps if step.id in other.after]
        tails[step.id] = step.minutes + max(after, default=0.0)
    return tails


def schedule_two(steps: Sequence[Step]) -> Schedule:
    """Return the steps laid out for builder and helper.

    A simple list rule: whoever is free first takes, of the steps that are ready and theirs, the one with the longest
    chain behind it. Steps for both start when both are free. A step that does not fit into the rest of a day waits for
    the next morning; what cures overnight keeps its followers until then. A step longer than a day starts one.
    """
    tails = find_tails(steps)
    waiting = {step.id: step for step in steps}
    ends: dict[str, float] = {}
    free: dict[Person, float] = {"builder": 0.0, "helper": 0.0}
    slots: list[Slot] = []
    while waiting:
        ready = [step for step in waiting.values() if all(other in ends for other in step.after)]
        choice = min(ready, key=lambda step: (_find_start(step, ends, free), -tails[step.id]))
        start = _find_start(choice, ends, free)
        end = start + choice.minutes
        people = _list_people(choice)
        for person in people:
            free[person] = end
        ends[choice.id] = (end // DAY_MINUTES + 1) * DAY_MINUTES if choice.overnight else end
        day = int(start // DAY_MINUTES)
        slots.append(Slot(choice.id, people, day + 1, start - day * DAY_MINUTES, end - day * DAY_MINUTES))
        del waiting[choice.id]
    return Schedule(tuple(slots), _sum_days(slots), max((slot.day for slot in slots), default=0))


def _list_people(step: Step) -> tuple[Person, ...]:
    return ("builder", "helper") if step.who == "both" else (step.who,)


def _find_start(step: Step, ends: Mapping[str, float], free: Mapping[Person, float]) -> float:
    start = max([free[person] for person in _list_people(step)] + [ends[other] for other in step.after])
    into_day = start % DAY_MINUTES
    if into_day and into_day + step.minutes > DAY_MINUTES:
        start += DAY_MINUTES - into_day
    return start


def _sum_days(slots: Sequence[Slot]) -> float:
    days: dict[int, float] = {}
    for slot in slots:
        days[slot.day] = max(days.get(slot.day, 0.0), slot.end)
    return sum(days.values())

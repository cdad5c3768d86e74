"""What a plan of work is: steps, hold points, cautions and the schedule, with all words filled in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from packet.words.phrases import Phrases

Who = Literal["builder", "helper", "both"]
Basis = Literal["project", "trade"]
SIGNALS = ("DANGER", "WARNING", "CAUTION", "NOTICE")


@dataclass(frozen=True)
class Use:
    """A part or material a step takes: its name as printed and how much, as words. key: what the bill knows it by."""

    name: str
    amount: str = ""
    key: str = ""


@dataclass(frozen=True)
class StepLine:
    """One thing to do (tick) or one thing to know (no tick box)."""

    text: str
    tick: bool = True


@dataclass(frozen=True)
class HoldPoint:
    """Stop here: what to measure, the value wanted, how far off is still right. field is a plain name for a form.

    basis: ``project`` when the tolerance was worked out for this project, ``trade``: common practice, no source
    """

    what: str
    value: str
    tolerance: str
    basis: Basis
    field: str


@dataclass(frozen=True)
class Fact:
    """A fact of this project or a published limit, and where it comes from."""

    text: str
    source: str


@dataclass(frozen=True, kw_only=True)
class Caution:
    """A caution tied to this project's facts.

    signal: one of SIGNALS; short: what stands at a step; hazard: what can happen; avoid: what to do
    """

    id: str
    signal: str
    title: str
    short: str
    hazard: str
    avoid: tuple[str, ...]
    facts: tuple[Fact, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Step:
    """One step.

    after: ids of the steps that must be done first; cautions: ids of those that bite here
    overnight: what was glued or sealed must cure until the next day before the steps that follow
    alone: one person can do it; if not, a second pair of hands is needed whatever the project says
    pictures: keys of drawings in packet/draw/steps/pictures.py
    """

    id: str
    number: int
    stage: str
    title: str
    why: str
    who: Who
    minutes: float
    lines: tuple[StepLine, ...]
    tools: tuple[str, ...] = ()
    parts: tuple[Use, ...] = ()
    holds: tuple[HoldPoint, ...] = ()
    cautions: tuple[str, ...] = ()
    pictures: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    overnight: bool = False
    alone: bool = True


@dataclass(frozen=True)
class Slot:
    """A step on the clock of a two-person job: who does it, on which day (1, 2 ...) and in which minutes of it."""

    step: str
    people: tuple[Literal["builder", "helper"], ...]
    day: int
    start: float
    end: float


@dataclass(frozen=True)
class Term:
    """A term of the trade, explained once."""

    word: str
    meaning: str


@dataclass(frozen=True, kw_only=True)
class HelperStep:
    """A step as the helper sees it: where it stands in the whole job, what to hold, carry or cut, and when to stop."""

    id: str
    number: int
    title: str
    with_builder: bool
    minutes: float
    tools: tuple[str, ...]
    lift: str
    lines: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class HelperSheet:
    """phrases: the sheet's own words, in its language; cautions: in its language, only those at its steps."""

    language: str
    phrases: Phrases
    steps: tuple[HelperStep, ...]
    wear: tuple[str, ...]
    stop: tuple[str, ...]
    ask: tuple[str, ...]
    cautions: tuple[Caution, ...]
    signals: Mapping[str, str]


@dataclass(frozen=True, kw_only=True)
class Plan:
    """The whole job in an order that works.

    minutes_one, minutes_two: working time for one person, and for two side by side; days: the same, with curing
    minutes_critical, critical: length and ids of the chain of steps that sets the shortest time, however many hands
    cautions: all that apply, in the reader's language, gravest first (``scope``: what this packet does not design)
    stages: id and name of the stages, in order; helper: the helper's sheet in the reader's language
    language: of the builder's cards; card_cautions: those that apply, in that language
    """

    steps: tuple[Step, ...]
    minutes_one: float
    minutes_two: float
    minutes_critical: float
    days_two: int
    critical: tuple[str, ...]
    slots: tuple[Slot, ...]
    cautions: tuple[Caution, ...]
    stages: tuple[tuple[str, str], ...]
    glossary: tuple[Term, ...]
    helper: HelperSheet
    language: str
    card_cautions: tuple[Caution, ...]

    def get_step(self, step_id: str) -> Step:
        """Return the step of that id. Raises KeyError."""
        return {step.id: step for step in self.steps}[step_id]

    def get_caution(self, caution_id: str) -> Caution:
        """Return the caution of that id as a card says it. Raises KeyError."""
        return {caution.id: caution for caution in self.card_cautions}[caution_id]

"""Findings: what was looked at, its value and limit, the verdict, why it matters and what mends it.

Two constructors make every finding: `hold` decides a number against its limit, `tell` states what has no limit.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from types import MappingProxyType
from typing import Literal

from calc.measures.quantity import Kind
from calc.trade import PRACTICE

MET = 1e-6
"""A limit missed by less than this, or by this share of it, is met: it is the rounding of the computer, not a size."""

HAIR_MM = 1.0
"""A length that misses its limit by less than this is told so finely that the two do not look alike."""

Sense = Literal["at least", "at most"]

Topic = Literal["air", "blower", "filters", "gauge", "sound", "pails", "box", "reach", "strength", "other"]
"""The head of the report's list a finding stands under."""


class Verdict(StrEnum):
    """fits: the whole band is inside the limit. tight: the best value is, but the band or the measuring error reaches
    the limit. does not fit: the best value misses it, whatever the band."""

    FITS = "fits"
    TIGHT = "tight"
    DOES_NOT_FIT = "does not fit"


@dataclass(frozen=True)
class Amount:
    """A number in the base unit of its kind (SI; lengths in the unit the kind's name ends with).

    fine: a length too small for fractions, to be written in thousandths of an inch or hundredths of a millimetre
    toward: a length that must not be written smaller (``up``) or larger (``down``) than it is, for a mend
    base_mm: where a length of a chain begins: it is told as the distance of two places measured from one edge
    """

    value: float
    kind: Kind
    fine: bool = False
    toward: Literal["", "up", "down"] = ""
    base_mm: float | None = None


@dataclass(frozen=True)
class Said:
    """A sentence whose words and numbers are filled in later, in the reader's language and units.

    phrase: which sentence of templates/findings: the file's name, a dot, its key: ``judging.flow_short``
    amounts: by the name that stands in the sentence's double braces
    names: words of the user that go into the sentence; they are data, never markup. A Said is a part of a sentence.
    """

    phrase: str
    amounts: Mapping[str, Amount] = field(default_factory=lambda: MappingProxyType({}))
    names: Mapping[str, str | Said] = field(default_factory=lambda: MappingProxyType({}))


def say(phrase: str, **parts: Amount | str | Said) -> Said:
    """Return a Said: amounts by name, and the user's own words and parts of the sentence by name."""
    amounts = {key: part for key, part in parts.items() if isinstance(part, Amount)}
    names = {key: part for key, part in parts.items() if not isinstance(part, Amount)}
    return Said(phrase, MappingProxyType(amounts), MappingProxyType(names))


@dataclass(frozen=True)
class Band:
    """A result and how sure it is: low and high from the spread of published coefficients, best in between."""

    low: float
    best: float
    high: float


@dataclass(frozen=True)
class Limit:
    """What a value is held against, in the unit of the value.

    tight: how near the limit the value may be in doubt (a measuring error, room that a careful maker wants to keep)
    source: where the limit comes from (standard, handbook, ``common practice, no source``, ``project file``)
    """

    value: float
    sense: Sense
    tight: float = 0.0
    source: str = PRACTICE

    def find_room(self, value: float) -> float:
        """Return how far a value is inside the limit: negative past it, zero where it is met."""
        room = value - self.value if self.sense == "at least" else self.value - value
        return 0.0 if abs(room) <= MET * max(1.0, abs(self.value)) else room


def decide(value: float | Band, limit: Limit) -> Verdict:
    """Return the verdict on a value or band: the one place that compares a number with its limit."""
    best, ends = (value.best, (value.low, value.high)) if isinstance(value, Band) else (value, (value,))
    room = limit.find_room(best)
    if not room >= 0:  # nor does what is no number fit
        return Verdict.DOES_NOT_FIT
    reached = min(map(limit.find_room, ends)) < 0
    near = room < limit.tight and limit.tight - room > MET
    return Verdict.TIGHT if reached or near else Verdict.FITS


@dataclass(frozen=True)
class Subject:
    """What a finding speaks of, or what a cut part is and where it goes.

    kind: ``pail`` is a port's collar and ring, ``port`` its hole and where that stands; ``part`` any part by its name
    name: the user's own or the part's; empty where there is only one of the kind
    """

    kind: Literal["part", "panel", "port", "pail", "inlet", "machine", "run", "blower", "filters", "gauge", "shop"]
    name: str = ""


@dataclass(frozen=True, kw_only=True)
class Finding:
    """One result held against its limit. Made by `hold` and `tell` alone.

    key: steady dotted key for machines, for example ``flow.planer`` or ``hole.filter A``; nothing is read out of it
    what: what was looked at, in a few words of the trade
    low, high: the band of the value where it has one
    source: where the limit comes from
    topic: the head it is listed under; subjects: what it speaks of, all of them
    tried: other ducts and filters were tried for what mends it
    leans: dotted paths of the values it leans on that nobody measured
    """

    key: str
    what: Said
    verdict: Verdict
    why: Said
    value: Amount | None = None
    low: Amount | None = None
    high: Amount | None = None
    limit: Amount | None = None
    sense: Sense = "at most"
    mends: tuple[Said, ...] = ()
    source: str = ""
    topic: Topic = "other"
    subjects: tuple[Subject, ...] = ()
    tried: bool = False
    leans: tuple[str, ...] = ()

    @property
    def margin(self) -> float | None:
        """Room left before the limit, as a fraction of the limit; negative when it is passed, never minus zero."""
        if self.value is None or self.limit is None or self.limit.value == 0:
            return None
        return Limit(self.limit.value, self.sense).find_room(self.value.value) / abs(self.limit.value) + 0.0


def hold(
    key: str,
    what: Said,
    value: float | Band,
    limit: Limit,
    why: Said,
    *,
    topic: Topic,
    kind: Kind = "length_mm",
    subjects: tuple[Subject, ...] = (),
    mends: tuple[Said, ...] = (),
    eases: tuple[Said, ...] = (),
    fine: bool = False,
    tried: bool = False,
) -> Finding:
    """Return the finding of a value, or of a band, against its limit.

    mends: kept where the limit is missed; eases: kept where it is tight too; fine: see Amount
    """
    verdict = decide(value, limit)
    best = value.best if isinstance(value, Band) else value
    fine = fine or (kind == "length_mm" and -HAIR_MM < limit.find_room(best) < 0)

    def amount(number: float) -> Amount:
        return Amount(round(number, 9) if kind == "length_mm" else number, kind, fine)

    kept = {Verdict.FITS: (), Verdict.TIGHT: eases, Verdict.DOES_NOT_FIT: (*mends, *eases)}[verdict]
    return Finding(
        key=key, what=what, verdict=verdict, why=why, value=amount(best),
        low=amount(value.low) if isinstance(value, Band) else None,
        high=amount(value.high) if isinstance(value, Band) else None,
        limit=amount(limit.value), sense=limit.sense, mends=tuple(_lean_up(mend) for mend in kept),
        source=limit.source, topic=topic, subjects=subjects, tried=tried,
    )  # fmt: skip


def tell(
    key: str,
    what: Said,
    why: Said,
    verdict: Verdict = Verdict.FITS,
    *,
    topic: Topic,
    value: float | Band | None = None,
    kind: Kind = "length_mm",
    subjects: tuple[Subject, ...] = (),
    mends: tuple[Said, ...] = (),
    source: str = PRACTICE,
) -> Finding:
    """Return the finding of what no number decides: a statement, something to do or to look at. It has no limit.

    verdict: tight for what must be done or looked at first, does not fit for what cannot work as drawn
    """
    band = value if isinstance(value, Band) else None
    best = value.best if isinstance(value, Band) else value
    return Finding(
        key=key, what=what, verdict=verdict, why=why, value=None if best is None else Amount(best, kind),
        low=Amount(band.low, kind) if band else None, high=Amount(band.high, kind) if band else None,
        mends=mends, source=source, topic=topic, subjects=subjects,
    )  # fmt: skip


def _lean_up(mend: Said) -> Said:
    """Return a mend whose lengths are rounded up when written: rounded to the nearest, they might not mend."""
    amounts = {
        key: replace(amount, toward="up") if amount.kind == "length_mm" and not amount.toward else amount
        for key, amount in mend.amounts.items()
    }
    return replace(mend, amounts=amounts)


def find_worst(findings: Iterable[Finding]) -> Verdict:
    """Return the worst verdict among the findings (``fits`` when there are none)."""
    order = [Verdict.FITS, Verdict.TIGHT, Verdict.DOES_NOT_FIT]
    return max((f.verdict for f in findings), key=order.index, default=Verdict.FITS)

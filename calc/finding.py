"""Findings: what was looked at, its value and limit, the verdict, why it matters and what mends it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType
from typing import Literal

from calc.measures.quantity import Kind


class Verdict(StrEnum):
    FITS = "fits"
    TIGHT = "tight"
    DOES_NOT_FIT = "does not fit"


@dataclass(frozen=True)
class Amount:
    """A number in the base unit of its kind (SI; lengths in the unit the kind's name ends with).

    fine: a length too small for fractions, to be written in thousandths of an inch or hundredths of a millimetre
    toward: a length that must not be written smaller (``up``) or larger (``down``) than it is, for a mend
    """

    value: float
    kind: Kind
    fine: bool = False
    toward: Literal["", "up", "down"] = ""


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
class Finding:
    """One result held against its limit.

    key: steady dotted key for machines, for example ``flow.planer`` or ``hole.filter A``
    what: what was looked at, in a few words of the trade
    low, high: the band of the value where it has one
    sense: ``at least``, ``at most`` or ``within`` (then limit is the nearer end)
    source: where the limit comes from (standard, handbook, ``common practice, no source``, ``project file``)
    part: name of the part or port whose template page it concerns, if any
    """

    key: str
    what: Said
    verdict: Verdict
    why: Said
    value: Amount | None = None
    low: Amount | None = None
    high: Amount | None = None
    limit: Amount | None = None
    sense: str = "at most"
    mends: tuple[Said, ...] = ()
    source: str = ""
    part: str | None = None

    @property
    def margin(self) -> float | None:
        """Room left before the limit, as a fraction of the limit; negative when it is passed."""
        if self.value is None or self.limit is None or self.limit.value == 0:
            return None
        over = (self.value.value - self.limit.value) / abs(self.limit.value)
        return (over if self.sense == "at least" else -over) + 0.0  # never minus zero


def find_worst(findings: tuple[Finding, ...]) -> Verdict:
    """Return the worst verdict among the findings (``fits`` when there are none)."""
    order = [Verdict.FITS, Verdict.TIGHT, Verdict.DOES_NOT_FIT]
    return max((f.verdict for f in findings), key=order.index, default=Verdict.FITS)

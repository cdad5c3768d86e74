"""What another choice would give: rows of the choice tables, and remedies."""

from __future__ import annotations

from dataclasses import dataclass

from calc.finding import Amount, Said, Verdict


@dataclass(frozen=True)
class FilterChoice:
    """The shop with this many filters of the first kind. hours: between cleanings, None when never."""

    count: int
    flow_m3s: float
    face_speed_ms: float
    reading_pa: float
    hours: float | None
    machines_short: int
    is_design: bool


@dataclass(frozen=True)
class TrunkChoice:
    """The shop with its main runs at another diameter; worst machine alone.

    runs_settling: main runs in which dust settles with one gate or another open alone
    """

    diameter_m: float
    machine: str
    flow_m3s: float
    needs_m3s: float
    speed_ms: float
    limit_ms: float
    loss_pa: float
    machines_short: int
    runs_settling: int
    is_design: bool


@dataclass(frozen=True)
class HoseChoice:
    """A machine alone with its hose as it is, and with the hose shortened."""

    machine: str
    length_m: float
    shorter_m: float
    flow_m3s: float
    flow_shorter_m3s: float


@dataclass(frozen=True)
class Remedy:
    """A single change that mends a finding and breaks nothing else, found by running the model again."""

    finding: str
    what: Said
    before: Amount
    after: Amount
    verdict: Verdict

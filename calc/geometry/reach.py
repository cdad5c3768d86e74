"""How far an arm must reach from the inspection opening to every other opening and fitting."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Target:
    """Something to be reached; reach_mm: straight line from the middle of the inspection opening's edge nearest it."""

    name: str
    reach_mm: float
    can: bool


@dataclass(frozen=True)
class Reach:
    """opening_mm: clear bore of the inspection opening; limit_mm: arm's reach through it; None: no such opening."""

    port: str | None
    opening_mm: float
    limit_mm: float
    targets: tuple[Target, ...]

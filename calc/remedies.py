"""Remedies."""

from __future__ import annotations

from calc.checks import Check
from calc.results import Remedy
from calc.scenarios import Solved
from calc.system import System
from calc.velocities import Limits


def find_remedies(system: System, limits: Limits, solved: list[Solved], checks: dict[str, Check]) -> tuple[Remedy, ...]:
    return ()

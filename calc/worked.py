"""Worked calculations."""

from __future__ import annotations

from calc.results import Sizing, Worked
from calc.system import System


def work_out(system: System, sizing: Sizing) -> tuple[Worked, ...]:
    return ()

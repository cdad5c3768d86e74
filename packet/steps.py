"""The plan of work: every step of the job, chosen by the project's options and put in an order that works."""

from __future__ import annotations

from typing import TYPE_CHECKING

from packet.steps_model import Caution, HoldPoint, Line, Plan, Slot, Step, Term, Use

if TYPE_CHECKING:
    from calc.geometry.design import Design
    from calc.project import Project
    from calc.sizing import Sizing
    from packet.bill import Bill

__all__ = ["Caution", "HoldPoint", "Line", "Plan", "Slot", "Step", "Term", "Use", "plan_steps"]


def plan_steps(project: Project, sizing: Sizing, design: Design, bill: Bill) -> Plan:
    """Return the whole job as steps in order, with cautions, times and the two-person schedule.

    Raises packet.words.BadWords when a step file is at fault (unknown id, a ring of steps, an unfilled word).
    """
    raise NotImplementedError

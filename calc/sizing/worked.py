"""Worked calculations: every formula used, with the numbers of the worst machine put in, to follow with a pencil."""

from __future__ import annotations

from calc.airflow.system import System
from calc.results import Sizing, Worked
from calc.sizing.worked_air import work_air
from calc.sizing.worked_blower import work_blower
from calc.sizing.worked_ducts import work_ducts
from calc.sizing.worked_filters import work_filters
from calc.sizing.worked_room import work_room
from calc.sizing.worked_terms import OF_AIR, OF_BLOWER, OF_DUCTS, OF_FILTERS, OF_GAUGE, OF_ROOM


def work_out(system: System, sizing: Sizing) -> tuple[Worked, ...]:
    """Return all worked calculations, subject by subject."""
    ducts: list[Worked] = work_ducts(system, sizing)
    blower, filters = work_blower(system, sizing), work_filters(system, sizing)
    ordered = [*work_air(system), *ducts, *blower, *filters, *work_room(system, sizing)]
    subjects = (OF_AIR, OF_DUCTS, OF_BLOWER, OF_FILTERS, OF_GAUGE, OF_ROOM)
    return tuple(sorted(ordered, key=lambda w: subjects.index(w.subject)))

"""Where ducts meet: the wyes and tees to buy."""

from __future__ import annotations

from dataclasses import dataclass

from calc.airflow.completing import (
    find_main_size,
    find_pickup_end,
    find_straight_pickup,
    get_start,
    keep_moved_once,
    list_entries,
)
from calc.airflow.stretches import ROOT
from calc.project import Project


@dataclass(frozen=True)
class Meeting:
    """A wye or tee; main_m, branch_m: its diameters [m]."""

    kind: str
    main_m: float
    branch_m: float
    angle_deg: float


def list_meetings(project: Project) -> tuple[Meeting, ...]:
    """Return the wyes and tees of completed ducts: one where a run or machine enters another run or the separator's
    inlet by a branch, and one where a machine's own pickups come together. What goes straight on needs none."""
    found = []
    for into in (ROOT, *(run.name for run in project.runs)):
        main = find_main_size(project, into)
        found += [
            Meeting(entry.owner.join.kind, main, entry.end_m or main, entry.owner.join.angle_deg)
            for entry in list_entries(project, into)
            if entry.is_branch
        ]
    for machine in keep_moved_once(project):
        straight, join = find_straight_pickup(machine), machine.pickups_join
        if straight is None:
            continue
        into_m = max(get_start(machine.pieces), find_pickup_end(straight))
        found += [
            Meeting(join.kind, into_m, find_pickup_end(each), join.angle_deg)
            for each in machine.pickups
            if each is not straight
        ]
    return tuple(found)

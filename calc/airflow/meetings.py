"""Where ducts meet: wyes and tees, the reducers that the file leaves out, the piece that stops the blower's shake."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from calc.airflow.items import get_ends
from calc.project import Hose, Join, Machine, Piece, Project, Run, System

SAME = 0.01
"""Diameters within this share of each other need no reducer: the sizing counts no step there either."""

FLEXIBLE_M: dict[System, float] = {"inch": 0.3048, "metric": 0.3}
"""Length of the flexible piece that keeps the blower's shake off the box (common practice, no source)."""


@dataclass(frozen=True)
class Meeting:
    """A wye or tee; main_m, branch_m: its diameters [m]."""

    kind: str
    main_m: float
    branch_m: float
    angle_deg: float


@dataclass(frozen=True)
class DiameterStep:
    """Two pieces of unlike diameter [m] that meet with nothing between them, in the direction of the air."""

    from_m: float
    to_m: float


@dataclass(frozen=True)
class _Entry:
    """What enters the upstream end of a run: its join and the diameter [m] it comes with."""

    join: Join
    end_m: float


def list_meetings(project: Project) -> tuple[Meeting, ...]:
    """Return the wyes and tees to buy: one where a run or machine enters another run by a branch, and one where a
    machine's own ports come together. What comes last on a run enters its end straight and needs none."""
    found = []
    for run in project.runs:
        main = _get_start(run.pieces)
        found += [
            Meeting(entry.join.kind, main, entry.end_m or main, entry.join.angle_deg)
            for entry in _split_entries(project, run)[0]
        ]
    for machine in project.machines:
        ends = sorted(_find_pickup_ends(machine), reverse=True)
        into = max(_get_start(machine.pieces), ends[0] if ends else 0.0)
        join = Join()  # the sizing joins ports of one machine so
        found += [Meeting(join.kind, into, end, join.angle_deg) for end in ends[1:]]
    return tuple(found)


def list_steps(project: Project) -> tuple[DiameterStep, ...]:
    """Return every step of diameter that takes a reducer which the file does not list; a wye has its own sizes."""
    found: list[DiameterStep] = []
    for machine in keep_moved_once(project):
        for pickup, end in zip(machine.pickups, _find_pickup_ends(machine), strict=True):
            found += _walk([_even(pickup.hood.diameter_m), *_list_ends(pickup.pieces)])
            if machine.pieces and end == max(_find_pickup_ends(machine)):  # the widest goes straight on
                found += _walk([_even(end), _even(_get_start(machine.pieces))])
        found += _walk(_list_ends(machine.pieces))
        found += _walk([_even(_find_duct_end(machine)), _even(machine.gate.diameter_m)]) if machine.gate else []
    for run in project.runs:
        found += _walk(_list_ends(run.pieces))
        for end in dict.fromkeys(entry.end_m for entry in _split_entries(project, run)[1]):
            found += _walk([_even(end), _even(_get_start(run.pieces))])
    return (*found, *_list_tail_steps(project))


def find_flexible(project: Project) -> Hose | None:
    """Return the flexible piece to put at the blower where the way from it to the box has no hose; else None."""
    way = project.delivery if project.box.side == "pressure" or project.delivery else project.link
    if any(isinstance(piece, Hose) for piece in way):
        return None
    start = _get_start(project.delivery)
    return Hose(start or project.blower.outlet_m, FLEXIBLE_M[project.display.system])


def keep_moved_once(project: Project) -> list[Machine]:
    """Return the machines to count: of those that go straight onto one run without a gate, and with the same pieces,
    only the first. Only one of them can be on it at a time: it is one hose, moved by hand."""
    moved = find_moved(project)
    return [machine for machine in project.machines if machine.name not in moved]


def find_moved(project: Project) -> dict[str, str]:
    """Return the machines that another's hose is moved to by hand, each with the name of that other."""
    moved: dict[str, str] = {}
    seen: dict[tuple[str, tuple[Piece, ...], tuple[tuple[Piece, ...], ...]], str] = {}
    for machine in project.machines:
        if machine.join.kind == "straight" and machine.gate is None:
            key = (machine.on, machine.pieces, tuple(pickup.pieces for pickup in machine.pickups))
            first = seen.setdefault(key, machine.name)
            if first != machine.name:
                moved[machine.name] = first
    return moved


def _list_entries(project: Project, run: Run) -> list[_Entry]:
    entries = [_Entry(each.join, _get_end(each.pieces)) for each in project.runs if each.into == run.name]
    entries += [
        _Entry(machine.join, machine.gate.diameter_m if machine.gate else _find_duct_end(machine))
        for machine in project.machines
        if machine.on == run.name
    ]
    return entries


def _split_entries(project: Project, run: Run) -> tuple[list[_Entry], list[_Entry]]:
    """Return what enters a run by a branch, and what goes straight into its end: where the file tells of nothing that
    does, the one nearest the run's own size, for a run is open at its end until something is put there."""
    entries = _list_entries(project, run)
    branches = [entry for entry in entries if entry.join.kind != "straight"]
    straight = [entry for entry in entries if entry.join.kind == "straight"]
    if branches and not straight:
        main = _get_start(run.pieces)
        last = min(range(len(branches)), key=lambda index: abs(branches[index].end_m - main))
        straight.append(branches.pop(last))
    return branches, straight


def _list_tail_steps(project: Project) -> list[DiameterStep]:
    """Return the steps from the separator to the box, as the sizing meets them."""
    blower, inlet = project.blower, _even(project.box.inlet.diameter_mm / 1000)
    link, delivery, into_blower = _list_ends(project.link), _list_ends(project.delivery), _even(blower.inlet_m)
    # a separator makes its own change of size; without one the main's end meets what follows
    root = max((_get_end(run.pieces) for run in project.runs if run.into == "separator"), default=0.0)
    before = _even(root if project.separator.kind == "none" else 0.0)
    if project.box.side == "suction":
        return [*_walk([before, *link, inlet]), *_walk([*delivery, into_blower])]
    return [*_walk([before, *link, into_blower]), *_walk([_even(blower.outlet_m), *delivery, inlet])]


def _walk(ends: Iterable[tuple[float, float]]) -> list[DiameterStep]:
    """Return the steps between pieces that follow each other, each given as its diameters [m] where air enters and
    leaves; a piece of no diameter is not there."""
    there = [pair for pair in ends if pair[0]]
    return [
        DiameterStep(before, after)
        for (_, before), (after, _) in pairwise(there)
        if abs(after - before) > SAME * before
    ]


def _list_ends(pieces: tuple[Piece, ...]) -> list[tuple[float, float]]:
    return [get_ends(piece) for piece in pieces]


def _even(diameter_m: float | None) -> tuple[float, float]:
    return diameter_m or 0.0, diameter_m or 0.0


def _get_start(pieces: tuple[Piece, ...]) -> float:
    return get_ends(pieces[0])[0] if pieces else 0.0


def _get_end(pieces: tuple[Piece, ...]) -> float:
    return get_ends(pieces[-1])[1] if pieces else 0.0


def _find_pickup_ends(machine: Machine) -> list[float]:
    return [_get_end(pickup.pieces) or pickup.hood.diameter_m for pickup in machine.pickups]


def _find_duct_end(machine: Machine) -> float:
    return _get_end(machine.pieces) or max(_find_pickup_ends(machine), default=0.0)

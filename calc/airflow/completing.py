"""Completes the ducts of a project: what the file leaves out and the shop needs all the same.

The last duct of a run goes straight into its end and takes no wye; a flexible piece keeps the blower's shake off the
box; where pieces of unlike size meet, a reducer stands between them, counted as a sudden step since nobody told its
taper. Sizing, bill, drawings and steps all read the ducts as completed here, so they count the same fittings.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import chain
from typing import TypeVar

from calc.airflow.items import get_ends
from calc.airflow.stretches import ROOT
from calc.project import Aired, Hose, Join, Machine, Pickup, Piece, Run, System, Taper

SAME = 0.01
"""Diameters within this share of each other need no reducer: a hose goes over, a pipe is crimped into the next."""

FLEXIBLE_M: dict[System, float] = {"inch": 0.3048, "metric": 0.3}
"""Length of the flexible piece that keeps the blower's shake off the box (common practice, no source)."""

STRAIGHT = Join("straight", 0.0)

AnyProject = TypeVar("AnyProject", bound=Aired)


@dataclass(frozen=True)
class Entering:
    """What enters the upstream end of a run: its join and the diameter [m] it comes with."""

    owner: Run | Machine
    end_m: float

    @property
    def is_branch(self) -> bool:
        """Whether it enters by a wye or tee."""
        return self.owner.join.kind != "straight"


def complete_ducts(project: AnyProject) -> AnyProject:
    """Return the project with the last duct of each run straight, the flexible piece and the reducers put in.

    A project that is complete comes back as it is.
    """
    project = _settle_joins(project)
    flexible = find_flexible(project)
    if flexible:
        project = replace(project, delivery=(flexible, *project.delivery))
    starts = {run.name: get_start(run.pieces) for run in project.runs}
    return replace(
        project,
        runs=tuple(complete_run(run, starts.get(run.into, 0.0)) for run in project.runs),
        machines=tuple(complete_machine(machine, starts.get(machine.on, 0.0)) for machine in project.machines),
        link=_complete_link(project),
        delivery=join_sizes(project.delivery, project.blower.outlet_m, project.inlet_m or 0.0),
    )


def complete_run(run: Run, into_m: float) -> Run:
    """Return a run with its reducers; into_m: diameter [m] of the run it joins, 0 for the separator."""
    return replace(run, pieces=join_sizes(run.pieces, 0.0, into_m if run.join.kind == "straight" else 0.0))


def complete_machine(machine: Machine, into_m: float) -> Machine:
    """Return a machine with its reducers; into_m: diameter [m] of the run it is on."""
    widest = find_straight_pickup(machine)
    start = get_start(_drop_left_out(machine.pieces))
    pickups = tuple(
        replace(each, pieces=join_sizes(each.pieces, each.hood.diameter_m, start if each is widest else 0.0))
        for each in machine.pickups
    )
    end = find_pickup_end(widest) if widest else 0.0
    straight_m = into_m if machine.join.kind == "straight" else 0.0
    gate_m = machine.gate.diameter_m if machine.gate else 0.0
    pieces = join_sizes(machine.pieces, start or end, gate_m or straight_m)
    behind = join_sizes((), gate_m, straight_m) if gate_m else ()
    return replace(machine, pickups=pickups, pieces=pieces, behind_gate=behind)


def join_sizes(pieces: Iterable[Piece], entering_m: float, leaving_m: float) -> tuple[Piece, ...]:
    """Return pieces with a reducer wherever two of unlike size meet; 0: what comes before or behind has no size."""
    joined: list[Piece] = []
    before = entering_m
    for piece in _drop_left_out(pieces):
        enters, leaves = get_ends(piece)
        joined += _step(before, enters)
        joined.append(piece)
        before = leaves
    return (*joined, *_step(before, leaving_m))


def find_straight_pickup(machine: Machine) -> Pickup | None:
    """Return the pickup of a machine that goes straight on where they meet: the widest, the first of several alike."""
    # to the tenth of a millimetre: a size typed in inches and the same in millimetres are one
    return max(machine.pickups, key=lambda each: round(find_pickup_end(each), 4), default=None)


def find_pickup_end(pickup: Pickup) -> float:
    """Return the diameter [m] a pickup's ducts end with, before any reducer that the file leaves out."""
    return get_end(_drop_left_out(pickup.pieces)) or pickup.hood.diameter_m


def list_entries(project: Aired, into: str) -> tuple[Entering, ...]:
    """Return what enters a run, or the separator: runs first, each kind in the file's order; a hose that is moved by
    hand once."""
    runs = [Entering(run, get_end(_drop_left_out(run.pieces))) for run in project.runs if run.into == into]
    machines = [each for each in keep_moved_once(project) if each.on == into]
    return (*runs, *(Entering(each, _find_machine_end(each)) for each in machines))


def keep_moved_once(project: Aired) -> list[Machine]:
    """Return the machines to count: of those of one run that share a hose moved by hand only the first, for it is one
    hose, and one gate."""
    moved = find_moved(project)
    return [machine for machine in project.machines if machine.name not in moved]


def find_moved(project: Aired) -> dict[str, str]:
    """Return the machines that another's hose is moved to by hand, each with the name of that other."""
    first: dict[str, str] = {}
    sharing = [machine for machine in project.machines if machine.moved]
    return {each.name: name for each in sharing if (name := first.setdefault(each.on, each.name)) != each.name}


def find_main_size(project: Aired, into: str) -> float:
    """Return the diameter [m] of a run at its upstream end; of the separator's inlet, the widest duct that goes in."""
    if into == ROOT:
        return max((entry.end_m for entry in list_entries(project, ROOT)), default=0.0)
    return get_start(_drop_left_out(project.get_run(into).pieces))


def find_flexible(project: Aired) -> Hose | None:
    """Return the flexible piece to put at the blower where the way from it to the box has no hose; else None."""
    if any(isinstance(piece, Hose) for piece in project.delivery):
        return None
    start = get_start(_drop_left_out(project.delivery)) or project.blower.outlet_m
    return Hose(start, FLEXIBLE_M[project.display.system], left_out=True)


def get_start(pieces: tuple[Piece, ...]) -> float:
    """Return the diameter [m] at which air enters a chain of pieces; 0 for none."""
    return get_ends(pieces[0])[0] if pieces else 0.0


def get_end(pieces: tuple[Piece, ...]) -> float:
    """Return the diameter [m] at which air leaves a chain of pieces; 0 for none."""
    return get_ends(pieces[-1])[1] if pieces else 0.0


def _settle_joins(project: AnyProject) -> AnyProject:
    """Return the project with one duct straight into the end of each run that has none.

    Where the file tells of none it is the one nearest the run's own size, for a run is open at its end until something
    is put there; of several alike a run before a machine, and the last in the file, as one lists them on the way out.
    """
    straight: set[str] = set()  # owners by kind and name, for a run and a machine may share one
    for into in (ROOT, *(run.name for run in project.runs)):
        entries = list_entries(project, into)
        if entries and all(entry.is_branch for entry in entries):
            main = find_main_size(project, into)
            ranked = [(round(abs(e.end_m - main), 4), isinstance(e.owner, Machine), -n) for n, e in enumerate(entries)]
            straight.add(_name_owner(entries[ranked.index(min(ranked))].owner))
    if not straight:
        return project
    return replace(
        project,
        runs=tuple(replace(r, join=STRAIGHT) if _name_owner(r) in straight else r for r in project.runs),
        machines=tuple(replace(m, join=STRAIGHT) if _name_owner(m) in straight else m for m in project.machines),
    )


def _name_owner(owner: Run | Machine) -> str:
    if isinstance(owner, Machine) and owner.moved:
        return f"hose on {owner.on}"  # all machines that share it enter alike
    return f"{type(owner).__name__} {owner.name}"


def _complete_link(project: Aired) -> tuple[Piece, ...]:
    """Return the pieces from separator to blower: a separator makes its own change of size, without one the main's
    end meets what follows."""
    root = find_main_size(project, ROOT) if project.separator.kind == "none" else 0.0
    return join_sizes(project.link, root, project.blower.inlet_m or 0.0)


def _find_machine_end(machine: Machine) -> float:
    if machine.gate:
        return machine.gate.diameter_m
    own = get_end(_drop_left_out(machine.pieces))
    return own or max(map(find_pickup_end, machine.pickups), default=0.0)


def _step(before_m: float, after_m: float) -> list[Piece]:
    if before_m and after_m and abs(after_m - before_m) > SAME * before_m:
        return [Taper(before_m, after_m, None, left_out=True)]
    return []


def _drop_left_out(pieces: Iterable[Piece]) -> tuple[Piece, ...]:
    return tuple(piece for piece in pieces if not (isinstance(piece, Taper) and piece.left_out))


def list_left_out(project: Aired) -> tuple[tuple[str, Taper], ...]:
    """Return every reducer that the file leaves out, with the name of the machine or run it is on; empty name: between
    separator, blower and box."""
    owned = [
        *((machine.name, machine.all_pieces) for machine in project.machines),
        *((run.name, run.pieces) for run in project.runs),
        ("", tuple(chain(project.link, project.delivery))),
    ]
    return tuple(
        (name, piece) for name, pieces in owned for piece in pieces if isinstance(piece, Taper) and piece.left_out
    )

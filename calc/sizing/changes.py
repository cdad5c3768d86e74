"""Single changes of ducts and filters that may mend a finding, each with what it does to a project or to one machine.

The least disturbing come first: a hose shortened, a port or a drop changed, filters added, a run changed, an elbow
less, a run shorter.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import partial

from calc.airflow.items import size_of
from calc.airflow.system import System
from calc.airflow.velocities import Limits
from calc.finding import Amount, Said, say
from calc.project import Aired, Elbow, Hose, Machine, Pickup, Piece, Pipe, Run, Throat
from calc.sizing.choices import (
    change_filters,
    change_runs,
    list_sizes,
    measure_hoses,
    pick_kind,
    resize_piece,
    shorten_hoses,
)

SHORTER = 0.75  # of its pipes: what is left of a run laid a shorter way
LEAST_PIPE_M = 1.2  # a run with less pipe than this has no shorter way
LEAST_TURN = 30.0  # degrees: an elbow that turns less is no detour


@dataclass(frozen=True, kw_only=True)
class Change:
    """A single change, to the whole project or to one machine.

    machine: the machine that alone is changed, by at_machine; everywhere: the change of anything else
    knob: what is turned; two changes of one knob are no pair
    """

    what: Said
    knob: tuple[str, ...]
    machine: str = ""
    at_machine: Callable[[Machine], Machine] | None = None
    everywhere: Callable[[Aired], Aired] | None = None
    more_media: bool = False

    def apply(self, project: Aired) -> Aired:
        """Return the project with the change."""
        if self.everywhere is not None:
            return self.everywhere(project)
        return replace(project, machines=tuple(self.change_machine(machine) for machine in project.machines))

    def change_machine(self, machine: Machine) -> Machine:
        """Return the machine with the change, another one as it is."""
        assert self.at_machine is not None
        return self.at_machine(machine) if machine.name == self.machine else machine

    def clashes(self, other: Change) -> bool:
        """Tell whether two changes turn the same thing: one drop up and down, all runs and one of them."""
        return all(ours == theirs for ours, theirs in zip(self.knob, other.knob, strict=False))


def _pick_size(project: Aired, size_m: float, step: int) -> float | None:
    """Return the next duct size [m] up (1) or down (-1); None at the end of the list."""
    sizes = list_sizes(project)
    bigger = [s for s in sizes if s > size_m + 1e-3]
    smaller = [s for s in sizes if s < size_m - 1e-3]
    if step > 0:
        return min(bigger, default=None)
    return max(smaller, default=None)


def resize_drop(machine: Machine, from_m: float, to_m: float) -> Machine:
    """Return a machine whose hoods, hose and pipe of one diameter have another. The gate stays."""

    def change(piece: Piece) -> Piece:
        if isinstance(piece, Throat) and abs(piece.diameter_m - from_m) < 1e-4:
            return replace(piece, diameter_m=to_m)
        return resize_piece(piece, from_m, to_m)

    def change_pickup(pickup: Pickup) -> Pickup:
        hood = pickup.hood
        if abs(hood.diameter_m - from_m) < 1e-4:
            hood = replace(hood, diameter_m=to_m)
        return replace(pickup, hood=hood, pieces=tuple(change(piece) for piece in pickup.pieces))

    return replace(
        machine,
        pieces=tuple(change(piece) for piece in machine.pieces),
        pickups=tuple(change_pickup(pickup) for pickup in machine.pickups),
    )


def list_machine_changes(project: Aired, machine: Machine) -> Iterable[Change]:
    """Return what can be changed at one machine: half the hose, a wider port, a drop one size up or down."""
    name, length = machine.name, measure_hoses(machine)
    if length > 0.6:
        hoses = sum(isinstance(p, Hose) for p in machine.all_pieces)
        what = say(
            "remedies.shorten_hose" if hoses == 1 else "remedies.shorten_hoses", machine=name,
            before=Amount(length, "length_m"), after=Amount(length / 2, "length_m"),
        )  # fmt: skip
        yield Change(what=what, knob=(name, "hose"), machine=name, at_machine=lambda one: shorten_hoses(one, 0.5))
    pieces = machine.all_pieces
    throats = sorted({p.diameter_m for p in pieces if isinstance(p, Throat)})
    for throat in throats:
        wider = _pick_size(project, throat, 1)
        if wider:
            what = say("remedies.widen_port", machine=name, before=size_of(throat), after=size_of(wider))
            yield _resize_drop(what, name, throat, wider)
    ducts = sorted({p.diameter_m for p in pieces if isinstance(p, Pipe | Hose)})
    for size in ducts:
        for step in (1, -1):
            other = _pick_size(project, size, step)
            if other:
                what = say("remedies.resize_drop", machine=name, before=size_of(size), after=size_of(other))
                yield _resize_drop(what, name, size, other)


def _resize_drop(what: Said, name: str, from_m: float, to_m: float) -> Change:
    """Return the change of all of a machine's drop that has one diameter."""
    knob = (name, "size", f"{from_m:.4f}")
    return Change(what=what, knob=knob, machine=name, at_machine=lambda one: resize_drop(one, from_m, to_m))


def list_shop_changes(system: System, limits: Limits, runs: list[str]) -> Iterable[Change]:
    """Return what can be changed for all: more filters, these runs one by one or all runs, a size up or down."""
    project = system.project
    count = pick_kind(project).count
    for more in (1, 2):
        yield _add_filters(count + more)
    straight = [r.name for r in project.runs if any(isinstance(p, Pipe | Hose) for p in r.pieces)]
    for name in runs:
        for step in (-1, 1):
            size = _pick_size(project, limits.widest[name], step)
            if size and name in straight:
                what = say("remedies.resize_run", run=name, after=size_of(size))
                yield _resize_runs(what, ("runs", name), frozenset({name}), size)
    widest = {limits.widest[name] for name in straight}
    if len(straight) > 1 and max(widest, default=0) - min(widest, default=0) < 1e-3:
        for step in (-1, 1):
            size = _pick_size(project, max(widest), step)
            if size:
                what = say("remedies.resize_all_runs", after=size_of(size))
                yield _resize_runs(what, ("runs",), frozenset(straight), size)


def _add_filters(count: int) -> Change:
    what = say("remedies.more_filters", count=Amount(float(count), "count"))
    more = partial(change_filters, count=count)
    return Change(what=what, knob=("filters",), everywhere=more, more_media=True)


def _resize_runs(what: Said, knob: tuple[str, ...], names: frozenset[str], size: float) -> Change:
    return Change(what=what, knob=knob, everywhere=lambda project: change_runs(project, names, size))


Relay = Callable[[tuple[Piece, ...]], tuple[Piece, ...]]
"""Another way for a chain of pieces."""


def list_machine_reroutes(machine: Machine) -> Iterable[Change]:
    """Return the other ways a machine's drop may go: an elbow less, a shorter way for its pipe."""

    def lay(relay: Relay) -> Callable[[Machine], Machine]:
        return lambda one: replace(one, pieces=relay(one.pieces))

    for what, knob, relay in _list_ways(machine.name, machine.pieces):
        yield Change(what=what, knob=(machine.name, knob), machine=machine.name, at_machine=lay(relay))


def list_run_reroutes(project: Aired, runs: list[str]) -> Iterable[Change]:
    """Return the other ways these runs may go: an elbow less, a shorter way."""

    def lay(name: str, relay: Relay) -> Callable[[Aired], Aired]:
        def lay_all(runs: tuple[Run, ...]) -> tuple[Run, ...]:
            return tuple(replace(run, pieces=relay(run.pieces)) if run.name == name else run for run in runs)

        return lambda project: replace(project, runs=lay_all(project.runs))

    for run in project.runs:
        if run.name in runs:
            for what, knob, relay in _list_ways(run.name, run.pieces):
                yield Change(what=what, knob=("way", run.name, knob), everywhere=lay(run.name, relay))


def _list_ways(place: str, pieces: tuple[Piece, ...]) -> Iterable[tuple[Said, str, Relay]]:
    """Return the other ways of a chain of pieces: in words, what is turned, and how."""
    elbow, length = find_elbow(pieces), _measure_pipes(pieces)
    if elbow is not None:
        yield _say_elbow(place, elbow), "elbow", partial(leave_out_elbow, elbow=elbow)
    if length >= LEAST_PIPE_M:
        yield _say_shorter(place, length), "way", shorten_pipes


def _say_elbow(place: str, elbow: Elbow) -> Said:
    turn, size = Amount(elbow.turn_deg, "angle_deg"), size_of(elbow.diameter_m)
    return say("remedies.leave_out_elbow", place=place, turn=turn, diameter=size)


def _say_shorter(place: str, length_m: float) -> Said:
    before, after = Amount(length_m, "length_m"), Amount(SHORTER * length_m, "length_m")
    return say("remedies.shorten_way", place=place, before=before, after=after)


def find_elbow(pieces: tuple[Piece, ...]) -> Elbow | None:
    """Return the elbow that turns most, the one first met of several alike; None where none is worth leaving out."""
    elbows = [piece for piece in pieces if isinstance(piece, Elbow) and piece.turn_deg >= LEAST_TURN]
    return max(elbows, key=lambda piece: piece.turn_deg, default=None)


def leave_out_elbow(pieces: tuple[Piece, ...], elbow: Elbow) -> tuple[Piece, ...]:
    """Return the pieces with one elbow less: of several counted in one line, one; where it stands no more, as they are.

    A change of size may have come first, so the elbow is known by its turn and radius.
    """
    for at, piece in enumerate(pieces):
        if isinstance(piece, Elbow) and (piece.turn_deg, piece.radius_ratio) == (elbow.turn_deg, elbow.radius_ratio):
            left = () if piece.count == 1 else (replace(piece, count=piece.count - 1),)
            return (*pieces[:at], *left, *pieces[at + 1 :])
    return pieces


def _measure_pipes(pieces: tuple[Piece, ...]) -> float:
    """Return the length [m] of all pipe in a chain of pieces."""
    return sum(piece.length_m for piece in pieces if isinstance(piece, Pipe))


def shorten_pipes(pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """Return the pieces with every pipe a quarter shorter."""
    return tuple(
        replace(piece, length_m=SHORTER * piece.length_m) if isinstance(piece, Pipe) else piece for piece in pieces
    )

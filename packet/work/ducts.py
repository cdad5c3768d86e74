"""What the word files may put in about the ducts: runs and machines with their pieces, numbered for the pictures."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.airflow.completing import find_moved
from calc.project import Aired, Elbow, Hose, OpenGate, OtherPart, Piece, Pipe, Taper, Throat
from packet.words.word_files import clean_text

if TYPE_CHECKING:
    from calc.results import Sizing
    from packet.work.writer import Writer


@dataclass(frozen=True, kw_only=True)
class PieceFacts:
    kind: str
    diameter: str
    length: str
    turn: str
    count: int
    name: str


@dataclass(frozen=True)
class PickupFacts:
    name: str
    pieces: tuple[PieceFacts, ...]


@dataclass(frozen=True, kw_only=True)
class RunFacts:
    """A run of duct; number: in the list of ducts and in the pictures; join: wye, tee or straight, angle: of a wye."""

    number: str
    name: str
    into: str
    join: str
    angle: str
    pieces: tuple[PieceFacts, ...]


@dataclass(frozen=True, kw_only=True)
class MachineFacts:
    """A machine; number: of its own branch in the list of ducts, empty when it has none.

    same_as: number of the machine whose hose is moved over to it by hand, or empty
    join: wye, tee or straight, angle: of a wye; behind_gate: the reducer there, if one is needed
    """

    number: str
    same_as: str
    name: str
    run: str
    join: str
    angle: str
    gate: str
    behind_gate: tuple[PieceFacts, ...]
    flow: str
    low: str
    need: str
    short: bool
    pieces: tuple[PieceFacts, ...]
    pickups: tuple[PickupFacts, ...]


def number_ducts(project: Aired) -> dict[str, str]:
    """Return the numbers of the list of ducts by ``run trunk`` or ``machine planer``; a machine without a branch of
    its own has none."""
    names = [f"run {run.name}" for run in project.runs]
    for machine in project.machines:
        if machine.all_pieces:
            names.append(f"machine {machine.name}")
    return {name: f"D{number}" for number, name in enumerate(names, start=1)}


def tell_runs(project: Aired, writer: Writer) -> tuple[RunFacts, ...]:
    """Return the runs as the step files name them."""
    numbers = number_ducts(project)
    return tuple(
        RunFacts(
            number=numbers[f"run {run.name}"],
            name=clean_text(run.name),
            into=_name_end(project, run.into),
            join=run.join.kind,
            angle=f"{run.join.angle_deg:g}°",
            pieces=tell_pieces(run.pieces, writer),
        )
        for run in project.runs
    )


def _name_end(project: Aired, into: str) -> str:
    """Return what a run joins: without a separator the last one ends at the blower."""
    return "blower" if into == "separator" and project.separator.kind == "none" else clean_text(into)


def tell_pieces(pieces: tuple[Piece, ...], writer: Writer) -> tuple[PieceFacts, ...]:
    """Return pieces of duct as the step files name them."""
    told = []
    for piece in pieces:
        kind, length, turn, count, name = "other part", "", "", 1, ""
        across = piece.to_m if isinstance(piece, Taper) else piece.diameter_m
        if isinstance(piece, Pipe | Hose):
            kind, length = ("hose" if isinstance(piece, Hose) else "pipe"), writer.amount(piece.length_m, "length_m")
        elif isinstance(piece, Elbow):
            kind, turn, count = "elbow", f"{piece.turn_deg:g}°", piece.count
        elif isinstance(piece, Taper):
            kind, name = ("reducer" if piece.left_out else "taper"), writer.length(piece.from_m * 1000)
        elif isinstance(piece, Throat):
            kind = "machine port"
        elif isinstance(piece, OpenGate):
            kind = "gate"
        elif isinstance(piece, OtherPart):
            name = clean_text(piece.name)
        told.append(
            PieceFacts(
                kind=kind, diameter=writer.length(across * 1000), length=length, turn=turn, count=count, name=name
            )
        )
    return tuple(told)


def is_flexible(piece: Piece) -> bool:
    """Tell whether a piece is the flexible one that the file leaves out."""
    return isinstance(piece, Hose) and piece.left_out


def tell_flexible(project: Aired, writer: Writer) -> PieceFacts | None:
    """Return the flexible piece to put in at the blower, if the file has no hose there."""
    return next(iter(tell_pieces(tuple(filter(is_flexible, project.delivery)), writer)), None)


def tell_machines(project: Aired, sizing: Sizing, writer: Writer) -> list[MachineFacts]:
    """Return the machines as the step files name them."""
    told, numbers, moved = [], number_ducts(project), find_moved(project)
    for machine in project.machines:
        flow = sizing.get_alone(machine.name).get_machine(machine.name)
        told.append(
            MachineFacts(
                number=numbers.get(f"machine {machine.name}", ""),
                same_as=numbers.get(f"machine {moved.get(machine.name)}", ""),
                name=clean_text(machine.name),
                run=clean_text(machine.on),
                join=machine.join.kind,
                angle=f"{machine.join.angle_deg:g}°",
                gate=writer.length(machine.gate.diameter_m * 1000) if machine.gate else "",
                behind_gate=tell_pieces(machine.behind_gate, writer),
                flow=writer.amount(flow.flow.best, "flow_m3s"),
                low=writer.amount(flow.flow.low, "flow_m3s"),
                need=writer.amount(machine.needs_m3s, "flow_m3s"),
                short=flow.flow.best < machine.needs_m3s,
                pieces=tell_pieces(machine.pieces, writer),
                pickups=tuple(
                    PickupFacts(clean_text(pickup.name), tell_pieces(pickup.pieces, writer))
                    for pickup in machine.pickups
                    if pickup.pieces
                ),
            )
        )
    return told

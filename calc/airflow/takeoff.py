"""What the ducts are made of, counted: pipe, hose, elbows, joins, tapers, gates, joints and hangers."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from calc.airflow.completing import (
    complete_ducts,
    find_main_size,
    find_pickup_end,
    find_straight_pickup,
    get_start,
    keep_moved_once,
    list_entries,
)
from calc.airflow.items import get_ends
from calc.airflow.stretches import ROOT
from calc.project import Aired, Elbow, Hose, OpenGate, OtherPart, Piece, Pipe, Taper, Throat

HANGER_APART_M = 2.4
"""A hanger every 8 ft and one at every change of direction (common practice, no source)."""

JOINT_SCREWS = 3
"""Sheet-metal screws a joint (common practice, no source)."""

TAPE_LAPS = 1.1
"""Tape once round each joint and a little over (common practice, no source)."""

LEFT_OUT = "left out"
"""Detail of a reducer that the project file does not list."""


@dataclass(frozen=True)
class Length:
    """So much pipe or hose of one kind; pieces: how many lengths it comes in, in the project file's words."""

    kind: str
    material: str
    diameter_m: float
    length_m: float
    pieces: int


@dataclass(frozen=True, kw_only=True)
class Counted:
    """So many of one fitting; other_m: second diameter (branch of a join, outlet of a taper), else 0."""

    kind: str
    diameter_m: float
    other_m: float
    turn_deg: float
    detail: str
    count: int


@dataclass(frozen=True, kw_only=True)
class Takeoff:
    """joints: ends to be joined and taped; tape_m: tape for them; screws: sheet-metal screws; hangers."""

    pipes: tuple[Length, ...]
    hoses: tuple[Length, ...]
    fittings: tuple[Counted, ...]
    gates: tuple[Counted, ...]
    clamps: tuple[Counted, ...]
    joints: int
    tape_m: float
    screws: int
    hangers: int
    bonding_m: float
    plastic: bool


@dataclass(frozen=True)
class Meeting:
    """A wye or tee; main_m, branch_m: its diameters [m]."""

    kind: str
    main_m: float
    branch_m: float
    angle_deg: float


def list_meetings(project: Aired) -> tuple[Meeting, ...]:
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


@dataclass(frozen=True)
class TakeoffPlace:
    """A stretch of ducting with its name and pieces, and the duct it ends in (0: not into a run)."""

    name: str
    pieces: tuple[Piece, ...]


def list_places(project: Aired) -> tuple[TakeoffPlace, ...]:
    """Return every stretch of duct to make: drops with their pickups, runs, link and delivery; one hose that is moved
    by hand from machine to machine is there once."""
    places = []
    for machine in keep_moved_once(project):
        for pickup in machine.pickups:
            places.append(TakeoffPlace(f"{machine.name}, {pickup.name}", pickup.pieces))
        places.append(TakeoffPlace(machine.name, (*machine.pieces, *machine.behind_gate)))
    places += [TakeoffPlace(run.name, run.pieces) for run in project.runs]
    places += [
        TakeoffPlace("separator to blower", project.link),
        TakeoffPlace("blower to filter box", project.delivery),
    ]
    return tuple(place for place in places if place.pieces)


def take_off(project: Aired) -> Takeoff:
    """Return all ducting counted, completed if it is not. Joints are one an end of each piece, shared ends once."""
    project = complete_ducts(project)
    pieces = [piece for place in list_places(project) for piece in place.pieces]
    pipes = _add_lengths(("pipe", p.material, p.diameter_m, p.length_m) for p in pieces if isinstance(p, Pipe))
    hoses = _add_lengths(("hose", p.wall, p.diameter_m, p.length_m) for p in pieces if isinstance(p, Hose))
    joins = _count_joins(project)
    fittings = _count_fittings(pieces) + joins
    gates = _count(("gate", m.gate.diameter_m, 0.0, 0.0, "") for m in keep_moved_once(project) if m.gate)
    gates += _count(("gate", p.diameter_m, 0.0, 0.0, "") for p in pieces if isinstance(p, OpenGate))
    clamps = _count(("clamp", p.diameter_m, 0.0, 0.0, "") for p in pieces if isinstance(p, Hose) for _ in range(2))
    rigid = [get_ends(p)[1] for p in pieces if not isinstance(p, Hose | Throat | OtherPart)]
    rigid += [get_ends(p)[1] for p in pieces if isinstance(p, Elbow) for _ in range(p.count - 1)]
    rigid += [max(f.diameter_m, f.other_m) for f in joins for _ in range(f.count)]
    hose_m = sum(h.length_m for h in hoses)
    plastic_m = sum(p.length_m for p in pipes if p.material == "pvc")
    hangers = sum(math.ceil(p.length_m / HANGER_APART_M) for p in pipes) + sum(
        f.count for f in fittings if f.kind == "elbow"
    )
    return Takeoff(
        pipes=pipes,
        hoses=hoses,
        fittings=fittings,
        gates=gates,
        clamps=clamps,
        joints=len(rigid),
        tape_m=sum(math.pi * d * TAPE_LAPS for d in rigid),
        screws=JOINT_SCREWS * len(rigid),
        hangers=hangers,
        bonding_m=hose_m + plastic_m,
        plastic=plastic_m > 0,
    )


def _add_lengths(rows: Iterator[tuple[str, str, float, float]]) -> tuple[Length, ...]:
    sums: dict[tuple[str, str, float], tuple[float, int]] = {}
    for kind, material, diameter, length in rows:
        key = (kind, material, round(diameter, 6))
        total, pieces = sums.get(key, (0.0, 0))
        sums[key] = (total + length, pieces + 1)
    return tuple(Length(*key, total, pieces) for key, (total, pieces) in sorted(sums.items()))


def _count(rows: Iterator[tuple[str, float, float, float, str]]) -> tuple[Counted, ...]:
    counts: dict[tuple[str, float, float, float, str], int] = {}
    for kind, diameter, other, turn, detail in rows:
        key = (kind, round(diameter, 6), round(other, 6), turn, detail)
        counts[key] = counts.get(key, 0) + 1
    return tuple(
        Counted(kind=kind, diameter_m=diameter, other_m=other, turn_deg=turn, detail=detail, count=count)
        for (kind, diameter, other, turn, detail), count in sorted(counts.items())
    )


def _count_fittings(pieces: list[Piece]) -> tuple[Counted, ...]:
    elbows = (
        ("elbow", p.diameter_m, 0.0, p.turn_deg, p.make) for p in pieces if isinstance(p, Elbow) for _ in range(p.count)
    )
    steps = [p for p in pieces if isinstance(p, Taper)]
    tapers = (("taper", p.from_m, p.to_m, p.angle_deg or 0.0, LEFT_OUT if p.left_out else "") for p in steps)
    others = (("other", p.diameter_m, 0.0, 0.0, p.name) for p in pieces if isinstance(p, OtherPart))
    return _count(elbows) + _count(tapers) + _count(others)


def _count_joins(project: Aired) -> tuple[Counted, ...]:
    meetings = list_meetings(project)
    return _count((each.kind, each.main_m, each.branch_m, each.angle_deg, "") for each in meetings)

"""The tree of ducts: flows of all open branches found together, by pressure balance, with the blower.

Method: each stretch of duct loses h(Q) of total pressure, rising with its flow; at every joint the total pressure is
one and the flows add up. Newton's steps on all flows at once; as the network is a tree, each step is solved exactly
from the hoods down to the blower and back (no recursion, time in proportion to the open stretches). Shut branches let
leaks in at the pressure of the joint they hang on: their own duct loss is nil at such flows.
Total pressures are taken (ASHRAE Handbook Fundamentals, Duct Design): velocity pressure that a wider duct gives back
is counted only as far as the coefficients say.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from copy import copy

from calc.airflow.chains import SETS, Chain, fold_items
from calc.airflow.completing import (
    complete_machine,
    complete_run,
    find_pickup_end,
    find_straight_pickup,
    get_end,
    get_start,
    keep_moved_once,
)
from calc.airflow.items import Item, get_ends, make_hood_item, make_items, make_join_items, make_piece_item
from calc.airflow.stretches import ROOT, Stretch, name_pickup
from calc.measures.kinds import INH2O_PA
from calc.project import Aired, Machine, OpenGate, Run
from calc.results import ShopAir

# Leakage class: cfm per 100 ft2 of duct at 1 inH2O, with the 0.65 power (SMACNA HVAC Air Duct Leakage Test Manual,
# from memory).
_CLASS_TO_SI = 4.719474432e-4 / 9.290304 / INH2O_PA**0.65


def find_seams(run: Run) -> float:
    """Return the seam leakage of a run as flow over suction^0.65 [m3/s/Pa^0.65], from its leakage class."""
    if not run.leakage_class:
        return 0.0
    area = 0.0
    for piece in run.pieces:
        length = getattr(piece, "length_m", 0.0)
        area += 3.141592653589793 * get_ends(piece)[0] * length
    return float(run.leakage_class * _CLASS_TO_SI * area)


def first_diameter(pieces: Iterable[object], otherwise: float | None = None) -> float:
    """Return the diameter [m] a chain of pieces starts with. Raises ValueError for an empty chain."""
    for piece in pieces:
        return get_ends(piece)[0]  # type: ignore[arg-type]
    if otherwise is None:
        raise ValueError("a run needs at least one piece")
    return otherwise


class Network:
    """A project's ducts, ready to be solved for any set of open gates. Raises ValueError for loops and loose ends."""

    def __init__(self, project: Aired, air: ShopAir) -> None:
        self.air = air
        self.runs: dict[str, Stretch] = {}
        self.machines: dict[str, Stretch] = {}
        self.pickups: dict[str, list[Stretch]] = {}
        self.straight_pickup: dict[str, str] = {}
        self.shut_leak: dict[str, float] = {}
        self.entering: dict[str, float] = {run.name: first_diameter(run.pieces) for run in project.runs}
        self.root_diameter = max((get_ends(r.pieces[-1])[1] for r in project.runs if r.into == ROOT), default=0.15)
        self.entering[ROOT] = self.root_diameter
        for run in project.runs:
            self._add_run(run)
        for machine in project.machines:
            self._add_machine(machine)
        self.unclosed = tuple(m.name for m in project.machines if m.gate is None and not m.moved)
        self.hoses: dict[str, list[str]] = {}
        for machine in project.machines:
            if machine.gate is None and machine.moved:
                self.hoses.setdefault(machine.on, []).append(machine.name)
        self._sum_leaks([machine.name for machine in keep_moved_once(project)])

    def list_drawing(self, opened: Sequence[str]) -> tuple[str, ...]:
        """Return the machines that draw air with these opened: they, and what nothing closes.

        A hose without a gate that is moved by hand draws at one machine always: where none of its own is opened, at
        the first in the file.
        """
        drawing = dict.fromkeys((*opened, *self.unclosed))
        for sharing in self.hoses.values():
            if not any(name in drawing for name in sharing):
                drawing[sharing[0]] = None
        return tuple(drawing)

    def _fold(self, items: list[Item]) -> tuple[Chain, ...]:
        return tuple(fold_items(items, self.air, which) for which in SETS)

    def _add_run(self, run: Run) -> None:
        if run.into not in self.entering:
            raise ValueError(f"run {run.name} goes into {run.into}, which is not there")
        run = complete_run(run, 0.0 if run.into == ROOT else self.entering[run.into])
        items = make_items(run.pieces, run.name)
        join = make_join_items(run.join, get_end(run.pieces), self.entering[run.into], run.name, run.into)
        items += join
        self.runs[run.name] = Stretch(
            name=run.name,
            items=items,
            into=run.into,
            chains=self._fold(items),
            own_seams=find_seams(run),
            join_items=len(join),
        )

    def _add_machine(self, machine: Machine) -> None:
        if machine.on not in self.entering or machine.on == ROOT:
            raise ValueError(f"{machine.name} is on {machine.on}, which is not there")
        machine = complete_machine(machine, self.entering[machine.on])
        straight = find_straight_pickup(machine)
        if straight is None:
            raise ValueError(f"{machine.name} has no pickup")
        end = get_end(machine.pieces) or find_pickup_end(straight)
        pickups: list[Stretch] = []
        for pickup in machine.pickups:
            items = [make_hood_item(pickup.hood, machine.name), *make_items(pickup.pieces, machine.name)]
            if pickup is not straight:
                leaves = find_pickup_end(pickup)
                into = max(get_start(machine.pieces) or find_pickup_end(straight), leaves)
                items += make_join_items(machine.pickups_join, leaves, into, machine.name, machine.name)
            pickups.append(Stretch(name=name_pickup(machine.name, pickup.name), items=items, into=machine.name))
        shared = make_items(machine.pieces, machine.name)
        if machine.gate is not None:
            shared.append(make_piece_item(OpenGate(machine.gate.diameter_m), machine.name))
            shared += make_items(machine.behind_gate, machine.name)
            end = machine.gate.diameter_m
        join = make_join_items(machine.join, end, self.entering[machine.on], machine.name, machine.on)
        shared += join
        if len(pickups) == 1:
            shared = pickups[0].items + shared
            pickups = []
        for pickup_stretch in pickups:
            pickup_stretch.chains = self._fold(pickup_stretch.items)
        self.pickups[machine.name] = pickups
        self.straight_pickup[machine.name] = name_pickup(machine.name, straight.name)
        self.machines[machine.name] = Stretch(
            name=machine.name, items=shared, into=machine.on, chains=self._fold(shared), join_items=len(join)
        )
        self.shut_leak[machine.name] = machine.gate.leak_m2 if machine.gate else 0.0

    def swap_machine(self, machine: Machine) -> Network:
        """Return the network with one machine changed; its gate's leak and its run stay as they were."""
        network = copy(self)
        network.machines, network.pickups = dict(self.machines), dict(self.pickups)
        network.shut_leak, network.straight_pickup = dict(self.shut_leak), dict(self.straight_pickup)
        network._add_machine(machine)
        network.shut_leak = self.shut_leak
        return network

    def _sum_leaks(self, gates: list[str]) -> None:
        """Add up the leaks beyond every joint; also the order of the runs, and the check for loops.

        gates: machines whose gates count, a gate on a hose that is moved by hand once
        """
        waiting = dict.fromkeys(self.runs, 0)
        for run in self.runs.values():
            if run.into != ROOT:
                waiting[run.into] += 1
        for name in gates:
            self.runs[self.machines[name].into].leak_m2 += self.shut_leak[name]
        ready = [name for name, count in waiting.items() if count == 0]
        self.order: list[str] = []
        while ready:
            name = ready.pop()
            self.order.append(name)
            run = self.runs[name]
            run.seams += run.own_seams
            if run.into == ROOT:
                continue
            into = self.runs[run.into]
            into.leak_m2 += run.leak_m2
            into.seams += run.seams
            waiting[run.into] -= 1
            if waiting[run.into] == 0:
                ready.append(run.into)
        if len(self.order) < len(self.runs):
            loop = ", ".join(sorted(set(self.runs) - set(self.order)))
            raise ValueError(f"these runs go round in a loop: {loop}")
        tops = [run for run in self.runs.values() if run.into == ROOT]
        self.root_leak = sum(run.leak_m2 for run in tops)
        self.root_seams = sum(run.seams for run in tops)
        self.rank = {name: i for i, name in enumerate(self.order)}

    def find_hood_coefficient(self, machine: str, pickup: str) -> float:
        """Return the best entry coefficient of one of a machine's hoods."""
        for stretch in self.pickups[machine]:
            if stretch.name == name_pickup(machine, pickup):
                found = stretch.items[0].coefficient
                break
        else:
            found = self.machines[machine].items[0].coefficient
        assert found is not None
        return found.best

    def walk_down(self, machine: str) -> list[str]:
        """Return the runs a machine's air goes through, in order."""
        path, name = [], self.machines[machine].into
        while name != ROOT:
            path.append(name)
            name = self.runs[name].into
        return path

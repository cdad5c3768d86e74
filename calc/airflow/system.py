"""The whole system as one model: ducts, separator, blower, box and filters; balanced for any set of open gates."""

from __future__ import annotations

from collections.abc import Mapping
from copy import copy
from dataclasses import replace

from calc.airflow.air import describe_air
from calc.airflow.balance import Balance
from calc.airflow.blower import BlowerModel, find_crossings
from calc.airflow.chains import BEST, SETS, Chain, fold_items
from calc.airflow.completing import complete_ducts, get_end
from calc.airflow.filters import CLEAN_TIMES, FilterBank
from calc.airflow.fittings import look_up
from calc.airflow.items import Item, make_items, size_of
from calc.airflow.network import Network
from calc.airflow.separator import make_separator_item
from calc.airflow.stretches import Flows
from calc.finding import say
from calc.project import Aired, Machine
from calc.results import ShopAir


def set_names_apart(project: Aired) -> Aired:
    """Return the project with every run that shares a machine's name called ``<name> run``, so that places are one."""
    machines = {machine.name for machine in project.machines}
    shared = {run.name: f"{run.name} run" for run in project.runs if run.name in machines}
    if not shared:
        return project
    runs = tuple(
        replace(run, name=shared.get(run.name, run.name), into=shared.get(run.into, run.into)) for run in project.runs
    )
    moved = tuple(replace(machine, on=shared.get(machine.on, machine.on)) for machine in project.machines)
    return replace(project, runs=runs, machines=moved)


class System:
    """A project ready to be asked. tail: the items between ducts and filters: separator, blower's ducts, box."""

    def __init__(self, project: Aired, air: ShopAir | None = None) -> None:
        project = set_names_apart(complete_ducts(project))
        self.project = project
        self.air = air or describe_air(project.shop)
        self.needs = {machine.name: machine.needs_m3s for machine in project.machines}
        self.network = Network(project, self.air)
        self.blower = BlowerModel(project.blower, self.air, not project.is_assumed("blower.efficiency"))
        self.bank = FilterBank(project.filters, self.air)
        self.tail = self._lay_tail()
        self.chains: tuple[Chain, ...] = tuple(fold_items(self.tail, self.air, which) for which in SETS)

    def swap_machine(self, machine: Machine) -> System:
        """Return the system with one machine changed (same run, same gate leak); the rest is shared."""
        system = copy(self)
        machines = tuple(machine if m.name == machine.name else m for m in self.project.machines)
        system.project = replace(self.project, machines=machines)
        system.network = self.network.swap_machine(machine)
        return system

    def _lay_tail(self) -> list[Item]:
        """Return the items from the separator to the filters, in the direction of the air."""
        project = self.project
        separator = make_separator_item(project.separator, self.network.root_diameter)
        into = look_up("into box")
        mouth = project.inlet_m or get_end(project.delivery) or project.blower.outlet_m
        entering = Item(
            what=say("system.into_box" if project.box else "system.into_filters", diameter=size_of(mouth)),
            section="delivery",
            kind="fitting",
            diameter_m=mouth,
            coefficient=into,
            source=into.source,
        )
        first = [separator] if separator is not None else []
        return [*first, *make_items(project.link, "link"), *make_items(project.delivery, "delivery"), entering]

    def find_tail(
        self, flow: float, which: int, areal: float = 0.0, times: float = 1.0, filters_at: int | None = None
    ) -> tuple[float, float]:
        """Return what everything behind the ducts loses [Pa] at a flow, filters included, and its slope.

        filters_at: the filters' own set of coefficients, None: which
        """
        loss, slope = self.chains[which].find_loss(flow)
        filters, more = self.bank.find_loss(flow, which if filters_at is None else filters_at, areal, times)
        return loss + filters, slope + more

    def balance(
        self,
        open_machines: tuple[str, ...],
        which: int = BEST,
        areal: float = 0.0,
        times: float = 1.0,
        start: Flows | None = None,
        filters_at: int | None = None,
        apart: Mapping[str, int] | None = None,
    ) -> Flows:
        """Return the flows with these gates open, filters loaded with areal [kg/m2], clean loss taken times.

        filters_at: the filters' own set of coefficients; apart: runs and machines with their own set
        """

        def find_head(flow: float) -> tuple[float, float]:
            made, rises = self.blower.find_total(flow)
            lost, slope = self.find_tail(flow, which, areal, times, filters_at)
            return made - lost, rises - slope

        return Balance(self.network, open_machines, which, apart).solve(find_head, start)

    def find_reading(
        self, flows: Flows, which: int, areal: float = 0.0, times: float = 1.0, filters_at: int | None = None
    ) -> float:
        """Return the box's pressure [Pa] above the room. filters_at: as in balance"""
        return self.bank.find_loss(flows.blower_flow, which if filters_at is None else filters_at, areal, times)[0]

    def find_need(
        self, open_machines: tuple[str, ...], steps: int, which: int = BEST
    ) -> tuple[tuple[float, float], ...]:
        """Return the system's curve: blower flow and total pressure asked, from nothing to past the blower's curve.

        The clean filters lose as much less or more as in the bands.
        """
        times = CLEAN_TIMES[which]
        top = 1.3 * self.blower.find_shut_off()
        points = [(0.0, 0.0)]
        flows: Flows | None = None
        for i in range(1, steps + 1):
            suction = top * (i / steps) ** 2
            flows = Balance(self.network, open_machines, which).solve_at(suction, flows)
            total = suction + self.find_tail(flows.blower_flow, which, times=times)[0]
            points.append((flows.blower_flow, total))
            if flows.blower_flow > 1.15 * self.blower.last_flow or total > top:
                break
        return tuple(points)

    def find_all_crossings(self, open_machines: tuple[str, ...], flows: Flows) -> tuple[float, ...]:
        """Return every flow at which blower and system meet; more than one only where the blower's curve rises."""
        if self.blower.curve.is_falling():
            return (flows.blower_flow,)

        low, high = 1e-2, 1.2 * self.blower.find_shut_off()
        last = flows

        def find_excess(suction: float) -> float:
            nonlocal last
            last = Balance(self.network, open_machines, BEST).solve_at(suction, last)
            flow = last.blower_flow
            return self.blower.find_total(flow)[0] - self.find_tail(flow, BEST)[0] - suction

        meeting = find_crossings(find_excess, low, high, 40)
        found = tuple(
            Balance(self.network, open_machines, BEST).solve_at(suction, last).blower_flow for suction in meeting
        )
        return found or (flows.blower_flow,)

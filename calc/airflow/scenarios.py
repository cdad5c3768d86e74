"""Scenarios: each gate alone, the file's gate sets, all gates open; flows with their bands, ducts, blower, reading."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from calc.airflow.chains import BEST, HIGH, LOW, find_item_loss
from calc.airflow.completing import keep_moved_once
from calc.airflow.ducts import find_area, find_velocity_pressure
from calc.airflow.filters import CLEAN_TIMES
from calc.airflow.ledger import write_ledger
from calc.airflow.spread import Spread, find_spread
from calc.airflow.stretches import Flows, name_pickup
from calc.airflow.system import System
from calc.airflow.velocities import Limits
from calc.finding import Band, Limit, decide
from calc.project import Machine
from calc.results import DuctFlow, HoodFlow, MachineFlow, MachineLedger, Scenario

ALL_OPEN = "all gates open"
Kind = Literal["alone", "set", "all"]


@dataclass(frozen=True)
class Opened:
    """A scenario to be solved."""

    name: str
    kind: Kind
    open: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Solved:
    """Its balances: best; low flow (high coefficients, filters 3x); high flow (low coefficients, filters half);
    best with 3x (CLEAN_TIMES).

    spread: with several gates open, lowest and highest flow of each place (see calc.airflow.spread)
    """

    opened: Opened
    best: Flows
    low: Flows
    high: Flows
    three: Flows
    spread: Spread

    def find_band(self, place: str) -> Band:
        """Return the flow [m3/s] of an open machine or run, with its band."""
        least, most = self.spread.get(place, (self.low.flow[place], self.high.flow[place]))
        return make_band((least, self.best.flow[place], most))


def list_scenarios(system: System) -> tuple[Opened, ...]:
    """Return every scenario of a project: each machine with no other gate open, the named sets, all.

    What nothing closes draws air in each of them. All gates open is left out where it is one of the others: where
    one hose is moved by hand there is no such thing.
    """
    project, network = system.project, system.network
    alone = [Opened(machine.name, "alone", (machine.name,)) for machine in project.machines]
    sets = [Opened(gates.name, "set", gates.open) for gates in project.gate_sets]
    names = tuple(machine.name for machine in keep_moved_once(project))
    known = any(set(names) <= set(network.list_drawing(one.open)) for one in alone)
    return (*alone, *sets) if known else (*alone, *sets, Opened(ALL_OPEN, "all", names))


def solve_scenario(system: System, opened: Opened, with_three: bool = True) -> Solved:
    """Return the balances of one scenario. with_three False: without best coefficients and filters three times."""
    best = system.balance(opened.open, BEST)
    three = system.balance(opened.open, BEST, times=CLEAN_TIMES[HIGH], start=best) if with_three else best
    low = system.balance(opened.open, HIGH, times=CLEAN_TIMES[HIGH], start=three)
    high = system.balance(opened.open, LOW, times=CLEAN_TIMES[LOW], start=best)
    return Solved(
        opened=opened,
        best=best,
        low=low,
        high=high,
        three=three,
        spread=find_spread(system, opened.open, best, low, high),
    )


def make_band(values: tuple[float, float, float]) -> Band:
    """Return a band from low, best and high, put in order."""
    low, best, high = values
    return Band(min(low, best, high), best, max(low, best, high))


def find_machine_flow(system: System, solved: Solved, machine: Machine, loaded: Flows) -> MachineFlow:
    """Return a machine's flow in a scenario, and at each of its hoods."""
    name = machine.name
    band = solved.find_band(name)
    hoods = []
    for pickup in machine.pickups:
        flow = solved.best.flow.get(name_pickup(name, pickup.name), solved.best.flow[name])
        d = pickup.hood.diameter_m
        speed_pressure = find_velocity_pressure(flow / find_area(d), system.air.density_kgm3)
        entry = system.network.find_hood_coefficient(name, pickup.name)
        hoods.append(HoodFlow(pickup.name, flow, (1 + entry) * speed_pressure))
    three = solved.three.flow[name]
    verdict = decide(band, Limit(machine.needs_m3s, "at least"))
    return MachineFlow(
        machine=name,
        flow=band,
        needs_m3s=machine.needs_m3s,
        flow_3x_m3s=three,
        verdict=verdict,
        hoods=tuple(hoods),
        clean_me_m3s=loaded.flow[name],
    )


def find_duct_flows(system: System, limits: Limits, solved: Solved) -> tuple[DuctFlow, ...]:
    """Return the air in every open duct: drops first, then runs down to the separator."""
    rows = []
    feeding: dict[str, list[str]] = {}
    for name in solved.opened.open:
        machine = limits.machines[name]
        diameter, flow = limits.find_drop(machine, solved.best)
        share = flow / solved.best.flow[name]
        rows.append(_make_row(system, solved, name, "drop", diameter, share, limits.find_drop_limit(machine)))
        for run in system.network.walk_down(name):
            feeding.setdefault(run, []).append(name)
    for place in solved.best.places:
        if place in feeding:
            limit = limits.find_run_limit(place, feeding[place])
            rows.append(_make_row(system, solved, place, "run", limits.widest[place], 1.0, limit))
    return tuple(rows)


def _make_row(
    system: System,
    solved: Solved,
    place: str,
    kind: Literal["run", "drop"],
    diameter: float,
    share: float,
    limit: float,
) -> DuctFlow:
    area = find_area(diameter)
    whole = solved.find_band(place)
    band = Band(share * whole.low, share * whole.best, share * whole.high)
    speed = Band(band.low / area, band.best / area, band.high / area)
    network, best = system.network, solved.best
    stretch = network.runs[place] if kind == "run" else network.machines[place]
    loss = stretch.chains[BEST].find_loss(best.flow[place])[0]
    joined = stretch.items[len(stretch.items) - stretch.join_items :]
    at_join = sum(find_item_loss(item, best.flow[place], system.air, BEST) for item in joined)
    below = best.suction[place] + loss - at_join  # in the duct itself, before it enters the next
    static = below + find_velocity_pressure(best.flow[place] / area, system.air.density_kgm3)
    return DuctFlow(
        place=place,
        kind=kind,
        diameter_m=diameter,
        flow=band,
        speed=speed,
        limit_ms=limit,
        suction_pa=static,
        loss_pa=loss,
        verdict=decide(speed, Limit(limit, "at least")),
    )


def find_reading_band(system: System, solved: Solved) -> Band:
    """Return the gauge's clean reading [Pa] with its band.

    It is furthest off where ducts and filters err against each other: cheap ducts before dear filters, and dear before
    cheap. So both of these are balanced too.
    """
    opened, best = solved.opened.open, solved.best
    few, many = CLEAN_TIMES[LOW], CLEAN_TIMES[HIGH]
    cheap_ducts = system.balance(opened, LOW, times=many, start=best, filters_at=HIGH)
    dear_ducts = system.balance(opened, HIGH, times=few, start=best, filters_at=LOW)
    readings = [
        system.find_reading(solved.high, LOW, times=few),
        system.find_reading(solved.low, HIGH, times=many),
        system.find_reading(cheap_ducts, LOW, times=many, filters_at=HIGH),
        system.find_reading(dear_ducts, HIGH, times=few, filters_at=LOW),
    ]
    middle = system.find_reading(best, BEST)
    return Band(min(middle, *readings), middle, max(middle, *readings))


def describe_scenario(system: System, limits: Limits, solved: Solved, areal_kgm2: float) -> Scenario:
    """Return all of one scenario. areal_kgm2: dust load of the filters at *clean me*."""
    opened = solved.opened
    loaded = system.balance(opened.open, BEST, areal_kgm2, start=solved.best)
    machines = tuple(find_machine_flow(system, solved, limits.machines[name], loaded) for name in opened.open)
    worst = min(machines, key=lambda row: row.flow.best / row.needs_m3s)
    others = [name for name in opened.open if name != worst.machine] if opened.kind == "set" else []
    flow = make_band((solved.low.blower_flow, solved.best.blower_flow, solved.high.blower_flow))
    crossings = system.find_all_crossings(opened.open, solved.best)
    return Scenario(
        name=opened.name,
        kind=opened.kind,
        open=opened.open,
        machines=machines,
        ducts=find_duct_flows(system, limits, solved),
        flow=flow,
        point=system.blower.describe_point(solved.best.blower_flow, crossings),
        reading=find_reading_band(system, solved),
        reading_clean_me_pa=system.find_reading(loaded, BEST, areal_kgm2),
        flow_clean_me_m3s=loaded.blower_flow,
        leak_m3s=solved.best.leak_m3s,
        ledger_machine=worst.machine,
        ledger=write_ledger(system, solved.best, worst.machine),
        residual_pa=solved.best.residual_pa,
        other_ledgers=tuple(MachineLedger(name, write_ledger(system, solved.best, name)) for name in others),
    )

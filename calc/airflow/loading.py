"""Loading: how the filters fill, what the shop loses by it, and when the gauge should say *clean me*."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.airflow.balance import Balance
from calc.airflow.chains import BEST
from calc.airflow.ducts import find_area
from calc.airflow.filters import find_hours
from calc.airflow.separator import find_capture
from calc.airflow.stretches import Flows
from calc.airflow.system import System
from calc.airflow.velocities import Limits
from calc.finding import Amount, Said, say
from calc.project import Project
from calc.results import CleanMe, Fading, LoadPoint

MOST_FADING = 12  # machines whose fading is drawn
MOST_LOAD = 1.0  # kg/m2 of dust, where pleats pack and bridge whatever the equation says: common practice, no source
# A need met by less than this is told as tight; it is no sign of loaded filters, for clean ones are as close to it.
LEAST_ROOM = 0.05


@dataclass(frozen=True)
class Threshold:
    """A flow [m3/s] at a place that a machine's air must not fall below. kind: as in CleanMe.criterion."""

    kind: str
    machine: str
    place: str
    flow_m3s: float
    why: Said


def find_made_rate(project: Project) -> float:
    """Return the dust [kg/s] made while machines run: the shop's own figure.

    Where that was only assumed and machines have figures of their own, their mean: they take turns (common practice,
    no source).
    """
    known = [machine.dust_kgs for machine in project.machines if machine.dust_kgs is not None]
    if known and project.is_assumed("dust.made"):
        return sum(known) / len(known)
    return project.dust.made_kgs


def find_dust_rate(system: System) -> float:
    """Return the dust [kg/s] reaching the filters while machines run."""
    return find_made_rate(system.project) * (1 - find_capture(system.project.separator).share)


def list_thresholds(system: System, limits: Limits, clean: dict[str, Flows], read_at: str) -> list[Threshold]:
    """Return what may not be lost: flow at the gauge's gate, each machine's need, each duct's velocity.

    clean: balances with each gate alone, filters clean. What clean filters miss, or meet by less than LEAST_ROOM, is
    left out: whoever cleaned for it would clean for ever.
    """
    found: list[Threshold] = []
    drop = system.project.gauge.clean_flow_drop
    for machine in system.project.machines:
        flows = clean[machine.name]
        name, here = machine.name, flows.flow[machine.name]
        wanted: list[tuple[str, str, float, float, Said]] = []
        if drop is not None and name == read_at:
            share = Amount(drop, "share")
            why = say("loading.flow_drop", machine=name, share=share)
            wanted.append(("flow drop", name, here * (1 - drop), here, why))
        need = Amount(machine.needs_m3s, "flow_m3s")
        why = say("loading.machine_need", machine=name, need=need)
        wanted.append(("machine need", name, machine.needs_m3s, here, why))
        diameter, slowest = limits.find_drop(machine, flows)
        least = limits.find_drop_limit(machine)
        speed = Amount(least, "speed_ms")
        why = say("loading.drop_speed", machine=name, speed=speed)
        wanted.append(("transport velocity", name, least * find_area(diameter) * here / slowest, here, why))
        for run in system.network.walk_down(name):
            least = limits.find_run_limit(run, [name])
            why = say(
                "loading.run_speed",
                run=run, machine=name, speed=Amount(least, "speed_ms"),
            )  # fmt: skip
            wanted.append(("transport velocity", run, least * find_area(limits.widest[run]), flows.flow[run], why))
        kept = [w for w in wanted if w[2] <= (1 - LEAST_ROOM) * w[3] or w[0] == "flow drop"]
        if kept:
            kind, place, least, _, why = max(kept, key=lambda w: w[2] / w[3])  # the first of this machine to go
            found.append(Threshold(kind, name, place, least, why))
    return found


def find_load_at(system: System, threshold: Threshold, clean: Flows) -> float | None:
    """Return the dust load [kg/m2] that brings a machine's air down to a threshold."""
    suction = clean.root_suction
    flows = clean
    for _ in range(40):
        flows = Balance(system.network, (threshold.machine,)).solve_at(suction, flows)
        ratio = threshold.flow_m3s / flows.flow[threshold.place]
        if abs(ratio - 1) < 1e-9:
            break
        suction *= ratio**1.9
    flow = flows.blower_flow
    left = system.blower.find_total(flow)[0] - system.chains[BEST].find_loss(flow)[0] - suction
    return system.bank.find_load(flow, left, BEST)


def find_media_load(system: System, read_at: str) -> tuple[float, float] | None:
    """Return the dust load [kg/m2] and pressure [Pa] at which the media reaches its limit; None without a limit.

    With the gates open that send most air through the filters: a gate set of the file, or the gauge's gate alone.
    """
    limits = [f.most_pa for f in system.project.filters if f.most_pa]
    if not limits:
        return None
    most = min(limits)
    sets = [gates.open for gates in system.project.gate_sets]

    def is_over(areal: float) -> bool:
        flow = max(system.balance(gates, BEST, areal).blower_flow for gates in [(read_at,), *sets])
        return system.bank.find_media(flow, BEST, areal) >= most

    low, high = 0.0, 0.01
    while not is_over(high):
        high *= 2
        if high > 1e4:
            return None
    for _ in range(40):
        middle = (low + high) / 2
        if is_over(middle):
            high = middle
        else:
            low = middle
    return high, most


def find_clean_me(system: System, limits: Limits, clean: dict[str, Flows], read_at: str) -> CleanMe:
    """Return when to clean: the first thing the shop loses as the filters load, or the most dust pleats can hold."""
    best: tuple[float, Threshold | None, Said] = (math.inf, None, say("loading.never"))
    for threshold in list_thresholds(system, limits, clean, read_at):
        load = find_load_at(system, threshold, clean[threshold.machine])
        if load is not None and load < best[0]:
            best = (load, threshold, threshold.why)
    media = find_media_load(system, read_at)
    if media is not None and media[0] < best[0]:
        why = say("loading.media_limit", limit=Amount(media[1], "pressure_pa"))
        best = (media[0], Threshold("media limit", read_at, read_at, 0.0, why), why)
    if find_dust_rate(system) > 0 and best[0] > MOST_LOAD:
        why = say("loading.dust_load", load=Amount(MOST_LOAD, "areal_mass_kgm2"))
        best = (MOST_LOAD, Threshold("dust load", read_at, read_at, 0.0, why), why)
    areal, threshold_found, why = best
    if threshold_found is None:
        flows = clean[read_at]
        reading = system.find_reading(flows, BEST)
        return CleanMe(
            criterion="never",
            gate=read_at,
            read_at=read_at,
            areal_kgm2=0.0,
            reading_pa=reading,
            flow_m3s=flows.blower_flow,
            hours_first=None,
            hours_later=None,
            why=why,
        )
    flows = system.balance((read_at,), BEST, areal, start=clean[read_at])
    hours = find_hours(areal, system.bank.media_m2, find_dust_rate(system))
    residual = max(f.residual for f in system.project.filters)
    known = math.isfinite(hours)
    return CleanMe(
        criterion=threshold_found.kind,  # type: ignore[arg-type]
        gate=threshold_found.machine,
        read_at=read_at,
        areal_kgm2=areal,
        reading_pa=system.find_reading(flows, BEST, areal),
        flow_m3s=flows.flow[read_at],
        hours_first=hours if known else None,
        hours_later=hours * (1 - residual) if known else None,
        why=why,
    )


def draw_loading(system: System, read_at: str, clean_me: CleanMe, steps: int = 12) -> tuple[LoadPoint, ...]:
    """Return the stages of loading from new to half as much again as *clean me*."""
    top = 1.5 * clean_me.areal_kgm2
    rate = find_dust_rate(system)
    points = []
    flows: Flows | None = None
    for i in range(steps + 1 if top > 0 else 1):
        areal = top * i / steps
        flows = system.balance((read_at,), BEST, areal, start=flows)
        hours = find_hours(areal, system.bank.media_m2, rate) if areal else 0.0
        points.append(LoadPoint(hours, areal, flows.flow[read_at], system.find_reading(flows, BEST, areal)))
    return tuple(points)


def draw_fading(system: System, points: tuple[LoadPoint, ...]) -> tuple[Fading, ...]:
    """Return each machine's flow at the stages of loading; of a large shop, the machines with the least room."""
    machines = sorted(system.project.machines, key=lambda m: system.balance((m.name,)).flow[m.name] / m.needs_m3s)[
        :MOST_FADING
    ]
    chosen = {machine.name for machine in machines}
    rows = []
    for machine in system.project.machines:
        if machine.name not in chosen:
            continue
        flows: Flows | None = None
        values = []
        for point in points:
            flows = system.balance((machine.name,), BEST, point.areal_kgm2, start=flows)
            values.append(flows.flow[machine.name])
        rows.append(Fading(machine.name, tuple(values)))
    return tuple(rows)

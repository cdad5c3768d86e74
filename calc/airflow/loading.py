"""Loading: how the filters fill, what the shop loses by it, and when the gauge should say *clean me*."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.airflow.balance import Balance
from calc.airflow.chains import BEST
from calc.airflow.ducts import find_area
from calc.airflow.dust import find_hours_band, find_most_load, find_pleat_rate
from calc.airflow.filters import find_hours
from calc.airflow.stretches import Flows
from calc.airflow.system import System
from calc.airflow.velocities import Limits
from calc.finding import Amount, Band, Said, say
from calc.guess import multiply, round_band
from calc.results import CleanMe, Fading, LoadPoint

MOST_FADING = 12  # machines whose fading is drawn
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
    """Return when to clean: the first thing the shop loses as the filters load, or the pleats full of dust."""
    best: tuple[float, Threshold | None, Said] = (math.inf, None, say("loading.never"))
    for threshold in list_thresholds(system, limits, clean, read_at):
        load = find_load_at(system, threshold, clean[threshold.machine])
        if load is not None and load < best[0]:
            best = (load, threshold, threshold.why)
    media = find_media_load(system, read_at)
    if media is not None and media[0] < best[0]:
        why = say("loading.media_limit", limit=Amount(media[1], "pressure_pa"))
        best = (media[0], Threshold("media limit", read_at, read_at, 0.0, why), why)
    lost, room, rate = best[0], find_most_load(system.project), find_pleat_rate(system.project)
    if rate.best > 0 and lost > room.best:
        why = say("loading.dust_load", load=Amount(room.best, "areal_mass_kgm2"))
        best = (room.best, Threshold("dust load", read_at, read_at, 0.0, why), why)
    areal, threshold_found, why = best
    flows = system.balance((read_at,), BEST, areal if threshold_found else 0.0, start=clean[read_at])
    kind = threshold_found.kind if threshold_found else "never"
    if threshold_found is None:
        areal = 0.0
    band = _find_load_band(system, lost, areal)
    hours = find_hours_band(band, system.bank.media_m2, rate)
    kept = 1 - max(f.residual for f in system.project.filters)
    reading = system.find_reading(flows, BEST, areal)
    return CleanMe(
        criterion=kind,  # type: ignore[arg-type]
        gate=threshold_found.machine if threshold_found else read_at,
        read_at=read_at,
        areal_kgm2=areal,
        areal=band,
        reading_pa=reading,
        rise=_find_rise_band(system, band, reading - system.find_reading(clean[read_at], BEST), kind),
        flow_m3s=flows.flow[read_at] if threshold_found else flows.blower_flow,
        hours_first=round_band(hours) if hours else None,
        hours_later=round_band(multiply(hours, Band(kept, kept, kept))) if hours else None,
        why=why,
    )


def _find_load_band(system: System, lost: float, areal: float) -> Band:
    """Return the load [kg/m2] with its band: pleats full, or the load that loses so much air; the first of the two.

    What is lost comes with less dust of a dear cake and with more of a cheap one.
    """
    if areal <= 0:
        return Band(0.0, 0.0, 0.0)
    room, spread = find_most_load(system.project), system.bank.cake_spread
    return Band(min(room.low, lost / spread.high, areal), areal, max(min(room.high, lost / spread.low), areal))


def _find_rise_band(system: System, areal: Band, rise: float, kind: str) -> Band:
    """Return how far the gauge moves [Pa] from clean to *clean me*, with its band: what load and cake may be.

    Where air is lost, or the media's limit met, the pressure then is known whatever the dust. Otherwise the air lost on
    the way is left out of the ends: it makes the rise less by its share.
    """
    if kind != "dust load" or rise == 0:
        return Band(rise, rise, rise)
    spread = multiply(areal, system.bank.cake_spread)
    ends = sorted(rise * end / areal.best for end in (spread.low, spread.high))
    return Band(min(ends[0], rise), rise, max(ends[1], rise))


def draw_loading(system: System, read_at: str, clean_me: CleanMe, steps: int = 12) -> tuple[LoadPoint, ...]:
    """Return the stages of loading from new to half as much again as *clean me*."""
    top = 1.5 * clean_me.areal_kgm2
    rate = find_pleat_rate(system.project).best
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

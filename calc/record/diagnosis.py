"""What a measured gauge reading says: flow deduced from the blower and the filters, and what is likely wrong.

A reading is one number and the shop has two unknowns, the flow and the load of the filters. So each reading is followed
both ways, along the blower's own curve: as if the filters were clean, and as if nothing but dust had changed.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

from calc.airflow.chains import BEST
from calc.airflow.ducts import find_area
from calc.airflow.system import System
from calc.finding import Amount, Band, Said, Verdict, say
from calc.record.entries import Entry, Record, find_baseline
from calc.results import Scenario, Sizing
from calc.settled import SettledShop

SightedAs = Literal["as expected", "still", "low", "loaded", "clean me", "too high", "high"]
FREER = 0.5
"""Clean filters may show so little of the least computed, and be but freer cloth than told (common practice,
no source)."""

MEASURED = 0.10
"""How far other gates' clean readings may lie from what one measured gate makes them."""

NEAR = 0.05
"""Two readings this close are the same to the eye (share; working value of this project)."""


@dataclass(frozen=True, kw_only=True)
class Diagnosed:
    """A reading and its reasoning.

    flow_m3s: deduced; reasons: step by step; likely: what to look for, likeliest first
    """

    gate: str
    date: datetime.date
    measured_pa: float
    expected: Band
    seen: SightedAs
    verdict: Verdict
    flow_m3s: float | None
    reasons: tuple[Said, ...]
    likely: tuple[Said, ...]


def diagnose(project: SettledShop, sizing: Sizing, record: Record) -> tuple[Diagnosed, ...]:
    """Return readings read for what they say, by machine, then date.

    Of each gate the latest reading, and before it every one that was not as it should be: it tells what was mended.
    """
    system: System | None = None
    found: list[Diagnosed] = []
    sizing = calibrate(sizing, find_baseline(record))
    for machine in project.machines:
        readings = [
            _diagnose_entry(system := system or System(project, sizing.air), sizing, machine.name, entry)
            for entry in sorted(record.entries, key=lambda entry: entry.date)
            if entry.get_value(f"reading.{machine.name}") is not None
        ]
        found += [each for each in readings[:-1] if each.verdict is Verdict.DOES_NOT_FIT] + readings[-1:]
    return tuple(found)


def calibrate(sizing: Sizing, baseline_pa: float | None) -> Sizing:
    """Return the sizing with its clean readings moved to what was measured with clean filters, where that is likely.

    The media's loss is the least sure of all that is computed; one measured reading settles it for every gate, and what
    is left is the ducts', about a tenth (common practice, no source).
    """
    band = sizing.at_gauge.reading
    if baseline_pa is None or not FREER * band.low <= baseline_pa <= (1 + NEAR) * band.high:
        return sizing
    times = baseline_pa / band.best
    moved = []
    for scenario in sizing.scenarios:
        best = times * scenario.reading.best
        reading = Band(best * (1 - MEASURED), best, best * (1 + MEASURED))
        loaded = scenario.reading_clean_me_pa
        if sizing.filters.clean_me.criterion == "dust load":  # what dust adds comes on top of it
            loaded += best - scenario.reading.best
        moved.append(replace(scenario, reading=reading, reading_clean_me_pa=loaded))
    return replace(sizing, scenarios=tuple(moved))


def _diagnose_entry(system: System, sizing: Sizing, gate: str, entry: Entry) -> Diagnosed:
    clean = entry.answers.get("baseline.clean")
    return diagnose_reading(
        system,
        sizing,
        gate,
        abs(entry.get_value(f"reading.{gate}") or 0.0),
        entry.date,
        speed_ms=entry.get_value(f"speed.{gate}"),
        clean=None if clean is None else clean.yes,
    )


def diagnose_reading(
    system: System,
    sizing: Sizing,
    gate: str,
    measured_pa: float,
    date: datetime.date,
    *,
    speed_ms: float | None = None,
    clean: bool | None = None,
) -> Diagnosed:
    """Return what one reading [Pa] says, taken with one gate open.

    speed_ms: air speed measured in that machine's drop; clean: whether the filters were clean, None when not said.
    """
    scenario = sizing.get_alone(gate)
    expected = scenario.reading
    seen = _place(system, scenario, measured_pa, sizing)
    speed_flow = None
    if speed_ms is not None:
        drop = next((duct for duct in scenario.ducts if duct.place == gate and duct.kind == "drop"), None)
        speed_flow = speed_ms * find_area(drop.diameter_m) if drop is not None else None
    flow, reasons = _follow_pressure(system, sizing, scenario, measured_pa, seen, speed_flow)
    likely = _list_causes(system, sizing, scenario, measured_pa, seen, speed_flow, clean)
    if speed_flow is not None:
        reasons = (*reasons, _say_speed(scenario, speed_flow))
    verdict = {"as expected": Verdict.FITS, "loaded": Verdict.TIGHT}.get(seen, Verdict.DOES_NOT_FIT)
    if seen == "loaded" and clean:
        verdict = Verdict.DOES_NOT_FIT
    elif seen == "low" and _may_be_freer(scenario, measured_pa, speed_flow):
        verdict = Verdict.TIGHT
    return Diagnosed(
        gate=gate,
        date=date,
        measured_pa=measured_pa,
        expected=expected,
        seen=seen,
        verdict=verdict,
        flow_m3s=flow,
        reasons=reasons,
        likely=likely,
    )


def _moves(scenario: Scenario, speed_flow: float | None) -> bool | None:
    """Tell whether a measured speed says that as much air moves as was drawn; None without one."""
    if speed_flow is None:
        return None
    return speed_flow >= scenario.get_machine(scenario.open[0]).flow.low * (1 - NEAR)


def _may_be_freer(scenario: Scenario, measured: float, speed_flow: float | None) -> bool:
    """Tell whether a reading below all that was computed may be cloth that lets more through: common, and no alarm."""
    moves = _moves(scenario, speed_flow)
    return measured >= FREER * scenario.reading.low if moves is None else moves


def _place(system: System, scenario: Scenario, measured: float, sizing: Sizing) -> SightedAs:
    """Return where a reading lies against the band of this gate and its marks."""
    band, clean_me = scenario.reading, scenario.reading_clean_me_pa
    if measured < 0.1 * band.low or measured < 2.0:
        return "still"
    if band.low * (1 - NEAR) <= measured <= band.high * (1 + NEAR):
        return "as expected"
    if measured < band.low:
        return "low"
    if sizing.filters.clean_me.criterion == "never":
        return "high"
    if measured < clean_me * (1 - NEAR / 2):
        return "loaded"
    return "clean me" if measured < 1.5 * clean_me else "too high"


# --- following the blower's curve -----------------------------------------------------------------------------------


def find_crossing(excess: Callable[[float], float], low: float, high: float) -> float | None:
    """Return where a monotone function crosses zero between two ends, by halving; None when it does not."""
    at_low, at_high = excess(low), excess(high)
    if at_low == 0:
        return low
    if at_low * at_high > 0:
        return None
    for _ in range(60):
        middle = (low + high) / 2
        if excess(middle) * at_low > 0:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def find_clean_flow(system: System, reading_pa: float) -> float | None:
    """Return the flow [m3/s] that makes clean filters hold back a reading [Pa]."""
    return find_crossing(lambda q: system.bank.find_loss(q, BEST)[0] - reading_pa, 1e-6, 5.0)


def find_load(system: System, gate: str, reading_pa: float) -> tuple[float, float] | None:
    """Return the dust load [kg/m2] at which one gate gives a reading [Pa], and the flow [m3/s] then, or None."""

    def excess(areal: float) -> float:
        return system.find_reading(system.balance((gate,), BEST, areal), BEST, areal) - reading_pa

    high = 0.05
    start = excess(0.0)
    while excess(high) * start > 0:
        high *= 4
        if high > 1e3:
            return None
    areal = find_crossing(excess, 0.0, high)
    if areal is None:
        return None
    return areal, system.balance((gate,), BEST, areal).flow[gate]


def find_held_back(system: System, flow_m3s: float, reading_pa: float, suction_pa: float) -> float:
    """Return the pressure [Pa] that something not drawn takes from the air between hood and box.

    At the deduced flow the blower makes so much; ducts, as drawn, take their share of it as flow squared, and the box
    has the reading. What is left over is held back by something else; less than nothing is a loss that is not there.
    """
    return system.blower.find_total(flow_m3s)[0] - system.chains[BEST].find_loss(flow_m3s)[0] - suction_pa - reading_pa


def _follow_pressure(
    system: System,
    sizing: Sizing,
    scenario: Scenario,
    measured: float,
    seen: SightedAs,
    speed_flow: float | None,
) -> tuple[float | None, tuple[Said, ...]]:
    gate = scenario.open[0]
    band = scenario.reading
    reasons = [
        say(
            "diagnosis.expected_clean",
            low=Amount(band.low, "pressure_pa"),
            high=Amount(band.high, "pressure_pa"),
            measured=Amount(measured, "pressure_pa"),
        )
    ]
    if seen == "still":
        return None, tuple(reasons)
    if seen == "low" or (seen == "as expected" and measured <= band.best * (1 + 3 * NEAR)):
        flow = find_clean_flow(system, measured)
        if flow is None:
            return None, tuple(reasons)
        design = scenario.flow.best
        reasons.append(say("diagnosis.clean_flow", flow=Amount(flow, "flow_m3s"), design=Amount(design, "flow_m3s")))
        if seen == "low" and _may_be_freer(scenario, measured, speed_flow):
            reasons.append(say("diagnosis.freer"))
        elif seen == "low":
            suction = system.balance((gate,), BEST).root_suction * (flow / design) ** 2
            held = find_held_back(system, flow, measured, suction)
            if held > 0:
                reasons.append(say("diagnosis.held_back", held=Amount(held, "pressure_pa")))
        return flow, tuple(reasons)
    loaded = find_load(system, gate, measured)
    if loaded is None:
        reasons.append(say("diagnosis.no_load"))
        return None, tuple(reasons)
    areal, flow = loaded
    full = sizing.filters.clean_me.areal_kgm2
    share = areal / full if full > 0 else None
    now, when_clean = Amount(flow, "flow_m3s"), Amount(scenario.get_machine(gate).flow.best, "flow_m3s")
    if share is None:
        reasons.append(say("diagnosis.dust_only", flow=now, clean=when_clean, gate=gate))
    else:
        carried = Amount(share, "share")
        reasons.append(say("diagnosis.dust_only_share", flow=now, clean=when_clean, gate=gate, share=carried))
    return flow, tuple(reasons)


def _say_speed(scenario: Scenario, speed_flow: float) -> Said:
    flow = scenario.get_machine(scenario.open[0]).flow
    return say(
        "diagnosis.speed_flow",
        flow=Amount(speed_flow, "flow_m3s"),
        low=Amount(flow.low, "flow_m3s"),
        high=Amount(flow.high, "flow_m3s"),
    )


# --- causes ---------------------------------------------------------------------------------------------------------


def _list_causes(
    system: System,
    sizing: Sizing,
    scenario: Scenario,
    measured: float,
    seen: SightedAs,
    speed_flow: float | None,
    clean: bool | None,
) -> tuple[Said, ...]:
    """Return what to look for, likeliest first."""
    causes: list[Said] = []
    if seen == "still":
        return (say("diagnosis.still"),)
    if seen != "as expected":
        causes += _find_wrong_gate(sizing, scenario, measured)
    moves = bool(_moves(scenario, speed_flow))
    if seen == "low":
        separator = system.project.separator.kind != "none"
        past = say("diagnosis.air_lost")
        held = say("diagnosis.air_held") if separator else say("diagnosis.air_held_no_separator")
        free = [say("diagnosis.cloth_freer")] if _may_be_freer(scenario, measured, speed_flow) else []
        causes += free + ([past] if moves else [held] if speed_flow is not None else [held, past])
    elif seen in ("loaded", "clean me"):
        if clean:
            causes.append(say("diagnosis.called_clean"))
        if moves and seen == "clean me":
            causes.append(say("diagnosis.speed_good"))
        causes.append(say("diagnosis.dust" if seen == "loaded" else "diagnosis.dust_clean_now"))
    elif seen == "too high":
        causes.append(say("diagnosis.too_high"))
    elif moves is False and speed_flow is not None:
        causes.append(say("diagnosis.air_elsewhere"))
    return tuple(causes)


def _find_wrong_gate(sizing: Sizing, scenario: Scenario, measured: float) -> list[Said]:
    """Return the other gate sets whose clean reading this is, when that is closer than this gate's own band."""
    own = min(abs(measured - scenario.reading.low), abs(measured - scenario.reading.high))
    near = []
    for other in sizing.scenarios:
        off = abs(measured - other.reading.best)
        if other.name != scenario.name and off <= NEAR * other.reading.best and off < own:
            near.append((off, other.name, other.kind == "all"))
    return [
        say("diagnosis.other_all" if is_all else "diagnosis.other_gates", other=name)
        for _, name, is_all in sorted(near)[:2]
    ]

"""The record looked at as a whole: design against as-built, sized again as measured, readings read, the trend."""

from __future__ import annotations

from dataclasses import dataclass, replace

from calc.airflow.scenarios import describe_scenario, list_scenarios, solve_scenario
from calc.airflow.system import System
from calc.airflow.velocities import Limits
from calc.gauges.gauge_design import GaugeDesign
from calc.record.as_built import Compared, apply_record, compare_built
from calc.record.diagnosis import Diagnosed, diagnose
from calc.record.draught import DraughtFound, list_draughts
from calc.record.entries import Entry, Record
from calc.record.leak_hunt import LeakFound, judge_shut_readings
from calc.record.questions import list_questions
from calc.record.trend import Due, Trend, draw_trend, list_due
from calc.results import Sizing
from calc.settled import SettledShop
from calc.trade import WORKDAYS

DAYS_A_WEEK = 7


@dataclass(frozen=True, kw_only=True)
class Resized:
    """One machine's gate alone: flow [m3/s] and clean reading [Pa], as drawn and with what was measured put in."""

    gate: str
    drawn_m3s: float
    built_m3s: float
    needs_m3s: float
    drawn_pa: float
    built_pa: float


@dataclass(frozen=True, kw_only=True)
class Review:
    """What the record says.

    compared: measures drawn and made; resized: a row a machine, where a measured value changes the sizing
    diagnosed: latest readings read; leaks: readings with every gate shut
    draughts: how far the room fell below outdoors, where a flue shares its air
    strays: entries whose packet is not the project file's present state
    """

    compared: tuple[Compared, ...]
    resized: tuple[Resized, ...]
    diagnosed: tuple[Diagnosed, ...]
    leaks: tuple[LeakFound, ...]
    draughts: tuple[DraughtFound, ...]
    trend: Trend
    due: tuple[Due, ...]
    strays: tuple[Entry, ...]


def review_record(project: SettledShop, sizing: Sizing, gauge: GaugeDesign, record: Record, digest: str) -> Review:
    """Return the review of a record. project: settled, as drawn; gauge: as built; digest: of the project file now.

    The sizing is run again only when a measured value differs from the drawn one. A measured set that cannot be sized
    (a hose of no length) leaves the drawn sizing as it is.
    """
    labels = {question.key: question.label for question in list_questions(project)}
    compared = compare_built(project, record, labels)
    built = apply_record(project, record)
    changed = built != project
    resized: tuple[Resized, ...] = ()
    again = sizing
    if changed:
        try:
            again = size_gates(built, sizing)
        except (ArithmeticError, ValueError):
            changed = False
        else:
            resized = _compare_sizings(project, sizing, again)
    later, day = sizing.filters.clean_me.hours_later, project.dust.hours_a_day
    trend = draw_trend(record, sizing.gauge_at, abs(gauge.clean_me_pa), gauge.finest.error_pa)
    computed = later.best / day * DAYS_A_WEEK / WORKDAYS if later and day > 0 else None
    return Review(
        compared=compared,
        resized=resized,
        diagnosed=diagnose(built if changed else project, again, record),
        leaks=judge_shut_readings(project, sizing, gauge, record),
        draughts=list_draughts(sizing.make_up_air, record) if project.shop.draws_on_flue else (),
        trend=trend,
        due=list_due(record, trend, computed),
        strays=tuple(entry for entry in record.entries if entry.digest and entry.digest != digest),
    )


def size_gates(built: SettledShop, drawn: Sizing) -> Sizing:
    """Return the drawn sizing with its scenarios solved again for another project of the same machines.

    Raises ArithmeticError or ValueError when blower and ducts find no balance.
    """
    system = System(built)
    limits = Limits(built, system.network)
    areal = drawn.filters.clean_me.areal_kgm2
    scenarios = tuple(
        describe_scenario(system, limits, solve_scenario(system, opened, with_three=False), areal)
        for opened in list_scenarios(system)
    )
    return replace(drawn, air=system.air, scenarios=scenarios)


def _compare_sizings(project: SettledShop, drawn: Sizing, built: Sizing) -> tuple[Resized, ...]:
    rows = []
    for machine in project.machines:
        before, after = drawn.get_alone(machine.name), built.get_alone(machine.name)
        rows.append(
            Resized(
                gate=machine.name,
                drawn_m3s=before.get_machine(machine.name).flow.best,
                built_m3s=after.get_machine(machine.name).flow.best,
                needs_m3s=machine.needs_m3s,
                drawn_pa=before.reading.best,
                built_pa=after.reading.best,
            )
        )
    return tuple(rows)

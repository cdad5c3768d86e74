"""Worked calculations of the ducts to the worst machine: speed, fittings, friction and their sum."""

from __future__ import annotations

from calc.airflow.chains import BEST, LOW
from calc.airflow.ducts import RIBBED_FACTOR, find_area, find_friction_factor, find_reynolds
from calc.airflow.items import SLACK_SOURCE, Item, size_of
from calc.airflow.ledger import list_items
from calc.airflow.system import System
from calc.airflow.velocities import find_widest
from calc.finding import say
from calc.results import LedgerRow, Sizing, Worked
from calc.sizing.worked_terms import OF_DUCTS, to_amount, to_figures, to_ratio


def work_friction(system: System, item: Item, flow: float) -> list[Worked]:
    """Return Reynolds number, friction factor and loss of one length of duct."""
    assert item.friction is not None
    laid = item.friction[BEST]
    air, d = system.air, laid.diameter_m
    speed = flow / find_area(d)
    reynolds = find_reynolds(speed, d, air.density_kgm3, air.viscosity_pas)
    f = find_friction_factor(reynolds, laid.roughness_m / d)
    pressure = air.density_kgm3 * speed**2 / 2
    loss = f * laid.length_m / d * pressure * laid.factor
    source = "Darcy and Weisbach; ASHRAE Handbook Fundamentals, Duct Design"
    slack = work_slack(item) if item.source == SLACK_SOURCE else []
    length = to_amount(laid.length_m, "length_m")
    return [
        Worked(
            subject=OF_DUCTS,
            symbol=say("worked.reynolds"),
            formula=say("worked.reynolds_formula"),
            numbers=(
                say(
                    "worked.reynolds_numbers",
                    v=to_amount(speed, "speed_ms"),
                    d=size_of(d),
                    mu=to_figures(air.viscosity_pas),
                ),
            ),
            value=to_amount(reynolds, "ratio"),
            source="Reynolds number; viscosity by Sutherland's law",
        ),
        Worked(
            subject=OF_DUCTS,
            symbol=say("worked.friction_factor"),
            formula=say("worked.friction_factor_formula"),
            numbers=(say("worked.friction_factor_numbers", e=to_figures(laid.roughness_m / d)),),
            value=to_ratio(f),
            source="Colebrook; roughness from ASHRAE Handbook Fundamentals, Duct Design",
        ),
        *slack,
        Worked(
            subject=OF_DUCTS,
            symbol=say("worked.friction"),
            formula=say("worked.friction_formula"),
            numbers=(
                say(
                    "worked.friction_numbers",
                    k=to_figures(laid.factor),
                    l=length,
                    vp=to_amount(pressure, "pressure_pa"),
                    what=item.what,
                ),
            ),
            value=to_amount(loss, "pressure_pa"),
            source=item.source if laid.factor != 1 else source,
        ),
    ]


def work_slack(item: Item) -> list[Worked]:
    """Return how many times more a ribbed hose loses than smooth pipe, slack counted in."""
    assert item.friction is not None
    laid = item.friction[BEST]
    compression = 1 - RIBBED_FACTOR[LOW] / item.friction[LOW].factor
    return [
        Worked(
            subject=OF_DUCTS,
            symbol=say("worked.slack"),
            formula=say("worked.slack_formula"),
            numbers=(say("worked.slack_numbers", r=to_amount(compression, "share"), d=size_of(laid.diameter_m)),),
            value=to_ratio(laid.factor),
            source="ribbed hose 3 times smooth pipe (2.5 to 3.75): common practice, no source; slack: midway between "
            "the hose's whole length and ASHRAE Fundamentals for film duct, after Abushakra, Walker and Sherman 2004 "
            "(from memory): common practice, no source",
        )
    ]


def work_fitting(row: LedgerRow) -> Worked:
    """Return the loss of one fitting from its coefficient."""
    assert row.coefficient is not None
    assert row.velocity_pressure_pa is not None
    return Worked(
        subject=OF_DUCTS,
        symbol=say("worked.fitting"),
        formula=say("worked.fitting_formula"),
        numbers=(
            say(
                "worked.fitting_numbers",
                c=to_figures(row.coefficient),
                vp=to_amount(row.velocity_pressure_pa, "pressure_pa"),
                what=row.what,
            ),
        ),
        value=to_amount(row.loss_pa, "pressure_pa"),
        source=row.source,
    )


def work_ducts(system: System, sizing: Sizing) -> list[Worked]:
    """Return speed, velocity pressure, one fitting of each kind, one hose and one pipe, and the sum."""
    scenario = sizing.get_alone(sizing.worst)
    machine = system.project.get_machine(sizing.worst)
    flow = scenario.get_machine(sizing.worst).flow.best
    d = find_widest(machine.pieces) or machine.pickups[0].hood.diameter_m
    speed = flow / find_area(d)
    worked = [
        Worked(
            subject=OF_DUCTS,
            symbol=say("worked.speed"),
            formula=say("worked.speed_formula"),
            numbers=(say("worked.speed_numbers", q=to_amount(flow, "flow_m3s"), d=size_of(d), machine=sizing.worst),),
            value=to_amount(speed, "speed_ms"),
            source="continuity",
        ),
        Worked(
            subject=OF_DUCTS,
            symbol=say("worked.velocity_pressure"),
            formula=say("worked.velocity_pressure_formula"),
            numbers=(
                say(
                    "worked.velocity_pressure_numbers",
                    rho=to_amount(system.air.density_kgm3, "density_kgm3"),
                    v=to_amount(speed, "speed_ms"),
                ),
            ),
            value=to_amount(system.air.density_kgm3 * speed**2 / 2, "pressure_pa"),
            source="ASHRAE Handbook Fundamentals, Duct Design",
        ),
    ]
    seen: set[str] = set()
    for row in scenario.ledger:
        if row.kind in ("hood", "fitting", "join") and row.coefficient is not None and row.what.phrase not in seen:
            seen.add(row.what.phrase)
            worked.append(work_fitting(row))
    flows = system.balance((sizing.worst,), BEST)
    for item, through in list_items(system, flows, sizing.worst):
        if item.friction is not None and item.what.phrase not in seen:
            seen.add(item.what.phrase)
            worked += work_friction(system, item, through)
    worked.append(
        Worked(
            subject=OF_DUCTS,
            symbol=say("worked.sum"),
            formula=say("worked.sum_formula"),
            numbers=(say("worked.sum_numbers", count=to_amount(float(len(scenario.ledger)), "count")),),
            value=to_amount(scenario.ledger[-1].total_pa, "pressure_pa"),
            source="the loss ledger",
        )
    )
    return worked

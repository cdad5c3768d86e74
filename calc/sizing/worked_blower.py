"""Worked calculations of the blower: its curve in this air, total pressure and power."""

from __future__ import annotations

from calc.airflow.shaft_power import MakerPower
from calc.airflow.system import System
from calc.finding import say
from calc.results import BlowerPoint, Sizing, Worked
from calc.sizing.judging_power import tell_power_source
from calc.sizing.worked_terms import OF_BLOWER, to_amount, to_figures


def work_blower(system: System, sizing: Sizing) -> list[Worked]:
    """Return the working point, air power and shaft power."""
    point = sizing.get_alone(sizing.worst).point
    ratio = system.air.density_kgm3 / system.project.blower.curve_density
    speed = system.blower.speed_ratio
    return [
        Worked(
            subject=OF_BLOWER,
            symbol=say("worked.curve"),
            formula=say("worked.curve_formula"),
            numbers=(say("worked.curve_numbers", n=to_figures(speed), r=to_figures(ratio)),),
            value=to_amount(speed**2 * ratio, "share"),
            source="fan laws, AMCA 201 and ASHRAE Handbook Systems and Equipment (from memory)",
        ),
        Worked(
            subject=OF_BLOWER,
            symbol=say("worked.total"),
            formula=say("worked.total_formula"),
            numbers=(
                say(
                    "worked.total_numbers",
                    p=to_amount(point.static_pa, "pressure_pa"),
                    vp=to_amount(point.total_pa - point.static_pa, "pressure_pa"),
                    q=to_amount(point.flow_m3s, "flow_m3s"),
                ),
            ),
            value=to_amount(point.total_pa, "pressure_pa"),
            source="AMCA 201 (from memory)",
        ),
        Worked(
            subject=OF_BLOWER,
            symbol=say("worked.air_power"),
            formula=say("worked.air_power_formula"),
            numbers=(
                say(
                    "worked.air_power_numbers",
                    q=to_amount(point.flow_m3s, "flow_m3s"),
                    p=to_amount(point.total_pa, "pressure_pa"),
                ),
            ),
            value=to_amount(point.air_power_w, "power_w"),
            source="ASHRAE Handbook Systems and Equipment (from memory)",
        ),
        work_shaft_power(system, point),
    ]


def work_shaft_power(system: System, point: BlowerPoint) -> Worked:
    """Return the power at the shaft: by the wheel that decides, or read off the maker's curve."""
    power, flow, project = system.blower.power, point.flow_m3s, system.project
    if isinstance(power, MakerPower):
        formula, source = say("worked.power_formula_maker"), "project file: the maker's power curve; fan laws, AMCA 201"
        ratio = system.air.density_kgm3 / project.blower.curve_density
        numbers = say(
            "worked.power_numbers_maker",
            q=to_amount(flow, "flow_m3s"),
            n=to_figures(system.blower.speed_ratio),
            r=to_figures(ratio),
        )
    else:
        shape, height = power.find_worst(flow)
        formula = say("worked.power_formula")
        numbers = say(
            "worked.power_numbers",
            k=to_amount(height, "power_w"),
            c=to_figures(shape.closed),
            x=to_figures(flow / power.free_flow),
            b=to_figures(shape.bend),
            e=to_amount(project.blower.efficiency, "share"),
        )
        source = tell_power_source(project)
    return Worked(
        subject=OF_BLOWER,
        symbol=say("worked.power"),
        formula=formula,
        numbers=(numbers,),
        value=to_amount(point.shaft_power.best, "power_w"),
        source=source,
    )

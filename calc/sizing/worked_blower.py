"""Worked calculations of the blower: its curve in this air, total pressure and power."""

from __future__ import annotations

from calc.airflow.system import System
from calc.finding import say
from calc.results import Sizing, Worked
from calc.sizing.worked_terms import OF_BLOWER, to_amount, to_figures


def work_blower(system: System, sizing: Sizing) -> list[Worked]:
    """Return the working point, air power and shaft power."""
    point = sizing.get_alone(sizing.worst).point
    blower = system.project.blower
    ratio = system.air.density_kgm3 / blower.curve_density
    speed = blower.runs_at / blower.curve_speed if blower.runs_at and blower.curve_speed else 1.0
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
            symbol=say("worked.power"),
            formula=say("worked.power_formula"),
            numbers=(
                say(
                    "worked.power_numbers",
                    q=to_amount(point.flow_m3s, "flow_m3s"),
                    p=to_amount(point.total_pa, "pressure_pa"),
                    e=to_amount(blower.efficiency, "share"),
                ),
            ),
            value=to_amount(point.shaft_power_w, "power_w"),
            source="ASHRAE Handbook Systems and Equipment; efficiency: "
            + ("assumed" if system.project.is_assumed("blower.efficiency") else "project file"),
        ),
    ]

"""Worked calculations of the shop's air: pressure, density and its share of standard air."""

from __future__ import annotations

from calc.airflow.air import STANDARD_DENSITY
from calc.airflow.system import System
from calc.finding import say
from calc.results import Worked
from calc.sizing.worked_terms import OF_AIR, to_amount, to_figures


def work_air(system: System) -> list[Worked]:
    """Return pressure, humidity and density of the shop's air."""
    shop, air = system.project.shop, system.air
    pressure = Worked(
        subject=OF_AIR,
        symbol=say("worked.pressure"),
        formula=say("worked.pressure_formula"),
        numbers=(
            say(
                "worked.pressure_numbers", z=to_amount(shop.altitude_m, "length_m"), metres=to_figures(shop.altitude_m)
            ),
        ),
        value=to_amount(air.standard_pressure_pa, "barometer_pa"),
        source="U.S. Standard Atmosphere 1976",
    )
    density = Worked(
        subject=OF_AIR,
        symbol=say("worked.density"),
        formula=say("worked.density_formula"),
        numbers=(
            say(
                "worked.density_numbers",
                pascals=to_figures(air.pressure_pa),
                t=to_amount(shop.temperature_k, "temperature_k"),
                kelvin=to_figures(shop.temperature_k),
                w=to_figures(air.humidity_ratio),
                h=to_amount(shop.humidity, "share"),
            ),
        ),
        value=to_amount(air.density_kgm3, "density_kgm3"),
        source="ASHRAE Handbook Fundamentals, Psychrometrics",
    )
    factor = Worked(
        subject=OF_AIR,
        symbol=say("worked.factor"),
        formula=say("worked.factor_formula"),
        numbers=(
            say(
                "worked.factor_numbers",
                a=density.value,
                b=to_amount(STANDARD_DENSITY, "density_kgm3"),
                more=to_figures(air.density_kgm3),
                under=to_figures(STANDARD_DENSITY),
            ),
        ),
        value=to_amount(air.factor, "share"),
        source="standard air 0.075 lb/ft³, ASHRAE and ACGIH",
    )
    return [pressure, density, factor]

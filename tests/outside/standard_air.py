"""Losses and power at standard air, as published tables give them, for checks against the outside."""

from __future__ import annotations

from dataclasses import replace

from calc.airflow.blower import BlowerModel
from calc.airflow.chains import BEST, find_item_loss
from calc.airflow.ducts import Friction
from calc.airflow.items import Item
from calc.finding import Said
from calc.results import ShopAir
from tests.shop import CFM, FOOT, INCH, INH2O, make_project

STANDARD = ShopAir(
    density_kgm3=1.2013847530470112,
    viscosity_pas=1.82e-5,
    pressure_pa=101325.0,
    standard_pressure_pa=101325.0,
    humidity_ratio=0.0,
    factor=1.0,
)


def find_shaft_power(density: float, speed: float = 1.0) -> float:
    """Return the shaft power [W] of the sample's blower where the fan laws take one point of its curve.

    density, speed: as a part of those the curve was measured at
    """
    blower = replace(make_project().blower, curve_is="total", curve_speed=50.0, runs_at=50.0 * speed)
    air = replace(STANDARD, density_kgm3=blower.curve_density * density)
    return BlowerModel(blower, air).describe_point(800 * CFM * speed, ()).shaft_power_w


def lose(inches: float, cfm: float, rough_ft: float = 0.0003, feet: float = 100.0) -> float:
    """Return the friction of round duct at standard air, in inH2O."""
    return lose_laid(Friction(inches * INCH / 1000, feet * FOOT, rough_ft * FOOT), cfm * CFM) / INH2O


def lose_laid(laid: Friction, flow_m3s: float) -> float:
    """Return the pressure [Pa] lost in a length of duct at standard air."""
    item = Item(
        what=Said("items.part", names={"part": "duct"}),
        section="run",
        kind="friction",
        diameter_m=laid.diameter_m,
        friction=(laid, laid, laid),
    )
    return find_item_loss(item, flow_m3s, STANDARD, BEST)

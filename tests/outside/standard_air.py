"""Losses and power at standard air, as published tables give them, for checks against the outside."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from calc.airflow.blower import BlowerModel
from calc.airflow.chains import BEST, find_item_loss
from calc.airflow.ducts import Friction
from calc.airflow.items import Item, make_piece_item
from calc.finding import Said
from calc.results import ShopAir
from packet.reading.load import read_project
from tests.shop import CFM, INH2O, PROJECTS, make_project

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
    return BlowerModel(blower, air).describe_point(800 * CFM * speed, ()).shaft_power.best


@cache
def read_pipe(inches: float, feet: float, material: str = "") -> Item:
    """Return a ``pipe:`` as a project file has it, read as every file is; without a material it is the usual one."""
    own = f", material: {material}" if material else ""
    text = (PROJECTS / "minimal.yaml").read_text("utf-8")
    line = "{pipe: 5 in, length: 12 ft}"
    assert line in text
    changed = text.replace(line, f"{{pipe: {inches:g} in, length: {feet:g} ft{own}}}").encode()
    return make_piece_item(read_project(changed, "minimal.yaml").project.runs[0].pieces[0], "main")


def lose(inches: float, cfm: float, material: str = "", which: int = BEST, feet: float = 100.0) -> float:
    """Return the friction of a project file's pipe at standard air, in inH2O, with one set of coefficients."""
    return find_item_loss(read_pipe(inches, feet, material), cfm * CFM, STANDARD, which) / INH2O


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

"""Small invented shops for the sizing's tests, with as much or as little in them as a test needs."""

from __future__ import annotations

from dataclasses import replace

from calc import project as p
from calc.airflow.blower import BlowerModel
from calc.airflow.chains import BEST, find_item_loss
from calc.airflow.ducts import Friction
from calc.airflow.items import Item
from calc.finding import Said
from calc.results import ShopAir
from tests.sample import CFM, FOOT, INCH, INH2O, make_project

STANDARD = ShopAir(1.2013847530470112, 1.82e-5, 101325.0, 101325.0, 0.0, 1.0)


def make_curve(*points: tuple[float, float]) -> tuple[p.CurvePoint, ...]:
    """Return curve points from (cfm, inH2O)."""
    return tuple(p.CurvePoint(q * CFM, h * INH2O) for q, h in points)


def make_shop(
    runs: tuple[p.Run, ...],
    machines: tuple[p.Machine, ...],
    curve: tuple[p.CurvePoint, ...] | None = None,
    **changes: object,
) -> p.Project:
    """Return the sample with other runs and machines, and other parts as named."""
    base = make_project()
    blower = replace(base.blower, curve=curve) if curve else base.blower
    shop = replace(base, runs=runs, machines=machines, gate_sets=(), blower=blower)
    return replace(shop, **changes)  # type: ignore[arg-type]


def make_tree(count: int, per_run: int = 5, leak_m2: float = 2e-5) -> p.Project:
    """Return a shop of `count` machines, per_run on each branch, all branches into one trunk: the same depth always."""
    d = 6 * INCH / 1000
    trunk = p.Run("trunk", "separator", (p.Pipe(d, 6.0), p.Elbow(d)), p.Join("straight", 0.0))
    runs, machines = [trunk], []
    for i in range(count):
        branch = f"branch {i // per_run}"
        if i % per_run == 0:
            runs.append(p.Run(branch, "trunk", (p.Pipe(d, 3.0 + (i // per_run) % 5),)))
        hood = p.Pickup("port", p.Hood("plain", 0.127))
        pieces = (p.Hose(0.127, 1.0 + (i % 7) * 0.2),)
        machines.append(p.Machine(f"machine {i}", branch, 0.2, (hood,), pieces, p.Gate(d, leak_m2)))
    return make_shop(tuple(runs), tuple(machines))


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
        Said("items.part", names={"part": "duct"}), "run", "friction", laid.diameter_m, friction=(laid, laid, laid)
    )
    return find_item_loss(item, flow_m3s, STANDARD, BEST)

"""Odd shops: absurd sizes, curves with humps, pickups by the handful. Whatever comes, flows balance or it is said."""

from __future__ import annotations

import math
import random
from dataclasses import replace
from typing import get_args

import pytest

from calc import project as p
from calc.airflow.balance import NoBalance
from tests.shop import make_shop, settle_and_size

SIZES = (0.02, 0.05, 0.1, 0.125, 0.15, 0.2, 0.4)
HOODS = tuple(kind for kind in get_args(p.HoodKind) if kind != "given")


def make_piece(pick: random.Random) -> p.Piece:
    d = pick.choice(SIZES)
    made: list[p.Piece] = [
        p.Pipe(d, pick.choice((0.01, 1.0, 30.0)), pick.choice(("galvanised", "pvc"))),
        p.Hose(d, pick.choice((0.1, 3.0)), pick.choice((None, 20.0)), pick.choice(("smooth", "ribbed"))),
        p.Elbow(d, pick.choice((5.0, 90.0, 180.0)), pick.choice((0.3, 1.5, 5.0)), pick.choice(("smooth", "mitred"))),
        p.Taper(d, pick.choice(SIZES), pick.choice((None, 10.0, 180.0))),
        p.OtherPart("screen", d, coefficient=pick.choice((0.0, 50.0))),
        p.Throat(d),
    ]
    return pick.choice(made)


def make_odd_shop(seed: int) -> p.Project:
    pick = random.Random(seed)
    join = p.Join("wye", pick.choice((15.0, 60.0)))
    runs = [p.Run("run 0", "separator", (p.Pipe(0.15, 5.0), make_piece(pick)), p.Join("straight", 0.0), 48.0)]
    for i in range(1, pick.randint(2, 5)):
        into = pick.choice(["separator", *(r.name for r in runs)])
        runs.append(p.Run(f"run {i}", into, tuple(make_piece(pick) for _ in range(2)), join))
    machines = []
    for i in range(pick.randint(1, 4)):
        pickups = tuple(
            p.Pickup(
                f"port {j}",
                p.Hood(kind=pick.choice(HOODS), diameter_m=pick.choice(SIZES), opening_m2=pick.choice((1e-4, 0.01))),
                tuple(make_piece(pick) for _ in range(pick.randint(0, 2))),
            )
            for j in range(pick.randint(1, 3))
        )
        gate = pick.choice((None, p.Gate(0.1, 1e-2)))
        machines.append(
            p.Machine(
                name=f"machine {i}",
                on=pick.choice(runs).name,
                needs_m3s=0.2,
                pickups=pickups,
                pieces=(make_piece(pick),),
                gate=gate,
            )
        )
    points, flow, pressure = [], 0.0, pick.choice((5.0, 500.0, 9000.0))
    for _ in range(pick.randint(2, 6)):
        points.append(p.CurvePoint(flow, pressure))
        flow, pressure = flow + pick.choice((0.01, 0.1, 0.3)), pressure * pick.choice((0.3, 0.9, 1.0, 1.3))
    shop = make_shop(tuple(runs), tuple(machines), tuple(points))
    one = shop.filters[0]
    bank = pick.choice(((one,), (replace(one, count=1, media_m2=0.5, name="small"), replace(one, count=1))))
    hung = iter(each.name for each in bank for _ in range(each.count))
    ports = tuple(replace(port, filter=next(hung)) if port.kind == "filter" else port for port in shop.ports)
    return replace(shop, filters=bank, ports=ports)


@pytest.mark.parametrize("seed", range(14))
def test_odd_shop_is_sized(seed: int) -> None:
    sizing = settle_and_size(make_odd_shop(seed))
    for scenario in sizing.scenarios:
        assert scenario.residual_pa < 0.1
        for row in scenario.machines:
            assert math.isfinite(row.flow.best)
            assert 0 <= row.flow.low <= row.flow.high
        assert scenario.ledger[-1].total_pa == pytest.approx(scenario.point.total_pa, rel=1e-6, abs=0.05)


@pytest.mark.parametrize("outlet_m", [0.0254, 0.05, 0.07])
def test_an_outlet_too_small_for_its_blower_balances_or_says_so(outlet_m: float) -> None:
    """Total pressure grows with the fourth power of a small outlet: the flows once ran off to no number at all."""
    shop = make_shop(
        (p.Run("main", "separator", (p.Pipe(0.15, 5.0),), p.Join("straight", 0.0)),),
        (
            p.Machine(
                name="saw",
                on="main",
                needs_m3s=0.2,
                pickups=(p.Pickup("port", p.Hood(kind="plain", diameter_m=0.15)),),
                pieces=(p.Hose(0.15, 1.0),),
            ),
        ),
        (p.CurvePoint(0.0, 3800.0), p.CurvePoint(0.5, 2500.0), p.CurvePoint(0.85, 300.0)),
    )
    shop = replace(shop, blower=replace(shop.blower, outlet_m=outlet_m, curve_is="static"))
    flows, lost = [], ("saw",)
    try:
        flows = [scenario.flow.best for scenario in settle_and_size(shop).scenarios]
    except NoBalance as none:
        lost = none.machines
    assert lost == ("saw",)
    assert all(0 < flow < 10 for flow in flows)

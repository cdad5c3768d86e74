"""What a measured reading says, by scipy's root finding and by the sum of losses; small statics beside it."""

from __future__ import annotations

import math
from dataclasses import replace

import fluids
import pytest
from scipy.optimize import brentq

from calc.airflow.air import STANDARD_DENSITY
from calc.airflow.chains import BEST, find_item_loss
from calc.airflow.items import make_piece_item
from calc.airflow.system import System
from calc.gauges.gauge_board import find_least_hang
from calc.measures.quantity import read_ratio
from calc.project import Hose, Pipe
from calc.record.diagnosis import find_clean_flow, find_crossing, find_held_back
from calc.sizing.choices import measure_hoses
from tests.outside.check import hold_against
from tests.outside.standard_air import STANDARD
from tests.shop import CFM, make_project

pytestmark = pytest.mark.outside


def test_loss_of_one_item() -> None:
    # 100 ft of 6 in at 800 cfm and 0.0005 ft: 1,080 Pa by fluids
    item = make_piece_item(Pipe(0.1524, 30.48), "main")
    flow = 800 * CFM
    published = fluids.friction.one_phase_dP(
        m=flow * STANDARD_DENSITY,
        rho=STANDARD_DENSITY,
        mu=STANDARD.viscosity_pas,
        D=0.1524,
        roughness=0.1524e-3,
        L=30.48,
    )
    hold_against(
        "100 ft of 6 in pipe [Pa]",
        "fluids one_phase_dP",
        published,
        find_item_loss(item, flow, STANDARD, BEST),
        rel=1e-6,
    )


def test_crossing_and_clean_flow() -> None:
    def excess(x: float) -> float:
        return x**3 - 2.0 * x - 5.0

    found = find_crossing(excess, 1.0, 3.0)
    assert found is not None
    hold_against("root of x3 - 2x - 5", "scipy.optimize.brentq", brentq(excess, 1, 3, xtol=1e-14), found, rel=1e-10)
    assert find_crossing(excess, 3.0, 4.0) is None
    system = System(make_project())
    published = brentq(lambda q: system.bank.find_loss(q, BEST)[0] - 60.0, 1e-6, 5.0, xtol=1e-13)
    flow = find_clean_flow(system, 60.0)
    assert flow is not None
    hold_against("flow at 60 Pa over clean filters [m3/s]", "scipy.optimize.brentq", published, flow, rel=1e-8)


def test_what_is_held_back_is_what_was_hidden() -> None:
    # a part nobody drew takes 150 Pa: the sum of losses around the loop is nought (energy)
    system = System(make_project())
    flows = system.balance(("planer",))
    reading = system.find_reading(flows, BEST)
    left = find_held_back(system, flows.blower_flow, reading, flows.root_suction - 150.0)
    assert left == pytest.approx(150.0, abs=1e-4)


def test_hose_counted_end_to_end() -> None:
    machine = make_project().machines[0]
    hoses = (Hose(0.1, 1.25), Pipe(0.1, 3.0), Hose(0.1, 0.75))
    pickups = tuple(replace(p, pieces=()) for p in machine.pickups)
    length = measure_hoses(replace(machine, pieces=hoses, pickups=pickups))
    assert length == pytest.approx(2.0, rel=1e-12)


@pytest.mark.parametrize(("text", "published"), [("1:12", 1 / 12), ("1 in 5", 0.2), ("8 %", 0.08)])
def test_slopes(text: str, published: float) -> None:
    assert read_ratio(text) == pytest.approx(published, rel=1e-12)


def test_board_hangs_plumb_within_its_angle() -> None:
    # at the angle where it sticks the turning moment equals the friction's: d sin(a) = mu r
    hang = find_least_hang(0.3, 4.0, 1.0)
    moment = hang * math.sin(math.radians(1.0))
    assert moment == pytest.approx(0.3 * 4.0, rel=1e-12)

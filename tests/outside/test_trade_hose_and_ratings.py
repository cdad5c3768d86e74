"""Figures that tradespeople quote: hose factors (C17), a rating read as a point (C11), a fan's pass mark (C5)."""

from __future__ import annotations

import pytest
from scipy.optimize import brentq

from calc.airflow import ducts, fittings
from calc.airflow.curve import MonotoneCurve, draw_rated_curve
from calc.airflow.ducts import find_area
from calc.project import Hood, Hose
from tests.outside.check import hold_against
from tests.outside.standard_air import lose, lose_laid
from tests.shop import CFM, FOOT, INH2O

pytestmark = pytest.mark.outside


@pytest.mark.parametrize("inches", [4])
def test_case_17_hose_factor(inches: float) -> None:
    # magazine 3; practitioner 2.5 to 3; machine manual 0.28/0.075 = 3.73: common practice, no source
    hose = ducts.lay_hose(Hose(inches * 0.0254, 1.0))
    pipe = lose(inches, 20.32 * ducts.find_area(inches * 0.0254) / CFM, feet=1 / FOOT)
    factors = []
    for laid in hose:
        flow = 20.32 * ducts.find_area(laid.diameter_m)
        factors.append(lose_laid(laid, flow) / INH2O / pipe)
    hold_against(f"hose factor {inches} in, low", "trade, common practice, no source", 2.5, factors[0], rel=0.02)
    hold_against(f"hose factor {inches} in", "trade, common practice, no source", 3.0, factors[1], rel=0.02)
    hold_against(
        f"hose factor {inches} in, high", "a machine's manual; common practice, no source", 3.73, factors[2], rel=0.02
    )


def test_case_11_rating_is_never_one_point() -> None:
    # 2,100 cfm; 10 in: the upper and lower limits of the curve, not one point
    shut, *_, free = draw_rated_curve(2100 * CFM, 10 * INH2O)
    assert shut.pressure_pa / INH2O == pytest.approx(10.0, rel=1e-12)
    assert free.pressure_pa == pytest.approx(0.0, abs=1e-9)
    assert free.flow_m3s / CFM == pytest.approx(2100.0, rel=1e-9)


@pytest.mark.parametrize(("flow_at_5_3", "fits"), [(450.0, False), (520.0, True)])
def test_case_5_worst_branch_picks_the_fan(flow_at_5_3: float, fits: bool) -> None:
    # worst branch 5.27 inH2O, hungriest machine 500 cfm: the fan must give 500 cfm or more AT 5.27 in
    curve = MonotoneCurve([0.0, flow_at_5_3, 1200.0], [8.0, 5.3, 0.0])
    flow = brentq(lambda q: curve.find(q)[0] - 5.27, 0.0, 1200.0)
    hold_against(
        f"fan flow at 5.27 in, {flow_at_5_3:g} cfm at 5.3 in [cfm]",
        "common practice, no source",
        flow_at_5_3,
        flow,
        rel=0.02,
    )
    assert (flow >= 500.0) is fits


def test_case_10_sealed_cabinet_starves() -> None:
    # a 4 in hose on a box with a 1 in opening moves nothing: 256 times the area ratio squared
    small = fittings.find_hood(Hood(kind="cabinet", diameter_m=0.1016, opening_m2=find_area(0.0254))).best
    assert small == pytest.approx(256 / 0.36, rel=0.005)

"""The blower against published fan examples, the fan laws, scipy's monotone curve and exact crossings."""

from __future__ import annotations

import pytest
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

from calc import blower
from calc.air import describe_air
from calc.curve import MonotoneCurve
from calc.project import Blower, CurvePoint, Shop
from calc.results import ShopAir
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside
CFM, INH2O, BHP = 4.719474432e-4, 249.0889, 745.6999
LAWS = "fan laws, worked example"


def test_hot_high_fan_chosen_and_its_power() -> None:
    # 7,500 cfm at 1.5 inH2O, 6,000 ft, 200 degF: factor 0.643 -> select 2.33 inH2O; 3.53 bhp -> 2.27 bhp at site
    (point,) = blower.scale_curve((CurvePoint(7500 * CFM, 1.5 * INH2O),), 1.0, 1 / 0.643)
    hold_against(
        "pressure to select [inH2O]", "fan basics sheet, air density factors", 2.33, point[1] / INH2O, abs=0.005
    )
    hold_against("flow unchanged [cfm]", "fan basics sheet", 7500, point[0] / CFM, rel=1e-9)
    hold_against("power at site [bhp]", "fan basics sheet", 2.27, blower.scale_power(3.53, 1.0, 0.643), abs=0.005)


def test_warm_fan() -> None:
    # 20 r/s, 2.4 m3/s, 340 Pa, 1.8 kW at 20 degC; at 40 degC 1.685 kW and 318.3 Pa, same flow
    ratio = 293.0 / 313.0
    hold_against(
        "power at 40 degC [kW]", "university HVAC text, fans", 1.685, blower.scale_power(1.8, 1.0, ratio), abs=0.001
    )
    (point,) = blower.scale_curve((CurvePoint(2.4, 340.0),), 1.0, ratio)
    hold_against("pressure at 40 degC [Pa]", "university HVAC text, fans", 318.3, point[1], abs=0.1)


def test_speed_law() -> None:
    # N x 1.1: Q x 1.1, p x 1.21, W x 1.331 (AMCA 201, from memory)
    (point,) = blower.scale_curve((CurvePoint(1.0, 1000.0),), 1.1, 1.0)
    hold_against("flow at 1.1 N", "AMCA 201, from memory", 1.1, point[0], rel=1e-12)
    hold_against("pressure at 1.1 N", "AMCA 201, from memory", 1210.0, point[1], rel=1e-12)
    hold_against("power at 1.1 N", "AMCA 201, from memory", 1331.0, blower.scale_power(1000.0, 1.1, 1.0), rel=1e-12)


def test_air_power() -> None:
    # hp = Q p / 6356 (cfm, inH2O), ASHRAE; the constant rests on 70 degF water, 0.2 % off the conventional inch
    computed = blower.find_air_power(1000 * CFM, 5 * INH2O) / BHP
    hold_against("air power, 1,000 cfm at 5 inH2O [hp]", "ASHRAE, Q p / 6356", 5000 / 6356, computed, rel=0.003)


def test_exact_crossing() -> None:
    # fan 10 - 5e-6 Q^2, ducts 5e-6 Q^2: they meet at 1,000 cfm and 5 inH2O exactly
    excess = lambda q: 10 - 5e-6 * q * q - 5e-6 * q * q  # noqa: E731
    (found,) = blower.find_crossings(excess, 1.0, 1400.0)
    hold_against("crossing [cfm]", "closed form", 1000.0, found, rel=1e-12)
    hold_against("crossing [cfm]", "scipy.optimize.brentq", brentq(excess, 1.0, 1400.0, xtol=1e-12), found, rel=1e-9)


def test_three_crossings_on_a_humped_curve() -> None:
    # blower less ducts as a cubic with roots at 1, 2 and 3
    found = blower.find_crossings(lambda q: -(q - 1) * (q - 2) * (q - 3), 0.05, 4.0, 41)
    assert len(found) == 3
    for published, computed in zip((1.0, 2.0, 3.0), found, strict=True):
        hold_against(f"crossing near {published:g}", "closed form, roots of a cubic", published, computed, rel=1e-12)


POINTS = [(0.0, 11.6), (400.0, 11.4), (800.0, 10.0), (1200.0, 6.6), (1500.0, 2.4)]


@pytest.mark.parametrize("flow", [50.0, 250.0, 650.0, 1010.0, 1444.0])
def test_monotone_curve(flow: float) -> None:
    xs, ys = [q for q, _ in POINTS], [p for _, p in POINTS]
    published = PchipInterpolator(xs, ys)
    value, slope = MonotoneCurve(xs, ys).find(flow)
    hold_against(f"monotone curve at {flow:g}", "scipy PchipInterpolator", float(published(flow)), value, rel=1e-12)
    hold_against(
        f"its slope at {flow:g}", "scipy PchipInterpolator", float(published.derivative()(flow)), slope, rel=1e-9
    )


def make_blower(curve_is: str = "static") -> Blower:
    points = tuple(CurvePoint(q * CFM, p * INH2O) for q, p in POINTS)
    return Blower(points, curve_is, 0.2032, 2237.0)  # type: ignore[arg-type]


def test_static_and_total() -> None:
    # 8 in outlet, 1,396.26 cfm is 4,000 fpm: velocity pressure 0.9957 inH2O at standard air
    air = ShopAir(1.2013847530470112, 1.82e-5, 101325.0, 101325.0, 0.0, 1.0)
    model = blower.BlowerModel(make_blower(), air)
    flow = 1396.26 * CFM
    gap = (model.find_total(flow)[0] - model.find_static(flow)) / INH2O
    hold_against("total less static at 4,000 fpm [inH2O]", "ASHRAE velocity pressure", 0.995738, gap, rel=1e-5)
    total = blower.BlowerModel(make_blower("total"), air)
    hold_against(
        "static from a total curve [inH2O]",
        "AMCA 201: static = total - VP",
        10.0 - (800 / 1396.26) ** 2 * 0.995738,
        total.find_static(800 * CFM) / INH2O,
        rel=1e-6,
    )


def test_curve_in_thin_air() -> None:
    # Case C30: pressure x density ratio, 0.823 at 5,280 ft; flow unchanged
    air = describe_air(Shop(1609.344, 294.26111, 0.0, 2500.0))
    model = blower.BlowerModel(make_blower(), air)
    ratio = model.find_static(800 * CFM) / (10.0 * INH2O)
    hold_against("pressure ratio at 5,280 ft", "trade page on altitude (case C30)", 0.823, ratio, rel=0.004)


def test_case_11_rating_is_never_one_point() -> None:
    # 2,100 cfm; 10 in: the upper and lower limits of the curve, not one point
    shut, free = blower.draw_rating(2100 * CFM, 10 * INH2O)
    hold_against(
        "pressure at no flow [inH2O]", "practitioner's answer (case C11)", 10.0, shut.pressure_pa / INH2O, rel=1e-12
    )
    hold_against(
        "pressure at the rated flow [inH2O]", "practitioner's answer (case C11)", 0.0, free.pressure_pa, abs=1e-9
    )
    hold_against("flow at no pressure [cfm]", "practitioner's answer (case C11)", 2100.0, free.flow_m3s / CFM, rel=1e-9)


@pytest.mark.parametrize(("flow_at_5_3", "fits"), [(450.0, False), (520.0, True)])
def test_case_5_worst_branch_picks_the_fan(flow_at_5_3: float, fits: bool) -> None:
    # worst branch 5.27 inH2O, hungriest machine 500 cfm: the fan must give 500 cfm or more AT 5.27 in
    curve = MonotoneCurve([0.0, flow_at_5_3, 1200.0], [8.0, 5.3, 0.0])
    flow = brentq(lambda q: curve.find(q)[0] - 5.27, 0.0, 1200.0)
    hold_against(
        f"fan flow at 5.27 in, {flow_at_5_3:g} cfm at 5.3 in [cfm]",
        "practitioner's FAQ (case C5)",
        flow_at_5_3,
        flow,
        rel=0.02,
    )
    assert (flow >= 500.0) is fits

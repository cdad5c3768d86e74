"""The monotone curve and unequal filters against scipy."""

from __future__ import annotations

from dataclasses import replace

import pytest
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

from calc.airflow import filters
from calc.airflow.chains import BEST
from calc.airflow.curve import MonotoneCurve
from tests.outside.check import hold_against
from tests.outside.standard_air import STANDARD
from tests.shop import make_project

pytestmark = pytest.mark.outside
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


def test_unequal_filters_share_by_pressure() -> None:
    first = make_project().filters[0]
    pair = (replace(first, count=1), replace(first, count=2, media_m2=first.media_m2 / 3, bore_mm=150.0, name="small"))
    bank = filters.FilterBank(pair, STANDARD)
    flow = 0.4

    def miss(pressure: float) -> float:
        total = 0.0
        for member in bank.members:
            q = brentq(lambda q, m=member: m.opening[BEST] * q * q + m.clean * q - pressure, 0.0, 1000.0, xtol=1e-15)
            total += member.filter.count * q
        return total - flow

    published = brentq(miss, 1e-6, 1e5, xtol=1e-12)
    pressure, slope = bank.find_loss(flow, BEST)
    hold_against("loss of unequal filters [Pa]", "scipy.optimize.brentq, nested", published, pressure, rel=1e-9)
    step = 1e-6
    rise = (bank.find_loss(flow + step, BEST)[0] - bank.find_loss(flow - step, BEST)[0]) / (2 * step)
    assert slope == pytest.approx(rise, rel=1e-6)
    shares = bank.share_flow(flow, BEST)
    assert shares[0] + 2 * shares[1] == pytest.approx(flow, rel=1e-9)

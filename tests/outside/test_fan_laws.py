"""The fan laws: AMCA 201 (from memory) and a worked example of a university text."""

from __future__ import annotations

import pytest

from calc.airflow import blower
from calc.project import CurvePoint
from tests.outside.check import hold_against
from tests.outside.standard_air import find_shaft_power

pytestmark = pytest.mark.outside


def test_warm_fan() -> None:
    # 20 r/s, 2.4 m3/s, 340 Pa, 1.8 kW at 20 degC; at 40 degC 1.685 kW and 318.3 Pa, same flow
    ratio = 293.0 / 313.0
    hold_against(
        "power at 40 degC [kW]",
        "worked example of a university's text on fans; common practice, no source",
        1.685,
        1.8 * find_shaft_power(ratio) / find_shaft_power(1.0),
        abs=0.001,
    )
    (point,) = blower.scale_curve((CurvePoint(2.4, 340.0),), 1.0, ratio)
    hold_against(
        "pressure at 40 degC [Pa]",
        "worked example of a university's text on fans; common practice, no source",
        318.3,
        point[1],
        abs=0.1,
    )


def test_speed_law() -> None:
    # N x 1.1: Q x 1.1, p x 1.21, W x 1.331 (AMCA 201, from memory)
    (point,) = blower.scale_curve((CurvePoint(1.0, 1000.0),), 1.1, 1.0)
    assert point[0] == pytest.approx(1.1, rel=1e-12)
    assert point[1] == pytest.approx(1210.0, rel=1e-12)
    power = 1000.0 * find_shaft_power(1.0, speed=1.1) / find_shaft_power(1.0)
    assert power == pytest.approx(1331.0, rel=1e-12)

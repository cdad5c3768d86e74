"""Power at the shaft: the worst of what a wheel may be, how wide its band is, and the maker's curve in its place."""

from __future__ import annotations

from dataclasses import replace
from typing import get_args

import pytest

from calc.airflow.blower import BlowerModel
from calc.airflow.system import System
from calc.finding import Band
from calc.project import PowerPoint, WheelKind
from tests.outside.standard_air import STANDARD
from tests.shop import CFM, make_project

WHEELS: tuple[WheelKind, ...] = get_args(WheelKind)


def find(wheel: WheelKind | None, share: float, sure: bool = True) -> Band:
    model = BlowerModel(replace(make_project().blower, wheel=wheel), STANDARD, sure)
    return model.power.find(share * model.free_flow)


@pytest.mark.parametrize("share", [0.0, 0.2, 0.4, 0.6, 0.8, 1.0])
@pytest.mark.parametrize("sure", [True, False])
def test_an_unknown_wheel_takes_the_worse_of_all(share: float, sure: bool) -> None:
    known = [find(wheel, share, sure) for wheel in WHEELS]
    unknown = find(None, share, sure)
    assert unknown.best == pytest.approx(max(band.best for band in known))
    assert unknown.low == pytest.approx(min(band.low for band in known))
    assert unknown.high == pytest.approx(max(band.high for band in known))


@pytest.mark.parametrize("wheel", WHEELS)
def test_the_band_holds_the_best_and_an_unsure_efficiency_widens_it(wheel: WheelKind) -> None:
    for share in (0.0, 0.3, 0.7, 1.0):
        sure, unsure = find(wheel, share), find(wheel, share, sure=False)
        assert unsure.low < sure.low <= sure.best <= sure.high < unsure.high
        assert unsure.best == sure.best


def test_a_curve_that_ends_early_has_no_endless_free_flow() -> None:
    blower = make_project().blower
    early = BlowerModel(replace(blower, curve=blower.curve[:3]), STANDARD)  # ends at 800 cfm and 10 inH2O
    assert early.free_flow == pytest.approx(1.5 * 800 * CFM, rel=1e-3)


def test_makers_power_is_taken_as_it_stands() -> None:
    points = tuple(PowerPoint(q * CFM, w) for q, w in ((0, 900.0), (800, 1700.0), (1500, 2400.0)))
    system = System(make_project(blower=replace(make_project().blower, power_curve=points, curve_density=1.0)))
    ratio = system.air.density_kgm3
    assert system.blower.power.find(800 * CFM) == Band(*[pytest.approx(1700.0 * ratio)] * 3)

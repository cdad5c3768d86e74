"""Closed forms: exact crossings, mass balance, inverses, square laws."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from scipy.optimize import brentq

from calc import project as p
from calc.airflow import blower, filters, separator
from calc.airflow.air import STANDARD_DENSITY
from calc.airflow.chains import BEST, find_item_loss
from calc.airflow.system import System
from calc.record.leak_hunt import find_shut_reading
from calc.sizing import make_up_air
from tests.outside.check import hold_against
from tests.outside.standard_air import STANDARD
from tests.shop import CFM, INH2O, make_project, settle_and_size

pytestmark = pytest.mark.outside
FPM, FOOT2, POUND = 0.00508, 0.09290304, 0.45359237


def test_exact_crossing() -> None:
    # fan 10 - 5e-6 Q^2, ducts 5e-6 Q^2: they meet at 1,000 cfm and 5 inH2O exactly
    excess = lambda q: 10 - 5e-6 * q * q - 5e-6 * q * q  # noqa: E731
    (found,) = blower.find_crossings(excess, 1.0, 1400.0)
    assert found == pytest.approx(1000.0, rel=1e-12)
    hold_against("crossing [cfm]", "scipy.optimize.brentq", brentq(excess, 1.0, 1400.0, xtol=1e-12), found, rel=1e-9)


def test_three_crossings_on_a_humped_curve() -> None:
    # blower less ducts as a cubic with roots at 1, 2 and 3
    found = blower.find_crossings(lambda q: -(q - 1) * (q - 2) * (q - 3), 0.05, 4.0, 41)
    assert len(found) == 3
    for published, computed in zip((1.0, 2.0, 3.0), found, strict=True):
        assert computed == pytest.approx(published, rel=1e-12)


def test_air_to_media() -> None:
    # 800 cfm over 400 ft2 = 2 cfm/ft2; 1 cfm/ft2 = 0.508 cm/s exactly
    assert pytest.approx(0.508, rel=1e-6) == 100 * CFM / FOOT2
    project = make_project()
    media = sum(each.media_m2 * each.count for each in project.filters)
    found = settle_and_size(project)
    most = max(each.point.flow_m3s for each in found.scenarios if each.name != "all gates open")
    assert found.filters.face_speed_ms == pytest.approx(most / media, rel=1e-6)


def test_hours_of_loading() -> None:
    # 0.1 lb/ft2 on 420 ft2 at 6 lb/h made and 98.5 % caught: 42 / 0.09 = 466.7 h
    hours = filters.find_hours(0.1 * POUND / FOOT2, 420 * FOOT2, 6 * 0.015 * POUND / 3600)
    assert hours == pytest.approx(42 / 0.09, rel=1e-9)


def test_equal_filters_written_twice_are_one_bank() -> None:
    first = make_project().filters[0]
    whole = filters.FilterBank((first,), STANDARD).find_loss(0.4, BEST, 0.2)[0]
    split = filters.FilterBank((replace(first, count=1), replace(first, count=1)), STANDARD).find_loss(0.4, BEST, 0.2)[
        0
    ]
    assert split == pytest.approx(whole, rel=1e-9)


def test_load_turned_round() -> None:
    first = make_project().filters[0]
    for kinds in ((first,), (replace(first, count=1), replace(first, count=3, media_m2=5.0))):
        bank = filters.FilterBank(kinds, STANDARD)
        loss = bank.find_loss(0.35, BEST, 0.7)[0]
        load = bank.find_load(0.35, loss, BEST)
        assert load is not None
        assert load == pytest.approx(0.7, rel=1e-6)


def test_separator_loss_scales_with_square_and_density() -> None:
    # 2.0 inH2O at 800 cfm: 4.5 at 1,200 cfm; at 0.823 of standard density 3.70
    item = separator.make_separator_item(p.Separator(kind="cyclone", loss_pa=2.0 * INH2O, loss_at_m3s=800 * CFM), 0.15)
    assert item is not None
    air = replace(STANDARD, density_kgm3=STANDARD_DENSITY)
    loss = find_item_loss(item, 1200 * CFM, air, BEST) / INH2O
    assert loss == pytest.approx(4.5, rel=1e-9)
    thin = find_item_loss(item, 1200 * CFM, replace(air, density_kgm3=0.823 * STANDARD_DENSITY), BEST) / INH2O
    assert thin == pytest.approx(4.5 * 0.823, rel=1e-9)


def test_inlet_of_the_same_area() -> None:
    found = separator.find_inlet_diameter(p.Separator(kind="cyclone", inlet_width_m=0.1, inlet_height_m=0.2), 0.15)
    assert found == pytest.approx(math.sqrt(4 * 0.02 / math.pi), rel=1e-9)


def test_gauge_with_every_gate_shut_and_no_leak() -> None:
    # behind the blower nothing is lost where no air moves
    assert find_shut_reading(System(make_project()), 0.0) == pytest.approx(0.0, abs=1e-9)


def test_make_up_opening() -> None:
    # 800 cfm at 5 Pa, Cd 0.6: 0.2181 m2 (338 in2)
    opening = make_up_air.find_opening(800 * CFM, 5.0, STANDARD_DENSITY)
    assert opening == pytest.approx(0.2181, rel=2e-4)
    assert opening / 0.0254**2 == pytest.approx(338, rel=2e-3)


def test_limit_of_air_to_media() -> None:
    # 1 to 2 cfm/ft2 on wood dust in a home shop: common practice, no source
    finding = {f.key: f for f in settle_and_size(make_project()).findings}["filter.air_to_media"]
    assert finding.limit is not None
    assert finding.limit.value / FPM == pytest.approx(2.0, rel=1e-9)

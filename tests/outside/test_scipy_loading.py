"""Loading and look-ups against scipy and numpy: general-purpose root finding, interpolation, distances."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy
import pytest
from scipy.optimize import brentq
from scipy.spatial.distance import euclidean

from calc.airflow.chains import BEST
from calc.airflow.dust import find_box_rate, find_made_rate
from calc.airflow.fitting_table import LIBRARY
from calc.airflow.fittings import find_change, interpolate
from calc.airflow.loading import Threshold, find_load_at, find_media_load
from calc.airflow.system import System
from calc.finding import Said
from calc.settled import place_inlet, place_port, size_box
from calc.sizing.sound_paths import find_paths
from tests.outside.check import hold_against
from tests.shop import make_project

pytestmark = pytest.mark.outside


@pytest.mark.parametrize("where", [0.0, 17.0, 45.0, 52.5, 90.0, 120.0])
def test_interpolation_as_numpy_does_it(where: float) -> None:
    fitting = next(f for f in LIBRARY if f.name == "branch entry")
    published = float(numpy.interp(where, fitting.at, fitting.best))
    hold_against(
        f"branch entry at {where} deg",
        "numpy.interp",
        published,
        interpolate(fitting.at, fitting.best, where),
        abs=1e-12,
    )


def test_sudden_changes_stand_on_the_narrow_side() -> None:
    wide, at = find_change(0.1016, 0.1524, None)
    assert wide.best == pytest.approx((1 - (4 / 6) ** 2) ** 2, rel=1e-12)
    assert at == pytest.approx(0.1016, rel=1e-12)
    narrow, at = find_change(0.2, 0.1, None)
    hold_against(
        "sudden, area 4 to 1",
        "SMACNA HVAC Systems Duct Design 3rd ed. 1990, Table 14-12 A",
        0.41,
        narrow.best,
        rel=1e-12,
    )
    hold_against(
        "it stands on the smaller diameter [m]",
        "SMACNA HVAC Systems Duct Design 3rd ed. 1990, Table 14-12 A",
        0.1,
        at,
        rel=1e-12,
    )


def test_dust_that_reaches_the_filters() -> None:
    # 6 lb/h made, 98.5 % kept: 0.09 lb/h, by mass balance
    project = make_project()
    pound_an_hour = 0.45359237 / 3600
    dust = replace(project.dust, made_kgs=6 * pound_an_hour)
    separator = replace(project.separator, captures=0.985)
    rate = find_box_rate(replace(project, dust=dust, separator=separator)).best / pound_an_hour
    assert rate == pytest.approx(0.09, rel=1e-9)


def test_machines_that_take_turns_make_their_mean() -> None:
    # saw 2 lb/h, planer 10 lb/h, turn about: 6 lb/h while machines run; the shop's own figure comes first
    project = make_project()
    pound_an_hour = 0.45359237 / 3600
    two = tuple(
        replace(m, dust_kgs=rate * pound_an_hour) for m, rate in zip(project.machines[:2], (2.0, 10.0), strict=True)
    )
    guessed = replace(project, machines=two, assumed=("dust.made",))
    assert find_made_rate(guessed) / pound_an_hour == pytest.approx(6.0, rel=1e-12)
    own = replace(guessed, assumed=())
    assert find_made_rate(own) == project.dust.made_kgs


def test_load_that_brings_a_machine_to_its_need() -> None:
    system = System(make_project())
    clean = system.balance(("jointer",))
    wanted = 0.9 * clean.flow["jointer"]
    published = brentq(lambda w: system.balance(("jointer",), BEST, w).flow["jointer"] - wanted, 0.0, 20.0, xtol=1e-11)
    threshold = Threshold("machine need", "jointer", "jointer", wanted, Said("loading.never"))
    found = find_load_at(system, threshold, clean)
    assert found is not None
    hold_against("dust load at 90 % of the flow [kg/m2]", "scipy.optimize.brentq", published, found, rel=1e-6)


def test_load_that_brings_the_media_to_its_limit() -> None:
    project = make_project()
    system = System(replace(project, filters=(replace(project.filters[0], most_pa=300.0),)))
    media = system.bank.find_media

    def find_excess(load: float) -> float:
        return media(system.balance(("planer",), BEST, load).blower_flow, BEST, load) - 300.0

    found = find_media_load(system, "planer")
    assert found is not None
    hold_against("dust load at 300 Pa [kg/m2]", "scipy.optimize.brentq", brentq(find_excess, 0, 20), found[0], rel=1e-6)


def test_way_from_inlet_to_filter() -> None:
    # box 1000 x 500 x 400 mm; inlet in the middle of the left side, filter's opening in the bottom, 300 mm along
    project = make_project()
    inlet = replace(project.box.inlet, face="left")
    box = size_box(project.box, 1000.0, 500.0, 400.0, 1500.0, place_inlet(inlet, 250.0, 200.0))
    port = place_port(next(p for p in project.ports if p.kind == "filter"), 300.0, 250.0)
    [(distance, angle)] = find_paths(box, (port,))
    here, there = (0.0, 0.25, 0.2), (0.3, 0.25, 0.0)
    assert distance == pytest.approx(float(euclidean(here, there)), rel=1e-12)
    assert angle == pytest.approx(math.degrees(math.atan2(0.3, 0.2)), rel=1e-9)

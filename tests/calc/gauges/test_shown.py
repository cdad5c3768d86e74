"""What a gauge has to show where no air is sized: from two readings, or worked out of blower and filters."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from calc import project as p
from calc.gauges.shown import take_readings, take_sizing
from tests.shop import CFM, INH2O, make_curve, make_project, settle_and_size

DISPLAY = make_project().display
TITLE = make_project().title
SHOP = p.Shop(altitude_m=0.0, temperature_k=293.15, humidity=0.0)


def give(**more: object) -> p.Given:
    gauge = p.Gauge(clean_pa=1.1 * INH2O, clean_me_pa=2.6 * INH2O, most_pa=12 * INH2O)
    return replace(p.Given(title=TITLE, display=DISPLAY, shop=SHOP, gauge=gauge), **more)  # type: ignore[arg-type]


def test_two_readings_are_taken_as_they_are() -> None:
    shown = take_readings(give())
    assert (shown.points.clean, shown.points.clean_me, shown.worst_pa) == (1.1 * INH2O, 2.6 * INH2O, 12 * INH2O)
    assert shown.points.is_measured
    assert shown.drop is None
    assert shown.gates == ()


def test_clean_me_by_blower_and_media_is_the_balance_worked_by_hand() -> None:
    """100 ft2 that let 25 cfm/ft2 through at 0.5 inH2O lose 0.0002 inH2O a cfm; no bore to speak of.

    0.2 inH2O is then 1000 cfm. A straight curve of total pressure from 12 inH2O at 0 to 2 at 2000 cfm makes 7 there,
    6.8 of it for the ducts: 6.8 (900/1000)^2 = 5.508 at 10 % less air, where the blower makes 7.5. Left: 1.992.
    """
    media = p.Filter(
        count=1, media_m2=100 * 0.09290304, outside_mm=9e3, bore_mm=8e3, height_mm=900.0, weight_kg=5.0,
        permeability_ms=25 * 0.00508, permeability_pa=0.5 * INH2O,
    )  # fmt: skip
    curve = make_curve(*((q, 12 - q / 200) for q in range(0, 2001, 250)))
    blower = p.Blower(curve=curve, curve_is="total", outlet_m=0.2, power_w=2e3, curve_density=1.2041)
    gauge = p.Gauge(clean_pa=0.2 * INH2O, clean_flow_drop=0.10)
    shown = take_readings(give(gauge=gauge, blower=blower, filters=(media,)))
    assert shown.points.clean_me == pytest.approx(
        1.992 * INH2O, rel=0.005
    )  # the density of dry air at 20 degC, rounded
    assert shown.drop == 0.10
    assert shown.worst_pa == pytest.approx(12 * INH2O, rel=0.001)


def test_a_whole_shop_comes_to_the_same_reading() -> None:
    """What the sizing finds by moving along the blower's curve, found from its own clean reading alone.

    Within 2 %: there the friction of ducts falls by a little less than the square of the air.
    """
    project = make_project(dust=replace(make_project().dust, made_kgs=1e-3))
    sizing = settle_and_size(project)
    loading = [(point.flow_m3s, point.reading_pa) for point in sizing.filters.loading]
    clean_flow = loading[0][0]
    flows, readings = np.array([q for q, _ in loading]), np.array([r for _, r in loading])
    wanted = float(np.interp(-0.99 * clean_flow, -flows, readings))
    gauge = replace(project.gauge, clean_pa=take_sizing(project, sizing).points.clean, clean_flow_drop=0.01)
    alone = give(gauge=gauge, blower=project.blower, filters=project.filters, shop=project.shop)
    assert min(flows) < 0.99 * clean_flow
    assert take_readings(alone).points.clean_me == pytest.approx(wanted, rel=0.02)


@pytest.mark.parametrize(
    "lacking",
    [
        give(gauge=p.Gauge()),
        give(shop=None),
        give(gauge=p.Gauge(clean_pa=200.0)),
        give(gauge=p.Gauge(clean_pa=200.0, clean_flow_drop=None)),
    ],
)
def test_too_little_is_refused(lacking: p.Given) -> None:
    with pytest.raises(ValueError, match=r"no clean reading|no drop in flow|neither blower nor media"):
        take_readings(lacking)


def test_a_reading_that_no_flow_makes_is_refused() -> None:
    project = make_project()
    gauge = p.Gauge(clean_pa=40 * INH2O)
    with pytest.raises(ValueError, match="no flow of this blower"):
        take_readings(give(gauge=gauge, blower=project.blower, filters=project.filters))
    assert CFM > 0

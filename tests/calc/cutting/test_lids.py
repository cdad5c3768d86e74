"""Lids: what is cut out, what touches what, and whether the gasket has land to sit on."""

from __future__ import annotations

import dataclasses
import math

import pytest

from calc.cutting.lids import FilterLid, design_filter_lid, make_filter_lid, make_gauge_lid
from calc.finding import Verdict
from calc.project import Closure, Filter, Gauge
from calc.shapes.shapes import Circle, Layer
from tests.shop import make_project

CARTRIDGE = make_project().filters[0]


def design(cartridge: Filter = CARTRIDGE, **changes: float) -> FilterLid:
    return design_filter_lid(dataclasses.replace(Closure(), **changes), cartridge, ("filter A",))  # type: ignore[arg-type]


def verdict(lid: FilterLid, start: str) -> Verdict:
    return next(f.verdict for f in lid.findings if f.key.startswith(start))


def test_hook_holes_touch_the_inner_edge() -> None:
    lid = design()
    for hook in lid.hooks:
        assert math.hypot(hook.x, hook.y) + lid.hook_mm / 2 == pytest.approx(lid.hook_edge_mm / 2)


def test_opening_leaves_the_land_stated() -> None:
    lid = design(land_outside_mm=268.0, land_mm=12.7)
    assert lid.opening_mm == pytest.approx(268.0 - 2 * 12.7)
    assert lid.land_mm == pytest.approx(12.7)
    assert verdict(lid, "land.") is Verdict.FITS


def test_hook_holes_that_bite_into_the_land_shorten_it() -> None:
    lid = design(hook_edge_mm=289.0)  # hooks reach in to 257.2 mm across, the land runs out to 268 mm
    assert lid.land_mm == pytest.approx((289.0 - 2 * 15.9 - 242.6) / 2)
    assert verdict(lid, "land.") is Verdict.TIGHT


def test_an_opening_that_leaves_no_land_does_not_fit() -> None:
    assert verdict(design(land_mm=1.0), "land.") is Verdict.DOES_NOT_FIT


def test_land_wider_than_the_lid_leaves_no_opening() -> None:
    lid = design(land_mm=140.0)
    assert lid.opening_mm < 0
    assert verdict(lid, "land.") is Verdict.DOES_NOT_FIT
    part = make_filter_lid(lid, "L1", Closure(), 2, False)
    assert not [f for f in part.features if f.layer is Layer.CUT]


def test_a_hook_hole_through_the_rim_does_not_fit() -> None:
    assert verdict(design(hook_edge_mm=312.0), "hooks.") is Verdict.DOES_NOT_FIT
    assert verdict(design(hook_edge_mm=306.0), "hooks.") is Verdict.DOES_NOT_FIT  # 2.5 mm of plastic, 4 wanted


def test_a_gasket_beyond_the_land_does_not_fit() -> None:
    wide = dataclasses.replace(CARTRIDGE, gasket_inside_mm=270.0, gasket_outside_mm=310.0)
    assert verdict(design(wide), "gasket.") is Verdict.DOES_NOT_FIT


def test_a_gasket_on_the_land_fits() -> None:
    good = dataclasses.replace(CARTRIDGE, gasket_inside_mm=244.0, gasket_outside_mm=266.0)
    lid = design(good)
    seat = next(f.value for f in lid.findings if f.key.startswith("gasket."))
    assert seat is not None
    assert seat.value == pytest.approx(11.0)
    assert verdict(lid, "gasket.") is Verdict.FITS


def test_gauge_lid_has_its_fitting_in_the_middle() -> None:
    part = make_gauge_lid(Closure(), Gauge(fitting_hole_mm=9.5), "L3", "gauge")
    holes = [f.shape for f in part.features if f.layer is Layer.DRILL and isinstance(f.shape, Circle)]
    assert len(holes) == 3
    assert (holes[0].centre.x, holes[0].centre.y, holes[0].radius) == (0.0, 0.0, 4.75)
    assert holes[1].centre.x == -holes[2].centre.x

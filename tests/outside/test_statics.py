"""Weights and tipping by elementary statics and geometry, volumes by scipy's quadrature."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any, cast

import pytest
from scipy.integrate import quad

from calc.project import Pail
from calc.strength.handling import CART_CENTRE_MM, DUST_DENSITY, find_stand, find_tip, weigh_pail, weigh_part
from calc.strength.stock import find_stock
from calc.strength.structure import find_share_left
from tests.outside.check import hold_against
from tests.sample import make_project

pytestmark = pytest.mark.outside


def test_dust_in_a_pail_is_the_cones_volume() -> None:
    pail = Pail(top_mm=302.0, bottom_mm=267.0, height_mm=368.0)
    port = cast(Any, SimpleNamespace(port=SimpleNamespace(pail=pail)))
    dust = weigh_pail(port, full=True) - weigh_pail(port, full=False)
    litres = quad(lambda z: math.pi * (0.1335 + (0.151 - 0.1335) * z / 0.368) ** 2, 0, 0.368)[0]
    hold_against("dust in a full pail [kg]", "scipy.integrate.quad, a cone", DUST_DENSITY * litres, dust, rel=1e-9)


def test_panel_weighs_its_volume_less_the_holes() -> None:
    project = make_project()
    hole = SimpleNamespace(diameter_mm=200.0)
    part = cast(Any, SimpleNamespace(width_mm=1000.0, height_mm=500.0, holes=(hole,), thickness_mm=18.0, quantity=2))
    volume = 2 * 0.018 * (0.5 - quad(lambda r: 2 * math.pi * r, 0, 0.1)[0])
    density = find_stock(project.box.panel).density
    hold_against("two panels [kg]", "density times volume", density * volume, weigh_part(project, part), rel=1e-9)


def test_cart_tips_where_its_weight_passes_over_its_wheels() -> None:
    """Moments about the wheel's line vanish at the slope where half the base stands under the centre of weight."""
    project = make_project()
    shape = cast(Any, SimpleNamespace(outside=SimpleNamespace(height=400.0)))
    slope = find_tip(project, shape, (500.0, 700.0), 20.0, 30.0, 15.0)
    assert slope is not None
    underside = project.box.underside_mm or 0.0
    heights = (CART_CENTRE_MM, underside + 200.0, (underside + find_stand(project)) / 2)
    lean = math.radians(slope)
    moment = sum(
        weight * (250.0 * math.cos(lean) - height * math.sin(lean))
        for weight, height in zip((20.0, 30.0, 15.0), heights, strict=True)
    )
    hold_against("moment left at the tipping slope [kg mm]", "statics: sum of moments", 0.0, moment, abs=1e-6)


def test_wood_left_beside_a_hole() -> None:
    """One 200 mm hole in the middle of a 400 x 1000 mm panel leaves 800/1000 of the long side, by geometry."""
    hole = SimpleNamespace(across_mm=500.0, up_mm=200.0, diameter_mm=200.0)
    part = cast(Any, SimpleNamespace(holes=(hole,)))
    left = find_share_left(part, 400.0, 1000.0, across_is_long=True)
    by_hand = min(800 / 1000, 1 - 0.5 * 200 / 400)
    hold_against("share of stiffness left", "geometry: wood left in the line", by_hand, left, rel=1e-12)

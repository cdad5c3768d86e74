"""Weights and tipping by elementary statics and geometry, volumes by scipy's quadrature."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from scipy.integrate import quad, solve_ivp

from calc.box.box import settle_box
from calc.box.joints import measure_box
from calc.box.parts import BoxPart
from calc.box.ports import design_port
from calc.box.standing import Base
from calc.project import Pail, Panel
from calc.stock import find_stock
from calc.strength.handling import find_pull_height, weigh_hanging, weigh_pail, weigh_part
from calc.strength.panels import find_thickness, lay_plate
from calc.strength.plates import bend_supported
from calc.strength.stiffeners import bow_rib, sink_ends
from calc.strength.tipping import (
    Weight,
    find_caster_load,
    find_centre,
    find_nearest_edge,
    find_tip_pull,
    find_tip_slope,
)
from tests.outside.check import hold_against
from tests.shop import make_job, make_project

pytestmark = pytest.mark.outside


def make_panel(at: tuple[float, float], **changes: Any) -> BoxPart:
    """Return the boatshed's bottom panel in other sizes and with one hole of 200 mm."""
    panel = make_job().design.get_part("bottom")
    return replace(panel, holes=(replace(panel.holes[0], across_mm=at[0], up_mm=at[1], diameter_mm=200.0),), **changes)


def test_dust_in_a_pail_is_the_cones_volume() -> None:
    pail = Pail(top_mm=302.0, bottom_mm=267.0, height_mm=368.0)
    port = make_job().design.ports[0]
    port = replace(port, port=replace(port.port, pail=pail))
    project = settle_box(make_project(dust=replace(make_project().dust, bulk_kgm3=200.0)))
    dust = weigh_pail(project, port, full=True) - weigh_pail(project, port, full=False)
    litres = quad(lambda z: math.pi * (0.1335 + (0.151 - 0.1335) * z / 0.368) ** 2, 0, 0.184)[0]
    hold_against("dust in a half full pail [kg]", "scipy.integrate.quad, a cone", 200.0 * litres, dust, rel=1e-9)


def test_panel_weighs_its_volume_less_the_holes() -> None:
    project = make_project()
    part = make_panel((200.0, 250.0), width_mm=1000.0, height_mm=500.0, thickness_mm=18.0, quantity=2)
    volume = 2 * 0.018 * (0.5 - quad(lambda r: 2 * math.pi * r, 0, 0.1)[0])
    density = find_stock(project.box.panel).density
    assert weigh_part(project, part) == pytest.approx(density * volume, rel=1e-9)


BASE = Base(-400.0, 600.0, 0.0, 500.0, (900.0, 420.0))  # wheels at x -350 and 550, y 40 and 460
LADEN = (
    Weight(20.0, 300.0, 250.0, 1300.0),  # box
    Weight(12.0, 300.0, 250.0, 600.0),  # filter and pail
    Weight(25.0, 100.0, 250.0, 250.0),  # cart
    Weight(19.0, -200.0, 250.0, 300.0),  # blower
)


def test_cart_tips_where_its_weight_passes_over_its_wheels() -> None:
    """Moments about the wheels' line vanish at the slope where the base stands under the centre of weight."""
    lean = math.radians(find_tip_slope(LADEN, BASE))
    # about the front wheels, y = 40: the nearest line, 210 mm from all
    moment = sum(w.kg * ((w.y_mm - 40.0) * math.cos(lean) - w.z_mm * math.sin(lean)) for w in LADEN)
    assert moment == pytest.approx(0.0, abs=1e-6)


def test_a_pull_tips_where_its_moment_lifts_the_cart() -> None:
    """By hand: 76 kg, 210 mm inside the front wheels; pulled 1.35 m up: 76 x 9.80665 x 0.210 / 1.35 = 115.9 N."""
    pull = find_tip_pull(LADEN, BASE, 1350.0)
    assert pull == pytest.approx(115.94, abs=0.01)


def test_what_hangs_under_a_port_is_the_sum_of_its_parts() -> None:
    """16 lb of filter, 210 ft2 of media with 50 g/m2 on it, two lids of 0.9 kg and a pail, by hand."""
    project = settle_box(make_project())
    port = design_port(project, next(port for port in project.ports if port.kind == "filter"))
    clean, full = (weigh_hanging(project, port, load) for load in (None, 0.05))
    empty, held = (weigh_pail(project, port, full=full) for full in (False, True))
    by_hand = 16 * 0.45359237 + 2 * 0.9 + empty
    assert clean == pytest.approx(by_hand, rel=1e-9)
    dust = 0.05 * 210 * 0.09290304 + held - empty
    assert full - clean == pytest.approx(dust, rel=1e-9)


def test_a_hose_pulls_in_the_middle_of_the_inlet() -> None:
    """An inlet in the side 200 mm up a box that hangs 1100 mm above the floor: 1300 mm."""
    project = make_project()
    box = replace(project.box, underside_mm=1100.0, inlet=replace(project.box.inlet, across_mm=240.0, up_mm=200.0))
    high = find_pull_height(replace(project, box=box), measure_box(box))
    assert high == pytest.approx(1300.0, rel=1e-12)
    inside = find_nearest_edge(find_centre(LADEN), BASE)
    assert inside == pytest.approx(210.0, rel=1e-12)


def test_a_weight_on_a_caster_is_its_share_by_levers() -> None:
    """By hand: x of the centre (20 300 + 12 300 + 25 100 - 19 200) / 76 = 109.21 mm, 459.21 of 900 mm from the left
    wheels; it lies midway front to back. The right pair bears 459.21/900 of it all, each half, and a third more."""
    by_hand = 76.0 * 459.2105 / 900.0 / 2 * 4 / 3
    assert find_caster_load(LADEN, BASE) == pytest.approx(by_hand, rel=1e-6)
    even = (Weight(60.0, 100.0, 250.0, 500.0),)
    assert find_caster_load(even, BASE) == pytest.approx(20.0, rel=1e-9)


def test_a_centre_beyond_the_wheels_stands_at_no_slope() -> None:
    beyond = (Weight(30.0, 700.0, 250.0, 900.0),)
    assert find_tip_slope(beyond, BASE) == pytest.approx(0.0, abs=1e-12)


def test_a_rib_is_a_beam_of_its_panels_veneers() -> None:
    """A rib of 18 mm MDF, 60 mm high, over 480 mm: the beam's equation solved with scipy."""
    stock = find_stock(Panel(stock="MDF", thickness_mm=18.0, nominal_mm=18.0))
    inertia, load, span = 0.018 * 0.06**3 / 12, 3000.0 * 0.4, 0.48

    def bend(x: float, y: Any) -> list[Any]:
        return [y[1], load / 2 * (x * x - span * x) / (stock.along_pa * inertia)]

    slope = quad(lambda x: load / 2 * (span * x - x * x) / (stock.along_pa * inertia), 0, span / 2)[0]
    bow = float(solve_ivp(bend, (0.0, span / 2), [0.0, slope], rtol=1e-9, atol=1e-12).y[0][-1])
    hold_against(
        "bow of a rib [mm]",
        "scipy.integrate, a beam",
        1000 * bow,
        bow_rib(stock, 18.0, 480.0, 400.0, 3000.0, 60.0),
        rel=1e-6,
    )


def test_how_thick_a_panel_must_be() -> None:
    """A square of MDF, 600 mm, under 2000 Pa: t of Roark's y = 0.0444 q b4 / E t3."""
    panel = Panel(stock="MDF", thickness_mm=10.0, nominal_mm=10.0)
    part = make_panel((100.0, 100.0), thickness_mm=10.0, grain="width")
    stock = find_stock(panel)
    bow = 1000 * bend_supported(lay_plate(stock, part, 600.0, 600.0)).bend(2000.0).bow_m
    computed = find_thickness(panel, part, (600.0, 600.0), (), 2000.0, bow, 2.5)
    by_hand = 1000 * (0.0444 * 2000.0 * 0.6**4 / (stock.along_pa * 0.0025)) ** (1 / 3)
    assert computed == pytest.approx(by_hand, rel=0.006)


def test_what_a_short_rib_rests_on() -> None:
    """A strip 120 mm wide and 60 mm long, pinned at the wall, unable to turn at the rib: F l^3 / 3 E I."""
    stock = find_stock(Panel(stock="birch plywood", thickness_mm=12.0, nominal_mm=12.0))
    part = make_panel((100.0, 100.0), face="front", grain="width", thickness_mm=12.0)
    for axis, modulus in ((2, stock.across_pa), (0, stock.along_pa)):
        sunk = 200.0 * 0.06**3 / (3 * modulus * 0.12 * 0.012**3 / 12)
        computed = sink_ends(stock, part, axis, 60.0, 200.0)
        assert computed == pytest.approx(1000 * sunk, rel=1e-9)

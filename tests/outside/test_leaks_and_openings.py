"""Leaks and make-up air against the leakage class's definition and the orifice equation; cyclone against Lapple."""

from __future__ import annotations

import math

import fluids.flow_meter
import pytest

from calc import make_up_air, separator
from calc import project as p
from calc.air import STANDARD_DENSITY
from calc.network import find_leak, find_seams
from tests.outside.check import hold_against
from tests.sample import CFM, FOOT, INCH, INH2O

pytestmark = pytest.mark.outside


@pytest.mark.parametrize(("pressure", "published"), [(1.0, 6.0), (4.0, 6.0 * 4**0.65)])
def test_leakage_class(pressure: float, published: float) -> None:
    # class 6: 6 cfm per 100 ft2 at 1 inH2O, with the 0.65 power. 100 ft2 of 12 in duct is 31.83 ft
    duct = p.Pipe(12 * INCH / 1000, 100 / math.pi * FOOT)
    seams = find_seams(p.Run("main", "separator", (duct,), leakage_class=6.0))
    leak = find_leak(pressure * INH2O, 0.0, seams, STANDARD_DENSITY) / CFM
    hold_against(
        f"seam leak, class 6, 100 ft2, {pressure:g} inH2O [cfm]",
        "SMACNA HVAC Air Duct Leakage Test Manual",
        published,
        leak,
        rel=1e-5,
    )


def test_gate_leak_is_an_orifice() -> None:
    # effective area (Cd counted in): v = sqrt(2 dp / rho); 4005 fpm at 1 inH2O
    leak = find_leak(INH2O, 1e-4, 0.0, STANDARD_DENSITY)
    hold_against(
        "leak speed at 1 inH2O [fpm]", "ACGIH V = 4005 sqrt(VP), from memory", 4005, leak / 1e-4 / 0.00508, rel=0.002
    )


def test_make_up_opening() -> None:
    # 800 cfm at 5 Pa, Cd 0.6: 0.2181 m2 (338 in2)
    opening = make_up_air.find_opening(800 * CFM, 5.0, STANDARD_DENSITY)
    hold_against("make-up opening, 800 cfm at 5 Pa [m2]", "orifice equation, Cd 0.6", 0.2181, opening, rel=2e-4)
    hold_against("make-up opening [in2]", "orifice equation, Cd 0.6", 338, opening / 0.0254**2, rel=2e-3)
    hold_against(
        "depression of that opening [Pa]",
        "inverse",
        5.0,
        make_up_air.find_depression(800 * CFM, opening, STANDARD_DENSITY),
        rel=1e-9,
    )


def test_make_up_opening_by_library() -> None:
    opening = make_up_air.find_opening(0.4, 5.0, 1.2)
    bore = math.sqrt(4 * opening / math.pi)
    # a hole in a very wide wall: no approach speed, incompressible
    flow = fluids.flow_meter.flow_meter_discharge(D=200.0, Do=bore, P1=101325.0, P2=101320.0, rho=1.2, C=0.6) / 1.2
    hold_against("flow through that opening [m3/s]", "fluids flow_meter_discharge, C 0.6", flow, 0.4, rel=1e-4)


@pytest.mark.parametrize(("flued", "published"), [(True, 2.0), (False, 5.0)])
def test_depression_allowed(flued: bool, published: float) -> None:
    shop = p.Shop(0.0, 294.0, 0.5, 2500.0, clean_air="outdoors", flued_appliance=flued)
    hold_against(
        f"depression allowed, flued heater {flued} [Pa]",
        "combustion-appliance-zone limits",
        published,
        make_up_air.describe_make_up(shop, 0.4, 1.2).depression_pa,
        abs=1e-9,
    )


def test_cut_size() -> None:
    # textbook example: 1.0 m cyclone, W 0.25 m, 150 m3/min, 6 turns, 1,600 kg/m3, 0.075 kg/(m h): 6.26 micrometres
    cut = separator.find_cut_size(0.25, 20.0, 6.0, 0.075 / 3600, 1600.0, 0.0)
    hold_against("cut size [micrometre]", "Lapple 1951, air pollution text, from memory", 6.26, 1e6 * cut, rel=0.01)


@pytest.mark.parametrize(("ratio", "published"), [(1.0, 0.5), (2.0, 0.8), (0.5, 0.2)])
def test_share_caught(ratio: float, published: float) -> None:
    caught = separator.find_share_caught(ratio * 5e-6, 5e-6)
    hold_against(
        f"share caught at {ratio:g} cut sizes", "Theodore and de Paola 1980, from memory", published, caught, rel=1e-9
    )


def test_separator_loss_scales_with_square_and_density() -> None:
    # 2.0 inH2O at 800 cfm: 4.5 at 1,200 cfm; at 0.823 of standard density 3.70
    loss = separator.scale_loss(2.0 * INH2O, 800 * CFM, 1200 * CFM, STANDARD_DENSITY) / INH2O
    hold_against("separator at 1.5 times its flow [inH2O]", "square law", 4.5, loss, rel=1e-9)
    thin = separator.scale_loss(2.0 * INH2O, 800 * CFM, 1200 * CFM, 0.823 * STANDARD_DENSITY) / INH2O
    hold_against("the same at 5,280 ft [inH2O]", "pressure in proportion to density", 4.5 * 0.823, thin, rel=1e-9)


def test_cyclone_without_a_loss_takes_eight_inlet_heads() -> None:
    # 16 H W / De^2 with H = D/2, W = D/4, De = D/2
    item = separator.make_separator_item(p.Separator("cyclone"), 0.15)
    assert item is not None
    assert item.coefficient is not None
    hold_against(
        "cyclone, inlet velocity heads",
        "Shepherd and Lapple 1939, from memory",
        16 * 0.5 * 0.25 / 0.25,
        item.coefficient.best,
        rel=1e-9,
    )


def test_inlet_of_the_same_area() -> None:
    found = separator.find_inlet_diameter(p.Separator("cyclone", inlet_width_m=0.1, inlet_height_m=0.2), 0.15)
    hold_against(
        "round diameter of a 100 x 200 mm inlet [m]", "geometry", math.sqrt(4 * 0.02 / math.pi), found, rel=1e-9
    )

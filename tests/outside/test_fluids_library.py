"""Friction and fittings against the general-purpose library fluids 1.3.1 (Colebrook, Rennels, Crane, Idelchik)."""

from __future__ import annotations

import math

import fluids
import fluids.atmosphere
import fluids.fittings
import fluids.flow_meter
import fluids.friction
import pytest

from calc.airflow import ducts, fittings
from calc.project import Elbow, Taper
from calc.sizing import make_up_air
from tests.outside.check import hold_against
from tests.outside.standard_air import lose

pytestmark = pytest.mark.outside
# inch, cfm, inH2O per 100 ft at roughness 0.0003 ft: fluids.friction_factor, exact Colebrook
POINTS = [
    (4, 200, 2.1987), (4, 350, 6.3722), (4, 400, 8.2352), (5, 400, 2.6596), (5, 500, 4.0704), (5, 600, 5.7743),
    (6, 400, 1.0655), (6, 600, 2.2949), (6, 785.4, 3.8394), (6, 800, 3.9775), (6, 1000, 6.1116), (7, 800, 1.8254),
    (7, 1000, 2.7951), (7, 1200, 3.9667), (8, 1000, 1.4253), (8, 1400, 2.7109), (8, 1600, 3.5044), (10, 1500, 1.0040),
    (10, 2200, 2.0869), (10, 2500, 2.6687),
]  # fmt: skip


IDELCHIK = "ASHRAE Principles of HVAC 9th ed. supplement, fitting 1-1"


@pytest.mark.parametrize(("inches", "cfm", "published"), POINTS)
def test_colebrook_table(inches: float, cfm: float, published: float) -> None:
    hold_against(
        f"friction {inches} in {cfm:g} cfm [inH2O/100 ft]",
        "fluids 1.3.1, exact Colebrook, 0.0003 ft",
        published,
        lose(inches, cfm),
        rel=2e-4,
    )


@pytest.mark.parametrize(
    ("rough_ft", "published"), [(0.0005, 4.335783585), (0.003, 6.720007188), (0.00015, 3.644343369)]
)
def test_other_roughness(rough_ft: float, published: float) -> None:
    hold_against(
        f"friction 6 in 800 cfm, roughness {rough_ft:g} ft [inH2O/100 ft]",
        "fluids one_phase_dP",
        published,
        lose(6, 800, rough_ft),
        rel=1e-5,
    )


@pytest.mark.parametrize(
    ("reynolds", "rough"), [(1e5, 1e-4), (1e5, 0.0), (136000.0, 6e-4), (5000.0, 5e-3), (1000.0, 0.0)]
)
def test_friction_factor(reynolds: float, rough: float) -> None:
    published = fluids.friction_factor(Re=reynolds, eD=rough)
    hold_against(
        f"friction factor Re {reynolds:g}, e/D {rough:g}",
        "fluids.friction_factor",
        published,
        ducts.find_friction_factor(reynolds, rough),
        rel=1e-8,
    )


def test_slope_of_friction_factor() -> None:
    step = 1e-5
    above, below = (fluids.friction_factor(Re=1e5 * (1 + s), eD=6e-4) for s in (step, -step))
    hold_against(
        "slope of friction factor over ln Re",
        "fluids.friction_factor, difference",
        (above - below) / (2 * step),
        ducts.solve_colebrook(1e5, 6e-4)[1],
        rel=1e-5,
    )


def test_smooth_elbow_against_library() -> None:
    # the library counts the friction of the bend's length (1.5 pi/2 D at f 0.02: 0.047); duct tables do not
    whole = fluids.fittings.bend_rounded(
        Di=0.1524, angle=90, bend_diameters=1.5, Re=136000.0, roughness=9.144e-5, method="Ito"
    )
    found = fittings.find_elbow(Elbow(0.1524, make="smooth"))
    hold_against(
        "smooth elbow 6 in r/D 1.5", "fluids bend_rounded (Ito) less friction", whole - 0.047, found.best, rel=0.13
    )


def test_sudden_contraction_band_holds_library() -> None:
    found = fittings.find_contraction(0.1524, 0.1016, None)
    published = fluids.fittings.contraction_sharp(Di1=0.1524, Di2=0.1016)
    hold_against(
        "sudden contraction 6 to 4 in, high", "fluids contraction_sharp (Rennels)", published, found.high, rel=0.06
    )


def test_sudden_expansion() -> None:
    published = fluids.fittings.diffuser_sharp(Di1=0.1016, Di2=0.1524)
    hold_against(
        "sudden expansion 4 to 6 in",
        "fluids diffuser_sharp (Borda and Carnot)",
        published,
        fittings.find_expansion(0.1016, 0.1524, None).best,
        rel=1e-9,
    )


def test_gradual_expansion() -> None:
    found, at = fittings.find_taper(Taper(0.1016, 0.1524, 20.0))
    published = fluids.fittings.diffuser_conical(Di1=0.1016, Di2=0.1524, angle=20, fd=0.0185, method="Crane")
    hold_against("taper 4 to 6 in, 20 deg", "fluids diffuser_conical (Crane)", published, found.best, rel=1e-6)
    assert at == 0.1016
    second = fluids.fittings.diffuser_conical(Di1=0.1016, Di2=0.1524, angle=20, fd=0.0185)
    hold_against("taper 4 to 6 in, 20 deg", "fluids diffuser_conical (Rennels)", second, found.best, rel=0.06)


def test_gradual_contraction() -> None:
    published = fluids.fittings.contraction_conical(Di1=0.1524, Di2=0.1016, angle=30, fd=0.0185)
    hold_against(
        "taper 6 to 4 in, 30 deg",
        "fluids contraction_conical (Rennels)",
        published,
        fittings.find_taper(Taper(0.1524, 0.1016, 30.0))[0].best,
        abs=0.01,
    )


def test_exit_and_entry_of_the_box() -> None:
    hold_against(
        "duct into box",
        "fluids exit_normal",
        fluids.fittings.exit_normal(),
        fittings.look_up("into box").best,
        abs=1e-9,
    )
    hold_against("box into duct", IDELCHIK, 0.50, fittings.look_up("out of box").best, abs=1e-9)
    opening = fluids.fittings.entrance_sharp(method="Idelchik") + fluids.fittings.exit_normal()
    hold_against(
        "filter opening",
        "fluids entrance_sharp (Idelchik) + exit_normal",
        opening,
        fittings.look_up("filter opening").best,
        abs=1e-9,
    )


def test_make_up_opening_by_library() -> None:
    opening = make_up_air.find_opening(0.4, 5.0, 1.2)
    bore = math.sqrt(4 * opening / math.pi)
    # a hole in a very wide wall: no approach speed, incompressible
    flow = fluids.flow_meter.flow_meter_discharge(D=200.0, Do=bore, P1=101325.0, P2=101320.0, rho=1.2, C=0.6) / 1.2
    hold_against("flow through that opening [m3/s]", "fluids flow_meter_discharge, C 0.6", flow, 0.4, rel=1e-4)

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
from calc.airflow.items import make_change_item
from calc.project import Elbow, Taper
from calc.sizing import make_up_air
from tests.outside.check import hold_against
from tests.outside.standard_air import STANDARD, lose
from tests.shop import CFM, FOOT, INH2O

pytestmark = pytest.mark.outside
POINTS = [
    (4, 200), (4, 350), (4, 400), (5, 400), (5, 600), (6, 400), (6, 785.4), (6, 1000), (7, 1000), (8, 1000), (8, 1600),
    (10, 1500), (10, 2500),
]  # fmt: skip


IDELCHIK = "ASHRAE Principles of HVAC 9th ed. supplement, fitting 1-1"


@pytest.mark.parametrize(("inches", "cfm"), POINTS)
@pytest.mark.parametrize(("material", "rough_ft"), [("", 0.0005), ("pvc", 0.00015), ("steel", 0.00015)])
def test_friction_of_a_pipe(material: str, rough_ft: float, inches: float, cfm: float) -> None:
    # the roughness as the handbook's table gives it in feet; ours in millimetres are rounded: 0.2 %
    published = fluids.friction.one_phase_dP(
        m=cfm * CFM * STANDARD.density_kgm3, rho=STANDARD.density_kgm3, mu=STANDARD.viscosity_pas,
        D=inches * 0.0254, roughness=rough_ft * FOOT, L=30.48,
    )  # fmt: skip
    hold_against(
        f"{material or 'galvanised'} {inches} in {cfm:g} cfm [inH2O/100 ft]",
        "fluids one_phase_dP; roughness: ASHRAE Fundamentals, duct roughness table",
        published / INH2O,
        lose(inches, cfm, material),
        rel=2e-3,
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


@pytest.mark.parametrize("ratio", [1.2, 1.44, 1.78, 2.25, 2.78, 4.0, 6.0])
def test_sudden_contraction(ratio: float) -> None:
    """A sudden change of size as two pieces of unlike size that meet have it, small steps (7 into 6 in: 1.36) too."""
    item = make_change_item(0.1 * ratio**0.5, 0.1, "main")
    found = item.coefficient
    assert found is not None
    assert item.diameter_m == pytest.approx(0.1)
    wide = 0.1 * ratio**0.5
    for method in ("Idelchik", "Crane"):
        published = fluids.fittings.contraction_conical(wide, 0.1, angle=180, fd=0.018, Re=136000.0, method=method)
        source = f"fluids contraction_conical ({method}), 180 deg"
        hold_against(f"sudden contraction, areas {ratio:g}:1", source, published, found.best, rel=0.10)
    blevins = fluids.fittings.contraction_conical(wide, 0.1, angle=180, fd=0.018, Re=136000.0, method="Blevins")
    rennels = fluids.fittings.contraction_sharp(Di1=wide, Di2=0.1)
    for name, published in (("contraction_conical (Blevins)", blevins), ("contraction_sharp (Rennels)", rennels)):
        inside = min(max(published, found.low), found.high)
        hold_against(
            f"sudden contraction, areas {ratio:g}:1, in the band", f"fluids {name}", published, inside, rel=0.02
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

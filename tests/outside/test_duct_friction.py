"""Friction of round duct: exact Colebrook by fluids 1.3.1, and the closed forms and charts of trade tables."""

from __future__ import annotations

import fluids
import fluids.friction
import pytest

from calc import ducts
from calc.air import STANDARD_DENSITY
from calc.project import Hose, Pipe
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside
VISCOSITY, INH2O, CFM, FOOT = 1.82e-5, 249.08891, 4.719474432e-4, 0.3048

# inch, cfm, inH2O per 100 ft at roughness 0.0003 ft: fluids.friction_factor, exact Colebrook
POINTS = [
    (4, 200, 2.1987), (4, 350, 6.3722), (4, 400, 8.2352), (5, 400, 2.6596), (5, 500, 4.0704), (5, 600, 5.7743),
    (6, 400, 1.0655), (6, 600, 2.2949), (6, 785.4, 3.8394), (6, 800, 3.9775), (6, 1000, 6.1116), (7, 800, 1.8254),
    (7, 1000, 2.7951), (7, 1200, 3.9667), (8, 1000, 1.4253), (8, 1400, 2.7109), (8, 1600, 3.5044), (10, 1500, 1.0040),
    (10, 2200, 2.0869), (10, 2500, 2.6687),
]  # fmt: skip


def lose(inches: float, cfm: float, rough_ft: float = 0.0003, feet: float = 100.0) -> float:
    """Return our loss in inH2O at standard air."""
    loss = ducts.find_friction_loss(
        cfm * CFM, inches * 0.0254, feet * FOOT, rough_ft * FOOT, STANDARD_DENSITY, VISCOSITY
    )
    return loss / INH2O


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


@pytest.mark.parametrize(("inches", "cfm"), [(4, 350), (6, 800), (8, 1400)])
def test_loeffler_galvanised(inches: float, cfm: float) -> None:
    # ACGIH Industrial Ventilation, Loeffler 1980, from memory; rests on 0.0005 ft: 5 %
    fpm = cfm / (ducts.find_area(inches * 0.0254) / 0.09290304)
    pressure = ducts.find_velocity_pressure(fpm * 0.00508, STANDARD_DENSITY) / INH2O
    published = 0.0307 * fpm**0.533 / cfm**0.612 * 100 * pressure
    hold_against(
        f"galvanised {inches} in {cfm} cfm [inH2O/100 ft]",
        "Loeffler, ACGIH, from memory",
        published,
        lose(inches, cfm, 0.0005),
        rel=0.05,
    )


@pytest.mark.parametrize(("inches", "cfm"), [(4, 350), (6, 800), (10, 2200)])
def test_epa_closed_form(inches: float, cfm: float) -> None:
    # 0.136 (1/D)^1.18 (V/1000)^1.8, US EPA Air Pollution Control Cost Manual, from memory: within 8 %
    fpm = cfm / (ducts.find_area(inches * 0.0254) / 0.09290304)
    published = 0.136 * (12 / inches) ** 1.18 * (fpm / 1000) ** 1.8
    hold_against(
        f"galvanised {inches} in {cfm} cfm [inH2O/100 ft]",
        "US EPA Cost Manual form, from memory",
        published,
        lose(inches, cfm),
        rel=0.08,
    )


@pytest.mark.parametrize(("inches", "cfm", "fpm"), [(14.2, 1000, 900), (18.0, 2000, 1140), (13.9, 1000, 970)])
def test_smacna_chart_speed(inches: float, cfm: float, fpm: float) -> None:
    # SMACNA HVAC Systems Duct Design 1990, figure 14-1, read off the chart: 5 %
    hold_against(
        f"speed, {inches} in {cfm} cfm [fpm]",
        "SMACNA 1990 figure 14-1",
        fpm,
        ducts.find_speed(cfm * CFM, inches * 0.0254) / 0.00508,
        rel=0.05,
    )


def test_smacna_chart_friction() -> None:
    hold_against(
        "friction 14.2 in 1000 cfm [inH2O/100 ft]", "SMACNA 1990 figure 14-1", 0.080, lose(14.2, 1000), rel=0.05
    )


def test_reynolds_number() -> None:
    # Re = 66.4 D V (mm, m/s) at standard air, three figures
    computed = ducts.find_reynolds(20.0, 0.15, STANDARD_DENSITY, 1.81e-5)
    hold_against("Reynolds number 150 mm 20 m/s", "SMACNA 4th ed. Table A-7 note", 66.4 * 150 * 20, computed, rel=0.005)


@pytest.mark.parametrize(("fpm", "published"), [(3000, 0.5601027), (4000, 0.9957381), (4005, 0.9982290)])
def test_velocity_pressure(fpm: float, published: float) -> None:
    # V = 4005 sqrt(VP) is exact for water at 20 degC; conventional inches read 0.18 % less
    pressure = ducts.find_velocity_pressure(fpm * 0.00508, STANDARD_DENSITY) / 249.08891
    hold_against(
        f"velocity pressure at {fpm} fpm [inH2O]", "rho V^2/2, NIST SP 811 units", published, pressure, rel=1e-6
    )
    hold_against(
        f"velocity pressure at {fpm} fpm, trade rule [inH2O]",
        "ACGIH V = 4005 sqrt(VP), from memory",
        (fpm / 4005) ** 2,
        pressure,
        rel=0.003,
    )


@pytest.mark.parametrize(
    ("width", "height", "cfm", "fpm", "pressure"), [(20, 18, 3000, 1200, 0.09), (20, 14, 2000, 1029, 0.07)]
)
def test_smacna_sizing_example(width: float, height: float, cfm: float, fpm: float, pressure: float) -> None:
    speed = cfm * CFM / (width * height * 0.0254**2)
    hold_against(
        f"speed {cfm} cfm in {width} x {height} in [fpm]", "SMACNA 1990 sizing example", fpm, speed / 0.00508, abs=0.6
    )
    computed = ducts.find_velocity_pressure(speed, STANDARD_DENSITY) / INH2O
    hold_against(
        f"velocity pressure {cfm} cfm in {width} x {height} in [inH2O]",
        "SMACNA 1990 sizing example",
        pressure,
        computed,
        abs=0.005,
    )


def test_equivalent_diameter_of_square_duct() -> None:
    # ASHRAE circular equivalents table: 12 x 12 in is 13.1 in round, from memory
    hold_against(
        "round equivalent of 12 x 12 in [in]",
        "ASHRAE circular equivalents, from memory",
        13.1,
        ducts.find_equivalent_diameter(12, 12),
        abs=0.05,
    )


@pytest.mark.parametrize("inches", [4])
def test_case_17_hose_factor(inches: float) -> None:
    # magazine 3; practitioner 2.5 to 3; machine manual 0.28/0.075 = 3.73: common practice, no source
    hose = ducts.lay_hose(Hose(inches * 0.0254, 1.0))
    pipe = lose(inches, 20.32 * ducts.find_area(inches * 0.0254) / CFM, 0.0005, 1 / FOOT)
    factors = []
    for laid in hose:
        flow = 20.32 * ducts.find_area(laid.diameter_m)
        loss = ducts.find_friction_loss(flow, laid.diameter_m, 1.0, laid.roughness_m, STANDARD_DENSITY, VISCOSITY)
        factors.append(loss * laid.factor / INH2O / pipe)
    hold_against(
        f"hose factor {inches} in, low", "trade, common practice, no source (case C17)", 2.5, factors[0], rel=0.02
    )
    hold_against(f"hose factor {inches} in", "trade, common practice, no source (case C17)", 3.0, factors[1], rel=0.02)
    hold_against(f"hose factor {inches} in, high", "machine manual 0.28/0.075 (case C17)", 3.73, factors[2], rel=0.02)


def test_smooth_hose_stretched_is_ashrae_medium_rough() -> None:
    # ASHRAE: flexible duct fully extended, 0.003 ft
    laid = ducts.lay_hose(Hose(0.1524, 30.48, wall="smooth"))[2]
    loss = (
        ducts.find_friction_loss(800 * CFM, 0.1524, laid.length_m, laid.roughness_m, STANDARD_DENSITY, VISCOSITY)
        / INH2O
    )
    hold_against(
        "smooth hose 6 in 800 cfm, high [inH2O/100 ft]", "ASHRAE roughness 0.003 ft by fluids", 6.72, loss, rel=0.02
    )


@pytest.mark.parametrize(
    ("material", "low_ft", "high_ft"),
    [("galvanised", 0.00016, 0.0005), ("spiral", 0.0002, 0.0004), ("pvc", 0.00003, 0.00015)],
)
def test_roughness_band(material: str, low_ft: float, high_ft: float) -> None:
    # ASHRAE Handbook Fundamentals, duct roughness table; millimetres there are rounded
    low, best, high = ducts.lay_pipe(Pipe(0.15, 1.0, material))  # type: ignore[arg-type]
    source = "ASHRAE Fundamentals, duct roughness table"
    hold_against(f"{material}, low roughness [mm]", source, low_ft * 304.8, low.roughness_m * 1000, abs=0.006)
    hold_against(f"{material}, high roughness [mm]", source, high_ft * 304.8, high.roughness_m * 1000, abs=0.006)
    assert low.roughness_m <= best.roughness_m <= high.roughness_m

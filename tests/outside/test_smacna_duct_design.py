"""Charts, elbows, transitions and leakage against SMACNA's duct design and leakage manuals."""

from __future__ import annotations

import math

import fluids
import fluids.atmosphere
import fluids.fittings
import fluids.flow_meter
import fluids.friction
import pytest

from calc import project as p
from calc.airflow import ducts, fittings
from calc.airflow.air import STANDARD_DENSITY
from calc.airflow.balance import find_leak
from calc.airflow.chains import BEST, LOW
from calc.airflow.network import find_seams
from calc.project import Elbow
from tests.outside.check import hold_against
from tests.outside.standard_air import lose
from tests.shop import CFM, FOOT, INCH, INH2O

pytestmark = pytest.mark.outside


A7 = "SMACNA HVAC Systems Duct Design 4th ed. Table A-7"


@pytest.mark.parametrize(("inches", "cfm", "fpm"), [(14.2, 1000, 900), (18.0, 2000, 1140), (13.9, 1000, 970)])
def test_smacna_chart_speed(inches: float, cfm: float, fpm: float) -> None:
    # SMACNA HVAC Systems Duct Design 1990, figure 14-1, read off the chart: 5 %
    hold_against(
        f"speed, {inches} in {cfm} cfm [fpm]",
        "SMACNA HVAC Systems Duct Design 3rd ed. 1990, figure 14-1",
        fpm,
        cfm * CFM / ducts.find_area(inches * 0.0254) / 0.00508,
        rel=0.05,
    )


def test_smacna_chart_friction() -> None:
    # read off the chart, of long pipe, to 5 %: between the seam alone and a shop's short pipes
    low, best = (lose(14.2, 1000, which=which) for which in (LOW, BEST))
    inside = min(max(0.080, low), best)
    hold_against(
        "friction 14.2 in 1000 cfm, in the band [inH2O/100 ft]",
        "SMACNA HVAC Systems Duct Design 3rd ed. 1990, figure 14-1",
        0.080,
        inside,
        rel=0.05,
    )


def test_reynolds_number() -> None:
    # Re = 66.4 D V (mm, m/s) at standard air, three figures
    computed = ducts.find_reynolds(20.0, 0.15, STANDARD_DENSITY, 1.81e-5)
    hold_against("Reynolds number 150 mm 20 m/s", A7 + " note", 66.4 * 150 * 20, computed, rel=0.005)


@pytest.mark.parametrize(
    ("make", "ratio", "published"),
    [
        ("smooth", 0.5, 0.71), ("smooth", 1.0, 0.22), ("smooth", 1.5, 0.15), ("smooth", 2.5, 0.12),
        ("5-piece", 0.75, 0.46), ("5-piece", 1.5, 0.24), ("4-piece", 1.0, 0.37), ("3-piece", 2.0, 0.33),
    ],
)  # fmt: skip
def test_elbow(make: str, ratio: float, published: float) -> None:
    computed = fittings.find_elbow(Elbow(0.15, 90.0, ratio, make)).best  # type: ignore[arg-type]
    hold_against(f"elbow {make}, r/D {ratio:g}", A7, published, computed, abs=1e-9)


@pytest.mark.parametrize(("turn", "published"), [(30, 0.45), (45, 0.60), (60, 0.78), (90, 1.0), (180, 1.40)])
def test_elbow_turn(turn: float, published: float) -> None:
    computed = fittings.find_elbow(Elbow(0.15, turn)).best / fittings.find_elbow(Elbow(0.15)).best
    hold_against(f"elbow turn factor {turn:g} deg", A7 + " note 1", published, computed, abs=1e-9)


@pytest.mark.parametrize(("turn", "published"), [(30, 0.16), (45, 0.34), (90, 1.2)])
def test_mitred_elbow(turn: float, published: float) -> None:
    computed = fittings.find_elbow(Elbow(0.15, turn, make="mitred")).best
    hold_against(f"mitred elbow {turn} deg", A7 + " C", published, computed, abs=1e-9)
    second = fluids.fittings.bend_miter(turn)
    hold_against(f"mitred elbow {turn} deg", "fluids bend_miter (Rennels)", second, computed, rel=0.13)


@pytest.mark.parametrize(
    ("ratio", "angle", "published"), [(2, 30, 0.05), (4, 90, 0.17), (6, 180, 0.42), (10, 120, 0.29)]
)
def test_contraction(ratio: float, angle: float, published: float) -> None:
    computed = fittings.find_contraction(ratio**0.5 * 0.1, 0.1, angle).best
    hold_against(
        f"contraction {ratio}:1, {angle} deg",
        "SMACNA HVAC Systems Duct Design 3rd ed. 1990, Table 14-12 A",
        published,
        computed,
        abs=1e-6,
    )


def test_smacna_transition_example() -> None:
    # C 0.05, VP 0.09 -> 0.005 inH2O (printed to three places)
    c = fittings.find_contraction(0.2**0.5, 0.1**0.5, 30.0).best
    hold_against(
        "transition loss [inH2O]",
        "SMACNA HVAC Systems Duct Design 3rd ed. 1990, sizing example",
        0.005,
        c * 0.09,
        abs=0.0006,
    )


@pytest.mark.parametrize(("pressure", "published"), [(1.0, 6.0), (4.0, 6.0 * 4**0.65)])
def test_leakage_class(pressure: float, published: float) -> None:
    # class 6: 6 cfm per 100 ft2 at 1 inH2O, with the 0.65 power. 100 ft2 of 12 in duct is 31.83 ft
    duct = p.Pipe(12 * INCH / 1000, 100 / math.pi * FOOT)
    seams = find_seams(p.Run("main", "separator", (duct,), leakage_class=6.0))
    leak = find_leak(pressure * INH2O, 0.0, seams, STANDARD_DENSITY) / CFM
    hold_against(
        f"seam leak, class 6, 100 ft2, {pressure:g} inH2O [cfm]",
        "SMACNA HVAC Air Duct Leakage Test Manual, from memory",
        published,
        leak,
        rel=1e-5,
    )

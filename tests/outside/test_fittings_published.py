"""Loss coefficients against SMACNA, ASHRAE and ACGIH tables, and a general-purpose library (fluids 1.3.1)."""

from __future__ import annotations

import fluids.fittings
import pytest

from calc import fittings
from calc.air import STANDARD_DENSITY
from calc.ducts import find_area, find_velocity_pressure
from calc.fitting_table import LIBRARY
from calc.project import Elbow, Hood, Join, Taper
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside
A7 = "SMACNA HVAC Systems Duct Design 4th ed. Table A-7"
ACGIH = "ACGIH Industrial Ventilation 24th ed. figure 3-16"
IDELCHIK = "ASHRAE Principles of HVAC 9th ed. supplement, fitting 1-1"


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


def test_elbow_turn_band_holds_the_other_book() -> None:
    # ACGIH: in proportion to the angle, 45 deg 0.50, from memory
    low = fittings.look_up("elbow turn", 45.0).low
    hold_against("elbow turn factor 45 deg, low", "ACGIH Industrial Ventilation, from memory", 0.50, low, abs=1e-9)


@pytest.mark.parametrize(("make", "published"), [("5-piece", 0.28), ("smooth", 0.14)])
def test_elbow_band_holds_ashrae_six_inch(make: str, published: float) -> None:
    # ASHRAE Fundamentals 2009 CD3-9 and CD3-1, 150 mm, r/D 1.5
    found = fittings.find_elbow(Elbow(0.15, 90.0, 1.5, make))  # type: ignore[arg-type]
    end = found.high if published > found.best else found.best
    hold_against(f"elbow {make} 150 mm", "ASHRAE Fundamentals 2009, CD3-9 and CD3-1", published, end, rel=0.08)
    assert found.low <= published <= found.high * 1.01


@pytest.mark.parametrize(("millimetres", "published"), [(100, 0.57), (150, 0.43), (250, 0.28)])
def test_pleated_elbow(millimetres: float, published: float) -> None:
    computed = fittings.find_elbow(Elbow(millimetres / 1000, make="pleated")).best
    hold_against(f"pleated elbow {millimetres} mm", "ASHRAE Fundamentals 2009, CD3-5", published, computed, abs=1e-9)


@pytest.mark.parametrize(("turn", "published"), [(30, 0.16), (45, 0.34), (90, 1.2)])
def test_mitred_elbow(turn: float, published: float) -> None:
    computed = fittings.find_elbow(Elbow(0.15, turn, make="mitred")).best
    hold_against(f"mitred elbow {turn} deg", A7 + " C", published, computed, abs=1e-9)
    second = fluids.fittings.bend_miter(turn)
    hold_against(f"mitred elbow {turn} deg", "fluids bend_miter (Rennels)", second, computed, rel=0.13)


def test_smooth_elbow_against_library() -> None:
    # the library counts the friction of the bend's length (1.5 pi/2 D at f 0.02: 0.047); duct tables do not
    whole = fluids.fittings.bend_rounded(
        Di=0.1524, angle=90, bend_diameters=1.5, Re=136000.0, roughness=9.144e-5, method="Ito"
    )
    found = fittings.find_elbow(Elbow(0.1524, make="smooth"))
    hold_against(
        "smooth elbow 6 in r/D 1.5", "fluids bend_rounded (Ito) less friction", whole - 0.047, found.best, rel=0.13
    )


@pytest.mark.parametrize(
    ("kind", "published", "source"),
    [
        ("plain", 0.93, ACGIH),
        ("flanged", 0.49, ACGIH),
        ("bellmouth", 0.04, ACGIH),
        ("booth", 0.50, "ACGIH, from memory"),
    ],
)
def test_hood(kind: str, published: float, source: str) -> None:
    hood = Hood(kind, 0.15)  # type: ignore[arg-type]
    hold_against(f"hood {kind}", source, published, fittings.find_hood(hood).best, abs=1e-9)


def test_plain_end_band_holds_both_books() -> None:
    found = fittings.find_hood(Hood("plain", 0.15))
    hold_against("plain duct end, high", IDELCHIK + ", thin wall", 1.0, found.high, abs=1e-9)
    crane = fluids.fittings.entrance_distance(Di=0.1524, t=0.0005, method="Crane")
    hold_against("plain duct end, low", "fluids entrance_distance (Crane)", crane, found.low, abs=1e-9)
    sharp = fluids.fittings.entrance_sharp()
    hold_against(
        "flanged end, high", "fluids entrance_sharp (Rennels)", sharp, fittings.look_up("hood flanged").high, abs=1e-9
    )


@pytest.mark.parametrize(
    ("angle", "rectangular", "published"), [(45, False, 0.06), (90, False, 0.15), (45, True, 0.15), (90, True, 0.25)]
)
def test_tapered_hood(angle: float, rectangular: bool, published: float) -> None:
    hood = Hood("tapered", 0.15, angle, rectangular)
    hold_against(
        f"tapered hood {angle} deg",
        "ACGIH tapered hoods, from memory",
        published,
        fittings.find_hood(hood).best,
        abs=1e-9,
    )


def test_plain_hood_static_pressure() -> None:
    # plain hood at VP 1.00: SPh = VP (1 + C) = 1.93 (ACGIH)
    c = fittings.find_hood(Hood("plain", 0.1)).best
    speed = 4008.551094703223 * 0.00508
    pressure = find_velocity_pressure(speed, STANDARD_DENSITY) / 249.08891
    hold_against("hood static pressure at VP 1.00 [inH2O]", ACGIH, 1.93, pressure * (1 + c), rel=1e-6)


def test_slot_and_cabinet() -> None:
    area = find_area(0.1)
    slot = fittings.find_hood(Hood("slot", 0.1, opening_m2=area)).best - fittings.look_up("slot take-off").best
    hold_against("slot, on slot VP", ACGIH, 1.78, slot, abs=1e-9)
    # a cabinet loses the opening's own speed too: 1/Cd^2 with Cd 0.6
    cabinet = fittings.find_hood(Hood("cabinet", 0.1, opening_m2=area)).best - fittings.look_up("hood flanged").best
    hold_against("cabinet opening, on its VP", "orifice equation, Cd 0.6: 1/0.36", 1 / 0.36, cabinet, abs=0.005)


def test_case_10_sealed_cabinet_starves() -> None:
    # a 4 in hose on a box with a 1 in opening moves nothing: 256 times the area ratio squared
    small = fittings.find_hood(Hood("cabinet", 0.1016, opening_m2=find_area(0.0254))).best
    hold_against(
        "cabinet with 1 in opening, 4 in hose, on duct VP",
        "orifice equation, (4/1)^4 / 0.36",
        256 / 0.36,
        small,
        rel=0.005,
    )


@pytest.mark.parametrize(("angle", "published"), [(30, 0.18), (45, 0.28), (60, 0.44)])
def test_branch_entry(angle: float, published: float) -> None:
    found = fittings.find_join(Join("wye", angle))
    hold_against(f"branch entry {angle} deg", "ACGIH branch entry, from memory", published, found.best, abs=1e-9)
    crane = fluids.fittings.K_branch_converging_Crane(0.1524, 0.1524, 0.1, 0.1, angle)
    hold_against(
        f"branch entry {angle} deg, low", "fluids K_branch_converging_Crane, equal pipes", crane, found.low, rel=0.04
    )


def test_tee_is_a_right_angle_branch() -> None:
    hold_against(
        "branch entry 90 deg",
        "ACGIH branch entry, from memory",
        1.0,
        fittings.find_join(Join("tee", 45.0)).best,
        abs=1e-9,
    )


@pytest.mark.parametrize(
    ("ratio", "angle", "published"), [(2, 30, 0.05), (4, 90, 0.17), (6, 180, 0.42), (10, 120, 0.29)]
)
def test_contraction(ratio: float, angle: float, published: float) -> None:
    computed = fittings.find_contraction(ratio**0.5 * 0.1, 0.1, angle).best
    hold_against(f"contraction {ratio}:1, {angle} deg", "SMACNA 1990 Table 14-12 A", published, computed, abs=1e-6)


def test_smacna_transition_example() -> None:
    # C 0.05, VP 0.09 -> 0.005 inH2O (printed to three places)
    c = fittings.find_contraction(0.2**0.5, 0.1**0.5, 30.0).best
    hold_against("transition loss [inH2O]", "SMACNA 1990 sizing example", 0.005, c * 0.09, abs=0.0006)


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


def test_every_fitting_is_in_order() -> None:
    for fitting in LIBRARY:
        assert len(fitting.low) == len(fitting.best) == len(fitting.high) == max(1, len(fitting.at)), fitting.name
        for low, best, high in zip(fitting.low, fitting.best, fitting.high, strict=True):
            assert low <= best <= high, fitting.name
        assert fitting.source
        assert fitting.conditions
        assert list(fitting.at) == sorted(fitting.at)

"""Hoods, branches, friction and velocity pressure against ACGIH Industrial Ventilation."""

from __future__ import annotations

from dataclasses import replace

import fluids
import fluids.atmosphere
import fluids.fittings
import fluids.flow_meter
import fluids.friction
import pytest

from calc.airflow import ducts, filters, fittings
from calc.airflow.air import STANDARD_DENSITY
from calc.airflow.balance import find_leak
from calc.airflow.chains import BEST
from calc.airflow.ducts import find_area, find_velocity_pressure
from calc.project import Hood, Join
from tests.outside.check import hold_against
from tests.outside.standard_air import STANDARD, lose
from tests.shop import CFM, INH2O, make_project, settle_and_size

pytestmark = pytest.mark.outside


ACGIH = "ACGIH Industrial Ventilation 24th ed. figure 3-16"
IDELCHIK = "ASHRAE Principles of HVAC 9th ed. supplement, fitting 1-1"


LOEFFLER = {"galvanised": (0.0307, 0.533, 0.612), "pvc": (0.0425, 0.465, 0.602)}


@pytest.mark.parametrize(("inches", "cfm"), [(4, 200), (4, 350), (6, 800), (8, 1400), (10, 2500)])
@pytest.mark.parametrize("material", LOEFFLER)
def test_loeffler(material: str, inches: float, cfm: float) -> None:
    # ACGIH Industrial Ventilation, Loeffler 1980, from memory: a V^b / Q^c of the velocity pressure a foot; a fit: 5 %
    a, b, c = LOEFFLER[material]
    fpm = cfm / (ducts.find_area(inches * 0.0254) / 0.09290304)
    pressure = ducts.find_velocity_pressure(fpm * 0.00508, STANDARD_DENSITY) / INH2O
    published = a * fpm**b / cfm**c * 100 * pressure
    # our galvanised is the file's pipe without a material
    computed = lose(inches, cfm, "" if material == "galvanised" else material)
    source = "Loeffler, ACGIH, from memory"
    hold_against(f"{material} {inches} in {cfm} cfm [inH2O/100 ft]", source, published, computed, rel=0.05)


@pytest.mark.parametrize(("fpm", "published"), [(3000, 0.5601027), (4000, 0.9957381), (4005, 0.9982290)])
def test_velocity_pressure(fpm: float, published: float) -> None:
    # V = 4005 sqrt(VP) is exact for water at 20 degC; conventional inches read 0.18 % less
    pressure = ducts.find_velocity_pressure(fpm * 0.00508, STANDARD_DENSITY) / 249.08891
    assert pressure == pytest.approx(published, rel=1e-6)
    assert pressure == pytest.approx((fpm / 4005) ** 2, rel=0.003)


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
    hood = Hood(kind=kind, diameter_m=0.15)  # type: ignore[arg-type]
    hold_against(f"hood {kind}", source, published, fittings.find_hood(hood).best, abs=1e-9)


def test_plain_end_band_holds_both_books() -> None:
    found = fittings.find_hood(Hood(kind="plain", diameter_m=0.15))
    hold_against("plain duct end, high", IDELCHIK, 1.0, found.high, abs=1e-9)
    crane = fluids.fittings.entrance_distance(Di=0.1524, t=0.0005, method="Crane")
    hold_against("plain duct end, low", "fluids entrance_distance (Crane)", crane, found.low, abs=1e-9)
    sharp = fluids.fittings.entrance_sharp()
    hold_against(
        "flanged end, high", "fluids entrance_sharp (Rennels)", sharp, fittings.look_up("hood flanged").high, abs=1e-9
    )


def test_plain_hood_static_pressure() -> None:
    # plain hood at VP 1.00: SPh = VP (1 + C) = 1.93 (ACGIH)
    c = fittings.find_hood(Hood(kind="plain", diameter_m=0.1)).best
    speed = 4008.551094703223 * 0.00508
    pressure = find_velocity_pressure(speed, STANDARD_DENSITY) / 249.08891
    hold_against("hood static pressure at VP 1.00 [inH2O]", ACGIH, 1.93, pressure * (1 + c), rel=1e-6)


def test_slot_and_cabinet() -> None:
    area = find_area(0.1)
    slot = (
        fittings.find_hood(Hood(kind="slot", diameter_m=0.1, opening_m2=area)).best
        - fittings.look_up("slot take-off").best
    )
    hold_against("slot, on slot VP", ACGIH, 1.78, slot, abs=1e-9)
    # a cabinet loses the opening's own speed too: 1/Cd^2 with Cd 0.6
    cabinet = (
        fittings.find_hood(Hood(kind="cabinet", diameter_m=0.1, opening_m2=area)).best
        - fittings.look_up("hood flanged").best
    )
    assert cabinet == pytest.approx(1 / 0.36, abs=0.005)


@pytest.mark.parametrize(("angle", "published"), [(30, 0.18), (45, 0.28), (60, 0.44)])
def test_branch_entry(angle: float, published: float) -> None:
    found = fittings.find_join(Join("wye", angle))
    # Crane's K stands on the velocity pressure of the air together: with the branch alone that is the branch's own
    crane = fluids.fittings.K_branch_converging_Crane(0.1524, 0.1524, 1e-9, 0.1, angle)
    nearest = min(max(crane, found.low), found.high)
    hold_against(f"branch entry {angle} deg, in the band", "fluids K_branch_converging_Crane", crane, nearest, abs=1e-9)


def test_gate_leak_is_an_orifice() -> None:
    # effective area (Cd counted in): v = sqrt(2 dp / rho); 4005 fpm at 1 inH2O
    leak = find_leak(INH2O, 1e-4, 0.0, STANDARD_DENSITY)
    assert leak / 1e-4 / 0.00508 == pytest.approx(4005, rel=0.002)


def test_opening_loss() -> None:
    # 400 cfm through a 9.4 in opening: 830 fpm, VP 0.04286 inH2O at standard air; 1.5 VP
    bank = filters.FilterBank((replace(make_project().filters[0], count=1),), STANDARD)
    loss = bank.members[0].opening[BEST] * (400 * CFM) ** 2 / INH2O
    speed = 400 / (3.14159265 / 4 * (9.4 / 12) ** 2)
    assert loss == pytest.approx(1.5 * (speed / 4005) ** 2, rel=0.004)


def test_hood_suction_in_a_scenario() -> None:
    # SPh = VP (1 + C): 1.93 VP behind a plain end, whatever the flow
    scenario = settle_and_size(make_project()).get_alone("planer")
    hood, row = scenario.machines[0].hoods[0], scenario.ledger[0]
    assert row.velocity_pressure_pa is not None
    hold_against(
        "suction behind the planer's hood [VP]", ACGIH, 1.93, hood.suction_pa / row.velocity_pressure_pa, rel=1e-9
    )

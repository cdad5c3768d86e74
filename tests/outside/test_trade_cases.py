"""Cases of the trade: tables, worked paths and measurements that shop owners and practitioners have written down."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from calc import project as p
from calc.airflow import ducts
from calc.airflow.balance import find_leak
from calc.airflow.chains import BEST
from calc.airflow.scenarios import list_scenarios, solve_scenario
from calc.airflow.system import System
from calc.airflow.velocities import Limits
from calc.finding import Verdict
from calc.measures.quantity import read_amount
from tests.outside.check import hold_against
from tests.outside.standard_air import lose, lose_laid
from tests.shop import CFM, FOOT, INCH, INH2O, make_curve, make_project, make_shop, settle_and_size

pytestmark = pytest.mark.outside
FPM = 0.00508
FAQ = "practitioner's FAQ, smooth pipe table"


def lose_per_foot(inches: float, fpm: float) -> float:
    """Return what a project file's pipe loses, in inH2O a foot."""
    return lose(inches, fpm * FPM * ducts.find_area(inches * INCH / 1000) / CFM, feet=1.0)


@pytest.mark.parametrize(
    ("inches", "fast", "slow"),
    [(3, 0.10, 0.08), (4, 0.07, 0.056), (5, 0.055, 0.044), (6, 0.045, 0.036), (7, 0.038, 0.030), (8, 0.030, 0.024)],
)
def test_case_1_table(inches: float, fast: float, slow: float) -> None:
    hold_against(
        f"{inches} in at 4,000 fpm [inH2O/ft]",
        "common practice, no source",
        fast,
        lose_per_foot(inches, 4000),
        rel=0.15,
    )
    hold_against(
        f"{inches} in at 3,500 fpm [inH2O/ft]",
        "common practice, no source",
        slow,
        lose_per_foot(inches, 3500),
        rel=0.15,
    )


def test_case_1_path() -> None:
    # 5 ft hose at 2x (the page's own example; it says 2.5 to 3x elsewhere), one 90 deg bend at 8 ft, 20 ft smooth: 2.66
    per_foot = lose_per_foot(4, 4000)
    at_two = 5 * per_foot * 2 + 8 * per_foot + 20 * per_foot
    hold_against("path with hose at 2x [inH2O]", "common practice, no source", 2.66, at_two, rel=0.15)
    hose = ducts.lay_hose(p.Hose(4 * INCH / 1000, 5 * FOOT))[BEST]
    at_three = lose_laid(hose, 4000 * FPM * ducts.find_area(hose.diameter_m)) / INH2O + 28 * per_foot
    hold_against("path with our hose [inH2O]", "common practice, no source", 43 * 0.07, at_three, rel=0.15)


@pytest.mark.parametrize(("inches", "end"), [(4, 8.0), (6, 2.0)])
def test_case_13_warns_of_settling(inches: float, end: float) -> None:
    # 30 ft, four bends, a fan that ends at 130 cfm: both sizes must trip the settling finding
    d = inches * INCH / 1000
    run = p.Run("duct", "separator", (p.Pipe(d, 30 * FOOT), p.Elbow(d, count=4)), p.Join("straight", 0.0))
    cutter = p.Machine(
        name="cutter", on="duct", needs_m3s=100 * CFM, pickups=(p.Pickup("port", p.Hood(kind="flanged", diameter_m=d)),)
    )
    curve = make_curve((0, 0.4), (60, 0.3), (130, 0.0))
    shop = make_shop((run,), (cutter,), curve, separator=p.Separator(kind="none"))
    findings = {f.key: f for f in settle_and_size(shop).findings}
    assert findings["velocity.duct"].verdict is Verdict.DOES_NOT_FIT


def test_case_18_filters_at_three_times() -> None:
    # 34 systems: 0.28 inH2O measured where 0.10 was assumed, about three times
    system = System(make_project())
    flow = 700 * CFM
    once = system.bank.find_loss(flow, BEST)[0] - system.bank.find_loss(flow, BEST, times=0.0)[0]
    three = system.bank.find_loss(flow, BEST, times=3.0)[0] - system.bank.find_loss(flow, BEST, times=0.0)[0]
    assert three / once == pytest.approx(0.28 / 0.10, rel=0.08)
    row = settle_and_size(make_project()).get_alone("planer").machines[0]
    assert row.flow.low < row.flow_3x_m3s < row.flow.best


def test_case_23_leak_holes_lower_the_suction_steep_first() -> None:
    # 1/4 in holes opened in the capped pipe of a vacuum: 12, 10, 8, 7, 6 kPa for 0, 2, 4, 6, 8 holes. The vacuum's
    # own curve is not given: a straight line from 12 kPa that the 4-hole point fixes.
    # Read to 1/4 in Hg, 0.85 kPa.
    measured = {0: 12e3, 2: 10e3, 4: 8e3, 6: 7e3, 8: 6e3}
    hole = 0.6 * math.pi / 4 * (0.25 * INCH / 1000) ** 2
    free = find_leak(8e3, 4 * hole, 0.0, 1.2) / (1 - 8 / 12)
    found = {}
    for holes in measured:
        low, high = 0.0, 12e3
        for _ in range(60):
            middle = (low + high) / 2
            if find_leak(middle, holes * hole, 0.0, 1.2) < free * (1 - middle / 12e3):
                low = middle
            else:
                high = middle
        found[holes] = low
    for holes in (2, 6, 8):  # those with none and with four holes fix the vacuum's own curve
        hold_against(
            f"suction with {holes} holes [kPa]",
            "common practice, no source",
            measured[holes] / 1e3,
            found[holes] / 1e3,
            abs=0.85,
        )
    steps = [found[a] - found[b] for a, b in ((0, 2), (2, 4), (4, 6), (6, 8))]
    assert all(step > 0 for step in steps)
    assert steps == sorted(steps, reverse=True)


def test_case_24_blocked_end_hides_a_dirty_filter() -> None:
    # both vacuums 80 in blocked, 5 against nothing flowing: at no flow the filter's drop is nil
    system = System(make_project())
    blocked = system.bank.find_loss(0.0, BEST, areal=5.0)[0]
    assert blocked == pytest.approx(0.0, abs=0.01)
    clean, loaded = (system.balance(("planer",), BEST, areal).flow["planer"] for areal in (0.0, 5.0))
    assert loaded < 0.8 * clean


def test_case_30_blower_power_falls_with_density() -> None:
    shop = make_project()
    high = replace(shop, shop=replace(shop.shop, altitude_m=1609.344, temperature_k=294.26111, humidity=0.0))
    low = replace(shop, shop=replace(shop.shop, altitude_m=0.0, temperature_k=294.26111, humidity=0.0))
    power = [System(s).blower.describe_point(0.4, ()).air_power_w for s in (high, low)]
    hold_against(
        "air power ratio at 5,280 ft, same flow",
        "common practice, no source",
        0.823,
        power[0] / power[1],
        rel=0.002,
    )


@pytest.mark.parametrize(("metres", "fpm"), [(20.0, 3937), (23.0, 4528)])
def test_case_36_two_unit_systems(metres: float, fpm: float) -> None:
    speed = read_amount(f"{metres:g} m/s", "speed_ms") / read_amount("1 fpm", "speed_ms")
    assert speed == pytest.approx(fpm, abs=0.6)


def test_case_36_limit_follows_the_file_and_names_its_origin() -> None:
    # guides disagree on which is faster, branch or main: the file's figures hold, with their origin
    shop = make_project()
    dust = replace(shop.dust, branch_speed_ms=20.0, main_speed_ms=23.0, speed_source="metric guide")
    shop = replace(shop, dust=dust)
    findings = {f.key: f for f in settle_and_size(shop).findings}
    trunk, drop = findings["velocity.trunk"], findings["velocity.planer"]
    assert trunk.limit is not None
    assert drop.limit is not None
    assert trunk.limit.value / FPM == pytest.approx(4528, abs=1)
    assert drop.limit.value / FPM == pytest.approx(3937, abs=1)
    assert trunk.source == drop.source == "metric guide"


def test_case_38_shut_off_loads_lids_and_panels() -> None:
    # a 12 in lid at 10 in w.g. carries 41 lb; a 24 x 48 in panel at 10 in 416 lb
    curve = make_curve((0, 10.0), (800, 8.0), (1500, 2.0))
    shop = make_project()
    shop = replace(shop, blower=replace(shop.blower, curve=curve))
    air = replace(shop.shop, altitude_m=0.0, temperature_k=294.26111, humidity=0.0)
    pressures = settle_and_size(replace(shop, shop=air)).pressures
    pound = 4.4482216
    lid = pressures.box_worst_pa * ducts.find_area(12 * INCH / 1000) / pound
    assert lid == pytest.approx(41, rel=0.01)
    panel = pressures.duct_suction_pa * 24 * 48 * (INCH / 1000) ** 2 / pound
    assert panel == pytest.approx(416, rel=0.01)


def test_fine_dust_needs_less_speed() -> None:
    shop = make_project()
    sander = replace(shop.get_machine("drum sander"), fine_dust=True)
    shop = replace(shop, machines=(*shop.machines[:4], sander))
    system = System(shop)
    limits = Limits(shop, system.network)
    assert limits.find_drop_limit(sander) / FPM == pytest.approx(3000, abs=1)


def test_one_gate_at_a_time_and_all_open_are_both_sized() -> None:
    system = System(make_project())
    solved = [solve_scenario(system, opened) for opened in list_scenarios(system)]
    assert [one.opened.kind for one in solved] == ["alone"] * 5 + ["all"]

"""The balanced tree against the same equations written out and solved by scipy, and against closed forms."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import numpy
import pytest
from fluids import friction_factor
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq, fsolve

from calc import project as p
from calc.airflow.balance import Balance
from calc.airflow.chains import BEST
from calc.airflow.network import Network
from calc.airflow.stretches import name_pickup
from calc.airflow.system import System
from tests.outside.check import hold_against
from tests.outside.standard_air import STANDARD
from tests.shop import CFM, INH2O, make_project, make_shop, settle_and_size

pytestmark = pytest.mark.outside
SCIPY = "scipy.optimize.fsolve with fluids.friction_factor"


def area(d: float) -> float:
    return math.pi * d * d / 4


def darcy(q: float, d: float, length: float, rough: float, factor: float = 1.0) -> float:
    v = q / area(d)
    f = friction_factor(Re=STANDARD.density_kgm3 * v * d / STANDARD.viscosity_pas, eD=rough / d)
    return factor * f * length / d * STANDARD.density_kgm3 * v * v / 2


def kinetic(q: float, d: float, k: float) -> float:
    return k * STANDARD.density_kgm3 / 2 * (q / area(d)) ** 2


def make_three_machines() -> p.Project:
    hood = p.Pickup("port", p.Hood(kind="plain", diameter_m=0.1))
    machines = (
        p.Machine(name="a", on="north", needs_m3s=0.2, pickups=(hood,), pieces=(p.Hose(0.1, 2.0),), gate=p.Gate(0.1)),
        p.Machine(
            name="b",
            on="north",
            needs_m3s=0.2,
            pickups=(p.Pickup("port", p.Hood(kind="flanged", diameter_m=0.125)),),
            pieces=(p.Pipe(0.125, 3.0),),
        ),
        p.Machine(
            name="c",
            on="trunk",
            needs_m3s=0.2,
            pickups=(hood,),
            pieces=(p.Pipe(0.1, 1.5), p.Elbow(0.1, 45.0)),
            gate=None,
            join=p.Join("tee", 90.0),
        ),
    )
    runs = (
        p.Run("trunk", "separator", (p.Pipe(0.15, 6.0), p.Elbow(0.15, count=2)), p.Join("straight", 0.0)),
        p.Run("north", "trunk", (p.Pipe(0.15, 4.0),), p.Join("wye", 30.0)),
    )
    return make_shop(runs, machines)


def test_three_open_machines_share_as_scipy_says() -> None:
    project = make_three_machines()
    system = System(project, STANDARD)
    flows = system.balance(("a", "b", "c"))
    # b is the widest on north, and north that on the trunk: they go straight into the end and take no wye
    enlarge = lambda a, b: (1 - (a / b) ** 2) ** 2  # noqa: E731

    def losses(x: numpy.ndarray) -> list[float]:
        a, b, c, joint, root = x
        north, total = a + b, a + b + c
        la = kinetic(a, 0.1, 0.93 + 0.2 + 0.28 + enlarge(0.1, 0.15)) + darcy(a, 0.1, 2.0, 0.1524e-3, 3.0)
        lb = kinetic(b, 0.125, 0.49 + enlarge(0.125, 0.15)) + darcy(b, 0.125, 3.0, 0.1524e-3)
        lc = kinetic(c, 0.1, 0.93 + 0.24 * 0.6 + 1.0 + enlarge(0.1, 0.15)) + darcy(c, 0.1, 1.5, 0.1524e-3)
        ln = darcy(north, 0.15, 4.0, 0.1524e-3)
        lt = kinetic(total, 0.15, 0.48) + darcy(total, 0.15, 6.0, 0.1524e-3)
        tail = system.find_tail(total, BEST)[0]
        middle = root - lt  # suction where north and c meet
        return [
            (la - joint) / 100, (lb - joint) / 100, (joint + ln - middle) / 100, (lc - middle) / 100,
            (root + tail - system.blower.find_total(total)[0]) / 100,
        ]  # fmt: skip

    found = fsolve(losses, [0.12, 0.2, 0.14, 700.0, 1500.0], xtol=1e-12)
    for name, published in zip("abc", found[:3], strict=True):
        hold_against(f"flow at machine {name}, three open [m3/s]", SCIPY, published, flows.flow[name], rel=1e-7)
    hold_against("suction at the separator [Pa]", SCIPY, found[4], flows.root_suction, rel=1e-7)
    assert flows.residual_pa < 0.1


def test_two_pickups_share_as_scipy_says() -> None:
    pickups = (
        p.Pickup("cabinet", p.Hood(kind="cabinet", diameter_m=0.1, opening_m2=0.01), (p.Hose(0.1, 1.0),)),
        p.Pickup("guard", p.Hood(kind="flanged", diameter_m=0.06), (p.Pipe(0.06, 2.0),)),
    )
    saw = p.Machine(name="saw", on="trunk", needs_m3s=0.2, pickups=pickups, pieces=(p.Pipe(0.125, 1.0),))
    trunk = p.Run("trunk", "separator", (p.Pipe(0.15, 6.0),), p.Join("straight", 0.0))
    system = System(make_shop((trunk,), (saw,)), STANDARD)
    flows = system.balance(("saw",))
    widen = lambda a, b: (1 - (a / b) ** 2) ** 2  # noqa: E731

    def losses(x: numpy.ndarray) -> list[float]:
        one, two, joint = x
        total = one + two
        opening = 2.78 * (area(0.1) / 0.01) ** 2
        l1 = kinetic(one, 0.1, 0.49 + opening + widen(0.1, 0.125)) + darcy(one, 0.1, 1.0, 0.1524e-3, 3.0)
        l2 = kinetic(two, 0.06, 0.49 + 0.28 + widen(0.06, 0.125)) + darcy(two, 0.06, 2.0, 0.1524e-3)
        shared = darcy(total, 0.125, 1.0, 0.1524e-3) + kinetic(total, 0.125, widen(0.125, 0.15))
        rest = darcy(total, 0.15, 6.0, 0.1524e-3) + system.find_tail(total, BEST)[0]
        made = system.blower.find_total(total)[0]
        return [(l1 - joint) / 100, (l2 - joint) / 100, (joint + shared + rest - made) / 100]

    found = fsolve(losses, [0.2, 0.06, 1500.0], xtol=1e-12)
    hold_against(
        "flow at the cabinet port [m3/s]", SCIPY, found[0], flows.flow[name_pickup("saw", "cabinet")], rel=1e-7
    )
    hold_against("flow at the guard port [m3/s]", SCIPY, found[1], flows.flow[name_pickup("saw", "guard")], rel=1e-7)
    assert flows.flow["saw"] == pytest.approx(found[0] + found[1], rel=1e-7)


def test_leaks_as_scipy_says() -> None:
    project = make_project()
    system = System(replace(project, machines=project.machines[:2], runs=project.runs[:2]), STANDARD)
    flows = system.balance(("planer",))
    network = system.network

    def miss(q: float) -> float:
        joint = network.machines["planer"].chains[BEST].find_loss(q)[0]
        through = q + 2e-5 * math.sqrt(2 * joint / STANDARD.density_kgm3)
        suction = joint + sum(network.runs[run].chains[BEST].find_loss(through)[0] for run in ("north", "trunk"))
        return system.blower.find_total(through)[0] - system.find_tail(through, BEST)[0] - suction

    published = brentq(miss, 0.05, 0.8, xtol=1e-14)
    hold_against(
        "planer with a leaking gate beside it [m3/s]",
        "scipy.optimize.brentq",
        published,
        flows.flow["planer"],
        rel=1e-9,
    )


def test_equal_branches_share_equally() -> None:
    hood = p.Pickup("port", p.Hood(kind="plain", diameter_m=0.1))
    machines = tuple(
        p.Machine(name=name, on="trunk", needs_m3s=0.2, pickups=(hood,), pieces=(p.Pipe(0.1, 2.0),)) for name in "abcd"
    )
    # one more, shut, is straight on the trunk's end: the others enter alike
    last = p.Machine(
        name="e", on="trunk", needs_m3s=0.2, pickups=(hood,), gate=p.Gate(0.1), join=p.Join("straight", 0.0)
    )
    trunk = p.Run("trunk", "separator", (p.Pipe(0.2, 6.0),), p.Join("straight", 0.0))
    flows = System(make_shop((trunk,), (*machines, last)), STANDARD).balance(tuple("abcd"))
    for name in "abcd":
        assert flows.flow[name] / flows.blower_flow == pytest.approx(0.25, rel=1e-9)


def test_square_law_closed_form() -> None:
    # a network without friction is p = k Q^2 with k = sum of C rho/2 / A^2
    hood = p.Pickup("port", p.Hood(kind="plain", diameter_m=0.1))
    part = p.OtherPart("screen", 0.15, coefficient=2.5)
    trunk = p.Run("trunk", "separator", (part,), p.Join("straight", 0.0))
    machine = p.Machine(name="a", on="trunk", needs_m3s=0.2, pickups=(hood,))
    network = Network(make_shop((trunk,), (machine,)), STANDARD)
    k = STANDARD.density_kgm3 / 2 * ((0.93 + 0.28 + (1 - 4 / 9) ** 2) / area(0.1) ** 2 + 2.5 / area(0.15) ** 2)
    flows = Balance(network, ("a",)).solve_at(1500.0)
    assert flows.flow["a"] == pytest.approx(math.sqrt(1500 / k), rel=1e-9)
    assert Balance(network, ("a",)).find_demand(flows.blower_flow) == pytest.approx(1500.0, rel=1e-6)


def test_case_5_network_gives_the_flow_at_the_pressure() -> None:
    # worst branch 5.27 inH2O at 500 cfm (square law), nothing else: a fan through 520 cfm at 5.3 in passes
    at = 500 * CFM
    part = p.OtherPart("worst branch", 0.15, loss_pa=5.27 * INH2O, loss_at_m3s=at)
    trunk = p.Run("trunk", "separator", (part,), p.Join("straight", 0.0))
    machine = p.Machine(
        name="a",
        on="trunk",
        needs_m3s=at,
        pickups=(p.Pickup("port", p.Hood(kind="given", diameter_m=0.15, coefficient=0.0)),),
        pieces=(),
        gate=None,
        join=p.Join("straight"),
    )
    network = Network(make_shop((trunk,), (machine,)), STANDARD)
    hold_against(
        "pressure for 500 cfm [inH2O]",
        "common practice, no source",
        5.27,
        Balance(network, ("a",)).find_demand(at) / INH2O,
        rel=1e-6,
    )


def test_clean_me_load_as_scipy_says() -> None:
    # the dust load at which the planer has lost 12 % of its air, found by re-balancing the shop again and again;
    # dust that cakes, so that it comes before the pleats are full
    project = make_project()
    project = replace(project, filters=(replace(project.filters[0], cake_resistance=4e5),))
    system = System(project)
    clean = system.balance(("planer",)).flow["planer"]
    load = brentq(lambda w: system.balance(("planer",), BEST, w).flow["planer"] - 0.88 * clean, 0.0, 20.0, xtol=1e-10)
    clean_me = settle_and_size(project).filters.clean_me
    assert clean_me.criterion == "flow drop"
    hold_against(
        "dust load at clean me [kg/m2]", "scipy.optimize.brentq on the balance", load, clean_me.areal_kgm2, rel=1e-6
    )


def test_humped_blower_curve_by_scipy() -> None:
    # three meeting points of a humped curve (scipy's PCHIP) with a square-law network
    points = ((0.0, 900.0), (0.1, 300.0), (0.2, 1500.0), (0.3, 100.0))
    coil = p.OtherPart("coil", 0.15, loss_pa=330.0, loss_at_m3s=0.1)
    trunk = p.Run("trunk", "separator", (coil,), p.Join("straight"))
    hood = p.Pickup("port", p.Hood(kind="given", diameter_m=0.15, coefficient=0.0))
    machine = p.Machine(
        name="m", on="trunk", needs_m3s=0.1, pickups=(hood,), pieces=(), gate=None, join=p.Join("straight")
    )
    curve = tuple(p.CurvePoint(q, h) for q, h in points)
    system = System(make_shop((trunk,), (machine,), curve, separator=p.Separator(kind="none"), delivery=()), STANDARD)
    flows = system.balance(("m",))
    fan = PchipInterpolator([q for q, _ in points], [h for _, h in points])

    def excess(q: float) -> float:
        outlet = STANDARD.density_kgm3 / 2 * (q / area(0.2032)) ** 2
        return float(fan(q)) + outlet - 330 * (q / 0.1) ** 2 - system.find_tail(q, BEST)[0]

    grid = numpy.linspace(0.01, 0.299, 400)
    roots = [brentq(excess, a, b) for a, b in pairwise(grid) if excess(a) * excess(b) < 0]
    found = system.find_all_crossings(("m",), flows)
    assert len(found) == len(roots) == 3
    for published, computed in zip(roots, found, strict=True):
        hold_against("crossing on a humped curve [m3/s]", "scipy brentq and PCHIP", published, computed, rel=1e-5)


def test_leaking_seams_as_scipy_says() -> None:
    # leakage class 48 on 20 m of 150 mm duct: half its seams leak at the upstream joint, half at the separator
    trunk = p.Run("trunk", "separator", (p.Pipe(0.15, 20.0),), p.Join("straight"), leakage_class=48.0)
    machine = p.Machine(
        name="a",
        on="trunk",
        needs_m3s=0.2,
        pickups=(p.Pickup("port", p.Hood(kind="plain", diameter_m=0.15)),),
        pieces=(),
        gate=None,
        join=p.Join("straight"),
    )
    system = System(make_shop((trunk,), (machine,)), STANDARD)
    flows = system.balance(("a",))
    # class: cfm per 100 ft2 at 1 inH2O, power 0.65 (SMACNA HVAC Air Duct Leakage Test Manual, from memory)
    surface = math.pi * 0.15 * 20.0 / 9.290304

    def leak(suction: float) -> float:
        return 48.0 * CFM * surface / 2 * (suction / INH2O) ** 0.65

    def miss(q: float) -> float:
        joint = kinetic(q, 0.15, 0.93)
        through = q + leak(joint)
        root = joint + darcy(through, 0.15, 20.0, 0.1524e-3)
        total = through + leak(root)
        return system.blower.find_total(total)[0] - system.find_tail(total, BEST)[0] - root

    published = brentq(miss, 0.05, 0.6, xtol=1e-14)
    hold_against("flow with leaking seams [m3/s]", "scipy.optimize.brentq", published, flows.flow["a"], rel=1e-6)
    hoods = flows.flow["a"]
    joint = kinetic(hoods, 0.15, 0.93)
    assert flows.leak_m3s == pytest.approx(leak(joint) + leak(flows.root_suction), rel=1e-6)

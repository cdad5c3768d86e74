"""Shaft power against Faber and Kell's Heating and Air-Conditioning of Buildings, chapter 17 , and Euler."""

from __future__ import annotations

from dataclasses import replace

import pytest
from scipy.optimize import minimize_scalar

from calc.airflow.blower import BlowerModel
from calc.project import Blower, PowerPoint, WheelKind
from tests.outside.check import hold_against
from tests.outside.standard_air import STANDARD
from tests.shop import CFM, INH2O, make_curve, make_project

pytestmark = pytest.mark.outside

FABER = "Faber and Kell's Heating and Air-Conditioning, ch. 17, edition not known; common practice, no source"
EULER = "Euler's relation P = c + x + b x^2, shape good to 10 points, from memory"
PLATE_2_HP = (
    (0, 11.6),
    (400, 11.2),
    (770, 9.4),
    (1200, 6.0),
    (1600, 2.2),
    (1798, 0.2),
)  # cfm, inH2O: an invented blower


def make_model(wheel: WheelKind | None, blower: Blower | None = None) -> BlowerModel:
    return BlowerModel(replace(blower or make_project().blower, wheel=wheel), STANDARD)


def find_share_of_largest(model: BlowerModel) -> float:
    """Return at which share of free flow the shaft takes most, looked for by scipy."""
    found = minimize_scalar(
        lambda share: -model.power.find(share * model.free_flow).best, bounds=(0.0, 1.0), method="bounded",
        options={"xatol": 1e-6},
    )  # fmt: skip
    return float(found.x)


@pytest.mark.parametrize("wheel", ["radial", "forward"])
def test_radial_and_forward_take_most_with_no_duct_on(wheel: WheelKind) -> None:
    # forward: "rises all the way to full opening"; radial: like the backward one "without its power limit"
    hold_against(
        f"{wheel} wheel, share of free flow that takes most",
        FABER,
        1.0,
        find_share_of_largest(make_model(wheel)),
        abs=1e-4,
    )


def test_backward_limits_itself_inside() -> None:
    # self-limiting power, figure 17.3 b: its values were not legible, only that the largest lies inside the curve
    share = find_share_of_largest(make_model("backward"))
    hold_against(
        "backward wheel, share of free flow that takes most, inside", FABER, min(max(share, 0.5), 0.95), share, abs=1e-9
    )


@pytest.mark.parametrize("wheel", ["radial", "forward", "backward", None])
def test_shut_is_the_lightest_load(wheel: WheelKind | None) -> None:
    model = make_model(wheel)
    shut = model.power.find(0.0).best
    powers = [model.power.find(model.free_flow * i / 20).best for i in range(21)]
    hold_against(f"{wheel or 'unknown'} wheel, shut over least power", FABER, 1.0, shut / min(powers), rel=1e-9)


@pytest.mark.parametrize(
    ("wheel", "published"),
    [
        ("radial", (0.21, 0.40, 0.60, 0.80, 1.00)),
        ("forward", (0.125, 0.275, 0.465, 0.70, 1.00)),
        ("backward", (0.38, 0.705, 0.90, 1.00, 0.96)),
    ],
)
def test_shape(wheel: WheelKind, published: tuple[float, ...]) -> None:
    """Power at 0, 25, 50, 75 and 100 % of free flow, over the largest; no printed table was found."""
    model = make_model(wheel)
    powers = [model.power.find(model.free_flow * i / 4).best for i in range(5)]
    largest = model.power.find(find_share_of_largest(model) * model.free_flow).best
    for quarter, (share, power) in enumerate(zip(published, powers, strict=True)):
        hold_against(f"{wheel} wheel, power at {25 * quarter} % of free flow", EULER, share, power / largest, abs=0.10)


@pytest.mark.parametrize("wheel", ["radial", "forward"])
def test_a_two_horsepower_blower_takes_no_less_at_free_flow(wheel: WheelKind) -> None:
    """By constant efficiency it took 2.11 hp at 770 cfm and 1.19 hp at 1,798."""
    blower = replace(make_project().blower, curve=make_curve(*PLATE_2_HP), outlet_m=0.127)
    model = make_model(wheel, blower)
    some, most = (model.power.find(flow * CFM).best for flow in (770, 1798))
    by_euler = {"radial": 1.25 / (0.25 + 770 / 1798), "forward": 1.87 / (0.25 + 770 / 1798 + 0.62 * (770 / 1798) ** 2)}
    hold_against(f"{wheel} wheel, 1,798 over 770 cfm", EULER, by_euler[wheel], most / some, rel=0.05)
    assert most > 1.5 * some


@pytest.mark.parametrize("wheel", ["radial", "forward", "backward"])
def test_best_efficiency_is_the_files(wheel: WheelKind) -> None:
    """Somewhere on the curve the air gets the file's share of the shaft's power, nowhere more."""
    model = make_model(wheel, replace(make_project().blower, efficiency=0.6))
    flows = [model.last_flow * i / 500 for i in range(1, 501)]
    best = max(model.find_air(flow) / model.power.find(flow).best for flow in flows)
    assert best == pytest.approx(0.6, rel=2e-3)


@pytest.mark.parametrize(("density", "speed"), [(0.832, 1.0), (1.0, 1.1), (0.9, 0.95)])
def test_makers_power_curve_by_the_fan_laws(density: float, speed: float) -> None:
    # P ~ rho N^3 at Q ~ N
    points = tuple(PowerPoint(q * CFM, w) for q, w in ((0, 900.0), (800, 1700.0), (1500, 2400.0)))
    blower = replace(make_project().blower, power_curve=points, curve_speed=50.0, runs_at=50.0 * speed)
    air = replace(STANDARD, density_kgm3=blower.curve_density * density)
    power = BlowerModel(blower, air).describe_point(800 * CFM * speed, ()).shaft_power
    assert power.best == pytest.approx(1700.0 * density * speed**3, rel=1e-9)
    assert power.low == power.best == power.high


def test_free_flow_is_where_static_pressure_ends() -> None:
    # to 2.4 inH2O at 1,500 cfm the curve falls 1.4 inH2O in 100 cfm and steeper at its end
    model = make_model("radial")
    assert model.find_static(model.free_flow) / INH2O == pytest.approx(0.0, abs=1e-6)
    assert 1500 < model.free_flow / CFM < 1500 + 100 * 2.4 / 1.4

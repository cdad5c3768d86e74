"""The motor's findings: too small or too large for the blower's air, and what is said of a wheel nobody named."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from calc.finding import Finding, Verdict
from calc.project import PowerPoint
from tests.shop import CFM, make_project, settle_and_size


def find(**changes: Any) -> dict[str, Finding]:
    project = make_project()
    return {f.key: f for f in settle_and_size(replace(project, blower=replace(project.blower, **changes))).findings}


def find_air(**changes: Any) -> float:
    project = make_project()
    return max(settle_and_size(replace(project, blower=replace(project.blower, **changes))).blower.power.air_w)


@pytest.mark.parametrize(("wheel", "most"), [("radial", 0.75), ("forward", 0.65), ("backward", 0.83), (None, 0.83)])
def test_more_in_the_air_than_any_wheel_makes_of_the_plate(wheel: str | None, most: float) -> None:
    air = find_air()
    small = find(wheel=wheel, power_w=0.99 * air / most)["blower.motor_small"]
    assert small.verdict is Verdict.DOES_NOT_FIT
    assert small.limit is not None
    assert small.limit.value == most
    assert "Energy Efficiency" in small.source
    assert small.mends
    assert find(wheel=wheel, power_w=1.01 * air / most)["blower.motor_small"].verdict is Verdict.FITS


@pytest.mark.parametrize(
    ("times", "verdict"),
    [(1.9, Verdict.FITS), (2.1, Verdict.TIGHT), (3.9, Verdict.TIGHT), (4.1, Verdict.DOES_NOT_FIT)],
)
def test_a_motor_that_the_blower_never_loads(times: float, verdict: Verdict) -> None:
    project = make_project()
    sizing = settle_and_size(replace(project, blower=replace(project.blower, wheel="radial")))
    large = find(wheel="radial", power_w=times * max(sizing.blower.power.shaft_w))["blower.motor_large"]
    assert large.verdict is verdict
    assert bool(large.mends) is (verdict is not Verdict.FITS)
    assert "DOE" in large.source


def test_an_unknown_wheel_is_told_and_can_be_named() -> None:
    unknown = find(power_w=2000.0)["blower.motor"]
    assert unknown.verdict is Verdict.DOES_NOT_FIT
    assert "worst of radial, forward and backward" in unknown.source
    assert "judging.motor_wheel" in [mend.phrase for mend in unknown.mends]
    known = find(power_w=2000.0, wheel="radial")["blower.motor"]
    assert "radial wheel" in known.source
    assert "judging.motor_wheel" not in [mend.phrase for mend in known.mends]
    assert known.value is not None
    assert unknown.value is not None
    assert known.value.value <= unknown.value.value


def test_makers_curve_needs_no_wheel() -> None:
    points = tuple(PowerPoint(q * CFM, w) for q, w in ((0, 900.0), (800, 1700.0), (1500, 2400.0)))
    told = find(power_curve=points)["blower.motor"]
    assert told.source == "project file: motor; project file: the maker's power curve"
    assert told.why.phrase == "judging.motor_why"

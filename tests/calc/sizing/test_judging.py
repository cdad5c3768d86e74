"""What the sizing says where the file is silent: curve without shut-off, leaks, efficiency, make-up air."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc import project as p
from calc.airflow.scenarios import list_scenarios, solve_scenario
from calc.airflow.system import System
from calc.airflow.velocities import Limits
from calc.finding import Finding, Verdict
from calc.sizing.checks import check_scenarios
from tests.shop import CFM, INH2O, make_project, settle_and_size


def find(project: p.Project) -> dict[str, Finding]:
    return {f.key: f for f in settle_and_size(project).findings}


def cut_curve(project: p.Project, cfm: float) -> p.Project:
    """Return the project with its blower's curve known from a flow on only."""
    points = [point for point in project.blower.curve if point.flow_m3s > cfm * CFM]
    start = p.CurvePoint(cfm * CFM, System(project).blower.find_static(cfm * CFM))
    return replace(project, blower=replace(project.blower, curve=(start, *points)))


def test_a_curve_without_shut_off_is_said() -> None:
    assert "blower.shut_off" not in find(make_project())
    found = find(cut_curve(make_project(), 300.0))
    assert found["blower.shut_off"].verdict is Verdict.TIGHT
    assert "blower.curve_start" not in found  # every machine draws more than that


def test_flow_before_the_curves_first_point_is_said() -> None:
    project = make_project()
    slowest = min(s.flow.best for s in settle_and_size(project).scenarios if s.kind == "alone")
    found = find(cut_curve(project, 1.02 * slowest / CFM))
    assert found["blower.curve_start"].verdict is Verdict.DOES_NOT_FIT
    value, limit = found["blower.curve_start"].value, found["blower.curve_start"].limit
    assert value is not None
    assert limit is not None
    assert value.value < limit.value


def test_leaks_the_file_does_not_give_are_no_measured_nothing() -> None:
    project = make_project()
    tight = tuple(replace(m, gate=replace(m.gate, leak_m2=0.0)) if m.gate else m for m in project.machines)
    runs = tuple(replace(run, leakage_class=0.0) for run in project.runs)
    silent = find(replace(project, machines=tight, runs=runs))["leaks"]
    assert silent.value is None
    assert silent.margin is None
    given = tuple(replace(run, leakage_class=6.0) for run in project.runs)
    assert find(replace(project, machines=tight, runs=given))["leaks"].value is not None


def test_an_assumed_efficiency_widens_the_power() -> None:
    def check(project: p.Project) -> tuple[float, float, float, str]:
        system = System(project)
        solved = [solve_scenario(system, one) for one in list_scenarios(system)]
        found = check_scenarios(system, Limits(project, system.network), solved)["blower.motor"]
        return found.value.low, found.value.best, found.value.high, found.verdict.value

    known = replace(make_project(), assumed=())
    guessed = replace(known, assumed=("blower.efficiency",))
    sure, wide = check(known), check(guessed)
    assert wide[1] == sure[1]
    assert wide[0] == pytest.approx(sure[0] * 0.55 / 0.65)
    assert wide[2] == pytest.approx(sure[2] * 0.55 / 0.45)
    # a motor that only the far end of the guess overloads is tight
    small = replace(guessed, blower=replace(guessed.blower, power_w=sure[1] * 1.003))
    assert check(small)[3] == "tight"
    assert "assumed" in find(small)["blower.motor"].source
    assert "assumed" not in find(known)["blower.motor"].source


def test_shut_off_of_the_sample_is_its_first_point() -> None:
    assert make_project().blower.curve[0].flow_m3s == 0.0
    assert System(make_project()).blower.find_shut_off() > 5 * INH2O

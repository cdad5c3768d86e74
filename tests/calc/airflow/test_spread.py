"""Bands with several gates open: held against every corner of the coefficients, tried one by one."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest

from calc.airflow import spread
from calc.airflow.chains import BEST, HIGH, LOW
from calc.airflow.scenarios import Opened, find_reading_band, list_scenarios, solve_scenario
from calc.airflow.system import System
from tests.shop import make_project, make_tree


def test_band_of_a_set_reaches_every_corner_and_no_further() -> None:
    system = System(make_project())
    gates = ("band saw", "jointer")
    solved = solve_scenario(system, Opened("both", "set", gates))
    places = list(dict.fromkeys([*gates, *(run for name in gates for run in system.network.walk_down(name))]))
    found = {name: list[float]() for name in places}
    for corner in itertools.product((LOW, HIGH), repeat=len(places)):
        apart = dict(zip(places, corner, strict=True))
        for tail, times in ((HIGH, 3.0), (LOW, 0.5)):
            flows = system.balance(gates, tail, times=times, apart=apart)
            for name in places:
                found[name].append(flows.flow[name])
    for name in places:
        band = solved.find_band(name)
        assert band.low == pytest.approx(min(found[name]), rel=1e-6), name
        assert band.high == pytest.approx(max(found[name]), rel=1e-6), name


def test_no_band_is_flat_where_gates_share_the_air() -> None:
    system = System(make_project())
    for opened in list_scenarios(system):
        if opened.kind != "alone":
            solved = solve_scenario(system, opened)
            for name in opened.open:
                band = solved.find_band(name)
                assert band.low < 0.95 * band.best
                assert band.high > 1.05 * band.best


def test_estimate_for_many_gates_comes_close_to_each_gate_balanced_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    system = System(make_tree(12))
    gates = tuple(m.name for m in system.project.machines)
    opened = Opened("all", "all", gates)
    estimated = solve_scenario(system, opened)
    monkeypatch.setattr(spread, "MOST_APART", 100)
    exact = solve_scenario(system, opened)
    for place in estimated.best.places:
        close, true = estimated.find_band(place), exact.find_band(place)
        assert 0.88 * true.low <= close.low <= 1.10 * true.low, place
        assert 0.90 * true.high <= close.high <= 1.14 * true.high, place


def test_estimate_serves_machines_with_two_pickups(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(spread, "MOST_APART", 1)
    project = make_project()
    saw = project.machines[1]
    second = replace(saw.pickups[0], name="guard")
    double = replace(saw, pickups=(*saw.pickups, second))
    system = System(replace(project, machines=(double, *(m for m in project.machines if m.name != saw.name))))
    names = tuple(m.name for m in system.project.machines)
    assert system.network.pickups[saw.name]
    solved = solve_scenario(system, Opened("all", "all", names))
    for name in names:
        band = solved.find_band(name)
        assert band.low < band.best < band.high


def test_reading_band_holds_ducts_and_filters_erring_against_each_other() -> None:
    system = System(make_project())
    solved = solve_scenario(system, Opened("planer", "alone", ("planer",)))
    band = find_reading_band(system, solved)
    for ducts, filters in itertools.product((LOW, BEST, HIGH), repeat=2):
        times = {LOW: 0.5, BEST: 1.0, HIGH: 3.0}[filters]
        flows = system.balance(("planer",), ducts, times=times, filters_at=filters)
        reading = system.find_reading(flows, ducts, times=times, filters_at=filters)
        assert band.low - 1e-6 <= reading <= band.high + 1e-6
    assert band.low < 0.95 * band.best


def test_drawn_curve_with_high_coefficients_meets_the_blower_at_the_low_end_of_the_band() -> None:
    system = System(make_project())
    solved = solve_scenario(system, Opened("planer", "alone", ("planer",)))
    points = system.find_need(("planer",), 60, HIGH)
    ends = itertools.pairwise(points)
    crossing = next(
        a[0] + (b[0] - a[0]) * gap_a / (gap_a - gap_b)
        for a, b in ends
        for gap_a, gap_b in [(system.blower.find_total(a[0])[0] - a[1], system.blower.find_total(b[0])[0] - b[1])]
        if gap_a >= 0 > gap_b
    )
    assert crossing == pytest.approx(solved.low.blower_flow, rel=2e-3)

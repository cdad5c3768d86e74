"""Pairs of remedies and other ways: only for what does not fit and no single change mends, found by sizing again."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from calc import project as p
from calc.airflow.system import System
from calc.airflow.velocities import Limits
from calc.box.box import settle_box
from calc.finding import Said, Verdict
from calc.results import Sizing
from calc.settled import Settled
from calc.sizing.changes import (
    Change,
    leave_out_elbow,
    list_machine_changes,
    list_run_reroutes,
    list_shop_changes,
    shorten_pipes,
)
from calc.sizing.checks import Check
from calc.sizing.choices import change_filters
from calc.sizing.remedies import BEST_SINGLES, MOST_PAIRED
from calc.sizing.sizing import size_project
from calc.sizing.trials import Trials
from packet.reading.load import load_project
from tests.shop import PROJECTS, make_shop, settle_and_size

DRUM = "flow.drum sander"


@cache
def make_boatshed(times: float) -> Settled:
    """Return the boatshed whose drum sander needs a multiple of its air."""
    project = load_project(PROJECTS / "boatshed.yaml").project
    machines = tuple(
        replace(m, needs_m3s=m.needs_m3s * times) if m.name == "drum sander" else m for m in project.machines
    )
    return settle_box(replace(project, machines=machines))


@cache
def size_boatshed(times: float) -> Sizing:
    return size_project(make_boatshed(times))


def list_phrases(sizing: Sizing, finding: str) -> list[str]:
    return [remedy.what.phrase for remedy in sizing.remedies if remedy.finding == finding]


def test_two_changes_mend_what_neither_mends_alone() -> None:
    sizing = size_boatshed(1.9)
    (pair,) = (remedy for remedy in sizing.remedies if remedy.finding == DRUM)
    assert pair.what.phrase == "remedies.pair"
    assert pair.verdict is not Verdict.DOES_NOT_FIT
    need = sizing.get_alone("drum sander").machines[0].needs_m3s
    assert pair.before.value < need <= pair.after.value
    # the whole shop sized anew with both changes says the same, and each alone falls short
    project = make_boatshed(1.9)
    machine = project.get_machine("drum sander")
    singles = list(list_machine_changes(project, machine))
    both = [next(one for one in singles if one.what == pair.what.names[place]) for place in ("first", "second")]
    again = size_project(both[1].apply(both[0].apply(project)))
    assert again.get_alone("drum sander").machines[0].flow.best == pytest.approx(pair.after.value, rel=1e-6)
    for one in both:
        alone = size_project(one.apply(project)).get_alone("drum sander").machines[0]
        assert alone.flow.best < need
    assert pair.what in {f.key: f for f in sizing.findings}[DRUM].mends


@pytest.mark.parametrize("times", [1.0, 1.5, 1.7])
def test_no_pair_where_it_fits_or_one_change_mends(times: float) -> None:
    sizing = size_boatshed(times)
    assert "remedies.pair" not in [remedy.what.phrase for remedy in sizing.remedies]
    assert bool(list_phrases(sizing, DRUM)) is (times > 1)


def test_what_no_pair_mends_has_none() -> None:
    sizing = size_boatshed(2.6)
    assert {f.key: f for f in sizing.findings}[DRUM].verdict is Verdict.DOES_NOT_FIT
    assert list_phrases(sizing, DRUM) == []


def count_trials(times: float, monkeypatch: pytest.MonkeyPatch) -> int:
    """Return how many changes or pairs are tried by sizing again."""
    sizing, counted = size_project(make_boatshed(times)), 0
    find_after = Trials.find_after

    def count(*given: Any, **more: Any) -> dict[str, Check]:
        nonlocal counted
        counted += 1
        return find_after(*given, **more)

    monkeypatch.setattr(Trials, "find_after", count)
    assert sizing.considered
    monkeypatch.undo()
    return counted


def test_a_shop_that_fits_pays_nothing_for_pairs(monkeypatch: pytest.MonkeyPatch) -> None:
    """Other ways and pairs are tried for what does not fit alone: at most 15 pairs a finding, each once."""
    fits, mended, fails = (count_trials(times, monkeypatch) for times in (1.0, 1.7, 2.6))
    singles = len(list(list_machine_changes(make_boatshed(1.0), make_boatshed(1.0).get_machine("drum sander"))))
    assert mended <= fits + singles
    ways, pairs = 6, BEST_SINGLES * (BEST_SINGLES - 1) // 2  # an elbow and a way of three runs
    assert mended < fails <= mended + ways + pairs
    assert MOST_PAIRED <= 6


def make_winding() -> p.Project:
    """Return a saw at the end of a winding run, which wants a little more air than it gets."""
    d = 0.1524
    winding = (p.Pipe(d, 24.0), p.Elbow(d, count=5), p.Elbow(d, 20.0))
    trunk = p.Run("trunk", "separator", winding, p.Join("straight", 0.0))
    hood = p.Pickup("port", p.Hood(kind="bellmouth", diameter_m=d))
    saw = p.Machine(name="saw", on="trunk", needs_m3s=0.2, pickups=(hood,), pieces=(p.Pipe(d, 1.0),))
    shop = change_filters(make_shop((trunk,), (saw,)), 6)
    shop = replace(shop, blower=replace(shop.blower, power_w=10e3))
    flow = settle_and_size(shop).get_alone("saw").machines[0].flow.best
    # too fast for a wider trunk to carry its dust
    least = 0.97 * flow / (3.1416 / 4 * d**2)
    dust = replace(shop.dust, branch_speed_ms=least, main_speed_ms=least)
    return replace(shop, dust=dust, machines=(replace(saw, needs_m3s=1.005 * flow),))


def test_a_partner_may_mend_what_a_change_breaks() -> None:
    """A shorter way alone would drive too much air through two filters: more of them make it a pair."""
    shop = change_filters(make_winding(), 2)
    (remedy,) = (one for one in settle_and_size(shop).remedies if one.finding == "flow.saw")
    first, second = (remedy.what.names[place] for place in ("first", "second"))
    assert isinstance(first, Said)
    assert isinstance(second, Said)
    assert {first.phrase, second.phrase} == {"remedies.shorten_way", "remedies.more_filters"}


def test_other_ways_are_tried_where_it_does_not_fit() -> None:
    sizing = settle_and_size(make_winding())
    said = [remedy.what for remedy in sizing.remedies if remedy.finding == "flow.saw"]
    assert "remedies.shorten_way" in [what.phrase for what in said]
    assert "remedies.leave_out_elbow" in [what.phrase for what in said]
    assert {what.names.get("place") for what in said} == {"trunk"}


def test_an_elbow_less_takes_the_one_that_turns_most_and_leaves_its_fellows() -> None:
    d = 0.15
    pieces = (p.Elbow(d, 45.0), p.Pipe(d, 8.0), p.Elbow(d, 90.0, count=2), p.Elbow(d, 20.0))
    left = leave_out_elbow(pieces, p.Elbow(d, 90.0))
    assert left == (pieces[0], pieces[1], p.Elbow(d, 90.0, count=1), pieces[3])
    assert leave_out_elbow(left, p.Elbow(d, 90.0)) == (pieces[0], pieces[1], pieces[3])
    assert leave_out_elbow(pieces, p.Elbow(d, 60.0)) == pieces
    assert shorten_pipes(pieces)[1] == p.Pipe(d, 6.0)


def list_all() -> list[Change]:
    system = System(make_boatshed(1.0))
    limits = Limits(system.project, system.network)
    machine = system.project.get_machine("band saw")
    runs = ["trunk", "south"]
    ways = list_run_reroutes(system.project, runs)
    return [*list_machine_changes(system.project, machine), *list_shop_changes(system, limits, runs), *ways]


def test_two_changes_of_one_thing_are_no_pair() -> None:
    knobs = {change.knob: change for change in list_all()}
    wide, hose = knobs["band saw", "size", "0.1270"], knobs["band saw", "hose"]
    trunk, south = knobs["runs", "trunk"], knobs["runs", "south"]
    assert wide.clashes(wide)
    assert not wide.clashes(hose)
    assert not trunk.clashes(south)
    assert trunk.clashes(replace(trunk, knob=("runs",)))
    assert not trunk.clashes(knobs["way", "trunk", "elbow"])
    assert not knobs["filters",].clashes(trunk)

"""The picture of the ducts stays one that can be read, however many machines there are."""

from __future__ import annotations

from packet.draw.steps.ducts import MOST_MACHINES, show_first
from tests.shop import make_project, make_tree


def test_a_large_shop_shows_the_first_machines_and_every_run_they_need() -> None:
    project = make_tree(40)
    shown = show_first(project, "machine 37")
    names = [machine.name for machine in shown.machines]
    assert len(names) == MOST_MACHINES
    assert "machine 37" in names
    runs = {run.name for run in shown.runs}
    assert {machine.on for machine in shown.machines} <= runs
    assert {run.into for run in shown.runs} <= runs | {"separator"}
    assert len(runs) < len(project.runs)


def test_a_small_shop_is_shown_whole() -> None:
    project = make_project()
    assert show_first(project, project.machines[0].name) is project

"""The way from the ducts to the filters: every change of diameter on it is counted, on either side of the blower."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc import project as p
from calc.airflow.ducts import find_area
from calc.airflow.items import Item
from calc.airflow.system import System
from calc.measures.quantity import Reader
from calc.project import Project
from packet.words.say import say
from tests.shop import make_project, settle_and_size


def make_suction(delivery: tuple[p.Piece, ...], inlet_m: float | None = None) -> Project:
    project = make_project()
    blower = replace(project.blower, inlet_m=inlet_m)
    return replace(project, box=replace(project.box, side="suction"), delivery=delivery, blower=blower)


def find_items(project: Project, word: str) -> list[Item]:
    return [item for item in System(project).tail if word in say(item.what, Reader("inch"))]


def test_air_leaves_a_suction_box_at_the_speed_of_the_duct_it_enters() -> None:
    """Loss of a duct flush with a wall stands on that duct's velocity pressure (Idelchik, by ASHRAE fitting 1-1)."""
    (out,) = find_items(make_suction((p.Pipe(0.15, 1.0),)), "out of the box")
    assert out.diameter_m == 0.15
    assert "Idelchik" in out.source
    (plain,) = find_items(make_suction((), inlet_m=0.18), "out of the box")
    assert plain.diameter_m == 0.18


def test_duct_from_a_suction_box_steps_to_the_blowers_inlet() -> None:
    (step,) = find_items(make_suction((p.Pipe(0.15, 1.0),), inlet_m=0.2), "sudden")
    assert step.coefficient is not None
    # sudden enlargement by hand: (1 - (15/20)^2)^2 = 0.1914 on the narrow duct
    assert step.coefficient.best == pytest.approx((1 - (0.15 / 0.2) ** 2) ** 2)
    assert step.section == "delivery"
    assert not find_items(make_suction((p.Pipe(0.2, 1.0),), inlet_m=0.2), "sudden")


def test_without_a_separator_the_trunk_steps_to_the_link() -> None:
    project = make_project()
    bare = replace(project, separator=p.Separator(kind="none"), link=(p.Pipe(0.25, 1.0),))
    (step,) = [item for item in find_items(bare, "sudden") if item.section == "link"]
    trunk = System(bare).network.root_diameter
    assert step.coefficient is not None
    assert step.coefficient.best == pytest.approx((1 - find_area(trunk) / find_area(0.25)) ** 2)
    with_one = replace(bare, separator=project.separator)
    assert not [item for item in find_items(with_one, "sudden") if item.section == "link"]


def test_suction_box_is_built_for_its_highest_running_pressure_not_for_the_loaded_one() -> None:
    sizing = settle_and_size(make_suction((p.Pipe(0.2, 1.0),)))
    scenario = sizing.at_gauge
    assert scenario.reading.best > scenario.reading_clean_me_pa  # it falls as the filters load
    assert sizing.pressures.box_running_pa >= scenario.reading.high

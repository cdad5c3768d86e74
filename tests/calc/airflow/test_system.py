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
from tests.shop import make_project


def find_items(project: Project, word: str) -> list[Item]:
    return [item for item in System(project).tail if word in say(item.what, Reader("inch"))]


def test_without_a_separator_the_trunk_steps_to_the_link() -> None:
    project = make_project()
    bare = replace(project, separator=p.Separator(kind="none"), link=(p.Pipe(0.25, 1.0),))
    (step,) = [item for item in find_items(bare, "sudden") if item.section == "link"]
    trunk = System(bare).network.root_diameter
    assert step.coefficient is not None
    assert step.coefficient.best == pytest.approx((1 - find_area(trunk) / find_area(0.25)) ** 2)
    with_one = replace(bare, separator=project.separator)
    assert not [item for item in find_items(with_one, "sudden") if item.section == "link"]

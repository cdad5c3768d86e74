"""The fittings library is in order: spread around the best value, source and conditions on every entry."""

from __future__ import annotations

import ast
from pathlib import Path
from typing import get_args

import pytest

from calc.airflow import fittings
from calc.airflow.fitting_table import LIBRARY
from calc.project import Elbow, ElbowMake, Hood, HoodKind

CALC = Path(__file__).parents[3] / "calc"
ITEMS = CALC.parent / "templates" / "findings" / "items.md"


def test_every_fitting_is_in_order() -> None:
    for fitting in LIBRARY:
        assert len(fitting.low) == len(fitting.best) == len(fitting.high) == max(1, len(fitting.at)), fitting.name
        for low, best, high in zip(fitting.low, fitting.best, fitting.high, strict=True):
            assert low <= best <= high, fitting.name
        assert fitting.source
        assert fitting.conditions
        assert list(fitting.at) == sorted(fitting.at)


def test_every_fitting_is_asked_for() -> None:
    """By its whole name, or by a kind of hood or make of elbow that the project file can name."""
    asked = {
        node.value
        for path in CALC.rglob("*.py")
        if path.name != "fitting_table.py"
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    asked |= {f"elbow {make}" for make in get_args(ElbowMake)} | {f"hood {kind}" for kind in get_args(HoodKind)}
    asked |= {"hood tapered round", "hood tapered rectangular"}
    lost = [fitting.name for fitting in LIBRARY if fitting.name not in asked]
    assert not lost, "nothing asks for it: a hood is a HoodKind, an elbow an ElbowMake, both in calc/project.py"


@pytest.mark.parametrize("kind", get_args(HoodKind))
def test_every_hood_has_its_coefficient_and_its_words(kind: HoodKind) -> None:
    assert fittings.find_hood(Hood(kind=kind, diameter_m=0.125, opening_m2=0.01, coefficient=0.5)).best > 0
    assert f"\nhood_{kind}: " in ITEMS.read_text("utf-8"), "templates/findings/items.md lacks its line"


@pytest.mark.parametrize("make", get_args(ElbowMake))
def test_every_elbow_has_its_coefficient(make: ElbowMake) -> None:
    assert fittings.find_elbow(Elbow(0.15, make=make)).best > 0


@pytest.mark.parametrize("make", ["4-piece", "5-piece"])
@pytest.mark.parametrize("radius", [0.5, 0.6, 0.74])
def test_tight_elbow_of_many_gores_is_taken_as_three(make: str, radius: float) -> None:
    tight = fittings.find_elbow(Elbow(0.15, radius_ratio=radius, make=make))  # type: ignore[arg-type]
    three = fittings.find_elbow(Elbow(0.15, radius_ratio=radius, make="3-piece"))
    assert tight.best == three.best
    assert "three gores" in tight.source
    assert "three gores" not in fittings.find_elbow(Elbow(0.15, make=make)).source  # type: ignore[arg-type]


def test_radius_below_a_table_is_said() -> None:
    assert "below the table" in fittings.find_elbow(Elbow(0.15, radius_ratio=0.4, make="smooth")).source
    assert "below the table" not in fittings.find_elbow(Elbow(0.15, radius_ratio=0.5, make="smooth")).source

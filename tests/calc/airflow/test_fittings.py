"""The fittings library is in order: spread around the best value, source and conditions on every entry."""

from __future__ import annotations

import pytest

from calc.airflow import fittings
from calc.airflow.fitting_table import LIBRARY
from calc.project import Elbow


def test_every_fitting_is_in_order() -> None:
    for fitting in LIBRARY:
        assert len(fitting.low) == len(fitting.best) == len(fitting.high) == max(1, len(fitting.at)), fitting.name
        for low, best, high in zip(fitting.low, fitting.best, fitting.high, strict=True):
            assert low <= best <= high, fitting.name
        assert fitting.source
        assert fitting.conditions
        assert list(fitting.at) == sorted(fitting.at)


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

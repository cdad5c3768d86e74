"""Turns of the air in a cyclone whose body is known."""

from __future__ import annotations

import pytest

from calc.airflow.separator import USUAL_TURNS, find_turns
from calc.project import Separator


@pytest.mark.outside
def test_the_conventional_cyclone_has_six_turns() -> None:
    """Lapple's proportions: inlet height half the body, barrel and cone two bodies long each: N = 6 (from memory)."""
    assert find_turns(Separator(kind="cyclone", inlet_height_m=0.25, body_diameter_m=0.5)) == pytest.approx(6.0)


def test_the_files_own_turns_win_and_without_a_body_the_usual_are_taken() -> None:
    assert find_turns(Separator(kind="cyclone", inlet_height_m=0.25, body_diameter_m=0.5, turns=4.0)) == 4.0
    assert find_turns(Separator(kind="cyclone", inlet_height_m=0.25)) == USUAL_TURNS
    assert (
        find_turns(Separator(kind="cyclone", inlet_height_m=0.02, body_diameter_m=1.8)) == 20.0
    )  # the file's own limit

"""Lifting against the NIOSH equation's load constant."""

from __future__ import annotations

import pytest

from calc.project import Methods
from calc.strength.lifting import find_hand_limit
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside


def test_lift_limit() -> None:
    source = "NIOSH lifting equation 1991, load constant 23 kg (51 lb), from memory"
    hold_against("most for one person [kg]", source, 23.0, Methods().lift_limit_kg, rel=0.02)


@pytest.mark.parametrize(("hands_cm", "multiplier"), [(0, 0.78), (75, 1.00), (120, 0.87), (175, 0.70), (176, 0.00)])
def test_hands_lift_less_the_higher_they_are(hands_cm: int, multiplier: float) -> None:
    source = "NIOSH 94-110, table of the vertical multiplier, from memory"
    # the table is printed to two places
    hold_against(f"share lifted at {hands_cm} cm", source, multiplier, find_hand_limit(1.0, hands_cm * 10.0), abs=0.006)

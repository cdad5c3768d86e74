"""Lifting against the NIOSH equation's load constant."""

from __future__ import annotations

import pytest

from calc.strength.lifting import find_hand_limit
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside


@pytest.mark.parametrize(("hands_cm", "multiplier"), [(0, 0.78), (75, 1.00), (120, 0.87), (175, 0.70), (176, 0.00)])
def test_hands_lift_less_the_higher_they_are(hands_cm: int, multiplier: float) -> None:
    source = "NIOSH 94-110, table of the vertical multiplier, from memory"
    # the table is printed to two places
    hold_against(f"share lifted at {hands_cm} cm", source, multiplier, find_hand_limit(1.0, hands_cm * 10.0), abs=0.006)

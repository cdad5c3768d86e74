"""Arm access and reach against human-factors figures (MIL-STD-1472 and its sources)."""

from __future__ import annotations

import pytest

from calc.box.reach import ARM_MM, ARM_OPENING_MM
from tests.outside.check import hold_against
from tests.shop import INCH

pytestmark = pytest.mark.outside


def test_arm_opening() -> None:
    source = "MIL-STD-1472, access opening for an arm to the shoulder, light clothing, 5 in, from memory"
    hold_against("opening for an arm [in]", source, 5.0, ARM_OPENING_MM / INCH, rel=0.02)


def test_reach_is_a_short_arm() -> None:
    """Thumb-tip reach of a small woman is 677 mm from the wall behind her back; the shoulder takes about 80 mm of it.
    ISO 13857 keeps people 850 mm away through openings an arm fits: nobody's arm is longer than that."""
    source = "thumb-tip reach, 5th percentile woman, 677 mm less 80 mm of shoulder (US Army survey 1988), from memory"
    hold_against("reach through an opening [mm]", source, 597, ARM_MM, rel=0.03)
    assert ARM_MM < 850.0  # ISO 13857 Table 4, reaching through round openings, from memory

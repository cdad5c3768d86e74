"""Arm access and reach against human-factors figures (from memory)."""

from __future__ import annotations

from calc.box.reach import ARM_MM


def test_reach_is_a_short_arm() -> None:
    """Thumb-tip reach of a small woman is 677 mm from the wall behind her back; the shoulder takes about 80 mm of it.
    ISO 13857 keeps people 850 mm away through openings an arm fits: nobody's arm is longer than that."""
    assert ARM_MM < 850.0  # ISO 13857 Table 4, reaching through round openings, from memory

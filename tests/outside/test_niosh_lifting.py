"""Lifting against the NIOSH equation's load constant."""

from __future__ import annotations

import pytest

from calc.project import Methods
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside


def test_lift_limit() -> None:
    source = "NIOSH lifting equation 1991, load constant 23 kg (51 lb), from memory"
    hold_against("most for one person [kg]", source, 23.0, Methods().lift_limit_kg, rel=0.02)

"""A loaded cart against the stability asked of appliances."""

from __future__ import annotations

import pytest

from calc.strength.handling import TIP_DEG
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside


def test_tip_test() -> None:
    """A loaded cart is held to the slope that free-standing appliances are."""
    hold_against("tip test [deg]", "IEC 60335-1 clause 20.1, from memory", 10.0, TIP_DEG, abs=1e-9)

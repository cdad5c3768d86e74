"""Lag screws against the National Design Specification for Wood Construction."""

from __future__ import annotations

import pytest

from calc.strength.fasteners import find_lag_withdrawal
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside


@pytest.mark.parametrize(("inches", "published"), [(0.25, 225), (0.3125, 266), (0.375, 305)])
def test_lag_withdrawal(inches: float, published: float) -> None:
    source = "ANSI/AWC NDS Table 12.2A, G 0.50, from memory"
    computed = find_lag_withdrawal(0.50, inches * 25.4, 25.4) / 4.4482216
    hold_against(f"{inches} in lag screw [lbf/in]", source, published, computed, rel=0.01)

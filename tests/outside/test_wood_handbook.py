"""Screws and boards against the USDA Forest Products Laboratory's Wood Handbook."""

from __future__ import annotations

import pytest

from calc.project import Panel
from calc.strength.fasteners import EDGE_SHARE, WITHDRAWAL_FACTOR, find_withdrawal
from calc.strength.stock import find_stock
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside

POUND = 4.4482216
SCREWS = "USDA FPL, Wood Handbook (FPL-GTR-282), ch. 8, withdrawal of wood screws 15 700 G2 D L, from memory"


@pytest.mark.parametrize(("gravity", "published"), [(0.70, 1261.652), (0.50, 643.7)])
def test_withdrawal_in_inches(gravity: float, published: float) -> None:
    computed = find_withdrawal(gravity, 0.164 * 25.4, 25.4) / POUND
    hold_against(f"No. 8, 1 in deep, G {gravity} [lbf]", SCREWS, published, computed, rel=0.001)


def test_allowed_withdrawal_table() -> None:
    """2850 G2 D is the allowed load per inch: 109 lbf for G 0.45 and D 0.190 in; ultimate over 5.5."""
    source = "allowed withdrawal of wood screws, 2850 G2 D: 109 lbf per inch printed for G 0.45, D 0.190 in"
    computed = find_withdrawal(0.45, 0.190 * 25.4, 25.4) / POUND / (15700 / 2850)
    hold_against("No. 10, G 0.45 [lbf/in]", source, 109, computed, rel=0.01)
    assert 5.0 <= WITHDRAWAL_FACTOR <= 6.0  # a fifth to a sixth of the ultimate (design practice, from memory)


def test_end_grain() -> None:
    hold_against("end grain over side grain", "Wood Handbook ch. 8, from memory", 0.75, EDGE_SHARE, abs=1e-9)
    with pytest.raises(ValueError, match="negative"):
        find_withdrawal(0.5, -1.0, 10.0)


@pytest.mark.parametrize(
    ("stock", "low", "high", "source"),
    [
        ("birch plywood", 6.96e9, 8.55e9, "Wood Handbook (FPL-GTR-282) Table 12-1, from memory"),
        ("3/4 MDF", 3.59e9, 4.0e9, "Wood Handbook Table 12-1, from memory; another table citing it says 4.0"),
        ("OSB", 1.92e9, 3.17e9, "Wood Handbook (FPL-GTR-190) Table 12-3, perpendicular"),
    ],
)
def test_stiffness_is_the_low_end(stock: str, low: float, high: float, source: str) -> None:
    modulus = find_stock(Panel(stock, 18.0, 18.0)).bending_pa
    hold_against(f"modulus of {stock} [GPa]", source, low / 1e9, modulus / 1e9, rel=0.005)
    assert modulus <= high

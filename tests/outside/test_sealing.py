"""How far a cartridge of sealant goes."""

from __future__ import annotations

import math

import pytest

from calc.strength.sealing import CARTRIDGE_M3, find_bead_volume
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside
FOOT_MM = 304.8


def find_yield(bead_mm: float) -> float:
    """Return how many feet of round bead a cartridge gives."""
    return CARTRIDGE_M3 / find_bead_volume(FOOT_MM, bead_mm)


def test_cartridge_volume() -> None:
    from pint import UnitRegistry

    published = UnitRegistry().Quantity(10.1, "fluid_ounce").to("mL").magnitude
    assert pytest.approx(published, rel=1e-9) == CARTRIDGE_M3 * 1e6


@pytest.mark.parametrize(("bead_in", "feet"), [(1 / 8, 123.77), (3 / 16, 55.01), (1 / 4, 30.94), (3 / 8, 13.75)])
def test_round_bead_yield(bead_in: float, feet: float) -> None:
    assert find_yield(bead_in * 25.4) == pytest.approx(feet, rel=0.001)


def test_makers_print_a_square_bead() -> None:
    """Labels give 24 to 25 ft for a 1/4 in square bead; a round one has pi/4 of its area."""
    computed = find_yield(6.35) * math.pi / 4
    hold_against(
        "yield of a 1/4 in square bead [ft]",
        "common practice, no source (labels: 24 to 25 ft)",
        24.5,
        computed,
        abs=0.5,
    )


def test_bad_beads() -> None:
    with pytest.raises(ValueError, match="negative"):
        find_bead_volume(-1.0, 6.0)

"""Plywood stiffness against the rated panels of APA's Panel Design Specification."""

from __future__ import annotations

import pytest

from calc.project import Panel
from calc.stock import find_stock
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside


def test_plywood_against_rated_panels() -> None:
    """Stiffness EI of rated panels over t^3 gives 0.93 to 1.12e6 psi along the strength axis."""
    source = "APA Panel Design Specification D510 Table 4A, EI of 40/20 panels over 23/32 in cubed, from memory"
    implied = 225_000 / 12 * 12 / (0.594**3)  # lbf in2/ft of 19/32 in panels: E = EI / (12 t^3 / 12)
    modulus = find_stock(Panel(stock="fir plywood", thickness_mm=15.1, nominal_mm=15.1)).along_pa / 6894.757
    hold_against("modulus of plywood [psi]", source, implied, modulus, rel=0.12)
    own = find_stock(Panel(stock="birch plywood", thickness_mm=18.0, nominal_mm=18.0, bending_pa=9e9))
    assert own.along_pa == 9e9
    assert own.source.startswith("project file")

"""Paper sizes: ISO 216 (A series) and ASME/ANSI Y14.1 (letter and tabloid), held against reportlab's table.

reportlab.lib.pagesizes cites ISO 216 in its head; the sizes of the standards themselves are from memory.
"""

from __future__ import annotations

import pytest
from reportlab.lib import pagesizes

from packet.fields.shop import PAPERS
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside

MM = 72 / 25.4


@pytest.mark.parametrize("name", sorted(PAPERS))
def test_against_reportlab(name: str) -> None:
    table = {
        "letter": pagesizes.LETTER,
        "legal": pagesizes.LEGAL,
        "tabloid": (792.0, 1224.0),
        "a4": pagesizes.A4,
        "a3": pagesizes.A3,
    }
    for side, points in zip(PAPERS[name], table[name], strict=True):
        hold_against(f"{name} side [pt]", "reportlab.lib.pagesizes", points, side * MM, abs=0.01)

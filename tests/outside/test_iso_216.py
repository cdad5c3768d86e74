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


@pytest.mark.parametrize(("name", "width", "height"), [("a4", 210.0, 297.0), ("a3", 297.0, 420.0)])
def test_a_series(name: str, width: float, height: float) -> None:
    hold_against(f"{name} width [mm]", "ISO 216, A series, from memory", width, PAPERS[name][0], abs=1e-9)
    hold_against(f"{name} height [mm]", "ISO 216, A series, from memory", height, PAPERS[name][1], abs=1e-9)
    hold_against(
        f"{name} sides", "ISO 216: sides as 1 : square root of 2, from memory", 2**0.5, height / width, rel=0.003
    )


@pytest.mark.parametrize(
    ("name", "inches"), [("letter", (8.5, 11.0)), ("legal", (8.5, 14.0)), ("tabloid", (11.0, 17.0))]
)
def test_inch_papers(name: str, inches: tuple[float, float]) -> None:
    source = "ASME/ANSI Y14.1 A and B sheets, from memory" if name != "legal" else "common practice, no source"
    for side, said in zip(PAPERS[name], inches, strict=True):
        hold_against(f"{name} side [in]", source, said, side / 25.4, abs=1e-9)


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

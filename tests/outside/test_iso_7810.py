"""ISO/IEC 7810, identification cards: the ID-1 card that proves a print's scale (figures from memory)."""

from __future__ import annotations

import pytest

from calc.measures.quantity import Reader
from calc.shapes.shapes import find_bounds
from packet.pages.print_check import draw_check, round_rectangle
from tests.outside.check import hold_against
from tests.packet.draw.backends.test_pdf import draw_pdf
from tests.packet.read_pdf import read_lines

SOURCE = "ISO/IEC 7810, ID-1, from memory"
pytestmark = pytest.mark.outside


def test_card_outline_read_back_from_the_pdf() -> None:
    lines = read_lines(draw_pdf(draw_check(Reader("inch"))))
    card = next(line for line in lines if line.closed and abs(line.width - 85.60) < 1.0)
    hold_against("printed card width [mm]", SOURCE, 85.60, card.width, abs=0.01)
    hold_against("printed card height [mm]", SOURCE, 53.98, card.height, abs=0.01)


def test_round_rectangle_is_as_large_as_asked() -> None:
    from calc.shapes.shapes import Point

    box = find_bounds((round_rectangle(Point(3.0, 4.0), 20.0, 10.0, 2.0),))
    assert (box.left, box.bottom, box.width, box.height) == pytest.approx((3.0, 4.0, 20.0, 10.0))

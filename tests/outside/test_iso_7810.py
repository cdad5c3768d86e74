"""ISO/IEC 7810, identification cards: the ID-1 card that proves a print's scale (figures from memory)."""

from __future__ import annotations

import pytest

from calc.measures.quantity import Reader
from calc.shapes.shapes import Arc, find_bounds
from packet.draw.model import Stroke
from packet.pages.print_check import CARD_CORNER_MM, draw_check, round_rectangle
from tests.outside.check import hold_against
from tests.packet.draw.backends.test_pdf import draw_pdf
from tests.packet.read_pdf import read_lines

SOURCE = "ISO/IEC 7810, ID-1, from memory"
pytestmark = pytest.mark.outside


def test_card_outline_in_the_drawing() -> None:
    card = next(
        entity.shape
        for entity in draw_check(Reader("inch")).entities
        if isinstance(entity, Stroke) and any(isinstance(p, Arc) for p in getattr(entity.shape, "pieces", ()))
    )
    box = find_bounds((card,))
    hold_against("card width [mm]", SOURCE, 85.60, box.width, abs=0.005)
    hold_against("card height [mm]", SOURCE, 53.98, box.height, abs=0.005)
    hold_against("card corner radius [mm]", f"{SOURCE} (2.88 .. 3.48 allowed)", 3.18, CARD_CORNER_MM, abs=0.3)


def test_card_outline_read_back_from_the_pdf() -> None:
    lines = read_lines(draw_pdf(draw_check(Reader("inch"))))
    card = next(line for line in lines if line.closed and abs(line.width - 85.60) < 1.0)
    hold_against("printed card width [mm]", SOURCE, 85.60, card.width, abs=0.01)
    hold_against("printed card height [mm]", SOURCE, 53.98, card.height, abs=0.01)


def test_round_rectangle_is_as_large_as_asked() -> None:
    from calc.shapes.shapes import Point

    box = find_bounds((round_rectangle(Point(3.0, 4.0), 20.0, 10.0, 2.0),))
    assert (box.left, box.bottom, box.width, box.height) == pytest.approx((3.0, 4.0, 20.0, 10.0))

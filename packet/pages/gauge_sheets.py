"""The gauge cards at full size: side by side while they fit, and the rule that proves the size."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.gauges.gauge_design import Card
from calc.geometry.shapes import Box, Point
from calc.measures.quantity import Reader
from packet.draw.gauge_card import draw_card
from packet.draw.model import Drawing, Words
from packet.draw.pdf import POINTS_PER_MM, paint
from packet.draw.rules import Rule, draw_rule
from packet.pages.style import Frame
from packet.phrases import take_words

if TYPE_CHECKING:
    from packet.job import Job
    from packet.pages.kit import Kit


def make_sheets(job: Job, kit: Kit, cards: list[tuple[Card, str]]) -> list[Any]:
    """Return the full-size pages of cards with their titles."""
    words = take_words("gauge_sheets", job.reader.language)
    drawings = [draw_card(card, job.reader, title, job.gauge.read_at) for card, title in cards]
    pages = []
    for number, group in enumerate(_share_sheets(drawings, job), 1):
        title = words("title") if number == 1 else words("title_more", number=number)
        pages.append(kit.full_page(_make_painter(job, group), title))
    return pages


def _share_sheets(drawings: list[Drawing], job: Job) -> list[list[Drawing]]:
    """Return the cards sheet by sheet: side by side while they fit the paper."""
    paper = job.project.display.paper
    room = paper.width_mm - 2 * paper.margin_mm
    sheets: list[list[Drawing]] = []
    taken = room + 1.0
    for drawing in drawings:
        if taken + drawing.bounds.width > room:
            sheets.append([])
            taken = 0.0
        sheets[-1].append(drawing)
        taken += drawing.bounds.width + 4.0
    return sheets


def _make_painter(job: Job, drawings: list[Drawing]) -> Any:
    display = job.project.display

    def paint_sheet(canvas: Any, frame: Frame) -> None:
        x_scale, y_scale = 1 / display.printer_x, 1 / display.printer_y
        left = frame.left
        top = frame.bottom + frame.height
        for drawing in drawings:
            bottom = top - drawing.bounds.height * POINTS_PER_MM * y_scale
            paint(canvas, drawing, left, bottom, stretch_x=x_scale, stretch_y=y_scale)
            left += (drawing.bounds.width + 4.0) * POINTS_PER_MM * x_scale
        rules = _draw_rules(job.reader)
        paint(canvas, rules, frame.left, frame.bottom, stretch_x=x_scale, stretch_y=y_scale)

    return paint_sheet


def _draw_rules(reader: Reader) -> Drawing:
    words = take_words("gauge_sheets", reader.language)
    rule = Rule("in", 6) if reader.system == "inch" else Rule("mm", 150)
    check = Words(Point(rule.length_mm + 2.0, 0.5), words("check", rule=rule.name), 1.6)
    return Drawing(
        "check rule", (*draw_rule(rule, Point(0.0, 0.0)), check), Box(-0.5, -0.5, rule.length_mm + 40.0, 4.0)
    )

"""The gauge cards at full size: side by side while they fit, and the rule that proves the size."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.gauges.cards import Card
from calc.measures.quantity import Reader
from calc.project import Aired
from calc.shapes.shapes import Box, Point
from packet.draw.backends.pdf import POINTS_PER_MM, paint
from packet.draw.model import Drawing, Words
from packet.draw.rules import Rule, draw_rule
from packet.draw.views.gauge_card import draw_card
from packet.pages.kit.style import FOOT_MM, MM, SAFE_HEIGHT_MM, Frame, lay_text_frame
from packet.words.phrases import take_words

PAD_MM = 3.0  # empty paper round a card, which may lie outside the text
FOOT_WORDS_MM, APART_MM = 5.0, 4.0

if TYPE_CHECKING:
    from calc.project import Paper
    from packet.job import GaugeJob
    from packet.pages.kit.kit import Kit


def name_way(job: GaugeJob) -> str:
    """Return the ending of the words that say how the gauge is read: at a gate, a hose, or nobody knows which."""
    if isinstance(job.project, Aired):
        return "" if job.project.has_gates else "_hose"
    return "" if job.gauge.read_at else "_alone"


def make_sheets(job: GaugeJob, kit: Kit, cards: list[tuple[Card, str]]) -> list[Any]:
    """Return the full-size pages of cards with their titles."""
    words = take_words("gauge_sheets", job.reader.language)
    drawings = [draw_card(card, job.reader, title, job.gauge.read_at, way=name_way(job)) for card, title in cards]
    pages = []
    for number, group in enumerate(_share_sheets(drawings, job), 1):
        title = words("title") if number == 1 else words("title_more", number=number)
        pages.append(kit.full_page(_make_painter(job, group), title))
    return pages


def lay_card_frame(paper: Paper) -> Frame:
    """Return where cards and their rule stand: inside what Letter and A4 share, so that neither paper loses any."""
    text = lay_text_frame(paper)
    bottom = (max(paper.height_mm - SAFE_HEIGHT_MM, 0.0) / 2 + FOOT_MM + FOOT_WORDS_MM) * MM
    top = text.top + PAD_MM * MM
    return Frame(text.left - PAD_MM * MM, bottom, text.width + 2 * PAD_MM * MM, top - bottom)


def _share_sheets(drawings: list[Drawing], job: GaugeJob) -> list[list[Drawing]]:
    """Return the cards sheet by sheet: side by side while they fit."""
    room = lay_card_frame(job.project.display.paper).width / MM * min(job.project.display.printer_x, 1.0)
    sheets: list[list[Drawing]] = []
    taken = room + 1.0
    for drawing in drawings:
        if taken + drawing.bounds.width > room:
            sheets.append([])
            taken = 0.0
        sheets[-1].append(drawing)
        taken += drawing.bounds.width + APART_MM
    return sheets


def _make_painter(job: GaugeJob, drawings: list[Drawing]) -> Any:
    display = job.project.display

    def paint_sheet(canvas: Any, frame: Frame) -> None:
        x_scale, y_scale = 1 / display.printer_x, 1 / display.printer_y
        frame = lay_card_frame(display.paper)
        canvas.whole.discard(canvas.getPageNumber())  # the foot stands where it does on a page of words
        left, top = frame.left, frame.top
        for drawing in drawings:
            bottom = top - drawing.bounds.height * POINTS_PER_MM * y_scale
            paint(canvas, drawing, left, bottom, stretch_x=x_scale, stretch_y=y_scale)
            left += (drawing.bounds.width + APART_MM) * POINTS_PER_MM * x_scale
        rules = _draw_rules(job.reader)
        paint(canvas, rules, frame.left + PAD_MM * MM, frame.bottom, stretch_x=x_scale, stretch_y=y_scale)

    return paint_sheet


def _draw_rules(reader: Reader) -> Drawing:
    words = take_words("gauge_sheets", reader.language)
    rule = Rule("in", 6) if reader.system == "inch" else Rule("mm", 150)
    check = Words(at=Point(rule.length_mm + 2.0, 0.5), text=words("check", rule=rule.name), size_mm=1.6)
    return Drawing(
        "check rule", (*draw_rule(rule, Point(0.0, 0.0)), check), Box(-0.5, -0.5, rule.length_mm + 40.0, 4.0)
    )

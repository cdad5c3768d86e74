"""The page that proves the print is true before anything is cut: rules, a square with diagonals, a bank card."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from reportlab.platypus import Flowable

from calc.measures.quantity import Reader, write_length
from calc.project import Display
from calc.shapes.shapes import Arc, Box, Line, Path, Point, make_rectangle
from packet.draw.backends.pdf import POINTS_PER_MM, paint
from packet.draw.model import Dimension, Drawing, Entity, Pen, Stroke, Words
from packet.draw.rules import Rule, draw_rule
from packet.words.phrases import Phrases, take_words
from packet.words.safe_work import CHECK_RULE, CHECK_WITHIN

if TYPE_CHECKING:
    from packet.job import AnyJob
    from packet.pages.kit.kit import Kit

CARD_WIDTH_MM, CARD_HEIGHT_MM, CARD_CORNER_MM = 85.60, 53.98, 3.18
"""Identification card ID-1 of ISO/IEC 7810: every bank card. The corner radius there is 3.18 mm (from memory)."""

SQUARE_MM = 100.0
MM_RULE, INCH_RULE = Rule("mm", 150), Rule("in", 6)
DRAWING_WIDTH_MM, DRAWING_HEIGHT_MM = 182.0, 183.0

DIALOGS = ("size", "off", "paper", "measure", "grows", "middle")

EXAMPLES = {"inch": "{x: 5-63/64 in, y: 6-1/64 in}", "metric": "{x: 149.6 mm, y: 150.3 mm}"}
"""What a printer's correction looks like in the project file, in the rule that the reader's tape measures."""


def make_story(job: AnyJob, kit: Kit) -> list[Any]:
    """Return the print-check page."""
    display, reader, words = job.project.display, job.reader, take_words("print_check", kit.reader.language)
    paper = display.paper.name.capitalize()
    return [
        kit.heading(words("title")),
        *kit.bullets([words(f"dialog_{name}", paper=paper) for name in DIALOGS]),
        CheckFigure(draw_check(reader), display),
        kit.space(2.0),
        kit.text(
            words(f"good_{reader.system}", rule=CHECK_RULE[reader.system], within=CHECK_WITHIN[reader.system]), "small"
        ),
        _ask_lengths(display, reader, kit, words),
    ]


def _ask_lengths(display: Display, reader: Reader, kit: Kit, words: Phrases) -> Any:
    """Say what to write into the project file, or that it was done."""
    if display.printer_x == 1.0 and display.printer_y == 1.0:
        return kit.text(words("correct", example=EXAMPLES[reader.system]), "small")
    across, down = f"{100 / display.printer_x:.2f}", f"{100 / display.printer_y:.2f}"
    return kit.text(words("corrected", across=across, down=down), "strong")


def draw_check(reader: Reader) -> Drawing:
    """Return the check drawing: two rules across, two up, the square with its diagonals, the card."""
    words = take_words("print_check", reader.language)
    entities: list[Entity] = []
    left, bottom = 16.0, 14.0
    entities += draw_rule(MM_RULE, Point(left, 7.0), tall_mm=4.5)
    entities += draw_rule(INCH_RULE, Point(left, 0.5), tall_mm=4.5)
    entities += draw_rule(MM_RULE, Point(12.0, bottom), upright=True, tall_mm=4.5)
    entities += draw_rule(INCH_RULE, Point(5.5, bottom), upright=True, tall_mm=4.5)
    for text, at, turn in (
        (words("rule_across", rule=MM_RULE.name), Point(left + 151.5, 9.8), 0.0),
        (words("rule_across", rule=INCH_RULE.name), Point(left + 154.0, 1.2), 0.0),
        (words("rule_up", rule=MM_RULE.name), Point(11.0, bottom + 151.5), 90.0),
        (words("rule_up", rule=INCH_RULE.name), Point(4.5, bottom + 154.0), 90.0),
    ):
        entities.append(Words(at=at, text=text, size_mm=1.8, anchor="start", turn_deg=turn))
    entities += _draw_square(Point(26.0, 19.0), reader, words)
    entities += _draw_card(Point(26.0, 122.5), words)
    return Drawing("print check", tuple(entities), Box(0.0, 0.0, DRAWING_WIDTH_MM, DRAWING_HEIGHT_MM))


def _draw_square(corner: Point, reader: Reader, words: Phrases) -> list[Entity]:
    x, y, side = corner.x, corner.y, SQUARE_MM
    diagonal = write_length(side * math.sqrt(2), reader, decimal=True)
    return [
        Stroke(make_rectangle(x, y, side, side), Pen.OUTLINE),
        Stroke(Line(Point(x, y), Point(x + side, y + side)), Pen.DIMENSION),
        Stroke(Line(Point(x + side, y), Point(x, y + side)), Pen.DIMENSION),
        Words(at=Point(x + side / 2, y + side * 0.28), text=words("diagonals"), size_mm=2.0, anchor="middle"),
        Words(at=Point(x + side / 2, y + side * 0.28 - 4.0), text=diagonal, size_mm=2.0, anchor="middle"),
        Dimension(Point(x + side, y), Point(x + side, y + side), write_length(side, reader, decimal=True), -7.0),
    ]


def _draw_card(corner: Point, words: Phrases) -> list[Entity]:
    x, y, w, h = corner.x, corner.y, CARD_WIDTH_MM, CARD_HEIGHT_MM
    return [
        Stroke(round_rectangle(corner, w, h, CARD_CORNER_MM), Pen.CUT),
        Words(at=Point(x + w / 2, y + h / 2 + 1.0), text=words("card"), size_mm=2.1, anchor="middle"),
        Words(at=Point(x + w / 2, y + h / 2 - 3.5), text=words("card_size"), size_mm=2.1, anchor="middle"),
    ]


def round_rectangle(corner: Point, width_mm: float, height_mm: float, radius_mm: float) -> Path:
    """Return a closed rectangle with round corners, from its lower left corner."""
    x, y, w, h, r = corner.x, corner.y, width_mm, height_mm, radius_mm
    return Path(
        (
            Line(Point(x + r, y), Point(x + w - r, y)),
            Arc(Point(x + w - r, y + r), r, 270.0, 360.0),
            Line(Point(x + w, y + r), Point(x + w, y + h - r)),
            Arc(Point(x + w - r, y + h - r), r, 0.0, 90.0),
            Line(Point(x + w - r, y + h), Point(x + r, y + h)),
            Arc(Point(x + r, y + h - r), r, 90.0, 180.0),
            Line(Point(x, y + h - r), Point(x, y + r)),
            Arc(Point(x + r, y + r), r, 180.0, 270.0),
        )
    )


class CheckFigure(Flowable):  # type: ignore[misc]
    """The check drawing at full size, stretched for the printer like every template."""

    def __init__(self, drawing: Drawing, display: Display) -> None:
        super().__init__()
        self.drawing, self.display = drawing, display
        self.left = 0.0
        self.width = drawing.bounds.width * POINTS_PER_MM / display.printer_x
        self.height = drawing.bounds.height * POINTS_PER_MM / display.printer_y

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.left = (width - self.width) / 2
        return width, self.height

    def draw(self) -> None:
        x, y = 1 / self.display.printer_x, 1 / self.display.printer_y
        paint(self.canv, self.drawing, self.left, 0.0, stretch_x=x, stretch_y=y)

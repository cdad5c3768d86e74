"""The page that proves the print is true before anything is cut: rules, a square with diagonals, a bank card."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from reportlab.platypus import Flowable

from calc.geometry.shapes import Arc, Box, Line, Path, Point, make_rectangle
from calc.measures.quantity import Reader, write_length
from calc.project import Display
from packet.draw.model import Dimension, Drawing, Entity, Pen, Stroke, Words
from packet.draw.pdf import POINTS_PER_MM, paint
from packet.draw.rules import Rule, draw_rule

if TYPE_CHECKING:
    from packet.job import Job
    from packet.pages.kit import Kit

CARD_WIDTH_MM, CARD_HEIGHT_MM, CARD_CORNER_MM = 85.60, 53.98, 3.18
"""Identification card ID-1 of ISO/IEC 7810: every bank card. The corner radius there is 3.18 mm (from memory)."""

SQUARE_MM = 100.0
MM_RULE, INCH_RULE = Rule("mm", 150), Rule("in", 6)
DRAWING_WIDTH_MM, DRAWING_HEIGHT_MM = 182.0, 183.0

DIALOGS = (
    'Print at "Actual size" or "100 %". Some dialogs call it "Scale: none", "Custom scale 100" or "No scaling".',
    'Switch off "Fit", "Fit to page", "Shrink oversized pages" and "Borderless".',
    "Choose the paper that is in the tray ({paper}). Print from the PDF itself, not from a web page.",
    "Print this page first. Measure both rules both ways, from the middle of one end tick to the middle of the other.",
    "The error grows along the rule: the print was scaled. The same everywhere: only the margin moved, all is well.",
    "The middle of a printed line is its true place, on this page and on every template.",
)


def make_story(job: Job, kit: Kit) -> list[Any]:
    """Return the print-check page."""
    display, reader = job.project.display, job.reader
    story: list[Any] = [
        kit.heading("Print check"),
        kit.bullets([line.format(paper=display.paper.name.capitalize()) for line in DIALOGS]),
        CheckFigure(draw_check(reader), display),
        kit.space(2.0),
        kit.text(_say_limits(reader), "small"),
        *_ask_lengths(display, reader, kit),
    ]
    return [block for item in story for block in (item if isinstance(item, list) else [item])]


def _say_limits(reader: Reader) -> str:
    if reader.system == "inch":
        return (
            "Good: both 6 in rules within 1/64 in, the card fills its outline, both diagonals alike. "
            "At 99 % a 12 in hole comes out 1/8 in too small."
        )
    return (
        "Good: both 150 mm rules within 0.3 mm, the card fills its outline, both diagonals alike. "
        "At 99 % a 300 mm hole comes out 3 mm too small."
    )


def _show_example(reader: Reader) -> str:
    """Return an example in the rule that the reader's tape measures; spelled as the project file takes it."""
    return "{x: 5-63/64 in, y: 6-1/64 in}" if reader.system == "inch" else "{x: 149.6 mm, y: 150.3 mm}"


def _ask_lengths(display: Display, reader: Reader, kit: Kit) -> list[Any]:
    """Say what to write into the project file, or that it was done."""
    if display.printer_x != 1.0 or display.printer_y != 1.0:
        return [
            kit.text(
                f"CORRECTED: this packet is stretched to {100 / display.printer_x:.2f} % across and "
                f"{100 / display.printer_y:.2f} % down, so that this printer makes it true. The rules must now measure "
                "true. On another printer take display: printer: out of the project file first.",
                "strong",
            )
        ]
    return [
        kit.text(
            "Actual size chosen and still off, the same on every print? Your printer feeds a little long or short. "
            "Write what the rules really measure into the project file and build again: "
            f"display: printer: {_show_example(reader)}. x is the rule across the sheet, y the rule up it. "
            "Corrections from 97 % to 103 % are taken.",
            "small",
        )
    ]


def draw_check(reader: Reader) -> Drawing:
    """Return the check drawing: two rules across, two up, the square with its diagonals, the card."""
    entities: list[Entity] = []
    left, bottom = 16.0, 14.0
    entities += draw_rule(MM_RULE, Point(left, 7.0), tall_mm=4.5)
    entities += draw_rule(INCH_RULE, Point(left, 0.5), tall_mm=4.5)
    entities += draw_rule(MM_RULE, Point(12.0, bottom), upright=True, tall_mm=4.5)
    entities += draw_rule(INCH_RULE, Point(5.5, bottom), upright=True, tall_mm=4.5)
    for text, at, turn in (
        ("150 mm, x", Point(left + 151.5, 9.8), 0.0),
        ("6 in, x", Point(left + 154.0, 1.2), 0.0),
        ("150 mm, y", Point(11.0, bottom + 151.5), 90.0),
        ("6 in, y", Point(4.5, bottom + 154.0), 90.0),
    ):
        entities.append(Words(at, text, 1.8, "start", turn))
    entities += _draw_square(Point(26.0, 19.0), reader)
    entities += _draw_card(Point(26.0, 122.5), reader)
    return Drawing("print check", tuple(entities), Box(0.0, 0.0, DRAWING_WIDTH_MM, DRAWING_HEIGHT_MM))


def _draw_square(corner: Point, reader: Reader) -> list[Entity]:
    x, y, side = corner.x, corner.y, SQUARE_MM
    diagonal = write_length(side * math.sqrt(2), reader, decimal=True)
    return [
        Stroke(make_rectangle(x, y, side, side), Pen.OUTLINE),
        Stroke(Line(Point(x, y), Point(x + side, y + side)), Pen.DIMENSION),
        Stroke(Line(Point(x + side, y), Point(x, y + side)), Pen.DIMENSION),
        Words(Point(x + side / 2, y + side * 0.28), "both diagonals", 2.0, "middle"),
        Words(Point(x + side / 2, y + side * 0.28 - 4.0), diagonal, 2.0, "middle"),
        Dimension(Point(x + side, y), Point(x + side, y + side), write_length(side, reader, decimal=True), -7.0),
    ]


def _draw_card(corner: Point, reader: Reader) -> list[Entity]:
    x, y, w, h = corner.x, corner.y, CARD_WIDTH_MM, CARD_HEIGHT_MM
    return [
        Stroke(round_rectangle(corner, w, h, CARD_CORNER_MM), Pen.CUT),
        Words(Point(x + w / 2, y + h / 2 + 1.0), "Lay a bank card here: it must fill the line", 2.1, "middle"),
        Words(Point(x + w / 2, y + h / 2 - 3.5), "85.60 x 53.98 mm (ISO/IEC 7810, ID-1)", 2.1, "middle"),
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

"""One look for every page: black, three greys, one typeface, a calm grid."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

from calc.project import Paper
from packet.draw.fonts import BODY, BOLD, register_fonts

MM = 72 / 25.4  # points in a millimetre

BLACK = 0.0
DARK = 0.32  # second voice: captions, footers
MIDDLE = 0.62  # rules between things
LIGHT = 0.86  # rules between rows
WASH = 0.94  # behind heads of tables and notes

RULE = 0.5  # pt
HEAVY_RULE = 2.2  # pt

# The live area prints whole on Letter and on A4 alike: as wide as the narrower sheet, as high as the shorter one.
SAFE_WIDTH_MM = 210.0
SAFE_HEIGHT_MM = 279.4
SIDE_MM = 14.0
TOP_MM = 11.0
FOOT_MM = 10.0
FOOT_ROOM_MM = 7.0
FULL_FOOT_MM = FOOT_ROOM_MM - 2.0  # the footer's strip under a whole-page drawing


@dataclass(frozen=True)
class Frame:
    """A rectangle on the page, in points from the lower left corner of the sheet."""

    left: float
    bottom: float
    width: float
    height: float

    @property
    def right(self) -> float:
        return self.left + self.width

    @property
    def top(self) -> float:
        return self.bottom + self.height


def lay_text_frame(paper: Paper) -> Frame:
    """Return the frame of ordinary pages: inside the sheet that Letter and A4 share, above the footer."""
    width = min(paper.width_mm, max(SAFE_WIDTH_MM, 0.0)) - 2 * SIDE_MM
    height = min(paper.height_mm, SAFE_HEIGHT_MM) - TOP_MM - FOOT_MM - FOOT_ROOM_MM
    left = (paper.width_mm - width) / 2
    spare = max(paper.height_mm - SAFE_HEIGHT_MM, 0.0)
    bottom = spare / 2 + FOOT_MM + FOOT_ROOM_MM
    return Frame(left * MM, bottom * MM, width * MM, height * MM)


def lay_full_frame(paper: Paper) -> Frame:
    """Return the frame of whole-page drawings and templates: all the printer reaches, less the footer's strip."""
    margin = paper.margin_mm
    return Frame(
        margin * MM,
        (margin + FULL_FOOT_MM) * MM,
        (paper.width_mm - 2 * margin) * MM,
        (paper.height_mm - 2 * margin - FULL_FOOT_MM) * MM,
    )


# name -> size, leading, bold, space before, space after, grey, left indent
SHEET: dict[str, tuple[float, float, bool, float, float, float, float]] = {
    "body": (9.8, 12.8, False, 0, 4.0, BLACK, 0),
    "lead": (11.5, 15.5, False, 0, 6, BLACK, 0),
    "strong": (9.8, 12.8, True, 0, 4.0, BLACK, 0),
    "small": (8.4, 10.6, False, 0, 3, DARK, 0),
    "fine": (7.5, 9.4, False, 0, 3, DARK, 0),
    "caption": (8.8, 11.2, False, 2, 5, DARK, 0),
    "bullet": (9.8, 12.8, False, 0, 1.8, BLACK, 11),
    "cell": (8.6, 10.9, False, 0, 0, BLACK, 0),
    "cell-strong": (8.6, 10.9, True, 0, 0, BLACK, 0),
    "large": (14.0, 19.0, False, 0, 7, BLACK, 0),
    "large-strong": (14.0, 19.0, True, 0, 7, BLACK, 0),
    "figure": (19.0, 22.0, True, 0, 0, BLACK, 0),
    "handout": (13.0, 15.6, False, 0, 0, BLACK, 0),
    "handout-strong": (13.0, 15.6, True, 0, 0, BLACK, 0),
    "handout-bullet": (13.0, 15.6, False, 0, 0, BLACK, 16),
    "handout-note": (13.0, 16.2, False, 0, 0, DARK, 0),
    "formula": (9.6, 13.2, False, 0, 2, BLACK, 10),
}

# level -> size, leading, space above, space below [pt], least room wanted below it [mm]
HEADINGS = {1: (19.0, 23.0, 14.0, 8.0, 46.0), 2: (12.5, 15.5, 9.0, 3.5, 30.0), 3: (10.4, 13.0, 5.0, 2.0, 18.0)}


@cache
def get_style(name: str, size: float | None = None) -> Any:
    """Return the paragraph style of that name, all of it in proportion where another size of type [pt] is asked for.

    Raises KeyError for a name that is not on the sheet.
    """
    from reportlab.lib.colors import Color
    from reportlab.lib.styles import ParagraphStyle

    register_fonts()
    usual, leading, bold, before, after, grey, indent = SHEET[name]
    times = 1.0 if size is None else size / usual
    return ParagraphStyle(
        name,
        fontName=BOLD if bold else BODY,
        bulletFontName=BODY,
        fontSize=usual * times,
        leading=leading * times,
        spaceBefore=before * times,
        spaceAfter=after * times,
        textColor=Color(grey, grey, grey),
        leftIndent=indent * times,
        bulletIndent=0 if size is None else size / 4,
        bulletFontSize=10 if size is None else size,
        splitLongWords=1,
        allowWidows=0,
        allowOrphans=0,
    )

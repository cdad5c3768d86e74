"""The drawing model: shapes, words and dimensions in millimetres on named layers.

Every backend (PDF, SVG, DXF) draws this and nothing else, so that they cannot disagree.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from calc.shapes.shapes import Box, Path, Point, Shape


class Pen(StrEnum):
    """What a line says; each backend gives it a weight, a dash and, for CNC files, a layer."""

    CUT = "cut"  # final line: heavy, unbroken
    FIRST_CUT = "first-cut"  # first saw line: medium, long dash
    DRILL = "drill"
    MARK = "mark"
    GHOST = "ghost"  # thin: what lies above or below
    OUTLINE = "outline"  # visible edge of a drawing that is not a template
    HIDDEN = "hidden"
    CENTRE = "centre"
    DIMENSION = "dimension"
    HATCH = "hatch"
    HIGHLIGHT = "highlight"  # the part a step is about
    PLOT = "plot"
    PLOT_BAND = "plot-band"
    GRID = "grid"
    STAMP = "stamp"  # large pale words across a sheet


@dataclass(frozen=True)
class Stroke:
    shape: Shape
    pen: Pen


@dataclass(frozen=True)
class Fill:
    """A closed outline filled with a grey tone (0 black .. 1 white) or a hatch."""

    outline: Path
    tone: float = 0.9
    hatch: bool = False


@dataclass(frozen=True, kw_only=True)
class Words:
    """Text; size is the height of a capital roughly, in millimetres on paper when drawn 1:1.

    anchor: ``start``, ``middle`` or ``end``; turn_deg anticlockwise.
    paper_size: the size is meant on paper and does not scale with the drawing.
    ground: white paper behind the words, where lines would run through them (on paper only).
    """

    at: Point
    text: str
    size_mm: float = 3.0
    anchor: str = "start"
    turn_deg: float = 0.0
    bold: bool = False
    paper_size: bool = True
    pen: Pen = Pen.MARK
    ground: bool = False


@dataclass(frozen=True)
class Dimension:
    """A measured distance from start to end, drawn `offset_mm` (on paper) to the left of the way there."""

    start: Point
    end: Point
    text: str
    offset_mm: float = 8.0


Entity = Stroke | Fill | Words | Dimension


@dataclass(frozen=True)
class Drawing:
    """Entities in millimetres of the real thing, y up, and the box they fill (annotations included)."""

    name: str
    entities: tuple[Entity, ...]
    bounds: Box

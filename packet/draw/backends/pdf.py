"""Draws a Drawing on a reportlab canvas: true bezier circles, embedded fonts, black-and-white safe lines."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from typing import Any

from calc.shapes.shapes import Arc, Circle, Line, Point, Shape
from packet.draw.fonts import CAPITAL_EM, measure_words
from packet.draw.joined import get_ends, join_pieces
from packet.draw.model import Dimension, Drawing, Fill, Pen, Stroke, Words
from packet.draw.pens import LOOKS

POINTS_PER_MM = 72.0 / 25.4
MEASURE_MM = 2.2
"""Height of a capital in the words of a dimension, on paper."""

_ROUND_WITHIN_MM = 0.0005


@dataclass(frozen=True, kw_only=True)
class _PdfPencil:
    """A canvas with a place on it; x and y are told apart so that a printer's error can be taken back."""

    canvas: Any
    left_pt: float
    bottom_pt: float
    scale_x: float  # points per real mm
    scale_y: float
    origin: Point

    def at(self, point: Point) -> tuple[float, float]:
        return (
            self.left_pt + (point.x - self.origin.x) * self.scale_x,
            self.bottom_pt + (point.y - self.origin.y) * self.scale_y,
        )


def paint(
    canvas: Any,
    drawing: Drawing,
    left_pt: float,
    bottom_pt: float,
    scale: float = 1.0,
    *,
    stretch_x: float = 1.0,
    stretch_y: float = 1.0,
) -> None:
    """Draw with the lower left of the drawing's bounds at a place [pt] of the canvas.

    scale: millimetres on paper per real millimetre. stretch_x, stretch_y: taken on top, to take back what a printer
    does to a length. Needs the fonts Body, Body-Bold and Body-Italic registered. Raises ValueError for a line whose
    place is no number, which would make a file that no reader opens.
    """
    origin = Point(drawing.bounds.left, drawing.bounds.bottom)
    unit = POINTS_PER_MM * scale
    pencil = _PdfPencil(
        canvas=canvas,
        left_pt=left_pt,
        bottom_pt=bottom_pt,
        scale_x=unit * stretch_x,
        scale_y=unit * stretch_y,
        origin=origin,
    )
    canvas.saveState()
    canvas.setLineCap(0)
    canvas.setLineJoin(1)
    canvas.setFillGray(0)
    pen: Pen | None = None
    measures: list[_Measure] = []  # written last: the lines of one dimension run across the words of another
    for entity in drawing.entities:
        if isinstance(entity, Stroke):
            if entity.pen is not pen:
                pen = entity.pen
                canvas.addLiteral(_write_pen(pen))
            steps = trace_shape(pencil, entity.shape)
            if "n" in steps:  # "nan" or "inf": no operator of a path has an n
                raise ValueError(f"{drawing.name}: a line has a place that is no number")
            canvas.addLiteral(f"{steps} S")
            continue
        if isinstance(entity, Fill):
            _paint_fill(pencil, entity)
        elif isinstance(entity, Words):
            _paint_words(pencil, entity)
        else:
            measures += _paint_dimension(pencil, entity)
    for measure in measures:
        _write_measure(canvas, measure)
    canvas.restoreState()


def _set_pen(canvas: Any, pen: Pen) -> None:
    canvas.addLiteral(_write_pen(pen))


@cache
def _write_pen(pen: Pen) -> str:
    """Return the operators that set grey, weight and dash. They bypass the canvas's own notes of them on purpose:
    every painting begins and ends with a saved state."""
    look = LOOKS[pen]
    dashes = " ".join(f"{dash * POINTS_PER_MM:.4f}" for dash in look.dash_mm)
    return f"{look.grey:.3f} G {look.width_mm * POINTS_PER_MM:.4f} w [{dashes}] 0 d"


# --- shapes ---------------------------------------------------------------------------------------------------------


def trace_shape(pencil: _PdfPencil, shape: Shape) -> str:
    """Return a shape as PDF path operators; places are rounded to 0.0001 pt."""
    if isinstance(shape, Line):
        (ax, ay), (bx, by) = pencil.at(shape.start), pencil.at(shape.end)
        return f"{ax:.4f} {ay:.4f} m {bx:.4f} {by:.4f} l"
    if isinstance(shape, Circle):
        return " ".join(_trace_arc(pencil, Arc(shape.centre, shape.radius, 0.0, 360.0), False)) + " h"
    if isinstance(shape, Arc):
        return " ".join(_trace_arc(pencil, shape, False))
    steps: list[str] = []
    for index, joined in enumerate(join_pieces(shape)):
        if isinstance(joined.piece, Line):
            ends = (joined.start, joined.end) if index == 0 else (joined.end,)
            for letter, (x, y) in zip("ml" if index == 0 else "l", map(pencil.at, ends), strict=True):
                steps.append(f"{x:.4f} {y:.4f} {letter}")
        else:
            steps += _trace_arc(pencil, joined.piece, index > 0, joined.backwards)
    return " ".join(steps) + (" h" if shape.closed else "")


def _trace_arc(pencil: _PdfPencil, arc: Arc, join: bool, turned: bool = False) -> list[str]:
    """Return the curves of an arc; join: go on from where the path is; turned: from its end to its start."""
    sweep = arc.end_deg - arc.start_deg
    count = count_beziers(arc.radius, sweep)
    step = math.radians(sweep) / count
    first = math.radians(arc.start_deg)
    if turned:
        first, step = first + step * count, -step
    # A cubic with this handle touches the circle at both ends and the middle: error about 4/27 sin6(a/4)/cos2(a/4).
    handle = 4.0 / 3.0 * math.tan(step / 4.0) * arc.radius
    (cx, cy), rx, ry = pencil.at(arc.centre), arc.radius * pencil.scale_x, arc.radius * pencil.scale_y
    hx, hy = handle * pencil.scale_x, handle * pencil.scale_y
    cos, sin = math.cos(first), math.sin(first)
    steps = [] if join else [f"{cx + rx * cos:.4f} {cy + ry * sin:.4f} m"]
    for index in range(1, count + 1):
        one_x, one_y = cx + rx * cos - hx * sin, cy + ry * sin + hy * cos
        cos, sin = math.cos(first + index * step), math.sin(first + index * step)
        end_x, end_y = cx + rx * cos, cy + ry * sin
        two_x, two_y = end_x + hx * sin, end_y - hy * cos
        steps.append(f"{one_x:.4f} {one_y:.4f} {two_x:.4f} {two_y:.4f} {end_x:.4f} {end_y:.4f} c")
    return steps


def count_beziers(radius_mm: float, sweep_deg: float) -> int:
    """Return how many cubic curves keep an arc true within 0.0005 mm, and never more than 90 deg each.

    Error of the usual four-thirds-tangent cubic of angle a: radius x 4/27 x sin^6(a/4) / cos^2(a/4)
    (standard geometry, from memory).
    """
    count = max(1, math.ceil(abs(sweep_deg) / 90.0 - 1e-9))
    while True:
        quarter = math.radians(abs(sweep_deg)) / count / 4.0
        if radius_mm * 4.0 / 27.0 * math.sin(quarter) ** 6 / math.cos(quarter) ** 2 <= _ROUND_WITHIN_MM:
            return count
        count *= 2


# --- fills ----------------------------------------------------------------------------------------------------------


def _paint_fill(pencil: _PdfPencil, fill: Fill) -> None:
    canvas = pencil.canvas
    path = trace_shape(pencil, fill.outline)
    if not fill.hatch:
        canvas.addLiteral(f"q {fill.tone:.3f} g {path} f Q")
        return
    corners = [pencil.at(end) for piece in fill.outline.pieces for end in get_ends(piece)]
    left, right = min(x for x, _ in corners), max(x for x, _ in corners)
    bottom, top = min(y for _, y in corners), max(y for _, y in corners)
    canvas.saveState()
    canvas.addLiteral(f"{path} W n")
    _set_pen(canvas, Pen.HATCH)
    step, height = 2.5 * POINTS_PER_MM, top - bottom
    lines = []
    for index in range(math.ceil((right - left + height) / step) + 1):
        foot = left - height + index * step
        lines.append(f"{foot:.4f} {bottom:.4f} m {foot + height:.4f} {top:.4f} l")
    canvas.addLiteral(f"{' '.join(lines)} S")
    canvas.restoreState()


# --- words and dimensions -------------------------------------------------------------------------------------------


def _paint_words(pencil: _PdfPencil, words: Words) -> None:
    canvas = pencil.canvas
    size = words.size_mm * POINTS_PER_MM if words.paper_size else words.size_mm * pencil.scale_y
    x, y = pencil.at(words.at)
    grey = LOOKS[words.pen].grey
    plain = not words.turn_deg % 360 and not grey
    if not plain:
        canvas.saveState()
        canvas.setFillGray(grey)
        canvas.translate(x, y)
        canvas.rotate(words.turn_deg)
        x = y = 0.0
    if words.ground:
        _clear_ground(canvas, x, y, words, size)
    canvas.setFont("Body-Bold" if words.bold else "Body", size / CAPITAL_EM)
    if words.anchor == "middle":
        canvas.drawCentredString(x, y, words.text)
    elif words.anchor == "end":
        canvas.drawRightString(x, y, words.text)
    else:
        canvas.drawString(x, y, words.text)
    if not plain:
        canvas.restoreState()


def _clear_ground(canvas: Any, x: float, y: float, words: Words, size: float) -> None:
    """Lay white paper behind words at a place; size: height of a capital [pt]."""
    wide = measure_words(words.text, size, words.bold)
    left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[words.anchor]
    canvas.addLiteral(f"q 1 g {left - 1.5:.4f} {y - 0.35 * size:.4f} {wide + 3:.4f} {1.6 * size:.4f} re f Q")


@dataclass(frozen=True)
class _Measure:
    """The words of a dimension: the middle of its line [pt], the way it runs, whether they stand beside the line."""

    text: str
    middle: tuple[float, float]
    turn_deg: float
    room: float
    beside: bool


def _paint_dimension(pencil: _PdfPencil, dimension: Dimension) -> list[_Measure]:
    """Draw the lines of a dimension; return its words, which are written when all lines are drawn."""
    canvas = pencil.canvas
    (ax, ay), (bx, by) = pencil.at(dimension.start), pencil.at(dimension.end)
    length = math.hypot(bx - ax, by - ay)
    if length == 0:
        return []
    ux, uy = (bx - ax) / length, (by - ay) / length
    nx, ny = -uy, ux  # to the left of the way from start to end
    off = dimension.offset_mm * POINTS_PER_MM
    past = math.copysign(1.5 * POINTS_PER_MM, off or 1.0)
    sx, sy, ex, ey = ax + nx * off, ay + ny * off, bx + nx * off, by + ny * off
    canvas.saveState()
    _set_pen(canvas, Pen.DIMENSION)
    if off:
        gap = math.copysign(min(POINTS_PER_MM, abs(off) / 2), off)
        canvas.line(ax + nx * gap, ay + ny * gap, sx + nx * past, sy + ny * past)
        canvas.line(bx + nx * gap, by + ny * gap, ex + nx * past, ey + ny * past)
    room = measure_words(dimension.text, MEASURE_MM) * POINTS_PER_MM
    arrow = 2.2 * POINTS_PER_MM
    _paint_shaft(canvas, (sx, sy), (ex, ey), (ux, uy), arrow, length < 2.5 * arrow)
    canvas.restoreState()
    angle = math.degrees(math.atan2(uy, ux))
    upright = -90.0 + 1e-6 < angle <= 90.0 + 1e-6
    turn = angle if upright else angle + 180.0
    beside = room + 2 * arrow + 4 > length
    return [_Measure(dimension.text, ((sx + ex) / 2, (sy + ey) / 2), turn, room, beside)]


def _write_measure(canvas: Any, measure: _Measure) -> None:
    """Write a measure on white ground, readable from below or the right: on its line, or above it where it is short."""
    if not measure.text:
        return
    size = MEASURE_MM * POINTS_PER_MM / CAPITAL_EM
    canvas.saveState()
    canvas.translate(*measure.middle)
    canvas.rotate(measure.turn_deg)
    drop = size * 0.25 if measure.beside else -size * CAPITAL_EM / 2
    low = drop - (0.8 if measure.beside else 1.5)  # a line that is written above must stay whole
    canvas.setFillGray(1)
    canvas.rect(-measure.room / 2 - 2, low, measure.room + 4, size * CAPITAL_EM + 3, stroke=0, fill=1)
    canvas.setFillGray(0)
    canvas.setFont("Body", size)
    canvas.drawCentredString(0, drop, measure.text)
    canvas.restoreState()


def _paint_shaft(
    canvas: Any,
    start: tuple[float, float],
    end: tuple[float, float],
    way: tuple[float, float],
    arrow: float,
    outside: bool,
) -> None:
    """Draw the dimension line with its two arrow heads, from outside where there is no room between."""
    (sx, sy), (ex, ey), (ux, uy) = start, end, way
    if outside:
        canvas.line(sx - ux * 2.5 * arrow, sy - uy * 2.5 * arrow, sx, sy)
        canvas.line(ex, ey, ex + ux * 2.5 * arrow, ey + uy * 2.5 * arrow)
        _paint_head(canvas, sx, sy, ux, uy, arrow)
        _paint_head(canvas, ex, ey, -ux, -uy, arrow)
    else:
        canvas.line(sx, sy, ex, ey)
        _paint_head(canvas, sx, sy, -ux, -uy, arrow)
        _paint_head(canvas, ex, ey, ux, uy, arrow)


def _paint_head(canvas: Any, x: float, y: float, ux: float, uy: float, size: float) -> None:
    """Draw an arrow head whose tip is at x, y and that points along u."""
    half = size * 0.18
    path = canvas.beginPath()
    path.moveTo(x, y)
    path.lineTo(x - ux * size - uy * half, y - uy * size + ux * half)
    path.lineTo(x - ux * size + uy * half, y - uy * size - ux * half)
    path.close()
    canvas.drawPath(path, stroke=0, fill=1)

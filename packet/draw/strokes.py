"""Small pieces that many drawings are put together from."""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc.shapes.shapes import Box, Circle, Line, Path, Point, make_rectangle
from packet.draw.model import Drawing, Entity, Fill, Pen, Stroke, Words


def draw_line(ax: float, ay: float, bx: float, by: float, pen: Pen = Pen.OUTLINE) -> Stroke:
    """Return a straight line."""
    return Stroke(Line(Point(ax, ay), Point(bx, by)), pen)


def draw_rectangle(left: float, bottom: float, right: float, top: float, pen: Pen = Pen.OUTLINE) -> Stroke:
    """Return the outline of an upright rectangle."""
    return Stroke(make_rectangle(left, bottom, right - left, top - bottom), pen)


def draw_circle(x: float, y: float, diameter: float, pen: Pen = Pen.OUTLINE) -> Stroke:
    """Return a circle."""
    return Stroke(Circle(Point(x, y), diameter / 2), pen)


def draw_cross(x: float, y: float, reach: float) -> tuple[Stroke, Stroke]:
    """Return a centre cross reaching so far each way."""
    return draw_line(x - reach, y, x + reach, y, Pen.CENTRE), draw_line(x, y - reach, x, y + reach, Pen.CENTRE)


def fill_rectangle(
    left: float, bottom: float, right: float, top: float, tone: float = 0.9, hatch: bool = False
) -> Fill:
    """Return a filled rectangle."""
    return Fill(make_rectangle(left, bottom, right - left, top - bottom), tone, hatch)


def join_points(points: Sequence[tuple[float, float]], closed: bool = True) -> Path:
    """Return straight lines through points."""
    ends = list(points[1:]) + ([points[0]] if closed else [])
    return Path(tuple(Line(Point(*a), Point(*b)) for a, b in zip(points, ends, strict=False)), closed)


def write_at(
    x: float, y: float, text: str, size: float = 2.2, anchor: str = "middle", bold: bool = False, ground: bool = False
) -> Words:
    """Return words whose size [mm] is meant on paper; ground: with white paper behind them."""
    return Words(at=Point(x, y), text=text, size_mm=size, anchor=anchor, turn_deg=0.0, bold=bold, ground=ground)


def name_opening(name: str, x: float, y: float, wide: float, scale: float) -> Words:
    """Return an opening's name, inside its circle and under its centre line, or under a circle too small for it."""
    for size, share, drop in ((2.0, 0.92, 0.21 * wide + 0.7 / scale), (1.7, 0.97, 2.3 / scale)):
        if 0.68 * size * len(name) <= share * wide * scale:
            return write_at(x, y - drop, name, size, ground=True)
    return write_at(x, y - wide / 2 - 4.5 / scale, name, 1.8, ground=True)


def trace_round(cx: float, cy: float, rx: tuple[float, float], ry: tuple[float, float], steps: int = 36) -> Path:
    """Return an ellipse as a closed polygon: centre and its two half axes as vectors."""
    turns = [2 * math.pi * i / steps for i in range(steps)]
    return join_points(
        [
            (cx + math.cos(t) * rx[0] + math.sin(t) * ry[0], cy + math.cos(t) * rx[1] + math.sin(t) * ry[1])
            for t in turns
        ]
    )


def close_drawing(
    name: str, entities: Sequence[Entity], box: Box, margins_mm: tuple[float, float, float, float], scale: float
) -> Drawing:
    """Return a drawing with paper margins (left, bottom, right, top [mm on paper]) round its real size, at a scale."""
    left, bottom, right, top = (margin / scale for margin in margins_mm)
    bounds = Box(box.left - left, box.bottom - bottom, box.right + right, box.top + top)
    return Drawing(name, tuple(entities), bounds)

"""Plots as drawings: labelled axes in the reader's units, curves told apart by line style and by name, never by colour.

Everything is in millimetres on paper; draw at scale 1.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from calc.shapes.shapes import Arc, Box, Circle, Line, Path, Point
from packet.draw.model import Drawing, Entity, Fill, Pen, Stroke, Words

TEXT_MM = 2.1  # height of a capital
SMALL_MM = 1.9
LETTER_MM = 1.6  # width of a letter of an axis's label, about
MOST_OF_AXIS = 0.75  # a label longer than this share of its axis stands above the plot
LEFT_MM, BOTTOM_MM, TOP_MM, RIGHT_MM = 17.0, 12.5, 5.0, 4.0


@dataclass(frozen=True)
class Axis:
    """label: what and in which unit; low, high: what must be seen, in the reader's units."""

    label: str
    low: float
    high: float


@dataclass(frozen=True)
class Curve:
    """A line through points in the reader's units; label stands above or below it, at a share of its way."""

    points: tuple[tuple[float, float], ...]
    pen: Pen = Pen.PLOT
    label: str = ""
    label_at: float = 0.8
    label_side: Literal["above", "below"] = "above"


@dataclass(frozen=True)
class PlotStrip:
    """The space between a lower and an upper line, in grey."""

    low: tuple[tuple[float, float], ...]
    high: tuple[tuple[float, float], ...]
    tone: float = 0.86


@dataclass(frozen=True, kw_only=True)
class PlotSpot:
    """A point with a mark: a number in a ring above it, or words beside it, above or below its height.

    solid: filled dot, else open ring
    """

    x: float
    y: float
    words: str = ""
    number: str = ""
    solid: bool = True
    side: Literal["right", "left"] = "right"
    above: bool = False


@dataclass(frozen=True)
class LimitLine:
    """A straight line across the plot at a value; its name stands at a share of the way along."""

    value: float
    words: str
    upright: bool = False
    words_at: float = 1.0


@dataclass(frozen=True, kw_only=True)
class Plot:
    """All that is drawn in one frame."""

    name: str
    x: Axis
    y: Axis
    curves: tuple[Curve, ...] = ()
    strips: tuple[PlotStrip, ...] = ()
    spots: tuple[PlotSpot, ...] = ()
    limits: tuple[LimitLine, ...] = ()
    x_names: tuple[str, ...] = ()


def find_ticks(low: float, high: float, most: int = 7) -> tuple[float, ...]:
    """Return round values that cover low to high: steps of 1, 2, 2.5 or 5 times a power of ten, at most `most` steps.

    Raises ValueError when high is not above low.
    """
    if not high > low:
        raise ValueError("an axis needs a high end above its low end")
    rough = (high - low) / most
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(power * m for m in (1, 2, 2.5, 5, 10) if power * m >= rough * (1 - 1e-9))
    first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    return tuple(round(n * step, 10) for n in range(first, last + 1))


def write_tick(value: float, step: float) -> str:
    """Return a tick's number with as many decimals as its step needs."""
    places = max(0, -math.floor(math.log10(step) + 1e-9))
    if places == 0 and step != int(step):
        places = 1
    if abs(step * 10**places - round(step * 10**places)) > 1e-6:
        places += 1
    return f"{value:,.{places}f}".replace("-", "−")


class _Field:
    """Turns values into places on paper."""

    def __init__(self, plot: Plot, width: float, height: float) -> None:
        self.left, self.bottom = LEFT_MM, BOTTOM_MM
        self.right, self.top = width - RIGHT_MM, height - TOP_MM
        self.y_ticks = find_ticks(plot.y.low, plot.y.high, max(3, round((self.top - self.bottom) / 11)))
        self.y0, self.y1 = self.y_ticks[0], self.y_ticks[-1]
        if plot.x_names:
            self.x_ticks: tuple[float, ...] = ()
            self.x0, self.x1 = plot.x.low, plot.x.high
        else:
            self.x_ticks = find_ticks(plot.x.low, plot.x.high, max(3, round((self.right - self.left) / 17)))
            self.x0, self.x1 = self.x_ticks[0], self.x_ticks[-1]

    def at(self, x: float, y: float) -> Point:
        return Point(
            self.left + (x - self.x0) / (self.x1 - self.x0) * (self.right - self.left),
            self.bottom + (y - self.y0) / (self.y1 - self.y0) * (self.top - self.bottom),
        )

    def cut(self, points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
        """Return the part of a line that lies inside the frame (clipped where it leaves above, below or sideways)."""
        kept: list[tuple[float, float]] = []
        for a, b in itertools.pairwise(points):
            piece = _clip(a, b, (self.x0, self.y0, self.x1, self.y1))
            if piece is None:
                continue
            if not kept or kept[-1] != piece[0]:
                kept.append(piece[0])
            kept.append(piece[1])
        return kept


def _clip(
    a: tuple[float, float], b: tuple[float, float], window: tuple[float, float, float, float]
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """Return the part of a line in a window (Liang and Barsky's method, ACM Trans. Graphics 3, 1984, from memory)."""
    x0, y0, x1, y1 = window
    dx, dy = b[0] - a[0], b[1] - a[1]
    start, end = 0.0, 1.0
    for p, q in ((-dx, a[0] - x0), (dx, x1 - a[0]), (-dy, a[1] - y0), (dy, y1 - a[1])):
        if p == 0:
            if q < 0:
                return None
            continue
        t = q / p
        if p < 0:
            start = max(start, t)
        else:
            end = min(end, t)
    if start > end:
        return None
    return (a[0] + start * dx, a[1] + start * dy), (a[0] + end * dx, a[1] + end * dy)


def draw_plot(plot: Plot, width_mm: float, height_mm: float) -> Drawing:
    """Return a plot as a drawing of that size on paper."""
    field = _Field(plot, width_mm, height_mm)
    entities: list[Entity] = []
    for strip in plot.strips:
        entities += _draw_strip(field, strip)
    entities += _draw_axes(field, plot)
    drawn = [entity for limit in plot.limits for entity in _draw_limit(field, limit)]
    drawn += [entity for curve in plot.curves for entity in _draw_curve(field, curve)]
    entities += sorted(drawn, key=lambda entity: not isinstance(entity, Words))  # no name's white ground cuts a curve
    entities += _draw_spots(field, plot.spots)
    return Drawing(plot.name, tuple(entities), Box(0.0, 0.0, width_mm, height_mm))


def _draw_axes(field: _Field, plot: Plot) -> list[Entity]:
    entities: list[Entity] = []
    left, right, bottom, top = field.left, field.right, field.bottom, field.top
    for y in field.y_ticks:
        p = field.at(field.x0, y)
        entities.append(Stroke(Line(p, Point(right, p.y)), Pen.GRID))
        step = field.y_ticks[1] - field.y_ticks[0]
        entities.append(
            Words(at=Point(left - 1.5, p.y - TEXT_MM / 2), text=write_tick(y, step), size_mm=TEXT_MM, anchor="end")
        )
    for x in field.x_ticks:
        p = field.at(x, field.y0)
        step = field.x_ticks[1] - field.x_ticks[0]
        entities.append(Stroke(Line(p, Point(p.x, top)), Pen.GRID))
        entities.append(
            Words(at=Point(p.x, bottom - 1.5 - TEXT_MM), text=write_tick(x, step), size_mm=TEXT_MM, anchor="middle")
        )
    for index, name in enumerate(plot.x_names):
        p = field.at(plot.x.low + index + 0.5, field.y0)
        entities.append(Words(at=Point(p.x, bottom - 1.5 - TEXT_MM), text=name, size_mm=TEXT_MM, anchor="middle"))
    entities.append(Stroke(Line(Point(left, bottom), Point(right, bottom)), Pen.DRILL))
    entities.append(Stroke(Line(Point(left, bottom), Point(left, top)), Pen.DRILL))
    entities.append(
        Words(at=Point((left + right) / 2, 1.2), text=plot.x.label, size_mm=TEXT_MM, anchor="middle", bold=True)
    )
    if len(plot.y.label) * LETTER_MM > MOST_OF_AXIS * (top - bottom):  # too long beside a low plot: above it
        entities.append(Words(at=Point(1.0, top + 2.2), text=plot.y.label, size_mm=TEXT_MM, anchor="start", bold=True))
    else:
        entities.append(
            Words(
                at=Point(3.4, (bottom + top) / 2),
                text=plot.y.label,
                size_mm=TEXT_MM,
                anchor="middle",
                turn_deg=90.0,
                bold=True,
            )
        )
    return entities


def _draw_strip(field: _Field, strip: PlotStrip) -> list[Entity]:
    """Fill between two lines; both are held inside the frame."""

    def hold(points: Sequence[tuple[float, float]]) -> list[Point]:
        return [field.at(min(max(x, field.x0), field.x1), min(max(y, field.y0), field.y1)) for x, y in points]

    around = hold(strip.low) + hold(strip.high)[::-1]
    if len(around) < 3:
        return []
    lines = tuple(Line(a, b) for a, b in zip(around, around[1:] + around[:1], strict=True) if a != b)
    return [Fill(Path(lines), strip.tone)] if lines else []


def _draw_curve(field: _Field, curve: Curve) -> list[Entity]:
    points = field.cut(curve.points)
    places = [field.at(x, y) for x, y in points]
    lines = tuple(Line(a, b) for a, b in itertools.pairwise(places) if a != b)
    if not lines:
        return []
    entities: list[Entity] = [Stroke(Path(lines, closed=False), curve.pen)]
    if curve.label:
        spot = places[round(curve.label_at * (len(places) - 1))]
        above = curve.label_side == "above"
        at = Point(spot.x + 1.5, spot.y + 1.0) if above else Point(spot.x - 1.5, spot.y - 2.0 - TEXT_MM)
        entities.append(
            Words(at=at, text=curve.label, size_mm=TEXT_MM, anchor="start" if above else "end", ground=True)
        )
    return entities


def _draw_limit(field: _Field, limit: LimitLine) -> list[Entity]:
    if limit.upright:
        if not field.x0 <= limit.value <= field.x1:
            return []
        p = field.at(limit.value, field.y0)
        near_right = p.x > field.right - 35
        words = Words(
            at=Point(p.x + (-1.2 if near_right else 1.2), field.top - 3),
            text=limit.words,
            size_mm=SMALL_MM,
            anchor="end" if near_right else "start",
            ground=True,
        )
        return [Stroke(Line(p, Point(p.x, field.top)), Pen.PLOT_BAND), words]
    if not field.y0 <= limit.value <= field.y1:
        return []
    p = field.at(field.x0, limit.value)
    x = field.left + 0.8 + (field.right - field.left - 1.6) * limit.words_at
    anchor = "end" if limit.words_at > 0.5 else "start"
    words = Words(at=Point(x, p.y + 1.0), text=limit.words, size_mm=SMALL_MM, anchor=anchor, ground=True)
    return [Stroke(Line(p, Point(field.right, p.y)), Pen.PLOT_BAND), words]


def _draw_spots(field: _Field, spots: Sequence[PlotSpot]) -> list[Entity]:
    entities: list[Entity] = []
    numbered = sorted((s for s in spots if s.number), key=lambda s: (s.x, s.y))
    places = _spread([field.at(s.x, s.y).x for s in numbered], 6.0, field.left + 3, field.right - 3)
    for spot, x in zip(numbered, places, strict=True):
        p = field.at(spot.x, spot.y)
        ring = Point(x, min(p.y + 11.0, field.top - 2.6))
        foot = Point(p.x + (ring.x - p.x) * 0.12, p.y + 1.1)
        entities.append(Stroke(Line(foot, Point(ring.x, ring.y - 2.3)), Pen.DIMENSION))
        entities.append(Fill(_round(ring, 2.3), 1.0))
        entities.append(Stroke(Circle(ring, 2.3), Pen.MARK))
        entities.append(
            Words(at=Point(ring.x, ring.y - 0.95), text=spot.number, size_mm=1.9, anchor="middle", bold=True)
        )
    for spot in spots:
        p = field.at(spot.x, spot.y)
        if not (field.left - 0.1 <= p.x <= field.right + 0.1 and field.bottom - 0.1 <= p.y <= field.top + 0.1):
            continue
        entities.append(Fill(_round(p, 1.0), 0.0 if spot.solid else 1.0))
        entities.append(Stroke(Circle(p, 1.0), Pen.MARK))
        if spot.words:
            anchor, shift = ("start", 2.0) if spot.side == "right" else ("end", -2.0)
            entities.append(
                Words(
                    at=Point(p.x + shift, p.y + (1.5 if spot.above else -2.9)),
                    text=spot.words,
                    size_mm=TEXT_MM,
                    anchor=anchor,
                    bold=True,
                )
            )
    return entities


def _round(centre: Point, radius: float) -> Path:
    return Path((Arc(centre, radius, 0.0, 180.0), Arc(centre, radius, 180.0, 360.0)))


def _spread(places: list[float], apart: float, low: float, high: float) -> list[float]:
    """Return places in order, moved as little as needed to stand `apart` from each other inside low..high."""
    moved = [min(max(p, low), high) for p in places]
    for _ in range(60):
        worst = 0.0
        for i in range(len(moved) - 1):
            lack = apart - (moved[i + 1] - moved[i])
            if lack > 1e-6:
                moved[i] -= lack / 2
                moved[i + 1] += lack / 2
                worst = max(worst, lack)
        moved = [min(max(p, low), high) for p in moved]
        if worst < 1e-3:
            break
    return moved

"""The water gauge at a step: a U, a slope or a well, in still air while it is built and under pressure when read."""

from __future__ import annotations

from calc.gauges.gauge import GaugeKind
from calc.shapes.shapes import Arc, Box, Line, Path, Point
from packet.draw.model import Drawing, Entity, Pen, Stroke
from packet.draw.steps.rings import RIGHT_WORDS, name_at
from packet.draw.strokes import close_drawing, draw_line, draw_rectangle, fill_rectangle
from packet.words.phrases import Phrases, take_words

Named = list[tuple[float, str]]
STILL, LIQUID = 44.0, 0.6


def draw_tube(kind: GaugeKind, language: str, focus: str, scale: float) -> Drawing:
    """Return the gauge, not to scale. focus: ``build`` (still air) or ``read``."""
    words = take_words("step_pictures", language)
    read = focus == "read"
    if kind == "inclined":
        entities, names, bounds = _draw_slope(words, read)
    elif kind == "well":
        entities, names, bounds = _draw_well(words, read)
    else:
        entities, names, bounds = _draw_u(words, read, kind == "u-tube")
    entities += [name_at(bounds.right + 1.5 / scale, y, text) for y, text in names]
    return close_drawing(f"gauge, {focus}", entities, bounds, RIGHT_WORDS, scale)


def _draw_slope(words: Phrases, read: bool) -> tuple[list[Entity], Named, Box]:
    end = 95.0 if read else 30.0
    entities: list[Entity] = [draw_line(0, 0, 120, 24, Pen.CUT), draw_line(0, 7, 120, 31, Pen.CUT)]
    entities.append(draw_line(4, 4.3, end, 3.5 + 0.2 * end, Pen.HIGHLIGHT))
    entities.append(draw_line(end, 0.2 * end - 4, end, 0.2 * end + 12, Pen.DIMENSION))
    if not read:
        entities.append(draw_line(0, 0, 120, 0, Pen.DIMENSION))
    names = [(0.2 * end + 4, words("gauge_read" if read else "gauge_zero"))]
    return entities, names if read else [*names, (-1.0, words("gauge_level"))], Box(0.0, -4.0, 120.0, 36.0)


def _draw_well(words: Phrases, read: bool) -> tuple[list[Entity], Named, Box]:
    level, well = (58.0, 12.0) if read else (16.0, 16.0)
    entities: list[Entity] = [draw_rectangle(0, 0, 40, 26, Pen.CUT), fill_rectangle(0, 0, 40, well, LIQUID)]
    entities += [draw_line(52, 6, 52, 80, Pen.CUT), draw_line(58, 6, 58, 80, Pen.CUT)]
    entities += [fill_rectangle(52, 6, 58, level, LIQUID), draw_line(40, 6, 58, 6, Pen.CUT)]
    entities.append(draw_line(46, level, 62, level, Pen.DIMENSION))
    names = [(level - 1.5, words("gauge_read" if read else "gauge_zero")), (4.0, words("gauge_well"))]
    return entities, names, Box(-8.0, 0.0, 62.0, 84.0)


def _draw_u(words: Phrases, read: bool, both: bool) -> tuple[list[Entity], Named, Box]:
    low, high = (30.0, 58.0) if read else (STILL, STILL)
    entities: list[Entity] = []
    for x in (0.0, 30.0):
        entities += [draw_line(x, 12, x, 80, Pen.CUT), draw_line(x + 8, 12, x + 8, 80, Pen.CUT)]
    for radius in (11.0, 19.0):
        entities.append(Stroke(Path((Arc(Point(19.0, 12.0), radius, 180.0, 360.0),), closed=False), Pen.CUT))
    entities += [fill_rectangle(0.6, 12, 7.4, low, LIQUID), fill_rectangle(30.6, 12, 37.4, high, LIQUID)]
    levels = (low, STILL, high) if read else (STILL,)
    entities += [Stroke(Line(Point(-6, y), Point(44, y)), Pen.DIMENSION) for y in levels]
    if not read:
        names = [(72.0, words("gauge_open")), (STILL - 1.0, words("gauge_zero"))]
        return entities, [*names, (10.0, words("gauge_plumb"))], Box(-8.0, -8.0, 44.0, 84.0)
    names = [(57.0, words("gauge_up")), (43.0, words("gauge_zero")), (29.0, words("gauge_down"))]
    return entities, [*names, (12.0, words("gauge_sum"))] if both else names, Box(-8.0, -8.0, 44.0, 84.0)

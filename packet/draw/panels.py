"""A panel as it is cut, seen from outside: its holes by their middles, its screw holes, its grooves behind."""

from __future__ import annotations

from calc.geometry.design import Design
from calc.geometry.part_names import say_part
from calc.geometry.parts import SCREW_DRILL_MM, BoxPart
from calc.geometry.shapes import Box, Point
from calc.measures.marking import write_between, write_mark
from calc.measures.quantity import Reader
from packet.draw.model import Dimension, Drawing, Entity, Pen
from packet.draw.strokes import close_drawing, draw_circle, draw_cross, draw_rectangle, name_opening
from packet.say import say

MARGINS = (12.0, 15.0, 8.0, 4.0)


def list_holed(design: Design) -> tuple[BoxPart, ...]:
    """Return the panels that have holes, in cut-list order."""
    return tuple(part for part in design.parts if part.holes)


def measure_panel(part: BoxPart, scale: float) -> tuple[float, float]:
    """Return how wide and high [mm on paper] a panel's drawing is at a scale."""
    return (
        part.width_mm * scale + MARGINS[0] + MARGINS[2],
        part.height_mm * scale + MARGINS[1] + MARGINS[3],
    )


def draw_panel(design: Design, part: BoxPart, reader: Reader, scale: float) -> Drawing:
    """Return the panel with the dimensions it is marked out by, from its own left and lower edge."""
    entities: list[Entity] = [draw_rectangle(0.0, 0.0, part.width_mm, part.height_mm, Pen.CUT)]
    for groove in part.grooves:
        right, top = groove.left_mm + groove.width_mm, groove.bottom_mm + groove.height_mm
        entities.append(draw_rectangle(groove.left_mm, groove.bottom_mm, right, top, Pen.HIDDEN))
    for row in design.rows:
        if row.through == part.name and not row.from_inside:
            spots = [(spot.x - part.left_mm, spot.y - part.bottom_mm) for spot in row.spots]
            entities += [draw_circle(x, y, SCREW_DRILL_MM, Pen.DRILL) for x, y in spots]
    for hole in part.holes:
        x, y = hole.across_mm, hole.up_mm
        entities.append(draw_circle(x, y, hole.diameter_mm, Pen.CUT))
        entities += draw_cross(x, y, hole.diameter_mm / 2 + 2 / scale)
        name = say(say_part(hole.name), reader) if hole.kind == "inlet" else hole.name
        entities.append(name_opening(name, x, y, hole.diameter_mm, scale))
    entities += _measure(part, reader)
    box = Box(0.0, 0.0, part.width_mm, part.height_mm)
    return close_drawing(f"{part.name} panel", entities, box, MARGINS, scale)


def _measure(part: BoxPart, reader: Reader) -> list[Entity]:
    """Return overall sizes, and the middles of the holes from the left and the lower edge."""
    width, height = part.width_mm, part.height_mm
    entities: list[Entity] = [
        Dimension(Point(0.0, 0.0), Point(width, 0.0), write_mark(width, reader), -12.0),
        Dimension(Point(width, 0.0), Point(width, height), write_mark(height, reader), -6.0),
    ]
    last = 0.0
    for across in sorted({round(hole.across_mm, 3) for hole in part.holes}):
        entities.append(Dimension(Point(last, 0.0), Point(across, 0.0), write_between(last, across, reader), -6.0))
        last = across
    for index, up in enumerate(sorted({round(hole.up_mm, 3) for hole in part.holes})):
        offset = 6.0 + 5.0 * index
        entities.append(Dimension(Point(0.0, 0.0), Point(0.0, up), write_mark(up, reader), offset))
    return entities

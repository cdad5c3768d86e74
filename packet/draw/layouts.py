"""A sheet with its parts, drawn to scale: cuts numbered in the order they are made, offcuts hatched."""

from __future__ import annotations

from calc.geometry.shapes import Box, Point
from calc.geometry.sheets import Cut, Placed, SheetLayout
from calc.quantity import Reader, write_length
from packet.draw.model import Dimension, Drawing, Entity, Fill, Pen, Words
from packet.draw.strokes import (
    close_drawing,
    draw_circle,
    draw_line,
    draw_rectangle,
    fill_rectangle,
    trace_round,
    write_at,
)

MARGINS = (12.0, 2.0, 8.0, 11.0)
LINE_MM = 3.4
"""Height of a line of words on paper."""


def measure_layout(layout: SheetLayout, scale: float) -> tuple[float, float]:
    """Return how wide and high [mm on paper] a layout is at a scale."""
    return (
        layout.length_mm * scale + MARGINS[0] + MARGINS[2],
        layout.width_mm * scale + MARGINS[1] + MARGINS[3],
    )


def draw_layout(layout: SheetLayout, reader: Reader, scale: float, *, grain: bool) -> Drawing:
    """Return one sheet. Sizes of parts are along the sheet first; circled numbers are the cuts."""
    entities: list[Entity] = [
        fill_rectangle(o.x_mm, o.y_mm, o.x_mm + o.along_mm, o.y_mm + o.across_mm, hatch=True) for o in layout.offcuts
    ]
    entities.append(draw_rectangle(0.0, 0.0, layout.length_mm, layout.width_mm, Pen.CUT))
    for offcut in layout.offcuts:
        size = f"{write_length(offcut.along_mm, reader)} × {write_length(offcut.across_mm, reader)}"
        x, y = offcut.x_mm + offcut.along_mm / 2, offcut.y_mm + offcut.across_mm / 2
        if offcut.along_mm * scale > 30 and offcut.across_mm * scale > 6:
            half = 0.62 * len(size) / scale
            entities.append(fill_rectangle(x - half, y - 1.2 / scale, x + half, y + 2.4 / scale, tone=1.0))
            entities.append(write_at(x, y, size, 2.0))
    for placed in layout.placed:
        entities += _draw_placed(placed, reader, scale, grain=grain)
    for cut in layout.cuts:
        entities += _draw_cut(cut, scale)
    along, across = write_length(layout.length_mm, reader), write_length(layout.width_mm, reader)
    top = layout.width_mm
    entities.append(Dimension(Point(0.0, top), Point(layout.length_mm, top), along, 6.0))
    entities.append(Dimension(Point(0.0, 0.0), Point(0.0, top), across, 6.0))
    name = f"{'offcut' if layout.from_hand else 'sheet'} {layout.number}"
    return close_drawing(name, entities, Box(0.0, 0.0, layout.length_mm, layout.width_mm), MARGINS, scale)


def _draw_placed(placed: Placed, reader: Reader, scale: float, *, grain: bool) -> list[Entity]:
    x, y, w, h = placed.x_mm, placed.y_mm, placed.along_mm, placed.across_mm
    size = f"{write_length(w, reader)} × {write_length(h, reader)}"
    entities: list[Entity] = [fill_rectangle(x, y, x + w, y + h, tone=1.0), draw_rectangle(x, y, x + w, y + h)]
    middle, line = x + w / 2, LINE_MM / scale
    name = f"{placed.blank.number}  {placed.blank.name}"
    room = max(1.9 * len(name), 1.5 * len(size)) / scale
    if h > 3 * line and w > room:
        entities.append(write_at(middle, y + h / 2 + 0.25 * line, name, 2.6, bold=True))
        entities.append(write_at(middle, y + h / 2 - line, size, 2.0))
    elif w > 3 * line and h > room:
        entities.append(Words(Point(middle - 0.4 * line, y + h / 2), name, 2.6, "middle", 90.0, True))
        entities.append(Words(Point(middle + 0.8 * line, y + h / 2), size, 2.0, "middle", 90.0))
    else:
        entities.append(write_at(middle, y + h / 2 - 0.3 * line, placed.blank.number, 2.2, bold=True))
    if grain and h > 5 * line and w * scale > 20:
        at, reach = y + 0.9 * line, min(w * 0.2, 8 / scale)
        tip = 1.2 / scale
        entities.append(draw_line(middle - reach, at, middle + reach, at, Pen.DIMENSION))
        for end, way in ((middle - reach, 1), (middle + reach, -1)):
            entities.append(draw_line(end, at, end + way * tip, at + tip / 2, Pen.DIMENSION))
            entities.append(draw_line(end, at, end + way * tip, at - tip / 2, Pen.DIMENSION))
    return entities


def _draw_cut(cut: Cut, scale: float) -> list[Entity]:
    """Return a cut as a line with its number where it starts."""
    if cut.kind == "rip":
        line = draw_line(cut.start_mm, cut.at_mm, cut.end_mm, cut.at_mm, Pen.FIRST_CUT)
        x, y = cut.end_mm - (3.2 + 4.2 * (cut.number % 3)) / scale, cut.at_mm
    else:
        line = draw_line(cut.at_mm, cut.start_mm, cut.at_mm, cut.end_mm, Pen.FIRST_CUT)
        x, y = cut.at_mm, (cut.start_mm + cut.end_mm) / 2
    if (cut.end_mm - cut.start_mm) * scale < 5.0:  # no room for a ring
        return [line, write_at(x + 0.6 / scale, y - 0.6 / scale, str(cut.number), 1.5, "start", bold=True)]
    r = 1.9 / scale

    ground = Fill(trace_round(x, y, (r, 0.0), (0.0, r), 16), 1.0)
    return [
        line,
        ground,
        draw_circle(x, y, 2 * r, Pen.MARK),
        write_at(x, y - 0.75 / scale, str(cut.number), 1.9, bold=True),
    ]

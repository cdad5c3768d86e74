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
THIN_MM = 2.9
"""A piece lower than this on paper has its number written smaller."""

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
            entities.append(write_at(x, y, size, 2.0, ground=True))
    for placed in layout.placed:
        entities += _draw_placed(placed, reader, scale, grain=grain)
    taken = [_find_box(words, scale) for words in entities if isinstance(words, Words)]
    for cut in sorted(layout.cuts, key=lambda each: each.end_mm - each.start_mm):  # short ones have the least choice
        entities += _draw_cut(cut, scale, taken)
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
        size_mm = 2.2 if h * scale > THIN_MM else max(0.72 * h * scale, 1.1)
        entities.append(write_at(middle, y + h / 2 - 0.5 * size_mm / scale, placed.blank.number, size_mm, bold=True))
    if grain and h > 5 * line and w * scale > 20:
        at, reach = y + 0.9 * line, min(w * 0.2, 8 / scale)
        tip = 1.2 / scale
        entities.append(draw_line(middle - reach, at, middle + reach, at, Pen.DIMENSION))
        for end, way in ((middle - reach, 1), (middle + reach, -1)):
            entities.append(draw_line(end, at, end + way * tip, at + tip / 2, Pen.DIMENSION))
            entities.append(draw_line(end, at, end + way * tip, at - tip / 2, Pen.DIMENSION))
    return entities


def _find_box(words: Words, scale: float) -> Box:
    """Return about the room that level words take, in the drawing's millimetres."""
    half, tall = 0.31 * words.size_mm * len(words.text) * 1.1 / scale, words.size_mm / scale
    x, y = words.at.x, words.at.y
    if words.turn_deg:
        return Box(x - tall, y - half, x, y + half)
    return Box(x - half, y, x + half, y + tall)


def _draw_cut(cut: Cut, scale: float, taken: list[Box]) -> list[Entity]:
    """Return a cut as a line with its number on it, where the number lies on nothing that is written."""
    rip = cut.kind == "rip"
    long, short = cut.end_mm - cut.start_mm, (cut.end_mm - cut.start_mm) * scale < 5.0
    if rip:
        line = draw_line(cut.start_mm, cut.at_mm, cut.end_mm, cut.at_mm, Pen.FIRST_CUT)
        steps = [
            cut.end_mm - (3.2 + 2.1 * n) / scale for n in range(40) if (3.2 + 2.1 * n) / scale < long - 2.0 / scale
        ]
    else:
        line = draw_line(cut.at_mm, cut.start_mm, cut.at_mm, cut.end_mm, Pen.FIRST_CUT)
        steps = [cut.start_mm + share * long for share in (0.5, 0.38, 0.62, 0.26, 0.74, 0.16, 0.84)]
    r = (1.0 if short else 2.0) / scale
    shift = 1.4 / scale if short and not rip else 0.0  # no room for a ring: the number stands beside the cut
    spots = [(s, cut.at_mm) if rip else (cut.at_mm + side * shift, s) for side in (1, -1) for s in steps]
    spots = spots or [((cut.start_mm + cut.end_mm) / 2, cut.at_mm)]
    x, y = next((spot for spot in spots if _is_free(spot, r, taken)), spots[0])
    taken.append(Box(x - r, y - r, x + r, y + r))
    if short:
        return [line, write_at(x, y - 0.5 / scale, str(cut.number), 1.1, bold=True)]
    r = 1.9 / scale

    ground = Fill(trace_round(x, y, (r, 0.0), (0.0, r), 16), 1.0)
    return [
        line,
        ground,
        draw_circle(x, y, 2 * r, Pen.MARK),
        write_at(x, y - 0.75 / scale, str(cut.number), 1.9, bold=True),
    ]


def _is_free(spot: tuple[float, float], r: float, taken: list[Box]) -> bool:
    x, y = spot
    return all(x + r < box.left or x - r > box.right or y + r < box.bottom or y - r > box.top for box in taken)

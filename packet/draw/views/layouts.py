"""A sheet with its parts, drawn to scale: cuts numbered in the order they are made, offcuts hatched."""

from __future__ import annotations

from calc.cutting.sheets import Cut, Placed, SheetLayout
from calc.measures.marking import write_mark
from calc.measures.quantity import Reader
from calc.shapes.shapes import Box, Point
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
from packet.words.phrases import take_words
from packet.words.say import say

MARGINS = (12.0, 2.0, 8.0, 11.0)
THIN_MM = 2.9
"""A piece lower than this on paper has no room for its number."""

RING_MM = 4.2
"""Numbers of cuts beside the sheet stand this far apart on paper."""

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
        size = _write_size(offcut.along_mm, offcut.across_mm, reader)
        x, y = offcut.x_mm + offcut.along_mm / 2, offcut.y_mm + offcut.across_mm / 2
        if offcut.along_mm * scale > 30 and offcut.across_mm * scale > 6:
            entities.append(write_at(x, y, size, 2.0, ground=True))
    for placed in layout.placed:
        entities += _draw_placed(placed, reader, scale, grain=grain)
    taken = [_find_box(words, scale) for words in entities if isinstance(words, Words)]
    beside = [cut for cut in layout.cuts if cut.kind == "rip" and _bounds_strip(cut, layout, scale)]
    for cut in sorted(layout.cuts, key=lambda each: each.end_mm - each.start_mm):  # short ones have the least choice
        if cut not in beside:
            entities += _draw_cut(cut, scale, taken)
    entities += _draw_beside(beside, layout, scale)
    along, across = write_mark(layout.length_mm, reader), write_mark(layout.width_mm, reader)
    top = layout.width_mm
    entities.append(Dimension(Point(0.0, top), Point(layout.length_mm, top), along, 6.0))
    entities.append(Dimension(Point(0.0, 0.0), Point(0.0, top), across, 6.0))
    name = f"{'offcut' if layout.from_hand else 'sheet'} {layout.number}"
    return close_drawing(name, entities, Box(0.0, 0.0, layout.length_mm, layout.width_mm), MARGINS, scale)


def _write_size(along: float, across: float, reader: Reader) -> str:
    words = take_words("cuts", reader.language)
    return words("size", along=write_mark(along, reader), across=write_mark(across, reader))


def _draw_placed(placed: Placed, reader: Reader, scale: float, *, grain: bool) -> list[Entity]:
    x, y, w, h = placed.x_mm, placed.y_mm, placed.along_mm, placed.across_mm
    size = _write_size(w, h, reader)
    entities: list[Entity] = [fill_rectangle(x, y, x + w, y + h, tone=1.0), draw_rectangle(x, y, x + w, y + h)]
    middle, line = x + w / 2, LINE_MM / scale
    name = f"{placed.blank.number}  {say(placed.blank.called or placed.blank.name, reader)}"
    room = max(1.9 * len(name), 1.5 * len(size)) / scale
    if h > 3 * line and w > room:
        entities.append(write_at(middle, y + h / 2 + 0.25 * line, name, 2.6, bold=True))
        entities.append(write_at(middle, y + h / 2 - line, size, 2.0))
    elif w > 3 * line and h > room:
        entities.append(
            Words(
                at=Point(middle - 0.4 * line, y + h / 2),
                text=name,
                size_mm=2.6,
                anchor="middle",
                turn_deg=90.0,
                bold=True,
            )
        )
        entities.append(
            Words(at=Point(middle + 0.8 * line, y + h / 2), text=size, size_mm=2.0, anchor="middle", turn_deg=90.0)
        )
    elif not is_strip(placed, scale):  # strips are listed under the drawing
        entities.append(write_at(middle, y + h / 2 - 0.5 * 2.2 / scale, placed.blank.number, 2.2, bold=True))
    if grain and h > 5 * line and w * scale > 20:
        at, reach = y + 0.9 * line, min(w * 0.2, 8 / scale)
        tip = 1.2 / scale
        entities.append(draw_line(middle - reach, at, middle + reach, at, Pen.DIMENSION))
        for end, way in ((middle - reach, 1), (middle + reach, -1)):
            entities.append(draw_line(end, at, end + way * tip, at + tip / 2, Pen.DIMENSION))
            entities.append(draw_line(end, at, end + way * tip, at - tip / 2, Pen.DIMENSION))
    return entities


def is_strip(placed: Placed, scale: float) -> bool:
    """Return whether a part is too narrow on paper for its number."""
    return placed.across_mm * scale <= THIN_MM


def list_strips(layout: SheetLayout, scale: float) -> list[tuple[list[str], list[int]]]:
    """Return the rows of narrow strips from the top: their parts' numbers from left to right, and the numbers of the
    cuts across them."""
    rows: dict[float, list[Placed]] = {}
    for placed in layout.placed:
        if is_strip(placed, scale):
            rows.setdefault(round(placed.y_mm, 1), []).append(placed)
    listed = []
    for low in sorted(rows, reverse=True):
        row = sorted(rows[low], key=lambda placed: placed.x_mm)
        left, right, high = row[0].x_mm, row[-1].x_mm + row[-1].along_mm, low + row[0].across_mm
        cuts = [
            cut.number for cut in layout.cuts
            if cut.kind == "crosscut" and _is_short(cut, scale) and cut.start_mm <= (low + high) / 2 <= cut.end_mm
            and left < cut.at_mm < right + 2 * row[-1].across_mm
        ]  # fmt: skip
        listed.append(([placed.blank.number for placed in row], sorted(cuts)))
    return listed


def _is_short(cut: Cut, scale: float) -> bool:
    return (cut.end_mm - cut.start_mm) * scale <= THIN_MM


def _bounds_strip(cut: Cut, layout: SheetLayout, scale: float) -> bool:
    """Return whether a rip frees a strip that is too narrow for numbers."""
    near = THIN_MM / scale
    return any(
        is_strip(p, scale) and p.x_mm < cut.end_mm and p.x_mm + p.along_mm > cut.start_mm
        and min(abs(p.y_mm - cut.at_mm), abs(p.y_mm + p.across_mm - cut.at_mm)) < near
        for p in layout.placed
    )  # fmt: skip


def _draw_beside(cuts: list[Cut], layout: SheetLayout, scale: float) -> list[Entity]:
    """Return rips with their numbers right of the sheet, spread so that none lies on another."""
    ordered = sorted(cuts, key=lambda cut: -cut.at_mm)
    apart, high = RING_MM / scale, layout.width_mm + 2.0 / scale
    entities: list[Entity] = []
    for cut in ordered:
        high = min(high, cut.at_mm + apart * (len(ordered) - 1) / 2)
        x, edge = layout.length_mm + 5.5 / scale, layout.length_mm
        entities += [
            draw_line(cut.start_mm, cut.at_mm, cut.end_mm, cut.at_mm, Pen.FIRST_CUT),
            draw_line(edge, cut.at_mm, x - 1.9 / scale, high, Pen.DIMENSION),
            *_draw_ring(cut.number, x, high, scale),
        ]
        high -= apart
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
    if not rip and _is_short(cut, scale):
        return [draw_line(cut.at_mm, cut.start_mm, cut.at_mm, cut.end_mm, Pen.FIRST_CUT)]
    if rip:
        line = draw_line(cut.start_mm, cut.at_mm, cut.end_mm, cut.at_mm, Pen.FIRST_CUT)
        steps = [
            cut.end_mm - (3.2 + 2.1 * n) / scale for n in range(40) if (3.2 + 2.1 * n) / scale < long - 2.0 / scale
        ]
    else:
        line = draw_line(cut.at_mm, cut.start_mm, cut.at_mm, cut.end_mm, Pen.FIRST_CUT)
        steps = [cut.start_mm + share * long for share in (0.5, 0.38, 0.62, 0.26, 0.74, 0.16, 0.84)]
    r = (1.0 if short else 2.0) / scale
    shift = 1.7 / scale if short and not rip else 0.0  # no room for a ring: the number stands beside the cut
    spots = [(s, cut.at_mm) if rip else (cut.at_mm + side * shift, s) for side in (1, -1) for s in steps]
    spots = spots or [((cut.start_mm + cut.end_mm) / 2, cut.at_mm)]
    x, y = next((spot for spot in spots if _is_free(spot, r, taken)), spots[0])
    taken.append(Box(x - r, y - r, x + r, y + r))
    if short:
        return [line, write_at(x, y - 0.75 / scale, str(cut.number), 1.9, bold=True)]
    return [line, *_draw_ring(cut.number, x, y, scale)]


def _draw_ring(number: int, x: float, y: float, scale: float) -> list[Entity]:
    r = 1.9 / scale
    return [
        Fill(trace_round(x, y, (r, 0.0), (0.0, r), 16), 1.0),
        draw_circle(x, y, 2 * r, Pen.MARK),
        write_at(x, y - 0.75 / scale, str(number), 1.9, bold=True),
    ]


def _is_free(spot: tuple[float, float], r: float, taken: list[Box]) -> bool:
    x, y = spot
    return all(x + r < box.left or x - r > box.right or y + r < box.bottom or y - r > box.top for box in taken)

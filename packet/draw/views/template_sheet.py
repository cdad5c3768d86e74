"""What stands round a template on its sheet: rules, trim lines, crosses, neighbours, page map, stamp.

Everything is in true millimetres from the lower left corner of the sheet's frame; the painter stretches it for the
printer.
"""

from __future__ import annotations

import math
from bisect import bisect
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from calc.cutting.templates import RULES_MM, STAMP_MM, PaperLayout, find_diagonals
from calc.cutting.tiles import Tile, Tiling, name_row, sample_shapes
from calc.shapes.shapes import Box, Circle, Line, Point, Shape, find_bounds, make_rectangle
from packet.draw.fonts import measure_words
from packet.draw.model import Drawing, Entity, Fill, Pen, Stroke, Words
from packet.draw.rules import draw_rule, pick_rules
from packet.words.phrases import take_words

MAP_WIDTH_MM = 26.0
MAP_HEIGHT_MM = 25.0
CROSS_MM = 6.0
SMALL_MM = 1.75
HEAD_MM, HEAD_GAP_MM = 3.6, 0.8
LINE_SIZES_MM = (2.3, 2.15, 2.0, 1.85, 1.7, 1.5, 1.3)
"""Capital heights of the small lines, the largest that has room for all of them is taken."""

LINE_PITCH = 1.5
WARNING_MM, WARNING_PITCH = 13.0, 1.6


@dataclass(frozen=True)
class Stamp:
    """The words at the head of a sheet: a bold first line, then smaller lines, as large as all of them have room."""

    head: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Warned:
    """What stands across a sheet: a head in capitals, and below it, smaller, its causes in sentences."""

    head: str
    tells: tuple[str, ...] = ()


def list_lines(warned: Sequence[Warned]) -> tuple[str, ...]:
    """Return warnings as plain lines, each head before what it tells."""
    return tuple(dict.fromkeys(line for one in warned for line in (one.head, *one.tells)))


def fit_words(text: str, size_mm: float, room_mm: float, bold: bool = False, least: float = 0.75) -> tuple[str, float]:
    """Return the text and the capital height [mm] at which it fits: smaller down to a share, then cut with dots."""
    wide = measure_words(text, size_mm, bold)
    if wide <= room_mm:
        return text, size_mm
    size = max(size_mm * room_mm / wide, size_mm * least)
    while text and measure_words(text + "...", size, bold) > room_mm:
        text = text[:-1]
    return (text + "..." if measure_words(text, size_mm, bold) < wide else text), size


def draw_rules(layout: PaperLayout, language: str) -> list[Entity]:
    """Return the four check rules of a sheet: millimetres and inches along the foot and up the left side."""
    return list(_draw_rules(layout, language))


@lru_cache(maxsize=8)
def _draw_rules(layout: PaperLayout, language: str) -> tuple[Entity, ...]:
    entities: list[Entity] = []
    words = take_words("template_sheet", language)
    mm_across, inch_across = pick_rules(layout.window_width_mm)
    mm_up, inch_up = pick_rules(layout.window_height_mm)
    begin = RULES_MM + 2.0
    entities += draw_rule(mm_across, Point(begin, 4.6))
    entities += draw_rule(inch_across, Point(begin, 0.3))
    entities += draw_rule(mm_up, Point(8.0, begin), upright=True)
    entities += draw_rule(inch_up, Point(3.7, begin), upright=True)
    for rule, height in ((mm_across, 5.2), (inch_across, 0.9)):
        room = layout.frame_width_mm - begin - rule.length_mm - 2.0
        if room > 12.0:
            text, size = fit_words(words("rule", rule=rule.name), SMALL_MM, room)
            entities.append(Words(at=Point(begin + rule.length_mm + 1.5, height), text=text, size_mm=size))
    for rule, left in ((mm_up, 7.4), (inch_up, 3.1)):
        entities.append(
            Words(
                at=Point(left, begin + rule.length_mm + 1.5),
                text=rule.name,
                size_mm=SMALL_MM,
                anchor="start",
                turn_deg=90.0,
            )
        )
    return tuple(entities)


def draw_stamp(layout: PaperLayout, stamp: Stamp, room_mm: float) -> list[Entity]:
    """Return the stamp's words, from the top of the frame down, in the room [mm] beside the page map."""
    return write_lines(stamp, Point(0.0, layout.frame_height_mm), room_mm, STAMP_MM - 1.0, HEAD_MM)


def write_lines(stamp: Stamp, corner: Point, wide_mm: float, tall_mm: float, head_mm: float) -> list[Entity]:
    """Return a bold line and lines below it in a room, from its upper left corner, wrapped and never cut short.

    Only a head or a word longer than the room at its smallest size is cut, with three dots.
    """
    head, head_size = fit_words(stamp.head, head_mm, wide_mm, bold=True, least=0.5)
    entities: list[Entity] = [Words(at=Point(corner.x, corner.y - head_mm), text=head, size_mm=head_size, bold=True)]
    room = tall_mm - head_mm - HEAD_GAP_MM
    for size in LINE_SIZES_MM:
        lines = [piece for line in stamp.lines for piece in wrap_words(line, size, wide_mm)]
        if len(lines) * size * LINE_PITCH <= room:
            break
    for index, line in enumerate(lines):
        text, fitted = fit_words(line, size, wide_mm)
        entities.append(
            Words(
                at=Point(corner.x, corner.y - head_mm - HEAD_GAP_MM - (index + 1) * size * LINE_PITCH),
                text=text,
                size_mm=fitted,
            )
        )
    return entities


def wrap_words(text: str, size_mm: float, room_mm: float, bold: bool = False) -> list[str]:
    """Return a text as the lines it takes at a capital height [mm]."""
    lines = [""]
    for word in text.split(" "):
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and measure_words(longer, size_mm, bold) > room_mm:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def draw_map(tiling: Tiling, here: Tile, needed: tuple[Shape, ...], corner: Point, language: str) -> list[Entity]:
    """Return the page map: all sheets with their names, the part across them, this sheet grey.

    corner: its upper right corner
    """
    words = take_words("template_sheet", language)
    grid = _find_grid(tiling)
    scale = min(MAP_WIDTH_MM / grid.width, MAP_HEIGHT_MM / grid.height)
    left, bottom = corner.x - grid.width * scale, corner.y - grid.height * scale

    def place(x: float, y: float) -> Point:
        return Point(left + (x - grid.left) * scale, bottom + (y - grid.bottom) * scale)

    entities: list[Entity] = []
    names: list[Entity] = []  # on top of the part's lines
    step_x = tiling.tiles[0].window.width - tiling.overlap_mm
    step_y = tiling.tiles[0].window.height - tiling.overlap_mm
    for row in range(tiling.rows):
        for column in range(tiling.columns):
            low = place(grid.left + column * step_x, grid.top - (row + 1) * step_y - tiling.overlap_mm)
            wide = (step_x + (tiling.overlap_mm if column == tiling.columns - 1 else 0.0)) * scale
            tall = (step_y + tiling.overlap_mm) * scale
            cell = make_rectangle(low.x, low.y, wide, tall)
            tile = tiling.find(row, column)
            if tile == here:
                entities.append(Fill(cell, 0.8))
            entities.append(Stroke(cell, Pen.DIMENSION if tile else Pen.GHOST))
            name = f"{name_row(row)}{column + 1}" if tile else words("no_sheet")
            size = min(2.4, tall * 0.5, wide * 0.3) if tile else min(1.2, wide * 0.2)
            names.append(
                Words(
                    at=Point(low.x + wide / 2, low.y + (tall - size) / 2),
                    text=name,
                    size_mm=size,
                    anchor="middle",
                    bold=bool(tile),
                    ground=bool(tile),
                )
            )
    for shape in needed:
        if isinstance(shape, Circle) and shape.radius * scale > 1.0:
            entities.append(Stroke(Circle(place(shape.centre.x, shape.centre.y), shape.radius * scale), Pen.GHOST))
        elif not isinstance(shape, Circle):
            box = find_bounds((shape,))
            if max(box.width, box.height) * scale > 2.0:
                a, b = place(box.left, box.bottom), place(box.right, box.top)
                entities.append(Stroke(make_rectangle(a.x, a.y, b.x - a.x, b.y - a.y), Pen.GHOST))
    return entities + names


def _find_grid(tiling: Tiling) -> Box:
    """Return the box of the whole grid, skipped sheets too."""
    tile = tiling.tiles[0]
    step_x, step_y = tile.window.width - tiling.overlap_mm, tile.window.height - tiling.overlap_mm
    left = tile.window.left - tile.column * step_x
    top = tile.window.top + tile.row * step_y
    width = step_x * tiling.columns + tiling.overlap_mm
    height = step_y * tiling.rows + tiling.overlap_mm
    return Box(left, top - height, left + width, top)


def draw_seams(tiling: Tiling, tile: Tile, needed: Sequence[Shape], language: str) -> list[Entity]:
    """Return trim lines, crosses and neighbours of one sheet, in the drawing's own millimetres.

    A sheet is trimmed at its left and upper edge and laid on the neighbour there. Crosses stand on the trim line, so
    half a cross at the trimmed edge meets the other half on the sheet below.
    """
    words = take_words("template_sheet", language)
    box, over = tile.window, tiling.overlap_mm
    ink = _sample_ink(tuple(needed)) if len(tiling.tiles) > 1 else ()
    entities: list[Entity] = []
    for side, row, column in (
        ("left", tile.row, tile.column - 1),
        ("right", tile.row, tile.column + 1),
        ("up", tile.row - 1, tile.column),
        ("down", tile.row + 1, tile.column),
    ):
        inside = 0 <= row < tiling.rows and 0 <= column < tiling.columns
        if not inside:
            continue
        name = f"{name_row(row)}{column + 1}"
        neighbour = tiling.find(row, column)
        line = words("trim" if side in ("left", "up") else "strip", sheet=name)
        if neighbour is None:
            line = words("no_neighbour", sheet=name)
        entities += _draw_edge(box, over, side, line, neighbour is not None, ink)
        if neighbour is not None:
            for number, cross in enumerate(_list_crosses(box, over, side), 1):
                entities += draw_cross(cross)
                entities.append(Words(at=Point(cross.x + 1.2, cross.y + 1.2), text=str(number), size_mm=1.4))
    for letters, check in zip(("PQ", "RS"), find_diagonals(tiling), strict=False):
        for at_tile, at, letter in (
            (check.start_tile, check.start, letters[0]),
            (check.end_tile, check.end, letters[1]),
        ):
            if at_tile == tile:
                entities += draw_cross(at, 4.0)
                entities.append(Stroke(Circle(at, 2.0), Pen.MARK))
                entities.append(Words(at=Point(at.x + 2.6, at.y + 1.0), text=letter, size_mm=2.4, bold=True))
    return entities


@lru_cache(maxsize=4)
def _sample_ink(needed: tuple[Shape, ...]) -> tuple[Point, ...]:
    """Return points on every line of a part: the same for all its sheets."""
    return tuple(sample_shapes(needed, 3.0))


def draw_cross(at: Point, reach_mm: float = CROSS_MM) -> list[Entity]:
    """Return an upright cross of thin lines."""
    return [
        Stroke(Line(Point(at.x - reach_mm, at.y), Point(at.x + reach_mm, at.y)), Pen.DIMENSION),
        Stroke(Line(Point(at.x, at.y - reach_mm), Point(at.x, at.y + reach_mm)), Pen.DIMENSION),
    ]


def _list_crosses(box: Box, over: float, side: str) -> list[Point]:
    """Return the crosses of one seam; both sheets reckon them from the same windows, so they agree."""
    if side in ("left", "right"):
        x = box.left if side == "left" else box.right - over
        return [Point(x, box.bottom + box.height * share) for share in (0.15, 0.5, 0.85)]
    y = box.top if side == "up" else box.bottom + over
    return [Point(box.left + box.width * share, y) for share in (0.15, 0.5, 0.85)]


def _draw_edge(box: Box, over: float, side: str, told: str, there: bool, ink: Sequence[Point]) -> list[Entity]:
    """Return the line of one seam and its words, set where the drawing leaves the most room."""
    if side in ("left", "right"):
        x = box.left if side == "left" else box.right - over
        line = Line(Point(x, box.bottom), Point(x, box.top))
        taken = [p.y for p in ink if x - 1.0 < p.x < x + over + 1.0] + [c.y for c in _list_crosses(box, over, side)]
        along = _find_clear(taken, box.bottom, box.height, measure_words(told, SMALL_MM))
        note = Words(
            at=Point(x + 3.2 if side == "left" else x + over - 1.2, along),
            text=told,
            size_mm=SMALL_MM,
            anchor="middle",
            turn_deg=90.0,
        )
    else:
        y = box.top if side == "up" else box.bottom + over
        line = Line(Point(box.left, y), Point(box.right, y))
        taken = [p.x for p in ink if y - over - 1.0 < p.y < y + 1.0] + [c.x for c in _list_crosses(box, over, side)]
        along = _find_clear(taken, box.left, box.width, measure_words(told, SMALL_MM))
        note = Words(
            at=Point(along, y - 3.2 if side == "up" else y - over + 1.2), text=told, size_mm=SMALL_MM, anchor="middle"
        )
    if not there:
        return [note]
    return [Stroke(line, Pen.HIDDEN if side in ("left", "up") else Pen.GHOST), note]


def _find_clear(taken: Sequence[float], start: float, length: float, wide: float) -> float:
    """Return where the middle of words stands along a seam: as far as can be from any line or cross there."""
    first, last = start + wide / 2 + 2.0, start + length - wide / 2 - 2.0
    count = max(1, int((last - first) // 2.0))
    places = [first + (last - first) * index / count for index in range(count + 1)]
    marks = [-math.inf, *sorted(taken), math.inf]

    def find_room(place: float) -> float:
        after = bisect(marks, place)
        return min(place - marks[after - 1], marks[after] - place)

    return max(places, key=find_room)


def draw_warning(width_mm: float, height_mm: float, warned: Sequence[Warned]) -> list[Entity]:
    """Return pale large words across a window, drawn under everything else: corner to corner, or level where the window
    is so low that slanted words would be smaller."""
    if not warned:
        return []
    slant, aspect = math.degrees(math.atan2(height_mm, width_mm)), width_mm / height_mm
    diagonal = math.hypot(width_mm, height_mm)
    ways = [
        (slant, _lay_warning(warned, diagonal * 0.72, diagonal * 0.28 * min(aspect, 1 / aspect))),
        (0.0, _lay_warning(warned, width_mm * 0.92, height_mm * 0.92)),
    ]
    turn, lines = max(ways, key=lambda way: way[1][0].size_mm + 0.01 * way[0])
    lean, middle = math.radians(turn), sum(line.size_mm * WARNING_PITCH for line in lines) / 2
    entities: list[Entity] = []
    for line in lines:
        middle -= line.size_mm * WARNING_PITCH
        off = middle + line.size_mm * (WARNING_PITCH - 1) / 2
        at = Point(width_mm / 2 - math.sin(lean) * off, height_mm / 2 + math.cos(lean) * off)
        entities.append(
            Words(at=at, text=line.text, size_mm=line.size_mm, anchor="middle", turn_deg=turn, bold=True, pen=Pen.STAMP)
        )
    return entities


@dataclass(frozen=True)
class _Line:
    text: str
    size_mm: float


def _lay_warning(warned: Sequence[Warned], wide_mm: float, tall_mm: float) -> list[_Line]:
    """Return the lines of a warning, heads twice as large as what they tell, as large as all have room."""
    size = WARNING_MM
    while True:
        lines: list[_Line] = []
        for one in warned:
            told = [piece for text in one.tells for piece in wrap_words(text, size / 2, wide_mm, True)]
            lines += [_Line(one.head, size), *(_Line(text, size / 2) for text in told)]
        tall = sum(line.size_mm * WARNING_PITCH for line in lines)
        wide = max(measure_words(line.text, line.size_mm, True) for line in lines)
        if (tall <= tall_mm and wide <= wide_mm) or size < 1.0:
            return lines
        size *= 0.93


def make_chrome(layout: PaperLayout, entities: list[Entity]) -> Drawing:
    """Return what stands round the window as a drawing of the whole frame."""
    frame = Box(0.0, 0.0, layout.frame_width_mm, layout.frame_height_mm)
    return Drawing("sheet", tuple(entities), frame)

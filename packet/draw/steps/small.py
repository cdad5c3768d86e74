"""Small pictures of the steps: a joint in section, the water gauge, and the shop from the side at a test."""

from __future__ import annotations

from calc.box.joints import CLEAT_WIDE_MM
from calc.design import Design
from calc.gauges.gauge import GaugeKind
from calc.project import Boxed
from calc.shapes.shapes import Arc, Box, Line, Path, Point
from packet.draw.model import Drawing, Entity, Fill, Pen, Stroke
from packet.draw.steps.rings import FOCUS, PLAIN, RIGHT_WORDS, name_at
from packet.draw.strokes import (
    close_drawing,
    draw_circle,
    draw_line,
    draw_rectangle,
    fill_rectangle,
    join_points,
)
from packet.words.phrases import Phrases, take_words

REACH_TIMES = 4.0
Named = list[tuple[float, str]]
STILL, LIQUID = 44.0, 0.6
EAR_MM = 1600.0
"""Height of an ear, standing (common practice, no source)."""
WIDE_MM, WALL_MM, ARROW_MM = 4200.0, 120.0, 500.0


def draw_joint(project: Boxed, design: Design, language: str, scale: float) -> Drawing:
    """Return a corner: the panel that is cut lies below, the panel that enters it stands; a cleat in their corner."""
    words = take_words("step_pictures", language)
    thick, joint = project.box.panel.thickness_mm, design.box.joint
    depth, lip = joint.depth_mm, joint.lip_mm
    reach = max(REACH_TIMES * thick, CLEAT_WIDE_MM + 2 * thick)
    cleated = project.box.joint == "cleat"
    high = max(2.6 * thick, CLEAT_WIDE_MM + 2 * thick if cleated else 0.0)
    standing = (lip, thick - depth, lip + thick, high)
    entities: list[Entity] = [
        fill_rectangle(0.0, 0.0, reach, thick, FOCUS if depth else PLAIN),
        draw_rectangle(0.0, 0.0, reach, thick),
        fill_rectangle(*standing, PLAIN),
        draw_rectangle(*standing),
    ]
    right = reach + 1.5 / scale
    names = [(high - 1.9 / scale, words("joint_enters")), (thick / 2, words("joint_cut" if depth else "panel"))]
    if cleated:
        cleat = (lip + thick, thick, lip + thick + CLEAT_WIDE_MM, 2 * thick)
        entities += [fill_rectangle(*cleat, FOCUS), draw_rectangle(*cleat, Pen.OUTLINE)]
        names = [
            (high - 1.9 / scale, words("panel")),
            (1.5 * thick, words("joint_cleat")),
            (0.3 * thick, words("panel")),
        ]
    entities += [name_at(right, y - 0.7 / scale, text) for y, text in names]
    return close_drawing("joint", entities, Box(0.0, 0.0, reach, high), RIGHT_WORDS, scale)


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


def draw_room(project: Boxed, design: Design, language: str, focus: str, scale: float) -> Drawing:
    """Return the room with the box at its height. focus: ``ear``, ``draught`` (burner off), ``spillage`` (lit)."""
    words = take_words("step_pictures", language)
    ceiling, stack = project.shop.ceiling_mm, design.stack
    entities: list[Entity] = [
        fill_rectangle(-WALL_MM, 0.0, 0.0, ceiling, 0.75),
        fill_rectangle(WIDE_MM, 0.0, WIDE_MM + WALL_MM, ceiling, 0.75),
        draw_rectangle(0.0, 0.0, WIDE_MM, ceiling),
        draw_rectangle(150.0, stack.box_bottom_mm, 150.0 + design.box.outside.width, stack.box_top_mm),
        draw_rectangle(350.0, stack.box_bottom_mm - stack.hanging_mm, 650.0, stack.box_bottom_mm, Pen.MARK),
    ]
    names = [(stack.box_bottom_mm + 100.0, words("room_box"))]
    if focus == "ear":
        x = 0.62 * WIDE_MM
        entities += [draw_rectangle(x + 250, 0.0, x + 950, 850.0), draw_circle(x, EAR_MM, 230.0)]
        entities += [draw_line(x, EAR_MM - 115, x, 800.0), draw_line(x, 800.0, x - 130, 0.0)]
        entities += [draw_line(x, 800.0, x + 130, 0.0), fill_rectangle(x + 130, EAR_MM - 60, x + 300, EAR_MM + 60, 0.0)]
        names += [(EAR_MM, words("room_meter")), (500.0, words("room_machine"))]
    else:
        door, heater = 2000.0, 0.62 * WIDE_MM
        entities += [
            fill_rectangle(WIDE_MM, 0.0, WIDE_MM + WALL_MM, door, 1.0),
            *_draw_arrow(WIDE_MM + 450, 1000.0, -1),
        ]
        entities += [*_draw_arrow(150.0, (stack.box_bottom_mm + stack.box_top_mm) / 2, -1)]
        names += [(1000.0, words("room_make_up"))]
        if project.shop.has_flue:
            entities += [draw_rectangle(heater - 250, 0.0, heater + 250, 1100.0)]
            entities += [draw_rectangle(heater - 70, 1100.0, heater + 70, ceiling)]
            if focus == "spillage":
                entities += [fill_rectangle(heater - 150, 1140.0, heater + 150, 1300.0, 0.3)]
                names += [(1750.0, words("room_smoke"))]
            else:
                names += [(250.0, words("room_burner_off"))]
    right = WIDE_MM + WALL_MM + (0.0 if focus == "ear" else 450.0)
    entities += [name_at(right + 1.5 / scale, y, text) for y, text in names]
    return close_drawing(f"room, {focus}", entities, Box(-400.0, 0.0, right, ceiling), RIGHT_WORDS, scale)


def _draw_arrow(x: float, y: float, way: int) -> list[Entity]:
    """Return an arrow along the floor's direction that ends so far from where it begins."""
    end = x + way * ARROW_MM
    head = join_points([(end, y), (end - way * 160, y + 70), (end - way * 160, y - 70)])
    return [draw_line(x, y, end - way * 160, y, Pen.HIGHLIGHT), Fill(head, 0.0)]

"""The shop from the side at a test: where to stand with the meter, and how the air comes in and goes out."""

from __future__ import annotations

from calc.design import Design
from calc.project import Project
from calc.shapes.shapes import Box
from packet.draw.model import Drawing, Entity, Fill, Pen
from packet.draw.steps.rings import RIGHT_WORDS, name_at
from packet.draw.strokes import close_drawing, draw_circle, draw_line, draw_rectangle, fill_rectangle, join_points
from packet.words.phrases import take_words

EAR_MM = 1600.0
"""Height of an ear, standing (common practice, no source)."""
WIDE_MM, WALL_MM, ARROW_MM = 4200.0, 120.0, 500.0


def draw_room(project: Project, design: Design, language: str, focus: str, scale: float) -> Drawing:
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

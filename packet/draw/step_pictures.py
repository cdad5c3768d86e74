"""Pictures for the steps, drawn from the design's own sizes, with the parts a step touches standing out.

A step file names its picture as ``kind: focus``, for example ``picture: box: seams``.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from calc.geometry.design import Design
from calc.geometry.ports import PortDesign
from calc.geometry.shapes import Arc, Box, Line, Path, Point
from calc.project import Project
from packet.draw.model import Drawing, Entity, Fill, Pen, Stroke
from packet.draw.step_box import MARGINS, BoxPicture
from packet.draw.step_ducts import draw_run
from packet.draw.step_joint import draw_joint
from packet.draw.step_rings import RIGHT_WORDS, Section, draw_hole, draw_lid, draw_pail, name_at
from packet.draw.strokes import close_drawing, draw_line, draw_rectangle, fill_rectangle, join_points

WIDE_MM, TALL_MM = 46.0, 23.0
"""Room for a picture beside a step, in millimetres on paper."""


@dataclass(frozen=True)
class Picture:
    """A drawing and its scale [mm on paper per real mm]."""

    drawing: Drawing
    scale: float


class StepPictures:
    """Draws pictures by the key in the step files. Each is fitted into its room."""

    def __init__(self, project: Project, design: Design) -> None:
        self.project, self.design = project, design
        ports = design.ports
        self.port: PortDesign = next((port for port in ports if port.port.kind == "filter"), ports[0])

    def draw(self, key: str) -> Picture | None:
        """Return the picture of that key, None for a part this project has not got. Raises KeyError for another key."""
        kind, _, focus = (word.strip() for word in key.partition(":"))
        make = self._choose(kind, focus)
        if make is None:
            return None
        margins = MARGINS if kind == "box" else RIGHT_WORDS
        bare = make(1.0).bounds
        wide, tall = bare.width - margins[0] - margins[2], bare.height - margins[1] - margins[3]
        scale = min((WIDE_MM - margins[0] - margins[2]) / wide, (TALL_MM - margins[1] - margins[3]) / tall)
        return Picture(make(scale), scale)

    def _choose(self, kind: str, focus: str) -> Callable[[float], Drawing] | None:
        project, design, port = self.project, self.design, self.port
        if kind == "joint" and project.box.joint == "butt":
            return None
        if (kind == "box" and focus == "cart" and project.box.hung != "cart") or (kind == "ducts" and not project.runs):
            return None
        if kind == "box":
            return lambda scale: BoxPicture(project, design, scale).draw(focus)
        if kind == "pail":
            return lambda scale: draw_pail(project, port, focus, scale)
        if kind == "hole":
            return lambda scale: draw_hole(port, focus, scale)
        if kind in ("collar", "lid on ring"):
            parts = tuple(word.strip() for word in focus.split(","))
            return lambda scale: Section(project, port, parts, scale).draw(kind == "lid on ring")
        if kind == "lid":
            part = next((each for each in design.flat_parts if each.name.startswith(focus)), None)
            return None if part is None else lambda scale: draw_lid(part, scale)
        return {
            "stack": lambda scale: draw_stack(project, design, focus, scale),
            "ducts": lambda scale: draw_run(project, focus, scale),
            "joint": lambda scale: draw_joint(project, design, scale),
            "gauge": lambda scale: draw_tube(project, scale),
        }[kind]


def draw_stack(project: Project, design: Design, focus: str, scale: float) -> Drawing:
    """Return box, filters and pails between floor and ceiling. focus: ``box``, ``filters``, ``place``, ``leaks``."""
    stack, wide, ceiling = design.stack, design.box.outside.width, project.shop.ceiling_mm
    left, right = -0.25 * wide, 1.25 * wide
    entities: list[Entity] = [
        draw_line(left, 0.0, right, 0.0, Pen.CUT),
        draw_line(left, ceiling, right, ceiling, Pen.CUT),
        fill_rectangle(0.0, stack.box_bottom_mm, wide, stack.box_top_mm, 0.6 if focus == "box" else 0.97),
        draw_rectangle(
            0.0, stack.box_bottom_mm, wide, stack.box_top_mm, Pen.GHOST if focus == "place" else Pen.OUTLINE
        ),
    ]
    if focus in ("filters", "leaks"):
        for port in design.ports:
            if port.port.kind == "filter" and port.port.face == "bottom":
                entities += _hang(project, port, stack.box_bottom_mm)
    elif focus == "place":
        y = {"wall": stack.box_top_mm - 70, "ceiling": ceiling, "cart": stack.box_bottom_mm}[project.box.hung]
        entities.append(draw_line(0.02 * wide, y, 0.98 * wide, y, Pen.HIGHLIGHT))
    elif focus == "box":
        x, y = wide / 2, stack.box_bottom_mm
        head = join_points([(x, y - 20), (x - 60, y - 160), (x + 60, y - 160)])
        entities += [draw_line(x, y - 420, x, y - 150, Pen.HIGHLIGHT), Fill(head, 0.0)]
    if focus == "leaks":
        entities += _order_leaks(project, design, right, scale)
        return close_drawing(f"stack, {focus}", entities, Box(left, 0.0, right, ceiling), RIGHT_WORDS, scale)
    names = {"box": "box", "filters": "filters, pails", "place": "rail" if project.box.hung == "wall" else "fixing"}
    middle = stack.box_bottom_mm - (0.0 if focus != "filters" else stack.hanging_mm / 2)
    entities += [
        name_at(right + 1.5 / scale, ceiling - 1.6 / scale, "ceiling"),
        name_at(right + 1.5 / scale, min(middle, ceiling - 4.4 / scale), names[focus]),
        name_at(right + 1.5 / scale, 0.0, "floor"),
    ]
    return close_drawing(f"stack, {focus}", entities, Box(left, 0.0, right, ceiling), RIGHT_WORDS, scale)


def _order_leaks(project: Project, design: Design, right: float, scale: float) -> list[Entity]:
    """Return the places to hunt, numbered in the order of the step, each with a line to its name."""
    stack, wide, port = design.stack, design.box.outside.width, design.ports[0]
    port = next((each for each in design.ports if each.port.kind == "filter" and each.port.face == "bottom"), port)
    x, low = port.port.across_mm or wide / 2, stack.box_bottom_mm
    ring, filters = port.port.closure.ring_height_mm, project.filters[0]
    places = [
        (wide, (low + stack.box_top_mm) / 2, "1 seams"),
        (x + port.flange_mm / 2, low, "2 rings"),
        (x + port.flange_mm / 2, low - ring, "3 lids"),
        (x + filters.outside_mm / 2, low - ring - filters.height_mm / 2, "4 filters"),
    ]
    entities: list[Entity] = []
    at = project.shop.ceiling_mm
    for end, y, words in places:
        at = min(y, at - 3.4 / scale)
        entities.append(draw_line(end, y, right + 1 / scale, at, Pen.DIMENSION))
        entities.append(name_at(right + 1.5 / scale, at - 0.7 / scale, words))
    return entities


def _hang(project: Project, port: PortDesign, top: float) -> list[Entity]:
    cartridge, pail, x = project.filters[0], port.port.pail, port.port.across_mm or 0.0
    y = top - port.port.closure.ring_height_mm
    low = y - cartridge.height_mm
    half = cartridge.outside_mm / 2
    entities: list[Entity] = [
        fill_rectangle(x - half, low, x + half, y, 0.6),
        draw_rectangle(x - half, low, x + half, y),
        draw_rectangle(x - port.flange_mm / 2, y, x + port.flange_mm / 2, top),
    ]
    entities += [draw_line(x + half * i / 4, low, x + half * i / 4, y, Pen.HATCH) for i in range(-3, 4)]
    bottom = low - 30 - pail.height_mm
    foot, rim = pail.bottom_mm / 2, pail.top_mm / 2
    shape = join_points([(x - foot, bottom), (x + foot, bottom), (x + rim, low), (x - rim, low)])
    return [*entities, Fill(shape, 0.75), Stroke(shape, Pen.OUTLINE)]


def draw_tube(project: Project, scale: float) -> Drawing:
    """Return the gauge: a U with the two levels apart, a slope, or a well, by its kind. Not to scale."""
    kind = project.gauge.kind
    levels: list[Entity] = []
    if kind == "inclined":
        levels = [
            draw_line(0, 0, 120, 24, Pen.CUT),
            draw_line(0, 7, 120, 31, Pen.CUT),
            draw_line(5, 4.5, 70, 17.5, Pen.HIGHLIGHT),
        ]
        names = [(20.0, "true slope"), (6.0, "zero here")]
    elif kind == "well":
        levels = [draw_rectangle(0, 0, 40, 26, Pen.CUT), fill_rectangle(0, 0, 40, 14, 0.6)]
        levels += [
            draw_line(52, 6, 52, 80, Pen.CUT),
            draw_line(58, 6, 58, 80, Pen.CUT),
            fill_rectangle(52, 6, 58, 46, 0.6),
        ]
        levels.append(draw_line(40, 6, 58, 6, Pen.CUT))
        names = [(44.0, "read here"), (12.0, "well")]
    else:
        for x in (0.0, 30.0):
            levels += [draw_line(x, 12, x, 80, Pen.CUT), draw_line(x + 8, 12, x + 8, 80, Pen.CUT)]
        for radius in (11.0, 19.0):
            levels.append(Stroke(Path((Arc(Point(19.0, 12.0), radius, 180.0, 360.0),), closed=False), Pen.CUT))
        levels += [fill_rectangle(0.6, 12, 7.4, 30, 0.6), fill_rectangle(30.6, 12, 37.4, 58, 0.6)]
        levels += [Stroke(Line(Point(-6, y), Point(44, y)), Pen.DIMENSION) for y in (30.0, 44.0, 58.0)]
        names = [(57.0, "up"), (43.0, "zero"), (29.0, "down")]
        if kind == "u-tube":
            names.append((12.0, "read up + down"))
    right = max(point for point in (44.0, 120.0 if kind == "inclined" else 0.0, 62.0 if kind == "well" else 0.0))
    levels += [name_at(right + 1.5 / scale, y, text) for y, text in names]
    low = -8.0 if kind.startswith("u-tube") else 0.0
    bounds = Box(-8.0, low, right, 84.0 if kind != "inclined" else 36.0)
    return close_drawing("gauge", levels, bounds, RIGHT_WORDS, scale)

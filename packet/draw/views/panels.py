"""A panel as it is cut, seen from outside: holes by their middles, screw holes, grooves and strips behind or before."""

from __future__ import annotations

from calc.box.panel_facts import PanelFacts, Strip
from calc.box.parts import SCREW_DRILL_MM
from calc.design import Design
from calc.measures.marking import write_mark
from calc.measures.quantity import Reader
from calc.shapes.part_names import say_inlet
from calc.shapes.shapes import Box, Point
from packet.draw.model import Dimension, Drawing, Entity, Pen
from packet.draw.strokes import close_drawing, draw_circle, draw_cross, draw_rectangle, name_opening, write_at
from packet.words.say import say

FIRST_MM, EVERY_MM, RIGHT_MM, ABOVE_MM = 6.0, 5.0, 8.0, 4.0
"""Paper from a panel to the first dimension line beside it, from one to the next, and left free on the other sides."""


def list_worked(design: Design) -> tuple[PanelFacts, ...]:
    """Return the panels that have holes, grooves or strips to mark out, in cut-list order."""
    return tuple(panel for panel in design.panels if panel.is_worked)


def measure_panel(panel: PanelFacts, scale: float) -> tuple[float, float]:
    """Return how wide and high [mm on paper] a panel's drawing is at a scale."""
    left, below, right, above = _find_margins(panel)
    return panel.part.width_mm * scale + left + right, panel.part.height_mm * scale + below + above


def _find_margins(panel: PanelFacts) -> tuple[float, float, float, float]:
    left = FIRST_MM + EVERY_MM * len(_list_ups(panel)) - 2.0
    below = FIRST_MM + EVERY_MM * (len(_list_acrosses(panel)) + 1) - 2.0
    return left, below, RIGHT_MM, ABOVE_MM


def _list_acrosses(panel: PanelFacts) -> list[float]:
    """Return what is measured from the left edge: middles of holes and of strips that run up the panel."""
    strips = [strip.middle_mm for strip in _list_measured(panel) if strip.is_upright]
    return _list_once([*(hole.across_mm for hole in panel.holes), *strips])


def _list_ups(panel: PanelFacts) -> list[float]:
    """Return what is measured from the lower edge: middles of holes and of strips that run across the panel."""
    strips = [strip.middle_mm for strip in _list_measured(panel) if not strip.is_upright]
    return _list_once([*(hole.up_mm for hole in panel.holes), *strips])


def _list_once(places_mm: list[float]) -> list[float]:
    """Return places in order, each once; as they are, since one that is rounded first can be told as another mark."""
    return sorted({round(mm, 3): mm for mm in places_mm}.values())


def _list_measured(panel: PanelFacts) -> tuple[Strip, ...]:
    """Return cleats and ribs: rails go on by the cut list once the box stands."""
    return tuple(strip for strip in panel.strips if strip.inside)


def draw_panel(panel: PanelFacts, reader: Reader, scale: float) -> Drawing:
    """Return the panel with the dimensions it is marked out by, each from its own left or lower edge."""
    part = panel.part
    entities: list[Entity] = [draw_rectangle(0.0, 0.0, part.width_mm, part.height_mm, Pen.CUT)]
    for joint in panel.joints:
        groove = joint.groove
        right, top = groove.left_mm + groove.width_mm, groove.bottom_mm + groove.height_mm
        entities.append(draw_rectangle(groove.left_mm, groove.bottom_mm, right, top, Pen.HIDDEN))
    for strip in panel.strips:
        entities += _draw_strip(strip, scale)
    for row in panel.rows:
        if row.drilled:
            entities += [draw_circle(spot.x, spot.y, SCREW_DRILL_MM, Pen.DRILL) for spot in row.spots]
    for hole in panel.holes:
        x, y = hole.across_mm, hole.up_mm
        entities.append(draw_circle(x, y, hole.diameter_mm, Pen.CUT))
        entities += draw_cross(x, y, hole.diameter_mm / 2 + 2 / scale)
        name = say(say_inlet(), reader) if hole.kind == "inlet" else hole.name
        entities.append(name_opening(name, x, y, hole.diameter_mm, scale))
    entities += _measure(panel, reader)
    box = Box(0.0, 0.0, part.width_mm, part.height_mm)
    return close_drawing(f"{panel.name} panel", entities, box, _find_margins(panel), scale)


def _draw_strip(strip: Strip, scale: float) -> list[Entity]:
    """Return a strip's outline with its number: dashed behind the panel, thin on its outside."""
    pen = Pen.HIDDEN if strip.inside else Pen.GHOST
    x, y = (strip.left_mm + strip.right_mm) / 2, (strip.bottom_mm + strip.top_mm) / 2
    share = 0.3 if strip.inside else 0.12  # clear of the middle, where openings and their crosses are
    if strip.is_upright:
        y = strip.bottom_mm + share * (strip.top_mm - strip.bottom_mm)
    else:
        x = strip.left_mm + share * (strip.right_mm - strip.left_mm)
    number = write_at(x, y - 0.7 / scale, strip.number, 1.8, ground=True)
    return [draw_rectangle(strip.left_mm, strip.bottom_mm, strip.right_mm, strip.top_mm, pen), number]


def _measure(panel: PanelFacts, reader: Reader) -> list[Entity]:
    """Return overall sizes, and every place from the left and the lower edge: one edge, so that no error adds up."""
    width, height = panel.part.width_mm, panel.part.height_mm
    entities: list[Entity] = []
    for index, across in enumerate(_list_acrosses(panel)):
        offset = -FIRST_MM - EVERY_MM * index
        entities.append(Dimension(Point(0.0, 0.0), Point(across, 0.0), write_mark(across, reader), offset))
    last = -FIRST_MM - EVERY_MM * len(_list_acrosses(panel))
    entities.append(Dimension(Point(0.0, 0.0), Point(width, 0.0), write_mark(width, reader), last))
    entities.append(Dimension(Point(width, 0.0), Point(width, height), write_mark(height, reader), -FIRST_MM))
    for index, up in enumerate(_list_ups(panel)):
        offset = FIRST_MM + EVERY_MM * index
        entities.append(Dimension(Point(0.0, 0.0), Point(0.0, up), write_mark(up, reader), offset))
    return entities

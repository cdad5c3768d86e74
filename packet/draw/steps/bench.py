"""Panels that carry ports, flat on the bench, and the collars that go into them, numbered as in the cut list."""

from __future__ import annotations

from calc.box.parts import BoxPart, Hole
from calc.box.ports import PortDesign
from calc.design import Design
from calc.finding import Subject
from calc.settled import Settled
from calc.shapes.faces import Block
from packet.draw.model import Drawing, Entity, Fill, Pen, Stroke
from packet.draw.rings import Ring
from packet.draw.steps.solids import FOCUS_TONE, Thing, Vector, close_scene, draw_brick, draw_drum, trace_circle
from packet.draw.strokes import join_points
from packet.draw.views.exploded import Sight

APART_MM = 120.0  # between panels that lie side by side
LIFT_MM = 130.0  # a collar that is on its way in
STUB_MM = 45.0  # collar sticking out before it is trimmed, drawn longer than it is
RING_MM = 1.6


def draw_bench(project: Settled, design: Design, focus: str, scale: float) -> Drawing:
    """Return the panels with their holes. focus: ``holes``; ``fit`` or ``seal``, outside up; ``trim``, inside up."""
    sight = Sight(False)
    things: list[Thing] = []
    marks: list[Ring] = []
    at = 0.0
    numbers = _number_holes(design)
    for part in sorted(_list_panels(design, focus), key=lambda each: -each.height_mm):
        low = (0.0, at, 0.0)
        block = Block(low, (part.width_mm, at + part.height_mm, part.thickness_mm))
        tone = FOCUS_TONE if focus == "holes" else None
        things.append(Thing(-1e6 - at, tuple(draw_brick(sight, block, tone, Pen.OUTLINE))))
        marks.append(
            Ring(*sight.see((0.96 * part.width_mm, at + 0.5 * part.height_mm, part.thickness_mm)), part.number)
        )
        for hole in part.holes:
            things += _draw_hole(design, part, hole, at, focus, sight)
            if hole.name in numbers:
                marks.append(_mark_hole(part, hole, at, focus, sight, numbers[hole.name]))
        at += part.height_mm + APART_MM
    entities = [entity for thing in sorted(things, key=lambda each: each.depth) for entity in thing.entities]
    return close_scene(f"bench, {focus}", sight, entities, marks, [], scale, RING_MM)


def _list_panels(design: Design, focus: str) -> list[BoxPart]:
    """Return the panels that carry ports; for the holes, the one with the inlet too."""
    return [
        part
        for part in design.parts
        if part.kind == "panel" and any(focus == "holes" or hole.kind != "inlet" for hole in part.holes)
    ]


def _number_holes(design: Design) -> dict[str, str]:
    """Return the cut list's numbers of the holes by the names of their ports."""
    found = {}
    for port in design.ports:
        for part in design.flat_parts:
            if part.kind == "hole" and Subject("port", port.name) in part.subjects:
                found[port.name] = part.number
    return found


def _place(part: BoxPart, hole: Hole, at: float, focus: str, high: float) -> Vector:
    across = part.width_mm - hole.across_mm if focus == "trim" else hole.across_mm
    return across, at + hole.up_mm, high


def _draw_hole(design: Design, part: BoxPart, hole: Hole, at: float, focus: str, sight: Sight) -> list[Thing]:
    """Return a hole and what goes into it: nearer panels come later, and a collar after its hole."""
    middle = _place(part, hole, at, focus, part.thickness_mm)
    opening = trace_circle(sight, middle, 2, hole.diameter_mm)
    plain: list[Entity] = [Fill(opening, 0.97 if focus == "holes" else 0.85), Stroke(opening, Pen.OUTLINE)]
    port = next((each for each in design.ports if each.name == hole.name), None)
    if port is None or focus == "holes":
        return [Thing(-at, tuple(plain))]
    if focus == "seal":
        bead = trace_circle(sight, middle, 2, (hole.diameter_mm + port.flange_mm) / 2)
        plain = [Stroke(bead, Pen.HIGHLIGHT), *plain]
    collar = _draw_stub(port, middle, sight) if focus == "trim" else _draw_collar(port, middle, sight)
    return [Thing(-at, tuple(plain)), Thing(1e3 - at, tuple(collar))]


def _draw_stub(port: PortDesign, middle: Vector, sight: Sight) -> list[Entity]:
    x, y, z = middle
    return draw_drum(sight, middle, (x, y, z + STUB_MM), 2, port.mean_mm)


def _draw_collar(port: PortDesign, middle: Vector, sight: Sight) -> list[Entity]:
    """Return a collar with its ring above its hole, the ring up, and the way in."""
    x, y, z = middle
    closure = port.port.closure
    foot, flange = z + LIFT_MM, z + LIFT_MM + STUB_MM
    entities = draw_drum(sight, (x, y, foot), (x, y, flange), 2, port.mean_mm)
    entities += draw_drum(sight, (x, y, flange), (x, y, flange + closure.flange_thick_mm), 2, port.flange_mm, 0.8)
    top = flange + closure.ring_height_mm
    entities += draw_drum(sight, (x, y, flange), (x, y, top), 2, port.mean_mm + 10.0)
    bore = trace_circle(sight, (x, y, top), 2, port.bore_mm)
    way = join_points([sight.see((x, y, z)), sight.see((x, y, foot))], closed=False)
    return [Stroke(way, Pen.CENTRE), *entities, Fill(bore, 1.0), Stroke(bore, Pen.OUTLINE)]


def _mark_hole(part: BoxPart, hole: Hole, at: float, focus: str, sight: Sight, number: str) -> Ring:
    """Return a hole's number in front of it."""
    x, y, z = _place(part, hole, at, focus, part.thickness_mm)
    return Ring(*sight.see((x, y - 0.62 * hole.diameter_mm, z)), number)

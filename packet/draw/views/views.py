"""Plan, front, side and underside of the box in third-angle projection, with its ports and dimensions."""

from __future__ import annotations

from dataclasses import dataclass

from calc.box.parts import SCREW_DRILL_MM
from calc.design import Design
from calc.measures.marking import write_between
from calc.measures.quantity import Reader
from calc.project import Face
from calc.settled import Settled
from calc.shapes.faces import find_face_size, find_flat
from calc.shapes.part_names import say_inlet
from calc.shapes.shapes import Box, Point
from packet.draw.model import Dimension, Drawing, Entity, Pen
from packet.draw.strokes import (
    close_drawing,
    draw_circle,
    draw_cross,
    draw_line,
    draw_rectangle,
    name_opening,
    write_at,
)
from packet.draw.views.view_mounts import draw_blower, draw_mount, find_extent
from packet.words.phrases import take_words
from packet.words.say import say

MARGINS = (16.0, 12.0, 14.0, 10.0)
ACROSS_MM, UP_MM, TOP_MM = 20.0, 23.0, 9.0
"""Paper beside the front view, below it and above it, for the dimensions and titles that stand there."""


@dataclass(frozen=True, kw_only=True)
class _Placed:
    """A view. left, bottom: where the box's own lower left corner stands; extent: box and mount, from that corner."""

    face: Face
    left: float
    bottom: float
    width: float
    height: float
    extent: Box


def choose_side(project: Settled) -> Face:
    """Return the side to draw: where the duct comes in, else the right."""
    return "left" if project.box.inlet.face == "left" else "right"


def measure_views(project: Settled, design: Design, scale: float) -> tuple[float, float]:
    """Return how wide and high [mm on paper] the views are at a scale."""
    box = _bound(_place_views(project, design, scale))
    return box.width * scale + MARGINS[0] + MARGINS[2], box.height * scale + MARGINS[1] + MARGINS[3]


def needs_back(project: Settled) -> bool:
    """Tell whether something sits on the back."""
    return project.box.inlet.face == "back" or any(port.face == "back" for port in project.ports)


def _place_views(project: Settled, design: Design, scale: float) -> list[_Placed]:
    """Return the views folded out from the front, with room on paper between them."""
    gap, rise, above = ACROSS_MM / scale, UP_MM / scale, TOP_MM / scale
    side = choose_side(project)
    front = _place("front", design, 0.0, 0.0)
    places = [front]
    extent = find_extent(design, side)
    left = front.extent.left - gap - extent.right if side == "left" else front.extent.right + gap - extent.left
    places.append(_place(side, design, left, 0.0))
    top, under = find_extent(design, "top"), find_extent(design, "bottom")
    places.append(_place("top", design, 0.0, front.extent.top + above - top.bottom))
    places.append(_place("bottom", design, 0.0, front.extent.bottom - rise - under.top))
    if needs_back(project):
        end = max(place.left + place.extent.right for place in places[:2])
        places.append(_place("back", design, end + gap - find_extent(design, "back").left, 0.0))
    return places


def _place(face: Face, design: Design, left: float, bottom: float) -> _Placed:
    wide, high = find_face_size(face, design.box.outside)
    return _Placed(face=face, left=left, bottom=bottom, width=wide, height=high, extent=find_extent(design, face))


def _bound(places: list[_Placed]) -> Box:
    return Box(
        min(place.left + place.extent.left for place in places),
        min(place.bottom + place.extent.bottom for place in places),
        max(place.left + place.extent.right for place in places),
        max(place.bottom + place.extent.top for place in places),
    )


def draw_views(project: Settled, design: Design, reader: Reader, scale: float) -> Drawing:
    """Return the views folded out from the front: top above it, underside below, the side and the back beside it."""
    side = choose_side(project)
    places = _place_views(project, design, scale)
    entities: list[Entity] = []
    for place in places:
        entities += _draw_face(project, design, place, reader, scale)
        entities += draw_mount(design, place.face, place.left, place.bottom)
        blower = take_words("drawings", reader.language)("blower")
        entities += draw_blower(design, place.face, place.left, place.bottom, blower)
        entities += _measure_face(project, design, place, side, reader)
    return close_drawing("views of the box", entities, _bound(places), MARGINS, scale)


def _draw_face(project: Settled, design: Design, place: _Placed, reader: Reader, scale: float) -> list[Entity]:
    """Return one view: outline, panel edges that show, hidden inner walls, ports, inlet."""
    outside, x0, y0 = design.box.outside, place.left, place.bottom
    entities: list[Entity] = [draw_rectangle(x0, y0, x0 + place.width, y0 + place.height)]
    for part in design.parts:
        if part.kind != "panel" or part.face == place.face:
            continue
        left, bottom, right, top = find_flat(place.face, part.block, outside)
        # the edge of a panel that reaches this face is seen; where the face's own panel covers it, it is hidden
        own = next(p for p in design.parts if p.face == place.face and p.kind == "panel")
        own_flat = find_flat(place.face, own.block, outside)
        covered = own_flat[0] <= left + 1e-6 and own_flat[2] >= right - 1e-6
        covered = covered and own_flat[1] <= bottom + 1e-6 and own_flat[3] >= top - 1e-6
        pen = Pen.HIDDEN if covered else Pen.OUTLINE
        if min(right - left, top - bottom) < project.box.panel.thickness_mm + 1e-6:
            entities.append(draw_rectangle(x0 + left, y0 + bottom, x0 + right, y0 + top, pen))
    for row in design.rows:
        if row.face == place.face and not row.from_inside:
            entities += [draw_circle(x0 + s.x, y0 + s.y, SCREW_DRILL_MM, Pen.DRILL) for s in row.spots]
    for port in design.ports:
        if port.port.face == place.face:
            x, y = x0 + port.port.across_mm, y0 + port.port.up_mm
            entities += [draw_circle(x, y, port.flange_mm), draw_circle(x, y, port.hole_mm, Pen.HIDDEN)]
            entities += draw_cross(x, y, port.flange_mm / 2 + 3 / scale)
            entities.append(name_opening(port.name, x, y, port.hole_mm, scale))
    inlet = project.box.inlet
    if inlet.face == place.face:
        x, y = x0 + inlet.across_mm, y0 + inlet.up_mm
        entities.append(draw_circle(x, y, inlet.diameter_mm))
        entities += draw_cross(x, y, inlet.diameter_mm / 2 + 3 / scale)
        entities.append(name_opening(say(say_inlet(), reader), x, y, inlet.diameter_mm, scale))
    title = take_words("drawings", reader.language)(f"view_{place.face}")
    entities.append(write_at(x0 + place.width / 2, y0 + place.extent.top + 2.2 / scale, title, 2.2, bold=True))
    return entities


def _measure_face(project: Settled, design: Design, place: _Placed, side: Face, reader: Reader) -> list[Entity]:
    """Return the dimensions of a view: outside sizes, and where its openings sit."""
    x0, y0, entities = place.left, place.bottom, list[Entity]()
    foot, start, end = y0 + place.extent.bottom, x0 + place.extent.left, x0 + place.extent.right
    spots = [(p.port.across_mm, p.port.up_mm) for p in design.ports if p.port.face == place.face]
    inlet = project.box.inlet
    if inlet.face == place.face:
        spots.append((inlet.across_mm, inlet.up_mm))
    if place.face == "front":
        entities.append(_across(x0, 0.0, place.width, foot, -13.0 if spots else -6.0, reader))
        entities.append(_upward(end, y0, place.height, -6.0, reader))
    if place.face == side:
        entities.append(_across(x0, 0.0, place.width, foot, -13.0 if spots else -6.0, reader))
    last = 0.0
    for across, _ in sorted(spots):
        entities.append(_across(x0, last, across, foot, -6.0, reader))
        last = across
    for up in sorted({round(up, 3) for _, up in spots}):
        entities.append(_upward(start, y0, up, 6.0, reader))
    if place.face == "top":
        entities.append(_upward(start, y0, place.height, 6.0, reader))
    return entities


def _across(edge: float, left: float, right: float, at: float, offset: float, reader: Reader) -> Dimension:
    """left, right: from the view's own edge."""
    return Dimension(Point(edge + left, at), Point(edge + right, at), write_between(left, right, reader), offset)


def _upward(at: float, edge: float, high: float, offset: float, reader: Reader) -> Dimension:
    """high: above the view's own lower edge."""
    return Dimension(Point(at, edge), Point(at, edge + high), write_between(0.0, high, reader), offset)


def draw_projection_sign(scale: float = 1.0) -> Drawing:
    """Return the sign for third-angle projection (ISO 5456-2, from memory): a cone's end left of its side view."""
    s = 1 / scale
    entities: list[Entity] = [
        draw_circle(0.0, 0.0, 5 * s), draw_circle(0.0, 0.0, 2.5 * s), *draw_cross(0.0, 0.0, 3.4 * s),
        draw_line(5 * s, -1.25 * s, 5 * s, 1.25 * s), draw_line(11 * s, -2.5 * s, 11 * s, 2.5 * s),
        draw_line(5 * s, 1.25 * s, 11 * s, 2.5 * s), draw_line(5 * s, -1.25 * s, 11 * s, -2.5 * s),
        draw_line(4 * s, 0.0, 12 * s, 0.0, Pen.CENTRE),
    ]  # fmt: skip
    return Drawing("third-angle projection", tuple(entities), Box(-4 * s, -4 * s, 12.5 * s, 4 * s))

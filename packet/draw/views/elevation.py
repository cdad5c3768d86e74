"""The stack from ceiling to floor, to scale: box, filter, lids, pail, and the heights that matter."""

from __future__ import annotations

from calc.box.stack import hang_parts
from calc.box.standing import CASTER_MM
from calc.design import Design
from calc.measures.marking import write_between, write_mark
from calc.measures.quantity import Reader
from calc.settled import Settled
from calc.shapes.shapes import Box, Point
from packet.draw.model import Dimension, Drawing, Entity, Pen, Stroke
from packet.draw.strokes import (
    close_drawing,
    draw_circle,
    draw_line,
    draw_rectangle,
    fill_rectangle,
    join_points,
    write_at,
)
from packet.draw.views.view_mounts import CASTER_WHEEL_MM, draw_blower, find_extent, find_wheel_places
from packet.words.phrases import Phrases, take_words

MARGINS = (18.0, 4.0, 20.0, 4.0)
WALL_MM = 150.0
FLOOR_MM = 60.0  # thickness that floor and ceiling are drawn with
BELOW_MM = 7.0
SHORT_MM = 26.0  # on paper: room for a dimension's words along its line


def measure_elevation(project: Settled, design: Design, scale: float) -> tuple[float, float]:
    """Return how wide and high [mm on paper] the elevation is at a scale."""
    left, right = _find_ends(design)
    return (
        (right - left) * scale + MARGINS[0] + MARGINS[2],
        project.shop.ceiling_mm * scale + MARGINS[1] + MARGINS[3] + _find_below(design),
    )


def draw_elevation(project: Settled, design: Design, reader: Reader, scale: float) -> Drawing:
    """Return the front elevation: floor at 0, ceiling, the box, what hangs under each filter port."""
    stack, wide, ceiling = design.stack, design.box.outside.width, project.shop.ceiling_mm
    left, right = _find_ends(design)
    entities: list[Entity] = [
        draw_line(left, 0.0, right, 0.0, Pen.CUT),
        draw_line(left, ceiling, right, ceiling, Pen.CUT),
        fill_rectangle(left, -FLOOR_MM, right, 0.0, hatch=True),
        fill_rectangle(left, ceiling, right, ceiling + FLOOR_MM, hatch=True),
        draw_rectangle(0.0, stack.box_bottom_mm, wide, stack.box_top_mm),
    ]
    words = take_words("drawings", reader.language)
    entities += _draw_mount(design)
    entities += draw_blower(design, "front", 0.0, stack.box_bottom_mm, words("blower"))
    for port in design.ports:
        x = port.port.across_mm
        if port.port.face == "bottom" and port.port.kind == "filter":
            entities += _draw_hanging(project, design, x, words, scale)
        elif port.port.face == "front":
            entities += _draw_front_port(x, stack.box_bottom_mm + port.port.up_mm, port.flange_mm, port.lid_mm)
    entities += _measure(project, design, reader, left, right, scale)
    low = -FLOOR_MM - _find_below(design) / scale
    return close_drawing("elevation", entities, Box(left, low, right, ceiling + FLOOR_MM), MARGINS, scale)


def _find_ends(design: Design) -> tuple[float, float]:
    """Return the left and right end of the floor that is drawn: some beyond box, mount and what stands on a cart."""
    extent = find_extent(design, "front")
    return min(-WALL_MM, extent.left - WALL_MM / 2), max(design.box.outside.width + WALL_MM, extent.right + WALL_MM / 2)


def _find_below(design: Design) -> float:
    """Return the room [mm on paper] under the floor: for the spacing of a cart's wheels."""
    return 0.0 if design.mount.wheels_mm is None else BELOW_MM


def _draw_mount(design: Design) -> list[Entity]:
    """Return rails or cart as seen from the front; what the box or its sides hide is dashed."""
    under, entities = design.stack.box_bottom_mm, list[Entity]()
    for part in design.mount.parts:
        pen = Pen.HIDDEN if part.face == "back" else Pen.OUTLINE
        low, high = part.block.low, part.block.high
        entities.append(draw_rectangle(low[0], under + low[2], high[0], under + high[2], pen))
    if design.mount.wheels_mm is not None:
        for x in find_wheel_places(design, "front"):
            entities.append(draw_circle(x, CASTER_WHEEL_MM / 2, CASTER_WHEEL_MM))
            entities.append(draw_line(x, CASTER_WHEEL_MM / 2, x, CASTER_MM, Pen.OUTLINE))
    return entities


def _draw_front_port(x: float, y: float, flange: float, lid: float) -> list[Entity]:
    return [draw_circle(x, y, flange), draw_circle(x, y, lid)]


def _draw_hanging(project: Settled, design: Design, x: float, words: Phrases, scale: float) -> list[Entity]:
    """Return what hangs under one port; the pail is drawn tapered."""
    port = next(p for p in design.ports if abs(p.port.across_mm - x) < 1e-6)
    widths = {
        "ring flange": port.flange_mm,
        "filter lid": port.lid_mm,
        "gasket": project.get_filter(port.port).outside_mm,
        "filter": project.get_filter(port.port).outside_mm,
        "pail lid": port.lid_mm,
        "pail ring": port.flange_mm,
    }
    entities: list[Entity] = []
    for part in hang_parts(project, port.port, design.stack.box_bottom_mm):
        if part.name == "catch pail":
            top, low = port.port.pail.top_mm / 2, port.port.pail.bottom_mm / 2
            corners = [
                (x - low, part.bottom_mm),
                (x + low, part.bottom_mm),
                (x + top, part.top_mm),
                (x - top, part.top_mm),
            ]
            entities.append(Stroke(join_points(corners), Pen.OUTLINE))
            continue
        half = widths[part.name] / 2
        entities.append(draw_rectangle(x - half, part.bottom_mm, x + half, part.top_mm))
        if part.name == "filter":
            pleats = [x - half + i * 2 * half / 12 for i in range(1, 12)]
            entities += [draw_line(p, part.bottom_mm, p, part.top_mm, Pen.HATCH) for p in pleats]
    entities.append(
        draw_line(
            x,
            design.stack.stand_mm + design.stack.floor_gap_mm - 60.0,
            x,
            design.stack.box_bottom_mm + 80.0,
            Pen.CENTRE,
        )
    )
    for part in design.stack.parts:
        if part.name in ("filter", "catch pail"):
            name = words("filter" if part.name == "filter" else "pail")
            y = (part.bottom_mm + part.top_mm) / 2 - 0.9 / scale
            entities.append(write_at(x, y, name, 1.8, ground=True))
    return entities


def _measure(project: Settled, design: Design, reader: Reader, left: float, right: float, scale: float) -> list[Entity]:
    stack, words = design.stack, take_words("drawings", reader.language)

    def up(at: float, low: float, high: float, key: str, offset: float) -> Dimension:
        own = key in ("box", "")  # a thing's own height, as the other pages have it; the rest are heights in the room
        length = write_mark(high - low, reader) if own else write_between(low, high, reader)
        return Dimension(Point(at, low), Point(at, high), words(key, length=length) if key else length, offset)

    entities: list[Entity] = [
        up(left, 0.0, stack.ceiling_mm, "ceiling", 14.0),
        up(left, 0.0, stack.box_bottom_mm, "underside", 6.0),
        up(left, stack.box_bottom_mm, stack.box_top_mm, "box", 6.0),
    ]
    if design.mount.wheels_mm is not None:
        across, start = design.mount.wheels_mm[0], find_wheel_places(design, "front")[0]
        told = words("wheels", length=write_mark(across, reader))
        entities.append(Dimension(Point(start, -FLOOR_MM), Point(start + across, -FLOOR_MM), told, -5.0))
    if stack.parts:
        end = stack.stand_mm + stack.floor_gap_mm
        if stack.floor_gap_mm * scale > SHORT_MM:
            entities.append(up(right, stack.stand_mm, end, "clear", -6.0))
        else:  # words along so short a line would run into the next ones
            entities.append(Dimension(Point(right, stack.stand_mm), Point(right, end), "", -6.0))
            x, y = right + 8.0 / scale, (stack.stand_mm + end) / 2
            entities.append(write_at(x, y - 0.9 / scale, words("clear_short"), 2.2, "start"))
            entities.append(write_at(x, y - 4.0 / scale, write_between(stack.stand_mm, end, reader), 2.2, "start"))
        entities.append(up(right, end, stack.box_bottom_mm, "hangs", -6.0))
        for part in stack.parts:
            if part.name in ("filter", "catch pail"):
                entities.append(up(right, part.bottom_mm, part.top_mm, "", -14.0))
    return entities

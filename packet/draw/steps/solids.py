"""Bricks and drums as the eye sees them at a step: what the step touches is toned, the rest is white."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from calc.shapes.faces import Block
from calc.shapes.shapes import Path, find_bounds
from packet.draw.model import Drawing, Entity, Fill, Pen, Stroke
from packet.draw.rings import Ring, draw_rings
from packet.draw.strokes import close_drawing, draw_line, join_points, trace_round, write_at
from packet.draw.views.exploded import Sight

Vector = tuple[float, float, float]

MARGINS = (3.0, 2.0, 3.0, 2.0)
NAMED_MARGINS = (2.0, 1.5, 17.0, 1.5)
"""Paper margins of a picture with numbers only, and of one with names on its right."""
FOCUS_TONE = 0.66
PLAIN_TONES = (0.96, 1.0, 1.0)  # sides across x, y, z
NAME_MM = 1.9
NAME_STEP_MM = 2.9


@dataclass(frozen=True)
class Thing:
    """Something drawn as one; nearer things cover farther ones."""

    depth: float
    entities: tuple[Entity, ...]


@dataclass(frozen=True)
class Name:
    """A name beside the picture, with a line from a spot of it."""

    at: Vector
    words: str


def draw_brick(sight: Sight, block: Block, tone: float | None, pen: Pen) -> list[Entity]:
    """Return the three sides of a brick that face the eye. tone: None for a plain one."""
    entities: list[Entity] = []
    for axis in range(3):
        outline = _outline_side(sight, block, axis)
        entities += [Fill(outline, PLAIN_TONES[axis] if tone is None else tone + 0.08 * axis), Stroke(outline, pen)]
    return entities


def _outline_side(sight: Sight, block: Block, axis: int) -> Path:
    """Return the outline of the side that faces the eye along an axis."""
    at = block.high[axis] if sight.toward[axis] > 0 else block.low[axis]
    a, b = (i for i in range(3) if i != axis)
    corners = []
    for high_a, high_b in ((False, False), (True, False), (True, True), (False, True)):
        spot = [0.0, 0.0, 0.0]
        spot[axis] = at
        spot[a] = block.high[a] if high_a else block.low[a]
        spot[b] = block.high[b] if high_b else block.low[b]
        corners.append(sight.see((spot[0], spot[1], spot[2])))
    return join_points(corners)


def trace_circle(sight: Sight, middle: Vector, axis: int, diameter: float) -> Path:
    """Return a circle that stands across an axis, as the eye sees it."""
    ways = []
    for i in (i for i in range(3) if i != axis):
        step = [0.0, 0.0, 0.0]
        step[i] = diameter / 2
        ways.append(sight.see((step[0], step[1], step[2])))
    return trace_round(*sight.see(middle), ways[0], ways[1])


def draw_drum(
    sight: Sight, inner: Vector, outer: Vector, axis: int, diameter: float, tone: float = FOCUS_TONE
) -> list[Entity]:
    """Return a cylinder, its outline first and then the end that faces the eye."""
    ends = [trace_circle(sight, at, axis, diameter) for at in (inner, outer)]
    body = wrap_points([(piece.start.x, piece.start.y) for end in ends for piece in end.pieces])  # type: ignore[union-attr]
    near = ends[0] if sight.measure_depth(inner) > sight.measure_depth(outer) else ends[1]
    light = min(1.0, tone + 0.16)
    return [Fill(body, tone), Stroke(body, Pen.OUTLINE), Fill(near, light), Stroke(near, Pen.OUTLINE)]


def wrap_points(points: list[tuple[float, float]]) -> Path:
    """Return the outline of a string pulled tight round points (convex hull, monotone chain)."""
    ordered = sorted(set(points))

    def half(way: list[tuple[float, float]]) -> list[tuple[float, float]]:
        chain: list[tuple[float, float]] = []
        for x, y in way:
            while len(chain) > 1:
                (ax, ay), (bx, by) = chain[-2], chain[-1]
                if (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0:
                    break
                chain.pop()
            chain.append((x, y))
        return chain[:-1]

    return join_points(half(ordered) + half(ordered[::-1]))


def find_middle(block: Block) -> Vector:
    """Return the middle of a brick."""
    x, y, z = ((a + b) / 2 for a, b in zip(block.low, block.high, strict=True))
    return x, y, z


def move_block(block: Block, shift: Vector) -> Block:
    """Return a brick moved."""
    low = [a + b for a, b in zip(block.low, shift, strict=True)]
    high = [a + b for a, b in zip(block.high, shift, strict=True)]
    return replace(block, low=(low[0], low[1], low[2]), high=(high[0], high[1], high[2]))


def move_along(at: Vector, axis: int, far: float) -> Vector:
    """Return a spot moved along an axis."""
    spot = [*at]
    spot[axis] += far
    return spot[0], spot[1], spot[2]


def order_things(things: Iterable[Thing]) -> list[Entity]:
    """Return what is drawn, the farthest first."""
    return [entity for thing in sorted(things, key=lambda each: each.depth) for entity in thing.entities]


def spread_names(wanted: list[float], lowest: float, step: float) -> list[float]:
    """Return heights for names, highest first, each a step or more above the next and none below the lowest."""
    heights: list[float] = []
    for number, want in enumerate(wanted):
        floor = lowest + (len(wanted) - 1 - number) * step  # the names still to come need their room below
        height = max(want, floor)
        heights.append(min(height, heights[-1] - step) if heights else height)
    return heights


def close_scene(
    name: str,
    sight: Sight,
    entities: list[Entity],
    rings: list[Ring],
    names: list[Name],
    scale: float,
    radius: float = 2.0,
) -> Drawing:
    """Return the picture of a scene with its numbers, and its names in a column on the right, highest first.

    radius: of the rings round the numbers, mm on paper
    """
    shapes = tuple(e.shape if isinstance(e, Stroke) else e.outline for e in entities if isinstance(e, Stroke | Fill))
    bounds = find_bounds(shapes)
    marks: list[Entity] = []
    seen = sorted(((*sight.see(each.at), each.words) for each in names), key=lambda each: -each[1])
    heights = spread_names([y for _, y, _ in seen], bounds.bottom, NAME_STEP_MM / scale)
    for (x, y, words), at in zip(seen, heights, strict=True):
        right = bounds.right + 1.0 / scale
        marks += [
            draw_line(x, y, right, at, Pen.DIMENSION),
            write_at(right + 0.5 / scale, at - 0.7 / scale, words, NAME_MM, "start"),
        ]
    margins = NAMED_MARGINS if names else MARGINS
    return close_drawing(name, [*entities, *marks, *draw_rings(rings, scale, radius)], bounds, margins, scale)

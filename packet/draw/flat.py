"""A flat part as a drawing: its lines with the words that stand on them."""

from __future__ import annotations

import math

from calc.measures.quantity import Reader
from calc.shapes.shapes import Arc, Box, Circle, Feature, FlatPart, Layer, Line, Path, Point, find_bounds
from packet.draw.model import Drawing, Entity, Pen, Stroke, Words
from packet.words.part_names import name_part
from packet.words.say import say

HATCH_NEAR_MM = 5.0  # beyond the words that stand on the waste side
HATCH_DEEP_MM = 5.0
HATCH_EVERY_MM = 3.0

FIRST_ANGLE: dict[Layer, float] = {
    Layer.CUT: 22.5,
    Layer.FIRST_CUT: 22.5,
    Layer.MARK: 14.0,
    Layer.GHOST: 72.0,
    Layer.DRILL: 22.5,
}
"""Words of neighbouring circles begin at different angles so that they do not stand on each other."""

PEN_OF_LAYER: dict[Layer, Pen] = {
    Layer.CUT: Pen.CUT,
    Layer.FIRST_CUT: Pen.FIRST_CUT,
    Layer.DRILL: Pen.DRILL,
    Layer.MARK: Pen.MARK,
    Layer.GHOST: Pen.GHOST,
}


def draw_flat(
    part: FlatPart, reader: Reader, *, words: bool = True, hatch: bool = False, clearance_mm: float = 0.0
) -> Drawing:
    """Return a part as a drawing in its own millimetres, one stroke a feature, and the words beside the lines.

    words: whether the labels are written; hatch: whether the waste side is hatched; clearance_mm: room left round
    the outermost line.
    """
    entities: list[Entity] = []
    if hatch:
        for feature in part.features:
            entities += hatch_waste(feature)
    entities += [Stroke(f.shape, PEN_OF_LAYER[f.layer]) for f in part.features]
    if words:
        for feature in part.features:
            if feature.label:
                entities.extend(write_beside(feature, say(feature.label, reader)))
    box = find_bounds(tuple(f.shape for f in part.features))
    bounds = Box(box.left - clearance_mm, box.bottom - clearance_mm, box.right + clearance_mm, box.top + clearance_mm)
    return Drawing(f"{part.number} {name_part(part, reader)}", tuple(entities), bounds)


def write_beside(feature: Feature, label: str) -> tuple[Words, ...]:
    """Return a feature's label, in words: once beside a straight line or small hole, all round beside a large circle.

    Words of a final line stand outside it and words of a first cut inside it, so that each line's own words touch it.
    """
    shape = feature.shape
    if isinstance(shape, Circle):
        if shape.radius < 25.0:
            return (_write_small(shape, label),)
        inside = feature.layer in (Layer.FIRST_CUT, Layer.MARK)
        often = feature.layer in (Layer.CUT, Layer.FIRST_CUT)
        first = FIRST_ANGLE[feature.layer] if feature.label_deg is None else feature.label_deg
        angles = _spread(shape, first, 60.0 if often else 120.0)
        return tuple(_write_round(shape.centre, shape.radius, angle, label, inside) for angle in angles)
    if isinstance(shape, Arc):
        share = 0.82 if feature.layer is Layer.MARK else 0.5  # a mark's middle is where its hole stands
        spot = shape.start_deg + share * (shape.end_deg - shape.start_deg)
        return (_write_round(shape.centre, shape.radius, spot, label, feature.waste == "outside"),)
    line = shape if isinstance(shape, Line) else _find_longest(shape)
    if line is None:
        return ()
    turn = math.degrees(math.atan2(line.end.y - line.start.y, line.end.x - line.start.x))
    if not -90.0 < turn <= 90.0:
        turn += 180.0
    up = math.radians(turn + 90.0)
    along = math.dist((line.start.x, line.start.y), (line.end.x, line.end.y))
    start, anchor = Point((line.start.x + line.end.x) / 2, (line.start.y + line.end.y) / 2), "middle"
    if len(label) * 1.3 > along > 5.0:  # longer than its line: from the line's start on, to be clear of that
        flipped = math.cos(math.radians(turn)) * (line.end.x - line.start.x) + math.sin(math.radians(turn)) * (
            line.end.y - line.start.y
        )
        start, anchor = line.start, "start" if flipped > 0 else "end"
    at = Point(start.x + math.cos(up) * 1.2, start.y + math.sin(up) * 1.2)
    return (Words(at=at, text=label, size_mm=2.2, anchor=anchor, turn_deg=turn, ground=anchor != "middle"),)


def _spread(circle: Circle, first_deg: float, every_mm: float) -> list[float]:
    """Spread the words so that every sheet which holds a fair piece of the circle holds them once."""
    count = max(4, 4 * round(2 * math.pi * circle.radius / (8 * every_mm)))
    return [first_deg + index * 360.0 / count for index in range(count)]


def _write_small(circle: Circle, label: str) -> Words:
    """Write inside a hole that has the room, below its centre; else beside it, above the line through its centre."""
    if circle.radius > 1.1 * len(label) + 1.5:
        return Words(
            at=Point(circle.centre.x, circle.centre.y - 0.62 * circle.radius),
            text=label,
            size_mm=2.0,
            anchor="middle",
            ground=True,
        )
    return Words(at=Point(circle.centre.x + circle.radius + 1.5, circle.centre.y + 1.2), text=label, size_mm=2.0)


def _write_round(centre: Point, radius: float, angle_deg: float, label: str, inside: bool) -> Words:
    """Write along a circle, upright as seen from below, just inside or outside the line."""
    size = 2.2
    # Straight words bow away from a circle they stand outside of, and into one they stand inside of.
    gap = 1.5 + ((len(label) * 1.45) ** 2 / (8 * radius) if inside else 0.0)
    turn = (angle_deg - 90.0) % 360.0
    upside = 90.0 < turn < 270.0
    if upside:
        turn = (turn + 180.0) % 360.0
    # The baseline is the edge nearer the centre when upright in the upper half, the farther one in the lower half.
    away = -(gap + size) if inside else gap
    if upside:
        away = -gap if inside else gap + size
    reach = radius + away
    around = math.radians(angle_deg)
    at = Point(centre.x + reach * math.cos(around), centre.y + reach * math.sin(around))
    return Words(at=at, text=label, size_mm=size, anchor="middle", turn_deg=turn, bold=True)


def _find_longest(path: Path) -> Line | None:
    lines = [piece for piece in path.pieces if isinstance(piece, Line)]
    return max(lines, key=lambda line: math.dist((line.start.x, line.start.y), (line.end.x, line.end.y)), default=None)


def hatch_waste(feature: Feature) -> list[Entity]:
    """Return short slanted strokes along the waste side of a circle: what falls away is what is hatched."""
    shape = feature.shape
    if not isinstance(shape, Circle) or feature.waste not in ("inside", "outside"):
        return []
    side = -1.0 if feature.waste == "inside" else 1.0
    near, far = HATCH_NEAR_MM, HATCH_NEAR_MM + HATCH_DEEP_MM
    if shape.radius < far + 2.0:
        return []
    count = max(12, round(2 * math.pi * shape.radius / HATCH_EVERY_MM))
    lean = HATCH_DEEP_MM / shape.radius
    strokes: list[Entity] = []
    for index in range(count):
        turn = 2 * math.pi * index / count
        a, b = shape.radius + side * near, shape.radius + side * far
        start = Point(shape.centre.x + a * math.cos(turn), shape.centre.y + a * math.sin(turn))
        end = Point(shape.centre.x + b * math.cos(turn + lean), shape.centre.y + b * math.sin(turn + lean))
        strokes.append(Stroke(Line(start, end), Pen.HATCH))
    return strokes

"""Boards behind the gauge, to scale with their measures; drawn from the same part that is cut."""

from __future__ import annotations

from calc.gauges.gauge_board import LidBoard, WallBoard
from calc.measures.quantity import Reader, write_length
from calc.shapes.shapes import Box, Circle, FlatPart, Layer, Line, Point
from packet.draw.model import Dimension, Drawing, Entity, Pen, Stroke, Words
from packet.draw.strokes import close_drawing
from packet.words.phrases import take_words

AROUND_MM, ABOVE_MM = 13.5, 6.0
"""Paper round the wall board for its measures, and above a sloping one."""

PENS = {Layer.CUT: Pen.OUTLINE, Layer.DRILL: Pen.DRILL, Layer.MARK: Pen.MARK, Layer.GHOST: Pen.GHOST}


def draw_lid_board(board: LidBoard, part: FlatPart, lid_mm: float, reader: Reader) -> Drawing:
    """Return the round board in front of the lid; the pivot, in the lid's middle, is the origin."""
    words = take_words("gauge_boards", reader.language)
    middle = Point(0.0, -board.pivot_up_mm)
    gravity = Point(0.0, board.gravity_up_mm - board.pivot_up_mm)
    across, low = board.radius_mm, -lid_mm / 2
    above = (across - board.pivot_up_mm + lid_mm / 2) / 2 - 8.0  # between the board's edge and the lid's
    entities: list[Entity] = [
        Stroke(Circle(Point(0.0, 0.0), lid_mm / 2), Pen.GHOST),
        *(Stroke(feature.shape, PENS[feature.layer]) for feature in part.features),
        *_draw_cross(Point(0.0, 0.0), 9.0),
        *_draw_cross(gravity, 5.0),
        Stroke(Line(Point(0.0, 9.0), Point(0.0, above - 4.0)), Pen.DIMENSION),
        Words(at=Point(0.0, above), text=words("fitting"), size_mm=2.0, anchor="middle", ground=True),
        Words(at=Point(0.0, gravity.y - 36.0), text=words("gravity"), size_mm=2.0, anchor="middle", ground=True),
        Dimension(Point(-across, low), Point(across, low), write_length(2 * across, reader), -5.0),
        Dimension(Point(0.0, 0.0), gravity, write_length(board.hang_mm, reader), 8.0),
        Dimension(Point(0.0, 0.0), middle, write_length(board.pivot_up_mm, reader), -8.0),
    ]
    edge = lid_mm / 2 + 6.0
    return Drawing("round board", tuple(entities), Box(-edge, -edge - 34.0, edge, edge))


def measure_wall_board(board: WallBoard, scale: float) -> tuple[float, float]:
    """Return how wide and high [mm on paper] the board with its measures is at a scale."""
    above = AROUND_MM if board.slope >= 1.0 else ABOVE_MM
    return board.width_mm * scale + 2 * AROUND_MM, board.height_mm * scale + AROUND_MM + above


def draw_wall_board(board: WallBoard, part: FlatPart, reader: Reader, scale: float) -> Drawing:
    """Return the wall board with its measures: outline, still-air mark, legs, clips and screws."""
    wide, high = board.width_mm, board.height_mm
    entities: list[Entity] = [
        *(Stroke(feature.shape, PENS[feature.layer]) for feature in part.features),
        Dimension(Point(0.0, 0.0), Point(wide, 0.0), write_length(wide, reader), -9.0),
        Dimension(Point(0.0, high), Point(0.0, 0.0), write_length(high, reader), -10.0),
    ]
    if board.slope >= 1.0:
        zero, words = board.zero_up_mm, take_words("gauge_boards", reader.language)
        entities.append(
            Words(at=Point(wide / 2, zero - 1.0), text=words("still_air"), size_mm=2.0, anchor="middle", ground=True)
        )
        entities.append(Dimension(Point(wide, 0.0), Point(wide, zero), write_length(zero, reader), -9.0))
        if board.legs == 2:
            left, right = (Point(wide / 2 + side * board.leg_gap_mm / 2, high) for side in (-1, 1))
            entities.append(Dimension(left, right, write_length(board.leg_gap_mm, reader), 9.0))
    else:
        low, top = Point(*board.low_end), Point(*board.clips[-1])
        entities.append(Dimension(low, top, write_length(board.along_mm, reader), 7.0))
        rise = Line(Point(top.x, low.y), top)
        entities.append(Stroke(rise, Pen.CENTRE))
        entities.append(Stroke(Line(low, Point(top.x, low.y)), Pen.CENTRE))
        entities.append(Dimension(rise.start, rise.end, write_length(top.y - low.y, reader), -9.0))
    above = AROUND_MM if board.slope >= 1.0 else ABOVE_MM
    return close_drawing(
        part.name, entities, Box(0.0, 0.0, wide, high), (AROUND_MM, AROUND_MM, AROUND_MM, above), scale
    )


def _draw_cross(at: Point, size: float) -> list[Entity]:
    return [
        Stroke(Line(Point(at.x - size, at.y), Point(at.x + size, at.y)), Pen.CENTRE),
        Stroke(Line(Point(at.x, at.y - size), Point(at.x, at.y + size)), Pen.CENTRE),
    ]

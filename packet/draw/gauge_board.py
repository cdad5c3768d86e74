"""Boards behind the gauge, to scale with their measures: round on the lid, or upright on the wall."""

from __future__ import annotations

from calc.gauge_board import LidBoard, WallBoard
from calc.geometry.shapes import Arc, Box, Circle, Line, Path, Point, Shape, make_rectangle
from calc.quantity import Reader, write_length
from packet.draw.model import Dimension, Drawing, Entity, Pen, Stroke, Words


def draw_lid_board(board: LidBoard, lid_mm: float, leg_gap_mm: float, reader: Reader) -> Drawing:
    """Return the round board in front of the lid; the pivot, in the lid's middle, is the origin."""
    middle = Point(0.0, -board.pivot_up_mm)
    gravity = Point(0.0, board.gravity_up_mm - board.pivot_up_mm)
    half, tall = leg_gap_mm / 2, board.tall_mm / 2
    legs = _draw_legs(half, middle.y + tall * 0.9, middle.y - tall * 0.55)
    across = board.radius_mm
    entities: list[Entity] = [
        Stroke(Circle(Point(0.0, 0.0), lid_mm / 2), Pen.GHOST),
        Stroke(Circle(middle, board.radius_mm), Pen.OUTLINE),
        *(Stroke(shape, Pen.MARK) for shape in legs),
        Stroke(Circle(Point(0.0, 0.0), 2.1), Pen.DRILL),
        *_draw_cross(Point(0.0, 0.0), 7.0),
        *_draw_cross(gravity, 5.0),
        Words(Point(9.0, 2.0), "pivot: lid's middle", 2.2),
        Words(Point(7.0, gravity.y - 6.0), "weight", 2.2),
        Dimension(
            Point(-across, middle.y), Point(across, middle.y), write_length(2 * across, reader), -(across * 0.35)
        ),
        Dimension(Point(0.0, 0.0), gravity, write_length(board.hang_mm, reader), 14.0),
        Dimension(Point(0.0, 0.0), middle, write_length(board.pivot_up_mm, reader), -16.0),
    ]
    edge = lid_mm / 2 + 6.0
    return Drawing("round board", tuple(entities), Box(-edge, -edge, edge, edge))


def draw_wall_board(board: WallBoard, reader: Reader, both_legs: bool) -> Drawing:
    """Return the upright board with the legs of the tube, the still-air mark and its two screws."""
    middle = board.width_mm / 2
    half = board.leg_gap_mm / 2
    foot = board.screw_inset_mm + 20.0 + half
    legs = _draw_legs(half, board.height_mm - 12.0, foot) if both_legs else [
        Line(Point(middle, board.height_mm - 12.0), Point(middle, foot))
    ]  # fmt: skip
    shift = middle if both_legs else 0.0
    entities: list[Entity] = [
        Stroke(make_rectangle(0.0, 0.0, board.width_mm, board.height_mm), Pen.OUTLINE),
        *(Stroke(_move(shape, shift), Pen.MARK) for shape in legs),
        Stroke(Line(Point(0.0, board.zero_up_mm), Point(board.width_mm, board.zero_up_mm)), Pen.CENTRE),
        Words(Point(middle, board.zero_up_mm + 2.0), "still air", 2.2, "middle"),
        *(
            Stroke(Circle(Point(middle, y), 2.5), Pen.DRILL)
            for y in (board.screw_inset_mm, board.height_mm - board.screw_inset_mm)
        ),
        Dimension(Point(0.0, 0.0), Point(board.width_mm, 0.0), write_length(board.width_mm, reader), -9.0),
        Dimension(Point(0.0, board.height_mm), Point(0.0, 0.0), write_length(board.height_mm, reader), -20.0),
        Dimension(
            Point(board.width_mm, 0.0),
            Point(board.width_mm, board.zero_up_mm),
            write_length(board.zero_up_mm, reader),
            -9.0,
        ),
    ]
    if both_legs:
        left, right = Point(middle - half, board.zero_up_mm - 40.0), Point(middle + half, board.zero_up_mm - 40.0)
        entities.append(Dimension(left, right, write_length(board.leg_gap_mm, reader), 0.0))
    return Drawing("wall board", tuple(entities), Box(-150.0, -90.0, board.width_mm + 110.0, board.height_mm + 10.0))


def _draw_legs(half: float, top: float, foot: float) -> list[Shape]:
    return [
        Line(Point(-half, top), Point(-half, foot)),
        Arc(Point(0.0, foot), half, 180.0, 360.0),
        Line(Point(half, foot), Point(half, top)),
    ]


def _move(shape: Shape, right: float) -> Shape:
    if isinstance(shape, Line):
        return Line(Point(shape.start.x + right, shape.start.y), Point(shape.end.x + right, shape.end.y))
    if isinstance(shape, Arc):
        return Arc(Point(shape.centre.x + right, shape.centre.y), shape.radius, shape.start_deg, shape.end_deg)
    if isinstance(shape, Circle):
        return Circle(Point(shape.centre.x + right, shape.centre.y), shape.radius)
    return Path(tuple(_move(piece, right) for piece in shape.pieces), shape.closed)  # type: ignore[misc]


def _draw_cross(at: Point, size: float) -> list[Entity]:
    return [
        Stroke(Line(Point(at.x - size, at.y), Point(at.x + size, at.y)), Pen.CENTRE),
        Stroke(Line(Point(at.x, at.y - size), Point(at.x, at.y + size)), Pen.CENTRE),
    ]

"""Boards of the gauge as flat parts: to cut, drill and mark like any other part."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.gauge_board import LidBoard, WallBoard, design_lid_board, design_wall_board
from calc.gauge_design import LEG_GAP_MM, design_gauge
from calc.geometry.shapes import Arc, Circle, Feature, FlatPart, Layer, Line, Point, Size, make_rectangle

if TYPE_CHECKING:
    from calc.project import Project
    from calc.results import Sizing

CLIP_DRILL_MM, SCREW_HOLE_MM = 2.5, 5.0
EDGE = 6.0
STOCK = "plywood or plastic"


def make_gauge_parts(project: Project, sizing: Sizing) -> tuple[FlatPart, ...]:
    """Return the boards the gauge needs: one for the gauge asked for, one for the sloping tube when it is advised."""
    gauge = design_gauge(project, sizing)
    ports = [port for port in project.ports if port.kind == "gauge"]
    parts = []
    if project.gauge.mount == "lid" and ports:
        closure = ports[0].closure
        board = design_lid_board(gauge.card, closure, project.gauge.fitting_hole_mm, LEG_GAP_MM)
        parts.append(make_lid_board(board, "M1"))
    else:
        parts.append(make_wall_board(design_wall_board(gauge.card, LEG_GAP_MM), "M1", "gauge board"))
    if gauge.advised is not None:
        parts.append(make_wall_board(design_wall_board(gauge.advised, LEG_GAP_MM), "M2", "sloping gauge board"))
    return tuple(parts)


def make_lid_board(board: LidBoard, number: str) -> FlatPart:
    """Return the round board, its pivot at the origin, seen from the front."""
    middle = Point(0.0, -board.pivot_up_mm)
    half = LEG_GAP_MM / 2
    foot = middle.y - board.tall_mm / 2 + half
    top = middle.y + board.tall_mm / 2 - 6.0
    clips = [(side * half, height) for side in (-1, 1) for height in (foot, (foot + top) / 2, top)]
    features = [
        Feature(Circle(middle, board.radius_mm), Layer.CUT, "round board"),
        Feature(Circle(Point(0.0, 0.0), board.pivot_hole_mm / 2), Layer.DRILL, "hose fitting"),
        Feature(Line(Point(-half, foot), Point(-half, top)), Layer.MARK, "tube"),
        Feature(Arc(Point(0.0, foot), half, 180.0, 360.0), Layer.MARK),
        Feature(Line(Point(half, foot), Point(half, top)), Layer.MARK),
        *(Feature(Circle(Point(x, y), CLIP_DRILL_MM / 2), Layer.DRILL) for x, y in clips),
    ]
    return FlatPart(
        number,
        "round gauge board",
        tuple(features),
        1,
        STOCK,
        board.thickness_mm,
        "front",
        sizes=(Size("board", 2 * board.radius_mm), Size("hole for the fitting", board.pivot_hole_mm)),
        notes=("It turns freely on the hose fitting: a washer on both sides, the nut not tight.",),
    )


def make_wall_board(board: WallBoard, number: str, name: str) -> FlatPart:
    """Return the wall board from its lower left corner, seen from the front, with screws, clips, tube and still air."""
    middle, half = board.width_mm / 2, board.leg_gap_mm / 2
    features = [
        Feature(make_rectangle(0.0, 0.0, board.width_mm, board.height_mm), Layer.CUT),
        *(Feature(Circle(Point(x, y), SCREW_HOLE_MM / 2), Layer.DRILL) for x, y in board.screws),
        *(Feature(Circle(Point(x, y), CLIP_DRILL_MM / 2), Layer.DRILL) for x, y in board.clips),
    ]
    if board.slope < 1.0:
        low, high = board.clips[0], board.clips[-1]
        features.append(Feature(Line(Point(*low), Point(*high)), Layer.MARK, "tube"))
    else:
        top = max(y for _, y in board.clips)
        foot = min(y for _, y in board.clips)
        sides = (-half, half) if board.legs == 2 else (0.0,)
        features += [
            Feature(Line(Point(middle + x, foot), Point(middle + x, top)), Layer.MARK, "tube" if x == 0 else "")
            for x in sides
        ]
        if board.legs == 2:
            features.append(Feature(Arc(Point(middle, foot), half, 180.0, 360.0), Layer.MARK, "tube"))
        level = Line(Point(EDGE, board.zero_up_mm), Point(board.width_mm - EDGE, board.zero_up_mm))
        features.append(Feature(level, Layer.MARK, "still air"))
    slope = (
        () if board.slope >= 1.0 else (f"Slope 1 in {1 / board.slope:.3g}: level the lower edge, then screw it on.",)
    )
    return FlatPart(
        number,
        name,
        tuple(features),
        1,
        STOCK,
        12.0,
        "front",
        sizes=(
            Size("wide", board.width_mm),
            Size("high", board.height_mm),
            Size("screw holes", SCREW_HOLE_MM),
            Size("clip holes", CLIP_DRILL_MM),
        ),
        notes=slope,
    )

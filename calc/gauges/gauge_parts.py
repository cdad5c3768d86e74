"""Boards of the gauge as flat parts: to cut, drill and mark like any other part."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from calc.finding import Said
from calc.gauges.cards import LEG_GAP_MM
from calc.gauges.gauge_board import Bracket, LidBoard, WallBoard, design_bracket, design_lid_board, design_wall_board
from calc.gauges.gauge_design import GaugeDesign
from calc.shapes.shapes import Arc, Circle, Feature, FlatPart, Layer, Line, Point, Size, make_rectangle

if TYPE_CHECKING:
    from calc.project import Given

CLIP_DRILL_MM, SCREW_HOLE_MM = 2.5, 5.0
EDGE = 6.0
STOCK = "plywood or plastic"


NAMES = {"inclined": "sloping gauge board", "well": "gauge board of the well"}
UPRIGHT, ONLY, ROUND = "upright gauge board", "gauge board", "round gauge board"


def make_gauge_parts(project: Given, gauge: GaugeDesign) -> tuple[FlatPart, ...]:
    """Return the boards the gauge needs, M1 the one asked for, and the bracket behind each of those on the wall."""
    ports = [port for port in project.ports if port.kind == "gauge"]
    if not ports and project.box is not None:  # the cards tell what a gauge would read; none is built
        return ()
    parts = []
    walls = [design_wall_board(card, LEG_GAP_MM) for card in gauge.boards]
    kinds = [NAMES.get(card.instrument.kind, UPRIGHT) for card in gauge.boards]
    if gauge.on_lid:
        board = design_lid_board(gauge.card, ports[0].closure, gauge.asked.fitting_hole_mm, LEG_GAP_MM)
        parts.append(make_lid_board(board, "M1"))
        walls, kinds = walls[1:], kinds[1:]
    elif len(kinds) == 1:
        kinds = [ONLY]
    for wall, kind in zip(walls, kinds, strict=True):
        parts.append(make_wall_board(wall, f"M{len(parts) + 1}", kind))
    if walls:
        narrowest = min(walls, key=lambda wall: wall.width_mm)
        count = sum(len(wall.screws) for wall in walls)
        parts.append(make_bracket(design_bracket(narrowest), f"M{len(parts) + 1}", count))
    return tuple(parts)


def list_boards(parts: Iterable[FlatPart]) -> tuple[FlatPart, ...]:
    """Return the gauge's boards among flat parts, in the order of the gauges that are built."""
    return tuple(part for part in parts if part.kind == "gauge board")


def make_bracket(bracket: Bracket, number: str, count: int) -> FlatPart:
    """Return the block that holds a board off the wall, its middle at the origin, seen from the front."""
    wide, high = bracket.width_mm, bracket.height_mm
    features = (
        Feature(shape=make_rectangle(-wide / 2, -high / 2, wide, high), layer=Layer.CUT),
        *(Feature(shape=Circle(Point(x, 0.0), SCREW_HOLE_MM / 2), layer=Layer.DRILL) for x in bracket.wall_holes),
        Feature(shape=Circle(Point(0.0, 0.0), CLIP_DRILL_MM / 2), layer=Layer.DRILL, label=Said("gauge_parts.screw")),
    )
    return FlatPart(
        number=number,
        name="gauge bracket",
        features=features,
        quantity=count,
        material=STOCK,
        thickness_mm=bracket.thickness_mm,
        face=Said("gauge_parts.front"),
        kind="gauge bracket",
        sizes=(
            Size(Said("gauge_parts.wide"), wide),
            Size(Said("gauge_parts.high"), high),
            Size(Said("gauge_parts.wall_screws"), SCREW_HOLE_MM),
        ),
        notes=(Said("gauge_parts.bracket_note"),),
        called=Said("gauge_parts.gauge_bracket"),
    )


def make_lid_board(board: LidBoard, number: str) -> FlatPart:
    """Return the round board, its pivot at the origin, seen from the front."""
    middle = Point(0.0, -board.pivot_up_mm)
    half = LEG_GAP_MM / 2
    foot = middle.y - board.tall_mm / 2 + half
    top = middle.y + board.tall_mm / 2 - 6.0
    clips = [(side * half, height) for side in (-1, 1) for height in (foot, (foot + top) / 2, top)]
    features = [
        Feature(shape=Circle(middle, board.radius_mm), layer=Layer.CUT, label=Said("gauge_parts.round_board")),
        Feature(
            shape=Circle(Point(0.0, 0.0), board.pivot_hole_mm / 2), layer=Layer.DRILL, label=Said("gauge_parts.fitting")
        ),
        Feature(shape=Line(Point(-half, foot), Point(-half, top)), layer=Layer.MARK, label=Said("gauge_parts.tube")),
        Feature(shape=Arc(Point(0.0, foot), half, 180.0, 360.0), layer=Layer.MARK),
        Feature(shape=Line(Point(half, foot), Point(half, top)), layer=Layer.MARK),
        *(Feature(shape=Circle(Point(x, y), CLIP_DRILL_MM / 2), layer=Layer.DRILL, takes="clip") for x, y in clips),
    ]
    return FlatPart(
        number=number,
        name=ROUND,
        features=tuple(features),
        quantity=1,
        material=STOCK,
        thickness_mm=board.thickness_mm,
        face=Said("gauge_parts.front"),
        kind="gauge board",
        sizes=(
            Size(Said("gauge_parts.board"), 2 * board.radius_mm),
            Size(Said("gauge_parts.fitting_hole"), board.pivot_hole_mm),
        ),
        notes=(Said("gauge_parts.round_note"),),
        called=Said("gauge_parts.round_gauge_board"),
    )


def make_wall_board(board: WallBoard, number: str, name: str) -> FlatPart:
    """Return the wall board from its lower left corner, seen from the front, with screws, clips, tube and still air."""
    middle, half = board.width_mm / 2, board.leg_gap_mm / 2
    features = [
        Feature(shape=make_rectangle(0.0, 0.0, board.width_mm, board.height_mm), layer=Layer.CUT),
        *(Feature(shape=Circle(Point(x, y), SCREW_HOLE_MM / 2), layer=Layer.DRILL) for x, y in board.screws),
        *(
            Feature(shape=Circle(Point(x, y), CLIP_DRILL_MM / 2), layer=Layer.DRILL, takes="clip")
            for x, y in board.clips
        ),
    ]
    if board.slope < 1.0:
        low, high = board.low_end, board.clips[-1]
        features.append(
            Feature(shape=Line(Point(*low), Point(*high)), layer=Layer.MARK, label=Said("gauge_parts.tube"))
        )
    else:
        top = max(y for _, y in board.clips)
        foot = min(y for _, y in board.clips)
        sides = (-half, half) if board.legs == 2 else (0.0,)
        features += [
            Feature(
                shape=Line(Point(middle + x, foot), Point(middle + x, top)),
                layer=Layer.MARK,
                label=Said("gauge_parts.tube") if x == 0 else "",
            )
            for x in sides
        ]
        if board.legs == 2:
            features.append(
                Feature(
                    shape=Arc(Point(middle, foot), half, 180.0, 360.0), layer=Layer.MARK, label=Said("gauge_parts.tube")
                )
            )
        level = Line(Point(EDGE, board.zero_up_mm), Point(board.width_mm - EDGE, board.zero_up_mm))
        features.append(Feature(shape=level, layer=Layer.MARK, label=Said("gauge_parts.still_air")))
    slope = Said("gauge_parts.slope_note", names={"run": f"{1 / board.slope:.3g}"})
    return FlatPart(
        number=number,
        name=name,
        features=tuple(features),
        quantity=1,
        material=STOCK,
        thickness_mm=12.0,
        face=Said("gauge_parts.front"),
        kind="gauge board",
        sizes=(
            Size(Said("gauge_parts.wide"), board.width_mm),
            Size(Said("gauge_parts.high"), board.height_mm),
            Size(Said("gauge_parts.screw_holes"), SCREW_HOLE_MM),
            Size(Said("gauge_parts.clip_holes"), CLIP_DRILL_MM),
        ),
        notes=() if board.slope >= 1.0 else (slope,),
        called=Said(f"gauge_parts.{name.replace(' ', '_')}"),
    )

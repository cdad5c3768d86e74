"""The pieces of a path in the order and direction a pen follows them."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.shapes.shapes import Arc, Line, Path, Point


@dataclass(frozen=True)
class Joined:
    """One piece with the point where the pen starts and ends; backwards: it runs against the piece's own sense."""

    piece: Line | Arc
    start: Point
    end: Point
    backwards: bool


def get_ends(piece: Line | Arc) -> tuple[Point, Point]:
    """Return the first and last point [mm] of a line or arc."""
    if isinstance(piece, Line):
        return piece.start, piece.end
    return piece.at(piece.start_deg), piece.at(piece.end_deg)


def join_pieces(path: Path) -> list[Joined]:
    """Return the pieces end to end: a piece runs backwards where its far end is the one that meets the last."""
    joined: list[Joined] = []
    here: Point | None = None
    for index, piece in enumerate(path.pieces):
        start, end = get_ends(piece)
        if here is not None:
            backwards = _apart(here, end) < _apart(here, start)
        elif len(path.pieces) > 1:
            following = get_ends(path.pieces[index + 1])
            backwards = min(_apart(start, p) for p in following) < min(_apart(end, p) for p in following)
        else:
            backwards = False
        if backwards:
            start, end = end, start
        joined.append(Joined(piece, start, end, backwards))
        here = end
    return joined


def _apart(one: Point, other: Point) -> float:
    return math.hypot(one.x - other.x, one.y - other.y)

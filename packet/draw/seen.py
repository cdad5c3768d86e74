"""Which spots of a picture stay in sight when what is drawn later covers them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from calc.shapes.shapes import Box, Line, Path, find_bounds
from packet.draw.model import Entity, Fill


@dataclass(frozen=True)
class Cover:
    """A filled outline of straight lines, with the box round it."""

    box: Box
    outline: Path


def list_covers(entities: Iterable[Entity]) -> list[Cover]:
    """Return what is filled among entities."""
    return [Cover(find_bounds((e.outline,)), e.outline) for e in entities if isinstance(e, Fill)]


def find_seen(spots: Sequence[tuple[float, float]], covers: Sequence[Cover]) -> tuple[float, float] | None:
    """Return the first spot that nothing covers, or None."""
    return next((spot for spot in spots if not any(_covers(cover, spot) for cover in covers)), None)


def _covers(cover: Cover, spot: tuple[float, float]) -> bool:
    x, y = spot
    box = cover.box
    if not (box.left < x < box.right and box.bottom < y < box.top):
        return False
    inside = False
    for line in cover.outline.pieces:
        if not isinstance(line, Line):
            continue
        a, b = line.start, line.end
        if (a.y > y) != (b.y > y) and x < a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x):
            inside = not inside
    return inside

"""Numbers of parts in white rings, moved apart where they would lie over each other."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from packet.draw.model import Entity, Fill, Pen, Stroke
from packet.draw.strokes import trace_round, write_at

WIDER = 1.24  # a ring round two figures or more, of the height of one round a single figure


@dataclass(frozen=True)
class Ring:
    """A number and where its ring's middle should be, in the drawing's millimetres."""

    x: float
    y: float
    number: str


def draw_rings(rings: Sequence[Ring], scale: float, radius: float = 2.1) -> list[Entity]:
    """Return the rings as entities. radius: mm on paper at a scale."""
    entities: list[Entity] = []
    for ring in part_rings(rings, 2.3 * radius / scale):
        wide = radius * (WIDER if len(ring.number) > 1 else 1.0)
        edge = trace_round(ring.x, ring.y, (wide / scale, 0.0), (0.0, radius / scale), 20)
        words = write_at(ring.x, ring.y - 0.39 * radius / scale, ring.number, 0.94 * radius, bold=True)
        entities += [Fill(edge, 1.0), Stroke(edge, Pen.MARK), words]
    return entities


def part_rings(rings: Sequence[Ring], apart: float) -> list[Ring]:
    """Return the rings moved as little as needed so that their middles are so far apart; two in one place part
    sideways."""
    spots = [[ring.x, ring.y] for ring in rings]
    for _ in range(80):
        moved = False
        for i, one in enumerate(spots):
            for two in spots[i + 1 :]:
                dx, dy = two[0] - one[0], two[1] - one[1]
                far = math.hypot(dx, dy)
                if far >= apart * 0.999:
                    continue
                ux, uy = (dx / far, dy / far) if far > 1e-9 else (1.0, 0.0)
                push = (apart - far) / 2
                one[0], one[1] = one[0] - ux * push, one[1] - uy * push
                two[0], two[1] = two[0] + ux * push, two[1] + uy * push
                moved = True
        if not moved:
            break
    return [Ring(x, y, ring.number) for (x, y), ring in zip(spots, rings, strict=True)]

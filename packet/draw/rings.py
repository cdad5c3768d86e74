"""Numbers of parts in white rings, moved apart where they would lie over each other."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from packet.draw.model import Entity, Fill, Pen, Stroke
from packet.draw.strokes import draw_line, trace_round, write_at

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


def draw_beside(rings: Sequence[Ring], low: float, high: float, scale: float, radius: float = 2.1) -> list[Entity]:
    """Return the rings in two columns beside a drawing, each with a line to its part, where they would crowd it.

    low, high: where the columns' middles stand across, in the drawing's millimetres. No two lines of a column cross
    needlessly: its rings stand in the order of their parts.
    """
    entities: list[Entity] = []
    middle = (low + high) / 2
    for x, group in ((low, [r for r in rings if r.x < middle]), (high, [r for r in rings if r.x >= middle])):
        ordered = sorted(group, key=lambda ring: (-ring.y, ring.x))
        heights = spread_apart([ring.y for ring in ordered], 2.5 * radius / scale)
        for ring, y in zip(ordered, heights, strict=True):
            entities.append(draw_line(x, y, ring.x, ring.y, Pen.DIMENSION))
            entities.append(Fill(trace_round(ring.x, ring.y, (0.5 / scale, 0.0), (0.0, 0.5 / scale), 10), 0.0))
            entities += draw_rings([Ring(x, y, ring.number)], scale, radius)
    return entities


def spread_apart(heights: Sequence[float], apart: float) -> list[float]:
    """Return falling heights moved as little as needed so that each is so far below the one before."""
    groups: list[tuple[float, int]] = []  # mean of what a group's first ring would like, and how many it holds
    wishes = [height + index * apart for index, height in enumerate(heights)]
    for wish in wishes:
        mean, count = wish, 1
        while groups and groups[-1][0] < mean:
            other, many = groups.pop()
            mean, count = (mean * count + other * many) / (count + many), count + many
        groups.append((mean, count))
    firsts = [mean for mean, count in groups for _ in range(count)]
    return [first - index * apart for index, first in enumerate(firsts)]


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

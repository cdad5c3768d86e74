"""Keeps the words of a tiled drawing off the edges of its sheets, so that none is halved until the sheets are taped."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from calc.shapes.shapes import Arc, Box, Circle, Point, find_bounds
from packet.draw.fonts import measure_words
from packet.draw.model import Drawing, Entity, Stroke, Words

STEP_MM = 2.0
MOST_STEPS = 40
BESIDE_MM = 12.0
"""Words this near to a round line and along it are that line's own."""

APART_MM = 1.0
SMALL_MM = 25.0
"""Words do not move onto holes smaller than this radius."""


def keep_words_whole(drawing: Drawing, windows: Sequence[Box]) -> Drawing:
    """Return the drawing with words that an edge of a window cuts moved along their round line until none does.

    windows: what each sheet shows of the drawing. Words of straight lines, and those with no better place, stay.
    """
    shapes = [entity.shape for entity in drawing.entities if isinstance(entity, Stroke)]
    rounds = [shape for shape in shapes if isinstance(shape, Circle | Arc)]
    standing = [_find_corners(entity) for entity in drawing.entities if isinstance(entity, Words)]
    standing += [_list_corners(find_bounds((hole,))) for hole in rounds if hole.radius < SMALL_MM]
    entities: list[Entity] = []
    for entity in drawing.entities:
        if isinstance(entity, Words) and is_cut(entity, windows):
            entity = _move(entity, windows, rounds, standing)
            standing.append(_find_corners(entity))
        entities.append(entity)
    return replace(drawing, entities=tuple(entities))


def is_cut(words: Words, windows: Sequence[Box]) -> bool:
    """Tell whether words stand partly in a window and partly outside it."""
    corners = _find_corners(words)
    return any(not _is_within(corners, window) and not _is_clear(corners, _list_corners(window)) for window in windows)


def _move(
    words: Words, windows: Sequence[Box], rounds: Sequence[Circle | Arc], standing: Sequence[Sequence[Point]]
) -> Words:
    line = _find_line(words, rounds)
    if line is None:
        return words
    own = _find_corners(words)
    others = [corners for corners in standing if corners != own]
    reach = math.dist((words.at.x, words.at.y), (line.centre.x, line.centre.y))
    for index in range(1, MOST_STEPS + 1):
        for way in (1.0, -1.0):
            moved = _turn_about(words, line.centre, way * math.degrees(index * STEP_MM / reach))
            corners = _find_corners(moved, APART_MM)
            if (
                _is_upright(moved) == _is_upright(words)
                and _is_on(line, moved)
                and not is_cut(moved, windows)
                and all(_is_clear(corners, other) for other in others)
            ):
                return moved
    return words


def _find_line(words: Words, rounds: Sequence[Circle | Arc]) -> Circle | Arc | None:
    """Return the round line that words stand along: the nearest of those they are square to the radius of."""
    turn, found, best = math.radians(words.turn_deg), None, BESIDE_MM
    for line in rounds:
        x, y = words.at.x - line.centre.x, words.at.y - line.centre.y
        reach = math.hypot(x, y)
        along = abs(x * math.cos(turn) + y * math.sin(turn))
        if words.anchor == "middle" and reach > 0 and along < 0.01 * reach and abs(reach - line.radius) < best:
            found, best = line, abs(reach - line.radius)
    return found


def _turn_about(words: Words, centre: Point, turn_deg: float) -> Words:
    turn = math.radians(turn_deg)
    x, y = words.at.x - centre.x, words.at.y - centre.y
    at = Point(centre.x + x * math.cos(turn) - y * math.sin(turn), centre.y + x * math.sin(turn) + y * math.cos(turn))
    return replace(words, at=at, turn_deg=words.turn_deg + turn_deg)


def _is_upright(words: Words) -> bool:
    return math.cos(math.radians(words.turn_deg)) >= 0.0


def _is_on(line: Circle | Arc, words: Words) -> bool:
    """Tell whether the middle of words stands beside the line, not beyond the end of an arc."""
    if isinstance(line, Circle):
        return True
    turn = math.degrees(math.atan2(words.at.y - line.centre.y, words.at.x - line.centre.x))
    return (turn - line.start_deg) % 360.0 <= line.end_deg - line.start_deg


def _find_corners(words: Words, around_mm: float = 0.0) -> tuple[Point, ...]:
    """Return the corners of the room words take, from the foot of a g to the head of a capital."""
    wide = measure_words(words.text, words.size_mm, words.bold)
    left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[words.anchor]
    low, high = -0.35 * words.size_mm - around_mm, 1.1 * words.size_mm + around_mm
    turn = math.radians(words.turn_deg)
    return tuple(
        Point(
            words.at.x + along * math.cos(turn) - up * math.sin(turn),
            words.at.y + along * math.sin(turn) + up * math.cos(turn),
        )
        for along, up in (
            (left - around_mm, low), (left + wide + around_mm, low), (left + wide + around_mm, high),
            (left - around_mm, high),
        )
    )  # fmt: skip


def _list_corners(box: Box) -> tuple[Point, ...]:
    return (
        Point(box.left, box.bottom), Point(box.right, box.bottom), Point(box.right, box.top), Point(box.left, box.top)
    )  # fmt: skip


def _is_within(corners: Sequence[Point], box: Box) -> bool:
    return all(box.left <= p.x <= box.right and box.bottom <= p.y <= box.top for p in corners)


def _is_clear(one: Sequence[Point], other: Sequence[Point]) -> bool:
    """Tell whether two rectangles have nothing in common: a side of one of them parts them (separating axis)."""
    for corners in (one, other):
        for a, b in ((corners[0], corners[1]), (corners[1], corners[2])):
            x, y = b.x - a.x, b.y - a.y
            first, second = ([p.x * x + p.y * y for p in each] for each in (one, other))
            if max(first) <= min(second) or max(second) <= min(first):
                return True
    return False

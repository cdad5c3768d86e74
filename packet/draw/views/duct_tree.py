"""The duct tree as a drawing: machines on the left, blower on the right, each duct as wide as it is, trouble hatched.

Everything is in millimetres on paper; draw at scale 1.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from calc.shapes.shapes import Box, Line, Path, Point, make_rectangle
from packet.draw.model import Drawing, Entity, Fill, Pen, Stroke, Words

State = Literal["fits", "tight", "does not fit"]

ROW_MM = 14.5
NAME_MM = 34.0
END_MM = 27.0
LEAST_COLUMN_MM = 27.0
TEXT_MM = 1.95
DUCT_SHARE = 0.02  # millimetres of drawing a millimetre of duct
MOST_MACHINES = 16


@dataclass(frozen=True, kw_only=True)
class Duct:
    """A run or a machine's drop, and what comes into it.

    title stands above it, words below it; machine: name at its far left, for a drop
    """

    title: str
    words: tuple[str, ...]
    diameter_mm: float
    state: State
    machine: str = ""
    feeds: tuple[Duct, ...] = ()


def count_leaves(duct: Duct) -> int:
    """Return how many ends without feeds a tree has."""
    return sum(count_leaves(feed) for feed in duct.feeds) if duct.feeds else 1


def find_depth(duct: Duct) -> int:
    """Return how many ducts follow each other on the longest way."""
    return 1 + max((find_depth(feed) for feed in duct.feeds), default=0)


def can_draw(roots: Sequence[Duct], width_mm: float) -> bool:
    """Tell whether the tree can be drawn so that its words are readable at a width."""
    leaves = sum(count_leaves(root) for root in roots)
    depth = max((find_depth(root) for root in roots), default=0)
    return 0 < leaves <= MOST_MACHINES and (width_mm - NAME_MM - END_MM) / depth >= LEAST_COLUMN_MM


@dataclass(frozen=True)
class _Spot:
    """Where a duct ends at its downstream end, and what was drawn for it."""

    y: float
    entities: tuple[Entity, ...]


def draw_duct_tree(roots: Sequence[Duct], ends: Sequence[tuple[str, str]], width_mm: float) -> Drawing:
    """Return the tree; ends: the boxes after the trunk (name, words), such as separator, blower, filters."""
    depth = max(find_depth(root) for root in roots)
    column = (width_mm - NAME_MM - END_MM) / depth
    leaves = sum(count_leaves(root) for root in roots)
    height = max(leaves * ROW_MM + 4.0, len(ends) * 15.0 + 4.0)
    entities: list[Entity] = []
    row = [height - 2.0 - ROW_MM / 2 - max(0.0, height - leaves * ROW_MM - 4.0) / 2]
    right = width_mm - END_MM
    levels = []
    for root in roots:
        spot = _place(root, right, column, row)
        entities += spot.entities
        levels.append(spot.y)
    if len(levels) > 1:
        entities.append(Stroke(Line(Point(right, min(levels)), Point(right, max(levels))), Pen.OUTLINE))
    entities += _draw_ends(ends, right, sum(levels) / len(levels), height)
    return Drawing("duct tree", tuple(entities), Box(0.0, 0.0, width_mm, height))


def _place(duct: Duct, right: float, column: float, row: list[float]) -> _Spot:
    """Draw a duct that ends at `right`, with all that feeds it; row: height of the next free row."""
    left = right - column
    entities: list[Entity] = []
    if not duct.feeds:
        y = row[0]
        row[0] -= ROW_MM
        left = NAME_MM
        entities.append(
            Words(at=Point(NAME_MM - 2.0, y - 1.1), text=duct.machine, size_mm=2.2, anchor="end", bold=True)
        )
        return _Spot(y, (*entities, *_draw_duct(duct, left, right, y, right - column)))
    levels = []
    for feed in duct.feeds:
        spot = _place(feed, left, column, row)
        entities += spot.entities
        levels.append(spot.y)
    y = (min(levels) + max(levels)) / 2
    if len(levels) > 1 or levels[0] != y:
        half = duct.diameter_mm * DUCT_SHARE / 2
        low, high = min(levels) - 0.8, max(levels) + 0.8
        entities.append(Fill(make_rectangle(left, low, half * 2, high - low), 1.0))
        entities.append(Stroke(make_rectangle(left, low, half * 2, high - low), Pen.DRILL))
    return _Spot(y, (*entities, *_draw_duct(duct, left, right, y, left)))


def _draw_duct(duct: Duct, left: float, right: float, y: float, words_at: float) -> list[Entity]:
    half = max(duct.diameter_mm * DUCT_SHARE / 2, 0.6)
    body = make_rectangle(left, y - half, right - left, 2 * half)
    entities: list[Entity] = []
    if duct.state == "fits":
        entities += [Fill(body, 1.0), Stroke(body, Pen.DRILL)]
    elif duct.state == "tight":
        entities += [Fill(body, 0.78), Stroke(body, Pen.HIDDEN)]
    else:
        entities += [Fill(body, 0.6), Fill(body, hatch=True), Stroke(body, Pen.CUT)]
    tip = right - 1.0
    if duct.state == "fits":
        for shift in (0.0, 1.3):
            entities.append(
                Stroke(Line(Point(tip - shift - half * 0.8, y + half * 0.8), Point(tip - shift, y)), Pen.MARK)
            )
            entities.append(
                Stroke(Line(Point(tip - shift - half * 0.8, y - half * 0.8), Point(tip - shift, y)), Pen.MARK)
            )
    x = words_at + 5.0
    entities.append(
        Words(at=Point(x, y + half + 0.9), text=duct.title, size_mm=TEXT_MM, bold=duct.state == "does not fit")
    )
    for index, words in enumerate(duct.words):
        entities.append(Words(at=Point(x, y - half - 0.9 - TEXT_MM - index * 2.9), text=words, size_mm=TEXT_MM))
    return entities


def _draw_ends(ends: Sequence[tuple[str, str]], left: float, y: float, height: float) -> list[Entity]:
    """Draw the boxes after the trunk, one under the other, the first where the trunk ends."""
    entities: list[Entity] = []
    wide, tall, gap = END_MM - 4.0, 11.5, 3.5
    total = len(ends) * tall + (len(ends) - 1) * gap
    top = min(max(y + tall / 2, total + 1.0), height - 1.0)
    for index, (name, words) in enumerate(ends):
        bottom = top - tall - index * (tall + gap)
        entities.append(Stroke(make_rectangle(left + 4.0, bottom, wide, tall), Pen.OUTLINE))
        entities.append(
            Words(at=Point(left + 4.0 + wide / 2, bottom + 6.4), text=name, size_mm=2.1, anchor="middle", bold=True)
        )
        entities.append(Words(at=Point(left + 4.0 + wide / 2, bottom + 2.4), text=words, size_mm=1.8, anchor="middle"))
        if index:
            x = left + 4.0 + wide / 2
            entities.append(Stroke(Line(Point(x, bottom + tall + gap), Point(x, bottom + tall)), Pen.OUTLINE))
            head = Path((
                Line(Point(x - 1.0, bottom + tall + 1.6), Point(x, bottom + tall)),
                Line(Point(x, bottom + tall), Point(x + 1.0, bottom + tall + 1.6)),
            ), closed=False)  # fmt: skip
            entities.append(Stroke(head, Pen.OUTLINE))
    if ends:
        entities.append(Stroke(Line(Point(left, y), Point(left + 4.0, y)), Pen.OUTLINE))
    return entities


def draw_legend(looks: Mapping[State, str], width_mm: float) -> Drawing:
    """Return the key to the looks of ducts. looks: what each means, in words."""
    entities: list[Entity] = []
    x = 0.0
    for state, words in looks.items():
        sample = Duct(title="", words=(), diameter_mm=130.0, state=state)
        entities += _draw_duct(sample, x, x + 13.0, 2.5, x)
        entities.append(Words(at=Point(x + 15.0, 1.6), text=words, size_mm=TEXT_MM))
        x += 60.0
    return Drawing("duct tree key", tuple(entities), Box(0.0, 0.0, width_mm, 5.0))

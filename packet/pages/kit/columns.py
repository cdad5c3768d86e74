"""Whole pages in columns: groups of blocks that flow down one column after the other and never break."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from reportlab.platypus import Flowable

from packet.pages.kit.flow import Painter
from packet.pages.kit.style import MM, Frame

GUTTER = 6 * MM
FOOT = 6 * MM


@dataclass(frozen=True)
class BlockGroup:
    """Blocks that stay together. indent: of all but the first [pt]; after: room below them [pt].

    with_next: it never stands alone at the foot of a column, such as a heading
    """

    blocks: tuple[Flowable, ...]
    indent: float = 0.0
    after: float = 0.0
    with_next: bool = False


@dataclass(frozen=True)
class PlacedBlock:
    """A block with its upper left corner, from that of the frame, and its height [pt]."""

    block: Flowable
    left: float
    down: float
    height: float


def lay_columns(groups: Sequence[BlockGroup], frame: Frame, count: int = 2) -> list[list[PlacedBlock]]:
    """Return the pages that groups take in so many columns, filled downwards."""
    width, tall = (frame.width - GUTTER * (count - 1)) / count, frame.height - FOOT
    pages: list[list[PlacedBlock]] = [[]]
    column, y = 0, 0.0
    measured = [_lay_group(group, width) for group in groups]
    for number, (laid, height) in enumerate(measured):
        follows = measured[number + 1][1] if groups[number].with_next and number + 1 < len(groups) else 0.0
        if y and y + height + follows > tall:
            column, y = column + 1, 0.0
            if column == count:
                pages.append([])
                column = 0
        left = column * (width + GUTTER)
        pages[-1] += [PlacedBlock(each.block, left + each.left, y + each.down, each.height) for each in laid]
        y += height
    return pages


def _lay_group(group: BlockGroup, width: float) -> tuple[list[PlacedBlock], float]:
    laid, y = [], 0.0
    for number, block in enumerate(group.blocks):
        left = group.indent if number else 0.0
        y += float(block.getSpaceBefore())
        height = float(block.wrap(width - left, 1e6)[1])
        laid.append(PlacedBlock(block, left, y, height))
        y += height + float(block.getSpaceAfter())
    return laid, y + group.after


def make_painter(page: Sequence[PlacedBlock]) -> Painter:
    """Return what paints one page of columns for ``Kit.full_page``."""

    def paint(canvas: Any, frame: Frame) -> None:
        for each in page:
            each.block.drawOn(canvas, frame.left + each.left, frame.top - each.down - each.height)

    return paint

"""Tables: plain words in cells are wrapped here, fast, and are data, never markup."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal, TypeAlias

from reportlab.lib.colors import Color
from reportlab.platypus import Table, TableStyle

from packet.draw.fonts import BODY, BOLD, clean_text, measure_text
from packet.pages.kit.flow import break_words
from packet.pages.kit.style import BLACK, LIGHT, MIDDLE, RULE, WASH

TableLook = Literal["grid", "plain", "form"]
Cell: TypeAlias = Any  # str (data), a flowable, or a list of flowables

SIZE, LEADING = 8.8, 11.0
SIDE, ABOVE, BELOW = 4.0, 1.7, 2.8
MOST_LINES = 12  # a taller cell goes on in a row of its own, so that any page can hold it
ANCHORS = {"l": "LEFT", "r": "RIGHT", "c": "CENTER"}


@dataclass(frozen=True, kw_only=True)
class TableShape:
    """How a table is to look. widths: points, one a column, or None to share the width by what is in the columns."""

    width: float
    widths: tuple[float, ...] | None = None
    header_rows: int = 1
    align: str = ""
    total_row: bool = False
    look: TableLook = "grid"
    size: float = SIZE


class FlowTable(Table):  # type: ignore[misc]
    """A table that never leaves an empty piece of a row at the foot of a page (that piece would be split for ever)."""

    LEAST = 30.0  # pt: a head or two lines

    def split(self, width: float, height: float) -> list[Any]:
        """Return the parts, none when there is no room for the beginning of a row."""
        if self.splitInRow and height < self.LEAST:
            return []
        return list(super().split(width, height))


def make_table(rows: Sequence[Sequence[Cell]], shape: TableShape) -> Any:
    """Return a table whose heads repeat on every page. Raises ValueError when the rows differ in length."""
    if not rows:
        raise ValueError("a table needs at least one row")
    count = len(rows[0])
    if any(len(row) != count for row in rows):
        raise ValueError("all rows of a table need the same number of cells")
    clean = [[clean_text(cell) if isinstance(cell, str) else cell for cell in row] for row in rows]
    widths = list(shape.widths) if shape.widths else share_width(clean, shape)
    filled, follows = _fill_rows(clean, widths, shape)
    table = FlowTable(
        filled,
        colWidths=widths,
        repeatRows=shape.header_rows,
        splitByRow=1,
        splitInRow=1 if any(_is_tall(cell) for row in filled for cell in row) else 0,
        hAlign="LEFT",
        spaceBefore=3,
        spaceAfter=8,
    )
    table.setStyle(TableStyle(_make_commands(shape, count, len(filled), follows, _find_groups(filled, shape))))
    return table


def _is_tall(cell: Cell) -> bool:
    """Tell whether a cell of flowables may not fit on a page (plain words are cut into rows already)."""
    if isinstance(cell, (list, tuple)):
        return len(cell) > 12 or any(_is_tall(block) for block in cell)
    return len(getattr(cell, "text", "") or "") > 2500


def share_width(rows: Sequence[Sequence[Cell]], shape: TableShape) -> list[float]:
    """Return column widths [pt]: enough for the longest word, the rest by how much there is to read."""
    count = len(rows[0])
    least, wish = [20.0] * count, [20.0] * count
    for index, row in enumerate(rows):
        font = BOLD if index < shape.header_rows else BODY
        for column, cell in enumerate(row):
            if isinstance(cell, str):
                words = cell.split()
                longest = max((measure_text(w, shape.size, font) for w in words), default=0.0)
                whole = max((measure_text(line, shape.size, font) for line in cell.split("\n")), default=0.0)
            else:
                longest = whole = float(getattr(cell, "width", 0) or 40.0)
            least[column] = max(least[column], min(longest, shape.width / 3) + 2 * SIDE + 0.5)
            wish[column] = max(wish[column], min(whole, shape.width * 0.55) + 2 * SIDE + 0.5)
    wish = [max(a, b) for a, b in zip(wish, least, strict=True)]
    if sum(wish) <= shape.width:
        spare = shape.width - sum(wish)
        return [w + spare * w / sum(wish) for w in wish]
    if sum(least) >= shape.width:
        return [w * shape.width / sum(least) for w in least]
    room = shape.width - sum(least)
    want = [w - n for w, n in zip(wish, least, strict=True)]
    return [n + room * v / sum(want) for n, v in zip(least, want, strict=True)]


def _fill_rows(rows: Sequence[Sequence[Cell]], widths: list[float], shape: TableShape) -> tuple[list[Any], set[int]]:
    """Wrap the plain cells; return the rows and the numbers of those that only go on with the row above."""
    filled: list[list[Any]] = []
    follows: set[int] = set()
    for index, row in enumerate(rows):
        strong = index < shape.header_rows or (shape.total_row and index == len(rows) - 1)
        font = BOLD if strong else BODY
        lines = [
            break_words(cell, width - 2 * SIDE, shape.size, font) if isinstance(cell, str) else cell
            for cell, width in zip(row, widths, strict=True)
        ]
        tall = max((len(c) for c, raw in zip(lines, row, strict=True) if isinstance(raw, str)), default=1)
        for start in range(0, max(tall, 1), MOST_LINES):
            if start:
                follows.add(len(filled))
            filled.append(
                [
                    "\n".join(c[start : start + MOST_LINES]) if isinstance(raw, str) else (c if start == 0 else "")
                    for c, raw in zip(lines, row, strict=True)
                ]
            )
    return filled, follows


def _find_groups(rows: Sequence[Sequence[Cell]], shape: TableShape) -> list[int]:
    """Return the rows that only name the group of those below: a flowable first, nothing beside it."""
    found = range(shape.header_rows, len(rows) - 1)
    return [n for n in found if not isinstance(rows[n][0], str) and len(rows[n]) > 2 and not any(rows[n][1:])]


def _grey(tone: float) -> Color:
    return Color(tone, tone, tone)


def _make_commands(
    shape: TableShape, columns: int, rows: int, follows: set[int], groups: Sequence[int] = ()
) -> list[tuple[Any, ...]]:
    leading = LEADING * shape.size / SIZE
    head = shape.header_rows
    commands: list[tuple[Any, ...]] = [
        ("FONT", (0, 0), (-1, -1), BODY, shape.size, leading),
        ("LEFTPADDING", (0, 0), (-1, -1), SIDE),
        ("RIGHTPADDING", (0, 0), (-1, -1), SIDE),
        ("TOPPADDING", (0, 0), (-1, -1), ABOVE if shape.look != "form" else 2.0),
        ("BOTTOMPADDING", (0, 0), (-1, -1), BELOW if shape.look != "form" else 2.8),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
    ]
    if head:
        commands += [
            ("FONT", (0, 0), (-1, head - 1), BOLD, shape.size, leading),
            ("VALIGN", (0, 0), (-1, head - 1), "BOTTOM"),
        ]
        if shape.look != "plain":
            commands += [
                ("BACKGROUND", (0, 0), (-1, head - 1), _grey(WASH)),
                ("LINEBELOW", (0, head - 1), (-1, head - 1), 0.9, _grey(BLACK)),
            ]
    if shape.look == "form":
        commands.append(("GRID", (0, 0), (-1, -1), RULE, _grey(MIDDLE)))
    elif shape.look == "grid":
        commands += [
            ("LINEBELOW", (0, r), (-1, r), RULE, _grey(LIGHT)) for r in range(head, rows) if r + 1 not in follows
        ]
        commands.append(("LINEBELOW", (0, -1), (-1, -1), RULE, _grey(MIDDLE)))
    if shape.total_row:
        commands += [
            ("FONT", (0, -1), (-1, -1), BOLD, shape.size, leading),
            ("LINEABOVE", (0, -1), (-1, -1), 0.9, _grey(BLACK)),
        ]
    commands += [("NOSPLIT", (0, row), (0, row + 1)) for row in groups]
    for column, anchor in enumerate(shape.align[:columns]):
        if anchor != "l":
            commands.append(("ALIGN", (column, 0), (column, -1), ANCHORS[anchor]))
    return commands

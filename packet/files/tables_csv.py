"""Tables as CSV that a spreadsheet opens right: UTF-8 with its mark, and no cell that could run as a formula."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

MARK = "\ufeff"
_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")


def guard_cell(cell: str | float | int | None) -> str | float | int:
    """Return a cell as it may stand in a spreadsheet: text that would be taken for a formula gets an apostrophe first.

    Numbers stay numbers; control characters go; None is an empty cell.
    """
    if cell is None:
        return ""
    if not isinstance(cell, str):
        return cell
    dangerous = cell.lstrip(" ").startswith(_STARTS)
    text = " ".join("".join(character if character.isprintable() else " " for character in cell).split())
    return "'" + text if dangerous or text.startswith(_STARTS) else text


def write_csv(rows: Sequence[Sequence[str | float | int | None]]) -> str:
    """Return rows as CSV text (RFC 4180, lines end in CR LF) with the UTF-8 mark in front."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerows([[guard_cell(cell) for cell in row] for row in rows])
    return MARK + out.getvalue()

"""The cut list as CSV."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.measures.marking import write_mark
from calc.measures.quantity import Reader, write_amount
from packet.bill.cuts import list_cuts
from packet.files.tables_csv import write_csv
from packet.words.phrases import take_words

if TYPE_CHECKING:
    from calc.design import Design

HEADS = (
    "number", "part", "quantity", "width", "height", "thickness", "width_mm", "height_mm", "thickness_mm", "material",
    "grain", "from", "holes", "joints", "edges",
)  # fmt: skip


def write_cuts_csv(design: Design, reader: Reader) -> str:
    """Return the cut list as CSV text: sizes in the reader's words and in millimetres."""
    words = take_words("cuts", reader.language)
    rows: list[list[str | float | int | None]] = [[words(f"head_{name}") for name in HEADS]]
    for row in list_cuts(design, reader):
        rows.append(
            [
                row.number, row.name, row.quantity, write_mark(row.width_mm, reader),
                write_mark(row.height_mm, reader), write_amount(row.thickness_mm, "length_mm", reader),
                round(row.width_mm, 2), round(row.height_mm, 2), round(row.thickness_mm, 2), row.material, row.grain,
                row.sheet, row.holes, row.joints, row.edges,
            ]
        )  # fmt: skip
    return write_csv(rows)

"""The bill as CSV."""

from __future__ import annotations

from calc.measures.quantity import Reader, to_reader, unit_name
from packet.bill.model import KINDS, Bill, BillLine
from packet.files.tables_csv import write_csv
from packet.words.phrases import Phrases, take_words

HEAD = (
    "group", "item", "detail", "needed", "unit", "waste", "on_hand", "buy", "sold", "each", "cost", "place", "use",
    "instead",
)  # fmt: skip


def write_bill_csv(bill: Bill) -> str:
    """Return the bill as CSV text, UTF-8 with its mark: lines, a year's consumables, subtotals and total.

    Quantities are in the units the shop buys in, also where the print is written in others.
    """
    words = take_words("bill", bill.language)
    rows: list[list[str | float | int | None]] = [[words(f"csv_{name}") for name in HEAD]]
    rows += [_list_cells(line, bill.buyer, words) for line in (*bill.lines, *bill.yearly)]
    rows.append([])
    for subtotal in bill.subtotals:
        note = words("note_missing", count=subtotal.missing) if subtotal.missing else ""
        rows.append([words("subtotal", place=subtotal.place), "", note, *[""] * 7, subtotal.cost])
    count = len(bill.missing)
    note = words("total_without_one" if count == 1 else "total_without_many", count=count) if count else ""
    rows.append([words("total", money=bill.money), "", note, *[""] * 7, bill.total])
    return write_csv(rows)


def _list_cells(line: BillLine, buyer: Reader, words: Phrases) -> list[str | float | int | None]:
    if line.unit in KINDS:
        needed, unit = to_reader(line.needed, KINDS[line.unit], buyer), unit_name(KINDS[line.unit], buyer)
    else:
        needed, unit = line.needed, words(f"unit_{line.unit}")
    return [
        line.group, line.item, line.detail, round(needed, 3), unit,
        round(100 * line.waste, 1), line.on_hand, line.buy, words(f"sold_{line.sold}", size=line.size),
        line.each if line.each is not None else words("no_price"), line.cost, line.place, line.where_used,
        line.alternate,
    ]  # fmt: skip

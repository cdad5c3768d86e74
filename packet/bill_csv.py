"""The bill as CSV."""

from __future__ import annotations

from packet.bill import Bill, BillLine
from packet.tables_csv import write_csv

HEAD = (
    "group", "item", "detail", "needed", "unit", "waste %", "on hand", "buy", "sold as", "price each", "cost",
    "buy at", "where used", "instead",
)  # fmt: skip


def write_bill_csv(bill: Bill) -> str:
    """Return the bill as CSV text, UTF-8 with its mark: lines, a year's consumables, subtotals and total."""
    rows: list[list[str | float | int | None]] = [list(HEAD)]
    rows += [_list_cells(line) for line in bill.lines]
    rows += [_list_cells(line) for line in bill.yearly]
    rows.append([])
    for subtotal in bill.subtotals:
        note = f"{subtotal.missing} without a price" if subtotal.missing else ""
        rows.append([f"subtotal {subtotal.place}", "", note, *[""] * 7, subtotal.cost])
    note = f"{len(bill.missing)} lines without a price are not in it" if bill.missing else ""
    rows.append([f"total {bill.money}", "", note, *[""] * 7, bill.total])
    return write_csv(rows)


def _list_cells(line: BillLine) -> list[str | float | int | None]:
    return [
        line.group, line.item, line.detail, round(line.needed, 3), line.unit, round(100 * line.waste, 1), line.on_hand,
        line.buy, line.pack_name, line.each if line.each is not None else "price missing", line.cost, line.place,
        line.where_used, line.alternate,
    ]  # fmt: skip

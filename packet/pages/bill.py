"""The bill of materials on paper: by group, with what to buy, its price, subtotals by place and a year's needs."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import TYPE_CHECKING, Any

from reportlab.platypus import Flowable

from calc.measures.quantity import Reader, to_reader, unit_name
from packet.bill import Bill, BillLine

if TYPE_CHECKING:
    from packet.job import Job
    from packet.pages.kit import Kit

WIDTHS = (43.0, 53.0, 18.0, 23.0, 22.0, 13.0, 15.0)
KINDS = {"m": "length_m", "m2": "area_m2"}
SIZE = 7.4
PLURALS = {"box": "boxes", "foot": "feet"}


def make_story(job: Job, kit: Kit) -> list[Flowable]:
    """Return the bill's pages."""
    bill = job.bill
    lines = sum(line.buy > 0 for line in bill.lines)
    story: list[Flowable] = [
        kit.heading("Bill of materials"),
        kit.text(
            f"{lines} lines to buy. What is in the shop already is taken off; lengths and areas have their waste "
            "added. Tick as you buy. Sizes are this design's; measure pails and panels before you pay."
        ),
        kit.table(list_rows(bill, kit), WIDTHS, align="lllllrr", size=SIZE),
        kit.space(2),
        kit.columns([[_make_places(bill, kit)], [_make_year(bill, kit)]]),
    ]
    instead: dict[str, list[str]] = {}
    for line in bill.lines:
        if line.alternate:
            instead.setdefault(line.alternate, []).append(line.item)
    if instead:
        words = "; ".join(f"{', '.join(items)}: {other}" for other, items in instead.items())
        story.append(kit.text(f"Instead of {words}.", "small"))
    if bill.missing:
        note = f"No price in the project file for {len(bill.missing)} lines (marked “–”): the total is without them."
        story.append(kit.text(note))
    if bill.unknown:
        names = ", ".join(bill.unknown)
        story.append(kit.text(f"Named in the project file's prices or stock, but not in this bill: {names}."))
    return story


def list_rows(bill: Bill, kit: Kit) -> list[list[Any]]:
    """Return the table's rows: a head, then each group under its name."""
    rows: list[list[Any]] = [["Item", "Size, kind, use", "Needed", "Buy", "Where", "Each", f"Cost {bill.money}"]]
    for group, lines in groupby(bill.lines, key=lambda line: line.group):
        rows.append([kit.rich(f"<b>{kit.escape(group)}</b>", "small"), "", "", "", "", "", ""])
        rows += [list_cells(line, kit.reader) for line in lines]
    return rows


def list_cells(line: BillLine, reader: Reader) -> list[str]:
    """Return one line in words: what is needed in the reader's units, packages to buy, price or a dash."""
    use = f"{line.detail}; {line.where_used}" if line.detail and line.where_used else line.detail or line.where_used
    return [
        f"☐ {line.item}", use, write_needed(line, reader), write_buy(line), line.place, write_money(line.each),
        write_money(line.cost),
    ]  # fmt: skip


def write_needed(line: BillLine, reader: Reader) -> str:
    """Return what the design takes: counts whole, lengths and areas in the reader's units."""
    if line.unit in KINDS:
        kind: Any = KINDS[line.unit]
        return f"{to_reader(line.needed, kind, reader):.1f} {unit_name(kind, reader)}"
    if line.unit in ("each", "screw", "set", "pair"):
        return f"{line.needed:g}"
    return f"{line.needed:.2f}".rstrip("0").rstrip(".") + f" {line.unit}"


def write_buy(line: BillLine) -> str:
    """Return the packages to buy, or that it is in the shop already."""
    if line.buy == 0:
        return "in the shop"
    if line.pack_name == "each":
        return str(line.buy)
    if line.pack_name[0].isdigit():
        many = "s" if line.buy > 1 and line.pack_name.endswith("length") else ""
        return f"{line.buy} × {line.pack_name}{many}"
    first, _, rest = line.pack_name.partition(" ")
    if line.buy > 1:
        first = PLURALS.get(first, f"{first}s")
    return f"{line.buy} {first} {rest}".rstrip()


def write_money(amount: float | None) -> str:
    """Return a price with two decimals, a dash where none is known."""
    return "–" if amount is None else f"{amount:.2f}"


def _make_places(bill: Bill, kit: Kit) -> Any:
    rows: list[Sequence[Any]] = [["Where to buy", "Lines", "No price", bill.money]]
    rows += [[s.place, str(s.lines), str(s.missing) if s.missing else "", write_money(s.cost)] for s in bill.subtotals]
    rows.append(["Total of what has a price", str(sum(s.lines for s in bill.subtotals)), "", write_money(bill.total)])
    return kit.table(rows, (40.0, 11.0, 15.0, 18.0), align="lrrr", total_row=True, size=SIZE, width_mm=84.0)


def _make_year(bill: Bill, kit: Kit) -> Any:
    rows: list[Sequence[Any]] = [["A year of use", "Why", "Buy", bill.money]]
    rows += [[line.item, line.detail, write_buy(line), write_money(line.cost)] for line in bill.yearly]
    return kit.table(rows, (28.0, 32.0, 14.0, 13.0), align="lllr", size=SIZE, width_mm=86.0)

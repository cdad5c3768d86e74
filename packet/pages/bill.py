"""The bill of materials on paper: by group, with what to buy, its price, subtotals by place and a year's needs."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import TYPE_CHECKING, Any

from reportlab.platypus import Flowable

from calc.measures.quantity import Reader, to_reader, unit_name
from packet.bill.model import KINDS, Bill, BillLine
from packet.words.phrases import Phrases, take_words

if TYPE_CHECKING:
    from packet.job import AnyJob
    from packet.pages.kit.kit import Kit

WIDTHS = (42.0, 56.0, 18.5, 22.5, 21.5, 12.0, 14.5)
SIZE = 7.2
COUNTED = ("each", "screw", "set", "pair")
"""Units of which the number alone is printed."""

COLUMNS = ("item", "detail", "needed", "buy", "place", "each")


def make_story(job: AnyJob, kit: Kit) -> list[Flowable]:
    """Return the bill's pages."""
    bill, words = job.bill, take_words("bill", kit.reader.language)
    lines = sum(line.buy > 0 for line in bill.lines)
    small = [_make_places(bill, kit, words)]
    story: list[Flowable] = [
        kit.heading(words("title")),
        kit.text(words("intro" if "pails" in job.has else "intro_alone", count=lines)),
        kit.table(list_rows(bill, kit, words), WIDTHS, align="lllllrr", size=SIZE),
        kit.space(2),
        kit.columns([small, [_make_year(bill, kit, words)] if bill.yearly else []]),
    ]
    if owned := [line for line in bill.lines if line.owned]:
        told = "; ".join(words("owned_line", item=line.item, detail=line.detail) for line in owned)
        story.append(kit.text(words("owned", lines=told), "small"))
    instead: dict[str, list[str]] = {}
    for line in bill.lines:
        if line.alternate:
            instead.setdefault(line.alternate, []).append(line.item)
    if instead:
        parts = [words("instead_part", items=", ".join(items), other=other) for other, items in instead.items()]
        story.append(kit.text(words("instead", parts="; ".join(parts)), "small"))
    if not is_priced(bill):
        story.append(kit.text(words("unpriced")))
    elif bill.missing:
        count = len(bill.missing)
        story.append(kit.text(words("missing_one") if count == 1 else words("missing_many", count=count)))
    if bill.unknown:
        story.append(kit.text(words("unknown", names=", ".join(bill.unknown))))
    return story


def list_rows(bill: Bill, kit: Kit, words: Phrases) -> list[list[Any]]:
    """Return the table's rows: a head, then each group under its name."""
    rows: list[list[Any]] = [[*(words(f"column_{name}") for name in COLUMNS), words("cost", money=bill.money)]]
    bought = [line for line in bill.lines if not line.owned]
    for group, lines in groupby(bought, key=lambda line: line.group):
        rows.append([kit.rich(f"<b>{kit.escape(group)}</b>", "small"), "", "", "", "", "", ""])
        rows += [list_cells(line, kit.reader, words) for line in lines]
    if not is_priced(bill):
        rows = [[*row[:-2], "", ""] if number else row for number, row in enumerate(rows)]
    return rows


def is_priced(bill: Bill) -> bool:
    """Tell whether any price is known; where none is, the columns stay empty for a pencil."""
    return any(line.each is not None for line in bill.lines)


def list_cells(line: BillLine, reader: Reader, words: Phrases) -> list[str]:
    """Return one line in words: what is needed in the reader's units, packages to buy, price or a dash."""
    use = words("detail_use", detail=line.detail, use=line.where_used) if line.detail and line.where_used else ""
    return [
        f"☐ {line.item}", use or line.detail or line.where_used, write_needed(line, reader, words),
        write_buy(line, words), line.place, write_money(line.each), write_money(line.cost),
    ]  # fmt: skip


def write_needed(line: BillLine, reader: Reader, words: Phrases) -> str:
    """Return what the design takes: counts whole, lengths and areas in the reader's units."""
    if line.unit in KINDS:
        kind = KINDS[line.unit]
        return f"{to_reader(line.needed, kind, reader):.1f} {unit_name(kind, reader)}"
    if line.unit in COUNTED:
        return f"{line.needed:g}"
    count = f"{line.needed:.1f}".removesuffix(".0")
    return words(f"buy_{line.unit}_one" if count == "1" else f"buy_{line.unit}_many", count=count, size="")


def write_buy(line: BillLine, words: Phrases) -> str:
    """Return the packages to buy, or that it is in the shop already."""
    if line.buy == 0:
        return words("in_the_shop")
    return words(f"buy_{line.sold}_one" if line.buy == 1 else f"buy_{line.sold}_many", count=line.buy, size=line.size)


def write_money(amount: float | None) -> str:
    """Return a price with two decimals, a dash where none is known."""
    return "–" if amount is None else f"{amount:.2f}"


def _make_places(bill: Bill, kit: Kit, words: Phrases) -> Any:
    priced = is_priced(bill)
    rows: list[Sequence[Any]] = [
        [words("places"), words("places_lines"), words("places_missing") if priced else "", bill.money]
    ]
    for each in bill.subtotals:
        missing = str(each.missing) if each.missing and priced else ""
        rows.append([each.place, str(each.lines), missing, write_money(each.cost) if priced else ""])
    total = str(sum(each.lines for each in bill.subtotals))
    last = (
        [words("places_total"), total, "", write_money(bill.total)] if priced else [words("total_blank"), total, "", ""]
    )
    rows.append(last)
    return kit.table(rows, (40.0, 11.0, 15.0, 18.0), align="lrrr", total_row=True, size=SIZE, width_mm=84.0)


def _make_year(bill: Bill, kit: Kit, words: Phrases) -> Any:
    rows: list[Sequence[Any]] = [[words("year"), words("year_why"), words("year_buy"), bill.money]]
    for line in bill.yearly:
        cost = write_money(line.cost) if is_priced(bill) else ""
        buy = write_buy(line, words) if line.needed > 0 else words("year_none")
        rows.append([line.item, line.detail, buy, cost])
    return kit.table(rows, (26.0, 28.5, 19.0, 13.0), align="lllr", size=SIZE, width_mm=86.0)

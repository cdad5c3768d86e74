"""The bill of materials: everything the job takes, in the units people buy."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from calc.design import Design
from calc.project import Aired
from calc.settled import Settled, SettledShop
from packet.bill.box import list_box, list_sealing
from packet.bill.ducts import list_ducts
from packet.bill.fixings import list_fixings, list_hired
from packet.bill.model import Bill, BillLine, Subtotal, Want
from packet.bill.shop import list_shop, list_yearly

if TYPE_CHECKING:
    from calc.design import Made
    from calc.gauges.gauge_design import GaugeDesign
    from calc.project import Given
    from calc.results import Sizing


def make_bill(project: Given, sizing: Sizing | None, design: Made, gauge: GaugeDesign | None) -> Bill:
    """Return the whole job's bill, priced from the project file. design: with the gauge's boards among its parts.

    Of a part that the job has not got nothing is listed.
    """
    boxed = (project, design) if isinstance(project, Settled) and isinstance(design, Design) else None
    wants = [
        *list_box(project, design),
        *list_fixings(project, design),
        *list_sealing(project, design),
        *(list_ducts(project) if isinstance(project, Aired) else ()),
        *list_shop(project, design, gauge),
        *(list_hired(*boxed) if boxed else ()),
    ]
    whole = (project, design) if isinstance(project, SettledShop) and isinstance(design, Design) else None
    year = list_yearly(whole[0], sizing, whole[1]) if whole and sizing else []
    lines = tuple(price_want(project, want) for want in merge_wants(wants))
    left = replace(project, on_hand={**project.on_hand, **{line.name: find_left(line) for line in lines}})
    yearly = [price_want(left, want) for want in year]
    given = {*project.prices, *project.on_hand, *project.buy_at}
    known = {key for want in (*wants, *year) for key in list_names(want)}
    return Bill(
        lines=lines,
        subtotals=sum_places(lines),
        total=round(sum(line.cost or 0.0 for line in lines), 2),
        missing=tuple(line.item for line in lines if line.buy and line.each is None),
        yearly=tuple(yearly),
        money=project.money,
        unknown=tuple(sorted(name for name in given if _plain(name) not in {_plain(key) for key in known})),
        names=tuple(sorted(known)),
        buyer=project.display.buyer,
    )


def list_names(want: Want) -> tuple[str, ...]:
    """Return all that a want may be called in the project file, most exact first."""
    return tuple(dict.fromkeys((*((want.name,) if want.name else ()), want.item, *want.keys)))


def merge_wants(wants: Iterable[Want]) -> list[Want]:
    """Return the wants with equal ones added up: only when everything but need and use agrees."""
    merged: dict[tuple[object, ...], Want] = {}
    for want in wants:
        if want.needed <= 0:
            continue
        key = (
            want.group,
            want.name or want.item,
            want.as_sold or want.detail,
            want.unit,
            want.place,
            want.waste,
            want.pack,
            want.sold,
        )
        old = merged.get(key)
        if old is None:
            merged[key] = want
            continue
        uses = ", ".join(dict.fromkeys(use for use in (old.where_used, want.where_used) if use))
        merged[key] = replace(old, needed=old.needed + want.needed, where_used=uses)
    return list(merged.values())


def price_want(project: Given, want: Want) -> BillLine:
    """Return a want as a line: waste added, what is on hand taken off, whole packages, price and place looked up."""
    names = list_names(want)
    each = look_up(project.prices, names)
    given = next((project.buy_at[key] for name in names for key in project.buy_at if _plain(key) == _plain(name)), None)
    there = want.needed / want.pack if want.owned and each is None and given is None else 0.0
    on_hand = look_up(project.on_hand, names)
    on_hand = there if on_hand is None else on_hand
    packs = want.needed * (1 + want.waste) / want.pack - on_hand
    buy = max(0, math.ceil(packs - 1e-9))
    return BillLine(
        group=want.group,
        item=want.item,
        detail=want.detail,
        needed=want.needed,
        unit=want.unit,
        waste=want.waste,
        on_hand=on_hand,
        pack=want.pack,
        sold=want.sold or want.unit,
        size=want.size,
        buy=buy,
        each=each,
        cost=round(buy * each, 2) if each is not None else (0.0 if buy == 0 else None),
        place=given or want.place,
        where_used=want.where_used,
        alternate=want.alternate,
        name=names[0],
        owned=want.owned and each is None and given is None and on_hand > 0,
    )


def find_left(line: BillLine) -> float:
    """Return what of the packages on hand the job itself does not take."""
    return max(0.0, line.on_hand - line.needed * (1 + line.waste) / line.pack)


def look_up(table: Mapping[str, float], names: tuple[str, ...]) -> float | None:
    """Return the value of the first name that the table has, whatever its capitals and spaces; else None."""
    plain = {_plain(key): value for key, value in table.items()}
    return next((plain[_plain(name)] for name in names if _plain(name) in plain), None)


def sum_places(lines: tuple[BillLine, ...]) -> tuple[Subtotal, ...]:
    """Return the subtotal of each place to buy, by name."""
    places = sorted({line.place for line in lines if line.buy})
    return tuple(
        Subtotal(
            place,
            round(sum(line.cost or 0.0 for line in lines if line.place == place and line.buy), 2),
            sum(line.place == place and line.buy > 0 for line in lines),
            sum(line.place == place and line.buy > 0 and line.each is None for line in lines),
        )
        for place in places
    )


def _plain(name: str) -> str:
    return " ".join(name.lower().split())

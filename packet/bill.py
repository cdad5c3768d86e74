"""The bill of materials: everything the job takes, in the units people buy."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class BillLine:
    """One thing to buy.

    item: its name, also the key of prices, on_hand and buy_at in the project file
    needed: what the design takes, in `unit`; waste: share added; pack: how much one package holds, in `unit`
    on_hand: in `unit`; buy: packages to buy; each, cost: price of one package and of all (None: price missing)
    """

    group: str
    item: str
    detail: str
    needed: float
    unit: str
    waste: float
    on_hand: float
    pack: float
    pack_name: str
    buy: int
    each: float | None
    cost: float | None
    place: str
    where_used: str = ""
    alternate: str = ""


@dataclass(frozen=True)
class Subtotal:
    place: str
    cost: float
    lines: int
    missing: int


@dataclass(frozen=True)
class Bill:
    """lines by group; subtotals by place to buy; missing: items without a price; yearly: consumables of a year."""

    lines: tuple[BillLine, ...]
    subtotals: tuple[Subtotal, ...]
    total: float
    missing: tuple[str, ...]
    yearly: tuple[BillLine, ...]
    money: str

"""What a bill is made of: wants of the job, lines to buy, subtotals by place."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from calc.measures.kinds import Kind, Reader

KINDS: Mapping[str, Kind] = {"m": "length_m", "m2": "area_m2"}
"""Units of the bill that are measured, not counted: inside it in SI, written in the reader's or the buyer's."""


@dataclass(frozen=True, kw_only=True)
class Want:
    """What one room of the job asks for, before it is priced.

    group, item, detail, place, where_used, alternate: printed words
    needed: what the design takes, in `unit`; waste: share added for cutting and loss
    pack: how much one package holds, in `unit`; sold: how it is sold (``box``), empty: by the unit; size: of a package
    name: what it is called in the project file and by the steps, sizes and all; empty: as it is printed
    as_sold: its detail in the units it is bought by, where `detail` is written in those of the print
    owned: in an upgrade it stands in the shop: bought only where the file prices it or tells where to buy it
    keys: other names it may go by in prices, on_hand and buy_at, most exact first
    """

    group: str
    item: str
    detail: str
    needed: float
    unit: str
    place: str
    waste: float = 0.0
    pack: float = 1.0
    sold: str = ""
    keys: tuple[str, ...] = ()
    where_used: str = ""
    alternate: str = ""
    name: str = ""
    size: str = ""
    as_sold: str = ""
    owned: bool = False


@dataclass(frozen=True, kw_only=True)
class BillLine:
    """One thing to buy.

    name: what it is called in the project file and by the steps, however it is printed
    needed: what the design takes, in `unit`; waste: share added; pack: how much one package holds, in `unit`
    owned: it stands in the shop before the job, as in an upgrade
    sold, size: how a package is sold (``box``, ``roll`` ...) and its size as words
    on_hand: packages there already; buy: packages to buy; each, cost: price of one and of all (None: price missing)
    """

    group: str
    item: str
    detail: str
    needed: float
    unit: str
    waste: float
    on_hand: float
    pack: float
    sold: str
    size: str
    buy: int
    each: float | None
    cost: float | None
    place: str
    where_used: str = ""
    alternate: str = ""
    name: str = ""
    owned: bool = False


@dataclass(frozen=True)
class Subtotal:
    """cost: of the lines with a price; missing: lines to buy there without one."""

    place: str
    cost: float
    lines: int
    missing: int


@dataclass(frozen=True, kw_only=True)
class Bill:
    """lines by group; subtotals by place to buy; missing: items to buy without a price; yearly: a year's consumables.

    unknown: names in the file's prices, on_hand or buy_at that no line of the bill goes by; names: all it knows
    buyer: in whose units things are bought; language of its words
    """

    lines: tuple[BillLine, ...]
    subtotals: tuple[Subtotal, ...]
    total: float
    missing: tuple[str, ...]
    yearly: tuple[BillLine, ...]
    money: str
    unknown: tuple[str, ...] = ()
    names: tuple[str, ...] = ()
    buyer: Reader = field(default_factory=lambda: Reader("inch"))

    @property
    def language(self) -> str:
        return self.buyer.language

    def get_line(self, name: str) -> BillLine:
        """Return the line of that name. Raises KeyError."""
        return {line.name: line for line in self.lines}[name]

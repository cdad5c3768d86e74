"""Parts laid out on sheets by straight cuts from edge to edge, as a table saw or a track saw makes them."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass, field, replace
from itertools import product

from calc.finding import Said
from calc.project import Sheet

TRIM_MM = 6.0
"""Taken off one long and one short edge of a sheet as bought, saw cut with it, so that all further cuts start from a
square corner: sheets are up to 1/16 in off in size and 1/64 in off square for each foot (US product standard PS 1,
from memory)."""

_USEFUL = 1000
"""An offcut counts from 100 mm on its short side (in tenths of a millimetre)."""


@dataclass(frozen=True, kw_only=True)
class Blank:
    """A part to be cut from a sheet: width_mm runs along the sheet's length unless it is turned.

    called, whole: what stands for its name in a list, and in a sentence
    """

    number: str
    name: str
    width_mm: float
    height_mm: float
    may_turn: bool
    grain_across: bool = False  # grain runs along its height: it lies turned on the sheet
    called: str | Said = field(default="", hash=False)
    whole: str | Said = field(default="", hash=False)


@dataclass(frozen=True, kw_only=True)
class Placed:
    """A blank on a sheet; x_mm along the sheet's length, y_mm across it, from the lower left corner."""

    blank: Blank
    x_mm: float
    y_mm: float
    along_mm: float
    across_mm: float
    turned: bool


@dataclass(frozen=True)
class Offcut:
    x_mm: float
    y_mm: float
    along_mm: float
    across_mm: float


@dataclass(frozen=True)
class Cut:
    """One straight cut, in order. ``rip`` runs along the sheet's length, ``crosscut`` across it."""

    number: int
    kind: str
    at_mm: float
    start_mm: float
    end_mm: float


@dataclass(frozen=True, kw_only=True)
class SheetLayout:
    """One sheet. from_hand: an offcut already in the shop; used: share of its area that becomes parts."""

    number: int
    material: str
    length_mm: float
    width_mm: float
    from_hand: bool
    placed: tuple[Placed, ...]
    cuts: tuple[Cut, ...]
    offcuts: tuple[Offcut, ...]
    used: float


@dataclass(frozen=True, kw_only=True)
class SheetPlan:
    """All sheets of one material. to_buy: whole sheets; too_large: blanks that fit none; trim_mm: off each first."""

    material: str
    thickness_mm: float
    kerf_mm: float
    layouts: tuple[SheetLayout, ...]
    to_buy: int
    too_large: tuple[Blank, ...]
    trim_mm: float = 0.0


_RULES = tuple(product(("area", "short side", "long side"), ("short", "long", "small", "large", "rip", "crosscut")))
_ORDERS = ("area", "long side", "short side", "along", "across", "around")
_TRIES = 60


@dataclass(frozen=True)
class _Item:
    """A blank in whole tenths of a millimetre, with the ways it may lie: (along, across, turned)."""

    blank: Blank
    ways: tuple[tuple[int, int, bool], ...]

    @property
    def area(self) -> int:
        return self.ways[0][0] * self.ways[0][1]


@dataclass(frozen=True)
class _Free:
    """A free rectangle on bin `bin`; node: which tree node it is."""

    bin: int
    x: int
    y: int
    along: int
    across: int


@dataclass(kw_only=True)
class _Split:
    """One placement: the item in the lower left corner of a free rectangle, and which cut came first."""

    free: _Free
    item: _Item
    along: int
    across: int
    turned: bool
    rip_first: bool


@dataclass(frozen=True)
class _Trial:
    """One complete packing: splits in order, rectangles left free, sizes of the bins opened."""

    splits: tuple[_Split, ...]
    left: tuple[_Free, ...]
    bins: tuple[tuple[int, int, bool], ...]

    def rank(self) -> tuple[int, int, int]:
        """Return what is to be made small: sheets to buy, then less of the largest useful offcut, then of the rest."""
        bought = sum(not hand for _, _, hand in self.bins)
        useful = [f.along * f.across for f in self.left if min(f.along, f.across) >= _USEFUL]
        return bought, -max(useful, default=0), -sum(area * area // 10**8 for area in useful)


def plan_sheets(
    blanks: tuple[Blank, ...],
    material: str,
    thickness_mm: float,
    sheet: Sheet,
    kerf_mm: float,
    offcuts: tuple[Sheet, ...] = (),
    trim_mm: float = 0.0,
) -> SheetPlan:
    """Return the blanks laid out on offcuts on hand, then on as few whole sheets as found, cut by straight cuts.

    trim_mm: cut off a whole sheet first, along its lower and its left edge, the saw's kerf counted in

    Works in whole tenths of a millimetre: sizes of parts are taken down to the tenth, so that parts that fill a sheet
    exactly are accepted. Kerf stands between pieces only. Of layouts with as few sheets, the one that leaves the
    largest useful offcut wins. The same input always gives the same layout. Raises ValueError for a sheet without size.
    """
    if min(sheet.length_mm, sheet.width_mm) <= trim_mm:
        raise ValueError("the sheet has no size")
    items = [_make_item(blank) for blank in blanks]
    net = Sheet(sheet.length_mm - trim_mm, sheet.width_mm - trim_mm)
    room = [(_up(s.length_mm), _up(s.width_mm)) for s in (*offcuts, net)]
    fits = [i for i in items if any(a <= b and c <= d for a, c, _ in i.ways for b, d in room)]
    kerf = round(kerf_mm * 10)
    trial = _pack_best(fits, room, kerf)
    missing = Counter(blanks) - Counter(split.item.blank for split in trial.splits)
    large = tuple(missing.elements())
    layouts = tuple(
        layout if layout.from_hand or not trim_mm else _trim_layout(layout, sheet, trim_mm, kerf_mm)
        for layout in _lay_out(trial, material, kerf)
    )
    bought = sum(not layout.from_hand for layout in layouts)
    return SheetPlan(
        material=material,
        thickness_mm=thickness_mm,
        kerf_mm=kerf_mm,
        layouts=layouts,
        to_buy=bought,
        too_large=large,
        trim_mm=trim_mm,
    )


def _trim_layout(layout: SheetLayout, sheet: Sheet, trim: float, kerf: float) -> SheetLayout:
    """Return a layout of the trimmed sheet on the whole one: moved in by the trim, and two cuts before all others."""
    saw = max(trim - kerf, 0.0)
    first = (Cut(1, "rip", saw, 0.0, sheet.length_mm), Cut(2, "crosscut", saw, trim, sheet.width_mm))
    cuts = tuple(Cut(c.number + 2, c.kind, c.at_mm + trim, c.start_mm + trim, c.end_mm + trim) for c in layout.cuts)
    whole = sheet.length_mm * sheet.width_mm
    return replace(
        layout,
        length_mm=sheet.length_mm,
        width_mm=sheet.width_mm,
        placed=tuple(replace(p, x_mm=p.x_mm + trim, y_mm=p.y_mm + trim) for p in layout.placed),
        cuts=first + cuts,
        offcuts=tuple(replace(o, x_mm=o.x_mm + trim, y_mm=o.y_mm + trim) for o in layout.offcuts),
        used=layout.used * layout.length_mm * layout.width_mm / whole,
    )


def _down(mm: float) -> int:
    return math.floor(mm * 10 + 1e-6)


def _up(mm: float) -> int:
    return round(mm * 10)


def _make_item(blank: Blank) -> _Item:
    width, height = _down(blank.width_mm), _down(blank.height_mm)
    flat, turned = (width, height, False), (height, width, True)
    if blank.grain_across:
        return _Item(blank, (turned,))
    if blank.may_turn and width != height:
        return _Item(blank, (flat, turned))
    return _Item(blank, (flat,))


def _pack_best(items: list[_Item], room: list[tuple[int, int]], kerf: int) -> _Trial:
    """Return the best of many packings: every order and rule once, then orders shaken a little."""
    bound = math.ceil(sum(i.area for i in items) / (room[-1][0] * room[-1][1]) - 1e-12) if len(room) == 1 else 0
    best: _Trial | None = None
    best_rule = (_ORDERS[0], _RULES[0])
    for order in _ORDERS:
        queue = sorted(items, key=lambda i: (_measure(i, order), i.area), reverse=True)
        for rule in _RULES:
            trial = _pack(queue, room, kerf, rule)
            if best is None or trial.rank() < best.rank():
                best, best_rule = trial, (order, rule)
    assert best is not None
    seed = 1
    queue = sorted(items, key=lambda i: (_measure(i, best_rule[0]), i.area), reverse=True)
    for attempt in range(_TRIES):
        if best.rank()[0] <= max(bound, 1):
            break
        shaken = list(queue)
        for _ in range(1 + attempt % 4):
            seed = (seed * 1103515245 + 12345) % 2**31  # a fixed sequence: the same parts give the same layout
            a, b = seed // 7 % len(shaken), seed // 10007 % len(shaken)
            shaken[a], shaken[b] = shaken[b], shaken[a]
        trial = _pack(shaken, room, kerf, _RULES[attempt % len(_RULES)])
        if trial.rank() <= best.rank():
            best, queue = trial, shaken
    return best


def _measure(item: _Item, order: str) -> int:
    along, across, _ = item.ways[0]
    return {
        "area": along * across,
        "long side": max(along, across),
        "short side": min(along, across),
        "along": along,
        "across": across,
        "around": along + across,
    }[order]


def _pack(queue: list[_Item], room: list[tuple[int, int]], kerf: int, rule: tuple[str, str]) -> _Trial:
    """Return a packing that takes the items in order, each into the free rectangle the rule likes best."""
    *hand, whole = room
    bins = [(along, across, True) for along, across in hand]
    free = [_Free(n, 0, 0, along, across) for n, (along, across, _) in enumerate(bins)]
    splits: list[_Split] = []
    for item in queue:
        place = _find_place(item, [f for f in free if bins[f.bin][2]], rule[0])
        place = place or _find_place(item, [f for f in free if not bins[f.bin][2]], rule[0])
        if place is None:
            bins.append((*whole, False))
            free.append(_Free(len(bins) - 1, 0, 0, *whole))
            place = _find_place(item, free[-1:], rule[0])
        if place is None:  # fits an offcut only, and that is taken
            continue
        spot, (along, across, turned) = place
        split = _Split(
            free=spot,
            item=item,
            along=along,
            across=across,
            turned=turned,
            rip_first=_rips_first(spot, along, across, rule[1]),
        )
        splits.append(split)
        free.remove(spot)
        free += _list_rest(split, kerf)
    used = {split.free.bin for split in splits}
    kept = tuple(f for f in free if f.bin in used)
    # bins that stayed empty are not opened at all; numbers stay, layouts drop them
    return _Trial(tuple(splits), kept, tuple(bins))


def _find_place(item: _Item, free: list[_Free], rule: str) -> tuple[_Free, tuple[int, int, bool]] | None:
    best: tuple[_Free, tuple[int, int, bool]] | None = None
    least: tuple[int, ...] | None = None
    for spot in free:
        for way in item.ways:
            over_along, over_across = spot.along - way[0], spot.across - way[1]
            if over_along < 0 or over_across < 0:
                continue
            short, long = min(over_along, over_across), max(over_along, over_across)
            waste = spot.along * spot.across - way[0] * way[1]
            first = {"area": (waste, short), "short side": (short, long), "long side": (long, short)}[rule]
            score = (*first, spot.bin, spot.x, spot.y, int(way[2]))
            if least is None or score < least:
                best, least = (spot, way), score
    return best


def _rips_first(spot: _Free, along: int, across: int, rule: str) -> bool:
    """Tell whether the first cut runs along the sheet (a rip across the whole free rectangle)."""
    over_along, over_across = spot.along - along, spot.across - across
    if rule == "rip":
        return True
    if rule == "crosscut":
        return False
    if rule in ("short", "long"):
        return (over_along < over_across) == (rule == "short")
    # the larger of the two rest rectangles when ripping first against when crosscutting first
    ripped = max(over_across * spot.along, over_along * across)
    crossed = max(over_along * spot.across, over_across * along)
    return (ripped >= crossed) == (rule == "large")


def _list_rest(split: _Split, kerf: int) -> list[_Free]:
    """Return what stays free beside and above a placed item, after the kerf of the cuts that free it."""
    f, along, across = split.free, split.along, split.across
    right, above = f.along - along - kerf, f.across - across - kerf
    beside_high = across if split.rip_first else f.across
    above_long = f.along if split.rip_first else along
    rest = []
    if right > 0:
        rest.append(_Free(f.bin, f.x + along + kerf, f.y, right, beside_high))
    if above > 0:
        rest.append(_Free(f.bin, f.x, f.y + across + kerf, above_long, above))
    return rest


def _lay_out(trial: _Trial, material: str, kerf: int) -> tuple[SheetLayout, ...]:
    layouts: list[SheetLayout] = []
    for n, (along, across, hand) in enumerate(trial.bins):
        splits = [s for s in trial.splits if s.free.bin == n]
        if not splits:
            continue
        placed = tuple(
            Placed(
                blank=s.item.blank,
                x_mm=s.free.x / 10,
                y_mm=s.free.y / 10,
                along_mm=s.along / 10,
                across_mm=s.across / 10,
                turned=s.turned,
            )
            for s in splits
        )
        left = sorted(
            (f for f in trial.left if f.bin == n and min(f.along, f.across) >= _USEFUL),
            key=lambda f: -f.along * f.across,
        )
        offcuts = tuple(Offcut(f.x / 10, f.y / 10, f.along / 10, f.across / 10) for f in left)
        used = sum(s.along * s.across for s in splits) / (along * across)
        cuts = _number_cuts(splits, kerf)
        layouts.append(
            SheetLayout(
                number=len(layouts) + 1,
                material=material,
                length_mm=along / 10,
                width_mm=across / 10,
                from_hand=hand,
                placed=placed,
                cuts=cuts,
                offcuts=offcuts,
                used=used,
            )
        )
    return tuple(layouts)


def _number_cuts(splits: list[_Split], kerf: int) -> tuple[Cut, ...]:
    """Return the cuts in the order they are made: each runs right across the piece that lies on the saw."""
    by_spot = {(s.free.x, s.free.y, s.free.along, s.free.across): s for s in splits}
    cuts: list[Cut] = []

    def add(kind: str, at: int, start: int, end: int) -> None:
        cuts.append(Cut(len(cuts) + 1, kind, at / 10, start / 10, end / 10))

    def cut_up(free: _Free) -> None:
        split = by_spot.get((free.x, free.y, free.along, free.across))
        if split is None:
            return
        rest = _list_rest(split, kerf)
        rip_at, cross_at = free.y + split.across, free.x + split.along
        steps = [("rip", rip_at, free.x, free.x + free.along), ("crosscut", cross_at, free.y, free.y + free.across)]
        if not split.rip_first:
            steps.reverse()
        first, second = steps
        for turn, (kind, at, start, end) in enumerate((first, second)):
            if at < (free.y + free.across if kind == "rip" else free.x + free.along):
                if turn == 1:  # only through the strip that the first cut left
                    end = cross_at if kind == "rip" else rip_at
                add(kind, at, start, end)
        for piece in rest:
            cut_up(piece)

    whole = next(s.free for s in splits if s.free.x == 0 and s.free.y == 0)
    cut_up(whole)
    return tuple(cuts)

"""Which full-size template goes on which sheet: large parts tiled, small parts together, the rest refused."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from calc.cutting.tiles import Tile, Tiling, TilingRefused, fits_plain_grid, pack_small, tile_shapes
from calc.finding import Amount, Finding, Limit, Said, Subject, Verdict, hold, tell
from calc.project import Display
from calc.shapes.shapes import Box, FlatPart, Layer, Point, Shape, find_bounds

FOOT_MM = 5.0
"""Strip above the lower margin that every page keeps for its foot line."""

STAMP_MM = 30.0
"""Band at the top of each sheet for the stamp and the page map."""

RULES_MM = 9.0
"""Bands at the left and at the bottom of each sheet for the check rules."""

AROUND_MM = 5.0
"""Room left round a small part that shares its sheet, for words beside its lines."""

CAPTION_MM = 14.0
"""Room above a small part for its own stamp."""

CORNER_MM = 7.0
"""The taping marks stand this far inside the corners of the outermost sheets."""

CAPTION_WIDE_MM = 66.0
"""A small part's stamp gets at least this width, however small the part."""

LEAST_MARGIN_MM = 6.35
"""Most printers cannot reach the outer 1/4 in of a sheet (common practice, no source)."""


LONGEST_PAGE_MM = 200 * 25.4
"""A PDF page is at most 14,400 units, 200 in, a side (ISO 32000-1, Annex C, from memory)."""

ROUND_LARGE_MM = 80.0
"""What margins, rules and words add to a part on its one large page."""


@dataclass(frozen=True, kw_only=True)
class PaperLayout:
    """What of one sheet a template may use: all in true millimetres of the printed sheet.

    left, bottom: lower left corner of the frame on the paper, in the printer's own millimetres
    frame: inside margins and foot; window: what is left of it for the drawing
    """

    left_mm: float
    bottom_mm: float
    frame_width_mm: float
    frame_height_mm: float
    window_width_mm: float
    window_height_mm: float


@dataclass(frozen=True)
class TiledPart:
    part: FlatPart
    tiling: Tiling


@dataclass(frozen=True, kw_only=True)
class PlacedPart:
    """A small part on a shared sheet: where the lower left corner of its room lies in the window; turned or not."""

    part: FlatPart
    left_mm: float
    bottom_mm: float
    room_width_mm: float
    room_height_mm: float
    turned: bool


@dataclass(frozen=True)
class RefusedPart:
    """A template that is not printed. count: sheets it would take at least; 0 when no sheet is left by the overlap."""

    part: FlatPart
    why: Said
    count: int


@dataclass(frozen=True)
class TemplatePlan:
    layout: PaperLayout
    tiled: tuple[TiledPart, ...]
    shared: tuple[tuple[PlacedPart, ...], ...]
    refused: tuple[RefusedPart, ...]

    @property
    def sheets(self) -> int:
        """How many sheets of paper the templates take."""
        return sum(len(t.tiling.tiles) for t in self.tiled) + len(self.shared)


@dataclass(frozen=True)
class Diagonal:
    """A taping check: from a mark on one sheet to a mark on another, in the drawing's millimetres."""

    start_tile: Tile
    start: Point
    end_tile: Tile
    end: Point
    length_mm: float


def lay_sheet(display: Display) -> PaperLayout:
    """Return the room on a sheet after margins, foot, stamp and rules, in true millimetres on the printer stated.

    A printer that makes 149 mm of 150 puts more true drawing on the same paper area, never less margin.
    """
    paper = display.paper
    margin = max(paper.margin_mm, LEAST_MARGIN_MM)
    width = (paper.width_mm - 2 * margin) * display.printer_x
    height = (paper.height_mm - 2 * margin - FOOT_MM) * display.printer_y
    return PaperLayout(
        left_mm=margin,
        bottom_mm=margin + FOOT_MM,
        frame_width_mm=width,
        frame_height_mm=height,
        window_width_mm=width - RULES_MM,
        window_height_mm=height - STAMP_MM - RULES_MM,
    )


def list_needed(part: FlatPart) -> tuple[Shape, ...]:
    """Return the lines that must be on paper; other ghosts are drawn where they happen to fall."""
    return tuple(f.shape for f in part.features if f.whole or f.layer is not Layer.GHOST)


def is_printed(part: FlatPart) -> bool:
    """Tell whether a part has full-size sheets in the packet."""
    return part.full_size and part.paper and bool(list_needed(part))


def plan_templates(display: Display, parts: Iterable[FlatPart]) -> TemplatePlan:
    """Return the sheets for all parts that are printed full size."""
    layout = lay_sheet(display)
    tiled, refused, small = [], [], []
    for part in parts:
        if not is_printed(part):
            continue
        room = _find_room(part)
        if _fits(room, layout):
            small.append((part, room))
            continue
        tiling = _tile_part(display, layout, part)
        if isinstance(tiling, Tiling):
            tiled.append(TiledPart(part, tiling))
        else:
            refused.append(tiling)
    return TemplatePlan(layout, tuple(tiled), _share(small, layout), tuple(refused))


def list_refused(display: Display, parts: Iterable[FlatPart]) -> tuple[RefusedPart, ...]:
    """Return the parts that take too many sheets. One that a plain grid takes in needs no search to be sure of."""
    layout = lay_sheet(display)
    refused = []
    for part in parts:
        if not is_printed(part) or _fits(_find_room(part), layout):
            continue
        window = layout.window_width_mm, layout.window_height_mm
        if not fits_plain_grid(list_needed(part), *window, display.paper.overlap_mm, display.most_sheets):
            tiling = _tile_part(display, layout, part)
            if isinstance(tiling, RefusedPart):
                refused.append(tiling)
    return tuple(refused)


def _tile_part(display: Display, layout: PaperLayout, part: FlatPart) -> Tiling | RefusedPart:
    window = layout.window_width_mm, layout.window_height_mm
    try:
        return _tile(list_needed(part), *window, display.paper.overlap_mm, display.most_sheets)
    except TilingRefused as refusal:
        return RefusedPart(part, _say_refusal(display, part, refusal), refusal.count)


@lru_cache(maxsize=64)
def _tile(shapes: tuple[Shape, ...], width: float, height: float, overlap: float, most: int) -> Tiling:
    return tile_shapes(shapes, width, height, overlap, most)


def _say_refusal(display: Display, part: FlatPart, refusal: TilingRefused) -> Said:
    box = find_bounds(list_needed(part))
    if not refusal.count:
        return Said(
            "templates.overlap_why",
            {"overlap": Amount(display.paper.overlap_mm, "length_mm")},
        )
    return Said(
        "templates.too_many_why",
        {
            "width": Amount(box.width, "length_mm"),
            "height": Amount(box.height, "length_mm"),
            "count": Amount(float(refusal.count), "count"),
            "most": Amount(float(display.most_sheets), "count"),
        },
    )


def fits_one_sheet(display: Display, part: FlatPart) -> bool:
    """Tell whether a part and its words fit on one sheet of the packet's paper."""
    return _fits(_find_room(part), lay_sheet(display))


def _find_room(part: FlatPart) -> Box:
    box = find_bounds(list_needed(part))
    return Box(box.left - AROUND_MM, box.bottom - AROUND_MM, box.right + AROUND_MM, box.top + AROUND_MM)


def _fits(room: Box, layout: PaperLayout) -> bool:
    tall, wide = layout.window_height_mm - CAPTION_MM, layout.window_width_mm
    return (room.width <= wide and room.height <= tall) or (room.height <= wide and room.width <= tall)


def _share(small: list[tuple[FlatPart, Box]], layout: PaperLayout) -> tuple[tuple[PlacedPart, ...], ...]:
    """Lay the small parts on as few sheets as shelves can make it; a turned part keeps its caption upright."""
    if not small:
        return ()
    best: tuple[tuple[PlacedPart, ...], ...] | None = None
    for lying in (False, True):
        sheets = _lay_small(small, [_turns(room, layout, lying) for _, room in small], layout)
        if best is None or len(sheets) < len(best):
            best = sheets
    assert best is not None
    return best


def _lay_small(
    small: list[tuple[FlatPart, Box]], turns: list[bool], layout: PaperLayout
) -> tuple[tuple[PlacedPart, ...], ...]:
    rooms = [
        (b.height, b.width) if turned else (b.width, b.height) for (_, b), turned in zip(small, turns, strict=True)
    ]
    spots = pack_small(
        [(max(wide, min(CAPTION_WIDE_MM, layout.window_width_mm)), tall + CAPTION_MM) for wide, tall in rooms],
        layout.window_width_mm,
        layout.window_height_mm,
        2.0,
    )
    sheets: dict[int, list[PlacedPart]] = {}
    for spot, (part, _), (wide, tall), turned in zip(spots, small, rooms, turns, strict=True):
        sheets.setdefault(spot.sheet, []).append(
            PlacedPart(
                part=part,
                left_mm=spot.left_mm,
                bottom_mm=spot.bottom_mm,
                room_width_mm=wide,
                room_height_mm=tall,
                turned=turned,
            )
        )
    return tuple(tuple(sheet) for sheet in sorted(sheets.values(), key=lambda s: min(p.part.number for p in s)))


def _turns(room: Box, layout: PaperLayout, lying: bool) -> bool:
    """Tell whether a part is turned: when only that fits, or to lie on its longer side when that is wanted and fits."""
    wide, tall = layout.window_width_mm, layout.window_height_mm - CAPTION_MM
    upright_fits = room.width <= wide and room.height <= tall
    turned_fits = room.height <= wide and room.width <= tall
    return turned_fits and (not upright_fits or (lying and room.height > room.width))


def find_diagonals(tiling: Tiling) -> tuple[Diagonal, ...]:
    """Return the taping checks: corner to opposite corner both ways, as far as those corners are on sheets of paper."""
    if len(tiling.tiles) < 2:
        return ()
    spots: dict[tuple[int, int], tuple[Tile, Point]] = {}
    for side, up in ((-1, -1), (1, 1), (-1, 1), (1, -1)):
        tile = max(tiling.tiles, key=lambda t: side * _corner(t, side, up).x + up * _corner(t, side, up).y)
        spots[side, up] = (tile, _corner(tile, side, up))
    checks = []
    for start, end in (((-1, -1), (1, 1)), ((-1, 1), (1, -1))):
        (one, a), (two, b) = spots[start], spots[end]
        if one is not two:
            checks.append(Diagonal(one, a, two, b, math.dist((a.x, a.y), (b.x, b.y))))
    return tuple(checks)


def _corner(tile: Tile, side: int, up: int) -> Point:
    box = tile.window
    return Point(
        box.right - CORNER_MM if side > 0 else box.left + CORNER_MM,
        box.top - CORNER_MM if up > 0 else box.bottom + CORNER_MM,
    )


def judge_paper(display: Display, parts: Iterable[FlatPart]) -> tuple[Finding, ...]:
    """Return a finding for each part that takes more sheets than allowed, or is longer than any page can be."""
    parts = tuple(parts)
    found = [_judge_page(part) for part in parts if part.cnc and list_needed(part) and not _fits_one_page(part)]
    for refused in list_refused(display, parts):
        key, part = f"paper.{refused.part.number}", (Subject("part", refused.part.name),)
        what = Said("templates.too_many_what", names={"part": refused.part.called or refused.part.name})
        way = Said("templates.print_large" if _fits_one_page(refused.part) else "templates.cut_from_file")
        mends = (Said("templates.check_size"), way)
        if not refused.count:  # the overlap leaves no room: no number of sheets is enough
            found.append(
                tell(key, what, refused.why, Verdict.DOES_NOT_FIT, topic="other", subjects=part, mends=mends,
                     source="project file")
            )  # fmt: skip
            continue
        limit = Limit(float(display.most_sheets), "at most", source="project file")
        count = float(refused.count)
        found.append(
            hold(key, what, count, limit, refused.why, topic="other", kind="count", subjects=part, mends=mends)
        )
    return tuple(found)


def _fits_one_page(part: FlatPart) -> bool:
    return _find_longest(part) + ROUND_LARGE_MM <= LONGEST_PAGE_MM


def _find_longest(part: FlatPart) -> float:
    box = find_bounds(list_needed(part))
    return max(box.width, box.height)


def _judge_page(part: FlatPart) -> Finding:
    return tell(
        f"page.{part.number}",
        Said("templates.page_what", names={"part": part.called or part.name}),
        Said("templates.page_why"),
        Verdict.TIGHT,
        topic="other",
        value=_find_longest(part),
        subjects=(Subject("part", part.name),),
        mends=(Said("templates.page_mend"),),
        source="ISO 32000-1 Annex C",
    )

"""Screws moved along their row to where a driver reaches them: not under a flange or rail, nor where a strip stands."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from calc.box.joints import BoxShape
from calc.box.panel_facts import is_fixed_to, touches_inside
from calc.box.parts import BoxPart
from calc.box.screws import ScrewRow
from calc.shapes.faces import AXIS, find_flat
from calc.shapes.shapes import Point

HEAD_MM = 8.0
"""From the middle of a No. 8 screw to what stands beside its head: half the head of 8.4 mm and a little."""

NEXT_MM = 20.0
"""Two screws of a row stand no nearer than this, so that the edge does not split (common practice, no source)."""

PLACE_STEP_MM = 1.0


@dataclass(frozen=True)
class Footprint:
    """What covers part of a face, from the face's lower left corner [mm]: a brick's outline, or a circle."""

    left: float
    bottom: float
    right: float
    top: float
    round: bool = False

    def find_gap(self, spot: Point) -> float:
        """Return how far a spot is from it; less than nothing inside a circle."""
        if self.round:
            x, y = (self.left + self.right) / 2, (self.bottom + self.top) / 2
            return math.dist((spot.x, spot.y), (x, y)) - (self.right - self.left) / 2
        across = max(self.left - spot.x, spot.x - self.right)
        up = max(self.bottom - spot.y, spot.y - self.top)
        return math.hypot(max(across, 0.0), max(up, 0.0)) if max(across, up) > 0 else max(across, up)

    def is_clear(self, spot: Point) -> bool:
        """Tell whether a screw's head has room beside it."""
        return self.find_gap(spot) >= HEAD_MM


def clear_rows(
    rows: tuple[ScrewRow, ...], shape: BoxShape, parts: tuple[BoxPart, ...], others: tuple[ScrewRow, ...] = ()
) -> tuple[ScrewRow, ...]:
    """Return the rows with every screw that something covers moved along its row; one without a place is left out.

    others: rows that are there already, whose screws are kept clear of. A rail's screws that pass through a cleat are
    a row of their own: they are longer by it.
    """
    cleared: list[ScrewRow] = []
    for row in rows:
        taken = tuple(_mark_screw(spot) for each in (*others, *cleared) if each.face == row.face for spot in each.spots)
        cleats = _list_passed(row, shape, parts)
        cleared += _part_at_cleats(_clear_row(row, list_footprints(row, shape, parts), taken, cleats), cleats)
    return tuple(cleared)


def _mark_screw(spot: Point) -> Footprint:
    half = HEAD_MM / 2
    return Footprint(spot.x - half, spot.y - half, spot.x + half, spot.y + half, round=True)


def _find_panel(row: ScrewRow, parts: tuple[BoxPart, ...]) -> BoxPart:
    return next(part for part in parts if part.kind == "panel" and part.face == row.face)


def list_footprints(row: ScrewRow, shape: BoxShape, parts: tuple[BoxPart, ...]) -> tuple[Footprint, ...]:
    """Return what stands on the side of the panel that a row is driven from, other than the row's own parts."""
    panel, found = _find_panel(row, parts), list[Footprint]()
    for hole in panel.holes:
        reach = hole.diameter_mm / 2 if row.from_inside else max(hole.flange_mm, hole.diameter_mm) / 2
        x, y = hole.across_mm + panel.left_mm, hole.up_mm + panel.bottom_mm
        found.append(Footprint(x - reach, y - reach, x + reach, y + reach, round=True))
    barring = ("stiffener",) if row.from_inside else ("mount",)
    for part in parts:
        if part.kind in barring and part.name not in (row.through, row.into) and is_fixed_to(part, panel):
            found.append(Footprint(*find_flat(panel.face, part.block, shape.outside)))
    return tuple(found)


def _list_passed(row: ScrewRow, shape: BoxShape, parts: tuple[BoxPart, ...]) -> tuple[tuple[Footprint, float], ...]:
    """Return the cleats that a rail's screws from inside may pass, with their thickness there."""
    panel = _find_panel(row, parts)
    if not row.from_inside or row.through != panel.name:
        return ()
    axis = AXIS[panel.face]
    return tuple(
        (Footprint(*find_flat(panel.face, part.block, shape.outside)), part.block.along(axis))
        for part in parts
        if part.kind == "cleat" and touches_inside(part.block, panel)
    )


def _part_at_cleats(row: ScrewRow, cleats: tuple[tuple[Footprint, float], ...]) -> list[ScrewRow]:
    """Return a row in two where part of it passes cleats."""

    def find_thick(spot: Point) -> float:
        return max((thick for cleat, thick in cleats if cleat.find_gap(spot) < 0), default=0.0)

    thicks = sorted({find_thick(spot) for spot in row.spots})
    return [
        replace(row, spots=tuple(s for s in row.spots if find_thick(s) == thick), grip_mm=row.grip_mm + thick)
        for thick in thicks
    ]


def _clear_row(
    row: ScrewRow,
    footprints: tuple[Footprint, ...],
    taken: tuple[Footprint, ...],
    cleats: tuple[tuple[Footprint, float], ...],
) -> ScrewRow:
    def is_free(spot: Point) -> bool:
        return all(each.is_clear(spot) for each in (*footprints, *taken)) and all(
            cleat.is_clear(spot) or cleat.find_gap(spot) <= -HEAD_MM / 2 for cleat, _ in cleats
        )

    if len(row.spots) < 2 or all(is_free(spot) for spot in row.spots):
        return row
    kept: list[Point] = [spot for spot in row.spots if is_free(spot)]
    for spot in row.spots:
        if spot not in kept:
            moved = _find_spot(row, spot, kept, is_free)
            if moved is not None:
                kept.append(moved)
    kept.sort(key=lambda spot: (spot.x, spot.y))
    gaps = [math.dist((a.x, a.y), (b.x, b.y)) for a, b in itertools.pairwise(kept)]
    return replace(row, spots=tuple(kept), spacing_mm=max(gaps, default=row.spacing_mm))


def _find_spot(row: ScrewRow, spot: Point, kept: list[Point], is_free: Callable[[Point], bool]) -> Point | None:
    """Return the free place nearest to a spot on its row, between the row's ends and apart from other screws."""
    first, last = row.spots[0], row.spots[-1]
    long = math.dist((first.x, first.y), (last.x, last.y))
    x, y = (last.x - first.x) / long, (last.y - first.y) / long
    at = math.dist((first.x, first.y), (spot.x, spot.y))
    for step in range(1, math.ceil(long / PLACE_STEP_MM)):
        for along in (at + step * PLACE_STEP_MM, at - step * PLACE_STEP_MM):
            if 0.0 <= along <= long:
                moved = Point(first.x + x * along, first.y + y * along)
                apart = all(math.dist((moved.x, moved.y), (other.x, other.y)) >= NEXT_MM for other in kept)
                if apart and is_free(moved):
                    return moved
    return None

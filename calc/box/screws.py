"""Where the screws of the box go: rows along every joint, and through cleats."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.box.joints import BoxShape, Solid
from calc.project import Face
from calc.shapes.faces import AXIS, Block, Sizes, find_flat
from calc.shapes.shapes import Point

END_MM = 40.0
"""First and last screw of a row stay this far from its ends, so that panel corners do not split."""


@dataclass(frozen=True, kw_only=True)
class ScrewRow:
    """Screws through one part into another; spots in the face's coordinates (lower left corner, seen from outside).

    grip_mm: wood the screw passes before it holds
    from_inside: driven from the inside of the box (through a cleat into the panel, through a panel into its rail)
    """

    through: str
    into: str
    face: Face
    spots: tuple[Point, ...]
    spacing_mm: float
    grip_mm: float
    from_inside: bool = False


def space_row(length_mm: float, most_mm: float, end_mm: float = END_MM) -> tuple[float, ...]:
    """Return where along a row [mm] its screws go: at most `most_mm` apart, the first and last near the ends."""
    end = min(end_mm, length_mm / 4)
    gaps = max(1, math.ceil((length_mm - 2 * end) / most_mm - 1e-9))
    return tuple(end + (length_mm - 2 * end) * i / gaps for i in range(gaps + 1))


def plan_screws(
    shape: BoxShape, panels: tuple[Solid, ...], cleats: tuple[Solid, ...], spacing_mm: float, face_spacing_mm: float
) -> tuple[ScrewRow, ...]:
    """Return every row of box screws: removable face at `face_spacing_mm`, the other joints at `spacing_mm`."""
    by_face = {panel.face: panel for panel in panels}
    fixed, (pair, inner) = shape.cover[0][1], shape.cover[1:]
    rows = [make_row(by_face[shape.removable], by_face[face], shape.outside, face_spacing_mm) for face in pair + inner]
    if not cleats:
        rows += [make_row(by_face[fixed], by_face[face], shape.outside, spacing_mm) for face in pair + inner]
        rows += [make_row(by_face[a], by_face[b], shape.outside, spacing_mm) for a in pair for b in inner]
    for cleat in cleats:
        for panel in panels:
            if panel.face != shape.removable and _lies_on(cleat.block, panel):
                rows.append(make_row(panel, cleat, shape.outside, spacing_mm, from_inside=True))
    return tuple(rows)


def make_row(
    through: Solid, into: Solid, outside: Sizes, spacing: float, from_inside: bool = False, outward: bool = False
) -> ScrewRow:
    """Return a row through one part into another; from_inside: in through `into`; outward: from inside the box out."""
    l1, b1, r1, t1 = find_flat(through.face, through.block, outside)
    l2, b2, r2, t2 = find_flat(through.face, into.block, outside)
    left, bottom, right, top = max(l1, l2), max(b1, b2), min(r1, r2), min(t1, t2)
    if right - left >= top - bottom:
        along = space_row(right - left, spacing)
        spots = tuple(Point(left + s, (bottom + top) / 2) for s in along)
    else:
        along = space_row(top - bottom, spacing)
        spots = tuple(Point((left + right) / 2, bottom + s) for s in along)
    driven, held = (into, through) if from_inside else (through, into)
    grip = (into if from_inside else through).block.along(AXIS[through.face])
    return ScrewRow(
        through=driven.name,
        into=held.name,
        face=through.face,
        spots=spots,
        spacing_mm=along[1] - along[0],
        grip_mm=grip,
        from_inside=from_inside or outward,
    )


def plan_rib_screws(
    shape: BoxShape, panels: tuple[Solid, ...], ribs: tuple[Solid, ...], spacing_mm: float
) -> tuple[ScrewRow, ...]:
    """Return the screws through each panel into the ribs behind it."""
    by_face = {panel.face: panel for panel in panels}
    return tuple(make_row(by_face[rib.face], rib, shape.outside, spacing_mm) for rib in ribs)


def _lies_on(block: Block, panel: Solid) -> bool:
    """Tell whether a strip lies along a panel (not only with its end on it)."""
    longest = max(range(3), key=block.along)
    return longest != AXIS[panel.face] and _touch(block, panel.block)


def _touch(a: Block, b: Block) -> bool:
    """Tell whether two bricks lie face to face (share an area, not only an edge)."""
    overlaps = [min(a.high[i], b.high[i]) - max(a.low[i], b.low[i]) for i in range(3)]
    return sum(overlap > 1e-6 for overlap in overlaps) == 2 and min(overlaps) > -1e-6


def count_on(rows: tuple[ScrewRow, ...], face: Face) -> int:
    """Return how many screws go through the panel of a face from outside."""
    return sum(len(row.spots) for row in rows if row.through == face and not row.from_inside)

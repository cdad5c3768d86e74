"""The lining: pieces that cover the inside of the box, with their holes, and what is left clear."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.box.joints import BoxShape, place_cleats
from calc.box.parts import BoxPart, Hole
from calc.box.ports import PortDesign
from calc.finding import Said
from calc.project import Face, System
from calc.settled import Settled
from calc.shapes.faces import AXIS, Block, Sizes, find_flat, is_low, meet_blocks
from calc.shapes.part_names import say_lining

HOLE_PLAY_MM = 6.0
"""The lining stays this far back from every hole's edge, so that no fibre hangs into the opening."""

FACE_PLAY_MM = 3.0
"""The removable face's lining is this much smaller on every side."""


WASHERS_APART_MM: dict[System, float] = {"metric": 200.0, "inch": 8 * 25.4}
"""Most distance from washer to washer; half as much from the last one to an edge (common practice, no source)."""


@dataclass(frozen=True, kw_only=True)
class LiningPiece:
    """One piece seen from outside through its panel; left_mm, bottom_mm: its corner on the box's face."""

    number: str
    name: str
    called: Said
    face: Face
    width_mm: float
    height_mm: float
    thickness_mm: float
    left_mm: float
    bottom_mm: float
    holes: tuple[Hole, ...]


@dataclass(frozen=True)
class LiningPlan:
    """The pieces, the clear inside sizes they leave, and their area [mm2] less holes."""

    stock: str
    pieces: tuple[LiningPiece, ...]
    clear: Sizes
    area_mm2: float


def plan_lining(
    project: Settled, shape: BoxShape, ports: tuple[PortDesign, ...], ribs: tuple[BoxPart, ...] = ()
) -> LiningPlan | None:
    """Return the lining's pieces, or None for a bare box.

    The fixed face is lined first, right into the corners; then the covering pair, the pair between, the removable
    face last and a little smaller, so that it goes in and out. Where a cleat runs, the lining stops. A rib stands on
    its panel: that panel's lining is cut in strips beside it.
    """
    lining = project.lining
    if lining is None or not lining.faces:
        return None
    order = [shape.cover[0][1], *shape.cover[1], *shape.cover[2], shape.removable]
    laid: list[tuple[Face, Block]] = []
    cleats = [solid.block for solid in place_cleats(shape, project.box.panel.thickness_mm)]
    for face in (face for face in order if face in lining.faces):
        block = _slice_cavity(shape.cavity, face, lining.thickness_mm)
        for obstacle in cleats + [other for _, other in laid]:
            block = _trim(block, obstacle, AXIS[face])
        if face == shape.removable:
            block = _shrink(block, AXIS[face], FACE_PLAY_MM)
        if min(block.along(axis) for axis in range(3)) > 0:  # a lining too thick for its box leaves some faces none
            laid.append((face, block))
    cut = [
        (face, strip, index if len(strips) > 1 else None)
        for face, block in laid
        for strips in [_split(block, face, ribs)]
        for index, strip in enumerate(strips, start=1)
    ]
    pieces = tuple(
        _make_piece(project, shape, face, block, ports, f"N{number}", strip)
        for number, (face, block, strip) in enumerate(cut, start=1)
    )
    clear = Sizes(
        *(
            shape.inside.along(axis) - lining.thickness_mm * sum(AXIS[face] == axis for face in set(lining.faces))
            for axis in range(3)
        )
    )
    area = sum(
        piece.width_mm * piece.height_mm - sum(math.pi * hole.diameter_mm**2 / 4 for hole in piece.holes)
        for piece in pieces
    )
    return LiningPlan(lining.stock, pieces, clear, area)


def count_washers(plan: LiningPlan, apart_mm: float) -> int:
    """Return how many screws with washers hold the lining: rows both ways on each piece, no farther apart than that."""
    return sum(
        max(1, math.ceil(piece.width_mm / apart_mm - 1e-9)) * max(1, math.ceil(piece.height_mm / apart_mm - 1e-9))
        for piece in plan.pieces
    )


def _slice_cavity(cavity: Block, face: Face, thick: float) -> Block:
    axis, low, high = AXIS[face], list(cavity.low), list(cavity.high)
    if is_low(face):
        high[axis] = low[axis] + thick
    else:
        low[axis] = high[axis] - thick
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _trim(block: Block, obstacle: Block, normal: int) -> Block:
    """Return the slice cut back on the side where that loses least, so that it clears the obstacle."""
    if meet_blocks(block, obstacle) is None:
        return block
    best, kept = block, -1.0
    for axis in range(3):
        if axis == normal:
            continue
        for end in ("low", "high"):
            low, high = list(block.low), list(block.high)
            if end == "low":
                low[axis] = obstacle.high[axis]
            else:
                high[axis] = obstacle.low[axis]
            if high[axis] - low[axis] > kept / 1e6 and high[axis] > low[axis]:
                trimmed = Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))
                if trimmed.volume > kept:
                    best, kept = trimmed, trimmed.volume
    return best


def _split(block: Block, face: Face, ribs: tuple[BoxPart, ...]) -> list[Block]:
    """Return a face's lining in the strips that its ribs leave, from its low end."""
    strips = [block]
    for rib in ribs:
        if rib.face != face:
            continue
        axis = min((i for i in range(3) if i != AXIS[face]), key=rib.block.along)
        start, end = rib.block.low[axis], rib.block.high[axis]
        parted = []
        for strip in strips:
            for low_end, high_end in ((strip.low[axis], min(start, strip.high[axis])),
                                      (max(end, strip.low[axis]), strip.high[axis])):  # fmt: skip
                if high_end > low_end:
                    low, high = list(strip.low), list(strip.high)
                    low[axis], high[axis] = low_end, high_end
                    parted.append(Block((low[0], low[1], low[2]), (high[0], high[1], high[2])))
        strips = parted
    return strips


def _shrink(block: Block, normal: int, play: float) -> Block:
    low = [lo + (0.0 if axis == normal else play) for axis, lo in enumerate(block.low)]
    high = [hi - (0.0 if axis == normal else play) for axis, hi in enumerate(block.high)]
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _make_piece(
    project: Settled,
    shape: BoxShape,
    face: Face,
    block: Block,
    ports: tuple[PortDesign, ...],
    number: str,
    strip: int | None,
) -> LiningPiece:
    left, bottom, right, top = find_flat(face, block, shape.outside)
    holes = [
        Hole(name=each.name, kind=each.port.kind, across_mm=each.port.across_mm - left, up_mm=each.port.up_mm - bottom,
             diameter_mm=each.hole_mm + 2 * HOLE_PLAY_MM, flange_mm=each.flange_mm)
        for each in ports if each.port.face == face
    ]  # fmt: skip
    inlet = project.box.inlet
    if inlet.face == face:
        across, up = inlet.across_mm - left, inlet.up_mm - bottom
        holes.append(
            Hole(
                name="inlet",
                kind="inlet",
                across_mm=across,
                up_mm=up,
                diameter_mm=inlet.diameter_mm + 2 * HOLE_PLAY_MM,
                flange_mm=inlet.diameter_mm,
            )
        )
    if strip is not None:  # the whole face's holes, parted among its strips
        holes = [hole for hole in holes if 0 < hole.across_mm < right - left and 0 < hole.up_mm < top - bottom]
    thick = project.lining.thickness_mm if project.lining else 0.0
    name = f"lining {face}" if strip is None else f"lining {face} {strip}"
    called = say_lining(face, strip)
    return LiningPiece(
        number=number,
        name=name,
        called=called,
        face=face,
        width_mm=right - left,
        height_mm=top - bottom,
        thickness_mm=thick,
        left_mm=left,
        bottom_mm=bottom,
        holes=tuple(holes),
    )

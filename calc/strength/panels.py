"""The panels of the box as plates of wood: how far each bows, what it bears, which ribs it needs or how thick."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from calc.box.joints import BoxShape
from calc.box.parts import BoxPart
from calc.project import Face, Panel
from calc.settled import Settled
from calc.shapes.faces import VIEWS, Block
from calc.stock import Stock, find_stock
from calc.strength.plates import Bending, Plate, PlateLoad, RoundHole, bend_held, bend_supported, find_rigidity
from calc.strength.rib_places import find_short_axis
from calc.strength.rib_room import RibRoom, find_mouths
from calc.strength.stiffeners import choose_ribs, would_ribs_help

GASKET_FORGIVES_MM = 1.5
"""A 6 mm closed-cell gasket seals between 25 and 50 % squeeze: 1.5 mm of travel (common practice, no source)."""

BOW_SHARE = 240.0
"""Other panels may bow by their short side over this (usual for wood floors and roofs, common practice, no source)."""

PLATE_SHARE = 0.5
"""Thin plate theory holds while the bow stays below half the thickness (Timoshenko and Woinowsky-Krieger, from memory).
"""


THICKEST_MM = 100.0
"""No thicker panel is looked for."""


@dataclass(frozen=True, kw_only=True)
class PanelStrength:
    """One panel under the box's pressure: bow [mm] and stress [Pa] with edges free to turn and held (clamped).

    running_pa, worst_pa: pressure in the box; softer: how many times the holes let it bow
    bow_out_mm, bow_in_mm: bow at the worst pressure outward and inward, edges free; hanging weight counts outward
    rib_places_mm, rib_high_mm: stiffeners that the design adds, on edge: where along the side they stand on, how high;
    rib_blocks: the same as bricks in the box; ribs_barred: ribs would do, but none finds a free place
    lengthwise: they run along the long side, else across it
    stress_pa: the one nearest to what the wood stands that way, breaking_pa, with edges free or held
    bow_bare_mm: without them; thick_enough_mm: how thick the panel must be to do without, where it is not
    """

    name: str
    face: Face
    short_mm: float
    long_mm: float
    thickness_mm: float
    running_pa: float
    worst_pa: float
    weight_pa: float
    softer: float
    bow_bare_mm: float
    bow_out_mm: float
    bow_in_mm: float
    bow_held_mm: float
    stress_pa: float
    breaking_pa: float
    force_worst_n: float
    limit_mm: float
    thick_enough_mm: float
    rib_places_mm: tuple[float, ...]
    rib_blocks: tuple[Block, ...]
    ribs_barred: bool
    rib_high_mm: float
    lengthwise: bool

    @property
    def ribs(self) -> int:
        """How many stiffeners it gets."""
        return len(self.rib_places_mm)

    @property
    def past_theory(self) -> bool:
        """Whether it bows, or would without ribs, beyond half its thickness: stiffer there than this theory says."""
        return max(self.bow_bare_mm, self.bow_out_mm) > PLATE_SHARE * self.thickness_mm


@dataclass(frozen=True)
class _Loads:
    """What bends a panel [Pa]: air at its worst, and its hanging weight spread even."""

    worst: float
    weight: float

    @property
    def all(self) -> float:
        return self.worst + self.weight


@dataclass(frozen=True)
class _Bows:
    """Bows [mm] of a panel or of its worst bay, and its stresses beside what the wood stands [Pa]."""

    out: float
    into: float
    held: float
    stresses: tuple[tuple[float, float], ...]


def check_panels(
    project: Settled,
    shape: BoxShape,
    parts: tuple[BoxPart, ...],
    running_pa: float,
    worst_pa: float,
    hanging_n: dict[str, float],
) -> tuple[PanelStrength, ...]:
    """Return the panels one after the other: each one's ribs stand in the room that those before it leave.

    running_pa, worst_pa: pressure in the box; hanging_n: weight under each port by its name
    """
    panels = tuple(part for part in parts if part.kind == "panel")
    cleats = tuple(part.block for part in parts if part.kind == "cleat")
    lining = project.lining.thickness_mm if project.lining else 0.0
    room = RibRoom(shape, lining, cleats, find_mouths(shape, panels))
    checked: list[PanelStrength] = []
    for part in panels:
        hanging = hanging_n if part.face == "bottom" else {}
        panel = check_panel(project, shape, part, running_pa, worst_pa, hanging, room)
        room = replace(room, ribs=(*room.ribs, *panel.rib_blocks))
        checked.append(panel)
    return tuple(checked)


def check_panel(
    project: Settled,
    shape: BoxShape,
    part: BoxPart,
    running_pa: float,
    worst_pa: float,
    hanging: dict[str, float],
    room: RibRoom,
) -> PanelStrength:
    """Return how a panel bows under running and worst pressure [Pa], ribs added if needed.

    hanging: weight [N] at each hole by name; room: what stands in the box already
    """
    view, panel = VIEWS[part.face], project.box.panel
    stock = find_stock(panel)
    wide, high = shape.inside.along(view.across_axis), shape.inside.along(view.up_axis)
    short, long = sorted((wide, high))
    plate = lay_plate(stock, part, wide, high)
    holes = part_holes(plate, lay_holes(shape, part, hanging))
    loads = _Loads(abs(worst_pa), sum(hole.weight_n for hole in holes) / (short * long / 1e6))
    limit = GASKET_FORGIVES_MM if part.face == shape.removable else short / BOW_SHARE
    whole = bend_supported(plate, holes)
    bare = whole.bend(loads.worst).bow_m * 1000
    solid = bend_supported(plate).bend(loads.all, 0.0).bow_m * 1000

    def divide(axis: int, places_mm: tuple[float, ...]) -> list[Bending]:
        """Return how each bay between ribs bends, its edges on the ribs free to turn, its own holes in it."""
        along = axis == view.across_axis
        if view.across_back if along else view.up_back:
            places_mm = tuple(shape.inside.along(axis) - place for place in reversed(places_mm))
        return [bend_supported(*bay) for bay in cut_bays(stock, part, (wide, high), holes, places_mm, along=along)]

    def bow(axis: int, places_mm: tuple[float, ...]) -> float:
        return max(bay.bend(loads.worst).bow_m for bay in divide(axis, places_mm)) * 1000

    ribs = choose_ribs(stock, part, limit, bow, bare, loads.all, room)
    bows = _find_bows(stock, part, divide(ribs.axis, ribs.places_mm) if ribs else [whole], loads)
    extra = ribs.bow_mm if ribs else 0.0
    inward = abs(loads.worst - loads.weight) / loads.all if loads.all else 0.0
    stress, breaking = max(bows.stresses, key=lambda pair: pair[0] / pair[1])
    return PanelStrength(
        name=part.name,
        face=part.face,
        short_mm=short,
        long_mm=long,
        thickness_mm=panel.thickness_mm,
        running_pa=running_pa,
        worst_pa=worst_pa,
        weight_pa=loads.weight,
        softer=max(1.0, bare / solid) if solid else 1.0,
        bow_bare_mm=bare,
        bow_out_mm=bows.out + extra,
        bow_in_mm=bows.into + extra * inward,
        bow_held_mm=bows.held + extra,
        stress_pa=stress,
        breaking_pa=breaking,
        force_worst_n=loads.worst * short * long / 1e6,
        limit_mm=limit,
        thick_enough_mm=find_thickness(panel, part, (wide, high), holes, loads.worst, bare, limit),
        rib_places_mm=ribs.places_mm if ribs else (),
        rib_blocks=ribs.blocks if ribs else (),
        ribs_barred=not ribs and bare > limit and would_ribs_help(stock, part, limit, bow, bare, loads.all, room),
        rib_high_mm=ribs.high_mm if ribs else 0.0,
        lengthwise=ribs is not None and ribs.axis == find_short_axis(shape, part.face),
    )


def _find_bows(stock: Stock, part: BoxPart, bays: Sequence[Bending], loads: _Loads) -> _Bows:
    """Return the worst of the bays of a panel, one without ribs."""
    out, into, held, stresses = 0.0, 0.0, 0.0, []
    for bay in bays:
        free, stiff = bay.bend(loads.worst), bend_held(bay.plate, loads.all)
        solid = bend_supported(bay.plate).bend(loads.all, 0.0).bow_m
        out, into = max(out, free.bow_m), max(into, bay.bend(loads.worst, -1.0).bow_m)
        held = max(held, free.bow_m * stiff.bow_m / solid if solid else 0.0)  # as much softer by its holes
        stresses += pair_stress(stock, part, [free, stiff])
    return _Bows(out * 1000, into * 1000, held * 1000, tuple(stresses))


def find_thickness(
    panel: Panel,
    part: BoxPart,
    sides_mm: tuple[float, float],
    holes: tuple[RoundHole, ...],
    worst_pa: float,
    bare_mm: float,
    limit_mm: float,
) -> float:
    """Return how thick [mm] a panel must be to keep its bow in its limit without ribs; its own where that does.

    The bow falls with the cube of the thickness while the moduli stay; with another number of veneers they do not, so
    each guess is bent anew. A hundredth is kept back: openings are measured from outside, and move with the thickness.
    """
    thick, bow, enough = panel.thickness_mm, bare_mm, THICKEST_MM
    if bow <= limit_mm:
        return thick
    for _ in range(6):
        if not limit_mm:
            break
        thick *= (bow / (0.99 * limit_mm)) ** (1 / 3)
        if thick >= enough:
            break
        stock = find_stock(replace(panel, thickness_mm=thick))
        plate = lay_plate(stock, replace(part, thickness_mm=thick), *sides_mm)
        bow = bend_supported(plate, holes).bend(worst_pa).bow_m * 1000
        if bow <= 0.9905 * limit_mm:
            enough = thick
            if bow > 0.98 * limit_mm:
                break
    return enough


def lay_plate(stock: Stock, part: BoxPart, wide_mm: float, high_mm: float) -> Plate:
    """Return a panel, or a bay of it, as a plate, its grain the way it is cut.

    Where the grain does not matter, nobody knows which way it will lie: along the longer side, which bows more.
    """
    stiff = find_rigidity(stock.along_pa, stock.across_pa, stock.shear_pa, stock.poisson, part.thickness_mm / 1000)
    if part.grain == "height" or (part.grain == "none" and high_mm > wide_mm):
        stiff = stiff.turn()
    return Plate(wide_mm / 1000, high_mm / 1000, part.thickness_mm / 1000, stiff)


def lay_holes(shape: BoxShape, part: BoxPart, hanging_n: dict[str, float]) -> tuple[RoundHole, ...]:
    """Return the holes of a panel from the corner of the box's clear inside, with the weights that hang on them."""
    view = VIEWS[part.face]
    margins = [(shape.outside.along(axis) - shape.inside.along(axis)) / 2 for axis in (view.across_axis, view.up_axis)]
    return tuple(
        RoundHole(
            (part.left_mm + hole.across_mm - margins[0]) / 1000,
            (part.bottom_mm + hole.up_mm - margins[1]) / 1000,
            hole.diameter_mm / 2000,
            hanging_n.get(hole.name, 0.0),
        )
        for hole in part.holes
    )


def part_holes(plate: Plate, holes: Sequence[RoundHole]) -> tuple[RoundHole, ...]:
    """Return holes made small enough to stay on the plate and out of each other.

    Such a panel cannot be cut; that is told elsewhere, and its bow then says little.
    """
    kept: list[RoundHole] = []
    for hole in sorted(holes, key=lambda hole: -hole.radius_m):
        edges = (hole.x_m, plate.x_m - hole.x_m, hole.y_m, plate.y_m - hole.y_m)
        rims = [math.hypot(hole.x_m - other.x_m, hole.y_m - other.y_m) - other.radius_m for other in kept]
        free = min(hole.radius_m, *edges, *rims)
        if free > 0:
            kept.append(replace(hole, radius_m=free))
    return tuple(kept)


def cut_bays(
    stock: Stock,
    part: BoxPart,
    sides_mm: tuple[float, float],
    holes: tuple[RoundHole, ...],
    places_mm: tuple[float, ...],
    *,
    along: bool,
) -> list[tuple[Plate, tuple[RoundHole, ...]]]:
    """Return the bays between ribs at places along x (or y) of a panel, each with the holes that stand in it."""
    bays = []
    for low, high in pairwise((0.0, *sorted(places_mm), sides_mm[0] if along else sides_mm[1])):
        moved = [
            replace(hole, x_m=hole.x_m - low / 1000) if along else replace(hole, y_m=hole.y_m - low / 1000)
            for hole in holes
        ]
        inside = [
            hole for hole in moved
            if hole.radius_m <= (hole.x_m if along else hole.y_m) <= (high - low) / 1000 - hole.radius_m
        ]  # fmt: skip
        plate = lay_plate(stock, part, *((high - low, sides_mm[1]) if along else (sides_mm[0], high - low)))
        bays.append((plate, tuple(inside)))
    return bays


def pair_stress(stock: Stock, part: BoxPart, loads: Sequence[PlateLoad]) -> list[tuple[float, float]]:
    """Return each bending stress [Pa] beside what the wood stands that way; grain not said: what it stands across."""
    along, across = stock.breaking_along_pa, stock.breaking_across_pa
    in_x, in_y = {"width": (along, across), "height": (across, along)}.get(part.grain, (across, across))
    return [pair for load in loads for pair in ((load.stress_x_pa, in_x), (load.stress_y_pa, in_y))]

"""Strength of the box: panels under air pressure, ribs where they bow too far, screws, and what holds the box up."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from calc.box.joints import BoxShape
from calc.box.parts import BoxPart
from calc.box.ports import PortDesign
from calc.box.screws import ScrewRow, count_on
from calc.box.standing import find_stand_off
from calc.finding import Said
from calc.project import Face
from calc.settled import Settled
from calc.shapes.part_names import say_face
from calc.stock import Stock, find_stock
from calc.strength.fasteners import (
    EDGE_SHARE,
    LAG_MM,
    LAG_SIDEWAYS_N,
    NO8_MM,
    WITHDRAWAL_FACTOR,
    choose_ring_screw,
    choose_screw,
    find_lag_withdrawal,
    find_withdrawal,
)
from calc.strength.panels import PanelStrength, check_panels
from calc.trade import GRAVITY

STRESS_FACTOR = 4.0
SCREW_SIDEWAYS_N = 300.0
"""Allowed sideways load of a No. 8 screw into a panel's edge: about 67 lbf (timber design tables less a quarter,
from memory)."""

THREAD_MM = 2.0
"""Thickness of a lid's thread at its root, one turn of it carrying (stated assumption: measure yours)."""

THREAD_SHEAR_PA = 12.7e6
"""Polyethylene in shear: 0.577 of a yield stress of 22 MPa (general tables, from memory)."""

THREAD_FACTOR = 10.0
"""Plastic creeps under a load that stays: a tenth of its short-time strength is used (common practice, no source)."""

STUD_GRAVITY = 0.42
LAG_THREAD_MM = 38.0
LEAST_LAGS = 4


@dataclass(frozen=True, kw_only=True)
class ScrewStrength:
    """A group of screws: load on each, and what each holds over it as a factor; wanted: least factor.

    name: as it stands in data; what: as it is printed; kind: what they hold; port, face: whose they are
    basis: ``ultimate`` (what pulls it out) or ``allowed`` (factor already in it)
    """

    name: str
    what: Said
    count: int
    load_each_n: float
    basis: str
    factor: float
    wanted: float
    source: str
    kind: Literal["ring", "thread", "panel", "lags"]
    port: str | None = None
    face: Face | None = None


@dataclass(frozen=True, kw_only=True)
class Strength:
    """stock: what the panel material is taken to be; spacing_mm: widest screw spacing at the removable face.

    ring_screw_mm, box_screw_mm: lengths of the No. 8 screws; hang_fasteners: 5/16 in lag screws into studs or joists
    hang_load_n: everything that hangs, filters and pails full
    """

    stock: Stock
    panels: tuple[PanelStrength, ...]
    screws: tuple[ScrewStrength, ...]
    spacing_mm: float
    ring_screw_mm: float
    box_screw_mm: float
    hang_fasteners: int
    hang_load_n: float

    def get_panel(self, face: Face) -> PanelStrength:
        """Return the panel of a face. Raises KeyError."""
        return {panel.face: panel for panel in self.panels}[face]


def check_strength(
    project: Settled,
    shape: BoxShape,
    parts: tuple[BoxPart, ...],
    ports: tuple[PortDesign, ...],
    rows: tuple[ScrewRow, ...],
    running_pa: float,
    worst_pa: float,
    hanging_kg: dict[str, float],
    total_kg: float,
) -> Strength:
    """Return the strength of the whole box. hanging_kg: full weight under each port by name; total_kg: box and all."""
    stock, t = find_stock(project.box.panel), project.box.panel.thickness_mm
    by_face: dict[Face, float] = {}
    for port in ports:
        by_face[port.port.face] = by_face.get(port.port.face, 0.0) + hanging_kg.get(port.name, 0.0) * GRAVITY
    hanging_n = {name: kg * GRAVITY for name, kg in hanging_kg.items()}
    panels = check_panels(project, shape, parts, running_pa, worst_pa, hanging_n)
    flange = max((port.port.closure.flange_thick_mm for port in ports), default=4.0)
    ring_screw = choose_ring_screw(project.display.system, t, flange)
    box_screw = choose_screw(project.display.system, t + 20.0)
    screws = [_check_ring(port, stock, ring_screw, worst_pa, hanging_kg.get(port.name, 0.0)) for port in ports]
    face_count = count_on(rows, shape.removable)
    front = next(panel for panel in panels if panel.face == shape.removable)
    if face_count:
        screws.append(_check_face(front, face_count, stock, box_screw - t))
    bottom = next(panel for panel in panels if panel.face == "bottom")
    screws.append(_check_bottom(bottom, rows, by_face.get("bottom", 0.0), stock, box_screw - t))
    screws += [_check_thread(port, worst_pa, hanging_kg[port.name]) for port in ports if hanging_kg.get(port.name)]
    spacing = max((row.spacing_mm for row in rows if row.through == shape.removable), default=0.0)
    strength = Strength(
        stock=stock,
        panels=panels,
        screws=tuple(screws),
        spacing_mm=spacing,
        ring_screw_mm=ring_screw,
        box_screw_mm=box_screw,
        hang_fasteners=0,
        hang_load_n=0.0,
    )
    return hang_whole(project, shape, strength, total_kg)


def hang_whole(project: Settled, shape: BoxShape, strength: Strength, total_kg: float) -> Strength:
    """Return the strength with what holds the box in its place, by the weight of box and all [kg]."""
    fasteners, pull = _check_hang(project, shape, total_kg)
    others = tuple(group for group in strength.screws if group.kind != "lags")
    return replace(
        strength,
        screws=(*others, *_check_lags(project, fasteners, total_kg, pull)),
        hang_fasteners=fasteners,
        hang_load_n=total_kg * GRAVITY,
    )


def _check_ring(port: PortDesign, stock: Stock, screw_mm: float, worst_pa: float, kg: float) -> ScrewStrength:
    """Ring screws in withdrawal: the full weight below (on a bottom face) and the air on the lid at worst pressure."""
    air = max(worst_pa, 0.0) * math.pi * (port.bore_mm / 2000) ** 2
    load = (air + (kg * GRAVITY if port.port.face == "bottom" else 0.0)) / max(port.port.closure.screws, 1)
    thread = max(screw_mm - port.port.closure.flange_thick_mm, 0.0)
    holds = find_withdrawal(stock.gravity, NO8_MM, thread)
    source = "Wood Handbook ch. 8 withdrawal, from memory; a fifth of the ultimate allowed"
    factor = holds / load if load > 0 else math.inf
    what = Said("structure.ring_screws", names={"port": port.name})
    return ScrewStrength(
        name=f"ring screws of {port.name}",
        what=what,
        count=port.port.closure.screws,
        load_each_n=load,
        basis="ultimate",
        factor=factor,
        wanted=WITHDRAWAL_FACTOR,
        source=source,
        kind="ring",
        port=port.name,
    )


def _say_panel_screws(panel: PanelStrength) -> Said:
    return Said("structure.panel_screws", names={"face": say_face(panel.face)})


def _check_face(front: PanelStrength, count: int, stock: Stock, thread: float) -> ScrewStrength:
    load = front.force_worst_n / count
    holds = EDGE_SHARE * find_withdrawal(stock.gravity, NO8_MM, thread)
    source = "Wood Handbook ch. 8 withdrawal, three quarters in an edge, from memory; a fifth of the ultimate allowed"
    return ScrewStrength(
        name=f"{front.name} panel screws",
        what=_say_panel_screws(front),
        count=count,
        load_each_n=load,
        basis="ultimate",
        factor=holds / load if load else math.inf,
        wanted=WITHDRAWAL_FACTOR,
        source=source,
        kind="panel",
        port=None,
        face=front.face,
    )


def _check_bottom(
    bottom: PanelStrength, rows: tuple[ScrewRow, ...], hanging_n: float, stock: Stock, thread: float
) -> ScrewStrength:
    """The bottom's screws: sideways where they go into its edge, in withdrawal where they go through or up into it."""
    load = hanging_n + bottom.force_worst_n
    sideways = sum(len(r.spots) for r in rows if r.into == bottom.name and not r.from_inside)
    pulled = sum(len(r.spots) for r in rows if bottom.name in (r.through, r.into)) - sideways
    allowed = EDGE_SHARE * find_withdrawal(stock.gravity, NO8_MM, thread) / WITHDRAWAL_FACTOR
    holds = sideways * SCREW_SIDEWAYS_N + pulled * allowed
    count = sideways + pulled
    source = "allowed sideways and withdrawal loads of a No. 8 screw, timber design tables, from memory"
    return ScrewStrength(
        name="bottom panel screws",
        what=_say_panel_screws(bottom),
        count=count,
        load_each_n=load / max(count, 1),
        basis="allowed",
        factor=holds / load if load else math.inf,
        wanted=1.0,
        source=source,
        kind="panel",
        port=None,
        face=bottom.face,
    )


def _check_thread(port: PortDesign, worst_pa: float, kg: float) -> ScrewStrength:
    """The lid's thread in shear: weight and air on the whole lid, on one turn of thread."""
    load = kg * GRAVITY + max(worst_pa, 0.0) * math.pi * (port.bore_mm / 2000) ** 2
    holds = THREAD_SHEAR_PA * math.pi * port.bore_mm * THREAD_MM / 1e6
    source = "shear of a polyethylene thread, sizes assumed, from memory; the maker's load rating comes first"
    what = Said("structure.lid_thread", names={"port": port.name})
    return ScrewStrength(
        name=f"lid thread of {port.name}",
        what=what,
        count=1,
        load_each_n=load,
        basis="ultimate",
        factor=holds / load if load else math.inf,
        wanted=THREAD_FACTOR,
        source=source,
        kind="thread",
        port=port.name,
    )


def _check_lags(project: Settled, count: int, total_kg: float, pull_n: float) -> list[ScrewStrength]:
    """The lag screws: sideways and pulled on a wall, pulled only under a ceiling."""
    if not count:
        return []
    source = "timber design tables, from memory; framing, local code and a builder's judgement come first"
    allowed = find_lag_withdrawal(STUD_GRAVITY, LAG_MM, LAG_THREAD_MM)
    pulled = count if project.box.hung == "ceiling" else count // 2
    rows = [("lag screws, pull", Said("structure.lags_pull"), pulled, pull_n, allowed)]
    if project.box.hung == "wall":
        sideways = total_kg * GRAVITY / count
        rows.insert(0, ("lag screws, sideways", Said("structure.lags_sideways"), count, sideways, LAG_SIDEWAYS_N))
    return [
        ScrewStrength(
            name=name,
            what=what,
            count=many,
            load_each_n=load,
            basis="allowed",
            factor=holds / load if load else math.inf,
            wanted=1.0,
            source=source,
            kind="lags",
        )
        for name, what, many, load, holds in rows
    ]


def _check_hang(project: Settled, shape: BoxShape, total_kg: float) -> tuple[int, float]:
    """Return the lag screws that hold the box and the pull on the most loaded one [N]; 0 and 0 on a cart."""
    load = total_kg * GRAVITY
    withdrawal = find_lag_withdrawal(STUD_GRAVITY, LAG_MM, LAG_THREAD_MM)
    if project.box.hung == "cart":
        return 0, 0.0
    if project.box.hung == "ceiling":
        count = max(LEAST_LAGS, math.ceil(load / withdrawal))
        return count, load / count
    # on a wall: weight goes sideways into all, and its lever pulls at the upper row over the height of the box
    count = max(LEAST_LAGS, 2 * math.ceil(load / LAG_SIDEWAYS_N / 2))
    while True:
        pull = load * (shape.outside.depth / 2 + find_stand_off(project)) / (0.8 * shape.outside.height) / (count / 2)
        if pull <= withdrawal:
            return count, pull
        count += 2

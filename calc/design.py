"""The whole design: box, parts, holes, sheets, lining, stack, strength, handling and reach, with their findings."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, TypeVar

from calc.airflow.dust import find_most_load
from calc.box.fit import judge_access, judge_lining, judge_ports, judge_stock
from calc.box.framing import judge_framing
from calc.box.joints import BoxShape, Solid, measure_box, place_cleats, place_panels
from calc.box.lining import LiningPiece, LiningPlan, plan_lining
from calc.box.mounts import Mount, plan_mount
from calc.box.panel_facts import PanelFacts, gather_panel_facts
from calc.box.parts import BoxPart, Hole, draw_part, plan_parts
from calc.box.ports import CollarDesign, PortDesign, design_collar, design_port
from calc.box.reach import Reach, measure_reach
from calc.box.screw_places import clear_rows
from calc.box.screws import ScrewRow, plan_rib_screws, plan_screws
from calc.box.stack import Stack, plan_stack
from calc.box.stack_findings import judge_height, judge_reach
from calc.cutting.round_parts import make_round_parts
from calc.cutting.sheet_findings import judge_sheets
from calc.cutting.sheets import TRIM_MM, Blank, SheetPlan, plan_sheets
from calc.finding import Finding, Said
from calc.project import Given, Sheet
from calc.settled import Settled
from calc.shapes.faces import AXIS
from calc.shapes.part_names import say_face, say_inlet
from calc.shapes.shapes import Circle, Feature, FlatPart, Layer, Point, Size, make_rectangle
from calc.strength.findings import judge_handling, judge_strength
from calc.strength.handling import Handling, weigh_handling
from calc.strength.mount_findings import judge_mount
from calc.strength.ribs import plan_ribs
from calc.strength.structure import Strength, check_strength, hang_whole

if TYPE_CHECKING:
    from calc.results import Sizing

LINING_PIECE = Sheet(1830.0, 1220.0)
"""Lining as bought when the file does not say: a piece 6 x 4 ft (stated assumption)."""

FACE_SPACING_MM = 150.0
"""Most distance between screws along a gasket: 4 to 6 in (common practice, no source)."""


@dataclass(frozen=True, kw_only=True)
class Made:
    """What is cut with a template, where no box says in which panel: round parts, and the openings they are for.

    ring_gasket_mm: gasket round the holes, under their rings; 0 where they lie in sealant
    """

    flat_parts: tuple[FlatPart, ...] = ()
    ports: tuple[CollarDesign, ...] = ()
    ring_gasket_mm: float = 0.0
    findings: tuple[Finding, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Design(Made):
    """Everything that is made.

    box: its sizes; parts: panels, cleats, ribs, then what carries the box, in cut-list order; rows: the box's screws
    mount: rails or cart
    panels: each panel with all that is marked out on it, in cut-list order
    flat_parts: panels and lining (not full size), then all round parts with a 1:1 template
    sheets: layouts of panel stock, then of lining; lining: None when the box is bare
    seams_mm: length of the box's inner seams, to be sealed; gasket_mm: gasket round the removable face
    """

    box: BoxShape
    parts: tuple[BoxPart, ...]
    rows: tuple[ScrewRow, ...]
    flat_parts: tuple[FlatPart, ...] = field()
    ports: tuple[PortDesign, ...] = field()
    sheets: tuple[SheetPlan, ...]
    lining: LiningPlan | None
    stack: Stack
    strength: Strength
    handling: Handling
    reach: Reach
    seams_mm: float
    gasket_mm: float
    findings: tuple[Finding, ...] = field()
    mount: Mount
    panels: tuple[PanelFacts, ...]

    def get_part(self, name: str) -> BoxPart:
        """Return the box part of that name. Raises KeyError."""
        return {part.name: part for part in self.parts}[name]

    def get_port(self, name: str) -> PortDesign:
        """Return the port of that name. Raises KeyError."""
        return {port.name: port for port in self.ports}[name]

    def find_hole(self, name: str) -> tuple[PanelFacts, Hole]:
        """Return the panel that a port's hole, or the ``inlet``, is cut in, and the hole. Raises KeyError."""
        for panel in self.panels:
            for hole in panel.holes:
                if hole.name == name:
                    return panel, hole
        raise KeyError(name)


def design_project(project: Settled, sizing: Sizing) -> Design:
    """Return the design of a sized project."""
    running, worst = sizing.pressures.box_running_pa, sizing.pressures.box_worst_pa
    return design_box(project, running, worst, sizing.filters.clean_me.areal_kgm2)


def design_box_alone(project: Settled) -> Design:
    """Return the design of a box whose air is not sized: held to the highest pressure that the file says.

    Running it may stand at that too, for all that is known: panels are made as stiff as that takes.
    """
    most = project.box.most_pa or 0.0
    return design_box(project, most, most)


def design_box(project: Settled, running_pa: float, worst_pa: float, areal_kgm2: float | None = None) -> Design:
    """Return the design for given pressures in the box [Pa]: running at most, and the highest the blower can make.

    areal_kgm2: dust on the filters at *clean me*; None: as much as their pleats have room for
    """
    areal = find_most_load(project).best if areal_kgm2 is None else areal_kgm2
    shape = measure_box(project.box)
    ports = tuple(design_port(project, port) for port in project.ports)
    panels = plan_parts(project, shape, ports)
    thickness = project.box.panel.thickness_mm
    solids = place_panels(shape, thickness)
    rows = plan_screws(
        shape,
        solids,
        place_cleats(shape, thickness),
        project.methods.screw_spacing_mm,
        min(project.methods.screw_spacing_mm, FACE_SPACING_MM),
    )
    rows = clear_rows(rows, shape, panels)
    lining = plan_lining(project, shape, ports)
    bare = weigh_handling(project, shape, panels, ports, lining, plan_mount(project, shape, solids, 0), areal)
    strength = check_strength(project, shape, panels, ports, rows, running_pa, worst_pa, bare.hanging_kg, bare.total_kg)
    ribs = plan_ribs(project, shape, strength, len(panels) + 1)
    rows = clear_rows(rows, shape, panels + ribs)  # screws through cleats keep clear of ribs' ends
    lining = plan_lining(project, shape, ports, ribs)
    mount = plan_mount(project, shape, solids, len(panels) + len(ribs) + 1)
    parts = panels + ribs + mount.parts
    strips = tuple(Solid(rib.name, rib.face, rib.block, rib.called) for rib in ribs)
    further = plan_rib_screws(shape, solids, strips, project.methods.screw_spacing_mm) + mount.rows
    rows += clear_rows(further, shape, parts, rows)
    handling = weigh_handling(project, shape, panels + ribs, ports, lining, mount, areal)
    strength = hang_whole(project, shape, strength, handling.total_kg)  # its ribs hang too
    sheets = nest_parts(project, parts, lining)
    stack, reach = plan_stack(project, shape), measure_reach(project, shape, ports)
    round_parts = make_round_parts(
        project, project.box.panel, ports, {part.face: part.grain for part in panels if part.kind == "panel"}
    )
    flat = [draw_part(part, ports, rows) for part in parts]
    flat += [_draw_lining(piece, lining.stock) for piece in lining.pieces] if lining else []
    findings = (
        *(finding for port in ports for finding in port.findings),
        *judge_ports(project, shape, panels, ports),
        *judge_access(project, ports),
        *judge_stock(project),
        *judge_lining(project, lining),
        *judge_sheets(sheets, project),
        *judge_height(project, stack),
        *judge_reach(reach),
        *judge_strength(project, shape, strength),
        *judge_handling(project, handling),
        *judge_mount(project, shape, mount, ports, handling),
        *judge_framing(project, shape, strength.hang_fasteners),
        *round_parts.findings,
    )
    return Design(
        box=shape,
        parts=parts,
        rows=rows,
        flat_parts=(*flat, *round_parts.parts),
        ports=ports,
        sheets=sheets,
        lining=lining,
        stack=stack,
        strength=strength,
        handling=handling,
        reach=reach,
        seams_mm=measure_seams(shape),
        gasket_mm=measure_gasket(shape, thickness),
        ring_gasket_mm=measure_ring_gasket(project, ports),
        findings=findings,
        mount=mount,
        panels=gather_panel_facts(shape, parts, rows),
    )


def measure_ring_gasket(project: Given, ports: tuple[CollarDesign, ...]) -> float:
    """Return the length [mm] of gasket round the holes; none where the rings lie in sealant."""
    return sum(math.pi * port.hole_mm for port in ports) if project.methods.seal == "gasket" else 0.0


def design_openings(project: Given) -> Made:
    """Return holes, lids, gaskets and strips of openings that no box is given for; nothing where there are none."""
    if project.panel is None or not project.ports:
        return Made()
    ports = tuple(design_collar(project, opening) for opening in project.ports)
    round_parts = make_round_parts(project, project.panel, ports)
    findings = (*(finding for port in ports for finding in port.findings), *round_parts.findings)
    gasket = measure_ring_gasket(project, ports)
    return Made(flat_parts=round_parts.parts, ports=ports, ring_gasket_mm=gasket, findings=findings)


Any_made = TypeVar("Any_made", bound=Made)


def add_parts(design: Any_made, parts: tuple[FlatPart, ...]) -> Any_made:
    """Return the design with further flat parts, such as the gauge's boards, after its own."""
    return replace(design, flat_parts=(*design.flat_parts, *parts))


def nest_parts(project: Settled, parts: tuple[BoxPart, ...], lining: LiningPlan | None) -> tuple[SheetPlan, ...]:
    """Return the layouts of the panel stock and of the lining."""
    stock = project.box.panel
    blanks = tuple(
        Blank(
            number=part.number,
            name=part.name,
            width_mm=part.width_mm,
            height_mm=part.height_mm,
            may_turn=part.grain == "none",
            grain_across=part.grain == "height",
            called=part.called,
            whole=part.whole,
        )
        for part in parts
        for _ in range(part.quantity)
    )
    kerf = project.methods.kerf_mm
    plans = [plan_sheets(blanks, stock.stock, stock.thickness_mm, stock.sheet, kerf, stock.offcuts, TRIM_MM)]
    if lining is not None and project.lining is not None:
        soft = tuple(
            Blank(
                number=p.number,
                name=p.name,
                width_mm=p.width_mm,
                height_mm=p.height_mm,
                may_turn=True,
                called=p.called,
                whole=p.called,
            )
            for p in lining.pieces
        )
        piece = project.lining.piece or LINING_PIECE
        plans.append(plan_sheets(soft, lining.stock, project.lining.thickness_mm, piece, 0.0))
    return tuple(plans)


def measure_seams(shape: BoxShape) -> float:
    """Return the length [mm] of the inner seams between the five fixed panels (the removable face has a gasket)."""
    first, second, third = (AXIS[pair[0]] for pair in shape.cover)
    inside = shape.inside
    return 4 * inside.along(first) + 2 * inside.along(second) + 2 * inside.along(third)


def measure_gasket(shape: BoxShape, thickness_mm: float) -> float:
    """Return the length [mm] of gasket round the removable face, along the middle of the panel edges."""
    second, third = AXIS[shape.cover[1][0]], AXIS[shape.cover[2][0]]
    return 2 * (shape.inside.along(second) + thickness_mm) + 2 * (shape.inside.along(third) + thickness_mm)


def _draw_lining(piece: LiningPiece, stock: str) -> FlatPart:
    features = [
        Feature(shape=make_rectangle(0.0, 0.0, piece.width_mm, piece.height_mm), layer=Layer.CUT, label=piece.called)
    ]
    for hole in piece.holes:
        name = say_inlet() if hole.kind == "inlet" else hole.name
        features.append(
            Feature(shape=Circle(Point(hole.across_mm, hole.up_mm), hole.diameter_mm / 2), layer=Layer.CUT, label=name)
        )
    return FlatPart(
        number=piece.number,
        name=piece.name,
        features=tuple(features),
        quantity=1,
        material=stock,
        thickness_mm=piece.thickness_mm,
        face=Said("part_names.lining_side", names={"face": say_face(piece.face)}),
        kind="lining",
        full_size=False,
        cnc=False,
        called=piece.called,
        sizes=(Size(Said("parts.width"), piece.width_mm), Size(Said("parts.height"), piece.height_mm)),
    )

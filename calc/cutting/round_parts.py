"""Every round part of the job with its template: holes, lids, gaskets, strips, rings and test pieces."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from calc.box.lining import HOLE_PLAY_MM
from calc.box.ports import CollarDesign, PortDesign, draw_hole, list_ring_assumed
from calc.cutting.collar import design_strip, make_strip, make_strip_pieces
from calc.cutting.gaskets import (
    make_feeler,
    make_gasket,
    make_gasket_quarter,
    make_reinforcement,
    make_test_disc,
    reinforce_mm,
)
from calc.cutting.inlet_hole import make_inlet_hole
from calc.cutting.lids import (
    FilterLid,
    design_filter_lid,
    make_filter_lid,
    make_gauge_lid,
    make_inspection_lid,
)
from calc.cutting.templates import fits_one_sheet, judge_paper, lay_sheet
from calc.cutting.tiles import INK_MM
from calc.finding import Finding, Said, Subject
from calc.project import Cartridge, Closure, Face, Gauge, Given, Panel
from calc.settled import Settled
from calc.shapes.part_names import say_face, say_outside
from calc.shapes.shapes import Circle, Feature, FlatPart, Layer, Line, Point, Size

CLOSES_MM = 0.2
"""A wrap strip's ends meet within this over a full turn."""

LID_SIZES = ("lid", "land_outside", "land", "hook_hole", "hook_edge")

TRACED = ("jigsaw", "hole saw")
"""Ways of cutting a hole that follow a line on paper; a jig is set by its radius, a machine by its file."""

LIDS_A_FILTER = 2
"""One at the top under the box, one at the bottom on the pail."""


@dataclass(frozen=True)
class RoundParts:
    """parts: in the order they are made."""

    parts: tuple[FlatPart, ...]
    findings: tuple[Finding, ...]


def make_round_parts(
    project: Given, panel: Panel, ports: Sequence[CollarDesign], grains: Mapping[str, str] | None = None
) -> RoundParts:
    """Return all round parts of a project; panel: what the holes are cut into; grains: which way it runs on each face.

    Raises ValueError for a paper too narrow for a wrap strip.
    """
    extra = project.display.extra_templates
    parts = _make_holes(project, panel, ports, grains or {})
    if isinstance(project, Settled):
        parts.append(make_inlet_hole(project, f"H{len(ports) + 1}", (grains or {}).get(project.box.inlet.face, "none")))
    traced = extra or project.methods.holes in TRACED
    parts = [dataclasses.replace(part, paper=traced) for part in parts]
    lids = _design_filter_lids(project, ports)
    closures = {port.name: port.port.closure for port in ports}
    for index, lid in enumerate(lids):
        first = next(port.port for port in ports if port.name == lid.ports[0])
        assumed = list_ring_assumed(project, first, LID_SIZES)
        number = f"L{index + 1}"
        part = make_filter_lid(lid, number, closures[lid.ports[0]], LIDS_A_FILTER * len(lid.ports), assumed)
        parts.append(dataclasses.replace(part, paper=extra or project.methods.lids == "hand"))
    count = len(lids)
    for port in ports:
        if port.port.kind == "gauge":
            count += 1
            parts.append(make_gauge_lid(port.port.closure, project.gauge or Gauge(), f"L{count}", port.name))
        elif port.port.kind == "inspection":
            count += 1
            parts.append(make_inspection_lid(port.port.closure, f"L{count}", port.name))
    for index, cartridge in enumerate(project.filters):
        whole = make_gasket(cartridge, f"G{index + 1}", cartridge.count)
        if fits_one_sheet(project.display, whole):
            parts.append(dataclasses.replace(whole, full_size=True))
        else:
            parts += [whole, make_gasket_quarter(cartridge, f"G{index + 1}", cartridge.count)]
    parts += _make_reusable(project, panel, ports)
    for index, port in enumerate(ports):
        for part in (
            make_test_disc(port, f"TD{index + 1}"),
            make_reinforcement(port, panel, f"R{index + 1}"),
        ):
            parts.append(dataclasses.replace(part, full_size=extra))
    findings = (*(f for lid in lids for f in lid.findings), *judge_paper(project.display, parts))
    return RoundParts(tuple(parts), findings)


def _make_reusable(project: Given, panel: Panel, ports: Sequence[CollarDesign]) -> list[FlatPart]:
    """Return wrap strips and test cards, which are not used up by cutting: pails alike share them."""
    sheet = lay_sheet(project.display)
    longest = max(sheet.window_width_mm, sheet.window_height_mm) - 2 * INK_MM
    parts = []
    for index, alike in enumerate(group_pails(ports)):
        names = ", ".join(port.name for port in alike)
        first, strip = alike[0], design_strip(alike[0], panel)
        for part in (
            make_strip(strip, first, f"W{index + 1}", names),
            make_strip_pieces(strip, first, f"W{index + 1}", longest, names),
            make_feeler(first, f"T{index + 1}", names),
        ):
            assumed = (*part.assumed, *(path for port in alike for path in port.assumed))
            subjects = tuple(Subject("pail", port.name) for port in alike)
            parts.append(dataclasses.replace(part, assumed=tuple(dict.fromkeys(assumed)), subjects=subjects))
    return parts


def group_pails(ports: Sequence[CollarDesign]) -> list[list[CollarDesign]]:
    """Return the ports whose pails taper alike and whose girths differ by no more than a strip may miss by."""
    groups: list[list[CollarDesign]] = []
    for port in ports:
        pail = port.port.pail
        for group in groups:
            other = group[0].port.pail
            taper = (pail.top_mm, pail.bottom_mm, pail.height_mm) == (other.top_mm, other.bottom_mm, other.height_mm)
            if taper and math.pi * abs(port.mean_mm - group[0].mean_mm) <= CLOSES_MM:
                group.append(port)
                break
        else:
            groups.append([port])
    return groups


def _make_holes(
    project: Given, panel: Panel, ports: Sequence[CollarDesign], grains: Mapping[str, str]
) -> list[FlatPart]:
    return [
        FlatPart(
            number=f"H{index + 1}",
            name=f"hole for {port.name}",
            features=(
                *draw_hole(port, Point(0.0, 0.0), others=_draw_others(project, port, f"R{index + 1}")),
                *_draw_grain(_find_grain(port, grains)),
            ),
            quantity=1,
            material=panel.stock,
            thickness_mm=panel.thickness_mm,
            face=_say_up(port),
            kind="hole",
            assumed=(*port.assumed, *port.ring_assumed),
            sizes=(
                Size(Said("ports.final"), port.hole_mm),
                Size(Said("ports.first_cut"), port.first_cut_mm),
                Size(Said("ports.drill"), port.pilot_mm),
                Size(Said("ports.screw_circle"), port.screw_circle_mm),
            ),
            grain=_find_grain(port, grains),
            notes=(_note_hole(port, f"TD{index + 1}", f"R{index + 1}"),),
            called=Said("round_parts.hole", names={"port": port.name}),
            subjects=(Subject("port", port.name),),
        )
        for index, port in enumerate(ports)
    ]


def _find_face(port: CollarDesign) -> Face | None:
    """Return the face of the box that a port is in; None where no box is known."""
    return port.port.face if isinstance(port, PortDesign) else None


def _find_grain(port: CollarDesign, grains: Mapping[str, str]) -> str:
    return grains.get(_find_face(port) or "", "none")


def _say_up(port: CollarDesign) -> Said:
    """Return which face of the panel lies up."""
    face = _find_face(port)
    return Said("round_parts.outside_up") if face is None else say_outside(face)


def _note_hole(port: CollarDesign, disc: str, ring: str) -> Said:
    """Return what else a hole's template is good for, and where its index points where that is known."""
    side = port.index_side
    if side is None:
        return Said("round_parts.hole_note_alone", names={"disc": disc, "ring": ring})
    return Said("round_parts.hole_note", names={"edge": say_face(side), "disc": disc, "ring": ring})


def _draw_others(project: Given, port: CollarDesign, ring: str) -> list[Feature]:
    """Return the circles of other pieces round the same centre, which share the hole's sheets: ring, lining."""
    middle = Point(0.0, 0.0)
    others = [
        Feature(
            shape=Circle(middle, reinforce_mm(port) / 2),
            layer=Layer.GHOST,
            label=Said("round_parts.outside_of_ring", names={"ring": ring}),
            whole=True,
        )
    ]
    if project.lining is not None and _find_face(port) in project.lining.faces:
        radius = port.hole_mm / 2 + HOLE_PLAY_MM
        others.append(
            Feature(
                shape=Circle(middle, radius),
                layer=Layer.GHOST,
                label=Said("ports.lining_hole"),
                label_deg=45.0,
                whole=True,
            )
        )
    return others


def _draw_grain(grain: str) -> tuple[Feature, ...]:
    """Return an arrow both ways along the grain, in the waste where it is in nobody's way."""
    if grain not in ("width", "height"):
        return ()
    left, right, low = -105.0, -35.0, -45.0
    lines = [Line(Point(left, low), Point(right, low))]
    for tip, barb in ((left, left + 5.0), (right, right - 5.0)):
        lines += [Line(Point(tip, low), Point(barb, low + up)) for up in (-2.0, 2.0)]
    if grain == "height":
        lines = [Line(Point(line.start.y, line.start.x), Point(line.end.y, line.end.x)) for line in lines]
    return tuple(
        Feature(shape=line, layer=Layer.GHOST, label=Said("round_parts.grain") if index == 0 else "")
        for index, line in enumerate(lines)
    )


def _design_filter_lids(project: Given, ports: Sequence[CollarDesign]) -> list[FilterLid]:
    """Return one lid design a kind of closure and of filter: lids that are cut alike share a template."""
    alike: dict[tuple[Closure, Cartridge | None], list[str]] = {}
    for port in ports:
        if port.port.kind == "filter":
            alike.setdefault((port.port.closure, project.find_filter(port.port)), []).append(port.name)
    lids = []
    for (closure, cartridge), names in alike.items():
        name = "filter lid" if len(alike) == 1 else f"filter lid {', '.join(names)}"
        lids.append(design_filter_lid(closure, cartridge, tuple(names), name))
    return lids

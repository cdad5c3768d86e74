"""The bill's lines for the box: panels, lining, openings, filters, screws, sealant and gasket."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING

from calc.geometry.mount_findings import CASTER_FACTOR
from calc.geometry.mounts import CASTER_SCREWS, CLEAT_LAYERS
from calc.measures.quantity import Reader, write_amount, write_length
from calc.strength.sealing import CARTRIDGE_M3, find_bead_volume
from calc.strength.structure import choose_screw
from packet.bill import Want

if TYPE_CHECKING:
    from calc.geometry.design import Design
    from calc.project import Project

LUMBER, HARDWARE, FILTERS, PLASTIC = "lumber yard", "hardware store", "filter supplier", "container supplier"
WASTE = 0.10
"""Added to what is cut from a length or squeezed from a tube (common practice, no source)."""

SCREW_WASTE = 0.05
BOLT_END_MM = 9.0  # washer and nut
PANELS, OPENINGS, FIXINGS, SEALING = "Box and lining", "Openings and filters", "Screws and fixings", "Sealing"


def read_for(project: Project) -> Reader:
    """Return who reads the bill."""
    return Reader(project.display.system, project.display.fraction)


def list_box(project: Project, design: Design) -> list[Want]:
    """Return all that the box itself takes."""
    return [
        *_list_sheets(project, design),
        *_list_openings(project, design),
        *_list_screws(project, design),
        *_list_sealing(project, design),
    ]


def _list_sheets(project: Project, design: Design) -> list[Want]:
    reader, wants = read_for(project), []
    for index, plan in enumerate(design.sheets):
        soft = index > 0
        layouts = [layout for layout in plan.layouts if not layout.from_hand]
        lining = project.lining.thickness_mm if project.lining else 0.0
        thick = lining if soft else project.box.panel.nominal_mm
        size = ""
        if layouts:
            size = f"{write_length(layouts[0].length_mm, reader)} x {write_length(layouts[0].width_mm, reader)}"
        detail = f"{write_length(thick, reader)} thick, {size}" if size else write_length(thick, reader)
        if soft and project.lining is not None and project.lining.piece is None:
            detail += " (size of the piece assumed)"
        used = (
            "lining of the box"
            if soft
            else "all panels"
            + (", cleats, ribs" if any(part.kind in ("cleat", "stiffener") for part in design.parts) else "")
        )
        used = used if soft or not design.mount.parts else used + (", cart" if design.mount.casters else ", rails")
        unit = "piece" if soft else "sheet"
        other = "1 in acoustic foam" if soft else "any flat, sound panel as thick and as stiff"
        wants.append(
            Want(PANELS, plan.material, detail, plan.to_buy, unit, LUMBER, 0.0, 1.0, unit,
                 (f"{plan.material} {write_length(thick, reader)}",), used, other)
        )  # fmt: skip
    if project.lining is not None and design.lining is not None:
        area = design.lining.area_mm2 / 1e6
        wants.append(
            Want(PANELS, "lining adhesive", "for porous backs, solvent fumes: read its label", area, "m2", HARDWARE,
                 WASTE, 3.0, "can for 3 m² (32 ft²)", ("spray adhesive", "contact adhesive"), "lining", "staples")
        )  # fmt: skip
    if project.box.joint in ("rabbet", "dado", "cleat"):
        wants.append(Want(PANELS, "wood glue", "for the joints", 1, "bottle", HARDWARE, keys=("glue",)))
    return wants


def _list_openings(project: Project, design: Design) -> list[Want]:
    reader = read_for(project)
    filters = sum(port.port.kind == "filter" for port in design.ports)
    wants = [
        Want(OPENINGS, "pail", "common, about 5 gal (20 L), one make throughout; cut down to collars",
             len(design.ports), "each", PLASTIC, keys=("collar pail",), where_used="a collar for each opening"),
        Want(OPENINGS, "pail", "common, about 5 gal (20 L), one make throughout; cut down to collars",
             filters, "each", PLASTIC, keys=("collar pail",), where_used="catch pails, whole"),
        Want(OPENINGS, "screw lid", "snap-on ring with threaded, gasketed lid, as a set", len(design.ports), "set",
             PLASTIC, pack_name="set", keys=("ring and lid set", "screw lid set"), where_used="one an opening"),
        Want(OPENINGS, "screw lid", "snap-on ring with threaded, gasketed lid, as a set", filters, "set",
             PLASTIC, pack_name="set", keys=("ring and lid set", "screw lid set"), where_used="one a catch pail"),
    ]  # fmt: skip
    for each in project.filters:
        size = f"{write_length(each.outside_mm, reader)} outside, {write_length(each.height_mm, reader)} high"
        wants.append(
            Want(OPENINGS, "filter cartridge", f"{size}{', ' + each.grade if each.grade else ''}", each.count, "each",
                 FILTERS, keys=(each.name, "filter"), where_used="under the box")
        )  # fmt: skip
    hooks = sum(2 * port.port.closure.hooks for port in design.ports if port.port.kind == "filter")
    hook = write_length(design.ports[0].port.closure.hook_hole_mm, reader) if design.ports else ""
    wants.append(
        Want(OPENINGS, "hook clip", f"worm-drive clip with a hook end, through {hook} holes", hooks, "each", HARDWARE,
             keys=("filter clip",), where_used="filter lids, both ends",
                 alternate="hose clamps with a bent hook riveted on")
    )  # fmt: skip
    inlet = project.box.inlet
    wants.append(
        Want(OPENINGS, f"{write_length(inlet.diameter_mm, reader)} starting collar", "flanged or with tabs, steel", 1,
             "each", HARDWARE, keys=("starting collar",), where_used="inlet of the box")
    )  # fmt: skip
    return wants


def _list_screws(project: Project, design: Design) -> list[Want]:
    reader, strength = read_for(project), design.strength
    ring = sum(port.port.closure.screws for port in design.ports)
    through = [row for row in design.rows if not row.from_inside]
    removable = sum(len(row.spots) for row in through if row.through == design.box.removable)
    other = sum(len(row.spots) for row in through) - removable
    screw = _name_screw(reader)

    def box_of(length: float, head: str, count: int, used: str) -> Want:
        name = f"{screw} x {write_length(length, reader)} {head} screw"
        keys = (f"{screw} {head} screw", f"{head} screw")
        return Want(FIXINGS, name, "box of 100", count, "screw", HARDWARE, SCREW_WASTE, 100.0, "box of 100", keys, used)

    wants = [
        box_of(strength.ring_screw_mm, "pan head", ring, "rings to the panels"),
        box_of(
            strength.box_screw_mm,
            "flat head",
            other,
            "joints of the box" + (", ribs" if any(part.kind == "stiffener" for part in design.parts) else ""),
        ),
        box_of(strength.box_screw_mm, "flat head", removable, f"{design.box.removable} panel"),
    ]
    panel = project.box.panel.thickness_mm
    for row in design.rows:
        if row.from_inside:  # through the cleat, and well into the panel but not out of it
            length = choose_screw(project.display.system, row.grip_mm + 0.6 * panel, row.grip_mm + panel - 1.0)
            wants.append(box_of(length, "flat head", len(row.spots), "cleats" if "cleat" in row.through else "rails"))
    wants += _list_mount(project, design, box_of)
    if strength.hang_fasteners:
        inch = reader.system == "inch"
        name = "5/16 in x 3 in lag screw" if inch else "8 mm x 80 mm lag screw"
        wood = "joists" if project.box.hung == "ceiling" else "studs"
        wants.append(
            Want(FIXINGS, name, f"into {wood}; local code comes first", strength.hang_fasteners, "each", HARDWARE,
                 keys=("lag screw",), where_used="hanging the box")
        )  # fmt: skip
        wants.append(
            Want(FIXINGS, "5/16 in washer" if inch else "8 mm washer", "wide (fender)", strength.hang_fasteners, "each",
                 HARDWARE, keys=("washer",), where_used="under the lag screws")
        )  # fmt: skip
    return wants


def _list_mount(project: Project, design: Design, box_of: Callable[[float, str, int, str], Want]) -> list[Want]:
    """Return what a cart takes besides its panels."""
    mount = design.mount
    if not mount.casters:
        return []
    panel, system = project.box.panel.thickness_mm, project.display.system
    load = (design.handling.total_kg + design.handling.cart_kg) / CASTER_FACTOR
    each = write_amount(load, "mass_kg", read_for(project))
    plate = choose_screw(system, 0.6 * panel, panel - 1.0)
    return [
        Want(FIXINGS, "caster", f"3 in (75 mm) with plate, carries {each} or more; two of them swivel and lock",
             mount.casters, "each", HARDWARE, keys=("wheel",), where_used="cart base"),
        Want(FIXINGS, name_bolt(project), "carriage bolt, wide washer and nut", mount.bolts, "each", HARDWARE,
             keys=("carriage bolt", "bolt"), where_used="box to the cart's cleats"),
        box_of(design.strength.box_screw_mm, "flat head", mount.screws, "cart"),
        box_of(plate, "pan head", mount.casters * CASTER_SCREWS, "casters"),
    ]  # fmt: skip


def name_bolt(project: Project) -> str:
    """Return the bolt that passes the box's bottom and a cart's cleat, with its washer and nut."""
    least = (1 + CLEAT_LAYERS) * project.box.panel.thickness_mm + BOLT_END_MM
    length = write_length(choose_screw(project.display.system, least), read_for(project))
    return f"1/4 in x {length} bolt" if project.display.system == "inch" else f"6 mm x {length} bolt"


def _name_screw(reader: Reader) -> str:
    return "No. 8" if reader.system == "inch" else "4.2 mm"


def list_beads(project: Project, design: Design) -> tuple[tuple[str, float], ...]:
    """Return every bead of sealant as (where, length [mm])."""
    beads = [("inner seams", design.seams_mm), ("inlet collar", math.pi * project.box.inlet.diameter_mm)]
    if project.methods.seal == "sealant":
        beads += [(f"ring of {port.name}", math.pi * port.hole_mm) for port in design.ports]
    filters = sum(port.port.kind == "filter" for port in design.ports)
    if project.filters:
        beads.append(("lower ends of the filters", filters * math.pi * project.filters[0].outside_mm))
    return tuple(beads)


def _list_sealing(project: Project, design: Design) -> list[Want]:
    reader, metric = read_for(project), project.display.system == "metric"
    length = sum(length for _, length in list_beads(project, design))
    share = find_bead_volume(length, project.methods.bead_mm) / CARTRIDGE_M3
    bead = write_length(project.methods.bead_mm, reader)
    roll, roll_name = (3.0, "roll of 3 m") if metric else (3.048, "roll of 10 ft")
    rings = sum(math.pi * port.hole_mm for port in design.ports) / 1000 if project.methods.seal == "gasket" else 0.0
    return [
        Want(SEALING, "silicone cartridge", f"10.1 fl oz (300 mL), {bead} bead, neutral cure", share, "cartridge",
             HARDWARE, WASTE, 1.0, "cartridge", ("sealant", "sealant cartridge", "silicone"),
             "seams, rings, inlet, filter ends"),
        Want(SEALING, "closed-cell gasket tape", f"{write_length(6.35, reader)} thick, as wide as the panel edge",
             design.gasket_mm / 1000, "m", HARDWARE, WASTE, roll, roll_name, ("gasket tape", "gasket"),
             f"{design.box.removable} panel"),
        Want(SEALING, "closed-cell gasket tape", f"{write_length(6.35, reader)} thick, as wide as the panel edge",
             rings, "m", HARDWARE, WASTE, roll, roll_name, ("gasket tape", "gasket"), "rings"),
    ]  # fmt: skip

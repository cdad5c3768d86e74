"""The bill's lines for the box: panels, lining, openings, filters, sealant and gasket."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from calc.design import Design
from calc.measures.quantity import write_length
from calc.settled import Settled
from calc.shapes.part_names import say_panel
from calc.strength.sealing import CARTRIDGE_M3, find_bead_volume
from packet.bill.model import Want
from packet.bill.sizes import is_metric, write_sold
from packet.words.phrases import Phrases, take_words
from packet.words.say import say

if TYPE_CHECKING:
    from calc.design import Made
    from calc.project import Given
from calc.sizing.absorption import FOAMS, find_kind

WASTE = 0.10
"""Added to what is cut from a length or squeezed from a tube (common practice, no source)."""

ADHESIVE_M2 = 3.0
"""What one can of spray adhesive covers (common practice, no source)."""


def list_box(project: Given, design: Made) -> list[Want]:
    """Return what the box is made of and closed with, of what there is; its screws are in bill_fixings."""
    words = take_words("bill_items", project.display.language)
    openings, foam = _list_openings(project, design, words), _list_foam(project, design, words)
    rings = _list_ring_stock(project, design, words)
    if not (isinstance(project, Settled) and isinstance(design, Design)):
        return [*rings, *openings, *foam]
    return [
        *_list_sheets(project, design, words),
        *rings,
        *openings,
        *_list_filters(project, design, words),
        *foam,
        *_list_inlet(project, words),
    ]


def _list_sheets(project: Settled, design: Design, words: Phrases) -> list[Want]:
    display, wants, group = project.display, [], words("group_panels")
    metric = is_metric(display)
    for index, plan in enumerate(design.sheets):
        soft = index > 0
        layouts = [layout for layout in plan.layouts if not layout.from_hand]
        lining = project.lining.thickness_mm if project.lining else 0.0
        thick_mm = lining if soft else project.box.panel.nominal_mm
        thick = detail = write_sold(thick_mm, display)
        if layouts:
            length, width = (write_sold(mm, display) for mm in (layouts[0].length_mm, layouts[0].width_mm))
            guessed = soft and project.lining is not None and project.lining.piece is None
            key = "sheet_guessed" if guessed else "sheet_size"
            detail = words(key, thick=thick, length=length, width=width)
        used = words("use_lining") if soft else _say_panels(design, words)
        lining_other = words("instead_lining_metric" if metric else "instead_lining_inch")
        if project.lining is not None and find_kind(project.lining.stock, lining) in FOAMS:
            lining_other = ""  # nothing is put in place of itself
        wants.append(
            Want(
                group=group,
                item=plan.material,
                detail=detail,
                needed=plan.to_buy,
                unit="piece" if soft else "sheet",
                place=words("place_lumber"),
                keys=(f"{plan.material} {write_length(thick_mm, display.buyer)}",),
                where_used=used,
                alternate=lining_other if soft else words("instead_panel"),
            )
        )
    hardware = words("place_hardware")
    if project.lining is not None and design.lining is not None:
        area, covers = design.lining.area_mm2 / 1e6, words("covers_metric" if metric else "covers_inch")
        wants.append(
            Want(
                group=group,
                item=words("adhesive"),
                detail=words("adhesive_detail"),
                needed=area,
                unit="m2",
                place=hardware,
                waste=WASTE,
                pack=ADHESIVE_M2,
                sold="can",
                keys=("spray adhesive", "contact adhesive"),
                where_used=words("adhesive_use"),
                alternate=words("instead_adhesive"),
                name="lining adhesive",
                size=covers,
            )
        )
    wants.append(
        Want(
            group=group,
            item=words("glue"),
            detail=words("glue_detail"),
            needed=1,
            unit="bottle",
            place=hardware,
            keys=("glue",),
            name="wood glue",
        )
    )
    return wants


def _list_ring_stock(project: Given, design: Made, words: Phrases) -> list[Want]:
    """Return the stock of the rings that back the holes, where they are asked for."""
    if not project.display.extra_templates or project.board is None:
        return []
    thick = write_sold(project.board.thickness_mm, project.display)
    return [
        Want(
            group=words("group_panels"),
            item=words("ring_stock"),
            detail=words("ring_stock_detail", thick=thick),
            needed=len(design.ports),
            unit="each",
            place=words("place_lumber"),
            where_used=words("ring_stock_use"),
            name="reinforcing ring",
        )
    ]


def _say_panels(design: Design, words: Phrases) -> str:
    """Return what is cut from the panel stock."""
    uses = [words("use_panels")]
    if any(part.kind in ("cleat", "stiffener") for part in design.parts):
        uses.append(words("use_cleats"))
    if design.mount.parts:
        uses.append(words("use_cart" if design.mount.casters else "use_rails"))
    return ", ".join(uses)


def _list_openings(project: Given, design: Made, words: Phrases) -> list[Want]:
    """Return pails, rings and lids."""
    group, plastic = words("group_openings"), words("place_plastic")
    filters = sum(port.port.kind == "filter" for port in design.ports)
    pail = words("pail_detail_metric" if is_metric(project.display) else "pail_detail_inch")
    lid_keys = ("ring and lid set", "screw lid set")
    wants = []
    for count, pail_use, lid_use in (
        (len(design.ports), words("pail_use_collar"), words("lid_use_opening")),
        (filters, words("pail_use_catch"), words("lid_use_catch")),
    ):
        wants += [
            Want(
                group=group,
                item=words("pail"),
                detail=pail,
                needed=count,
                unit="each",
                place=plastic,
                keys=("collar pail",),
                where_used=pail_use,
                name="pail",
            ),
            Want(
                group=group,
                item=words("lid"),
                detail=words("lid_detail"),
                needed=count,
                unit="set",
                place=plastic,
                keys=lid_keys,
                where_used=lid_use,
                name="screw lid",
            ),
        ]
    return wants


def _list_filters(project: Settled, design: Design, words: Phrases) -> list[Want]:
    """Return the cartridges and what ties them to their lids."""
    reader, group, hardware = project.display.reader, words("group_openings"), words("place_hardware")
    wants = []
    for each in project.filters:
        sizes = (each.outside_mm, each.height_mm)
        printed, known = (
            ", ".join(part for part in (words("filter_detail", outside=outside, height=high), each.grade) if part)
            for outside, high in (
                (write_sold(mm, project.display) for mm in sizes),
                (write_length(mm, project.display.buyer) for mm in sizes),
            )
        )
        wants.append(
            Want(
                group=group,
                item=words("filter"),
                detail=printed,
                needed=each.count,
                unit="each",
                place=words("place_filters"),
                keys=(each.name, "filter"),
                where_used=words("filter_use"),
                name="filter cartridge",
                as_sold=known,
            )
        )
    hooks = sum(2 * port.port.closure.hooks for port in design.ports if port.port.kind == "filter")
    hook = write_length(design.ports[0].port.closure.hook_hole_mm, reader) if design.ports else ""
    wants.append(
        Want(
            group=group,
            item=words("clip"),
            detail=words("clip_detail", hole=hook),
            needed=hooks,
            unit="each",
            place=hardware,
            keys=("filter clip",),
            where_used=words("clip_use"),
            alternate=words("instead_clip"),
            name="hook clip",
        )
    )
    return wants


def _list_foam(project: Given, design: Made, words: Phrases) -> list[Want]:
    """Return the foam that the filters' gaskets are cut from."""
    display, wants = project.display, []
    for each in project.filters if design.ports else ():
        thick, side = write_sold(each.gasket_thick_mm, display), write_sold(each.outside_mm, display)
        wants.append(
            Want(
                group=words("group_openings"),
                item=words("foam"),
                detail=words("foam_detail", thick=thick, side=side),
                needed=each.count,
                unit="piece",
                place=words("place_hardware"),
                keys=("foam sheet", "gasket foam"),
                where_used=words("foam_use"),
                alternate=words("instead_foam"),
                name="closed-cell foam",
            )
        )
    return wants


def _list_inlet(project: Settled, words: Phrases) -> list[Want]:
    """Return the collar that the duct slips on."""
    inlet, display = project.box.inlet.diameter_mm, project.display
    printed, known = write_sold(inlet, display), write_length(inlet, display.buyer)
    return [
        Want(
            group=words("group_openings"),
            item=words("collar", size=printed),
            detail=words("collar_detail"),
            needed=1,
            unit="each",
            place=words("place_hardware"),
            keys=("starting collar",),
            where_used=words("collar_use"),
            name=f"{known} starting collar",
        )
    ]


def list_beads(project: Given, design: Made) -> tuple[tuple[str, float], ...]:
    """Return every bead of sealant as (where, length [mm])."""
    beads: list[tuple[str, float]] = []
    if isinstance(project, Settled) and isinstance(design, Design):
        beads += [("inner seams", design.seams_mm), ("inlet collar", math.pi * project.box.inlet.diameter_mm)]
    if project.methods.seal == "sealant":
        beads += [(f"ring of {port.name}", math.pi * port.hole_mm) for port in design.ports]
    hung = [project.find_filter(port.port) for port in design.ports if port.port.kind == "filter"]
    ends = [each.outside_mm for each in hung if each is not None]
    if ends:
        beads.append(("lower ends of the filters", math.pi * sum(ends)))
    return tuple(beads)


def list_sealing(project: Given, design: Made) -> list[Want]:
    """Return sealant and gasket."""
    words = take_words("bill_items", project.display.language)
    reader, metric = project.display.reader, is_metric(project.display)
    group, hardware = words("group_sealing"), words("place_hardware")
    length = sum(length for _, length in list_beads(project, design))
    share = find_bead_volume(length, project.methods.bead_mm) / CARTRIDGE_M3
    bead = write_length(project.methods.bead_mm, reader)
    roll, size = (3.0, "3 m") if metric else (3.048, "10 ft")
    sealant = words("sealant_detail_metric" if metric else "sealant_detail_inch", bead=bead)
    tape = words("gasket_detail", thick=write_sold(6.0 if metric else 6.35, project.display))
    lengths = [(words("gasket_use_rings"), design.ring_gasket_mm / 1000)]
    if isinstance(design, Design):
        lengths.insert(0, (say(say_panel(design.box.removable), reader), design.gasket_mm / 1000))
    return [
        Want(
            group=group,
            item=words("sealant"),
            detail=sealant,
            needed=share,
            unit="cartridge",
            place=hardware,
            waste=WASTE,
            keys=("sealant", "sealant cartridge", "silicone"),
            where_used=words("sealant_use" if isinstance(design, Design) else "sealant_use_rings"),
            name="silicone cartridge",
        ),
        *(
            Want(
                group=group,
                item=words("gasket"),
                detail=tape,
                needed=metres,
                unit="m",
                place=hardware,
                waste=WASTE,
                pack=roll,
                sold="roll",
                keys=("gasket tape", "gasket"),
                where_used=use,
                name="closed-cell gasket tape",
                size=size,
            )
            for use, metres in lengths
        ),
    ]

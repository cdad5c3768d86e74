"""The bill's lines for the gauge, signs and labels, protective equipment, and a year's consumables."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from calc.gauges.gauge_design import design_gauge
from calc.geometry.gauge_parts import CLIP_DRILL_MM, make_gauge_parts
from calc.geometry.shapes import Circle, Layer
from calc.measures.quantity import write_amount, write_length
from packet.bill import Want
from packet.bill_box import FILTERS, HARDWARE, WASTE, read_for

if TYPE_CHECKING:
    from calc.geometry.design import Design
    from calc.project import Project
    from calc.results import Sizing

MACHINES, MAKER = "Blower and separator", "machinery supplier"
GAUGE, SIGNS, PROTECTION, YEARLY = "Water gauge", "Signs and labels", "Protection", "A year of use"
SAFETY = "safety supplier"
HOSE_TO_BOX_M = 2.0
"""Tube from the gauge lid to a gauge on the wall, before it is measured (stated assumption)."""

DAYS_A_YEAR = 200.0
FILTER_CLEANINGS = 50.0
"""Cleanings a pleated filter stands before its pleats give up (common practice, no source)."""


def list_shop(project: Project, sizing: Sizing) -> list[Want]:
    """Return blower and separator, gauge, signs and protective equipment."""
    return [*_list_machines(project), *_list_gauge(project, sizing), *_list_signs(project), *_list_protection(project)]


def _list_machines(project: Project) -> list[Want]:
    """Return what moves and separates: bought unless the file has it on hand."""
    reader, blower = read_for(project), project.blower
    power, outlet = write_amount(blower.power_w, "power_w", reader), write_length(blower.outlet_m * 1000, reader)
    wants = [
        Want(MACHINES, "blower", f"{power}, {outlet} outlet, as its curve in the sizing report", 1, "each", MAKER,
             keys=("collector", "dust collector", "fan"), where_used="before the filter box"),
    ]  # fmt: skip
    if project.separator.kind != "none":
        wants.append(
            Want(MACHINES, project.separator.kind, "as in the sizing report", 1, "each", MAKER, keys=("separator",),
                 where_used="before the blower")
        )  # fmt: skip
    return wants


def _list_gauge(project: Project, sizing: Sizing) -> list[Want]:
    if not any(port.kind == "gauge" for port in project.ports):
        return []
    reader, metric = read_for(project), project.display.system == "metric"
    gauge = design_gauge(project, sizing)
    boards = gauge.boards
    metres = sum(card.tube.length_mm for card in boards) / 1000
    metres += HOSE_TO_BOX_M if project.gauge.mount == "wall" else 0.3
    unit, unit_name = (1.0, "metre") if metric else (0.3048, "foot")
    jars = sum(card.instrument.kind in ("inclined", "well") for card in boards)
    millilitres = sum(card.tube.liquid_m3 for card in boards) * 1e6
    bore, hole = write_length(project.gauge.tube_bore_mm, reader), write_length(project.gauge.fitting_hole_mm, reader)
    fluid = {"water": "water", "dyed water": "water and food dye", "glycol mix": "glycol and water, half and half"}
    return [
        Want(GAUGE, "clear tube", f"{bore} bore, soft vinyl", metres, "m", HARDWARE, WASTE, unit, unit_name,
             ("vinyl tube", "tubing"), "U-tube and hose to the box"),
        Want(GAUGE, "hose fitting", f"barb through a {hole} hole, with nut and washers", 1, "each", HARDWARE,
             keys=("barb fitting",), where_used="gauge lid"),
        Want(GAUGE, "pipe clip", "small, one to each small hole", _count_clips(project, sizing), "each", HARDWARE,
             where_used="tube to its board"),
        Want(GAUGE, fluid.get(project.gauge.fluid, project.gauge.fluid), f"{millilitres:.0f} mL in the tube",
             1, "each", HARDWARE, keys=("dye", "gauge fluid"), where_used="gauge"),
        *([Want(GAUGE, "jar", "60 mm wide or more, for the low end of the tube", jars, "each", HARDWARE,
                keys=("well",), where_used="gauge with one tube")] if jars else []),
        *([Want(GAUGE, "hose tee", f"for {bore} tube", len(boards) - 1, "each", HARDWARE,
                where_used="two gauges on one hose")] if len(boards) > 1 else []),
        Want(GAUGE, "gauge board", "offcut of the panel stock is enough", 0, "each", HARDWARE),
    ]  # fmt: skip


def _count_clips(project: Project, sizing: Sizing) -> int:
    """Return how many clips the gauge's boards have holes for."""
    drilled = [f.shape for part in make_gauge_parts(project, sizing) for f in part.features if f.layer is Layer.DRILL]
    return sum(isinstance(hole, Circle) and hole.radius == CLIP_DRILL_MM / 2 for hole in drilled)


def _list_signs(project: Project) -> list[Want]:
    labels = math.ceil((len(project.machines) + len(project.ports) + 4) / 10)
    return [
        Want(SIGNS, "label sheet", "self-adhesive, for the label page", labels, "sheet", "stationer",
             keys=("labels",), where_used="gates, openings, gauge, blower"),
        Want(SIGNS, "sign", "hearing and eye protection; keep clear of sparks", 1, "each", SAFETY,
             where_used="shop door"),
        Want(SIGNS, "fire extinguisher", "class A or ABC, if the shop has none: ask the fire service", 1, "each",
             SAFETY, where_used="by the door"),
    ]  # fmt: skip


def _list_protection(project: Project) -> list[Want]:
    people = 2 if project.methods.helper else 1
    return [
        Want(PROTECTION, "safety glasses", "", people, "pair", SAFETY, keys=("glasses",)),
        Want(PROTECTION, "hearing protection", "", people, "pair", SAFETY, keys=("ear muffs",)),
        Want(PROTECTION, "cut-resistant gloves", "filter ends and cut plastic are sharp", people, "pair", SAFETY,
             keys=("gloves",)),
        Want(PROTECTION, "respirator", "fine dust: P100, N95 or FFP3", people, "each", SAFETY,
             keys=("dust mask", "mask")),
    ]  # fmt: skip


def find_cleanings(project: Project, sizing: Sizing) -> float | None:
    """Return filter cleanings a year, by the hours between cleanings and 200 working days; None: never reached."""
    hours = sizing.filters.clean_me.hours_later
    return None if not hours else project.dust.hours_a_day * DAYS_A_YEAR / hours


def list_yearly(project: Project, sizing: Sizing, design: Design) -> list[Want]:
    """Return what a year of use takes: filters by their cleanings, masks, gasket, sealant, gauge fluid."""
    cleanings = find_cleanings(project, sizing)
    filters = sum(each.count for each in project.filters)
    worn = filters * min(1.0, (cleanings or 0.0) / FILTER_CLEANINGS)
    if cleanings is None:
        says = "never asks for cleaning"
    else:
        says = "less than one cleaning a year" if cleanings < 1 else f"about {cleanings:.0f} cleanings a year"
    return [
        Want(YEARLY, "filter cartridge", f"{says}; one stands about {FILTER_CLEANINGS:.0f}", worn, "each", FILTERS,
             keys=(*(each.name for each in project.filters), "filter")),
        Want(YEARLY, "respirator", "for cleaning the filters", max(2.0, math.ceil(cleanings or 0)) / 10, "each", SAFETY,
             pack_name="each", keys=("dust mask", "mask")),
        Want(YEARLY, "silicone cartridge", "filter ends and leaks", 1, "cartridge", HARDWARE,
             keys=("sealant", "silicone")),
        Want(YEARLY, "closed-cell gasket tape", f"{design.box.removable} panel, when it is flat",
             design.gasket_mm / 1000 / 2, "m", HARDWARE, 0.0, 3.048, "roll", keys=("gasket tape", "gasket")),
    ]  # fmt: skip

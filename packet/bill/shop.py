"""The bill's lines for the gauge, signs and labels, protective equipment, and a year's consumables."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from calc.gauges.gauge_parts import list_boards
from calc.measures.quantity import write_amount, write_length
from calc.project import Aired
from calc.shapes.part_names import say_panel
from calc.shapes.shapes import FlatPart, Layer
from packet.bill.box import WASTE
from packet.bill.gauge_fill import write_fill
from packet.bill.labels import count_label_sheets
from packet.bill.model import Want
from packet.bill.sizes import is_metric, write_sold
from packet.words.phrases import Phrases, take_words
from packet.words.safe_work import RESPIRATOR
from packet.words.say import say

if TYPE_CHECKING:
    from calc.design import Design, Made
    from calc.gauges.gauge_design import GaugeDesign
    from calc.project import Given
    from calc.results import Sizing
    from calc.settled import SettledShop

HOSE_TO_BOX_M = 2.0
"""Tube from the gauge lid to a gauge on the wall, before it is measured (stated assumption)."""

DAYS_A_YEAR = 200.0
FILTER_CLEANINGS = 50.0
"""Cleanings a pleated filter stands before its pleats give up (common practice, no source)."""

JAR_MM = 60.0
"""Least width of the jar a single tube stands in: wide beside the tube, so that its own level hardly moves."""

GAUGE_SCREW = {"inch": "No. 8 x 2 in", "metric": "4.2 mm x 50 mm"}
SUPPLIES = ("sandpaper", "clear tape", "rags")

FLUIDS = {"dyed water": "water and food dye", "glycol mix": "glycol and water, half and half"}


def list_shop(project: Given, design: Made, gauge: GaugeDesign | None) -> list[Want]:
    """Return blower and separator, gauge, signs, protective equipment and supplies."""
    words = take_words("bill_items", project.display.language)
    return [
        *(_list_machines(project, words) if isinstance(project, Aired) else ()),
        *(_list_gauge(project, design, gauge, words) if gauge is not None else ()),
        *_list_gauge_boards(project, design, words),
        *(_list_signs(project, words) if isinstance(project, Aired) else ()),
        *_list_protection(project, words),
        Want(
            group=words("group_protection"),
            item=words("supplies"),
            detail=words("supplies_detail"),
            needed=1,
            unit="set",
            place=words("place_hardware"),
            keys=SUPPLIES,
            name="shop supplies",
        ),
    ]


def _list_machines(project: Aired, words: Phrases) -> list[Want]:
    """Return what moves and separates: bought unless the file has it on hand."""
    reader, blower, kind = project.display.reader, project.blower, project.separator.kind
    power, outlet = write_amount(blower.power_w, "power_w", reader), write_length(blower.outlet_m * 1000, reader)
    group, maker = words("group_machines"), words("place_machines")
    wants = [
        Want(
            group=group,
            item=words("blower"),
            detail=words("blower_detail", power=power, outlet=outlet),
            needed=1,
            unit="each",
            place=maker,
            keys=("collector", "dust collector", "fan"),
            where_used=words("blower_use" if project.box else "blower_use_filters"),
            name="blower",
            owned=True,
        ),
    ]
    if kind != "none":
        wants.append(
            Want(
                group=group,
                item=words("cyclone" if kind == "cyclone" else "drop_box"),
                detail=words("separator_detail"),
                needed=1,
                unit="each",
                place=maker,
                keys=("separator",),
                where_used=words("separator_use"),
                name=kind,
                owned=True,
            )
        )
    return wants


def _list_gauge(project: Given, design: Made, gauge: GaugeDesign, words: Phrases) -> list[Want]:
    asked = gauge.asked
    if project.box is not None and not any(port.kind == "gauge" for port in project.ports):
        return []
    reader, metric = project.display.reader, is_metric(project.display)
    group, hardware = words("group_gauge"), words("place_hardware")
    boards = gauge.boards
    metres = sum(card.tube.length_mm for card in boards) / 1000
    metres += 0.3 if gauge.on_lid else 0.0
    metres += HOSE_TO_BOX_M if len(boards) > gauge.on_lid else 0.0  # any board that is not on the lid is on the wall
    unit, sold = (1.0, "metre") if metric else (0.3048, "foot")
    jars = sum(card.instrument.kind in ("inclined", "well") for card in boards)
    amount = write_fill(gauge, reader)
    bore = write_sold(asked.tube_bore_mm, project.display)
    hole = write_length(asked.fitting_hole_mm, reader)
    fluid = asked.fluid
    wants = [
        Want(
            group=group,
            item=words("tube"),
            detail=words("tube_detail", bore=bore),
            needed=metres,
            unit="m",
            place=hardware,
            waste=WASTE,
            pack=unit,
            sold=sold,
            keys=("vinyl tube", "tubing"),
            where_used=words("tube_use_two" if len(boards) > 1 else "tube_use"),
            name="clear tube",
        ),
        Want(
            group=group,
            item=words("barb"),
            detail=words("barb_detail", bore=bore, hole=hole),
            needed=1,
            unit="each",
            place=hardware,
            keys=("barb fitting",),
            where_used=words("barb_use"),
            name="hose fitting",
        ),
        Want(
            group=group,
            item=words("board_clip"),
            detail=words("board_clip_detail", bore=bore),
            needed=_count_clips(design),
            unit="each",
            place=hardware,
            where_used=words("board_clip_use"),
            name="pipe clip",
        ),
        Want(
            group=group,
            item=words(f"fluid_{fluid.replace(' ', '_')}"),
            detail=words("liquid_detail", amount=amount),
            needed=1,
            unit="each",
            place=hardware,
            keys=("dye", "gauge fluid"),
            where_used=words("liquid_use"),
            name=FLUIDS.get(fluid, fluid),
        ),
    ]
    if jars:
        wide = write_length(JAR_MM, reader)
        wants.append(
            Want(
                group=group,
                item=words("jar"),
                detail=words("jar_detail", wide=wide),
                needed=jars,
                unit="each",
                place=hardware,
                keys=("well",),
                where_used=words("jar_use"),
                name="jar",
            )
        )
    if len(boards) > 1:
        wants.append(
            Want(
                group=group,
                item=words("tube_tee"),
                detail=words("tube_tee_detail", bore=bore),
                needed=len(boards) - 1,
                unit="each",
                place=hardware,
                where_used=words("tube_tee_use"),
                name="hose tee",
            )
        )
    return wants


def _list_gauge_boards(project: Given, design: Made, words: Phrases) -> list[Want]:
    """Return the stock of the gauge's boards, and the screws that hold them to their brackets and those to the wall."""
    boards = [part for part in design.flat_parts if part.kind in ("gauge board", "gauge bracket")]
    if not boards:
        return []
    display, group = project.display, words("group_gauge")
    thick = " / ".join(write_sold(mm, display) for mm in sorted({part.thickness_mm for part in boards}))
    numbers = ", ".join(f"{p.quantity} × {p.number}" if p.quantity > 1 else p.number for p in boards)
    wants = [
        Want(
            group=group,
            item=words("board_stock"),
            detail=words("board_stock_detail", numbers=numbers, thick=thick),
            needed=sum(part.quantity for part in boards),
            unit="piece",
            place=words("place_lumber"),
            where_used=words("board_stock_use"),
            alternate=words("instead_board_stock"),
            name="gauge board stock",
        ),
    ]
    screws = sum(part.quantity * _count_drilled(part) for part in boards if part.kind == "gauge bracket")
    detail = words("board_screw_detail", screw=GAUGE_SCREW[display.system])
    wants.append(
        Want(
            group=group,
            item=words("board_screw"),
            detail=detail,
            needed=screws,
            unit="each",
            place=words("place_hardware"),
            name="gauge screw",
        )
    )
    return wants


def _count_drilled(part: FlatPart) -> int:
    return sum(feature.layer is Layer.DRILL for feature in part.features)


def _count_clips(design: Made) -> int:
    """Return how many clips the gauge's boards have holes for."""
    return sum(feature.takes == "clip" for part in list_boards(design.flat_parts) for feature in part.features)


def _list_signs(project: Aired, words: Phrases) -> list[Want]:
    group, safety, by = words("group_signs"), words("place_safety"), "" if project.has_gates else "_hose"
    by = "_alone" if project.box is None else by
    return [
        Want(
            group=group,
            item=words("label_sheet"),
            detail=words("label_sheet_detail"),
            needed=count_label_sheets(project),
            unit="sheet",
            place=words("place_stationer"),
            keys=("labels",),
            where_used=words(f"label_sheet_use{by}"),
            name="label sheet",
        ),
        Want(
            group=group,
            item=words("sign"),
            detail=words("sign_detail"),
            needed=1,
            unit="each",
            place=safety,
            where_used=words("sign_use"),
            name="sign",
        ),
        Want(
            group=group,
            item=words("extinguisher"),
            detail=words("extinguisher_detail"),
            needed=1,
            unit="each",
            place=safety,
            where_used=words("extinguisher_use"),
            name="fire extinguisher",
        ),
        *(
            [
                Want(
                    group=group,
                    item=words("alarm"),
                    detail=words("alarm_detail"),
                    needed=1,
                    unit="each",
                    place=safety,
                    where_used=words("alarm_use"),
                    name="carbon monoxide alarm",
                )
            ]
            if project.shop.draws_on_flue
            else []
        ),
    ]


def _list_protection(project: Given, words: Phrases) -> list[Want]:
    people, group, safety = 2 if project.methods.helper else 1, words("group_protection"), words("place_safety")
    return [
        Want(
            group=group,
            item=words("glasses"),
            detail=words("glasses_detail"),
            needed=people,
            unit="pair",
            place=safety,
            keys=("glasses",),
            name="safety glasses",
        ),
        Want(
            group=group,
            item=words("muffs"),
            detail=words("muffs_detail"),
            needed=people,
            unit="pair",
            place=safety,
            keys=("ear muffs",),
            name="hearing protection",
        ),
        Want(
            group=group,
            item=words("gloves"),
            detail=words("gloves_detail" if isinstance(project, Aired) else "gloves_detail_plastic"),
            needed=people,
            unit="pair",
            place=safety,
            keys=("gloves",),
            name="cut-resistant gloves",
        ),
        Want(
            group=group,
            item=words("respirator"),
            detail=words("respirator_detail", grade=RESPIRATOR),
            needed=people,
            unit="each",
            place=safety,
            keys=("dust mask", "mask"),
            name="respirator",
        ),
    ]


def find_cleanings(project: SettledShop, sizing: Sizing) -> float | None:
    """Return filter cleanings a year, by the hours between cleanings and 200 working days; None: never reached."""
    hours = sizing.filters.clean_me.hours_later
    return None if hours is None or not hours.best else project.dust.hours_a_day * DAYS_A_YEAR / hours.best


def list_yearly(project: SettledShop, sizing: Sizing, design: Design) -> list[Want]:
    """Return what a year of use takes: filters by their cleanings, masks, gasket, sealant, gauge fluid."""
    words, metric = take_words("bill_items", project.display.language), is_metric(project.display)
    cleanings, group = find_cleanings(project, sizing), words("group_year")
    safety, hardware = words("place_safety"), words("place_hardware")
    worn = sum(each.count for each in project.filters) * count_sets(cleanings)
    roll, size = (3.0, "3 m") if metric else (3.048, "10 ft")
    panel = say(say_panel(design.box.removable), project.display.reader)
    return [
        Want(
            group=group,
            item=words("filter"),
            detail=_say_cleanings(cleanings, words),
            needed=worn,
            unit="each",
            place=words("place_filters"),
            keys=(*(each.name for each in project.filters), "filter"),
            name="filter cartridge",
        ),
        Want(
            group=group,
            item=words("respirator"),
            detail=words("respirator_year"),
            needed=max(2.0, math.ceil(cleanings or 0)) / 10,
            unit="each",
            place=safety,
            keys=("dust mask", "mask"),
            name="respirator",
        ),
        Want(
            group=group,
            item=words("sealant"),
            detail=words("sealant_year"),
            needed=1,
            unit="cartridge",
            place=hardware,
            keys=("sealant", "silicone"),
            name="silicone cartridge",
        ),
        Want(
            group=group,
            item=words("gasket"),
            detail=words("gasket_year", panel=panel),
            needed=design.gasket_mm / 1000 / 2,
            unit="m",
            place=hardware,
            waste=0.0,
            pack=roll,
            sold="roll",
            keys=("gasket tape", "gasket"),
            name="closed-cell gasket tape",
            size=size,
        ),
    ]


def count_sets(cleanings: float | None) -> int:
    """Return how many sets of filters are worn out within a year that begins with new ones; None: never cleaned."""
    return math.floor((cleanings or 0.0) / FILTER_CLEANINGS + 1e-9)


def _say_cleanings(cleanings: float | None, words: Phrases) -> str:
    """Return how often the filters are cleaned in a year, and how many cleanings one stands."""
    stands = f"{FILTER_CLEANINGS:.0f}"
    if cleanings is None:
        return words("cleanings_never", stands=stands)
    if cleanings < 1:
        return words("cleanings_rare", stands=stands)
    count = f"{cleanings:.0f}"
    return words("cleanings_one" if count == "1" else "cleanings_many", count=count, stands=stands)

"""The bill's lines for screws, bolts, casters and what the box hangs by."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.box.lining import WASHERS_APART_MM, count_washers
from calc.box.mounts import CASTER_SCREWS, CLEAT_LAYERS, LOCK_MM, LOCK_SCREWS
from calc.design import Design
from calc.measures.marking import write_mark
from calc.measures.quantity import Reader, to_reader, unit_name, write_amount, write_length
from calc.settled import Settled
from calc.shapes.part_names import say_panel
from calc.strength.fasteners import choose_inside_screw, choose_plate_screw, choose_ring_screw, choose_screw
from calc.strength.lifting import find_deck, plan_lift
from packet.bill.model import Want
from packet.bill.sizes import is_metric, write_sold
from packet.words.phrases import Phrases, take_words
from packet.words.say import say

if TYPE_CHECKING:
    from calc.design import Made
    from calc.project import Display, Given

SCREW_WASTE = 0.05
HEIGHT_STEP_M = {"inch": 0.3048, "metric": 0.1}  # a hired lift is asked for by whole feet, or by 100 mm
BLOWER_BOLTS = 4  # one a foot
BOLT_END_MM = 9.0  # washer and nut
_GAUGE = {"inch": "No. 8", "metric": "4.2 mm"}


@dataclass(frozen=True)
class Screws:
    """Screws of one length and head for one use; heads: ``pan head`` or ``flat head``."""

    length_mm: float
    head: str
    count: int
    use: str


def list_fixings(project: Given, design: Made) -> list[Want]:
    """Return all screws, and what carries the box."""
    words = take_words("bill_items", project.display.language)
    rings = [_name_box(each, project.display, words) for each in _list_ring_screws(project, design, words)]
    if not (isinstance(project, Settled) and isinstance(design, Design)):
        return rings
    return [
        *rings,
        *(_name_box(each, project.display, words) for each in _list_screws(project, design, words)),
        *_list_lining_screws(project, design, words),
        *_list_cart(project, design, words),
        *_list_hanging(project, design, words),
    ]


def find_ring_screw(project: Given, design: Made) -> float:
    """Return the length [mm] of the screws through the rings, one for all; 0 where there are no openings."""
    if isinstance(design, Design):
        return design.strength.ring_screw_mm
    if project.board is None or not design.ports:
        return 0.0
    flange = max(port.port.closure.flange_thick_mm for port in design.ports)
    return choose_ring_screw(project.display.system, project.board.thickness_mm, flange)


def _list_ring_screws(project: Given, design: Made, words: Phrases) -> list[Screws]:
    count = sum(port.port.closure.screws for port in design.ports)
    return [Screws(find_ring_screw(project, design), "pan head", count, words("screw_use_rings"))]


def _list_screws(project: Settled, design: Design, words: Phrases) -> list[Screws]:
    strength, panel, reader = design.strength, project.box.panel.thickness_mm, project.display.reader
    through = [row for row in design.rows if not row.from_inside]
    removable = sum(len(row.spots) for row in through if row.through == design.box.removable)
    other = sum(len(row.spots) for row in through) - removable
    joints = [words("screw_use_joints")]
    if any(part.kind == "stiffener" for part in design.parts):
        joints.append(words("screw_use_ribs"))
    screws = [
        Screws(strength.box_screw_mm, "flat head", other, ", ".join(joints)),
        Screws(strength.box_screw_mm, "flat head", removable, say(say_panel(design.box.removable), reader)),
    ]
    for row in design.rows:
        if row.from_inside:
            length = choose_inside_screw(project.display.system, row.grip_mm, panel)
            use = words("screw_use_cleats" if "cleat" in row.through else "screw_use_rails")
            screws.append(Screws(length, "flat head", len(row.spots), use))
    return screws


def _name_box(screws: Screws, display: Display, words: Phrases) -> Want:
    """Return the boxes of one screw."""
    gauge, length = _GAUGE[display.system], write_length(screws.length_mm, display.buyer)
    printed = write_sold(screws.length_mm, display)
    head = screws.head.removesuffix(" head")
    return Want(
        group=words("group_fixings"),
        item=words(f"{head}_head", gauge=gauge, length=printed),
        detail=words("box_of_100"),
        needed=screws.count,
        unit="screw",
        place=words("place_hardware"),
        waste=SCREW_WASTE,
        pack=100.0,
        sold="box",
        keys=(f"{gauge} {screws.head} screw", f"{screws.head} screw"),
        where_used=screws.use,
        name=f"{gauge} x {length} {screws.head} screw",
        size="100",
    )


def _list_lining_screws(project: Settled, design: Design, words: Phrases) -> list[Want]:
    """Return the screws that hold the lining, each with its washer: into the panel, not through it."""
    if design.lining is None or project.lining is None:
        return []
    system, panel, soft = project.display.system, project.box.panel.thickness_mm, project.lining.thickness_mm
    length = write_sold(choose_screw(system, soft / 2 + 0.6 * panel, soft / 2 + panel - 1.0), project.display)
    count = count_washers(design.lining, WASHERS_APART_MM[system])
    detail = words("lining_screw_detail", gauge=_GAUGE[system], length=length)
    return [
        Want(
            group=words("group_fixings"),
            item=words("lining_screw"),
            detail=detail,
            needed=count,
            unit="each",
            place=words("place_hardware"),
            waste=SCREW_WASTE,
            keys=("lining washer",),
            where_used=words("lining_screw_use"),
            alternate=words("instead_lining_screw"),
            name="lining screw",
        )
    ]


def write_caster_load(design: Design, reader: Reader) -> str:
    """Return what each caster must carry, in whole units of weight and never less than the finding says."""
    return _write_up(design.handling.caster_kg, reader)


def _write_up(kg: float, reader: Reader) -> str:
    """Return a weight in whole units, never less than it is."""
    return f"{math.ceil(to_reader(kg, 'mass_kg', reader) - 1e-9)} {unit_name('mass_kg', reader)}"


def _list_cart(project: Settled, design: Design, words: Phrases) -> list[Want]:
    """Return what a cart takes besides its panels."""
    mount, reader, panel = design.mount, project.display.reader, project.box.panel.thickness_mm
    if not mount.casters:
        return []
    inch, group, hardware = not is_metric(project.display), words("group_fixings"), words("place_hardware")
    load = write_caster_load(design, reader)
    thick, length = "1/4 in" if inch else "6 mm", _choose_bolt(project)
    plate = choose_plate_screw(project.display.system, panel)
    screws = (
        Screws(design.strength.box_screw_mm, "flat head", mount.screws, words("screw_use_cart")),
        Screws(plate, "pan head", mount.casters * CASTER_SCREWS, words("screw_use_casters")),
    )
    return [
        Want(
            group=group,
            item=words("caster"),
            detail=words("caster_detail", wheel="3 in" if inch else "75 mm", load=load),
            needed=mount.casters,
            unit="each",
            place=hardware,
            keys=("wheel",),
            where_used=words("caster_use"),
            name="caster",
        ),
        Want(
            group=group,
            item=words("bolt", thick=thick, length=length),
            detail=words("bolt_detail"),
            needed=mount.bolts,
            unit="each",
            place=hardware,
            keys=("carriage bolt", "bolt"),
            where_used=words("bolt_use"),
            name=f"{thick} x {length} bolt",
        ),
        Want(
            group=group,
            item=words("blower_fixing"),
            detail=words("blower_fixing_detail"),
            needed=BLOWER_BOLTS if mount.blower else 0,
            unit="each",
            place=hardware,
            where_used=words("blower_fixing_use"),
            name="blower fixing",
        ),
        *(_name_box(each, project.display, words) for each in screws),
    ]


def _list_hanging(project: Settled, design: Design, words: Phrases) -> list[Want]:
    """Return what the box hangs by on a wall or ceiling."""
    count, inch = design.strength.hang_fasteners, not is_metric(project.display)
    if not count:
        return []
    group, hardware = words("group_fixings"), words("place_hardware")
    thick, length = ("5/16 in", "3 in") if inch else ("8 mm", "80 mm")
    detail = words("lag_detail_joists" if project.box.hung == "ceiling" else "lag_detail_studs")
    length_of_lock = write_sold(choose_screw(project.display.system, LOCK_MM), project.display)
    lock = words("lock_screw_detail", gauge=_GAUGE[project.display.system], length=length_of_lock)
    return [
        *(
            [
                Want(
                    group=group,
                    item=words("lock_screw"),
                    detail=lock,
                    needed=LOCK_SCREWS,
                    unit="each",
                    place=hardware,
                    where_used=words("lock_screw_use"),
                    name="locking screw",
                )
            ]
            if project.box.hung == "wall"
            else []
        ),
        Want(
            group=group,
            item=words("lag", thick=thick, length=length),
            detail=detail,
            needed=count,
            unit="each",
            place=hardware,
            keys=("lag screw",),
            where_used=words("lag_use"),
            name=f"{thick} x {length} lag screw",
        ),
        Want(
            group=group,
            item=words("washer", size=thick),
            detail=words("washer_detail"),
            needed=count,
            unit="each",
            place=hardware,
            keys=("washer",),
            where_used=words("washer_use"),
            name=f"{thick} washer",
        ),
    ]


def list_hired(project: Settled, design: Design) -> list[Want]:
    """Return what is hired to get the box up: a material lift, a guarded platform."""
    reader, words = project.display.reader, take_words("bill_items", project.display.language)
    lift, group, hire = plan_lift(project, design.handling), words("group_protection"), words("place_hire")
    wants = []
    if lift.way == "lift":
        load = _write_up(lift.weight_kg, reader)
        step = HEIGHT_STEP_M[project.display.system]
        high = write_amount(math.ceil(design.stack.box_bottom_mm / 1000 / step) * step, "length_m", reader)
        wants.append(
            Want(
                group=group,
                item=words("lift"),
                detail=words("lift_detail", load=load, high=high),
                needed=1,
                unit="each",
                place=hire,
                where_used=words("lift_use"),
                name="material lift",
            )
        )
    deck_mm = find_deck(lift, reader.system)
    if deck_mm is not None:
        deck = write_mark(deck_mm, reader)
        wants.append(
            Want(
                group=group,
                item=words("work_platform"),
                detail=words("work_platform_detail", deck=deck),
                needed=1,
                unit="each",
                place=hire,
                keys=("platform", "scaffold"),
                where_used=words("work_platform_use"),
                name="work platform",
            )
        )
    return wants


def _choose_bolt(project: Settled) -> str:
    """Return the length of bolt that passes the box's bottom and a cart's cleat, with its washer and nut."""
    least = (1 + CLEAT_LAYERS) * project.box.panel.thickness_mm + BOLT_END_MM
    return write_length(choose_screw(project.display.system, least), project.display.buyer)

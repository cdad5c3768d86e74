"""The bill's lines for the ducts: pipe, hose, fittings, gates, clamps, tape, screws, hangers and bonding."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.airflow.takeoff import HANGER_APART_M, JOINT_SCREWS, LEFT_OUT, Counted, Takeoff, take_off
from calc.measures.quantity import write_length
from packet.bill.box import WASTE
from packet.bill.fixings import SCREW_WASTE
from packet.bill.model import Want
from packet.bill.sizes import is_metric, write_sold
from packet.words.phrases import Phrases, take_words

if TYPE_CHECKING:
    from calc.project import Aired, Display

FOOT = 0.3048
STICKS = {True: (3.0, "3 m"), False: (5 * FOOT, "5 ft")}
"""Length of a pipe as bought: metric, inch (common practice, no source)."""

WIRE_WASTE = 0.2


def list_ducts(project: Aired) -> list[Want]:
    """Return all that the ducts take."""
    display, metric = project.display, is_metric(project.display)
    words, taken = take_words("bill_items", project.display.language), take_off(project)
    group, supplier, hardware = words("group_ducts"), words("place_ducts"), words("place_hardware")
    stick, stick_size = STICKS[metric]
    wants = []
    for pipe in taken.pipes:
        size, printed = _size(pipe.diameter_m, display), _print(pipe.diameter_m, display)
        wants.append(
            Want(
                group=group,
                item=words("pipe", size=printed),
                detail=words(f"pipe_{pipe.material}"),
                needed=pipe.length_m,
                unit="m",
                place=supplier,
                waste=WASTE,
                pack=stick,
                sold="stick",
                keys=(f"{size} {pipe.material} pipe", "pipe"),
                where_used=_say_places(pipe.pieces, words),
                name=f"{size} pipe",
                size=stick_size,
            )
        )
    for hose in taken.hoses:
        size, printed = _size(hose.diameter_m, display), _print(hose.diameter_m, display)
        unit, sold = (1.0, "metre") if metric else (FOOT, "foot")
        wants.append(
            Want(
                group=group,
                item=words("hose", size=printed),
                detail=words(f"hose_{hose.material}"),
                needed=hose.length_m,
                unit="m",
                place=supplier,
                waste=WASTE,
                pack=unit,
                sold=sold,
                keys=(f"{size} hose", "flexible hose", "hose"),
                where_used=_say_places(hose.pieces, words),
                alternate=words("instead_hose"),
                name=f"{size} flexible hose",
            )
        )
    wants += [_name_fitting(fitting, display, words) for fitting in taken.fittings]
    for gate in taken.gates:
        size, printed = _size(gate.diameter_m, display), _print(gate.diameter_m, display)
        wants.append(
            Want(
                group=group,
                item=words("gate", size=printed),
                detail=words("gate_detail"),
                needed=gate.count,
                unit="each",
                place=supplier,
                keys=("gate", "blast gate"),
                name=f"{size} gate",
            )
        )
    for clamp in taken.clamps:
        size, printed = _size(clamp.diameter_m, display), _print(clamp.diameter_m, display)
        wants.append(
            Want(
                group=group,
                item=words("clamp", size=printed),
                detail=words("clamp_detail"),
                needed=clamp.count,
                unit="each",
                place=hardware,
                keys=("hose clamp",),
                name=f"{size} hose clamp",
            )
        )
    return wants + _list_joining(taken, display, words)


def _list_joining(taken: Takeoff, display: Display, words: Phrases) -> list[Want]:
    metric, group, hardware = is_metric(display), words("group_ducts"), words("place_hardware")
    roll, roll_size = (45.0, "45 m") if metric else (50 * 3 * FOOT, "50 yd")
    wire, wire_size = (10.0, "10 m") if metric else (25 * FOOT, "25 ft")
    gauge, length = ("4.2", "13 mm") if metric else ("No. 8", "1/2 in")
    apart = "2.4 m" if display.reader.system == "metric" else f"{HANGER_APART_M / FOOT:.0f} ft"
    wants = [
        Want(
            group=group,
            item=words("tape"),
            detail=words("tape_detail_metric" if metric else "tape_detail_inch"),
            needed=taken.tape_m,
            unit="m",
            place=hardware,
            waste=WASTE,
            pack=roll,
            sold="roll",
            keys=("duct tape", "aluminium tape"),
            where_used=words("tape_use"),
            name="foil tape",
            size=roll_size,
        ),
        Want(
            group=group,
            item=words("screw_sheet", gauge=gauge, length=length),
            detail=words("box_of_100"),
            needed=taken.screws,
            unit="screw",
            place=hardware,
            waste=SCREW_WASTE,
            pack=100.0,
            sold="box",
            keys=("sheet-metal screw",),
            where_used=words("screw_sheet_use", count=JOINT_SCREWS),
            name=f"{gauge} x {length} sheet-metal screw",
            size="100",
        ),
        Want(
            group=group,
            item=words("hanger"),
            detail=words("hanger_detail"),
            needed=taken.hangers,
            unit="each",
            place=hardware,
            keys=("hanger",),
            where_used=words("hanger_use", apart=apart),
            name="pipe hanger",
        ),
        Want(
            group=group,
            item=words("wire"),
            detail=words("wire_detail"),
            needed=taken.bonding_m,
            unit="m",
            place=hardware,
            waste=WIRE_WASTE,
            pack=wire,
            sold="coil",
            keys=("ground wire",),
            where_used=words("wire_use_plastic" if taken.plastic else "wire_use"),
            name="bonding wire",
            size=wire_size,
        ),
    ]
    return wants if taken.pipes else wants[-1:]


def _say_places(count: int, words: Phrases) -> str:
    return words("place_one") if count == 1 else words("place_many", count=count)


def _size(diameter_m: float, display: Display) -> str:
    """Return a duct's size as it is known and priced."""
    return write_length(diameter_m * 1000, display.buyer)


def _print(diameter_m: float, display: Display) -> str:
    return write_sold(diameter_m * 1000, display)


def _name_fitting(fitting: Counted, display: Display, words: Phrases) -> Want:
    size, other = _size(fitting.diameter_m, display), _size(fitting.other_m, display)
    printed = {"size": _print(fitting.diameter_m, display), "other": _print(fitting.other_m, display)}
    angle, detail = f"{fitting.turn_deg:g}°", ""
    keys: tuple[str, ...] = ()
    if fitting.kind == "other":  # the user's own name for it
        item = name = fitting.detail
        detail = printed["size"]
    elif fitting.kind == "taper":
        item, name, keys = words("taper", **printed), f"{size} to {other} reducer", ("reducer",)
        detail = words("taper_angle", angle=angle) if fitting.turn_deg else words("taper_sudden")
        if fitting.detail == LEFT_OUT:
            detail = words("taper_left_out")
    elif fitting.kind == "elbow":
        item, name = words("elbow", size=printed["size"], angle=angle), f"{size} elbow {angle}"
        keys = (f"{size} elbow", "elbow")
        detail = words(f"make_{fitting.detail.replace('-', '_').replace(' ', '_')}")
    else:
        item = words("wye" if fitting.kind == "wye" else "tee", **printed, angle=angle)
        name, keys = f"{size} x {other} {fitting.kind} {angle}", (f"{size} {fitting.kind}", fitting.kind)
        detail = words("wye_detail") if fitting.kind == "wye" else ""
    return Want(
        group=words("group_ducts"),
        item=item,
        detail=detail,
        needed=fitting.count,
        unit="each",
        place=words("place_ducts"),
        keys=keys,
        name=name,
    )

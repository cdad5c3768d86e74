"""The bill's lines for the ducts: pipe, hose, fittings, gates, clamps, tape, screws, hangers and bonding."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.airflow.takeoff import Counted, take_off
from calc.measures.quantity import Reader, write_length
from packet.bill import Want
from packet.bill_box import HARDWARE, SCREW_WASTE, WASTE, read_for

if TYPE_CHECKING:
    from calc.project import Project

DUCTS, SUPPLIER = "Ducts", "duct supplier"
FOOT = 0.3048
ELBOW_WORDS = {"5-piece": "5 piece", "4-piece": "4 piece", "3-piece": "3 piece"}
STICKS = {True: (3.0, "3 m length"), False: (5 * FOOT, "5 ft length")}
"""Length of a pipe as bought: metric, inch (common practice, no source)."""


def list_ducts(project: Project) -> list[Want]:
    """Return all that the ducts take."""
    reader, metric = read_for(project), project.display.system == "metric"
    taken = take_off(project)
    stick, stick_name = STICKS[metric]
    wants = []
    for pipe in taken.pipes:
        size = _size(pipe.diameter_m, reader)
        wants.append(
            Want(DUCTS, f"{size} pipe", pipe.material, pipe.length_m, "m", SUPPLIER, WASTE, stick, stick_name,
                 (f"{size} {pipe.material} pipe", "pipe"), _say_places(pipe.pieces))
        )  # fmt: skip
    for hose in taken.hoses:
        size, (unit, unit_name) = _size(hose.diameter_m, reader), ((1.0, "metre") if metric else (FOOT, "foot"))
        wants.append(
            Want(DUCTS, f"{size} flexible hose", f"{hose.material} inside", hose.length_m, "m",
                 SUPPLIER, WASTE, unit, unit_name, (f"{size} hose", "flexible hose", "hose"),
                 _say_places(hose.pieces), "smooth pipe where nothing moves: it loses less")
        )  # fmt: skip
    wants += [_name_fitting(fitting, reader) for fitting in taken.fittings]
    for gate in taken.gates:
        size = _size(gate.diameter_m, reader)
        wants.append(Want(DUCTS, f"{size} gate", "", gate.count, "each", SUPPLIER, keys=("gate", "blast gate")))
    for clamp in taken.clamps:
        size = _size(clamp.diameter_m, reader)
        wants.append(
            Want(DUCTS, f"{size} hose clamp", "worm drive", clamp.count, "each", HARDWARE, keys=("hose clamp",))
        )
    return wants + _list_joining(taken_tape=taken.tape_m, screws=taken.screws, hangers=taken.hangers,
                                 bonding=taken.bonding_m, metric=metric, plastic=taken.plastic,
                                 pipes=bool(taken.pipes))  # fmt: skip


def _list_joining(
    *, taken_tape: float, screws: int, hangers: int, bonding: float, metric: bool, plastic: bool, pipes: bool
) -> list[Want]:
    roll, roll_name = (45.0, "roll of 45 m") if metric else (50 * 3 * FOOT, "roll of 50 yd")
    wire, wire_name = (10.0, "10 m") if metric else (25 * FOOT, "25 ft")
    screw = "4.2 x 13 mm sheet-metal screw" if metric else "No. 8 x 1/2 in sheet-metal screw"
    wants = [
        Want(DUCTS, "foil tape", "UL 181 or equal" if not metric else "aluminium", taken_tape, "m", HARDWARE, WASTE,
             roll, roll_name, ("duct tape", "aluminium tape"), "every joint"),
        Want(DUCTS, screw, "box of 100", screws, "screw", HARDWARE, SCREW_WASTE, 100.0, "box of 100",
             ("sheet-metal screw",), "3 a joint; none into a plastic pipe where chips can hang"),
        Want(DUCTS, "pipe hanger", "strap or ring", hangers, "each", HARDWARE, keys=("hanger",),
             where_used="every 8 ft (2.4 m) and at turns"),
        Want(DUCTS, "bonding wire", "bare copper, with ring terminals", bonding, "m", HARDWARE, 0.2, wire, wire_name,
             ("ground wire",), "across hoses" + (" and plastic pipe" if plastic else "")),
    ]  # fmt: skip
    return wants if pipes else wants[-1:]


def _say_places(count: int) -> str:
    return "in 1 place" if count == 1 else f"in {count} places"


def _size(diameter_m: float, reader: Reader) -> str:
    return write_length(diameter_m * 1000, reader)


def _name_fitting(fitting: Counted, reader: Reader) -> Want:
    size, other = _size(fitting.diameter_m, reader), _size(fitting.other_m, reader)
    angle = f"{fitting.turn_deg:g}°"
    kinds = {
        "elbow": (f"{size} elbow {angle}", ELBOW_WORDS.get(fitting.detail, fitting.detail), (f"{size} elbow", "elbow")),
        "wye": (f"{size} x {other} wye {angle}", "branch in the direction of the air", (f"{size} wye", "wye")),
        "tee": (f"{size} x {other} tee {angle}", "", (f"{size} tee", "tee")),
        "taper": (f"{size} to {other} reducer", f"{angle} included" if fitting.turn_deg else "sudden", ("reducer",)),
        "other": (fitting.detail, size, ()),
    }
    item, detail, keys = kinds[fitting.kind]
    return Want(DUCTS, item, detail, fitting.count, "each", SUPPLIER, keys=keys)

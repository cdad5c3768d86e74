"""All values of a file to the typed, frozen project."""

from __future__ import annotations

import math

from calc import project as p
from packet.fields import PROJECT
from packet.fields.model import Group
from packet.fields.shop import PAPERS
from packet.reading import make_air as air
from packet.reading import make_box as box
from packet.reading.context import Reading, Where
from packet.reading.fill import fill
from packet.reading.tables import default_group
from packet.reading.values import Values


def make_project(values: Values, reading: Reading) -> p.Project:
    """Return the typed project. Call it only when the reading noted no fault."""
    filters = tuple(sorted((box.make_filter(row, reading) for row in values["filters"]), key=lambda each: each.name))
    closure = box.make_common_closure(values["closure"], reading)
    made = {
        "title": fill(p.Title, values["project"]),
        "ports": box.make_ports(values["ports"], filters, closure, reading),
        "dust": fill(p.Dust, get_section(values, "dust", reading)),
        "display": make_display(get_section(values, "display", reading)),
        "shop": make_shop(values["shop"]),
        "blower": air.make_blower(values["blower"]),
        "separator": air.make_separator(values["separator"]),
        "runs": tuple(air.make_run(name, run) for name, run in values["ducts"].items.items()),
        "machines": tuple(air.make_machine(row) for row in values["machines"]),
        "filters": filters,
        "box": box.make_box(values["filter_box"]),
        "gauge": box.make_gauge(get_section(values, "gauge", reading)),
        "methods": fill(p.Methods, get_section(values, "shop_methods", reading)),
        "noise": air.make_noise(get_section(values, "noise", reading)),
        "lining": box.make_lining(values["lining"]),
        "link": air.make_pieces(values["link"]),
        "delivery": air.make_pieces(values["delivery"]),
        "gate_sets": tuple(fill(p.GateSet, row) for row in values["gate_sets"] or []),
    }
    assumed = tuple(dict.fromkeys(reading.assumed))
    return fill(p.Project, values, **made, assumed=assumed)


def get_section(values: Values, key: str, reading: Reading) -> Values:
    """Return a section, or its defaults when the file leaves it out."""
    found = values[key]
    if isinstance(found, Values):
        return found
    what = next(known.what for known in PROJECT.fields if known.key == key)
    assert isinstance(what, Group)
    return default_group(what, Where(key, key), reading)


def make_display(values: Values) -> p.Display:
    name = values["paper"] or ("letter" if values["system"] == "inch" else "a4")
    width, height = PAPERS[name]
    if values["sheet"]:
        name, width, height = "sheet", values["sheet"].width_mm, values["sheet"].height_mm
    return fill(p.Display, values, paper=p.Paper(name, width, height, values["margin"], values["overlap"]))


def make_shop(values: Values) -> p.Shop:
    room = values["room"]
    return fill(
        p.Shop,
        values,
        room_width_m=room.width_mm / 1000 if room else None,
        room_depth_m=room.height_mm / 1000 if room else None,
        make_up_opening_m2=find_area(values["make_up_opening"]),
    )


def find_area(opening: Values | None) -> float | None:
    """Return the free area [m2] of an opening given by its diameter, its size or the area itself."""
    if opening is None:
        return None
    if opening["size"]:
        return float(opening["size"].width_mm * opening["size"].height_mm / 1e6)
    if opening["diameter"]:
        return math.pi / 4 * float(opening["diameter"] / 1000) ** 2
    return float(opening["area"])

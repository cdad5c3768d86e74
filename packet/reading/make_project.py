"""All values of a file to the typed, frozen project."""

from __future__ import annotations

import math
from typing import Any, TypeVar

from calc import project as p
from packet.fields import PROJECT
from packet.fields.model import Group
from packet.fields.shop import PAPERS
from packet.reading import make_air as air
from packet.reading import make_box as box
from packet.reading.context import Reading, Where
from packet.reading.fill import fill
from packet.reading.parts import is_whole, list_parts, list_told
from packet.reading.tables import default_group
from packet.reading.values import Values

ShopKind = TypeVar("ShopKind", bound=p.Shop)


def make_project(values: Values, reading: Reading) -> p.Given:
    """Return the typed project: a whole shop where the file has all of one, else what it says of the parts.

    Call it only when the reading noted no fault.
    """
    return make_whole(values, reading) if is_whole(values) else make_given(values, reading)


def make_whole(values: Values, reading: Reading) -> p.Project:
    """Return a project that has every part."""
    filters = make_filters(values, reading)
    closure = box.make_common_closure(values["closure"], reading)
    made = {
        "title": fill(p.Title, values["project"]),
        "ports": box.make_ports(values["ports"], filters, closure, reading),
        "display": make_display(get_section(values, "display", reading)),
        **make_air(values, filters, reading),
        "shop": make_shop(p.Room, values["shop"]),
        "box": box.make_box(values["filter_box"]),
        "panel": None,
        "methods": fill(p.Methods, get_section(values, "shop_methods", reading)),
        "lining": box.make_lining(values["lining"]),
    }
    assumed = tuple(dict.fromkeys(reading.assumed))
    return fill(p.Project, values, **made, assumed=assumed)


def make_given(values: Values, reading: Reading) -> p.Given:
    """Return what the file says of the parts that can be made; nothing is assumed of a part that it leaves out."""
    has, read = list_parts(values), tuple(reading.assumed)
    reading.assumed.clear()
    made: dict[str, Any] = dict.fromkeys(
        ("shop", "dust", "blower", "separator", "box", "panel", "gauge", "noise", "lining")
    )
    made |= dict.fromkeys(("runs", "machines", "filters", "ports", "link", "delivery", "gate_sets"), ())
    if "air" in has:
        made |= make_air(values, make_filters(values, reading), reading)
    if "box" in has:
        made |= make_boxed(values, reading)
    elif "pails" in has:
        closure = box.make_common_closure(values["closure"], reading)
        made["ports"] = box.make_openings(values["ports"], closure, reading)
        made["panel"] = box.make_board(values, reading)
        made["filters"] = made["filters"] or box.make_cartridges(values["filters"] or [], reading)
    if not {"pails", "box"} & has:  # a gasket lies on a lid
        reading.assumed[:] = [path for path in reading.assumed if ".gasket_" not in path]
    if values["gauge"] and made["gauge"] is None:
        made["gauge"] = box.make_gauge(values["gauge"])
    if "gauge" in has and made["shop"] is None:
        made |= make_read(values, made, reading)
    made["title"] = fill(p.Title, values["project"])
    made["display"] = make_display(get_section(values, "display", reading))
    made["methods"] = fill(p.Methods, get_section(values, "shop_methods", reading))
    told = [path for path in read if path.split(".")[0] in list_told(has)]
    kind = p.Aired if "air" in has else p.Boxed if "box" in has else p.Given
    assumed = [path for path in (*told, *reading.assumed) if "air" in has or not path.endswith(OF_AIR)]
    return fill(kind, values, **made, assumed=tuple(dict.fromkeys(assumed)))


def make_read(values: Values, made: dict[str, Any], reading: Reading) -> dict[str, Any]:
    """Return the fields that a gauge for readings takes more: the shop's warmth, and blower and media where given."""
    shop = get_section(values, "shop", reading)
    reading.assumed[:] = [path for path in reading.assumed if not path.startswith("shop.")]
    if not shop.is_given("temperature"):
        reading.assumed.append("shop.temperature")
    media = make_filters(values, reading) if values["blower"] else ()
    reading.assumed[:] = [path for path in reading.assumed if ".gasket_" not in path]
    return {
        "shop": make_shop(p.Shop, shop),
        "blower": air.make_blower(values["blower"]) if values["blower"] else None,
        "filters": media or made["filters"],
    }


def make_boxed(values: Values, reading: Reading) -> dict[str, Any]:
    """Return the fields of a project that a box without air takes; what the media do to the air is not asked."""
    filters = make_filters(values, reading)
    reading.assumed[:] = [path for path in reading.assumed if not path.endswith(".permeability")]
    closure = box.make_common_closure(values["closure"], reading)
    blower = air.make_blower(values["blower"]) if values["blower"] else None
    return {
        "filters": filters,
        "ports": box.make_ports(values["ports"], filters, closure, reading),
        "shop": make_shop(p.Room, values["shop"]),
        "blower": blower,
        "box": box.make_box_alone(values["filter_box"], blower, reading),
        "lining": box.make_lining(values["lining"]),
    }


OF_AIR = (".residual", ".cake_resistance", "shop.altitude", "shop.humidity")
"""Values that only the air of a shop asks for; what a gauge alone makes of them cannot be read on it."""


def make_filters(values: Values, reading: Reading) -> tuple[p.Filter, ...]:
    """Return the kinds of filter, by their names."""
    made = (box.make_filter(row, reading) for row in values["filters"] or [])
    return tuple(sorted(made, key=lambda each: each.name))


def make_air(values: Values, filters: tuple[p.Filter, ...], reading: Reading) -> dict[str, Any]:
    """Return the fields of a project that its air takes."""
    return {
        "filters": filters,
        "dust": fill(p.Dust, get_section(values, "dust", reading)),
        "shop": make_shop(p.Shop, get_section(values, "shop", reading)),
        "blower": air.make_blower(values["blower"]),
        "separator": air.make_separator(values["separator"]),
        "runs": tuple(air.make_run(name, run) for name, run in values["ducts"].items.items()),
        "machines": tuple(air.make_machine(row) for row in values["machines"]),
        "gauge": box.make_gauge(get_section(values, "gauge", reading)),
        "noise": air.make_noise(get_section(values, "noise", reading)),
        "link": air.make_pieces(values["link"]),
        "delivery": air.make_pieces(values["delivery"]),
        "gate_sets": tuple(fill(p.GateSet, row) for row in values["gate_sets"] or []),
    }


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


def make_shop(kind: type[ShopKind], values: Values) -> ShopKind:
    room = values["room"]
    return fill(
        kind,
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

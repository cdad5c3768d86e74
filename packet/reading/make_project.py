"""All values of a file to the typed, frozen project."""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from calc import project as p
from packet.fields import PROJECT
from packet.fields.model import Group
from packet.fields.shop import PAPERS
from packet.reading import make_air as air
from packet.reading import make_box as box
from packet.reading.context import Reading, Where
from packet.reading.tables import default_group
from packet.reading.values import NamedValues, Values


def make_project(values: Values, reading: Reading) -> p.Project:
    """Return the typed project. Call it only when the reading noted no fault."""
    filters = tuple(box.make_filter(row, reading) for row in values["filters"])
    closure = box.make_closure(values["closure"], p.Closure())
    if values["closure"] is None:
        reading.assumed.append("closure")
    else:
        given = values["closure"]
        reading.assumed += [f"closure.{key}" for key in box.SHAPING if not given.is_given(key)]
    count = sum(one.count for one in filters)
    ports = box.make_ports(values["ports"], count, closure, reading)
    dust = air.make_dust(get_section(values, "dust", reading))
    return p.Project(
        title=make_title(values["project"]),
        display=make_display(get_section(values, "display", reading)),
        shop=make_shop(values["shop"]),
        dust=dust,
        blower=air.make_blower(values["blower"]),
        separator=air.make_separator(values["separator"]),
        runs=tuple(air.make_run(name, run) for name, run in values["ducts"].items.items()),
        machines=tuple(air.make_machine(row) for row in values["machines"]),
        filters=filters,
        box=box.make_box(values["filter_box"]),
        ports=ports,
        gauge=box.make_gauge(get_section(values, "gauge", reading)),
        methods=box.make_methods(get_section(values, "shop_methods", reading)),
        noise=air.make_noise(get_section(values, "noise", reading)),
        lining=box.make_lining(values["lining"]),
        link=air.make_pieces(values["link"]),
        delivery=air.make_pieces(values["delivery"]),
        gate_sets=air.make_gate_sets(values["gate_sets"]),
        prices=freeze(values["prices"]),
        on_hand=freeze(values["on_hand"]),
        buy_at=freeze(values["buy_at"]),
        money=values["money"],
        assumed=tuple(dict.fromkeys([*(values["assumed"] or ()), *reading.assumed])),
    )


def get_section(values: Values, key: str, reading: Reading) -> Values:
    """Return a section, or its defaults when the file leaves it out."""
    found = values[key]
    if isinstance(found, Values):
        return found
    what = next(known.what for known in PROJECT.fields if known.key == key)
    assert isinstance(what, Group)
    return default_group(what, Where(key, key), reading)


def freeze(named: NamedValues | None) -> Mapping[str, Any]:
    return MappingProxyType(dict(named.items) if named else {})


def make_title(values: Values) -> p.Title:
    return p.Title(
        values["title"], values["revision"], values["date"], values["drawn_by"], tuple(values["notes"] or ())
    )


def make_display(values: Values) -> p.Display:
    system: p.System = values["system"]
    name = values["paper"] or ("letter" if system == "inch" else "a4")
    width, height = PAPERS[name]
    if values["sheet"]:
        name, width, height = "sheet", values["sheet"].width_mm, values["sheet"].height_mm
    printer = values["printer"]
    return p.Display(
        system=system,
        paper=p.Paper(name, width, height, values["margin"], values["overlap"]),
        fraction=values["fraction"],
        language=values["language"],
        printer_x=printer["x"] if printer else 1.0,
        printer_y=printer["y"] if printer else 1.0,
        most_sheets=values["most_sheets"],
        extra_templates=values["extra_templates"],
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


def make_shop(values: Values) -> p.Shop:
    door, room = values["doorway"], values["room"]
    return p.Shop(
        altitude_m=values["altitude"],
        temperature_k=values["temperature"],
        humidity=values["humidity"],
        ceiling_mm=values["ceiling"],
        doorway_width_mm=door.width_mm if door else None,
        doorway_height_mm=door.height_mm if door else None,
        room_width_m=room.width_mm / 1000 if room else None,
        room_depth_m=room.height_mm / 1000 if room else None,
        barometer_pa=values["barometer"],
        clean_air=values["clean_air"],
        flued_appliance=values["flued_appliance"],
        appliance_draught_pa=values["appliance_draught"],
        make_up_opening_m2=find_area(values["make_up_opening"]),
    )

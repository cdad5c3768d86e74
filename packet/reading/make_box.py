"""Values of filters, box, ports and gauge to the typed project."""

from __future__ import annotations

import string
from dataclasses import fields, replace
from typing import Any

from calc import project as p
from packet.reading.context import Reading
from packet.reading.fill import change, fill, list_filled
from packet.reading.scalars import read_limit
from packet.reading.values import Values

COMMON_PAIL_ACROSS = "11-7/8 in"
COMMON_PRESSURE = "16 inH2O"
"""Above what the blowers of small shops make with all gates shut (common practice, no source)."""

COMMON_PANEL = ("plywood", "18 mm")
COMMON_PERMEABILITY = ("20 cfm/ft2", "0.5 inH2O")


def make_filter(values: Values, reading: Reading) -> p.Filter:
    """Return the filter; media of which nothing is known lets through what is common, and is noted as assumed."""
    common = {}
    if not values["permeability"] and not values["loss"]:
        common["permeability_ms"] = read_limit(COMMON_PERMEABILITY[0], "face_speed_ms")
        common["permeability_pa"] = read_limit(COMMON_PERMEABILITY[1], "pressure_pa")
        reading.assumed.append(values.where.key("permeability").known)
    for key in ("gasket_inside", "gasket_outside", "gasket_thick", "cake_resistance"):
        if not values.is_given(key):
            reading.assumed.append(values.where.key(key).known)
    return fill(p.Filter, values, **common)


def make_cartridges(rows: list[Values], reading: Reading) -> tuple[p.Cartridge, ...]:
    """Return the filters as lids and gaskets need them; nothing is said of their media."""
    made = []
    for row in rows:
        for key in ("gasket_inside", "gasket_outside"):
            if row[key] is None:
                reading.assumed.append(row.where.key(key).known)
        made.append(p.Cartridge(**keep_fields(p.Cartridge, list_filled(p.Filter, row, {}))))
    return tuple(made)


def keep_fields(kind: type, values: dict[str, Any]) -> dict[str, Any]:
    """Return of some values by field those that a dataclass has."""
    names = {field.name for field in fields(kind)}
    return {name: value for name, value in values.items() if name in names}


def make_board(values: Values, reading: Reading) -> p.Panel:
    """Return what the holes are cut into: the box's panel, the file's own, else a common one, noted as assumed."""
    filter_box = values["filter_box"]
    panel = filter_box["panel"] if isinstance(filter_box, Values) else values["panel"]
    if isinstance(panel, Values):
        return make_panel(panel)
    reading.assumed.append("panel")
    thick = read_limit(COMMON_PANEL[1], "length_mm")
    return p.Panel(stock=COMMON_PANEL[0], thickness_mm=thick, nominal_mm=thick)


def make_sheet(size: Any) -> p.Sheet:
    return p.Sheet(size.width_mm, size.height_mm)


def make_panel(values: Values) -> p.Panel:
    return fill(
        p.Panel,
        values,
        nominal_mm=values["nominal"] or values["thickness"],
        sheet=make_sheet(values["sheet"]),
        offcuts=tuple(make_sheet(size) for size in values["offcuts"] or []),
    )


def make_box(values: Values) -> p.FilterBox:
    inside = values["inside"] if isinstance(values["inside"], Values) else None
    return fill(
        p.FilterBox,
        values,
        width_mm=inside["width"] if inside else None,
        depth_mm=inside["depth"] if inside else None,
        height_mm=inside["height"] if inside else None,
        panel=make_panel(values["panel"]),
        inlet=fill(p.Inlet, values["inlet"]),
    )


def make_box_alone(values: Values, blower: p.Blower | None, reading: Reading) -> p.FilterBox:
    """Return the box of a file without air: its highest pressure is the file's, the blower's, or assumed high."""
    box = make_box(values)
    if box.most_pa is not None:
        return box
    if blower is not None:
        return replace(box, most_pa=max(point.pressure_pa for point in blower.curve))
    reading.assumed.append(values.where.key("pressure").known)
    return replace(box, most_pa=read_limit(COMMON_PRESSURE, "pressure_pa"))


def make_lining(values: Values | str | None) -> p.Lining | None:
    if not isinstance(values, Values):
        return None
    return fill(p.Lining, values, piece=make_sheet(values["piece"]) if values["piece"] else None)


def make_pail(values: Values | None, known: str, reading: Reading) -> p.Pail:
    """Return the pail; one that nobody measured is the common five-gallon pail, and is noted as assumed."""
    common = (read_limit(COMMON_PAIL_ACROSS, "length_mm"),)
    if values is None:
        reading.assumed.append(known)
        return p.Pail(across_mm=common)
    reading.assumed += [f"{known}.{key}" for key in ("top", "bottom", "height", "wall") if not values.is_given(key)]
    if values["across"] or values["around"] is not None:
        return fill(p.Pail, values)
    reading.assumed.append(f"{known}.across")
    return fill(p.Pail, values, across_mm=common)


SHAPING = ("flange", "flange_thick", "ring_height", "lid", "lid_thick", "lid_height", "land_outside", "land",
           "hook_hole", "hook_edge")  # fmt: skip
"""Measures of the ring and lid. Screws, hooks, relief and room to turn are choices of method."""


def make_common_closure(values: Values | None, reading: Reading) -> p.Closure:
    """Return the ring and lid all ports share; what shapes a cut and is not in the file is noted as assumed."""
    if values is None:
        reading.assumed.append("closure")
        return p.Closure()
    reading.assumed += [f"closure.{key}" for key in SHAPING if not values.is_given(key)]
    return change(p.Closure(), values)


def make_ports(
    rows: list[Values] | None, kinds: tuple[p.Filter, ...], common: p.Closure, reading: Reading
) -> tuple[p.Port, ...]:
    """Return the ports; without any in the file: one a filter, one to reach in, one for the gauge."""
    if rows is None:
        reading.assumed.append("ports")
        pail = p.Pail(across_mm=(read_limit(COMMON_PAIL_ACROSS, "length_mm"),))
        hung = [each.name for each in kinds for _ in range(each.count)]
        filters = tuple(
            p.Port(name=f"filter {letter}", kind="filter", face="bottom", pail=pail, closure=common, filter=name)
            for letter, name in zip(string.ascii_uppercase, hung, strict=False)
        )
        others = (
            p.Port(name="inspection", kind="inspection", face="front", pail=pail, closure=common),
            p.Port(name="gauge", kind="gauge", face="front", pail=pail, closure=common),
        )
        return filters + others
    return tuple(
        fill(
            p.Port,
            row,
            pail=make_pail(row["pail"], row.where.key("pail").known, reading),
            closure=change(common, row["closure"]) if row["closure"] else common,
        )
        for row in rows
    )


def make_openings(rows: list[Values], common: p.Closure, reading: Reading) -> tuple[p.Opening, ...]:
    """Return the openings of a file that has no box to put them in."""
    return tuple(
        p.Opening(
            name=row["name"],
            kind=row["kind"],
            pail=make_pail(row["pail"], row.where.key("pail").known, reading),
            closure=change(common, row["closure"]) if row["closure"] else common,
        )
        for row in rows
    )


def make_gauge(values: Values) -> p.Gauge:
    clean_when = values["clean_when"]
    drop = p.Gauge.clean_flow_drop
    if clean_when is not None:
        drop = clean_when["flow_drops"] if isinstance(clean_when, Values) else None
    return fill(p.Gauge, values, clean_flow_drop=drop)

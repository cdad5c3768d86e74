"""Values of filters, box, ports, gauge and methods to the typed project."""

from __future__ import annotations

import string
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from calc import project as p
from packet.reading.context import Reading
from packet.reading.scalars import read_limit
from packet.reading.values import Values

COMMON_PAIL_ACROSS = "11-7/8 in"
COMMON_PERMEABILITY = ("20 cfm/ft2", "0.5 inH2O")


def make_filter(values: Values, reading: Reading) -> p.Filter:
    permeability, loss = values["permeability"], values["loss"]
    if permeability:
        through, at = permeability.value, permeability.at
    elif loss:
        through = at = None
    else:
        through = read_limit(COMMON_PERMEABILITY[0], "face_speed_ms")
        at = read_limit(COMMON_PERMEABILITY[1], "pressure_pa")
        reading.assumed.append(values.where.key("permeability").known)
    for key in ("gasket_inside", "gasket_outside"):
        if values[key] is None:
            reading.assumed.append(values.where.key(key).known)
    return p.Filter(
        count=values["count"],
        media_m2=values["media_area"],
        outside_mm=values["outside"],
        bore_mm=values["bore"],
        height_mm=values["height"],
        weight_kg=values["weight"],
        permeability_ms=through,
        permeability_pa=at,
        loss_pa=loss.value if loss else None,
        loss_at_m3s=loss.at if loss else None,
        cake_resistance=values["cake_resistance"],
        residual=values["residual"],
        most_pa=values["most"],
        grade=values["grade"],
        gasket_outside_mm=values["gasket_outside"],
        gasket_inside_mm=values["gasket_inside"],
        gasket_thick_mm=values["gasket_thick"],
        name=values["name"],
    )


def make_sheet(size: Any) -> p.Sheet:
    return p.Sheet(size.width_mm, size.height_mm)


def make_panel(values: Values) -> p.Panel:
    return p.Panel(
        stock=values["stock"],
        thickness_mm=values["thickness"],
        nominal_mm=values["nominal"] or values["thickness"],
        sheet=make_sheet(values["sheet"]),
        bending_pa=values["modulus"],
        across_pa=values["modulus_across"],
        density=values["density"],
        grain_matters=values["grain_matters"],
        offcuts=tuple(make_sheet(size) for size in values["offcuts"] or []),
    )


def make_box(values: Values) -> p.FilterBox:
    inside = values["inside"] if isinstance(values["inside"], Values) else None
    inlet = values["inlet"]
    return p.FilterBox(
        width_mm=inside["width"] if inside else None,
        depth_mm=inside["depth"] if inside else None,
        height_mm=inside["height"] if inside else None,
        panel=make_panel(values["panel"]),
        inlet=p.Inlet(inlet["face"], inlet["diameter"], inlet["across"], inlet["up"]),
        hung=values["hung"],
        side=values["side"],
        joint=values["joint"],
        removable=values["removable"],
        underside_mm=values["underside"],
        ceiling_gap_mm=values["ceiling_gap"],
        cart_wheelbase_mm=values["wheelbase"],
        cart_weight_kg=values["cart_weight"],
    )


def make_lining(values: Values | str | None) -> p.Lining | None:
    if not isinstance(values, Values):
        return None
    absorption = values["absorption"]
    return p.Lining(
        stock=values["stock"],
        thickness_mm=values["thickness"],
        faces=tuple(values["faces"]),
        piece=make_sheet(values["piece"]) if values["piece"] else None,
        absorption=MappingProxyType(dict(sorted(absorption.items.items())) if absorption else {}),
    )


def make_pail(values: Values | None, known: str, reading: Reading) -> p.Pail:
    """Return the pail; one that nobody measured is the common five-gallon pail, and is noted as assumed."""
    if values is None:
        reading.assumed.append(known)
        return p.Pail((read_limit(COMMON_PAIL_ACROSS, "length_mm"),))
    reading.assumed += [f"{known}.{key}" for key in ("top", "bottom", "height") if not values.is_given(key)]
    across = tuple(values["across"] or ())
    if not across and values["around"] is None:
        reading.assumed.append(f"{known}.across")
        across = (read_limit(COMMON_PAIL_ACROSS, "length_mm"),)
    return p.Pail(across, values["around"], values["top"], values["bottom"], values["height"], values["wall"])


SHAPING = ("flange", "lid", "land_outside", "land", "hook_hole", "hook_edge")
"""Sizes of the ring and lid that shape a line somebody cuts."""


def make_closure(values: Values | None, common: p.Closure) -> p.Closure:
    """Return the common closure with what the values themselves say in place of it."""
    if values is None:
        return common
    changed = {(key if key in ("screws", "hooks") else f"{key}_mm"): values[key] for key in values.places}
    return replace(common, **changed)


def make_ports(rows: list[Values] | None, count: int, common: p.Closure, reading: Reading) -> tuple[p.Port, ...]:
    """Return the ports; without any in the file: one a filter, one to reach in, one for the gauge."""
    if rows is None:
        reading.assumed.append("ports")
        pail = p.Pail((read_limit(COMMON_PAIL_ACROSS, "length_mm"),))
        filters = tuple(
            p.Port(f"filter {letter}", "filter", "bottom", pail, closure=common)
            for letter in string.ascii_uppercase[:count]
        )
        others = (
            p.Port("inspection", "inspection", "front", pail, closure=common),
            p.Port("gauge", "gauge", "front", pail, closure=common),
        )
        return filters + others
    return tuple(
        p.Port(
            name=row["name"],
            kind=row["kind"],
            face=row["face"],
            pail=make_pail(row["pail"], row.where.key("pail").known, reading),
            across_mm=row["across"],
            up_mm=row["up"],
            closure=make_closure(row["closure"], common),
        )
        for row in rows
    )


def make_gauge(values: Values) -> p.Gauge:
    clean_when = values["clean_when"]
    drop = p.Gauge.clean_flow_drop
    if clean_when is not None:
        drop = clean_when["flow_drops"] if isinstance(clean_when, Values) else None
    return p.Gauge(
        kind=values["kind"],
        fluid=values["fluid"],
        read_at=values["read_at"],
        clean_flow_drop=drop,
        slope=values["slope"],
        tube_bore_mm=values["tube_bore"],
        well_bore_mm=values["well_bore"],
        mount=values["mount"],
        fitting_hole_mm=values["fitting_hole"],
        tube_length_mm=values["tube_length"],
    )


def make_methods(values: Values) -> p.Methods:
    return p.Methods(
        holes=values["holes"],
        lids=values["lids"],
        panels=values["panels"],
        seal=values["seal"],
        helper=values["helper"],
        kerf_mm=values["kerf"],
        bit_mm=values["bit"],
        allowance_mm=values["allowance"],
        base_mm=values["jigsaw_base"],
        bead_mm=values["bead"],
        screw_spacing_mm=values["screw_spacing"],
        lift_limit_kg=values["lift_limit"],
        material_lift=values["material_lift"],
    )

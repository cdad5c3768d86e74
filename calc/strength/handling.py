"""Weights to lift, who lifts them, whether they pass the door, and when a cart tips."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from calc.airflow.dust import weigh_pail_dust
from calc.box.joints import BoxShape
from calc.box.lining import LiningPlan
from calc.box.mounts import Mount
from calc.box.parts import BoxPart
from calc.box.ports import PortDesign
from calc.box.standing import find_stand
from calc.finding import Said, say
from calc.project import Aired
from calc.settled import Settled
from calc.shapes.faces import find_spot
from calc.shapes.part_names import say_panel
from calc.stock import find_lining_density, find_stock
from calc.strength.tipping import (
    Weight,
    find_caster_load,
    find_centre,
    find_nearest_edge,
    find_tip_pull,
    find_tip_slope,
)

CLOSURE_KG = 0.9
"""Ring and screw lid together (common practice, no source: weigh yours)."""

PLASTIC_DENSITY = 950.0  # polyethylene, kg/m3 (general tables, from memory)
ARM_SPAN_MM = 1500.0
"""One person does not steer a panel longer than this safely (common practice, no source)."""

CASTER_KG = 0.5
"""A 3 in caster with its plate (common practice, no source)."""

CART_CENTRE_MM = 250.0
"""Height of an empty cart's own centre of weight, floor to chassis (common practice, no source)."""

TIP_DEG = 10.0
"""Stability asked of free-standing appliances on a slope: 10 degrees (IEC 60335-1 clause 20.1, from memory)."""


BOX = "box, empty"
"""Name of the load that is hung."""

BARE = "box, bare"
"""The same before it is lined and closed, where it goes up so."""


@dataclass(frozen=True, kw_only=True)
class Load:
    """Something that is lifted or carried by hand; sizes [mm] are those that must pass the door.

    name: as it stands in data; what: as it is printed
    """

    name: str
    what: Said
    weight_kg: float
    people: int
    sizes_mm: tuple[float, float, float]
    through_door: bool | None  # None: no doorway in the file


@dataclass(frozen=True, kw_only=True)
class Handling:
    """hanging_kg: under each port by name, its filter at *clean me* and its pail at the level where it is emptied;
    box_kg: box with lining and rings, empty; total_kg: box and all that hangs
    filter_kg, pail_kg: the heaviest filter at *clean me* with its lid, and the heaviest pail at that level

    bare_kg: the carcass without its removable face and its lining

    tip_deg: slope at which a cart with everything on it tips; None: not on a cart; cart_kg: the empty cart
    pull_n: level pull at pull_at_mm above the floor that lifts a wheel, dusty or clean, whichever is less; steady_mm:
    from the centre of weight to the nearest line of wheels then. caster_kg: what each caster must carry
    blower_kg: of a blower on the cart
    """

    loads: tuple[Load, ...]
    hanging_kg: dict[str, float]
    box_kg: float
    total_kg: float
    filter_kg: float
    pail_kg: float
    tip_deg: float | None
    cart_kg: float = 0.0
    bare_kg: float = 0.0
    pull_n: float = 0.0
    pull_at_mm: float = 0.0
    steady_mm: float = 0.0
    caster_kg: float = 0.0
    blower_kg: float = 0.0


def weigh_part(project: Settled, part: BoxPart) -> float:
    """Return a part's weight [kg], holes taken off."""
    area = part.width_mm * part.height_mm - sum(math.pi * h.diameter_mm**2 / 4 for h in part.holes)
    return find_stock(project.box.panel).density * area * part.thickness_mm / 1e9 * part.quantity


def find_blower_weight(project: Settled) -> float:
    """Return the weight [kg] of the blower; 0 where the file does not say it, or no blower."""
    return (project.blower.weight_kg if project.blower else None) or 0.0


def weigh_pail(project: Settled, port: PortDesign, *, full: bool) -> float:
    """Return the weight [kg] of a port's catch pail, empty or with dust to the level where it is emptied."""
    pail = port.port.pail
    r, s = pail.bottom_mm / 2000, pail.top_mm / 2000
    height = pail.height_mm / 1000
    skin = math.pi * (r + s) * math.hypot(height, s - r) + math.pi * r * r
    shell = skin * pail.wall_mm / 1000 * PLASTIC_DENSITY
    return shell + (weigh_pail_dust(project, pail) if full else 0.0)


def weigh_handling(
    project: Settled,
    shape: BoxShape,
    parts: tuple[BoxPart, ...],
    ports: tuple[PortDesign, ...],
    lining: LiningPlan | None,
    mount: Mount,
    areal_kgm2: float,
) -> Handling:
    """Return what everything weighs and who carries it; the rails on the box count with it, a cart by itself.

    areal_kgm2: dust on the filters at *clean me*
    """
    panel_kg = {part.name: weigh_part(project, part) for part in parts}
    mount_kg = {part.name: weigh_part(project, part) for part in mount.parts}
    lining_kg = 0.0
    if lining is not None and project.lining is not None:
        thick = project.lining.thickness_mm
        lining_kg = lining.area_mm2 * thick * find_lining_density(lining.stock) / 1e9
    carried_kg = sum(mount_kg[name] for name in mount.carried)
    box_kg = sum(panel_kg.values()) + carried_kg + lining_kg + CLOSURE_KG * len(ports)
    loads = [
        _make_load(
            project, f"{part.name} panel", say_panel(part.face), panel_kg[part.name], part.width_mm, part.height_mm,
            part.thickness_mm,
        )
        for part in parts
        if part.kind == "panel"
    ]  # fmt: skip
    outside = shape.outside
    sides = outside.width, outside.depth, outside.height
    loads.append(_make_load(project, BOX, Said("handling.box_empty"), box_kg, *sides))
    filter_ports = [port for port in ports if port.port.kind == "filter"]
    hanging = {port.name: weigh_hanging(project, port, areal_kgm2) for port in filter_ports}
    filters = {each.name: each.weight_kg + areal_kgm2 * each.media_m2 + CLOSURE_KG for each in project.filters}
    pails = {port.name: weigh_pail(project, port, full=True) for port in filter_ports}
    loads += _list_hanging_loads(project, filter_ports, filters, pails, hanging)
    sheet = project.box.panel.sheet
    density = find_stock(project.box.panel).density
    thick = project.box.panel.thickness_mm
    whole = sheet.length_mm * sheet.width_mm * thick * density / 1e9
    stock = Said("handling.whole_sheet")
    loads.append(_make_load(project, "whole sheet", stock, whole, sheet.length_mm, sheet.width_mm, thick))
    total = box_kg + sum(hanging.values())
    cart_kg = 0.0
    if mount.wheels_mm is not None:
        built = sum(mount_kg.values()) + CASTER_KG * mount.casters
        cart_kg = project.box.cart_weight_kg if project.box.cart_weight_kg is not None else built
    face = sum(panel_kg[part.name] for part in parts if part.kind == "panel" and part.face == shape.removable)
    bare = Handling(
        loads=tuple(loads),
        hanging_kg=hanging,
        box_kg=box_kg,
        total_kg=total,
        filter_kg=max(filters.values(), default=0.0),
        pail_kg=max(pails.values(), default=0.0),
        tip_deg=None,
        cart_kg=cart_kg,
        bare_kg=box_kg - lining_kg - face,
    )
    if mount.base is None or not cart_kg:
        return bare
    base, at = mount.base, find_pull_height(project, shape)
    states = [
        list_cart_weights(project, shape, ports, mount, box_kg, cart_kg, load) for load in (areal_kgm2, None)
    ]  # clean, a cart is lighter, and not always steadier
    light = min(states, key=lambda weights: find_tip_pull(weights, base, at))
    return replace(
        bare,
        tip_deg=min(find_tip_slope(weights, base) for weights in states),
        pull_n=find_tip_pull(light, base, at),
        pull_at_mm=at,
        steady_mm=find_nearest_edge(find_centre(light), base),
        caster_kg=max(find_caster_load(weights, base) for weights in states),
        blower_kg=find_blower_weight(project) if mount.blower is not None else 0.0,
    )


def _list_hanging_loads(
    project: Settled,
    ports: list[PortDesign],
    filters: dict[str, float],
    pails: dict[str, float],
    hanging: dict[str, float],
) -> list[Load]:
    """Return each kind of filter with its dust, the heaviest pail, and the heaviest filter with its pail below."""
    if not ports:
        return []
    loads, full = [], "full" if isinstance(project, Aired) else "loaded"  # where no air is sized nobody knows CLEAN ME
    for each in project.filters:
        name, what = "filter, full of dust", Said(f"handling.filter_{full}")
        if len(project.filters) > 1:
            name, what = f"{each.name}, full of dust", say(f"handling.filter_{full}_of", filter=each.name)
        across = each.outside_mm
        loads.append(_make_load(project, name, what, filters[each.name], across, across, each.height_mm))
    heavy = max(ports, key=lambda port: (pails[port.name], port.name))
    top, high = heavy.port.pail.top_mm, heavy.port.pail.height_mm
    loads.append(_make_load(project, "catch pail, full", Said("handling.pail_full"), pails[heavy.name], top, top, high))
    most = max(ports, key=lambda port: (hanging[port.name], port.name))
    each, both = project.get_filter(most.port), Said(f"handling.filter_{full}_and_pail")
    across, tall = each.outside_mm, each.height_mm + most.port.pail.height_mm
    loads.append(_make_load(project, "filter and pail together, full", both, hanging[most.name], across, across, tall))
    return loads


def weigh_hanging(project: Settled, port: PortDesign, areal_kgm2: float | None) -> float:
    """Return the weight [kg] under a filter port: filter, its lids and the pail.

    areal_kgm2: dust on the filter, the pail then at the level where it is emptied; None: both clean
    """
    each = project.get_filter(port.port)
    cake = (areal_kgm2 or 0.0) * each.media_m2
    return each.weight_kg + cake + 2 * CLOSURE_KG + weigh_pail(project, port, full=areal_kgm2 is not None)


def _make_load(project: Settled, name: str, what: Said, kg: float, a: float, b: float, c: float) -> Load:
    limit = project.methods.lift_limit_kg
    people = max(1, math.ceil(kg / limit - 1e-9))
    if max(a, b, c) > ARM_SPAN_MM and sorted((a, b, c))[1] > 400.0:
        people = max(people, 2)
    return Load(
        name=name,
        what=what,
        weight_kg=kg,
        people=people,
        sizes_mm=(a, b, c),
        through_door=passes_door(project, (a, b, c)),
    )


def passes_door(project: Settled, sizes: tuple[float, float, float]) -> bool | None:
    """Tell whether something passes the doorway with two of its sizes upright in it; None without a doorway."""
    wide, high = project.shop.doorway_width_mm, project.shop.doorway_height_mm
    if wide is None or high is None:
        return None
    small, middle, _ = sorted(sizes)
    return small <= min(wide, high) and middle <= max(wide, high)


def list_cart_weights(
    project: Settled,
    shape: BoxShape,
    ports: tuple[PortDesign, ...],
    mount: Mount,
    box_kg: float,
    cart_kg: float,
    areal_kgm2: float | None,
) -> tuple[Weight, ...]:
    """Return what stands on a cart's wheels and where: box, what hangs under it, cart, blower.

    areal_kgm2: as in weigh_hanging
    """
    base, underside, outside = mount.base, project.box.underside_mm, shape.outside
    if base is None:
        return ()
    weights = [
        Weight(box_kg, outside.width / 2, outside.depth / 2, underside + outside.height / 2),
        Weight(cart_kg, (base.left_mm + base.right_mm) / 2, (base.front_mm + base.back_mm) / 2, CART_CENTRE_MM),
    ]
    hanging_at = (underside + find_stand(project)) / 2
    for port in ports:
        if port.port.kind == "filter":
            spot = find_spot(port.port.face, port.port.across_mm, port.port.up_mm, outside)
            weights.append(Weight(weigh_hanging(project, port, areal_kgm2), spot.x, spot.y, hanging_at))
    if mount.blower is not None:
        low, high = mount.blower.low, mount.blower.high
        x, y, z = ((a + b) / 2 for a, b in zip(low, high, strict=True))
        weights.append(Weight(find_blower_weight(project), x, y, z + underside))
    return tuple(weights)


def find_pull_height(project: Settled, shape: BoxShape) -> float:
    """Return the height [mm] above the floor at which a hose pulls: the middle of the box's inlet."""
    inlet, underside = project.box.inlet, project.box.underside_mm
    return underside + find_spot(inlet.face, inlet.across_mm, inlet.up_mm, shape.outside).z

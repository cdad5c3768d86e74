"""Screw lids cut by hand: filter lids, the inspection lid and the gauge lid, with what the gasket is left to sit on."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.box.ports import place_on_circle
from calc.finding import Amount, Finding, Limit, Said, Subject, hold
from calc.project import Cartridge, Closure, Gauge
from calc.shapes.shapes import Arc, Circle, Feature, FlatPart, Layer, Line, Point, Size

LAND_MM = 12.0
"""About 1/2 in of flat land is left on a lid's rim for a gasket (common practice, no source)."""

LEAST_LAND_MM = 6.0
"""A gasket on less than about 1/4 in of land leaks (common practice, no source)."""

LEAST_RIM_MM = 4.0
"""Plastic to leave between a hook hole and the rim (common practice, no source)."""

BRACKET_APART_MM = 32.0
BRACKET_HOLE_MM = 4.5
"""Holes for a small pipe clip either side of the gauge fitting, clear for a No. 8 screw."""

CROSS_MM = 8.0


@dataclass(frozen=True, kw_only=True)
class FilterLid:
    """A filter lid, diameters in millimetres about its centre, seen from the underside (the filter's side).

    opening_mm: what is cut out for air; land_outside_mm: where the flat land ends
    hooks: middles of the hook holes; hook_circle_mm: the circle they stand on; hook_edge_mm: the edge they touch
    relief_mm: ribs are cut away between this circle and the edge
    land_mm: flat width left for the gasket, where a hook hole bites into it
    """

    name: str
    ports: tuple[str, ...]
    opening_mm: float
    land_outside_mm: float
    lid_mm: float
    hook_mm: float
    hooks: tuple[Point, ...]
    hook_circle_mm: float
    hook_edge_mm: float
    relief_mm: float
    land_mm: float
    findings: tuple[Finding, ...]


def design_filter_lid(
    closure: Closure, cartridge: Cartridge | None, ports: tuple[str, ...], name: str = "filter lid"
) -> FilterLid:
    """Return the lid that these ports share and the verdicts on its land, hooks and gasket; name: of the part."""
    opening = closure.land_outside_mm - 2 * closure.land_mm
    hook_circle = closure.hook_edge_mm - closure.hook_hole_mm
    hook_inside = closure.hook_edge_mm - 2 * closure.hook_hole_mm
    land_outside = min(closure.land_outside_mm, hook_inside) if closure.hooks else closure.land_outside_mm
    land = (land_outside - opening) / 2
    # The first hook stands off the vertical so that it cannot be taken for the index.
    start = 90.0 + (180.0 / closure.hooks if closure.hooks else 0.0)
    port = ports[0] if ports else "filter"
    findings: tuple[Finding, ...] = (_judge_opening(name, port, opening, land), _judge_rim(name, port, closure))
    if cartridge is not None:
        inside, outside = find_gasket(cartridge)
        seat = max(0.0, (min(outside, land_outside) - max(inside, opening)) / 2)
        findings += (_judge_seat(name, port, seat, (inside, outside), opening, land_outside),)
    return FilterLid(
        name=name,
        ports=ports,
        opening_mm=opening,
        land_outside_mm=closure.land_outside_mm,
        lid_mm=closure.lid_mm,
        hook_mm=closure.hook_hole_mm,
        hooks=place_on_circle(hook_circle, closure.hooks, start),
        hook_circle_mm=hook_circle,
        hook_edge_mm=closure.hook_edge_mm,
        relief_mm=closure.hook_edge_mm - 2 * closure.rib_relief_mm,
        land_mm=land,
        findings=findings,
    )


def find_gasket(cartridge: Cartridge) -> tuple[float, float]:
    """Return inside and outside diameter [mm] of the cartridge's gasket.

    Where the file does not say: from the bore outwards 25 mm, never past the cartridge's outside.
    """
    inside = cartridge.gasket_inside_mm or cartridge.bore_mm
    outside = cartridge.gasket_outside_mm or min(inside + 50.0, cartridge.outside_mm)
    return inside, outside


def make_filter_lid(lid: FilterLid, number: str, closure: Closure, quantity: int, assumed: tuple[str, ...]) -> FlatPart:
    """Return the filter lid as a part, seen from its underside."""
    middle = Point(0.0, 0.0)
    features: list[Feature] = []
    if lid.opening_mm > 0:
        features.append(
            Feature(
                shape=Circle(middle, lid.opening_mm / 2), layer=Layer.CUT, label=Said("lids.cut_out"), waste="inside"
            )
        )
    for hook in lid.hooks:
        features.append(Feature(shape=Circle(hook, lid.hook_mm / 2), layer=Layer.DRILL, label=Said("lids.hook")))
        features.append(Feature(shape=Circle(hook, 0.5), layer=Layer.MARK))
        features.append(_relieve(lid, hook))
    features.append(
        Feature(shape=Circle(middle, lid.land_outside_mm / 2), layer=Layer.GHOST, label=Said("lids.land_ends"))
    )
    features.append(
        Feature(shape=Circle(middle, lid.hook_edge_mm / 2), layer=Layer.MARK, label=Said("lids.hooks_touch"))
    )
    features.append(Feature(shape=Circle(middle, lid.lid_mm / 2), layer=Layer.GHOST, label=Said("lids.outside")))
    features += mark_centre(middle)
    return FlatPart(
        number=number,
        name=lid.name,
        features=tuple(features),
        quantity=quantity,
        material="screw lid, plastic",
        thickness_mm=closure.lid_thick_mm,
        face=Said("lids.underside_up"),
        kind="filter lid",
        assumed=assumed,
        sizes=(
            Size(Said("lids.opening"), lid.opening_mm),
            Size(Said("lids.hook_holes"), lid.hook_mm),
            Size(Said("lids.hook_circle"), lid.hook_edge_mm),
        ),
        notes=(Said("lids.filter_lid_note"),),
        called=_name_filter_lid(lid),
    )


def _name_filter_lid(lid: FilterLid) -> Said:
    """Return its name in print: with its ports where there are several kinds of it."""
    if lid.name == "filter lid":
        return Said("lids.filter_lid")
    return Said("lids.filter_lid_of", names={"ports": ", ".join(lid.ports)})


def _relieve(lid: FilterLid, hook: Point) -> Feature:
    """Return the arc behind a hook hole up to which ribs are cut away."""
    turn = math.degrees(math.atan2(hook.y, hook.x))
    half = math.degrees(2.4 * lid.hook_mm / (lid.hook_circle_mm / 2))
    return Feature(
        shape=Arc(Point(0.0, 0.0), lid.relief_mm / 2, turn - half, turn + half),
        layer=Layer.MARK,
        label=Said("lids.ribs_off"),
    )


def make_inspection_lid(closure: Closure, number: str, port: str) -> FlatPart:
    """Return the inspection lid, which is not cut: nothing to print, its outline for the drawings."""
    middle = Point(0.0, 0.0)
    return FlatPart(
        number=number,
        name=_name("inspection", port),
        features=(
            Feature(shape=Circle(middle, closure.lid_mm / 2), layer=Layer.GHOST, label=Said("lids.outside")),
            *mark_centre(middle),
        ),
        quantity=1,
        material="screw lid, plastic",
        thickness_mm=closure.lid_thick_mm,
        face=Said("lids.outside_up"),
        kind="inspection lid",
        full_size=False,
        cnc=False,
        notes=(Said("lids.inspection_lid_note"),),
        called=_say_lid("inspection", port),
    )


def make_gauge_lid(closure: Closure, gauge: Gauge, number: str, port: str) -> FlatPart:
    """Return the gauge lid: the fitting hole in the middle and a clip hole either side."""
    middle = Point(0.0, 0.0)
    features = [
        Feature(shape=Circle(middle, gauge.fitting_hole_mm / 2), layer=Layer.DRILL, label=Said("lids.fitting")),
        *mark_centre(middle),
    ]
    for side in (-1, 1):
        clip = Point(side * BRACKET_APART_MM / 2, -24.0)
        features.append(
            Feature(
                shape=Circle(clip, BRACKET_HOLE_MM / 2), layer=Layer.DRILL, label=Said("lids.clip") if side > 0 else ""
            )
        )
    for angle in (0.0, 90.0, 180.0, 270.0):
        turn = math.radians(angle)
        near, far = 11.0, 22.0
        features.append(
            Feature(
                shape=Line(
                    Point(near * math.cos(turn), near * math.sin(turn)),
                    Point(far * math.cos(turn), far * math.sin(turn)),
                ),
                layer=Layer.MARK,
            )
        )
    features.append(Feature(shape=Circle(middle, closure.lid_mm / 2), layer=Layer.GHOST, label=Said("lids.outside")))
    return FlatPart(
        number=number,
        name=_name("gauge", port),
        features=tuple(features),
        quantity=1,
        material="screw lid, plastic",
        thickness_mm=closure.lid_thick_mm,
        face=Said("lids.outside_up"),
        kind="gauge lid",
        sizes=(Size(Said("lids.fitting_hole"), gauge.fitting_hole_mm), Size(Said("lids.clip_holes"), BRACKET_HOLE_MM)),
        notes=(Said("lids.gauge_lid_note"),),
        called=_say_lid("gauge", port),
    )


def _name(use: str, port: str) -> str:
    """Return the name of a lid by what it is for, without the port's where that only says the same again."""
    return f"{use} lid" if port == use else f"{use} lid {port}"


def _say_lid(use: str, port: str) -> Said:
    """Return the lid's name in print, like _name."""
    return Said(f"lids.{use}_lid") if port == use else Said(f"lids.{use}_lid_of", names={"port": port})


def mark_centre(centre: Point, reach_mm: float = CROSS_MM) -> tuple[Feature, Feature]:
    """Return the two lines of a centre cross."""
    return (
        Feature(
            shape=Line(Point(centre.x - reach_mm, centre.y), Point(centre.x + reach_mm, centre.y)), layer=Layer.MARK
        ),
        Feature(
            shape=Line(Point(centre.x, centre.y - reach_mm), Point(centre.x, centre.y + reach_mm)), layer=Layer.MARK
        ),
    )


# --- findings -------------------------------------------------------------------------------------------------------


def _mm(value: float) -> Amount:
    return Amount(value, "length_mm")


def _down(value: float) -> Amount:
    """Return a length that must not be written larger than it is."""
    return Amount(value, "length_mm", toward="down")


def _judge_opening(lid: str, port: str, opening: float, land: float) -> Finding:
    open_at_most = _down(max(0.0, opening - 2 * (LAND_MM - land)))
    return hold(
        f"land.{port}",
        Said("lids.land_what", names={"port": port}),
        land if opening > 0 else 0.0,  # no opening, no air
        Limit(LEAST_LAND_MM, "at least", tight=LAND_MM - LEAST_LAND_MM),
        Said("lids.land_why"),
        topic="pails",
        subjects=(Subject("part", lid),),
        eases=(Said("lids.land_mend_opening", {"opening": open_at_most}), Said("lids.land_mend_hooks")),
    )


def _judge_rim(lid: str, port: str, closure: Closure) -> Finding:
    return hold(
        f"hooks.{port}",
        Said("lids.rim_what", names={"port": port}),
        (closure.lid_mm - closure.hook_edge_mm) / 2,
        Limit(LEAST_RIM_MM, "at least"),
        Said("lids.rim_why"),
        topic="pails",
        subjects=(Subject("part", lid),),
        mends=(Said("lids.rim_mend", {"edge": _down(closure.lid_mm - 2 * LEAST_RIM_MM)}),),
    )


def _judge_seat(
    lid: str, port: str, seat: float, gasket: tuple[float, float], opening: float, land_outside: float
) -> Finding:
    inside, outside = gasket
    wanted = min(LAND_MM, (outside - inside) / 2) * 0.75
    sizes = {"inside": _mm(inside), "outside": _mm(outside), "opening": _mm(max(0.0, opening)),
             "land": _mm(land_outside)}  # fmt: skip
    return hold(
        f"gasket.{port}",
        Said("lids.seat_what", names={"port": port}),
        seat,
        Limit(LEAST_LAND_MM, "at least", tight=max(wanted - LEAST_LAND_MM, 0.0)),
        Said("lids.seat_why", sizes),
        topic="pails",
        subjects=(Subject("part", lid),),
        eases=(Said("lids.seat_mend"),),
    )

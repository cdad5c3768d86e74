"""Rings: gaskets, the reinforcing ring behind a hole, and the two pieces that prove a fit before the panel is cut."""

from __future__ import annotations

import math

from calc.box.ports import CollarDesign
from calc.cutting.lids import find_gasket, mark_centre
from calc.finding import Said, Subject
from calc.project import Cartridge, Panel
from calc.shapes.shapes import Arc, Circle, Feature, FlatPart, Layer, Line, Path, Point, Size

REINFORCE_MM = 13.0
"""The reinforcing ring reaches this far past the screws on the radius: three screw diameters (common practice, no
source), and its outside costs its hole no more sheets."""

FEELER_DEG = 48.0
FEELER_BODY_MM = 19.0


def make_ring(outside_mm: float, inside_mm: float) -> tuple[Feature, Feature]:
    """Return the two cut lines of a ring about 0, 0. Raises ValueError unless outside > inside > 0."""
    if not outside_mm > inside_mm > 0:
        raise ValueError(f"a ring {outside_mm:.1f} mm outside and {inside_mm:.1f} mm inside has no width")
    middle = Point(0.0, 0.0)
    return (
        Feature(shape=Circle(middle, outside_mm / 2), layer=Layer.CUT, label=Said("gaskets.outside"), waste="outside"),
        Feature(shape=Circle(middle, inside_mm / 2), layer=Layer.CUT, label=Said("gaskets.inside"), waste="inside"),
    )


def list_gasket_assumed(cartridge: Cartridge) -> tuple[str, ...]:
    """Return the path of the gasket where the file does not say its size."""
    return ("filters.gasket",) if cartridge.gasket_inside_mm is None or cartridge.gasket_outside_mm is None else ()


def make_gasket(cartridge: Cartridge, number: str, quantity: int) -> FlatPart:
    """Return the loose gasket between filter end and lid, whole, for a machine that cuts foam."""
    inside, outside = find_gasket(cartridge)
    return FlatPart(
        number=number,
        name=f"gasket {cartridge.name}",
        features=(*make_ring(outside, inside), *mark_centre(Point(0.0, 0.0))),
        quantity=quantity,
        material="closed-cell foam",
        thickness_mm=cartridge.gasket_thick_mm,
        face=Said("gaskets.either"),
        kind="gasket",
        full_size=False,
        assumed=list_gasket_assumed(cartridge),
        sizes=(Size(Said("gaskets.outside"), outside), Size(Said("gaskets.inside"), inside)),
        called=Said("gaskets.gasket", names={"filter": cartridge.name}),
    )


def make_gasket_quarter(cartridge: Cartridge, number: str, quantity: int) -> FlatPart:
    """Return a quarter of the gasket as a pattern to trace four times: one sheet of paper instead of four."""
    inside, outside = find_gasket(cartridge)
    middle = Point(0.0, 0.0)
    outline = Path(
        (
            Line(Point(inside / 2, 0.0), Point(outside / 2, 0.0)),
            Arc(middle, outside / 2, 0.0, 90.0),
            Line(Point(0.0, outside / 2), Point(0.0, inside / 2)),
            Arc(middle, inside / 2, 0.0, 90.0),
        )
    )
    return FlatPart(
        number=number,
        name=f"gasket {cartridge.name}, quarter pattern",
        features=(
            Feature(shape=outline, layer=Layer.CUT),
            Feature(
                shape=Arc(middle, (inside + outside) / 4, 15.0, 75.0), layer=Layer.GHOST, label=Said("gaskets.trace")
            ),
        ),
        quantity=quantity,
        material="closed-cell foam",
        thickness_mm=cartridge.gasket_thick_mm,
        face=Said("gaskets.either"),
        kind="gasket",
        cnc=False,
        assumed=list_gasket_assumed(cartridge),
        sizes=(
            Size(Said("gaskets.outside"), outside),
            Size(Said("gaskets.inside"), inside),
            Size(Said("gaskets.corners"), outside / math.sqrt(2)),
        ),
        notes=(Said("gaskets.quarter_note"),),
        called=Said("gaskets.quarter", names={"filter": cartridge.name}),
    )


def reinforce_mm(design: CollarDesign) -> float:
    """Return the outside diameter [mm] of a port's reinforcing ring."""
    return design.screw_circle_mm + 2 * REINFORCE_MM


def make_reinforcement(design: CollarDesign, panel: Panel, number: str) -> FlatPart:
    """Return the ring of panel stock that backs a hole from inside and gives the screws twice the wood.

    It shares hole and screws with the hole's template; only its outside is cut apart.
    """
    middle = Point(0.0, 0.0)
    outside = reinforce_mm(design)
    features = [
        Feature(
            shape=Circle(middle, outside / 2), layer=Layer.CUT, label=Said("gaskets.outside_of_ring"), waste="outside"
        ),
        Feature(
            shape=Circle(middle, design.first_cut_mm / 2),
            layer=Layer.FIRST_CUT,
            label=Said("ports.cut_first"),
            waste="inside",
        ),
        Feature(shape=Circle(middle, design.hole_mm / 2), layer=Layer.CUT, label=Said("ports.final_line")),
    ]
    features += [Feature(shape=Circle(p, design.pilot_mm / 2), layer=Layer.DRILL) for p in design.pilots]
    features += mark_centre(middle)
    return FlatPart(
        number=number,
        name=f"reinforcing ring {design.name}",
        features=tuple(features),
        quantity=1,
        material=panel.stock,
        thickness_mm=panel.thickness_mm,
        face=Said("gaskets.inside_up"),
        kind="reinforcing ring",
        full_size=False,
        assumed=(*design.assumed, *design.ring_assumed),
        sizes=(Size(Said("gaskets.outside"), outside), Size(Said("gaskets.hole"), design.hole_mm)),
        notes=(Said("gaskets.ring_note"),),
        called=Said("gaskets.ring", names={"port": design.name}),
        subjects=(Subject("pail", design.name), Subject("port", design.name)),
    )


def make_test_disc(design: CollarDesign, number: str) -> FlatPart:
    """Return the disc as large as the hole: laid on the collar's cut end it must be flush all round."""
    middle = Point(0.0, 0.0)
    return FlatPart(
        number=number,
        name=f"test disc {design.name}",
        features=(
            Feature(
                shape=Circle(middle, design.hole_mm / 2),
                layer=Layer.CUT,
                label=Said("gaskets.outside_of_disc"),
                waste="outside",
            ),
            *mark_centre(middle),
        ),
        quantity=1,
        material="card or thin scrap",
        thickness_mm=3.0,
        face=Said("gaskets.either"),
        kind="test disc",
        full_size=False,
        assumed=design.assumed,
        sizes=(Size(Said("gaskets.across"), design.hole_mm),),
        notes=(Said("gaskets.disc_note"),),
        called=Said("gaskets.disc", names={"port": design.name}),
        subjects=(Subject("pail", design.name),),
    )


def make_feeler(design: CollarDesign, number: str, ports: str = "") -> FlatPart:
    """Return a card whose hollow edge is a sixth of the hole: held round the collar it shows light where it is off.

    ports: names of all ports that share it, if several.
    """
    radius, half = design.hole_mm / 2, FEELER_DEG / 2
    middle = Point(0.0, -radius)  # so that the hollow's top is at 0, 0
    arc = Arc(middle, radius, 90.0 - half, 90.0 + half)
    right, left = arc.at(arc.start_deg), arc.at(arc.end_deg)
    top = FEELER_BODY_MM
    outline = Path(
        (
            arc,
            Line(left, Point(left.x, top)),
            Line(Point(left.x, top), Point(right.x, top)),
            Line(Point(right.x, top), right),
        )
    )
    reach = radius * math.sin(math.radians(half))
    return FlatPart(
        number=number,
        name=f"test card {ports or design.name}",
        features=(
            Feature(shape=outline, layer=Layer.CUT, label=""),
            Feature(shape=Line(Point(0.0, 1.0), Point(0.0, 8.0)), layer=Layer.MARK),
            Feature(
                shape=Line(Point(-reach * 0.6, top - 8.0), Point(reach * 0.6, top - 8.0)),
                layer=Layer.MARK,
                label=Said("gaskets.hollow"),
            ),
        ),
        quantity=1,
        material="card",
        thickness_mm=0.5,
        face=Said("gaskets.either"),
        kind="test card",
        cnc=False,
        assumed=design.assumed,
        sizes=(Size(Said("gaskets.for_collar"), design.mean_mm),),
        notes=(Said("gaskets.card_note"),),
        called=Said("gaskets.card", names={"ports": ports or design.name}),
    )

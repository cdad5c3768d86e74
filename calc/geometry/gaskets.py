"""Rings: gaskets, the reinforcing ring behind a hole, and the two pieces that prove a fit before the panel is cut."""

from __future__ import annotations

import math

from calc.geometry.lids import find_gasket, mark_centre
from calc.geometry.ports import PortDesign
from calc.geometry.shapes import Arc, Circle, Feature, FlatPart, Layer, Line, Path, Point, Size
from calc.project import Filter, Panel

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
        Feature(Circle(middle, outside_mm / 2), Layer.CUT, "outside", "outside"),
        Feature(Circle(middle, inside_mm / 2), Layer.CUT, "inside", "inside"),
    )


def make_gasket(cartridge: Filter, number: str, quantity: int) -> FlatPart:
    """Return the loose gasket between filter end and lid, whole, for a machine that cuts foam."""
    inside, outside = find_gasket(cartridge)
    return FlatPart(
        number,
        f"gasket {cartridge.name}",
        (*make_ring(outside, inside), *mark_centre(Point(0.0, 0.0))),
        quantity,
        "closed-cell foam",
        cartridge.gasket_thick_mm,
        "either",
        full_size=False,
        assumed=cartridge.gasket_inside_mm is None or cartridge.gasket_outside_mm is None,
        sizes=(Size("outside", outside), Size("inside", inside)),
    )


def make_gasket_quarter(cartridge: Filter, number: str, quantity: int) -> FlatPart:
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
        number,
        f"gasket {cartridge.name}, quarter pattern",
        (
            Feature(outline, Layer.CUT),
            Feature(Arc(middle, (inside + outside) / 4, 15.0, 75.0), Layer.GHOST, "trace four times, end to end"),
        ),
        quantity,
        "closed-cell foam",
        cartridge.gasket_thick_mm,
        "either",
        cnc=False,
        assumed=cartridge.gasket_inside_mm is None or cartridge.gasket_outside_mm is None,
        sizes=(
            Size("outside", outside),
            Size("inside", inside),
            Size("pattern, outer corner to outer corner", outside / math.sqrt(2)),
        ),
        notes=(
            "Trace it, turn it to meet its own end, trace again: four make the ring. Closing check: the last end meets "
            "the first, and the ring measures its OUTSIDE across, both ways.",
        ),
    )


def reinforce_mm(design: PortDesign) -> float:
    """Return the outside diameter [mm] of a port's reinforcing ring."""
    return design.screw_circle_mm + 2 * REINFORCE_MM


def make_reinforcement(design: PortDesign, panel: Panel, number: str) -> FlatPart:
    """Return the ring of panel stock that backs a hole from inside and gives the screws twice the wood.

    It shares hole and screws with the hole's template; only its outside is cut apart.
    """
    middle = Point(0.0, 0.0)
    outside = reinforce_mm(design)
    features = [
        Feature(Circle(middle, outside / 2), Layer.CUT, "outside of the reinforcing ring", "outside"),
        Feature(Circle(middle, design.first_cut_mm / 2), Layer.FIRST_CUT, "CUT FIRST", "inside"),
        Feature(Circle(middle, design.hole_mm / 2), Layer.CUT, "FINAL LINE: sneak up to here"),
    ]
    features += [Feature(Circle(p, design.pilot_mm / 2), Layer.DRILL) for p in design.pilots]
    features += mark_centre(middle)
    return FlatPart(
        number,
        f"reinforcing ring {design.name}",
        tuple(features),
        1,
        panel.stock,
        panel.thickness_mm,
        "inside",
        full_size=False,
        assumed=design.assumed or design.ring_assumed,
        sizes=(Size("outside", outside), Size("hole", design.hole_mm)),
        notes=("Only where a panel bows or its screws need more wood.",),
    )


def make_test_disc(design: PortDesign, number: str) -> FlatPart:
    """Return the disc as large as the hole: laid on the collar's cut end it must be flush all round."""
    middle = Point(0.0, 0.0)
    return FlatPart(
        number,
        f"test disc {design.name}",
        (
            Feature(Circle(middle, design.hole_mm / 2), Layer.CUT, "outside of the test disc", "outside"),
            *mark_centre(middle),
        ),
        1,
        "card or thin scrap",
        3.0,
        "either",
        full_size=False,
        assumed=design.assumed,
        sizes=(Size("across", design.hole_mm),),
        notes=("Lay it on the collar's end: flush all round means the hole will fit.",),
    )


def make_feeler(design: PortDesign, number: str) -> FlatPart:
    """Return a card whose hollow edge is a sixth of the hole: held round the collar it shows light where it is off."""
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
        number,
        f"test card {design.name}",
        (
            Feature(outline, Layer.CUT, ""),
            Feature(Line(Point(0.0, 1.0), Point(0.0, 8.0)), Layer.MARK),
            Feature(
                Line(Point(-reach * 0.6, top - 8.0), Point(reach * 0.6, top - 8.0)),
                Layer.MARK,
                "hollow edge round the collar: no light may show",
            ),
        ),
        1,
        "card",
        0.5,
        "either",
        cnc=False,
        assumed=design.assumed,
        sizes=(Size("for a collar", design.mean_mm),),
        notes=("Paste on card, cut out, hold the hollow edge round the collar at four places: no light must show.",),
    )

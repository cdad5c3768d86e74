"""Panels with the ribs that the design gives them, whole and as they stand, by finite elements: they bow no further."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc.box.box import settle_box
from calc.design import Design, design_box
from calc.project import Panel
from calc.shapes.faces import VIEWS, find_flat
from calc.strength.panels import PanelStrength, lay_holes, lay_plate
from calc.trade import GRAVITY
from tests.outside.check import hold_against
from tests.outside.plate_elements import Beam, Board, Opening, bow_by_elements
from tests.shop import load_job, make_project

pytestmark = pytest.mark.outside

ELEMENTS = "scipy: finite elements of Adini, Clough and Melosh, ribs as beams of Hermite"


def build(thick: float, stock: str = "birch plywood") -> Design:
    project = make_project()
    box = replace(project.box, panel=Panel(stock=stock, thickness_mm=thick, nominal_mm=thick))
    return design_box(settle_box(replace(project, box=box)), 800.0, 2800.0)


def bow_with_ribs(design: Design, panel: PanelStrength) -> float:
    """Return the bow [mm] of a panel with its own holes and ribs, by elements."""
    part, view, shape = design.get_part(panel.face), VIEWS[panel.face], design.box
    wide, high = shape.inside.along(view.across_axis), shape.inside.along(view.up_axis)
    plate = lay_plate(design.strength.stock, part, wide, high)
    weights = {name: kg * GRAVITY for name, kg in design.handling.hanging_kg.items()} if panel.face == "bottom" else {}
    openings = [Opening(h.x_m, h.y_m, h.radius_m, h.weight_n) for h in lay_holes(shape, part, weights)]
    left, below = ((shape.outside.along(a) - shape.inside.along(a)) / 2 for a in (view.across_axis, view.up_axis))
    thick, on_edge = panel.thickness_mm / 1000, design.strength.stock.on_edge_pa
    stiff = on_edge * thick * (panel.rib_high_mm / 1000) ** 3 / 12
    flats = [find_flat(panel.face, block, shape.outside) for block in panel.rib_blocks]
    r = plate.rigidity
    sides, law = (plate.x_m, plate.y_m), (r.along, r.across, r.between, r.twist)
    beams = [Beam(((a + c) / 2 - left) / 1000, (b - below) / 1000, (d - below) / 1000, stiff) for a, b, c, d in flats]
    if (wide >= high) == panel.lengthwise:  # they stand along the upright side
        sides, law = (plate.y_m, plate.x_m), (r.across, r.along, r.between, r.twist)
        openings = [Opening(o.y, o.x, o.radius, o.weight) for o in openings]
        beams = [
            Beam(((b + d) / 2 - below) / 1000, (a - left) / 1000, (c - left) / 1000, stiff) for a, b, c, d in flats
        ]
    return 1000 * bow_by_elements(Board(*sides, law), abs(panel.worst_pa), openings, fine=64, beams=beams)


def hold_ribs(design: Design, name: str) -> None:
    """Hold every panel with ribs against elements: never further than we say, and no more than three times less."""
    ribbed = [panel for panel in design.strength.panels if panel.ribs]
    assert ribbed
    for panel in ribbed:
        elements = bow_with_ribs(design, panel)
        assert elements <= panel.bow_out_mm <= panel.limit_mm
        quantity = f"{name}: {panel.face} panel with {panel.ribs} ribs [mm]"
        hold_against(quantity, ELEMENTS, elements, panel.bow_out_mm, rel=2.0)


@pytest.mark.parametrize("name", ["boatshed", "cart"])
def test_ribs_of_the_samples(name: str) -> None:
    hold_ribs(load_job(name).design, name)


@pytest.mark.parametrize(
    ("stock", "thick"),
    [("birch plywood", 6.0), ("birch plywood", 9.0), ("birch plywood", 12.0), ("fir plywood", 9.0),
     ("fir plywood", 12.0), ("OSB", 11.0), ("MDF", 12.0)],
)  # fmt: skip
def test_ribs_of_thin_panels(stock: str, thick: float) -> None:
    """Panels of 6 to 12 mm, some with ribs that stop short of a wall or run between openings."""
    hold_ribs(build(thick, stock), f"{thick:g} mm {stock}")

"""Rings and test pieces: sizes that follow from the hole and the cartridge, by plain geometry."""

from __future__ import annotations

import math

import pytest

from calc.box.ports import design_port
from calc.cutting.gaskets import (
    FEELER_DEG,
    REINFORCE_MM,
    make_feeler,
    make_gasket,
    make_gasket_quarter,
    make_reinforcement,
    make_ring,
    make_test_disc,
)
from calc.shapes.shapes import Arc, Circle, Layer, Path
from tests.shop import make_project

PROJECT = make_project()
PORT = design_port(PROJECT, PROJECT.ports[0])
CARTRIDGE = PROJECT.filters[0]


def test_a_ring_has_its_waste_on_both_sides() -> None:
    outside, inside = make_ring(290.0, 240.0)
    assert (outside.waste, inside.waste) == ("outside", "inside")
    with pytest.raises(ValueError, match="no width"):
        make_ring(240.0, 240.0)


def test_gasket_runs_from_the_bore_when_it_was_not_measured_and_says_so() -> None:
    part = make_gasket(CARTRIDGE, "G1", 2)
    inside = min(f.shape.radius for f in part.features if isinstance(f.shape, Circle))
    assert 2 * inside == pytest.approx(CARTRIDGE.bore_mm)
    assert part.assumed


def test_four_quarters_make_the_gasket() -> None:
    """Pappus' theorem backwards: the quarter's area four times is the ring's, pi (R2 - r2)."""
    part = make_gasket_quarter(CARTRIDGE, "G1", 2)
    outline = next(f.shape for f in part.features if isinstance(f.shape, Path))
    outer, inner = (p for p in outline.pieces if isinstance(p, Arc))
    area = sum(
        0.5 * arc.radius**2 * math.radians(arc.end_deg - arc.start_deg) * sign
        for arc, sign in ((outer, 1), (inner, -1))
    )
    outside, inside, corners = (s.mm for s in part.sizes)
    assert corners == pytest.approx(math.hypot(outside / 2, outside / 2))  # a right angle between two radii
    assert 4 * area == pytest.approx(math.pi / 4 * (outside**2 - inside**2))


def test_reinforcing_ring_shares_hole_and_screws_and_reaches_past_them() -> None:
    part = make_reinforcement(PORT, PROJECT.box.panel, "R1")
    circles = [f for f in part.features if isinstance(f.shape, Circle)]
    widest = max(f.shape.radius for f in circles if isinstance(f.shape, Circle))
    assert widest == pytest.approx(PORT.screw_circle_mm / 2 + REINFORCE_MM)
    assert sum(f.layer is Layer.DRILL for f in circles) == len(PORT.pilots)
    assert any(math.isclose(f.shape.radius, PORT.hole_mm / 2) for f in circles if isinstance(f.shape, Circle))


def test_test_disc_is_the_hole() -> None:
    disc = make_test_disc(PORT, "TD1")
    assert any(isinstance(f.shape, Circle) and f.shape.radius == PORT.hole_mm / 2 for f in disc.features)


def test_hollow_edge_of_the_test_card_is_an_arc_of_the_hole() -> None:
    """Sagitta over chord: h = R (1 - cos(a/2)), c = 2 R sin(a/2) (plane geometry)."""
    outline = next(f.shape for f in make_feeler(PORT, "T1").features if isinstance(f.shape, Path))
    arc = next(p for p in outline.pieces if isinstance(p, Arc))
    radius, half = PORT.hole_mm / 2, math.radians(FEELER_DEG / 2)
    right, left, top = arc.at(arc.start_deg), arc.at(arc.end_deg), arc.at(90.0)
    assert right.x - left.x == pytest.approx(2 * radius * math.sin(half))
    assert top.y - right.y == pytest.approx(radius * (1 - math.cos(half)))

"""The wrap strip of a tapered pail: rolled back on the cone it must lie square and close."""

from __future__ import annotations

import math

import pytest

from calc.box.ports import design_port
from calc.cutting.collar import STRAIGHT_MM, WrapStrip, design_strip, develop_strip, make_strip, make_strip_pieces
from calc.shapes.shapes import Arc, FlatPart, Layer, Line, find_bounds
from tests.shop import make_project


def roll(strip: WrapStrip, slant: float, angle_deg: float) -> tuple[float, float]:
    """Roll a point of the flat sector (slant radius, angle) back on the cone: turn [deg] and height down [mm]."""
    sine = strip.sweep_deg / 360.0
    return angle_deg / sine, slant * math.sqrt(1 - sine * sine)


def measure_cut_edge(strip: WrapStrip) -> float:
    """Return the length [mm] of the arc that is cut."""
    return strip.cut_radius_mm * math.radians(strip.sweep_deg)


def test_edges_close_on_the_girth_of_the_cone() -> None:
    strip = develop_strip(301.4, 302.0, 267.0, 368.0, 28.0)
    assert strip.ring_edge_mm == pytest.approx(math.pi * 301.4, abs=0.2)
    # the cut line lies 28 mm down the slant, where the cone is narrower by 2 * 28 * sin(a)
    sine = math.sin(math.atan2(17.5, 368.0))
    assert measure_cut_edge(strip) == pytest.approx(math.pi * (301.4 - 2 * 28.0 * sine), abs=0.2)


def test_rolled_on_the_cone_the_cut_edge_is_square_and_meets_itself() -> None:
    strip = develop_strip(301.4, 302.0, 267.0, 368.0, 28.0)
    half = strip.sweep_deg / 2
    heights = [roll(strip, strip.cut_radius_mm, half * share)[1] for share in (-1.0, -0.3, 0.0, 0.7, 1.0)]
    assert max(heights) - min(heights) < 1e-9
    first, last = roll(strip, strip.cut_radius_mm, -half)[0], roll(strip, strip.cut_radius_mm, half)[0]
    assert (last - first - 360.0) / 360.0 * measure_cut_edge(strip) == pytest.approx(0.0, abs=0.2)


def test_a_straight_strip_would_miss_by_far_more_than_the_arc() -> None:
    strip = develop_strip(301.4, 302.0, 267.0, 368.0, 28.0)
    bow = strip.ring_radius_mm * (1 - math.cos(math.radians(strip.sweep_deg / 2)))
    assert bow > 30.0  # a straight strip laid round this pail would climb by this much


def test_straight_pail_gives_a_rectangle() -> None:
    strip = develop_strip(300.0, 300.0, 300.0, 368.0, 28.0)
    assert strip.sweep_deg == 0.0
    assert strip.ring_edge_mm == pytest.approx(math.pi * 300.0)


def test_a_hair_of_taper_joins_the_straight_pail() -> None:
    almost = 300.0 - 300.0 / STRAIGHT_MM * 368.0 * 1.01
    strip = develop_strip(300.0, 300.0, almost, 368.0, 28.0)
    assert strip.sweep_deg > 0
    assert measure_cut_edge(strip) == pytest.approx(math.pi * 300.0, abs=0.05)


def test_a_pail_without_height_is_refused() -> None:
    with pytest.raises(ValueError, match="height"):
        develop_strip(301.0, 302.0, 267.0, 0.0, 28.0)


def test_a_pail_that_widens_downward_bends_the_strip_the_other_way() -> None:
    strip = develop_strip(260.0, 258.0, 300.0, 368.0, 28.0)
    sine = math.sin(math.atan2(21.0, 368.0))
    assert measure_cut_edge(strip) == pytest.approx(math.pi * (260.0 + 2 * 28.0 * sine), abs=0.2)
    port = design_port(make_project(), make_project().ports[0])
    arcs = [f.shape for f in make_strip(strip, port, "W1").features if isinstance(f.shape, Arc)]
    ring = next(arc for arc in arcs if math.isclose(arc.radius, strip.ring_radius_mm))
    cut = next(arc for arc in arcs if math.isclose(arc.radius, strip.cut_radius_mm))
    assert ring.centre.y > 0  # the tip is above: the strip sags in the middle
    assert cut.at(270.0).y == pytest.approx(ring.at(270.0).y - 28.0)


def edge_length(part: FlatPart) -> float:
    """Length of the outer (ring) arcs of a strip part: the upper arc of each piece."""
    arcs = [f.shape for f in part.features if f.layer is Layer.CUT and isinstance(f.shape, Arc)]
    longest = max(arc.radius for arc in arcs)
    ring = [arc for arc in arcs if math.isclose(arc.radius, longest)]
    return sum(math.radians(arc.end_deg - arc.start_deg) * arc.radius for arc in ring)


def test_whole_strip_and_its_pieces_measure_the_same_girth() -> None:
    project = make_project()
    port = design_port(project, project.ports[0])
    strip = design_strip(port, project.box.panel)
    whole = make_strip(strip, port, "W1")
    pieces = make_strip_pieces(strip, port, "W1", 230.0)
    assert edge_length(whole) == pytest.approx(math.pi * port.mean_mm, abs=0.2)
    assert edge_length(pieces) == pytest.approx(math.pi * port.mean_mm, abs=0.2)


def test_no_piece_is_longer_than_the_sheet_with_its_tab() -> None:
    project = make_project()
    port = design_port(project, project.ports[0])
    strip = design_strip(port, project.box.panel)
    for longest in (120.0, 190.0, 260.0):
        box = find_bounds(tuple(f.shape for f in make_strip_pieces(strip, port, "W1", longest).features))
        assert box.width <= longest


def test_pieces_do_not_lie_on_each_other() -> None:
    project = make_project()
    port = design_port(project, project.ports[0])
    strip = design_strip(port, project.box.panel)
    part = make_strip_pieces(strip, port, "W1", 230.0)
    ends = [f.shape for f in part.features if f.layer is Layer.CUT and isinstance(f.shape, Line)]
    boxes = [find_bounds((line,)) for line in ends]
    tops = sorted({round(box.top, 3) for box in boxes}, reverse=True)
    bottoms = sorted({round(box.bottom, 3) for box in boxes}, reverse=True)
    for above, below in zip(bottoms, tops[1:], strict=False):
        assert below < above


def test_a_sheet_too_narrow_is_refused() -> None:
    project = make_project()
    port = design_port(project, project.ports[0])
    with pytest.raises(ValueError, match="too narrow"):
        make_strip_pieces(design_strip(port, project.box.panel), port, "W1", 15.0)

"""The hole of a port from the pail as measured."""

from __future__ import annotations

import dataclasses
import math

import pytest

from calc.box.ports import PortDesign, design_port, draw_hole, measure_pail
from calc.finding import Verdict
from calc.project import Closure, Pail, Port
from calc.shapes.shapes import Circle, Layer, Point
from calc.trade import ROUND_ENOUGH_MM, TYPING_ERROR_MM
from tests.shop import make_project


def design(pail: Pail, closure: Closure | None = None) -> PortDesign:
    project = make_project()
    return design_port(
        project, Port(name="filter A", kind="filter", face="bottom", pail=pail, closure=closure or Closure())
    )


def find(port: PortDesign, start: str) -> Verdict:
    return next(f.verdict for f in port.findings if f.key.startswith(start))


def test_hole_is_the_mean_of_the_readings() -> None:
    port = design(Pail(across_mm=(300.0, 302.0, 301.0)))
    assert port.hole_mm == pytest.approx(301.0)
    assert measure_pail(port.port.pail)[1] == pytest.approx(2.0)


def test_tape_round_the_collar_gives_girth_over_pi() -> None:
    port = design(Pail(around_mm=947.7375))  # 37-5/16 in
    assert port.hole_mm * math.pi == pytest.approx(947.7375)
    assert measure_pail(port.port.pail)[1] is None


def test_an_oval_of_known_girth_needs_its_mean_hole() -> None:
    # Ramanujan's second formula for the perimeter of an ellipse, axes 304 and 298 mm: a tape sees this girth.
    a, b = 152.0, 149.0
    h = ((a - b) / (a + b)) ** 2
    girth = math.pi * (a + b) * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h)))
    assert design(Pail(around_mm=girth)).hole_mm == pytest.approx(
        design(Pail(across_mm=(304.0, 298.0))).hole_mm, abs=0.02
    )


def test_first_cut_stays_the_allowance_inside_on_the_radius() -> None:
    project = make_project()
    port = design(Pail(across_mm=(301.0,)))
    assert (port.hole_mm - port.first_cut_mm) / 2 == pytest.approx(project.methods.allowance_mm)


def test_bore_is_less_two_walls() -> None:
    assert design(Pail(across_mm=(301.0,), wall_mm=2.5)).bore_mm == pytest.approx(296.0)


def test_unmeasured_pail_is_no_port() -> None:
    with pytest.raises(ValueError, match="neither across nor around"):
        design(Pail())


@pytest.mark.parametrize(
    ("readings", "verdict"),
    [
        ((301.0, 301.5), Verdict.FITS),
        ((300.0, 300.0 + ROUND_ENOUGH_MM + 1.0), Verdict.TIGHT),
        ((300.0, 300.0 + TYPING_ERROR_MM + 1.0), Verdict.DOES_NOT_FIT),
    ],
)
def test_readings_that_differ_are_told(readings: tuple[float, ...], verdict: Verdict) -> None:
    assert find(design(Pail(across_mm=readings)), "round.") is verdict


def test_across_and_around_that_disagree_are_told() -> None:
    assert find(design(Pail(across_mm=(301.0,), around_mm=960.0)), "tape.") is Verdict.DOES_NOT_FIT
    assert find(design(Pail(across_mm=(301.0,), around_mm=301.0 * math.pi)), "tape.") is Verdict.FITS


def test_a_collar_as_wide_as_its_ring_cannot_be() -> None:
    port = design(Pail(across_mm=(24000.0,)))
    assert find(port, "hole.") is Verdict.DOES_NOT_FIT
    mend = next(f for f in port.findings if f.key.startswith("hole.")).mends[0]
    assert mend.names["port"] == "filter A"


def test_screws_too_near_the_edge_are_told() -> None:
    closure = dataclasses.replace(Closure(), screw_circle_mm=304.0)
    assert find(design(Pail(across_mm=(301.0,)), closure), "screws.") is Verdict.DOES_NOT_FIT


def test_pilots_stand_evenly_on_their_circle_and_none_on_the_index() -> None:
    port = design(Pail(across_mm=(301.0,)))
    radius = port.screw_circle_mm / 2
    assert len(port.pilots) == 8
    for pilot in port.pilots:
        assert math.hypot(pilot.x, pilot.y) == pytest.approx(radius)
        off = abs(math.degrees(math.atan2(pilot.y, pilot.x)) - port.index_deg)
        assert off > 10.0
    # chord of n holes on a circle: 2 R sin(pi / n)
    one, two = port.pilots[:2]
    assert math.dist((one.x, one.y), (two.x, two.y)) == pytest.approx(2 * radius * math.sin(math.pi / 8))


def test_drawn_hole_has_both_lines_round_its_centre() -> None:
    port = design(Pail(across_mm=(301.0,)))
    centre = Point(100.0, 50.0)
    circles = {f.layer: f.shape for f in draw_hole(port, centre) if isinstance(f.shape, Circle) and f.label}
    for layer, diameter in ((Layer.CUT, port.hole_mm), (Layer.FIRST_CUT, port.first_cut_mm)):
        shape = circles[layer]
        assert isinstance(shape, Circle)
        assert (shape.centre, shape.radius) == (centre, pytest.approx(diameter / 2))

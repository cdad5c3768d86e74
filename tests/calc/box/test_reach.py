"""Reach by hand: a box with known places, distances worked out apart."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from calc.box.box import settle_box
from calc.box.joints import measure_box
from calc.box.ports import design_port
from calc.box.reach import measure_reach
from calc.design import design_box
from calc.finding import Verdict
from calc.project import Closure, Pail, Port
from tests.shop import make_project


def test_reach_in_a_box_measured_by_hand() -> None:
    project = make_project()
    ports = (
        Port(name="arm", kind="inspection", face="front", pail=Pail(across_mm=(304.6,)), across_mm=500.0, up_mm=200.0),
        Port(name="deep", kind="filter", face="bottom", pail=Pail(across_mm=(304.6,)), across_mm=900.0, up_mm=218.6),
        Port(name="side", kind="gauge", face="right", pail=Pail(across_mm=(304.6,)), across_mm=300.0, up_mm=250.0),
    )
    settled = settle_box(replace(project, ports=ports))
    shape = measure_box(settled.box)
    reach = measure_reach(settled, shape, tuple(design_port(settled, port) for port in ports))
    assert reach.opening_mm == pytest.approx(300.0)  # 304.6 less two walls of 2.3 mm
    by_name = {target.name: target for target in reach.targets}
    depth = shape.outside.depth  # 518.6: the bottom's `up` runs from the back forward
    deep = math.dist((500.0, 0.0, 200.0), (900.0, depth - 218.6, 18.0)) + 150.0
    side = math.dist((500.0, 0.0, 200.0), (shape.outside.width - 18.0, 300.0, 250.0)) + 150.0
    assert by_name["deep"].reach_mm == pytest.approx(deep)
    assert by_name["side"].reach_mm == pytest.approx(side)
    assert by_name["deep"].can == (deep <= 600.0)
    assert not by_name["side"].can


def test_a_second_opening_shortens_the_reach() -> None:
    project = make_project()
    far = replace(project, box=replace(project.box, width_mm=2300.0))
    one = design_box(settle_box(far), 500.0, 2500.0).reach
    more = (*far.ports, Port(name="second", kind="inspection", face="left", pail=Pail(across_mm=(304.6,))))
    two = design_box(settle_box(replace(far, ports=more)), 500.0, 2500.0).reach
    near = {target.name: target.reach_mm for target in two.targets}
    assert near["filter A"] < {target.name: target.reach_mm for target in one.targets}["filter A"]
    assert "second" not in near


def test_a_hand_hole_is_no_arm_hole() -> None:
    project = make_project()
    closure = Closure(flange_mm=140.0, lid_mm=125.0, land_outside_mm=100.0)
    small = Port(name="arm", kind="inspection", face="front", pail=Pail(across_mm=(110.0,)), closure=closure)
    ports = (*(port for port in project.ports if port.kind != "inspection"), small)
    design = design_box(settle_box(replace(project, ports=ports)), 500.0, 2500.0)
    finding = next(f for f in design.findings if f.key == "reach.opening")
    assert finding.verdict is Verdict.DOES_NOT_FIT
    assert finding.value is not None
    assert finding.value.value == pytest.approx(110.0 - 4.6)

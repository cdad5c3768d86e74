"""Strength by routes of its own: whole-box forces in balance, ribs as beams, limits at no pressure."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest

from calc.box.box import settle_box
from calc.design import Design, design_box, design_project
from calc.finding import Verdict
from calc.project import Panel, Project
from calc.strength.handling import CART_CENTRE_MM, passes_door, weigh_hanging, weigh_pail
from calc.strength.structure import GRAVITY, choose_screw, find_share_left
from tests.shop import make_project, size


def build(project: Project, running: float = 800.0, worst: float = 2800.0) -> tuple[Project, Design]:
    settled = settle_box(project)
    return settled, design_box(settled, running, worst)


def test_forces_are_pressure_times_inside_area() -> None:
    _, design = build(make_project())
    inside = design.box.inside
    for face, area in (
        ("front", inside.width * inside.height), ("top", inside.width * inside.depth),
        ("left", inside.depth * inside.height),
    ):  # fmt: skip
        panel = design.strength.get_panel(face)  # type: ignore[arg-type]
        assert panel.force_worst_n == pytest.approx(2800.0 * area / 1e6)
    # opposite walls balance
    for a, b in (("front", "back"), ("left", "right"), ("top", "bottom")):
        assert design.strength.get_panel(a).force_worst_n == pytest.approx(  # type: ignore[arg-type]
            design.strength.get_panel(b).force_worst_n  # type: ignore[arg-type]
        )


def test_bow_grows_with_pressure_and_free_edges_bow_most() -> None:
    _, low = build(make_project(), 500.0, 1400.0)
    _, high = build(make_project(), 500.0, 2800.0)
    for a, b in zip(low.strength.panels, high.strength.panels, strict=True):
        assert b.bow_out_mm > a.bow_out_mm
        assert b.bow_held_mm < b.bow_out_mm
        if a.face != "bottom":
            assert b.bow_out_mm == pytest.approx(2 * a.bow_out_mm)
            assert b.bow_in_mm == pytest.approx(b.bow_out_mm)  # both signs alike where nothing hangs
        else:
            assert b.bow_in_mm < b.bow_out_mm


def test_bow_follows_the_cube_of_thickness() -> None:
    project = make_project()
    thin = replace(project, box=replace(project.box, panel=replace(project.box.panel, thickness_mm=15.0)))
    a, b = build(project)[1].strength.get_panel("back"), build(thin)[1].strength.get_panel("back")
    assert b.bow_bare_mm / a.bow_bare_mm == pytest.approx((18.0 / 15.0) ** 3, rel=1e-6)


def test_no_pressure_leaves_the_weight() -> None:
    _, design = build(make_project(), 0.0, 0.0)
    bottom = design.strength.get_panel("bottom")
    weight = sum(design.handling.hanging_kg.values()) * GRAVITY
    assert bottom.weight_pa * bottom.short_mm * bottom.long_mm / 1e6 == pytest.approx(weight)
    ring = next(s for s in design.strength.screws if s.port == "filter A")
    assert ring.load_each_n == pytest.approx(design.handling.hanging_kg["filter A"] * GRAVITY / 8)


def test_suction_does_not_pull_the_face_off() -> None:
    project = make_project()
    suction = replace(project, box=replace(project.box, side="suction"))
    _, design = build(suction, -800.0, -2800.0)
    lid = next(s for s in design.strength.screws if s.port == "inspection")
    assert lid.load_each_n == 0.0
    assert design.strength.get_panel("front").bow_out_mm == pytest.approx(
        build(project)[1].strength.get_panel("front").bow_out_mm
    )


def test_rib_as_a_beam() -> None:
    """The rib the design sizes, loaded as a beam by hand (5 w L^4 / 384 E I), bows no more than it may."""
    project = make_project()
    panel = Panel("birch plywood", 6.0, 6.0)
    _, design = build(replace(project, box=replace(project.box, panel=panel)))
    ribbed = [p for p in design.strength.panels if p.ribs]
    assert ribbed
    for p in ribbed:
        stops = [0.0, *p.rib_places_mm, p.long_mm]
        bay = max(b - a for a, b in pairwise(stops))
        load = (2800.0 + p.weight_pa) * bay / 1000
        inertia = 0.006 * (p.rib_high_mm / 1000) ** 3 / 12
        bow = 5 * load * (p.short_mm / 1000) ** 4 / (384 * 6.96e9 * inertia) * 1000
        assert bow <= p.limit_mm * 0.8
        # panel between the ribs and the ribs together stay within what is allowed
        assert p.bow_out_mm <= p.limit_mm + 1e-9


def test_holes_take_stiffness() -> None:
    _, design = build(make_project())
    assert design.strength.get_panel("back").shape_share == 1.0
    bottom = design.get_part("bottom")
    share = find_share_left(bottom, 482.6, 1168.4, across_is_long=True)
    assert share == pytest.approx(1 - (301.4 + 301.6) / 1168.4, abs=2e-3)


def test_screw_lengths() -> None:
    assert choose_screw("inch", 38.0) == 38.1
    assert choose_screw("inch", math.inf, 21.0) == 19.05
    assert choose_screw("metric", 38.0) == 40.0
    assert choose_screw("inch", 5.0, 3.0) == 12.7


def test_wall_fasteners_carry_the_lever_too() -> None:
    _, design = build(make_project())
    strength = design.strength
    lever = strength.hang_load_n * (design.box.outside.depth / 2 + 18.0) / (0.8 * design.box.outside.height)
    pulled = next(screw for screw in strength.screws if screw.name == "lag screws, pull")
    assert pulled.load_each_n == pytest.approx(lever / (strength.hang_fasteners / 2))
    heavy = replace(make_project(), filters=(replace(make_project().filters[0], weight_kg=300.0),))
    assert build(heavy)[1].strength.hang_fasteners > strength.hang_fasteners


def test_weights_add_up() -> None:
    project, design = build(make_project())
    loads = {load.name: load for load in design.handling.loads}
    panels = sum(loads[f"{face} panel"].weight_kg for face in ("top", "bottom", "left", "right", "front", "back"))
    assert design.handling.box_kg > panels
    assert design.handling.total_kg == pytest.approx(design.handling.box_kg + sum(design.handling.hanging_kg.values()))
    # a 4 x 8 ft sheet of 18 mm birch plywood weighs about 36 kg (80 lb): common practice, no source
    assert loads["whole sheet"].weight_kg == pytest.approx(36.4, abs=1.0)
    assert loads["whole sheet"].people == 2
    port = design.get_port("filter A")
    # an empty common pail weighs 0.8 to 1.2 kg; a full one holds about 20 L: common practice, no source
    assert 0.8 < weigh_pail(port, full=False) < 1.2
    assert weigh_pail(port, full=True) - weigh_pail(port, full=False) == pytest.approx(0.0234 * 190.0, rel=0.02)
    assert project.methods.lift_limit_kg == pytest.approx(22.7)


def test_the_door() -> None:
    project = make_project()
    assert passes_door(project, (900.0, 3000.0, 2000.0))
    assert not passes_door(project, (930.0, 3000.0, 1000.0))
    no_door = replace(project, shop=replace(project.shop, doorway_width_mm=None))
    assert passes_door(no_door, (9000.0, 9000.0, 9000.0)) is None


def test_the_cart_tips_where_its_weight_crosses_the_wheels() -> None:
    project = make_project()
    box = replace(project.box, hung="cart", cart_wheelbase_mm=900.0, cart_weight_kg=30.0)
    settled, design = build(replace(project, box=box))
    tip = design.handling.tip_deg
    assert tip is not None
    underside = settled.box.underside_mm
    own, outside = design.handling.box_kg, design.box.outside
    ports = [port for port in design.ports if port.port.kind == "filter"]
    turned = []
    for full in (True, False):
        hung = [(weigh_hanging(settled, port, full=full), port.port.up_mm) for port in ports]
        hang = sum(kg for kg, _ in hung)
        total, middle = own + hang + 30.0, underside + outside.height / 2
        high = (own * middle + hang * (underside + 118.0) / 2 + 30.0 * CART_CENTRE_MM) / total
        # the filters hang a little off the middle: by so much the centre of weight is nearer to a pair of wheels
        off = sum(kg * (up - outside.depth / 2) for kg, up in hung) / total
        # turned about the wheel by that angle, the centre of weight stands right above it
        turned.append((abs(off) - 450.0) * math.cos(math.radians(tip)) + high * math.sin(math.radians(tip)))
    assert max(turned) == pytest.approx(0.0, abs=1e-6)  # full or clean, whichever tips first


def test_tilting_takes_the_diagonal() -> None:
    _, design = build(make_project())
    stack = design.stack
    assert stack.hanging_mm + stack.tilt_mm == pytest.approx(math.hypot(stack.hanging_mm, 12.7 * 25.4))
    assert stack.parts[0].top_mm == stack.box_bottom_mm
    assert stack.parts[-1].bottom_mm == pytest.approx(stack.floor_gap_mm)
    for above, below in zip(stack.parts, stack.parts[1:], strict=False):
        assert above.bottom_mm == pytest.approx(below.top_mm)


def test_a_suction_box_is_pushed_in() -> None:
    settled = settle_box(replace(make_project(), box=replace(make_project().box, side="suction")))
    pressures = replace(size().pressures, box_running_pa=800.0, box_worst_pa=2800.0, side="suction")
    design = design_project(settled, replace(size(), pressures=pressures))
    assert design.strength.get_panel("front").worst_pa == -2800.0
    pushed = design_project(settled, replace(size(), pressures=replace(pressures, side="pressure")))
    assert pushed.strength.get_panel("front").worst_pa == 2800.0


def test_the_thickness_that_mends_a_bow_does() -> None:
    project = make_project()
    thin = replace(project.box.panel, thickness_mm=7.0, nominal_mm=7.0)
    design = build(replace(project, box=replace(project.box, panel=thin)))[1]
    finding = next(f for f in design.findings if f.key == "bow.front" and f.verdict is Verdict.DOES_NOT_FIT)
    thick = finding.mends[0].amounts["thick"].value
    mended = replace(project.box.panel, thickness_mm=thick, nominal_mm=thick)
    design = build(replace(project, box=replace(project.box, panel=mended)))[1]
    assert design.strength.get_panel("front").bow_out_mm <= design.strength.get_panel("front").limit_mm * 1.001
    less = replace(project.box.panel, thickness_mm=thick * 0.97, nominal_mm=thick)
    bow = build(replace(project, box=replace(project.box, panel=less)))[1].strength.get_panel("front")
    assert bow.bow_bare_mm > bow.limit_mm

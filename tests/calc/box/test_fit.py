"""Everything that does not fit is named, with its number and the smallest change that mends it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc.box.box import settle_box
from calc.design import Design, design_box
from calc.finding import Finding, Verdict
from calc.measures.quantity import Reader
from calc.project import FilterBox, Inlet, Lining, Port, Project, Sheet
from calc.shapes.part_names import say_face
from packet.words.say import say
from tests.shop import make_project

INCH = Reader("inch")


def build(project: Project) -> tuple[Project, Design]:
    settled = settle_box(project)
    return settled, design_box(settled, 800.0, 2800.0)


def with_box(project: Project, **changes: object) -> Project:
    return replace(project, box=replace(project.box, **changes))  # type: ignore[arg-type]


def with_port(project: Project, name: str, **changes: object) -> Project:
    ports = tuple(replace(p, **changes) if p.name == name else p for p in project.ports)  # type: ignore[arg-type]
    return replace(project, ports=ports)


def find(design: Design, key: str) -> Finding:
    return next(f for f in design.findings if f.key == key)


def judge(project: Project, key: str) -> Verdict:
    """Return the verdict; a finding that fits and is not the nearest of its like is not told at all."""
    return next((f.verdict for f in build(project)[1].findings if f.key == key), Verdict.FITS)


def fails(project: Project, key: str) -> Finding:
    """Return the finding, which must say that something does not fit and how to mend it."""
    finding = find(build(project)[1], key)
    assert finding.verdict is Verdict.DOES_NOT_FIT
    assert finding.mends
    assert finding.value is not None
    assert finding.limit is not None
    return finding


def by(finding: Finding) -> float:
    return next(mend.amounts["by"].value for mend in finding.mends if "by" in mend.amounts)


def test_the_sample_fits() -> None:
    project = make_project()
    _, design = build(replace(project, methods=replace(project.methods, helper=True)))
    assert [f.key for f in design.findings if f.verdict is Verdict.DOES_NOT_FIT] == []


def test_a_port_into_the_wall_and_its_mend() -> None:
    project = with_port(settle_box(make_project()), "filter A", across_mm=160.0)
    finding = fails(project, "wall.filter A")
    assert finding.mends[0].names["way"] == say_face("right")
    mended = with_port(project, "filter A", across_mm=160.0 + by(finding))
    assert judge(mended, "wall.filter A") is not Verdict.DOES_NOT_FIT
    short = with_port(project, "filter A", across_mm=160.0 + by(finding) - 0.5)
    assert judge(short, "wall.filter A") is Verdict.DOES_NOT_FIT


def test_a_hole_larger_than_its_panel() -> None:
    project = with_box(make_project(), depth_mm=280.0)
    finding = fails(project, "wall.filter A")
    assert "larger" in say(finding.why, INCH)
    edge = fails(project, "edge.filter A")
    assert "larger than the panel" in say(edge.why, INCH)
    mended = with_box(make_project(), depth_mm=280.0 + by(edge))
    assert judge(mended, "edge.filter A") is not Verdict.DOES_NOT_FIT


def test_a_lining_thicker_than_the_clearance() -> None:
    project = make_project()
    thick = replace(project, lining=Lining("carpet", 100.0, ("back", "left", "right")))
    finding = fails(thick, "wall.filter A")
    allowed = finding.mends[-1].amounts["thick"].value
    thinner = replace(project, lining=Lining("carpet", allowed - 0.1, ("back", "left", "right")))
    assert judge(thinner, "wall.filter A") is not Verdict.DOES_NOT_FIT


def test_a_lining_that_leaves_the_duct_no_room_is_thinned_on_both_sides() -> None:
    project = with_box(make_project(), depth_mm=500.0, height_mm=600.0, inlet=Inlet("left", 420.0))
    thick = replace(project, lining=Lining("carpet", 60.0, ("front", "back")))
    (mend,) = fails(thick, "lining.clear").mends
    thinner = mend.amounts["thinner"].value
    assert 2 * thinner == pytest.approx(mend.amounts["by"].value)
    mended = replace(project, lining=Lining("carpet", 60.0 - thinner, ("front", "back")))
    assert judge(mended, "lining.clear") is Verdict.FITS
    short = replace(project, lining=Lining("carpet", 60.5 - thinner, ("front", "back")))
    assert judge(short, "lining.clear") is Verdict.DOES_NOT_FIT


def test_a_box_too_small_for_its_duct_with_no_lining_is_not_told_to_thin_it() -> None:
    project = with_box(make_project(), depth_mm=500.0, inlet=Inlet("left", 520.0))
    (mend,) = fails(replace(project, lining=Lining("carpet", 10.0, ("front", "back"))), "lining.clear").mends
    assert "thinner" not in say(mend, INCH)


def test_ports_on_top_of_each_other() -> None:
    project = with_port(settle_box(make_project()), "gauge", across_mm=700.0)
    finding = fails(project, "grip.inspection.gauge")
    assert "overlap" in say(finding.why, INCH)
    mended = with_port(project, "gauge", across_mm=700.0 + by(finding))
    assert judge(mended, "grip.inspection.gauge") is Verdict.FITS
    less = with_port(project, "gauge", across_mm=700.0 + by(finding) - 10.0)
    assert judge(less, "grip.inspection.gauge") is Verdict.TIGHT


def test_the_inlet_crossing_a_port() -> None:
    project = with_box(make_project(), inlet=Inlet("front", 203.2, 600.0, 220.0))
    finding = fails(project, "inlet.inspection")
    moved = with_box(make_project(), inlet=Inlet("front", 203.2, 601.6 - 101.6 - 165.0 - 12.0, 220.0))
    assert by(finding) > 0
    assert judge(moved, "inlet.inspection") is Verdict.FITS


def test_an_inlet_wider_than_its_wall() -> None:
    finding = fails(with_box(make_project(), inlet=Inlet("left", 500.0)), "wall.inlet")
    assert "larger" in say(finding.mends[0], INCH)


def test_a_box_above_the_ceiling() -> None:
    project = with_box(make_project(), underside_mm=2300.0)
    finding = fails(project, "height.ceiling")
    mended = with_box(project, underside_mm=2300.0 - by(finding))
    assert judge(mended, "height.ceiling") is Verdict.FITS


def test_a_stack_into_the_floor() -> None:
    project = make_project()
    low = replace(project, shop=replace(project.shop, ceiling_mm=1750.0))
    finding = fails(low, "height.unscrew")
    assert finding.value is not None
    assert finding.value.value < 0
    shorter = replace(low, filters=(replace(low.filters[0], height_mm=low.filters[0].height_mm - by(finding)),))
    assert judge(shorter, "height.unscrew") is not Verdict.DOES_NOT_FIT


def test_a_motor_into_the_ceiling() -> None:
    project = make_project()
    tall = replace(project, blower=replace(project.blower, motor_top_mm=2530.0))
    finding = fails(tall, "height.motor")
    assert by(finding) == pytest.approx(2530.0 + 50.0 - 2540.0)


def test_a_part_larger_than_the_sheet() -> None:
    project = make_project()
    panel = replace(project.box.panel, sheet=Sheet(1150.0, 1220.0))
    finding = fails(with_box(project, panel=panel), "sheet.bottom")
    mended = with_box(project, panel=panel, width_mm=project.box.width_mm - by(finding))
    keys = {f.key for f in build(mended)[1].findings}
    assert "sheet.bottom" not in keys
    turned = replace(panel, grain_matters=False)
    assert "sheet.bottom" not in {f.key for f in build(with_box(project, panel=turned))[1].findings}


@pytest.mark.parametrize(("measured", "fits"), [(14.3, False), (14.5, True), (21.5, True), (21.7, False)])
def test_thickness_off_by_a_fifth(measured: float, fits: bool) -> None:
    project = make_project()
    panel = replace(project.box.panel, thickness_mm=measured)
    finding = find(build(with_box(project, panel=panel))[1], "stock.thickness")
    assert (finding.verdict is not Verdict.DOES_NOT_FIT) is fits


def test_a_thin_panel_gets_ribs_that_hold() -> None:
    project = make_project()
    panel = replace(project.box.panel, thickness_mm=6.0, nominal_mm=6.0)
    settled, design = build(with_box(project, panel=panel))
    ribbed = [p for p in design.strength.panels if p.ribs]
    assert ribbed
    for strength in ribbed:
        assert strength.bow_bare_mm > strength.limit_mm
        ribs = [p for p in design.parts if p.kind == "stiffener" and p.face == strength.face]
        assert len(ribs) == strength.ribs
        assert strength.bow_out_mm <= strength.limit_mm + 1e-9
        for rib in ribs:
            assert rib.height_mm == pytest.approx(strength.rib_high_mm)
    assert settled.box.panel.thickness_mm == 6.0


def test_a_port_far_from_the_arm() -> None:
    project = make_project()
    wide = with_box(project, width_mm=2300.0)
    ports = tuple(p for p in wide.ports if p.kind != "inspection")
    design = build(replace(wide, ports=ports))[1]
    assert find(design, "reach.none").verdict is Verdict.TIGHT
    far = build(with_box(project, width_mm=2300.0))[1]
    finding = find(far, "reach.filter A")
    assert finding.verdict is Verdict.DOES_NOT_FIT
    assert finding.value is not None
    assert finding.value.value > 600.0


def test_a_box_wider_than_the_door() -> None:
    project = make_project()
    shop = replace(project.shop, doorway_width_mm=400.0)
    finding = find(build(replace(project, shop=shop))[1], "door.box, empty")
    assert finding.verdict is Verdict.DOES_NOT_FIT


def test_a_cart_that_tips() -> None:
    project = make_project()
    narrow: FilterBox = replace(project.box, hung="cart", cart_wheelbase_mm=300.0, cart_weight_kg=20.0)
    finding = fails(replace(project, box=narrow), "cart.tip")
    wide = replace(narrow, cart_wheelbase_mm=1200.0)
    assert judge(replace(project, box=wide), "cart.tip") is Verdict.FITS
    assert finding.value is not None
    assert finding.value.kind == "angle_deg"


def test_a_port_on_every_face_gets_a_verdict() -> None:
    project = make_project()
    for face in ("top", "back", "left", "right"):
        port = Port(name="extra", kind="inspection", face=face, pail=project.ports[2].pail)
        _, design = build(replace(project, ports=(*project.ports, port)))
        assert design.get_port("extra")
        hole = next(h for p in design.parts for h in p.holes if h.name == "extra")
        part = next(p for p in design.parts if any(h.name == "extra" for h in p.holes))
        assert part.face == face
        assert hole.across_mm == pytest.approx(part.width_mm / 2, abs=1.0)


def test_a_hole_into_a_cleat() -> None:
    """Cleats stand out from the walls: a hole that clears the bare wall can still cut one."""
    project = settle_box(make_project())
    near = with_port(project, "inspection", up_mm=151.0 + 18.0 + 30.0)
    assert judge(near, "wall.inspection") is not Verdict.DOES_NOT_FIT
    turned = with_port(with_box(project, joint="cleat", removable="back"), "inspection", up_mm=151.0 + 18.0 + 30.0)
    finding = fails(turned, "wall.inspection")
    assert finding.limit is not None
    assert finding.limit.value == pytest.approx(40.0)
    mended = with_port(turned, "inspection", up_mm=151.0 + 18.0 + 30.0 + by(finding))
    assert judge(mended, "wall.inspection") is not Verdict.DOES_NOT_FIT


def test_a_filter_too_near_the_wall() -> None:
    project = with_port(settle_box(make_project()), "filter A", up_mm=161.3 + 7.0)
    finding = fails(project, "grip.wall.filter A")
    mended = with_port(project, "filter A", up_mm=161.3 + 7.0 + by(finding))
    assert judge(mended, "grip.wall.filter A") is Verdict.FITS


def test_what_lies_against_the_wall_or_the_ceiling() -> None:
    project = make_project()
    behind = Port(name="behind", kind="inspection", face="back", pail=project.ports[2].pail)
    above = Port(name="above", kind="inspection", face="top", pail=project.ports[2].pail)
    crowded = replace(project, ports=(*project.ports, behind, above))
    assert find(build(crowded)[1], "access.behind").verdict is Verdict.DOES_NOT_FIT
    finding = fails(crowded, "access.above")
    need = finding.mends[0].amounts["need"].value
    assert judge(with_box(crowded, ceiling_gap_mm=need), "access.above") is Verdict.FITS
    assert fails(with_box(project, removable="top"), "access.removable")
    shut = find(build(with_box(project, removable="back"))[1], "access.removable")
    assert shut.verdict is Verdict.DOES_NOT_FIT
    assert judge(with_box(project, removable="back", hung="cart"), "access.removable") is Verdict.FITS

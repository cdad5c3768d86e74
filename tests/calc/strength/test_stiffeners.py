"""Ribs: across a panel where they find room, along it where the holes leave no other way, never into each other."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc.box.box import settle_box
from calc.design import Design, design_box
from calc.finding import Verdict
from calc.measures.quantity import Reader
from calc.project import Panel, Project
from calc.shapes.faces import find_flat, meet_blocks
from calc.strength.findings import judge_bow
from packet.words.say import say
from tests.shop import make_project


def build(thick: float) -> tuple[Project, Design]:
    project = make_project()
    box = replace(project.box, panel=Panel(stock="birch plywood", thickness_mm=thick, nominal_mm=thick))
    settled = settle_box(replace(project, box=box, lining=None))
    return settled, design_box(settled, 800.0, 2800.0)


@pytest.mark.parametrize("thick", [6.0, 9.0, 12.0])
def test_ribs_stand_clear_of_holes_and_of_each_other(thick: float) -> None:
    _, design = build(thick)
    ribs = [part for part in design.parts if part.kind == "stiffener"]
    assert ribs
    for rib in ribs:
        left, bottom, right, top = find_flat(rib.face, rib.block, design.box.outside)
        panel = next(p for p in design.parts if p.kind == "panel" and p.face == rib.face)
        for hole in panel.holes:
            x, y = hole.across_mm + panel.left_mm, hole.up_mm + panel.bottom_mm
            # nearest point of the rib's footprint to the hole's middle
            near = (min(max(x, left), right) - x) ** 2 + (min(max(y, bottom), top) - y) ** 2
            assert near**0.5 > hole.diameter_mm / 2
    for index, a in enumerate(ribs):
        for b in ribs[:index]:
            assert not meet_blocks(a.block, b.block), (a.name, b.name)


def test_ribs_run_along_a_panel_when_holes_bar_the_way_across() -> None:
    """Two openings side by side in the middle: no rib passes between them, one stands above them."""
    project = make_project()
    port = project.ports[2]
    ports = [p for p in project.ports if p.face != "front"]
    row = [replace(port, name=f"hand hole {n}", across_mm=445.0 + 300.0 * n, up_mm=200.0) for n in range(2)]
    box = replace(
        project.box,
        panel=Panel(stock="birch plywood", thickness_mm=24.0, nominal_mm=24.0),
        width_mm=1190.0,
        height_mm=620.0,
    )
    settled = settle_box(replace(project, box=box, ports=(*ports, *row), lining=None))
    design = design_box(settled, 800.0, 2800.0)
    front = design.strength.get_panel("front")
    assert front.lengthwise
    assert front.bow_bare_mm > front.limit_mm
    assert front.bow_out_mm <= front.limit_mm + 1e-9
    ribs = [part for part in design.parts if part.kind == "stiffener" and part.face == "front"]
    assert len(ribs) == front.ribs
    assert all(rib.width_mm > 1000.0 for rib in ribs)
    assert all(rib.block.along(0) == rib.width_mm for rib in ribs)
    finding = judge_bow(design.box, front)
    assert finding.verdict is Verdict.FITS
    assert "along it" in say(finding.why, Reader("inch"))


def test_the_thickness_told_instead_of_ribs_does_without() -> None:
    _, design = build(9.0)
    panel = next(p for p in design.strength.panels if p.ribs)
    finding = judge_bow(design.box, panel)
    thick = panel.thick_enough_mm
    stronger = build(thick + 0.1)[1].strength.get_panel(panel.face)
    assert stronger.ribs == 0
    assert stronger.bow_out_mm <= stronger.limit_mm
    # and it takes more wood, as the finding says
    ribs = sum(p.width_mm * p.height_mm * 9.0 for p in design.parts if p.kind == "stiffener" and p.face == panel.face)
    extra = (thick - 9.0) * panel.short_mm * panel.long_mm
    assert ("take more wood" in say(finding.why, Reader("inch"))) == (extra > ribs)

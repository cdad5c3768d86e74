"""Two things cannot fill one place: the lining leaves room for the ribs that stand on its panel."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc.box.box import settle_box
from calc.design import Design, design_box
from calc.project import Lining
from calc.shapes.faces import find_flat
from tests.shop import make_project


def build(thickness_mm: float, faces: tuple[str, ...]) -> Design:
    project = make_project()
    panel = replace(project.box.panel, thickness_mm=thickness_mm, nominal_mm=thickness_mm)
    lining = Lining("carpet", 12.0, faces)  # type: ignore[arg-type]
    box = replace(project.box, panel=panel)
    return design_box(settle_box(replace(project, box=box, lining=lining)), 800.0, 2800.0)


@pytest.mark.parametrize("faces", [("top",), ("top", "back", "left", "right"), ("bottom", "top", "front")])
def test_no_lining_lies_where_a_rib_stands(faces: tuple[str, ...]) -> None:
    design = build(9.0, faces)
    ribs = [part for part in design.parts if part.kind == "stiffener"]
    assert design.lining
    shared = {rib.face for rib in ribs} & {piece.face for piece in design.lining.pieces}
    assert shared
    for rib in ribs:
        left, low, right, top = find_flat(rib.face, rib.block, design.box.outside)
        for piece in (each for each in design.lining.pieces if each.face == rib.face):
            across = min(right, piece.left_mm + piece.width_mm) - max(left, piece.left_mm)
            up = min(top, piece.bottom_mm + piece.height_mm) - max(low, piece.bottom_mm)
            assert across <= 1e-6 or up <= 1e-6, (rib.name, piece.name)


def test_strips_and_ribs_fill_the_face_and_keep_every_hole() -> None:
    """What the strips cover and what the ribs take of it add up to the whole piece; each hole is in one strip."""
    design = build(9.0, ("bottom", "top"))
    assert design.lining
    for face in ("bottom", "top"):
        ribs = [part for part in design.parts if part.kind == "stiffener" and part.face == face]
        strips = [piece for piece in design.lining.pieces if piece.face == face]
        assert len(strips) == len(ribs) + 1
        cavity = design.box.inside
        assert sum(s.width_mm for s in strips) + 9.0 * len(ribs) == pytest.approx(cavity.width) or sum(
            s.height_mm for s in strips
        ) + 9.0 * len(ribs) == pytest.approx(cavity.depth)
        holes = [hole.name for strip in strips for hole in strip.holes]
        assert sorted(holes) == sorted(port.name for port in design.ports if port.port.face == face)
    names = [piece.name for piece in design.lining.pieces]
    assert len(set(names)) == len(names)


def test_without_ribs_each_face_has_one_piece() -> None:
    design = build(18.0, ("top", "left"))
    assert design.lining
    assert [piece.name for piece in design.lining.pieces] == ["lining left", "lining top"]

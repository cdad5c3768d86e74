"""Pivot settings: set up the jig on paper and see where the bit's edge runs."""

from __future__ import annotations

import pytest

from calc.box.ports import design_port
from calc.cutting.circles import (
    list_drilled,
    list_passes,
    list_settings,
    pick_hole_saw,
    set_circle,
    set_guide,
    set_pivot,
)
from calc.cutting.round_parts import make_round_parts
from calc.measures.quantity import Reader
from calc.project import Methods
from packet.words.say import say
from tests.shop import make_project

INCH = Reader("inch")


@pytest.mark.parametrize("bit", [3.0, 6.35, 12.7])
def test_far_side_of_the_bit_makes_the_hole_and_near_side_the_disc(bit: float) -> None:
    near, middle = set_pivot(300.0, bit, "hole")
    assert near + bit == pytest.approx(150.0)
    assert middle + bit / 2 == pytest.approx(150.0)
    near, middle = set_pivot(300.0, bit, "disc")
    assert near == pytest.approx(150.0)
    assert middle - bit / 2 == pytest.approx(150.0)


def test_bit_wider_than_its_hole_is_refused() -> None:
    with pytest.raises(ValueError, match="wider"):
        set_pivot(5.0, 6.35, "hole")


def test_hole_grows_and_disc_shrinks_to_the_final_line() -> None:
    hole = [p.radius_mm for p in list_passes(300.0, 6.35, "hole", 0.8)]
    disc = [p.radius_mm for p in list_passes(300.0, 6.35, "disc", 0.8)]
    assert hole == pytest.approx([149.2, 149.6, 150.0])
    assert disc == pytest.approx([150.8, 150.4, 150.0])
    assert [p.name for p in list_passes(300.0, 6.35, "hole", 0.0)] == ["final line"]


def test_worked_setting_of_a_common_pail() -> None:
    # 11-7/8 in hole, 1/4 in bit: 5-15/16 less 1/4 = 5-11/16 in from pivot to the near edge (arithmetic by hand).
    circle = set_circle("hole", 11.875 * 25.4, "hole", Methods(bit_mm=6.35))
    assert circle.router[-1].near_edge_mm / 25.4 == pytest.approx(5.6875)


@pytest.mark.parametrize(("hole", "saw"), [(38.1, 38.1), (38.5, 38.1), (39.5, None), (37.9, None)])
def test_hole_saw_is_never_larger_and_hardly_smaller(hole: float, saw: float | None) -> None:
    assert pick_hole_saw(hole, [25.4, 38.1, 50.8]) == (pytest.approx(saw) if saw else None)


def test_every_large_circle_is_listed_once() -> None:
    project = make_project()
    parts = make_round_parts(project, project.box.panel, [design_port(project, port) for port in project.ports]).parts
    settings = list_settings(parts, project.methods)
    keys = [(s.keep, round(s.diameter_mm, 2), say(s.name, INCH).split()[1]) for s in settings]
    assert len(keys) == len(set(keys))
    for port in project.ports:
        assert any(abs(s.diameter_mm - design_port(project, port).hole_mm) < 0.01 for s in settings)


def test_every_drilled_hole_is_counted() -> None:
    project = make_project()
    parts = make_round_parts(project, project.box.panel, [design_port(project, port) for port in project.ports]).parts
    drilled = {(say(d.part, INCH), d.diameter_mm): d.count for d in list_drilled(parts)}
    assert drilled["H1 hole for filter A", 3.2] == 8
    assert drilled["L1 filter lid", 15.9] == 4 * 4  # four lids, four hooks each


def test_base_run_round_its_guide_puts_the_blade_on_the_line() -> None:
    """Set it up on paper: guide's edge, base, then the cut; its far side is a hole's edge, its near side a disc's."""
    base, kerf = 38.0, 3.0
    for keep, beyond in (("hole", kerf), ("disc", 0.0)):
        guide = set_guide(301.4, kerf, base, keep)  # type: ignore[arg-type]
        assert guide is not None
        assert guide / 2 + base + beyond == pytest.approx(301.4 / 2)
    assert set_guide(100.0, kerf, base, "hole") is None
    assert set_circle("x", 301.4, "hole", Methods()).guide_mm is None
    assert set_circle("x", 301.4, "hole", Methods(base_mm=base)).guide_mm == pytest.approx(301.4 - 2 * (base + 3.0))

"""Which template goes on which sheet."""

from __future__ import annotations

import dataclasses
import math

import pytest

from calc.box.ports import design_port
from calc.cutting.round_parts import make_round_parts
from calc.cutting.templates import find_diagonals, judge_paper, lay_sheet, plan_templates
from calc.finding import Verdict
from calc.measures.quantity import Reader
from calc.project import Display
from calc.shapes.shapes import Circle, Feature, FlatPart, Layer, Point
from packet.words.say import say
from tests.shop import make_project

PROJECT = make_project()
PARTS = make_round_parts(PROJECT, PROJECT.box.panel, [design_port(PROJECT, port) for port in PROJECT.ports]).parts


def with_display(**changes: object) -> Display:
    return dataclasses.replace(PROJECT.display, **changes)  # type: ignore[arg-type]


def test_every_full_size_part_is_on_paper_once() -> None:
    plan = plan_templates(PROJECT.display, PARTS)
    on_paper = [t.part for t in plan.tiled] + [one.part for sheet in plan.shared for one in sheet]
    wanted = [part for part in PARTS if part.full_size]
    assert sorted(map(id, on_paper)) == sorted(map(id, wanted))
    assert plan.sheets == sum(len(t.tiling.tiles) for t in plan.tiled) + len(plan.shared)


def test_a_hole_takes_four_letter_sheets_and_two_tabloid() -> None:
    for paper, count in (((215.9, 279.4), 4), ((279.4, 431.8), 2)):
        size = dataclasses.replace(PROJECT.display.paper, width_mm=paper[0], height_mm=paper[1])
        plan = plan_templates(with_display(paper=size), PARTS)
        assert [len(t.tiling.tiles) for t in plan.tiled if t.part.name == "hole for filter A"] == [count]


def test_lids_cut_alike_share_one_template() -> None:
    lids = [part for part in PARTS if part.name == "filter lid"]
    assert [lid.quantity for lid in lids] == [4]  # two filters, a lid at either end


def test_a_part_that_nobody_prints_takes_no_paper() -> None:
    hidden = [dataclasses.replace(part, full_size=False) for part in PARTS]
    assert plan_templates(PROJECT.display, hidden).sheets == 0


def test_ghosts_alone_take_no_paper() -> None:
    ghost = FlatPart(
        number="9",
        name="air",
        features=(Feature(shape=Circle(Point(0, 0), 50), layer=Layer.GHOST),),
        quantity=1,
        material="air",
        thickness_mm=1.0,
        face="none",
        kind="panel",
    )
    assert plan_templates(PROJECT.display, [ghost]).sheets == 0


def test_margins_are_at_least_a_quarter_inch() -> None:
    paper = dataclasses.replace(PROJECT.display.paper, margin_mm=1.0)
    assert lay_sheet(with_display(paper=paper)).left_mm == pytest.approx(6.35)


def test_a_printer_that_makes_things_small_shows_more_on_the_same_paper() -> None:
    """The printer turns 1 mm of the file into 0.98 mm; the file is stretched by 1/0.98 to make up for it."""
    plain, small = lay_sheet(PROJECT.display), lay_sheet(with_display(printer_x=0.98))
    assert small.frame_width_mm == pytest.approx(0.98 * plain.frame_width_mm)
    assert small.frame_height_mm == pytest.approx(plain.frame_height_mm)


def test_both_diagonals_of_a_full_grid_are_alike() -> None:
    plan = plan_templates(PROJECT.display, PARTS)
    checks = find_diagonals(next(t.tiling for t in plan.tiled))
    assert len(checks) == 2
    assert checks[0].length_mm == pytest.approx(checks[1].length_mm)
    wide = abs(checks[0].end.x - checks[0].start.x)
    tall = abs(checks[0].end.y - checks[0].start.y)
    assert checks[0].length_mm == pytest.approx(math.sqrt(wide**2 + tall**2))


def test_a_part_of_one_sheet_has_no_diagonal() -> None:
    small = FlatPart(
        number="9",
        name="strip",
        features=(Feature(shape=Circle(Point(0, 0), 88), layer=Layer.CUT),),
        quantity=1,
        material="card",
        thickness_mm=1.0,
        face="any",
        kind="panel",
    )
    (placed,) = plan_templates(PROJECT.display, [small]).shared
    assert placed[0].part is small


def test_twenty_four_metres_for_inches_is_told_with_its_size() -> None:
    big = FlatPart(
        number="1",
        name="bottom",
        features=(Feature(shape=Circle(Point(0, 0), 12000), layer=Layer.CUT),),
        quantity=1,
        material="plywood",
        thickness_mm=18.0,
        face="bottom",
        kind="panel",
    )
    page, finding = judge_paper(PROJECT.display, [big])
    assert page.key == "page.1"
    assert page.verdict is Verdict.TIGHT  # ISO 32000-1: 200 in, so no file for a copy shop either
    assert "folder large" not in say(finding.mends[1], Reader("inch"))
    assert finding.verdict is Verdict.DOES_NOT_FIT
    assert big.is_about(finding)
    assert big.is_about(page)
    assert finding.why.amounts["width"].value == pytest.approx(24000.0)
    assert finding.value is not None
    assert finding.value.value > 24


@pytest.mark.parametrize(("x", "y"), [(0.97, 0.97), (1.03, 1.03), (1.0, 1.0)])
def test_a_common_hole_takes_four_sheets_on_any_printer(x: float, y: float) -> None:
    """Marks that nobody cuts cost no paper: 11-7/8 in with its screws goes on four sheets of letter or A4."""
    for width, height in ((215.9, 279.4), (210.0, 297.0)):
        paper = dataclasses.replace(PROJECT.display.paper, width_mm=width, height_mm=height)
        plan = plan_templates(with_display(paper=paper, printer_x=x, printer_y=y), PARTS)
        assert {len(t.tiling.tiles) for t in plan.tiled if t.part.name.startswith("hole for filter")} == {4}


def test_pails_alike_share_strip_and_test_card_but_never_a_hole() -> None:
    first = PROJECT.ports[0]
    twin = dataclasses.replace(PROJECT.ports[1], pail=first.pail)
    project = dataclasses.replace(PROJECT, ports=(first, twin, *PROJECT.ports[2:]))
    parts = make_round_parts(project, project.box.panel, [design_port(project, port) for port in project.ports]).parts
    names = [part.name for part in parts if part.full_size]
    assert "wrap strip filter A, filter B" in names
    assert "test card filter A, filter B" in names
    assert "hole for filter A" in names
    assert "hole for filter B" in names


def test_pails_apart_by_more_than_a_strip_may_miss_share_nothing() -> None:
    wider = dataclasses.replace(
        PROJECT.ports[1].pail, across_mm=(design_port(PROJECT, PROJECT.ports[0]).mean_mm + 0.1,)
    )
    project = dataclasses.replace(PROJECT, ports=(PROJECT.ports[0], dataclasses.replace(PROJECT.ports[1], pail=wider)))
    parts = make_round_parts(project, project.box.panel, [design_port(project, port) for port in project.ports]).parts
    assert sum(part.full_size and part.name.startswith("wrap strip") for part in parts) == 2

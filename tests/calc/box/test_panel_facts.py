"""Two things never fill one place: ribs, cleats, openings, flanges, rails and screws of boxes, as they are told.

One in five of 144 boxes is designed; ``BOXES=all`` designs them all (a minute).
"""

from __future__ import annotations

import itertools
import math
import os
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache

import pytest

from calc import design as design_module
from calc.box.box import settle_box
from calc.design import Design, design_box
from calc.finding import Verdict
from calc.measures.marking import write_mark
from calc.measures.quantity import Reader
from calc.project import Face, Panel
from calc.shapes.faces import find_flat, find_wall
from calc.strength.findings import judge_bow
from packet.bill.cuts import list_cuts
from packet.draw.model import Dimension, Pen, Stroke
from packet.draw.views.panels import draw_panel
from packet.words.say import say
from tests.shop import make_project

METRIC = Reader("metric")
CASES = tuple(
    itertools.product(
        (6.0, 9.0, 12.0, 18.0), ("butt", "rabbet", "dado", "cleat"), ("wall", "ceiling", "cart"), (1, 2, 3)
    )
)
EACH = 1 if os.environ.get("BOXES") == "all" else 5
STOCKS = ("birch plywood", "MDF", "softwood plywood")
HEAD_MM = 4.2
"""Half the head of a No. 8 flat-head screw, 0.33 in (ASME B18.6.1, from memory)."""


@cache
def make_designs() -> dict[tuple[float, str, str, int], Design]:
    """Return a design for every thickness, joint, way of hanging and number of filters; the sheets left out."""
    designs = {}
    patch = pytest.MonkeyPatch()
    patch.setattr(design_module, "nest_parts", lambda *_: ())
    for number, case in list(enumerate(CASES))[::EACH]:
        thick, joint, hung, filters = case
        project = make_project()
        ports = (*(replace(project.ports[0], name=f"filter {n}") for n in range(filters)), *project.ports[2:])
        panel = Panel(stock=STOCKS[number % 3], thickness_mm=thick, nominal_mm=thick)
        box = replace(project.box, joint=joint, hung=hung, panel=panel, width_mm=300.0 + 460.0 * filters)
        lining = project.lining if number % 2 else None
        hanging = (replace(project.filters[0], count=filters),)
        settled = settle_box(replace(project, box=box, ports=ports, filters=hanging, lining=lining))
        designs[case] = design_box(settled, 800.0, 2800.0)
    patch.undo()
    return designs


def share_wood(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    """Tell whether two bricks, each as low x, y, z and high x, y, z, fill some place both."""
    return all(min(a[i + 3], b[i + 3]) - max(a[i], b[i]) > 1e-6 for i in range(3))


def test_no_cleat_rib_or_panel_shares_wood_with_another() -> None:
    ribbed = 0
    for case, design in make_designs().items():
        strips = [part for part in design.parts if part.kind in ("cleat", "stiffener")]
        ribbed += any(part.kind == "stiffener" for part in strips)
        for a, b in itertools.combinations(strips, 2):
            assert not share_wood((*a.block.low, *a.block.high), (*b.block.low, *b.block.high)), (case, a.name, b.name)
        for strip, other in itertools.product(strips, design.parts):
            if other.kind in ("panel", "mount"):
                one, two = (*strip.block.low, *strip.block.high), (*other.block.low, *other.block.high)
                assert not share_wood(one, two), (case, strip.name, other.name)
    assert ribbed > 60 / EACH


def test_no_rib_stands_behind_a_flange_or_its_end_in_an_opening() -> None:
    seen = 0
    for case, design in make_designs().items():
        for panel in design.panels:
            for hole, strip in itertools.product(panel.holes, panel.strips):
                if strip.kind != "stiffener":
                    continue
                seen += 1
                across = max(strip.left_mm - hole.across_mm, hole.across_mm - strip.right_mm, 0.0)
                up = max(strip.bottom_mm - hole.up_mm, hole.up_mm - strip.top_mm, 0.0)
                assert math.hypot(across, up) > max(hole.flange_mm, hole.diameter_mm) / 2, (case, strip.name, hole.name)
            # a rib of another panel may end at this one, but not right behind a hole of it
            for rib in (part for part in design.parts if part.kind == "stiffener" and part.face != panel.face):
                axis = {"left": 0, "right": 0, "front": 1, "back": 1, "bottom": 2, "top": 2}[panel.face]
                block, wall = rib.block, panel.part.block
                gap = max(block.low[axis] - wall.high[axis], wall.low[axis] - block.high[axis])
                if gap > 20.0:
                    continue
                left, bottom, right, top = find_flat(panel.face, block, design.box.outside)
                for hole in panel.holes:
                    x, y = hole.across_mm + panel.part.left_mm, hole.up_mm + panel.part.bottom_mm
                    near = math.hypot(max(left - x, x - right, 0.0), max(bottom - y, y - top, 0.0))
                    assert near >= hole.diameter_mm / 2 - 1e-6, (case, rib.name, hole.name)
    assert seen > 100 / EACH


def test_every_screw_can_be_driven() -> None:
    """No head under a flange or rail, none where a rib stands, no two in one place."""
    for case, design in make_designs().items():
        for panel in design.panels:
            spots = [(row, spot) for row in panel.rows for spot in row.spots]
            for row, spot in spots:
                for hole in panel.holes:
                    reach = (hole.flange_mm if row.drilled else hole.diameter_mm) / 2
                    apart = math.dist((spot.x, spot.y), (hole.across_mm, hole.up_mm))
                    assert apart >= reach + HEAD_MM, (case, panel.name, row.part, hole.name)
                for strip in panel.strips:
                    # a joint's screws are driven, and sunk, before a rail goes over them
                    over = row.part.startswith("rib ") if row.drilled else True
                    barring = strip.kind == ("mount" if row.drilled else "stiffener")
                    if barring and over and strip.name != row.part:
                        across = max(strip.left_mm - spot.x, spot.x - strip.right_mm, 0.0)
                        up = max(strip.bottom_mm - spot.y, spot.y - strip.top_mm, 0.0)
                        assert math.hypot(across, up) >= HEAD_MM, (case, panel.name, row.part, strip.name)
            for (a, p), (b, q) in itertools.combinations(spots, 2):
                assert a is b or math.dist((p.x, p.y), (q.x, q.y)) > HEAD_MM, (case, panel.name, a.part, b.part)
            for strip in (strip for strip in panel.strips if strip.kind == "stiffener"):
                own = [row for row in panel.rows if row.part == strip.name]
                assert sum(row.count for row in own) >= 2, (case, strip.name)
                assert all(
                    strip.left_mm < spot.x < strip.right_mm and strip.bottom_mm < spot.y < strip.top_mm
                    for row in own for spot in row.spots
                )  # fmt: skip


def test_a_rail_is_screwed_from_inside_where_a_driver_reaches() -> None:
    for case, design in make_designs().items():
        cavity = {face: find_flat(face, design.box.cavity, design.box.outside) for face in ("back", "top")}
        for row in design.rows:
            if row.into in ("box rail", "lower spacer", "left rail", "right rail"):
                left, bottom, right, top = cavity[row.face]
                assert row.spots, (case, row.into)
                assert all(left < s.x < right and bottom < s.y < top for s in row.spots), (case, row.into)


def list_told(design: Design) -> Iterator[tuple[str, str, str]]:
    """Return number, middle and end of every strip as the cut list tells them."""
    for row in list_cuts(design, METRIC):
        found = re.search(r"inside the .* panel, middle ([\d.]+ mm) .*end ([\d.]+ mm) ", row.joints)
        if found:
            yield row.name, found[1], found[2]


def test_cut_list_and_drawing_tell_where_each_strip_stands() -> None:
    """Held against the brick in space, by way of the panel's own brick."""
    told = 0
    for case, design in list(make_designs().items())[:: 5 // EACH]:
        places = {name: (middle, end) for name, middle, end in list_told(design)}
        strips = [part for part in design.parts if part.kind in ("cleat", "stiffener")]
        assert set(places) == {part.name for part in strips}
        for panel in design.panels:
            drawing = draw_panel(panel, METRIC, 1 / 16)
            from_edge = [d for d in drawing.entities if isinstance(d, Dimension) and (d.start.x, d.start.y) == (0, 0)]
            hidden = [e for e in drawing.entities if isinstance(e, Stroke) and e.pen is Pen.HIDDEN]
            assert len(hidden) == len(panel.joints) + sum(strip.inside for strip in panel.strips)
            corner = find_flat(panel.face, panel.part.block, design.box.outside)
            for part in (part for part in strips if part.face == panel.face):
                left, bottom, right, top = find_flat(part.face, part.block, design.box.outside)
                upright = right - left < top - bottom
                middle = (left + right) / 2 - corner[0] if upright else (bottom + top) / 2 - corner[1]
                end = bottom - corner[1] if upright else left - corner[0]
                assert places[part.name] == (write_mark(middle, METRIC), write_mark(end, METRIC)), (case, part.name)
                ends = [d for d in from_edge if abs((d.end.x if upright else d.end.y) - middle) < 1e-3]
                assert {d.text for d in ends} == {places[part.name][0]}
                told += 1
    assert told > 60


def test_every_panel_with_a_joint_is_drawn_with_it() -> None:
    """A rabbeted or dadoed panel without holes has its drawing too; the cut list's words name the same edges."""
    for case, design in make_designs().items():
        if case[1] not in ("rabbet", "dado"):
            continue
        rows = {row.name: row for row in list_cuts(design, METRIC)}
        for panel in design.panels:
            edges = {joint.edge for joint in panel.joints}
            named = set(re.findall(r"\b(left|right|bottom|top)\b", rows[panel.name].joints.partition(":")[0]))
            assert edges == named, (case, panel.name)
            assert panel.is_worked == bool(panel.holes or edges or panel.strips)


def test_the_corner_is_told_by_the_walls_that_meet_there() -> None:
    """The box folded out in third angle (ISO 5456-2, from memory): seen from below, the back is the lower edge."""
    corners: dict[Face, tuple[Face, Face]] = {
        "front": ("left", "bottom"), "back": ("right", "bottom"), "left": ("back", "bottom"),
        "right": ("front", "bottom"), "top": ("left", "front"), "bottom": ("left", "back"),
    }  # fmt: skip
    design = next(iter(make_designs().values()))
    for panel in design.panels:
        assert (panel.left_wall, panel.lower_wall) == corners[panel.face]
        assert panel.left_wall == find_wall(panel.face, "left")


def test_a_panel_that_ribs_would_hold_but_find_no_place_on_does_not_fit_and_says_what_mends_it() -> None:
    barred = [(d, p) for d in make_designs().values() for p in d.strength.panels if p.ribs_barred]
    assert barred
    for design, panel in barred:
        finding = judge_bow(design.box, panel)
        assert finding.verdict is Verdict.DOES_NOT_FIT
        assert any(each.key == finding.key for each in design.findings)
        assert "no" in say(finding.why, METRIC) or "none" in say(finding.why, METRIC)
        mends = " ".join(say(mend, METRIC) for mend in finding.mends)
        assert "thick" in mends
        assert "Move the openings" in mends

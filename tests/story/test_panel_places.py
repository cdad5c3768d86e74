"""Where a hole stands on its panel: step, cut list, drawing and files for machines tell the same place."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from dataclasses import dataclass, replace

import ezdxf
import pytest

from calc.measures.marking import write_mark
from calc.project import Panel
from calc.shapes.shapes import Circle
from packet.bill.cuts import list_cuts
from packet.draw.backends.dxf import write_dxf
from packet.draw.backends.svg import write_svg
from packet.draw.model import Dimension, Drawing, Pen, Stroke
from packet.draw.views.panels import draw_panel
from packet.files.export import draw_for_machine
from packet.job import Job
from tests.shop import finish_job, load_job, make_project

SAMPLES = ("boatshed", "schoolroom", "cart", "outdoor", "minimal")
MADE = (("butt", 18.0), ("rabbet", 12.0), ("rabbet", 40.0), ("dado", 18.0), ("dado", 25.0), ("cleat", 12.0))
JOBS = (*SAMPLES, *MADE)
HOLE = re.compile(r"(?:^|; )([^:;]+): (\S+(?: \S+)?) dia\. at (\S+(?: in| mm)) from left, (\S+(?: in| mm)) up")


def take_job(which: str | tuple[str, float]) -> Job:
    """Return a sample's job, or the boatshed's with a joint and a thickness; the thick one in MDF, its inlet aside."""
    if isinstance(which, str):
        return load_job(which)
    joint, thick = which
    project = make_project()
    stock = "MDF" if thick > 30 else "birch plywood"
    inlet = replace(project.box.inlet, face="right" if thick > 20 else "left")
    box = replace(project.box, joint=joint, panel=Panel(stock=stock, thickness_mm=thick, nominal_mm=thick), inlet=inlet)
    return finish_job(replace(project, box=box))


def list_step(job: Job) -> dict[str, str]:
    """Return hole -> place as the marking step tells it."""
    step = next(step for step in job.plan.steps if step.id == "mark_holes")
    return {hold.what: hold.value for hold in step.holds}


def list_cut(job: Job) -> dict[str, tuple[str, str]]:
    """Return hole -> across, up as the cut list of the panels tells them."""
    panels = {part.name for part in job.design.parts if part.kind == "panel"}
    rows = [row for row in list_cuts(job.design, job.reader) if row.name in panels]
    return {found[1]: (found[3], found[4]) for row in rows for found in HOLE.finditer(row.holes)}


def join_places(across: str, up: str) -> str:
    """Return two lengths as the step writes them, the unit once."""
    return f"{across.removesuffix(across[across.rindex(' ') :])} × {up}"


@dataclass(frozen=True)
class Round:
    """A circle that is cut, from the outline's lower left corner [mm]."""

    across: float
    up: float
    diameter: float


def read_dxf(drawing: Drawing) -> list[Round]:
    """Return the circles of the cut layer, measured in the file from the outline's own corner."""
    space = ezdxf.read(io.StringIO(write_dxf(drawing))).modelspace()  # type: ignore[attr-defined]
    cut = [entity for entity in space if entity.dxf.layer == "cut"]
    corners = [tuple(point)[:2] for each in cut if each.dxftype() == "LWPOLYLINE" for point in each.get_points()]
    corners += [tuple(end)[:2] for each in cut if each.dxftype() == "LINE" for end in (each.dxf.start, each.dxf.end)]
    left, low = min(x for x, _ in corners), min(y for _, y in corners)
    return [
        Round(each.dxf.center.x - left, each.dxf.center.y - low, 2 * each.dxf.radius)
        for each in cut if each.dxftype() == "CIRCLE"
    ]  # fmt: skip


def read_svg(drawing: Drawing) -> list[Round]:
    """Return the same from the SVG, whose y runs down."""
    group = re.search(r'<g [^>]*id="cut".*?</g>', write_svg(drawing))
    assert group
    ends = [tuple(map(float, pair)) for pair in re.findall(r"[ML] (-?[\d.]+) (-?[\d.]+)", group[0])]
    left, low = min(x for x, _ in ends), max(y for _, y in ends)
    found = [dict(re.findall(r'\b(cx|cy|r)="(-?[\d.]+)"', tag)) for tag in re.findall(r"<circle[^>]*>", group[0])]
    return [Round(float(c["cx"]) - left, low - float(c["cy"]), 2 * float(c["r"])) for c in found]


@pytest.mark.parametrize("which", JOBS, ids=str)
def test_step_cut_list_and_drawing_tell_one_place(which: str | tuple[str, float]) -> None:
    job = take_job(which)
    step, cut = list_step(job), list_cut(job)
    assert len(cut) == len(job.project.ports) + 1
    assert set(step) == set(cut)
    for panel in job.design.panels:
        drawing = draw_panel(panel, job.reader, 1 / 16)
        sizes = [each for each in drawing.entities if isinstance(each, Dimension)]
        rounds = {
            (round(s.shape.centre.x, 3), round(s.shape.centre.y, 3))
            for s in drawing.entities if isinstance(s, Stroke) and s.pen is Pen.CUT and isinstance(s.shape, Circle)
        }  # fmt: skip
        for hole in panel.holes:
            across, up = cut[hole.name]
            assert step[hole.name] == join_places(across, up)
            assert (round(hole.across_mm, 3), round(hole.up_mm, 3)) in rounds
            told = {d.text for d in sizes if (d.start.x, d.start.y) == (0, 0) and abs(d.end.x - hole.across_mm) < 1e-3}
            assert told == {across}
            told = {d.text for d in sizes if (d.start.x, d.start.y) == (0, 0) and abs(d.end.y - hole.up_mm) < 1e-3}
            assert told == {up}


@pytest.mark.parametrize("read", [read_dxf, read_svg])
@pytest.mark.parametrize("which", JOBS, ids=str)
def test_files_for_machines_hold_the_places_that_are_told(
    which: str | tuple[str, float], read: Callable[[Drawing], list[Round]]
) -> None:
    """A file's circles, measured in the file from its outline's corner, round to the words of the step."""
    job = take_job(which)
    step = list_step(job)
    found: set[str] = set()
    for panel in job.design.panels:
        part = next(flat for flat in job.design.flat_parts if flat.number == panel.number)
        rounds = read(draw_for_machine(part, job.reader, "A"))
        places = {(write_mark(each.across, job.reader), write_mark(each.up, job.reader)) for each in rounds}
        told = {join_places(across, up) for across, up in places}
        assert told == {step[hole.name] for hole in panel.holes}
        found |= {hole.name for hole in panel.holes}
    assert found == set(step)


@pytest.mark.parametrize("which", JOBS, ids=str)
def test_a_hole_marked_by_the_step_stands_where_the_box_was_designed(which: str | tuple[str, float]) -> None:
    """Second route: what the panel leaves free of the box beside it, from sizes alone, takes the hole to the face.

    A panel stands in the middle of its face, but for the sides that run up to the removable or the fixed face: those
    begin at the front. So a bottom is as far from the box's left as it is narrower than the box, by half.
    """
    job = take_job(which)
    assert job.project.box.removable == "front"
    outside = job.design.box.outside
    for panel in job.design.panels:
        if panel.face not in ("front", "back", "top", "bottom"):
            continue
        beside = (outside.width - panel.part.width_mm) / 2
        for hole in panel.holes:
            place = job.project.box.inlet if hole.kind == "inlet" else job.design.get_port(hole.name).port
            assert place.across_mm == pytest.approx(hole.across_mm + beside)


def test_the_samples_put_holes_off_the_box_s_corner() -> None:
    """So that a place told from the box, not from the panel, would be seen."""
    moved = [
        hole for name in SAMPLES for panel in load_job(name).design.panels for hole in panel.holes
        if max(panel.part.left_mm, panel.part.bottom_mm) > 1.0
    ]  # fmt: skip
    assert len(moved) >= 6

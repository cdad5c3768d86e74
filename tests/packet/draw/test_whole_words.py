"""No word of a template is halved by the edge of its sheet's window: read back from the PDF, by another library."""

from __future__ import annotations

import ctypes
import dataclasses

import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from calc.cutting.templates import RULES_MM, PaperLayout, plan_templates
from calc.shapes.shapes import Box, Circle, Point
from packet.draw.fonts import register_fonts
from packet.draw.model import Drawing, Pen, Stroke, Words
from packet.draw.whole_words import is_cut, keep_words_whole
from packet.job import Job
from tests.packet.sheets import MM, make_pdf
from tests.shop import load_job

EDGE_MM = 0.2  # a letter's box is a little larger than its ink


def read_quads(page: pypdfium2.PdfPage) -> list[np.ndarray]:
    """Return the four corners [mm] of the box round each piece of text on a page, however it is turned."""
    quads = []
    for text in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_TEXT]):
        quad = pdfium.FS_QUADPOINTSF()
        assert pdfium.FPDFPageObj_GetRotatedBounds(text.raw, ctypes.byref(quad))
        corners = [getattr(quad, f"{axis}{corner}") for corner in (1, 2, 3, 4) for axis in "xy"]
        quads.append(np.array(corners).reshape(4, 2) / MM)
    return quads


def list_cut(quads: list[np.ndarray], layout: PaperLayout) -> list[np.ndarray]:
    """Return the boxes that lie partly in the window and partly outside it, on a fine grid over each box."""
    left, bottom = layout.left_mm + RULES_MM, layout.bottom_mm + RULES_MM
    right, top = left + layout.window_width_mm, bottom + layout.window_height_mm
    along, up = np.meshgrid(np.linspace(0.0, 1.0, 60), np.linspace(0.0, 1.0, 6))
    cut = []
    for quad in quads:
        spots = quad[0] + along.reshape(-1, 1) * (quad[1] - quad[0]) + up.reshape(-1, 1) * (quad[3] - quad[0])
        x, y = spots[:, 0], spots[:, 1]
        touches = (x > left + EDGE_MM) & (x < right - EDGE_MM) & (y > bottom + EDGE_MM) & (y < top - EDGE_MM)
        within = (x > left - EDGE_MM) & (x < right + EDGE_MM) & (y > bottom - EDGE_MM) & (y < top + EDGE_MM)
        if touches.any() and not within.all():
            cut.append(quad)
    return cut


def count_cut(job: Job) -> int:
    plan = plan_templates(job.project.display, job.design.flat_parts)
    count = 0
    for tiled in plan.tiled:
        if len(tiled.tiling.tiles) > 1:
            for page in pypdfium2.PdfDocument(make_pdf(job, tiled, plan.layout)):
                count += len(list_cut(read_quads(page), plan.layout))
    return count


@pytest.mark.parametrize("name", ["boatshed", "schoolroom", "minimal"])
def test_no_text_box_crosses_the_edge_of_a_sheet(name: str) -> None:
    assert count_cut(load_job(name)) == 0


@pytest.mark.parametrize(("width", "height"), [(215.9, 355.6), (210.0, 297.0), (279.4, 431.8), (297.0, 420.0)])
def test_nor_on_other_paper(width: float, height: float) -> None:
    job = load_job("boatshed")
    display = job.project.display
    paper = dataclasses.replace(display.paper, width_mm=width, height_mm=height)
    shown = dataclasses.replace(job.project, display=dataclasses.replace(display, paper=paper))
    assert count_cut(dataclasses.replace(job, project=shown)) == 0


def draw_ring(*words: Words) -> Drawing:
    ring = Stroke(Circle(Point(0.0, 0.0), 100.0), Pen.CUT)
    return Drawing("ring", (ring, *words), Box(-110.0, -110.0, 110.0, 110.0))


def test_words_move_along_their_circle_and_off_each_other() -> None:
    register_fonts()
    halves = (Box(-120.0, -120.0, 3.0, 120.0), Box(-3.0, -120.0, 120.0, 120.0))
    top = Words(
        at=Point(0.0, 102.0), text="keep free for the hand", size_mm=2.2, anchor="middle", turn_deg=0.0, bold=True
    )
    assert is_cut(top, halves)
    (_, moved) = keep_words_whole(draw_ring(top), halves).entities
    assert isinstance(moved, Words)
    assert not is_cut(moved, halves)
    assert np.hypot(moved.at.x, moved.at.y) == pytest.approx(102.0)
    # upright to the radius: turned by as much as it was moved round
    assert moved.turn_deg == pytest.approx(np.degrees(np.arctan2(moved.at.y, moved.at.x)) - 90.0)
    # another word where it went pushes it on, or to the other side
    (_, _, again) = keep_words_whole(draw_ring(moved, top), halves).entities
    assert isinstance(again, Words)
    assert not is_cut(again, halves)
    assert np.hypot(again.at.x - moved.at.x, again.at.y - moved.at.y) > 20.0


def test_words_with_no_better_place_stay() -> None:
    register_fonts()
    alone = Words(at=Point(0.0, 0.0), text="grain of the panel", size_mm=2.2, anchor="middle")
    sheet = (Box(0.0, -10.0, 50.0, 10.0), Box(-50.0, -10.0, 0.0, 10.0))
    assert keep_words_whole(draw_ring(alone), sheet).entities[1] == alone

"""Words on templates: none cut short, none over another, none across a line that is cut."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pypdfium2
import pytest

from calc.box.ports import PortDesign
from calc.cutting.templates import plan_templates
from calc.measures.quantity import Reader
from calc.shapes.shapes import Arc, Circle, FlatPart, Layer
from packet.draw.flat import draw_flat
from packet.draw.fonts import measure_words, register_fonts
from packet.draw.model import Words
from packet.draw.pens import LOOKS, Pen
from packet.job import Job
from packet.words.say import say
from tests.shop import load_job, make_job, write_pages

METRIC = Reader("metric")

SAMPLES = ["boatshed", "schoolroom", "minimal"]
ROUND = ("hole", "filter lid", "gauge lid", "wrap strip", "gasket", "test card")


def list_round(job: Job) -> list[FlatPart]:
    return [part for part in job.design.flat_parts if part.full_size and part.name.startswith(ROUND)]


def outline(words: Words) -> np.ndarray:
    """Return the points of a grid over the capital letters of some words [mm], one a row."""
    wide = measure_words(words.text, words.size_mm, words.bold)
    start = {"start": 0.0, "middle": -wide / 2, "end": -wide}[words.anchor]
    along, up = np.meshgrid(
        np.linspace(start, start + wide, max(2, int(wide / 0.5))), np.linspace(0.0, words.size_mm, 5)
    )
    x, y, turn = along.ravel(), up.ravel(), math.radians(words.turn_deg)
    return np.column_stack(
        (
            words.at.x + x * math.cos(turn) - y * math.sin(turn),
            words.at.y + x * math.sin(turn) + y * math.cos(turn),
        )
    )


@pytest.mark.parametrize("name", SAMPLES)
def test_no_words_stand_on_other_words(name: str) -> None:
    register_fonts()
    for part in list_round(load_job(name)):
        words = [e for e in draw_flat(part, METRIC).entities if isinstance(e, Words)]
        spots = [outline(word) for word in words]
        for index, one in enumerate(spots):
            for other in range(index + 1, len(spots)):
                far = np.linalg.norm(one.mean(axis=0) - spots[other].mean(axis=0))
                if far > 70.0:
                    continue
                near = np.linalg.norm(one[:, None, :] - spots[other][None, :, :], axis=2).min()
                assert near > 0.6, (part.name, words[index].text, words[other].text)


@pytest.mark.parametrize("name", SAMPLES)
def test_no_words_run_across_a_round_line_that_is_cut_or_marked(name: str) -> None:
    register_fonts()
    for part in list_round(load_job(name)):
        lines = [f.shape for f in part.features if f.layer is not Layer.GHOST]
        circles = [shape for shape in lines if isinstance(shape, Circle)]
        arcs = [shape for shape in lines if isinstance(shape, Arc)]
        for word in (e for e in draw_flat(part, METRIC).entities if isinstance(e, Words)):
            spots = outline(word)
            for circle in circles:
                away = np.hypot(spots[:, 0] - circle.centre.x, spots[:, 1] - circle.centre.y) - circle.radius
                assert np.abs(away).min() > 0.3, (part.name, word.text)
                assert (away > 0).all() or (away < 0).all(), (part.name, word.text)
            for arc in () if word.ground else arcs:  # words on white ground stand above a mark
                x, y = spots[:, 0] - arc.centre.x, spots[:, 1] - arc.centre.y
                along = (np.degrees(np.arctan2(y, x)) - arc.start_deg) % 360.0 < arc.end_deg - arc.start_deg
                away = np.abs(np.hypot(x, y) - arc.radius)[along]
                assert away.size == 0 or away.min() > 0.3, (part.name, word.text)


@pytest.mark.parametrize("name", SAMPLES)
def test_no_word_at_the_head_of_a_sheet_is_cut_short(name: str) -> None:
    data, _ = write_pages(load_job(name), ("templates",))
    document = pypdfium2.PdfDocument(data)
    texts = [page.get_textpage().get_text_bounded() for page in document]
    document.close()
    assert [text for text in texts if "..." in text or "\u2026" in text] == []
    assert all("A line's middle counts" in " ".join(text.split()) for text in texts)


def test_first_cut_and_final_line_stand_clear_of_each_other() -> None:
    """White between them is at least a millimetre, as wide as both lines together and more."""
    port: PortDesign
    for port in make_job().design.ports:
        ink = (LOOKS[Pen.CUT].width_mm + LOOKS[Pen.FIRST_CUT].width_mm) / 2
        white = (port.hole_mm - port.first_cut_mm) / 2 - ink
        assert white >= 1.0
        assert white > 2 * ink


@pytest.mark.parametrize(
    ("width", "height"), [(215.9, 279.4), (215.9, 355.6), (279.4, 431.8), (210.0, 297.0), (297.0, 420.0)]
)
@pytest.mark.parametrize("makes", [0.97, 1.0, 1.03])
def test_ring_and_lining_are_whole_on_their_holes_sheets(width: float, height: float, makes: float) -> None:
    """They share the hole's sheets, so every bit of them must fall on one."""
    job = make_job()
    display = job.project.display
    paper = dataclasses.replace(display.paper, width_mm=width, height_mm=height)
    plan = plan_templates(
        dataclasses.replace(display, paper=paper, printer_x=makes, printer_y=makes), job.design.flat_parts
    )
    assert not plan.refused
    seen = 0
    for tiled in plan.tiled:
        for feature in tiled.part.features:
            if not say(feature.label, METRIC).startswith(("outside of ring", "hole in the lining")):
                continue
            seen += 1
            assert isinstance(feature.shape, Circle)
            for degree in range(360):
                turn = math.radians(degree)
                x = feature.shape.centre.x + feature.shape.radius * math.cos(turn)
                y = feature.shape.centre.y + feature.shape.radius * math.sin(turn)
                if tiled.tiling.turned:
                    x, y = -y, x
                assert any(
                    t.window.left <= x <= t.window.right and t.window.bottom <= y <= t.window.top
                    for t in tiled.tiling.tiles
                ), (tiled.part.name, feature.label, degree)
    assert seen >= len(job.design.ports)


def test_extra_templates_put_rings_and_discs_on_sheets_of_their_own() -> None:
    job = make_job()
    project = dataclasses.replace(job.project, display=dataclasses.replace(job.project.display, extra_templates=True))
    for made, wanted in ((job, False), (make_job(project), True)):
        names = [part.name for part in made.design.flat_parts if part.full_size]
        assert any(name.startswith("reinforcing ring") for name in names) is wanted
        assert any(name.startswith("test disc") for name in names) is wanted

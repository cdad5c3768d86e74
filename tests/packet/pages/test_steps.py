"""Steps, cautions and the helper's sheet read back from their PDFs."""

from __future__ import annotations

import dataclasses
import io
import re
from typing import Any

import pdfplumber
import pypdf
import pypdfium2
import pytest

from calc.project import Project
from calc.shapes.shapes import Circle, Path, find_bounds
from packet.draw.model import Fill, Stroke, Words
from packet.draw.steps.pictures import TALL_MM, WIDE_MM, StepPictures
from packet.job import Job
from packet.pages.helper import SIZES, write_helper_pdf
from packet.words.word_files import load_folder
from tests.shop import finish_job, load_job, make_project, write_pages

HOSTILE = 'A<b>&"|; {{ 7*7 }} <img src="/etc/hosts"/> #;{%'


def read_text(job: Job, *rooms: str) -> tuple[str, int]:
    data, pages = write_pages(job, rooms)
    text = " ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages)
    return re.sub(r"\s+", " ", text), pages.total


def write_sheet(job: Job) -> bytes:
    stream = io.BytesIO()
    write_helper_pdf(job, stream)
    return stream.getvalue()


def find_outside(data: bytes) -> list[str]:
    """Return words that reach into the outer quarter inch of a page, where printers do not print (common practice)."""
    margin, found = 18.0, []
    with pypdfium2.PdfDocument(data) as document:
        for page in document:
            wide, high = page.get_size()
            words = page.get_textpage()
            for index in range(words.count_rects()):
                left, bottom, right, top = words.get_rect(index)
                if left < margin or bottom < margin or right > wide - margin or top > high - margin:
                    found.append(words.get_text_bounded(left, bottom, right, top))
    return found


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_steps_earn_their_paper_and_say_everything(name: str) -> None:
    job = load_job(name)
    text, total = read_text(job, "steps")
    assert total <= 10
    for step in job.plan.steps:
        for line in step.lines:
            assert line.text in text
        for hold in step.holds:
            assert hold.value in text
    assert "…" not in text  # no title was cut short
    assert "■" not in text


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_nothing_is_clipped_at_the_edge(name: str) -> None:
    job = load_job(name)
    data, _ = write_pages(job, ("steps", "cautions"))
    assert find_outside(data) == []
    assert find_outside(write_sheet(job)) == []


def test_every_hold_point_has_its_own_field() -> None:
    job = load_job("boatshed")
    data, _ = write_pages(job, ("steps",))
    fields = pypdf.PdfReader(io.BytesIO(data)).get_fields() or {}
    assert len(fields) == sum(len(step.holds) for step in job.plan.steps)


def test_cautions_stand_in_full_with_their_sources() -> None:
    job = load_job("boatshed")
    text, total = read_text(job, "cautions")
    assert total <= 3
    for caution in job.plan.cautions:
        assert caution.hazard in text
        assert all(point in text for point in caution.avoid)
        assert all(fact.source in text for fact in caution.facts)
    assert text.index("What this packet does not design") < text.index("Wood dust harms")


@pytest.mark.parametrize("language", ["english", "spanish"])
@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_helper_sheet_is_two_sides_in_large_type(name: str, language: str) -> None:
    job = speak(load_job(name), language)
    data = write_sheet(job)
    with pdfplumber.open(io.BytesIO(data)) as document:
        assert len(document.pages) == 2
        signs = [sign for page in document.pages for sign in page.chars]
    sizes = [round(float(sign["size"]), 1) for sign in signs]
    usual = max(set(sizes), key=sizes.count)
    assert usual >= 11.0
    text = re.sub(r"\s+", " ", " ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages))
    sheet = job.plan.helper
    for words in (*sheet.stop, *sheet.wear, *(line for step in sheet.steps for line in step.lines)):
        assert words in text
    assert {step.id for step in sheet.steps} == {s.id for s in job.plan.steps if s.who != "builder"}


def speak(job: Job, language: str) -> Job:
    project: Project = job.project
    display = dataclasses.replace(project.display, language=language)  # type: ignore[arg-type]
    methods = dataclasses.replace(project.methods, helper=True)
    return finish_job(dataclasses.replace(project, display=display, methods=methods), "made", job.digest)


def test_spanish_reaches_sheet_and_cautions_whole() -> None:
    english, spanish = (speak(load_job("boatshed"), language) for language in ("english", "spanish"))
    ours = {line for step in english.plan.helper.steps for line in (step.title, step.lift, *step.lines) if line}
    theirs = {line for step in spanish.plan.helper.steps for line in (step.title, step.lift, *step.lines) if line}
    assert not {line for line in ours & theirs if not re.match(r"N\d", line)}  # part names stay as in the cut list
    text, _ = read_text(spanish, "cautions")
    assert "ADVERTENCIA" in text
    assert "WARNING" not in text.replace("DANGER", "")
    assert not {c.title for c in english.plan.cautions} & {c.title for c in spanish.plan.cautions}


def test_hostile_words_reach_the_pages_as_words() -> None:
    project = make_project()
    names = {port.name: f"{port.name} {HOSTILE}" for port in project.ports}
    machines = {machine.name: f"{machine.name} {HOSTILE}" for machine in project.machines}
    runs = {run.name: f"{run.name} {HOSTILE}" for run in project.runs}
    project = dataclasses.replace(
        project,
        title=dataclasses.replace(project.title, title=HOSTILE, drawn_by=HOSTILE),
        ports=tuple(dataclasses.replace(port, name=names[port.name]) for port in project.ports),
        runs=tuple(dataclasses.replace(r, name=runs[r.name], into=runs.get(r.into, r.into)) for r in project.runs),
        machines=tuple(dataclasses.replace(m, name=machines[m.name], on=runs[m.on]) for m in project.machines),
        methods=dataclasses.replace(project.methods, helper=True),
    )
    job = finish_job(project)
    text, _ = read_text(job, "steps", "cautions")
    assert '{{ 7*7 }} <img src="/etc/hosts"/>' in text
    assert find_outside(write_sheet(job)) == []


def test_a_shop_with_many_machines_still_gets_its_pages() -> None:
    project = make_project()
    many = tuple(
        dataclasses.replace(machine, name=f"{machine.name} with quite a long name, number {index}")
        for index in range(12)
        for machine in project.machines
    )
    job = finish_job(dataclasses.replace(project, machines=many))
    text, _ = read_text(job, "steps")
    assert "number 11" in text
    write_sheet(job)


# --- pictures ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "change", [{}, {"hung": "ceiling"}, {"hung": "cart"}, {"removable": "top"}, {"removable": "left"}]
)
def test_every_picture_named_in_a_step_fits_its_room(change: dict[str, Any]) -> None:
    project = make_project()
    job = finish_job(dataclasses.replace(project, box=dataclasses.replace(project.box, **change)))
    pictures = StepPictures(job.project, job.design, "english", job.gauge)
    keys = {key for words in load_folder("steps").values() for key in words.list_ids("picture")}
    assert len(keys) >= 15
    for key in keys:
        absent = {
            "joint:": job.project.box.joint == "butt",
            "box: cart": job.project.box.hung != "cart",
            "other gauge: build": len(job.gauge.boards) == 1,
        }
        if absent.get(key):
            assert not pictures.has(key), key
            continue
        made = pictures.draw(key)
        bounds = made.drawing.bounds
        assert bounds.width * made.scale <= WIDE_MM + 0.01, key
        assert bounds.height * made.scale <= TALL_MM + 0.01, key
        assert made.drawing.entities


def test_pictures_are_drawn_from_the_designs_own_sizes() -> None:
    """The section's panel is as thick as the panel, its collar's wall as the pail's; the hole is the hole's size."""
    job = load_job("boatshed")
    pictures = StepPictures(job.project, job.design, "english", job.gauge)
    section, hole = pictures.draw("collar: panel, collar, ring, mark"), pictures.draw("hole: cut")
    shapes = [
        each.shape for each in section.drawing.entities if isinstance(each, Stroke) and isinstance(each.shape, Path)
    ]
    sizes = {(round(b.width, 3), round(b.height, 3)) for b in (find_bounds((shape,)) for shape in shapes)}
    port = next(each for each in job.design.ports if each.port.kind == "filter")
    assert job.project.box.panel.thickness_mm in {high for _, high in sizes}
    assert round(port.wall_mm, 3) in {wide for wide, _ in sizes}
    circles = [e.shape for e in hole.drawing.entities if isinstance(e, Stroke) and isinstance(e.shape, Circle)]
    assert max(circle.radius for circle in circles) == pytest.approx(port.hole_mm / 2)


def test_the_touched_parts_stand_out() -> None:
    """Each picture of the box has its focus darker than all that is only there for place."""
    job = load_job("boatshed")
    pictures = StepPictures(job.project, job.design, "english", job.gauge)
    for key, count in (("box: face", 1), ("box: joined", len(job.design.parts) - 1)):
        made = pictures.draw(key)
        numbers = [each.text for each in made.drawing.entities if isinstance(each, Words)]
        panels = [part for part in job.design.parts if part.kind == "panel"]
        assert len(numbers) == (1 if count == 1 else len(panels) - 1)
        assert set(numbers) <= {part.number for part in panels}
        assert min(each.tone for each in made.drawing.entities if isinstance(each, Fill)) < 0.8


def test_unknown_picture_is_refused() -> None:
    job = load_job("boatshed")
    with pytest.raises(KeyError):
        StepPictures(job.project, job.design, "english", job.gauge).draw("boxx: seams")


def test_sizes_are_tried_from_large_to_small() -> None:
    assert list(SIZES) == sorted(SIZES, reverse=True)

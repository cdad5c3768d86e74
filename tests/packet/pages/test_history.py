"""The next build: a filled form of each sample project comes back as design against as-built."""

from __future__ import annotations

import datetime
import io
import shutil
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest

from calc.record.questions import ask_about_build, ask_about_test
from calc.record.trend import draw_trend
from calc.shapes.shapes import Path as Outline
from packet.cli.record_ask import record_filled
from packet.draw.model import Fill, Stroke, Words
from packet.log.field_names import name_field
from packet.log.log import load_record
from packet.pages.labels import CODE_MM, TALL, WIDE, draw_labels, list_labels, make_code
from tests.packet.log.test_log import PROJECTS, fill
from tests.shop import load_job, make_job, write_pages

TODAY = datetime.date(2026, 12, 1)


def read_text(pdf: bytes) -> str:
    return " ".join(" ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf)).pages).split())


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_fill_record_rebuild_compare(name: str, tmp_path: Path) -> None:
    job = load_job(name)
    project_path = Path(shutil.copy(PROJECTS / f"{name}.yaml", tmp_path / f"{name}.yaml"))
    blank = write_pages(job, ("commissioning", "as-built", "maintenance"))[0]
    width = job.project.box.width_mm + 4.5
    gate = job.sizing.gauge_at
    expected = job.sizing.at_gauge.reading.best
    values = {
        "built.date": "2026-04-01", "box.width": f"{width} mm", "box.depth": f"{job.project.box.depth_mm} mm",
        "test.date": "2026-04-02", f"reading.{gate}": f"{0.2 * expected:.1f} Pa",
        "baseline.reading": f"{expected:.1f} Pa",
        "log.1.date": "2026-06-01", "log.1.before": f"{2 * expected:.1f} Pa", "log.1.after": f"{1.1 * expected:.1f} Pa",
        "log.1.hours": "90 h", "log.1.by": "Jo & <b>Al</b>",
    }  # fmt: skip
    record_filled(fill(blank, values, tmp_path / "filled.pdf", name), project_path, today=TODAY)
    again = replace(job, record=load_record(project_path))
    assert again.review is not None
    (wide, deep) = [row for row in again.review.compared if row.key in ("box.width", "box.depth")]
    assert wide.off == pytest.approx(4.5)
    assert deep.off == pytest.approx(0.0, abs=1e-6)
    words = read_text(write_pages(again, ("as-built",))[0])
    assert "Drawn and built" in words
    assert "off a little" in words
    assert "too low" in words
    assert "Look for:" in words
    assert "next cleaning" in words
    assert "the one climb so far" in words
    assert "a guess: 20" in words
    assert "may well fall outside them" in words, "a band from one climb is no bound, and says so"
    assert "Jo & <b>Al</b>" in words
    assert "2026-06-01" in words


def test_without_a_log_there_is_no_history() -> None:
    words = read_text(write_pages(load_job("boatshed"), ("as-built",))[0])
    assert "Drawn and built" not in words


def test_history_is_the_same_bytes_every_time(tmp_path: Path) -> None:
    from calc.record.entries import Answer, Entry, Record

    entry = Entry(
        date=datetime.date(2026, 4, 1), by="Jo", kind="test", revision="B", digest="0" * 12,
        answers={"reading.planer": Answer("reading.planer", "60 Pa", "pressure_pa", 60.0)},
    )  # fmt: skip
    job = replace(load_job("boatshed"), record=Record((entry,)))
    other = replace(load_job("boatshed"), record=Record((entry,)))
    assert write_pages(job, ("as-built",))[0] == write_pages(other, ("as-built",))[0]
    assert draw_trend(job.record, "planer", 300.0).points
    assert "another state of the project file" in read_text(write_pages(job, ("as-built",))[0])


def test_labels_name_every_gate_and_port_at_true_size() -> None:
    job = make_job()
    labels = list_labels(job)
    large = [label[1] for label in labels]
    for machine in job.project.machines:
        assert machine.name in large
    for port in job.project.ports:
        assert port.name in large
    drawing = draw_labels(job, labels, 2)
    frames = [e.shape for e in drawing.entities if isinstance(e, Stroke) and isinstance(e.shape, Outline)]
    assert len(frames) == len(labels)
    for frame in frames:
        xs = [piece.start.x for piece in frame.pieces]
        ys = [piece.start.y for piece in frame.pieces]
        assert max(xs) - min(xs) == pytest.approx(WIDE)
        assert max(ys) - min(ys) == pytest.approx(TALL)
    words = [e for e in drawing.entities if isinstance(e, Words)]
    assert any("READ THE GAUGE HERE" in w.text for w in words)
    squares = [e for e in drawing.entities if isinstance(e, Fill) and e.tone == 0.0]
    code = squares[: len(squares) // 3]
    left = min(p.start.x for s in code for p in s.outline.pieces)
    right = max(p.start.x for s in code for p in s.outline.pieces)
    assert right - left == pytest.approx(CODE_MM, abs=0.01)


def test_long_names_stay_on_their_label() -> None:
    from packet.draw.fonts import measure_words, register_fonts

    register_fonts()
    job = make_job()
    long = replace(job.project.machines[1], name="the very large second-hand thickness planer by the north door")
    machines = (job.project.machines[0], long, *job.project.machines[2:])
    project = replace(job.project, machines=machines)
    for entity in draw_labels(make_job(project), list_labels(make_job(project)), 2).entities:
        if isinstance(entity, Words):
            assert measure_words(entity.text, entity.size_mm, entity.bold) <= WIDE - 6


def test_questions_of_both_forms_have_their_own_keys() -> None:
    for name in ("boatshed", "schoolroom"):
        project = load_job(name).project
        keys = [q.key for q in (*ask_about_test(project), *ask_about_build(project))]
        assert len(keys) == len(set(keys))


def test_code_is_the_library_s_own_matrix() -> None:
    segno = pytest.importorskip("segno")
    words = "Tidewater | rev. B | file 0123456789ab"
    size, runs = make_code(words)
    matrix = [[0] * size for _ in range(size)]
    for row, start, count in runs:
        matrix[row][start : start + count] = [1] * count
    assert matrix == [list(row) for row in segno.make(words, error="m", micro=False).matrix]


def test_code_is_read_by_another_library() -> None:
    """A decoder that never saw the maker's source reads the words back from a picture of the label's squares."""
    decoder = pytest.importorskip("zxingcpp")
    numpy = pytest.importorskip("numpy")
    words = "Łódź & sons | rev. B | file 0123456789ab"
    size, runs = make_code(words)
    picture = numpy.full(((size + 8) * 6, (size + 8) * 6), 255, dtype=numpy.uint8)
    for row, start, count in runs:
        picture[(row + 4) * 6 : (row + 5) * 6, (start + 4) * 6 : (start + 4 + count) * 6] = 0
    (found,) = decoder.read_barcodes(picture)
    assert found.text == words


def test_code_on_the_printed_label_is_read() -> None:
    decoder = pytest.importorskip("zxingcpp")
    pdfium = pytest.importorskip("pypdfium2")
    job = load_job("boatshed")
    pdf, _ = write_pages(job, ("labels",))
    found = [
        each.text
        for page in pdfium.PdfDocument(pdf)
        for each in decoder.read_barcodes(page.render(scale=4, grayscale=True).to_numpy().squeeze())
    ]
    assert len(found) >= 3
    title = job.project.title
    assert set(found) == {f"{title.title} | rev. {title.revision} | file {job.digest}"}


def test_maintenance_says_when_each_thing_is_due(tmp_path: Path) -> None:
    """From the schoolroom's log by pencil: hunt 2026-02-23 + 182 days, test 2026-02-24 + 365 days."""
    job = load_job("schoolroom")
    with_log = replace(job, record=load_record(PROJECTS / "schoolroom.yaml"))
    text = read_text(write_pages(with_log, ("maintenance",))[0])
    assert "Next due" in text
    assert "2026-08-24" in text
    assert "2027-02-24" in text
    assert with_log.review is not None
    clean = with_log.review.due[0]
    assert clean.early is not None
    assert clean.date is not None
    assert clean.late is not None
    assert clean.early < clean.date < clean.late
    assert clean.early.isoformat() in text
    blank = read_text(write_pages(replace(job, record=None), ("maintenance",))[0])
    assert blank.count("____ - __ - __") == 4  # cleaning, leaks, test, first look inside


def test_yes_no_and_not_answered_are_told_apart_from_form_to_print(tmp_path: Path) -> None:
    """Stage 1 ticked yes, stage 3 ticked no, the rest left alone: the next print says so of each."""
    shop = Path(shutil.copy(PROJECTS / "boatshed.yaml", tmp_path / "boatshed.yaml"))
    job = load_job("boatshed")
    form = write_pages(job, ("steps", "commissioning", "as-built", "maintenance"))[0]
    hold = (
        job.plan.steps[0].holds[0] if job.plan.steps[0].holds else next(s.holds[0] for s in job.plan.steps if s.holds)
    )
    values = {
        "test.date": "2026-04-01", "leak.lamp+": "", "leak.smoke~": "",
        "built.date": "2026-04-01", name_field(hold.field): "5.2",
    }  # fmt: skip
    record_filled(fill(form, values, tmp_path / "filled.pdf"), shop, today=TODAY)
    printed = read_text(write_pages(replace(job, record=load_record(shop)), ("as-built",))[0])
    assert "no light at any joint or port: yes" in printed
    assert "it hangs still: no" in printed
    assert "not answered: stage 0, 2, 4, 5, 6 of the leak hunt" in printed
    assert hold.what.split(",")[0] in printed
    assert f"{job.project.title.revision} {job.digest}" in printed

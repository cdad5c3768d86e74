"""The print check page and the circle settings, read back from the packet's own PDF."""

from __future__ import annotations

import dataclasses
import io
import math

import pypdf
import pypdfium2
import pytest

from calc.box.ports import design_port
from calc.measures.quantity import Reader
from calc.shapes.shapes import find_bounds
from packet.job import Job
from packet.words.phrases import take_words
from tests.packet.read_pdf import read_lines
from tests.shop import make_job, make_project, print_pages


def read_words(pdf: bytes) -> str:
    document = pypdfium2.PdfDocument(pdf)
    words = "\n".join(page.get_textpage().get_text_bounded() for page in document)
    document.close()
    return words.replace("\r\n", "\n")


def corrected_job(x: float, y: float) -> Job:
    project = make_project()
    return make_job(
        dataclasses.replace(project, display=dataclasses.replace(project.display, printer_x=x, printer_y=y))
    )


def find_lengths(pdf: bytes) -> tuple[list[float], list[float]]:
    lines = [line for line in read_lines(pdf) if len(line.points) == 2]
    level = [line.width for line in lines if line.height < 0.001]
    upright = [line.height for line in lines if line.width < 0.001]
    return level, upright


def test_one_page() -> None:
    assert len(pypdf.PdfReader(io.BytesIO(print_pages(make_job(), "print-check"))).pages) == 1


@pytest.mark.parametrize(("x", "y"), [(1.0, 1.0), (0.97, 1.03)])
def test_rules_square_and_diagonals_have_their_lengths(x: float, y: float) -> None:
    pdf = print_pages(corrected_job(x, y), "print-check")
    level, upright = find_lengths(pdf)
    for length in (150.0, 152.4):
        assert any(abs(found - length / x) < 0.01 for found in level)
        assert any(abs(found - length / y) < 0.01 for found in upright)
    lines = read_lines(pdf)
    assert any(abs(line.width - 100 / x) < 0.01 and abs(line.height - 100 / y) < 0.01 for line in lines)
    slanted = [line for line in lines if len(line.points) == 2 and line.width > 90 and line.height > 90]
    assert len(slanted) == 2
    for line in slanted:
        assert math.hypot(line.width * x, line.height * y) == pytest.approx(100 * math.sqrt(2), abs=0.01)


def test_everything_stays_on_the_paper() -> None:
    """T7: also when it is stretched as far as it may be."""
    for job in (make_job(), corrected_job(0.97, 0.97)):
        for line in read_lines(print_pages(job, "print-check")):
            for px, py in line.points:
                assert 6.35 < px < 215.9 - 6.35
                assert 6.35 < py < 279.4 - 6.35


def test_print_dialogs_are_named_in_all_their_usual_words() -> None:
    """P3."""
    words = read_words(print_pages(make_job(), "print-check"))
    for name in ("Actual size", "100 %", "Scale: none", "Fit", "Shrink", "No scaling"):
        assert name in words
    assert "Measure both rules" in words


def test_scaling_and_shift_are_told_apart() -> None:
    """P4."""
    assert "grows along the rule: the print was scaled" in take_words("print_check")("dialog_grows")


def test_printer_is_asked_not_to_scale() -> None:
    """P2: in the final file."""
    viewer = pypdf.PdfReader(io.BytesIO(print_pages(make_job(), "print-check"))).viewer_preferences
    assert viewer is not None
    assert viewer.print_scaling == "/None"


def test_page_says_how_to_correct_and_that_it_is_corrected() -> None:
    plain = read_words(print_pages(make_job(), "print-check"))
    assert "display: printer:" in plain
    assert "CORRECTED" not in plain
    words = read_words(print_pages(corrected_job(0.98, 1.01), "print-check"))
    assert "102.04 % across" in words
    assert "99.01 % down" in words


def test_check_drawing_stays_in_its_own_bounds() -> None:
    from packet.draw.model import Stroke
    from packet.pages.print_check import draw_check

    drawing = draw_check(Reader("metric"))
    box = find_bounds(tuple(e.shape for e in drawing.entities if isinstance(e, Stroke)))
    assert drawing.bounds.left <= box.left
    assert drawing.bounds.bottom <= box.bottom
    assert box.right <= drawing.bounds.right
    assert box.top <= drawing.bounds.top


def test_circle_settings_fit_one_page_and_name_every_port() -> None:
    project = make_project()
    job = make_job(project)
    pdf = print_pages(job, "circles")
    words = read_words(pdf).replace("\n", " ")
    assert len(pypdf.PdfReader(io.BytesIO(pdf)).pages) == 1
    for port in project.ports:
        assert f"hole for {port.name}" in words
        near = (design_port(project, port).hole_mm / 2 - project.methods.bit_mm) / 25.4
        assert f"({near:.3f})" in words


def test_template_pages_are_one_size_with_one_bookmark_a_part() -> None:
    """T4."""
    job = make_job()
    reader = pypdf.PdfReader(io.BytesIO(print_pages(job, "templates")))
    sizes = {(float(p.mediabox.width), float(p.mediabox.height), p.rotation) for p in reader.pages}
    assert len(sizes) == 1
    titles = [str(item.title) for item in reader.outline if not isinstance(item, list)]
    nested = [str(item.title) for group in reader.outline if isinstance(group, list) for item in group]
    assert sum("hole for filter A" in title for title in titles + nested) == 1


def test_refused_templates_are_named_with_their_count() -> None:
    """T8."""
    project = make_project()
    job = make_job(dataclasses.replace(project, display=dataclasses.replace(project.display, most_sheets=3)))
    words = read_words(print_pages(job, "templates")).replace("\n", " ")
    assert "H1 hole for filter A" in words
    assert "would take 4 sheets; at most 3 are allowed" in words

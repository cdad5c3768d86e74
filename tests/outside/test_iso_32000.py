"""ISO 32000-1 (PDF 1.7): page limits, PrintScaling, boxes; read back with pypdf."""

from __future__ import annotations

import io
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest

from calc.shapes.shapes import Circle, Feature, FlatPart, Layer, Point
from packet.files.large import LONGEST_MM, write_large
from tests.outside.check import hold_against
from tests.packet.sheets import make_pdf, pick_part
from tests.shop import make_job

pytestmark = pytest.mark.outside


def make_disc(diameter: float) -> FlatPart:
    shape = Circle(Point(0.0, 0.0), diameter / 2)
    return FlatPart(
        number="9",
        name="wheel",
        features=(Feature(shape=shape, layer=Layer.CUT, label="outside", waste="outside"),),
        quantity=1,
        material="plywood",
        thickness_mm=18.0,
        face="either",
        kind="panel",
    )


def test_longest_page() -> None:
    units = LONGEST_MM * 72 / 25.4
    hold_against(
        "longest side of a page [units]",
        "ISO 32000-1:2008 Annex C (14 400 units), from memory",
        14400.0,
        units,
        abs=1e-6,
    )


def test_no_page_is_larger_than_a_reader_shows(tmp_path: Path) -> None:
    job = make_job()
    discs = (make_disc(3000.0), make_disc(5060.0))
    job = replace(job, design=replace(job.design, flat_parts=discs))
    write_large(job, tmp_path)
    (file,) = (tmp_path / "large").iterdir()
    page = pypdf.PdfReader(file).pages[0]
    assert 3000.0 < float(page.mediabox.width) * 25.4 / 72 < LONGEST_MM


def test_large_page_is_one_page_true_to_size(tmp_path: Path) -> None:
    from tests.packet.read_pdf import find_circles, read_lines

    job = make_job()
    write_large(job, tmp_path)
    file = tmp_path / "large" / "h1-hole-for-filter-a-rev-b-mm.pdf"
    reader = pypdf.PdfReader(file)
    assert len(reader.pages) == 1
    page = reader.pages[0]
    assert list(page.mediabox) == list(page.cropbox)
    assert page.rotation == 0
    assert page.user_unit == 1
    assert reader.viewer_preferences is not None
    assert reader.viewer_preferences.print_scaling == "/None"
    cut = [2 * r for _, _, r, line in find_circles(read_lines(file.read_bytes()), 100.0) if line.width_mm > 0.45]
    hole = next(part for part in job.design.flat_parts if part.number == "H1")
    wanted = next(s.mm for s in hole.sizes if s.what.phrase == "ports.final")
    hold_against(
        "hole on the large page [mm]",
        "ISO 32000-1:2008 8.3.2.3: unit of 1/72 in, from memory",
        wanted,
        cut[0],
        abs=0.02,
    )


def test_unit_of_the_page_is_a_seventy_second_of_an_inch() -> None:
    job = make_job()
    tiled, layout = pick_part(job, "hole for filter A")
    page = pypdf.PdfReader(io.BytesIO(make_pdf(job, tiled, layout))).pages[0]
    hold_against(
        "letter width [units]",
        "ISO 32000-1 8.3.2.3: default unit 1/72 in, from memory",
        8.5 * 72,
        float(page.mediabox.width),
        abs=0.01,
    )
    assert page.user_unit == 1

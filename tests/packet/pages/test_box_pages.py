"""Bill, cut list and drawings read back from the PDF."""

from __future__ import annotations

import io
import re
from dataclasses import replace

import pypdf
import pytest

from calc.measures.quantity import write_length
from packet.pages.bill import write_buy
from packet.pages.kit.kit import INCH_SCALES
from packet.words.phrases import take_words
from tests.packet.read_pdf import read_lines
from tests.shop import finish_job, load_job, write_pages

ROOMS = ("bill", "cuts", "drawings")


def read_pages(name: str, *rooms: str) -> list[str]:
    data, _ = write_pages(load_job(name), rooms or ROOMS)
    return [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages]


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_pages_earn_their_paper(name: str) -> None:
    assert len(read_pages(name, "bill")) <= 3
    assert len(read_pages(name, "cuts")) <= 3
    assert len(read_pages(name, "drawings")) <= 4


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_bill_names_every_line_and_the_total(name: str) -> None:
    job = load_job(name)
    text = re.sub(r"\s+", " ", " ".join(read_pages(name, "bill")))
    for line in job.bill.lines:
        assert line.item.split(" screw")[0] in text
    assert f"{job.bill.total:.2f}" in text
    for subtotal in job.bill.subtotals:
        assert subtotal.place in text


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_cut_list_gives_every_size(name: str) -> None:
    job = load_job(name)
    text = re.sub(r"\s+", " ", " ".join(read_pages(name, "cuts")))
    for part in job.design.parts:
        assert write_length(part.width_mm, job.reader) in text
        assert write_length(part.height_mm, job.reader) in text
    assert "■" not in text


def test_views_are_to_the_scale_they_say() -> None:
    """The front view's outline measured on the paper is the box's width and height over the scale."""
    job = load_job("boatshed")
    data, _ = write_pages(job, ("drawings",))
    outside = job.design.box.outside
    sizes = {(round(line.width, 2), round(line.height, 2)) for line in read_lines(data, 0)}
    fits = [
        one_to
        for one_to in INCH_SCALES
        if any(abs(w - outside.width / one_to) < 0.02 and abs(h - outside.height / one_to) < 0.02 for w, h in sizes)
    ]
    assert len(fits) == 1
    text = pypdf.PdfReader(io.BytesIO(data)).pages[0].extract_text()
    words = {8: "1-1/2 in = 1 ft", 12: "1 in = 1 ft", 16: "3/4 in = 1 ft", 24: "1/2 in = 1 ft"}
    assert words[fits[0]] in text


def test_section_is_half_size() -> None:
    job = load_job("boatshed")
    data, pages = write_pages(job, ("drawings",))
    assert pages is not None
    t = job.project.box.panel.thickness_mm
    port = job.design.get_port("filter A")
    wide = port.flange_mm / 2 + 34.0 - (port.hole_mm / 2 + 0.4)
    last = len(pypdf.PdfReader(io.BytesIO(data)).pages) - 1
    sizes = [(line.width, line.height) for line in read_lines(data, last)]
    assert any(w == pytest.approx(wide / 2, abs=0.02) and h == pytest.approx(t / 2, abs=0.02) for w, h in sizes)


def test_hostile_names_and_misfits_still_print() -> None:
    project = load_job("boatshed").project
    panel = replace(project.box.panel, stock="ply <b>&\"'", sheet=replace(project.box.panel.sheet, length_mm=900.0))
    ports = tuple(replace(port, name=f"<i>{port.name}&", across_mm=None, up_mm=None) for port in project.ports)
    box = replace(project.box, panel=panel, joint="cleat", underside_mm=None)
    job = finish_job(replace(project, box=box, ports=ports, prices={"ply <b>&\"'": 1.0}))
    data, _ = write_pages(job, ROOMS)
    text = "".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages)
    assert "<i>filter A&" in re.sub(r"\s+", " ", text)
    assert "Too large for a sheet" in text
    keys = {finding.key for finding in job.design.findings}
    assert any(key.startswith("sheet.") for key in keys)


def test_packages_in_plain_words() -> None:
    line = load_job("boatshed").bill.lines[0]
    for buy, sold, size, told in (
        (0, "sheet", "", "in the shop"), (1, "sheet", "", "1 sheet"), (2, "sheet", "", "2 sheets"),
        (2, "box", "100", "2 boxes of 100"), (2, "coil", "25 ft", "2 coils of 25 ft"),
        (3, "foot", "", "3 feet"), (4, "stick", "5 ft", "4 × 5 ft lengths"), (7, "each", "", "7"),
    ):  # fmt: skip
        assert write_buy(replace(line, buy=buy, sold=sold, size=size), take_words("bill")) == told

"""What the file says about paper and printer: check rules as measured, and sheets without a name."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc.project import Display
from packet.fields.schema import make_project_schema
from packet.reading.load import BadProject, load_project
from tests.packet.read_pdf import read_lines
from tests.packet.reading.test_reading import load_with
from tests.shop import PROJECTS, finish_job, write_pages


def read_display(text: str) -> Display:
    return load_with(display=text).project.display


@pytest.mark.parametrize(
    ("written", "share"),
    [
        ("149.6 mm", 149.6 / 150),
        ("14.96 cm", 149.6 / 150),
        ("6.02 in", 6.02 / 6),
        ("5-63/64 in", (6 - 1 / 64) / 6),
        ("99.7 %", 0.997),
        ("100 %", 1.0),
    ],
)
def test_a_check_rule_as_measured_is_the_printers_share(written: str, share: float) -> None:
    """Millimetres are of the 150 mm rule, inches of the 6 in rule: plain division."""
    display = read_display(f"{{printer: {{x: {written}}}}}")
    assert display.printer_x == pytest.approx(share)
    assert display.printer_y == 1.0


@pytest.mark.parametrize("written", ["25.4", "25.4 mm", "5.8 in", "96 %", "104 %", "10 kg"])
def test_what_no_printer_does_is_refused(written: str) -> None:
    """P5: 25.4 for a factor is a slip between inches and millimetres."""
    with pytest.raises(BadProject):
        read_display(f"{{printer: {{x: {written}}}}}")


def test_a_paper_without_a_name_is_given_by_its_sides() -> None:
    paper = read_display("{sheet: 12 x 18 in}").paper
    assert (paper.width_mm, paper.height_mm) == pytest.approx((304.8, 457.2))


@pytest.mark.parametrize("name", ["letter", "Letter", "us-letter", "A4", "a4"])
def test_papers_go_by_their_usual_names(name: str) -> None:
    """T6."""
    paper = read_display(f"{{paper: {name}}}").paper
    wanted = (210.0, 297.0) if name.lower() == "a4" else (215.9, 279.4)
    assert (paper.width_mm, paper.height_mm) == pytest.approx(wanted)


LEAST_SHEET = "8-1/4 x 11 in"
"""What Letter and A4 share: 8-1/2 x 11 in and 210 x 297 mm (ISO 216), taken down to a quarter of an inch."""


@pytest.mark.parametrize(
    "written", ["5 x 7 in", "148 x 210 mm", "4 x 4 in", "8 x 10 in", "8-1/4 x 10-3/4 in", "50 x 50 in"]
)
def test_a_sheet_on_which_pages_would_be_cut_off_is_refused_with_the_least_size(written: str) -> None:
    with pytest.raises(BadProject) as caught:
        read_display(f"{{sheet: {written}}}")
    (problem,) = caught.value.problems
    assert problem.expected == "8-1/4 in to 48 in wide, 11 in to 48 in high"
    assert not problem.mend


def test_a_sheet_typed_lying_down_is_told_to_be_turned() -> None:
    with pytest.raises(BadProject, match="turn it: the narrow side is the width"):
        read_display("{sheet: 11 x 8-1/2 in}")


def test_the_schema_tells_the_least_sheet() -> None:
    sheet = make_project_schema()["properties"]["display"]["anyOf"][0]["properties"]["sheet"]
    assert "From 8-1/4 in x 11 in to 48 in x 48 in." in sheet["description"]


@pytest.mark.parametrize("written", [LEAST_SHEET, "24 x 36 in", "48 x 11 in", "8-1/4 x 48 in"])
def test_every_sheet_that_is_taken_builds_with_nothing_cut_off(written: str) -> None:
    """No line of any page but a template's own leaves the sheet or runs into the footer, which stands 10 mm up."""
    loaded = load_project(PROJECTS / "minimal.yaml").project
    paper = read_display(f"{{sheet: {written}}}").paper
    job = finish_job(replace(loaded, display=replace(loaded.display, paper=paper)))
    data, pages = write_pages(job)
    spare = max(0.0, paper.height_mm - 279.4) / 2
    tiles = range(pages.sections["templates"][0], pages.sections["templates"][1] + 1)
    for page in range(1, pages.total + 1):
        if page in tiles:
            continue
        points = [point for line in read_lines(data, page - 1) for point in line.points]
        assert all(0 <= x <= paper.width_mm and spare + 9.0 <= y <= paper.height_mm - spare for x, y in points), page

"""Nobody cuts by a value nobody measured: every sheet that is cut or bought by says so in the same words."""

from __future__ import annotations

import datetime
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from packet.cli.new import fill_answers
from packet.fields.new_file import write_project_text
from packet.fields.questions import QUESTIONS
from packet.files.export import write_parts
from packet.job import Job, make_job
from packet.pages.packet_pages import write_packet
from packet.reading.load import read_project
from packet.words.assumed import count_assumed, say_assumed
from tests.shop import PROJECTS, make_project

MEASURE = "assumed, measure before cutting"
TOP = Path(__file__).parents[3]


@pytest.fixture(scope="module")
def jobs(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Job]:
    """Jobs of the shortest sample and of a new file in which no question was answered."""
    new = tmp_path_factory.mktemp("shop") / "new.yaml"
    new.write_text(write_project_text(fill_answers({}), QUESTIONS, datetime.date(2026, 1, 5)), encoding="utf-8")
    return {"minimal": make_job(TOP / "projects" / "minimal.yaml"), "new": make_job(new)}


def read_section(job: Job, *sections: str) -> list[str]:
    stream = BytesIO()
    write_packet(job, stream, sections)
    return [" ".join(page.extract_text().split()) for page in PdfReader(stream).pages]


@pytest.mark.parametrize("name", ["minimal", "new"])
def test_cover_report_and_cut_list_say_what_is_assumed(name: str, jobs: dict[str, Job]) -> None:
    job = jobs[name]
    said = MEASURE.capitalize()
    assert f"{said}: {len(job.project.assumed)} values" in read_section(job, "cover")[0]
    report = " ".join(read_section(job, "report"))
    assert f"{said}: " in report
    assert "ports" in report.split(f"{said}: ")[1]
    cuts = " ".join(read_section(job, "cuts"))
    assert f"{said}: " in cuts
    assert "ports" in cuts.split(f"{said}: ")[1].split(".")[0]


def test_every_template_of_a_port_nobody_measured_is_stamped(jobs: dict[str, Job]) -> None:
    job = jobs["minimal"]
    assert all(part.assumed for part in job.design.flat_parts if part.number[0] in "HRTW"
               and "inlet" not in part.name)  # fmt: skip
    pages = [page for page in read_section(job, "templates") if "hole for filter A" in page]
    assert pages
    assert all(MEASURE.upper() in page and "filter A pail" in page for page in pages)


def test_files_for_machines_say_it_too(jobs: dict[str, Job], tmp_path: Path) -> None:
    write_parts(jobs["minimal"], tmp_path)
    for pattern in ("h1-hole-for-filter-a*", "sheet-1-*"):
        files = sorted((tmp_path / "parts").glob(pattern))
        assert {file.suffix for file in files} == {".svg", ".dxf"}
        assert all(MEASURE.upper() in file.read_text(encoding="utf-8") for file in files)


def test_only_what_cuts_a_part_stands_at_the_cut_list() -> None:
    project = replace(make_project(), assumed=("blower.power", "filters.bore", "filters.residual", "filter_box.panel"))
    assert say_assumed(project, ("filters.bore", "filter_box")) == (
        "Assumed, measure before cutting: filters bore, filter box panel."
    )
    whole = replace(project, assumed=("filters",))
    assert say_assumed(whole, ("filters.bore",)) == "Assumed, measure before cutting: filters."
    assert say_assumed(replace(project, assumed=()), ("filters.bore",)) == ""
    assert count_assumed(replace(project, assumed=())) == ""
    assert count_assumed(whole) == "Assumed, measure before cutting: 1 value (the report names it)."


def test_an_inlet_nobody_measured_marks_its_template(jobs: dict[str, Job]) -> None:
    job = jobs["new"]
    (hole,) = (part for part in job.design.flat_parts if part.name == "hole for the inlet")
    assert hole.assumed == ("filter_box.inlet.diameter",)


def test_a_power_curve_leaves_no_efficiency_to_assume() -> None:
    """The maker's power at the shaft says it at every flow: nothing is assumed."""
    text = (PROJECTS / "schoolroom.yaml").read_text("utf-8")
    project = read_project(text.encode(), "schoolroom.yaml").project
    assert [round(point.power_w) for point in project.blower.power_curve] == [400, 700, 970, 1200, 1320]
    assert "blower.efficiency" not in project.assumed
    lines = "\n".join(line for line in text.splitlines() if "power_curve" not in line)
    assert "blower.efficiency" in read_project(lines.encode(), "schoolroom.yaml").project.assumed

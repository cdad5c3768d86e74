"""A flue that the collector draws on: one limit on every page, and no run before it is tested."""

from __future__ import annotations

import dataclasses
import datetime
import io
import json
import re
import shutil
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any

import pypdf
import pytest

from calc.finding import Verdict
from calc.record.entries import Answer, Entry, Record
from packet.cli.cli import main
from packet.files.helper_html import write_helper_html
from packet.files.sizing_json import write_sizing_json
from packet.job import Job, make_job
from packet.pages.labels import MOST_LINES, WIDE, _break, list_labels
from packet.reading.load import read_project
from packet.words.word_files import load_folder
from packet.work.order import find_ancestors
from tests.packet.work.test_plan import change
from tests.shop import PROJECTS, finish_job, load_job, make_project, write_pages

OUTDOOR = (PROJECTS / "outdoor.yaml").read_text(encoding="utf-8")
KIND, OPENING = "natural draught", "{size: 600 x 650 mm}"
SECTIONS = ("cover", "report", "steps", "cautions", "commissioning", "maintenance", "labels")
VARIANTS = {
    "as it is": (OUTDOOR, 2.0),
    "power vented": (OUTDOOR.replace(KIND, "power vented"), 15.0),
    "kind not known": (OUTDOOR.replace(KIND, "yes"), 2.0),
    "too much asked for": (OUTDOOR.replace(OPENING, f"{OPENING}\n  appliance_draught: 6.1 Pa"), 2.0),
    "less asked for": (OUTDOOR.replace(OPENING, f"{OPENING}\n  appliance_draught: 1.5 Pa"), 1.5),
    "inches": (OUTDOOR.replace("system: metric, paper: a4", "system: inch, paper: letter"), 2.0),
}
MOST = re.compile(r"at most ([\d.]+) Pa(?= below outdoors[,;]|; more)")


@cache
def make(name: str) -> Job:
    text = VARIANTS[name][0]
    assert name == "as it is" or text != OUTDOOR
    loaded = read_project(text.encode(), "outdoor.yaml")
    return finish_job(loaded.project, "outdoor", loaded.digest)


def read_sections(job: Job) -> dict[str, str]:
    data, pages = write_pages(job, SECTIONS)
    reader = pypdf.PdfReader(io.BytesIO(data))
    texts = [" ".join(page.extract_text().split()) for page in reader.pages]
    return {key: " ".join(texts[first - 1 : last]) for key, (first, last) in pages.sections.items()}


@pytest.mark.parametrize("name", VARIANTS)
def test_the_same_limit_stands_everywhere(name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job, most = make(name), VARIANTS[name][1]
    said = f"{most:g}"
    texts = read_sections(job)
    for section in ("cover", "cautions", "steps", "commissioning", "maintenance", "labels"):
        found = set(MOST.findall(texts[section].replace("Room at", "at")))
        assert found == {said}, section
    assert f"may fall below outdoors by {said} Pa" in texts["report"]
    for section in ("cover", "cautions", "steps", "commissioning", "maintenance"):
        assert "DANGER" in texts[section], section
    assert "AT THE BLOWER SWITCH" in texts["labels"]
    assert f"at most {said} Pa; more: stop" in texts["steps"]
    data = json.loads(write_sizing_json(job))["sizing"]
    assert data["make_up_air"]["depression_pa"] == most
    path = tmp_path / "outdoor.yaml"
    path.write_text(VARIANTS[name][0], encoding="utf-8")
    status = main(["check", str(path), "--all"])
    out = " ".join(capsys.readouterr().out.split())
    assert f"at most {said} Pa" in out
    assert status == (
        1 if name in ("too much asked for", "less asked for") else 0
    )  # 600 x 650 mm is too small for 1.5 Pa
    # and the opening that is printed lets no more than that: rho/2 (Q / 0.6 A)^2, by hand
    air = data["make_up_air"]
    for section in ("cover", "cautions", "steps", "commissioning", "maintenance", "labels"):
        openings = re.findall(r"([\d.]+) (m²|ft²)", texts[section])
        assert openings, section
        for number, unit in openings:
            if (number, unit) == ("0.39", "m²"):  # the one that is there
                continue
            area = float(number) * (0.09290304 if unit == "ft²" else 1.0)
            fallen = job.sizing.air.density_kgm3 / 2 * (air["flow_m3s"] / (0.6 * area)) ** 2
            assert fallen <= most + 1e-6, (section, number, unit)


def test_the_sample_holds_what_it_shows() -> None:
    found = {finding.key: finding for finding in make("as it is").findings}
    assert found["air.make_up"].verdict is Verdict.FITS
    assert found["air.draught_test"].verdict is Verdict.TIGHT


def test_without_an_opening_the_sample_does_not_fit(tmp_path: Path) -> None:
    path = tmp_path / "outdoor.yaml"
    path.write_text(OUTDOOR.replace(f"  make_up_opening: {OPENING}", "  # "), encoding="utf-8")
    assert {f.key: f.verdict for f in make_job(path).findings}["air.make_up"] is Verdict.DOES_NOT_FIT
    assert main(["check", str(path)]) == 1


@pytest.mark.parametrize(
    ("written", "square_metres"),
    [("14 in", 0.09931), ("{diameter: 300 mm}", 0.07069), ("{size: 600 x 650 mm}", 0.39), ("{area: 2 ft2}", 0.18581)],
)
def test_an_opening_is_given_by_diameter_size_or_area(written: str, square_metres: float) -> None:
    loaded = read_project(OUTDOOR.replace(OPENING, written).encode(), "outdoor.yaml")
    assert loaded.project.shop.make_up_opening_m2 == pytest.approx(square_metres, rel=1e-4)


@pytest.mark.parametrize(
    ("written", "kind"),
    [("yes", "unknown"), ("no", "none"), ("true", "unknown"), ("wood stove", "solid fuel"), ("Sealed", "sealed")],
)
def test_plain_yes_and_no_are_still_read(written: str, kind: str) -> None:
    text = OUTDOOR.replace(f"flued_appliance: {KIND}", f"flued_appliance: {written}")
    assert read_project(text.encode(), "outdoor.yaml").project.shop.flued_appliance == kind


# --- the order of the work --------------------------------------------------------------------------------------------

TESTS = ("test_draught", "test_spillage")
BUMP = "start_up"
FLUED: dict[str, Any] = {"shop.clean_air": "outdoors", "shop.flued_appliance": "unknown"}
SHOPS: list[dict[str, Any]] = [
    FLUED,
    {**FLUED, "shop.flued_appliance": "power vented"},
    {**FLUED, "shop.flued_appliance": "solid fuel", "lining": None},
    {**FLUED, "shop.flued_appliance": "sealed", "box.hung": "ceiling", "methods.helper": True},
    {**FLUED, "box.hung": "cart", "blower.sound_db": None},
    {**FLUED, "display.language": "spanish", "methods.helper": True},
]


@cache
def plan_shop(index: int) -> Job:
    return finish_job(change(make_project(), SHOPS[index]))


def list_plans() -> list[Job]:
    return [make("as it is"), *(plan_shop(index) for index in range(len(SHOPS)))]


RUNS = re.compile(
    r"\b(?:start (?:it )?again|[Rr]un (?:it|the collector)|collector (?:alone )?running|[Ll]et it run|"
    r"[Oo]pen only one gate|[Oo]pen one gate at a time|first minute)"
)


def test_no_step_but_the_bump_runs_the_blower_before_the_tests() -> None:
    running = {step for step, words in load_folder("steps").items() if "running" in words.list_ids("needs")}
    for job in list_plans():
        steps = {step.id: step for step in job.plan.steps}
        assert set(TESTS) <= set(steps)
        before = find_ancestors({step.id: step.after for step in job.plan.steps})
        said = {id for id, step in steps.items() if any(RUNS.search(line.text) for line in step.lines)}
        for step in (running | said) & set(steps) - {BUMP, *TESTS}:
            assert set(TESTS) <= before[step], f"{step} may run the blower before the draught is tested"
        assert before["test_spillage"] & running == {"test_draught"}
        assert not before["test_draught"] & running
        assert BUMP in before["test_draught"]


def test_the_bump_is_seconds_with_burners_off_and_a_door_open() -> None:
    for job in list_plans():
        step = job.plan.get_step(BUMP)
        said = " ".join(line.text for line in step.lines)
        assert "burner OFF" in said
        assert "Door to outdoors open" in said
        assert "seconds" in said
        assert "minute" not in said
        assert [hold.what for hold in step.holds] == ["Seconds the blower is switched on"]
        assert "flue_outdoors" in step.cautions
    usual = finish_job(make_project()).plan.get_step(BUMP)
    assert any("for a minute" in line.text for line in usual.lines)


def test_burners_off_and_burner_lit_are_two_steps_with_a_hold_each() -> None:
    for job in list_plans():
        off, lit = (job.plan.get_step(step) for step in TESTS)
        said = " ".join(line.text for line in off.lines)
        assert "OFF" in said
        assert "warm" not in said + "".join(hold.what for hold in off.holds)
        assert any("below outdoors" in hold.what for hold in off.holds)
        assert any("lit" in hold.what for hold in lit.holds)
        assert "licensed" in " ".join(line.text for line in lit.lines)


@pytest.mark.parametrize(("kind", "fine"), [("unknown", True), ("furnace", True), ("power vented", False)])
def test_a_small_depression_is_read_with_a_fine_instrument_or_not_at_all(kind: str, fine: bool) -> None:
    step = finish_job(change(make_project(), {**FLUED, "shop.flued_appliance": kind})).plan.get_step("test_draught")
    said = " ".join(line.text for line in step.lines)
    assert ("1 Pa steps" in said and "Without one: no run" in said and "licensed person" in said) is fine


# --- the record -------------------------------------------------------------------------------------------------------


def test_a_logged_reading_past_the_limit_stops_the_job_on_check_cover_and_review(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = Path(shutil.copy(PROJECTS / "outdoor.yaml", tmp_path / "outdoor.yaml"))
    log = "- date: 2026-02-03\n  kind: test\n  by: A\n  values:\n    draught.depression: '6.1 Pa'\n"
    path.with_name("outdoor.as-built.yaml").write_text(log, encoding="utf-8")
    assert main(["check", str(path)]) == 1
    out = " ".join(capsys.readouterr().out.split())
    assert "STOP, do not run" in out
    assert "6.1 Pa at most 2 Pa" in out
    answers = MappingProxyType({"draught.depression": Answer("draught.depression", "6.1 Pa", "draught_pa", 6.1)})
    record = Record(
        (Entry(date=datetime.date(2026, 2, 3), by="A", kind="test", revision="C", digest="", answers=answers),)
    )
    job = dataclasses.replace(load_job("outdoor"), record=record)
    assert job.verdict is Verdict.DOES_NOT_FIT
    data, pages = write_pages(job, ("cover", "as-built"))
    reader = pypdf.PdfReader(io.BytesIO(data))
    texts = [" ".join(page.extract_text().split()) for page in reader.pages]
    assert "STOP, do not run" in texts[0]
    assert "2026-02-03: 6.1 Pa; at most 2 Pa. STOP" in " ".join(texts[pages.sections["as-built"][0] - 1 :])


# --- cautions, labels, helper -----------------------------------------------------------------------------------------


def test_the_helper_reads_it_in_spanish() -> None:
    sheet = plan_shop(5).plan.helper
    (danger,) = (caution for caution in sheet.cautions if caution.id == "flue_outdoors")
    assert "2 Pa por debajo" in " ".join(danger.avoid)
    steps = {step.id: step for step in sheet.steps}
    assert "2 Pa" in " ".join(steps["test_draught"].lines)
    assert "APAGADO" in " ".join(steps["test_draught"].lines)
    assert any("monóxido" in line for line in sheet.stop)
    assert "monóxido" in write_helper_html(plan_shop(5))


def test_a_heater_in_a_room_that_keeps_its_air_has_its_own_caution() -> None:
    for kind in ("unknown", "solid fuel", "sealed"):
        job = finish_job(change(make_project(), {"shop.clean_air": "indoors", "shop.flued_appliance": kind}))
        ids = {caution.id for caution in job.plan.cautions}
        assert "flame_room" in ids
        assert not {"flue_outdoors", "flue_unsure"} & ids
        assert not any(finding.key.startswith("air.") for finding in job.findings)
        assert "AT THE BLOWER" not in " ".join(kind for kind, _, _ in list_labels(job))


def test_labels_have_room_for_every_word_about_the_flue() -> None:
    for name in VARIANTS:
        for kind, _, small in list_labels(make(name)):
            lines = _break(small, 2.0, WIDE - 8.0)
            if kind in ("gate", "switch"):
                assert len(lines) <= MOST_LINES + 1
                assert " ".join(lines) == " ".join(small.split())


def test_a_shop_without_a_flue_is_told_nothing_of_it() -> None:
    data, _ = write_pages(load_job("boatshed"), ("cover", "commissioning", "maintenance", "labels"))
    text = " ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages)
    assert "monoxide" not in text
    assert "DANGER" not in text

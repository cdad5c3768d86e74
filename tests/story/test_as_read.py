"""What builder, helper and inspector read beside each other in a finished packet agrees."""

from __future__ import annotations

import datetime
import io
import re
from dataclasses import replace
from functools import cache

import pytest
from pypdf import PdfReader

from calc.airflow.system import System as DuctSystem
from calc.finding import Verdict
from calc.measures.kinds import Reader
from calc.project import GateSet, System
from calc.record.diagnosis import diagnose_reading
from calc.results import MachineFlow
from packet.job import Job
from packet.pages.gauge_cards import _say_error
from packet.pages.labels import list_labels
from packet.words.phrases import take_words
from packet.words.say import say
from tests.packet.work.test_plan import change
from tests.shop import finish_job, load_job, make_project, write_pages


def read_section(job: Job, section: str) -> str:
    pages = PdfReader(io.BytesIO(write_pages(job, (section,))[0])).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


@cache
def make_outdoor_set() -> Job:
    """Return a shop that blows its air outdoors and names two gates that move more air together than any alone."""
    project = change(make_project(), {"shop.clean_air": "outdoors"})
    names = tuple(machine.name for machine in project.machines[:2])
    return finish_job(replace(project, gate_sets=(GateSet("both", names),)))


def test_the_draught_is_tested_with_the_gates_that_move_the_most_air() -> None:
    job = make_outdoor_set()
    told = job.sizing.make_up_air
    most = max((s for s in job.sizing.scenarios if s.kind != "all"), key=lambda s: s.flow.best)
    assert most.kind == "set"
    assert told.flow_m3s == most.flow.best
    lines = [line.text for line in job.plan.get_step("test_draught").lines]
    assert any(f"only {', '.join(most.open)} open" in line for line in lines), lines


def test_what_a_machine_gets_at_clean_me_is_its_own_air_and_never_more_than_clean() -> None:
    job = load_job("boatshed")
    assert job.sizing.leakage.gates_m3s > 0
    text = read_section(job, "report")
    for scenario in job.sizing.scenarios:
        if scenario.kind == "alone":
            flow: MachineFlow = scenario.machines[0]
            assert flow.clean_me_m3s <= flow.flow.best
            needs, best, low, high, loaded = (
                f"{round(q * 2118.88)}"
                for q in (flow.needs_m3s, flow.flow.best, flow.flow.low, flow.flow.high, flow.clean_me_m3s)
            )
            assert f"{flow.machine} {needs} {best} ({low}–{high}) {loaded} " in text


@pytest.mark.parametrize("system", ["inch", "metric"])
def test_a_small_error_by_eye_is_never_told_as_nothing(system: System) -> None:
    job = load_job("boatshed")
    card = replace(job.gauge.finest, error_pa=1.06, error_share=0.04)
    told = _say_error(card, Reader(system), take_words("gauge_cards", "english"))
    number = re.search(r"wrong by ([\d.]+)", told)
    assert number is not None
    assert float(number[1]) * (249.0889 if system == "inch" else 1.0) == pytest.approx(1.06, rel=0.1)


@pytest.mark.parametrize("language", ["english", "spanish"])
def test_who_works_alone_reads_of_no_helper_and_without_separator_of_none(language: str) -> None:
    words = {"english": ("helper", "both of you", "separator"), "spanish": ("ayudante", "los dos", "separador")}
    for there in (False, True):
        kind = "cyclone" if there else "none"
        changes = {"methods.helper": there, "separator.kind": kind, "display.language": language}
        cautions = finish_job(change(make_project(), changes)).plan.cautions
        text = "\n".join("\n".join((each.hazard, *each.avoid)) for each in cautions)
        assert [word in text for word in words[language]] == [there] * 3


@pytest.mark.parametrize("kind", ["none", "cyclone"])
def test_a_low_reading_speaks_of_a_separator_only_where_there_is_one(kind: str) -> None:
    job = finish_job(change(make_project(), {"separator.kind": kind}))
    system, gate = DuctSystem(job.project), job.sizing.gauge_at
    low = 0.7 * job.sizing.at_gauge.reading.low
    found = diagnose_reading(system, job.sizing, gate, low, datetime.date(2026, 5, 1))
    text = " ".join(say(cause, job.reader) for cause in found.likely)
    assert "Air is held back" in text
    assert ("separator" in text) is (kind == "cyclone")


def test_a_load_for_three_is_not_lifted_by_two() -> None:
    """22 lb a person, two there: 44 lb is the most, whatever number of people the weight would take."""
    heavy = change(make_project(), {"methods.helper": True, "methods.lift_limit_kg": 10.0})
    found = {finding.key: finding for finding in finish_job(heavy).findings}
    assert found["lift.whole sheet"].verdict is Verdict.DOES_NOT_FIT
    assert "material lift" in say(found["lift.box, empty"].what, heavy.display.reader)


def test_a_box_closed_where_it_hangs_is_lined_and_closed_from_the_platform() -> None:
    for lifted in (False, True):
        made = change(make_project(), {"methods.material_lift": lifted, "methods.lift_limit_kg": 18.0})
        plan = finish_job(made).plan
        parts = any(step.id == "mount_parts" for step in plan.steps)
        assert parts is not lifted
        for name in ("line_box", "close_face"):
            step = plan.get_step(name)
            assert ("platform" in step.cautions) is parts, name
            assert ("guarded platform" in step.tools) is parts, name


def test_no_test_disc_bears_the_number_of_a_test_card() -> None:
    flat = load_job("boatshed").design.flat_parts
    cards, discs = ({part.number for part in flat if part.name.startswith(f"test {kind}")} for kind in ("card", "disc"))
    assert cards
    assert discs
    assert not cards & discs


@pytest.mark.parametrize("side", ["pressure", "suction"])
def test_a_shop_without_gates_is_asked_to_open_none(side: str) -> None:
    project = load_job("cart").project
    assert not any(machine.gate for machine in project.machines)
    job = finish_job(change(project, {"box.side": side})) if side == "suction" else load_job("cart")
    for section in ("gauge", "commissioning", "maintenance", "labels", "cover"):
        text = read_section(job, section)
        assert re.findall(r"[^.]*\bgates?\b[^.]*", text, re.IGNORECASE) == [], section
    assert "hose on" in read_section(job, "gauge")


def test_a_machine_without_a_gate_gets_no_gate_label() -> None:
    for name in ("boatshed", "cart", "outdoor"):
        job = load_job(name)
        labelled = [large for kind, large, _ in list_labels(job) if kind == "gate"]
        assert labelled == [machine.name for machine in job.project.machines if machine.gate]

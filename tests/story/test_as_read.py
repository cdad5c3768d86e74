"""What builder, helper and inspector read beside each other in a finished packet agrees."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from functools import cache

import pytest
from pypdf import PdfReader

from calc.measures.kinds import Reader
from calc.project import GateSet, System
from calc.results import MachineFlow
from packet.job import Job
from packet.pages.gauge_cards import _say_error
from packet.words.phrases import take_words
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


def test_no_test_disc_bears_the_number_of_a_test_card() -> None:
    flat = load_job("boatshed").design.flat_parts
    cards, discs = ({part.number for part in flat if part.name.startswith(f"test {kind}")} for kind in ("card", "disc"))
    assert cards
    assert discs
    assert not cards & discs
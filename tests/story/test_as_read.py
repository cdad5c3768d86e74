"""What builder, helper and inspector read beside each other in a finished packet agrees."""

from __future__ import annotations

import datetime
import io
import math
import re
from dataclasses import replace
from functools import cache

import pytest
from pypdf import PdfReader

from calc.airflow.completing import find_moved
from calc.airflow.system import System as DuctSystem
from calc.cutting.circles import list_settings
from calc.finding import Verdict
from calc.measures.kinds import Reader
from calc.project import GateSet, System
from calc.record.as_built import find_designed
from calc.record.diagnosis import diagnose_reading
from calc.results import MachineFlow
from packet.bill.labels import count_labels
from packet.draw.model import Words
from packet.draw.steps.pictures import StepPictures
from packet.job import Job, make_job
from packet.pages.gauge_cards import _say_error
from packet.pages.labels import list_labels
from packet.words.phrases import take_words
from packet.words.say import say
from tests.packet.hostile import PROJECTS
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


def test_a_shop_without_gates_is_asked_to_open_none() -> None:
    job = load_job("cart")
    assert not any(machine.gate for machine in job.project.machines)
    for section in ("gauge", "commissioning", "maintenance", "labels", "cover"):
        text = read_section(job, section)
        assert re.findall(r"[^.]*\bgates?\b[^.]*", text, re.IGNORECASE) == [], section
    assert "hose on" in read_section(job, "gauge")


def test_a_machine_without_a_gate_gets_no_gate_label() -> None:
    for name in ("boatshed", "cart", "outdoor"):
        job = load_job(name)
        labelled = [large for kind, large, _ in list_labels(job) if kind == "gate"]
        assert labelled == [machine.name for machine in job.project.machines if machine.gate]


@pytest.mark.parametrize("wished", [False, True])
def test_no_circle_is_set_for_what_nobody_asked_for(wished: bool) -> None:
    job = finish_job(change(make_project(), {"display.extra_templates": wished}))
    set_for = {say(circle.name, job.reader) for circle in list_settings(job.design.flat_parts, job.project.methods)}
    assert any(name.startswith("H1 ") for name in set_for)
    assert any(re.match(r"(R|TD)\d", name) for name in set_for) is wished
    step = any(each.id == "reinforce_holes" for each in job.plan.steps)
    assert step is wished


@pytest.mark.parametrize("name", ["boatshed", "outdoor", "schoolroom"])
def test_what_holds_the_box_holds_all_that_is_weighed(name: str) -> None:
    """Ribs and the lining they leave room for hang too: the load is the weight of all by g0 (ISO 80000-3)."""
    design = load_job(name).design
    assert design.strength.hang_load_n == pytest.approx(design.handling.total_kg * 9.80665)


def test_a_box_on_the_lift_is_carried_by_nobody() -> None:
    text = read_section(load_job("boatshed"), "drawings")
    assert re.search(r"box, empty [\d.]+ lb on the lift", text)


def test_a_lift_is_hired_for_the_next_whole_pound() -> None:
    job = load_job("boatshed")
    load = re.search(r"straps; (\S+) lb", job.bill.get_line("material lift").detail)
    assert load is not None
    assert int(load[1]) == math.ceil(job.design.handling.box_kg / 0.45359237)


@pytest.mark.parametrize(("name", "foot"), [("cart", "the cart's base"), ("boatshed", "the floor")])
def test_a_pail_is_told_above_what_it_stands_over(name: str, foot: str) -> None:
    holds = [hold.what for hold in load_job(name).plan.get_step("hang_filters").holds]
    assert f"Pail above {foot}" in holds


@pytest.mark.parametrize("name", ["boatshed", "cart"])
def test_the_pail_above_the_floor_is_drawn_for_the_record(name: str) -> None:
    job = load_job(name)
    drawn = find_designed(job.project)["filters.floor"].value
    stack = job.design.stack
    assert drawn == pytest.approx(stack.floor_gap_mm + stack.stand_mm)


def test_lining_without_holes_is_cut_without_holes() -> None:
    job = load_job("outdoor")  # lined on top and back; holes are in bottom, front and right
    for name in ("cut_lining", "line_box"):
        text = " ".join(line.text for line in job.plan.get_step(name).lines)
        assert "hole" not in text
    assert "hole" in " ".join(line.text for line in load_job("boatshed").plan.get_step("cut_lining").lines)


@pytest.mark.parametrize(("name", "flue"), [("outdoor", True), ("boatshed", False)])
def test_the_alarm_that_the_steps_ask_for_is_bought(name: str, flue: bool) -> None:
    job = load_job(name)
    asked = any("carbon monoxide alarm" in step.tools for step in job.plan.steps)
    assert asked is flue
    assert ("carbon monoxide alarm" in {line.name for line in job.bill.lines}) is flue


@pytest.mark.parametrize("name", ["boatshed", "cart", "outdoor", "schoolroom", "minimal"])
def test_as_many_labels_are_bought_as_are_printed(name: str) -> None:
    job = load_job(name)
    assert count_labels(job.project) == len(list_labels(job))
    data = PdfReader(io.BytesIO(write_pages(job, ("labels",))[0]))
    assert job.bill.get_line("label sheet").needed == len(data.pages)


def test_a_hose_that_is_moved_is_run_once() -> None:
    job = load_job("cart")
    moved = find_moved(job.project)
    assert moved
    lines = [line.text for line in job.plan.get_step("run_ducts").lines]
    for machine, first in moved.items():
        number = next(re.match(r"D\d+", line) for line in lines if f" {first}, " in line)
        assert number is not None
        assert any(f" {machine}, " in line and f"the hose of {number[0]}, moved by hand" in line for line in lines)
    assert not any("Wyes" in line for line in lines)


@pytest.mark.parametrize("name", ["boatshed", "outdoor"])
def test_the_gauge_page_says_why_its_air_is_not_the_machines(name: str) -> None:
    job = load_job(name)
    leaks = job.sizing.leakage.gates_m3s > 0
    assert ("let air in beside it" in read_section(job, "gauge")) is leaks


@pytest.mark.parametrize(("hung", "words"), [("wall", "rails and lag screws"), ("cart", "cart, casters and bolts")])
def test_the_fixings_looked_at_are_those_of_this_box(hung: str, words: str) -> None:
    name = {"wall": "boatshed", "cart": "cart"}[hung]
    assert f"{words} sound" in read_section(load_job(name), "maintenance")


def test_a_reading_in_the_log_is_what_a_cleaned_filter_must_come_back_to() -> None:
    job = make_job(PROJECTS / "schoolroom.yaml")
    marked = job.gauge.get_mark("clean").pressure_pa
    assert marked != pytest.approx(job.sizing.at_gauge.reading.best)
    assert job.plan.get_step("first_cleaning").holds[0].value == f"{marked:.0f} Pa"
    assert f"{marked:.0f} Pa" in " ".join(line.text for line in job.plan.get_step("baseline").lines)


@pytest.mark.parametrize("two", [False, True])
def test_each_gauge_that_is_built_has_its_picture(two: bool) -> None:
    job = load_job("outdoor")
    gauge = replace(job.gauge, companion=job.gauge.card, sloping=job.gauge.card) if two else job.gauge
    pictures = StepPictures(job.project, job.design, "", gauge)
    shown = [key for key in ("gauge: build", "other gauge: build") if pictures.has(key)]
    assert (len(gauge.boards) > 1) is two
    assert len(shown) == 1 + two


def test_a_collars_gasket_is_tape_and_not_the_ring_on_a_lid() -> None:
    job = load_job("outdoor")
    pictures = StepPictures(job.project, job.design, "", job.gauge)
    assert job.project.methods.seal == "gasket"
    for key, numbered in (("collar: gasket, screw", False), ("lid on ring: gasket", True)):
        told = [entity.text for entity in pictures.draw(key).drawing.entities if isinstance(entity, Words)]
        assert any("gasket" in text for text in told)
        assert any("G1" in text for text in told) is numbered


def test_foam_is_not_put_in_place_of_foam() -> None:
    for name in ("outdoor", "boatshed"):
        job = load_job(name)
        assert job.project.lining is not None
        line = job.bill.get_line(job.project.lining.stock)
        assert ("foam" in line.alternate) is ("foam" not in line.name)


@pytest.mark.parametrize(("name", "counted"), [("boatshed", True), ("outdoor", False)])
def test_a_level_without_machines_is_not_told_as_theirs(name: str, counted: bool) -> None:
    job = load_job(name)
    assert bool(job.project.noise.others) is counted
    step = job.plan.get_step("measure_noise")
    assert ("At the ear, machines running" in [hold.what for hold in step.holds]) is counted
    heard = " ".join(fact.text for fact in job.plan.get_caution("hearing").facts)
    assert ("machines included" in heard) is counted
    assert ("With the other machines" in read_section(job, "report")) is counted


@pytest.mark.parametrize("shown", [False, True])
def test_a_mark_beyond_the_card_is_told_by_the_cards_end(shown: bool) -> None:
    job = load_job("boatshed")
    marks = tuple(replace(mark, fits=shown) if mark.key == "too high" else mark for mark in job.gauge.card.marks)
    job = replace(
        job, gauge=replace(job.gauge, card=replace(job.gauge.card, marks=marks), sloping=None, companion=None)
    )
    hold = next(hold for step in job.plan.steps for hold in step.holds if "first minute" in hold.what)
    assert hold.tolerance == ("above: stop" if shown else "liquid past the card's end: stop")

"""The plan of the whole job, for the sample projects and for every option that changes it."""

from __future__ import annotations

import dataclasses
import itertools
import re
from functools import cache
from typing import Any

import pytest

from calc.project import Join, Project
from packet.job import Job
from packet.words.reader import BadWords
from packet.words.word_files import load_folder, read_words
from packet.work.facts import gather_facts
from packet.work.model import Plan, Step
from packet.work.order import find_ancestors
from packet.work.plan import list_stock, load_stages, make_steps
from packet.work.schedule import DAY_MINUTES, find_critical, schedule_two
from packet.work.writer import Writer
from tests.shop import finish_job, load_job, make_job, make_project, make_sizing

TEES = tuple(dataclasses.replace(machine, join=Join("tee", 90.0)) for machine in make_project().machines)

OPTIONS: list[dict[str, Any]] = [
    {"methods.holes": "router", "machines": TEES},
    {"methods.holes": "trammel", "methods.lids": "cnc"},
    {"methods.holes": "hole saw", "methods.panels": "table saw"},
    {"methods.holes": "cnc", "methods.lids": "cnc", "methods.panels": "circular saw"},
    {"methods.seal": "gasket", "methods.helper": True},
    {"box.hung": "ceiling", "box.joint": "dado"},
    {"box.hung": "cart", "box.joint": "cleat", "gauge.fluid": "glycol mix"},
    {"lining": None},
    {"shop.clean_air": "outdoors", "shop.flued_appliance": "unknown"},
    {"shop.clean_air": "outdoors", "display.language": "spanish"},
    {"shop.flued_appliance": "unknown", "gauge.kind": "inclined", "gauge.slope": 0.2, "gauge.fluid": "light oil"},
    {"display.system": "metric", "gauge.mount": "lid", "display.extra_templates": True, "machines": TEES},
    {"box.underside_mm": 1500.0},
    {"methods.material_lift": False, "methods.lift_limit_kg": 18.0},
]


def change(project: Project, changes: dict[str, Any]) -> Project:
    for path, value in changes.items():
        *way, last = path.split(".")
        if way:
            part = getattr(project, way[0])
            project = dataclasses.replace(project, **{way[0]: dataclasses.replace(part, **{last: value})})
        else:
            project = dataclasses.replace(project, **{last: value})
    return project


@cache
def plan_with(index: int) -> Job:
    return finish_job(change(make_project(), OPTIONS[index]))


def list_jobs() -> list[Job]:
    return [load_job("boatshed"), load_job("schoolroom"), *(plan_with(index) for index in range(len(OPTIONS)))]


@pytest.mark.parametrize("index", range(len(OPTIONS)))
def test_every_option_gives_a_whole_plan_in_a_sound_order(index: int) -> None:
    check_plan(plan_with(index).plan)


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_sample_projects_give_a_whole_plan(name: str) -> None:
    plan = load_job(name).plan
    check_plan(plan)
    assert [step.number for step in plan.steps] == list(range(1, len(plan.steps) + 1))


def check_plan(plan: Plan) -> None:
    place = {step.id: step.number for step in plan.steps}
    before = find_ancestors({step.id: step.after for step in plan.steps})
    for step in plan.steps:
        assert all(place[other] < step.number for other in step.after)
        assert step.why
        assert step.lines
        assert 5 <= step.minutes <= DAY_MINUTES
        assert set(step.cautions) <= {caution.id for caution in plan.cautions}
        for text in list_texts(step):
            assert "{" not in text, f"{step.id}: unfilled placeholder in {text!r}"
            assert "None" not in text, f"{step.id}: {text!r}"
            assert "\x1f" not in text, f"{step.id}: {text!r}"
    for first, then in CHAINS:
        for a, b in itertools.product(find(place, first), find(place, then)):
            assert a in before[b], f"{b} is not bound to come after {a}"


# Facts of the trade, common practice, no source: what must be done before what, so that nobody is trapped.
CHAINS = [
    ("measure_pails", "rings_on"),
    ("rings_on", "cut_collars"),
    ("cut_collars", "cut_holes"),
    ("cut_holes", "dry_fit"),
    ("dry_fit", "pilot_holes"),
    ("pilot_holes", "seal_collars"),
    ("seal_collars", "trim_flush"),
    ("trim_flush", "assemble_box"),
    ("assemble_box", "seal_seams"),
    ("seal_seams", "line_box"),
    ("line_box", "close_face"),
    ("seal_seams", "close_face"),
    ("fit_hanger", "close_face"),
    ("close_face", "mount_wall"),
    ("close_face", "mount_ceiling"),
    ("close_face", "mount_cart"),
    ("mount_", "hang_filters"),
    ("clip_filters", "hang_filters"),
    ("cut_lids", "clip_filters"),
    ("lock_out", "run_ducts"),
    ("lock_out", "connect_inlet"),
    ("run_ducts", "start_up"),
    ("bond_ducts", "start_up"),
    ("hang_filters", "start_up"),
    ("start_up", "leak_test"),
    ("test_draught", "baseline"),
    ("leak_test", "baseline"),
    ("baseline", "keep_record"),
    ("keep_record", "first_cleaning"),
]


def find(place: dict[str, int], start: str) -> list[str]:
    return [step for step in place if step.startswith(start)]


def list_texts(step: Step) -> list[str]:
    texts = [step.title, step.why, *step.tools, *(line.text for line in step.lines)]
    texts += [text for use in step.parts for text in (use.name, use.amount)]
    return texts + [text for hold in step.holds for text in (hold.what, hold.value, hold.tolerance)]


def test_chains_speak_of_steps_that_are_there() -> None:
    ids = load_folder("steps")
    for name in {name for chain in CHAINS for name in chain}:
        assert find(dict.fromkeys(ids, 0), name), name


def test_options_choose_the_steps() -> None:
    chosen = {index: {step.id for step in plan_with(index).plan.steps} for index in range(len(OPTIONS))}
    assert "cut_holes_router" in chosen[0]
    assert "cut_holes_jigsaw" not in chosen[0]
    assert "mark_holes" not in chosen[3]
    assert {"cut_holes_cnc", "cut_lids_cnc"} <= chosen[3]
    assert "seal_collars_gasket" in chosen[4]
    assert "mount_ceiling" in chosen[5]
    assert {"build_cart", "mount_cart"} <= chosen[6]
    assert not {"line_box", "cut_lining"} & chosen[7]
    assert "test_draught" in chosen[8]
    assert "test_draught" not in chosen[7]


def test_each_step_file_is_taken_by_some_project() -> None:
    taken = {step.id for job in list_jobs() for step in job.plan.steps}
    assert taken == set(load_folder("steps"))


def test_each_caution_file_is_taken_by_some_project_and_stands_somewhere() -> None:
    jobs = [*list_jobs(), finish_job(change(make_project(), {"shop.altitude_m": 1600.0, "gauge.fluid": "light oil"}))]
    plastic = dataclasses.replace(make_project().runs[1], pieces=make_plastic())
    jobs.append(
        finish_job(dataclasses.replace(make_project(), runs=(make_project().runs[0], plastic, make_project().runs[2])))
    )
    assert {caution.id for job in jobs for caution in job.plan.cautions} == set(load_folder("cautions"))


def make_plastic() -> Any:
    return tuple(
        dataclasses.replace(piece, material="pvc") if hasattr(piece, "material") else piece
        for piece in make_project().runs[1].pieces
    )


def test_cautions_follow_the_facts() -> None:
    words = {caution.id: caution for caution in plan_with(8).plan.cautions}
    assert words["flue_outdoors"].signal == "DANGER"
    assert "flue_unsure" not in words
    assert "flame_room" in {caution.id for caution in plan_with(10).plan.cautions}
    assert "cart_tip" in {caution.id for caution in plan_with(6).plan.cautions}
    assert "ladders" not in {caution.id for caution in plan_with(6).plan.cautions}
    order = [caution.signal for caution in plan_with(8).plan.cautions]
    assert order == sorted(order, key=["DANGER", "WARNING", "CAUTION", "NOTICE"].index)


def test_cautions_state_the_published_limits() -> None:
    """check: NIOSH Pocket Guide 1 mg/m3; 29 CFR 1910.1000 15 and 5 mg/m3; Directive (EU) 2017/2398 2 mg/m3;
    NIOSH 98-126 85 dBA, 8 h, 3 dB."""
    facts = " ".join(fact.text for caution in load_job("boatshed").plan.cautions for fact in caution.facts)
    for limit in ("NIOSH 1 mg/m³", "OSHA 15 total, 5 respirable", "EU limit 2 mg/m³", "85 dBA for 8 h", "each 3 dB"):
        assert limit in facts


def test_steps_carry_the_computed_numbers() -> None:
    job = load_job("boatshed")
    text = " ".join(text for step in job.plan.steps for text in list_texts(step))
    writer = Writer(job.reader)
    for port in job.design.ports:
        assert writer.exact(port.hole_mm) in text
    assert writer.amount(job.sizing.filters.clean_me.reading_pa, "pressure_pa") in text
    assert writer.mark(job.design.stack.hanging_mm) in text


def test_parts_of_the_steps_stand_in_the_bill() -> None:
    job = load_job("boatshed")
    stock = {use.name: use.amount for use in list_stock(job.bill, Writer(job.reader))}
    clips = {use.name: use.amount for use in job.plan.get_step("clip_filters").parts}
    hooks = sum(port.port.closure.hooks for port in job.design.ports if port.port.kind == "filter")
    assert clips["hook clip"] == stock["hook clip"] == str(2 * hooks)  # both ends of each filter
    screws = sum(len(port.pilots) for port in job.design.ports)
    named = [use for use in job.plan.get_step("seal_collars_sealant").parts if "pan head" in use.name]
    assert [int(use.amount) >= screws for use in named] == [True]


def test_every_name_asked_of_the_bill_is_in_some_bill() -> None:
    two_gauges = make_job(sizing=make_sizing(0.1, 1.8))  # no sample needs a second one, which brings the tee
    assert len(two_gauges.gauge.boards) == 2
    items = {line.name for job in (*list_jobs(), load_job("cart"), two_gauges) for line in job.bill.lines}
    for words in load_folder("steps").values():
        for name in words.list_ids("bill"):
            assert any(name in item for item in items), f"{words.file}: no bill holds '{name}'"


@pytest.mark.parametrize(
    ("change_text", "fault"),
    [
        (("who: builder", "who: robot"), "who 'robot' is none of"),
        (("after: measure_pails", "after: measure_pales"), "comes after 'measure_pales', which is no step"),
        (("cautions: hands_struck", "cautions: hands_stuck"), "caution 'hands_stuck' has no file"),
        (("stage: collars", "stage: colors"), "stage 'colors' is none of"),
        (("minutes: 3 *", "minutes: 0 *"), "not to a time"),
        (("hold: Gap under the ring, all round, each pail | 0 |", "hold: Gap | none"), "a hold point is"),
        (("why:", "wherefore:"), "'wherefore' is no header line"),
    ],
)
def test_faults_of_a_step_file_are_named(change_text: tuple[str, str], fault: str) -> None:
    job = load_job("boatshed")
    facts = gather_facts(job.project, job.sizing, job.gauge, job.design)
    files = dict(load_folder("steps"))
    for step in ("rings_on", "cut_collars"):
        old = files[step]
        text = "\n".join(f"{key}: {value}" for key, value in old.head.items()) + "\n---\n" + old.body
        files[step] = read_words(old.file, text.replace(*change_text))
    with pytest.raises(BadWords, match=re.escape(fault)):
        make_steps(files, facts, load_stages(), job.plan.cautions)


def test_leaving_a_link_out_of_the_files_is_found_as_a_trap() -> None:
    """The lining must be in before the face goes on: with that link cut, the plan is refused."""
    job = load_job("boatshed")
    files = dict(load_folder("steps"))
    old = files["close_face"]
    head = {**old.head, "after": "seal_seams; fit_hanger; drill_gauge_lid"}
    files["close_face"] = dataclasses.replace(old, head=head)
    with pytest.raises(BadWords, match=r"line_box\.md:11: needs 'open box', but 'close_face' ends it"):
        make_steps(
            files, gather_facts(job.project, job.sizing, job.gauge, job.design), load_stages(), job.plan.cautions
        )


def test_alone_only_lifts_stay_for_two() -> None:
    plan = plan_with(0).plan  # the sample works alone
    assert [step.id for step in plan.steps if step.who != "builder"] == ["mount_wall"]
    shared = plan_with(4).plan
    assert {"builder", "helper", "both"} == {step.who for step in shared.steps}


# --- the clock --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_schedule_respects_hands_nights_and_links(name: str) -> None:
    job = load_job(name)
    shared, alone = make_steps(
        load_folder("steps"),
        gather_facts(job.project, job.sizing, job.gauge, job.design),
        load_stages(),
        job.plan.cautions,
    )
    schedule = schedule_two(shared)
    slots = {slot.step: slot for slot in schedule.slots}
    assert set(slots) == {step.id for step in shared}
    for step in shared:
        slot = slots[step.id]
        assert slot.end - slot.start == pytest.approx(step.minutes)
        assert 0 <= slot.start < slot.end <= DAY_MINUTES
        for other in step.after:
            earlier = slots[other]
            night = next(each for each in shared if each.id == other).overnight
            assert (earlier.day, earlier.end) <= (slot.day, slot.start) or earlier.day < slot.day
            assert not night or earlier.day < slot.day
    for person in ("builder", "helper"):
        busy = sorted((slot.day, slot.start, slot.end) for slot in schedule.slots if person in slot.people)
        for one, two in itertools.pairwise(busy):
            assert one[0] < two[0] or one[2] <= two[1] + 1e-9
    minutes, chain = find_critical(shared)
    assert minutes <= schedule.minutes + 1e-9  # no two people beat the longest chain
    assert schedule.minutes <= sum(step.minutes for step in alone)
    by_id = {step.id: step for step in shared}
    assert sum(by_id[step].minutes for step in chain) == pytest.approx(minutes)
    for one, two in itertools.pairwise(chain):
        assert one in by_id[two].after


def test_critical_path_of_a_textbook_network() -> None:
    """Critical path method on a small network worked by hand: A 3, B 2 and C 4 after A, D 2 after B and C: A-C-D, 9.
    The method: Kelley and Walker 1959 (from memory)."""

    def step(name: str, minutes: float, *after: str) -> Step:
        return Step(
            id=name, number=0, stage="x", title=name, why="", who="builder", minutes=minutes, lines=(), after=after
        )

    steps = [step("a", 3), step("b", 2, "a"), step("c", 4, "a"), step("d", 2, "b", "c")]
    assert find_critical(steps) == (9, ("a", "c", "d"))


# --- how it reads -----------------------------------------------------------------------------------------------------


def count_syllables(word: str) -> int:
    """Return the vowel groups of an English word, a silent e at its end not counted."""
    groups = len(re.findall(r"[aeiouy]+", word.lower()))
    return max(1, groups - (word.lower().endswith("e") and not word.lower().endswith(("le", "ee")) and groups > 1))


def test_steps_read_easily() -> None:
    """Flesch-Kincaid grade, Kincaid et al. 1975: 0.39 words/sentences + 11.8 syllables/words - 15.59 (from memory).
    A grade of 6 is what plain-language guidance asks of instructions (common practice, no source)."""
    lines = [line.text for step in load_job("boatshed").plan.steps for line in step.lines]
    sentences = [part for line in lines for part in re.split(r"(?<=[.!?:])\s+", line) if re.search(r"[a-z]{2}", part)]
    words = [word for part in sentences for word in re.findall(r"[A-Za-z']+", part)]
    grade = 0.39 * len(words) / len(sentences) + 11.8 * sum(map(count_syllables, words)) / len(words) - 15.59
    print(f"{len(words)} words, {len(words) / len(sentences):.1f} a sentence, Flesch-Kincaid grade {grade:.1f}")
    assert grade < 6.0
    assert max(len(re.findall(r"[A-Za-z']+", part)) for part in sentences) <= 25


def test_box_without_a_gauge_is_not_told_to_read_one() -> None:
    project = make_project()
    ports = tuple(port for port in project.ports if port.kind != "gauge")
    plan = finish_job(dataclasses.replace(project, ports=ports)).plan
    check_plan(plan)
    assert not {"build_gauge", "connect_gauge", "baseline", "drill_gauge_lid"} & {step.id for step in plan.steps}
    told = [text for step in plan.steps for text in list_texts(step)]
    assert [text for text in told if "gauge" in text.lower() and "second gauge" not in text] == [
        text for text in told if "no gauge port" in text
    ]

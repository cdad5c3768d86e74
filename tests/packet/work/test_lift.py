"""How the box goes up, over heights, weights, ways to hang it and crews: what is printed is what is safe."""

from __future__ import annotations

import dataclasses
import itertools
import re
from typing import Any

import pytest

from calc.strength.lifting import CREW, HANDS_MM, find_hand_limit, plan_lift
from packet.bill.bill import make_bill
from packet.job import Job
from tests.shop import finish_job, load_job, make_project

HEIGHTS_MM = (600.0, 1300.0, 1700.0, 1800.0, 2600.0, 3400.0)
WEIGHTS_KG = (12.0, 36.0, 80.0)
GRID = list(itertools.product(("wall", "ceiling", "cart"), (True, False), (True, False)))
LADDER = re.compile(r"ladder|cribbing|escalera|blocks", re.IGNORECASE)


def make_jobs(hung: str, helper: bool, material_lift: bool, language: str = "english") -> list[Job]:
    """Return one design hung at every height, its empty box made as heavy as each weight."""
    project = make_project()
    box = dataclasses.replace(project.box, hung=hung)  # type: ignore[arg-type]
    methods = dataclasses.replace(project.methods, helper=helper, material_lift=material_lift)
    display = dataclasses.replace(project.display, language=language)
    whole = finish_job(dataclasses.replace(project, box=box, methods=methods, display=display))
    return [_hang(whole, height, weight) for height, weight in itertools.product(HEIGHTS_MM, WEIGHTS_KG)]


def _hang(job: Job, height: float, weight: float) -> Job:
    project = dataclasses.replace(job.project, box=dataclasses.replace(job.project.box, underside_mm=height))
    handling = dataclasses.replace(job.design.handling, box_kg=weight, bare_kg=0.75 * weight)
    stack = dataclasses.replace(job.design.stack, box_bottom_mm=height)
    design = dataclasses.replace(job.design, handling=handling, stack=stack)
    return dataclasses.replace(
        job, project=project, design=design, bill=make_bill(project, job.sizing, design, job.gauge)
    )


def tell_step(job: Job, step_id: str) -> str:
    """Return all that is printed of a step: for the builder and for the helper."""
    step = job.plan.get_step(step_id)
    told: list[Any] = [step.title, step.why, *step.tools, *(line.text for line in step.lines)]
    told += [
        f"{job.plan.get_caution(each).short} {' '.join(job.plan.get_caution(each).avoid)}" for each in step.cautions
    ]
    for mine in job.plan.helper.steps:
        if mine.id == step_id:
            told += [mine.title, mine.lift, *mine.lines, *mine.tools]
    return "\n".join(told)


@pytest.mark.parametrize(("hung", "helper", "material_lift"), GRID)
def test_nothing_goes_up_above_head_height_from_a_ladder(hung: str, helper: bool, material_lift: bool) -> None:
    for job in make_jobs(hung, helper, material_lift):
        lift = plan_lift(job.project, job.design.handling)
        steps = [step.id for step in job.plan.steps]
        hanging = f"mount_{'parts' if lift.way == 'parts' else hung}"
        assert [step for step in steps if step.startswith("mount_")] == [hanging]
        told = tell_step(job, hanging)
        assert not LADDER.search(told), (lift, told)
        if job.project.box.underside_mm > HANDS_MM:
            assert lift.way != "hands"
            everything = [tell_step(job, step) for step in steps]
            everything += [
                " ".join((c.title, c.short, *c.avoid)) for c in (*job.plan.cautions, *job.plan.helper.cautions)
            ]
            assert not any(LADDER.search(each) for each in everything)
        # what goes up is what the lift, the platform or two pairs of hands may carry there
        if lift.way != "lift":
            stages = [job.project.box.underside_mm]
            if lift.deck_mm is not None:
                stages = [lift.deck_mm, stages[0] - lift.deck_mm]
            limit = min(find_hand_limit(job.project.methods.lift_limit_kg, stage) for stage in stages)
            assert lift.weight_kg <= CREW * limit + 1e-6
            assert all(stage <= HANDS_MM for stage in stages)


@pytest.mark.parametrize(("hung", "helper", "material_lift"), GRID)
def test_step_caution_helper_and_bill_agree_on_the_way(hung: str, helper: bool, material_lift: bool) -> None:
    for job in make_jobs(hung, helper, material_lift):
        lift = plan_lift(job.project, job.design.handling)
        hanging = next(step.id for step in job.plan.steps if step.id.startswith("mount_"))
        step, told = job.plan.get_step(hanging), tell_step(job, hanging)
        hired = [line.name for line in job.bill.lines]
        assert ("material lift" in hired) == (lift.way == "lift") == ("material lift" in step.tools)
        assert ("work platform" in hired) == (lift.deck_mm is not None) == ("guarded platform" in step.tools)
        assert ("winch" in told) == (lift.way == "lift")
        assert "lift_box" in step.cautions
        assert ("platform" in step.cautions) == (lift.deck_mm is not None)
        assert not step.alone  # nobody hangs a box by himself
        assert step.who == "both"
        # on the schedule it holds both people for as long as the step says
        slot = next(slot for slot in job.plan.slots if slot.step == hanging)
        assert (len(slot.people), slot.end - slot.start) == (2, step.minutes)


@pytest.mark.parametrize("language", ["english", "spanish"])
@pytest.mark.parametrize("hung", ["wall", "ceiling", "cart"])
def test_who_lifts_holds_nothing_else(hung: str, language: str) -> None:
    for job in make_jobs(hung, True, True, language) + make_jobs(hung, True, False, language):
        for step in job.plan.helper.steps:
            if step.lift and step.id not in ("cut_panels",):
                assert not LADDER.search(" ".join((step.title, *step.lines))), step


@pytest.mark.parametrize("material_lift", [True, False])
def test_the_rail_is_up_at_its_height_before_the_box(material_lift: bool) -> None:
    from packet.bill.cuts import say_mount

    for job in make_jobs("wall", True, material_lift):
        rail, steps = job.plan.get_step("prepare_wall"), job.plan.steps
        hanging = next(step for step in steps if step.id.startswith("mount_"))
        assert rail.number < hanging.number
        height = next(hold.value for hold in rail.holds if "upper edge" in hold.what)
        part = job.design.get_part("wall rail")
        assert f"{height} above the floor" in say_mount(part, job.design, job.reader)


def test_a_carcass_that_goes_up_bare_is_lined_and_closed_where_it_hangs() -> None:
    jobs = [job for job in make_jobs("wall", True, False) if plan_lift(job.project, job.design.handling).way == "parts"]
    assert jobs
    for job in jobs:
        number = {step.id: step.number for step in job.plan.steps}
        assert number["prepare_wall"] < number["mount_parts"] < number["line_box"] < number["close_face"]
        assert number["close_face"] < number["hang_filters"]
        assert "mount_wall" not in number


def test_every_way_is_met_somewhere() -> None:
    ways = {plan_lift(job.project, job.design.handling).way for case in GRID for job in make_jobs(*case)}
    assert ways == {"hands", "lift", "platform", "parts"}


def test_samples_say_what_they_hire() -> None:
    for name, lifts in (("boatshed", True), ("outdoor", True), ("cart", False)):
        job = load_job(name)
        assert any(line.name == "material lift" for line in job.bill.lines) is lifts

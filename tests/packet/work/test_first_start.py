"""The first start: the limit printed at the step is the gauge's own mark, and its caution is the one that bites."""

from __future__ import annotations

import pytest

from calc.measures.quantity import write_amount
from packet.job import Job
from tests.shop import load_job

SAMPLES = ("boatshed", "cart", "schoolroom", "outdoor", "minimal")


@pytest.mark.parametrize("name", SAMPLES)
def test_the_first_start_stops_at_the_gauges_own_mark(name: str) -> None:
    job = load_job(name)
    if not any(port.kind == "gauge" for port in job.project.ports):
        pytest.skip("this sample has no gauge")
    too_high = next(mark for mark in job.gauge.card.marks if mark.key == "too high")
    mark = write_amount(too_high.pressure_pa, "pressure_pa", job.reader)
    # past a flue the first start is a bump, and the watched minute a step of its own
    step = job.plan.get_step("first_minute" if job.project.shop.draws_on_flue else "start_up")
    assert step.holds[0].value == f"0 to {mark}"
    assert any(mark in line.text and "TOO HIGH" in line.text for line in step.lines)
    if job.project.methods.helper:
        assert mark in " ".join(find_helper_step(job, step.id).lines)
    # nobody stands by while the gauge shows nearly all that the blower can make
    assert too_high.pressure_pa < abs(job.sizing.pressures.box_worst_pa)


@pytest.mark.parametrize("name", SAMPLES)
def test_a_start_warns_of_what_a_running_blower_does(name: str) -> None:
    step = load_job(name).plan.get_step("start_up")
    assert "first_start" in step.cautions
    assert "lockout" not in step.cautions  # "unplugged, key in your pocket" is not how a blower is started


def find_helper_step(job: Job, step_id: str):  # type: ignore[no-untyped-def]
    return next(step for step in job.plan.helper.steps if step.id == step_id)

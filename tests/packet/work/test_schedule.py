"""Time by one and by two people: sums of the steps, and printed in the packet."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from packet.job import make_job
from packet.pages.cover_parts import write_hours
from packet.work.plan import plan_steps

SAMPLES = ("boatshed", "cart", "schoolroom", "outdoor")


@pytest.mark.parametrize("name", SAMPLES)
def test_time_is_the_sum_of_the_steps(name: str) -> None:
    job = make_job(Path(f"projects/{name}.yaml"))
    plans = {
        helper: plan_steps(
            replace(job.project, methods=replace(job.project.methods, helper=helper)),
            job.sizing,
            job.gauge,
            job.design,
            job.bill,
        )
        for helper in (False, True)
    }
    alone, shared = plans[False], plans[True]
    assert alone.minutes_one == sum(step.minutes for step in alone.steps)
    assert job.plan.minutes_one == pytest.approx(alone.minutes_one)
    # two people: the clock runs from the first slot to the last, days put end to end, and both are busy in it
    held = sum((slot.end - slot.start) * len(slot.people) for slot in shared.slots)
    assert held >= sum(step.minutes for step in shared.steps) - 1e-9
    days = {slot.day for slot in shared.slots}
    assert shared.minutes_two == pytest.approx(
        sum(max(slot.end for slot in shared.slots if slot.day == day) for day in days)
    )
    assert held / 2 - 1e-9 <= shared.minutes_two <= alone.minutes_one


def test_a_cart_takes_the_time_to_build_it() -> None:
    job = make_job(Path("projects/cart.yaml"))
    assert any(step.id == "build_cart" for step in job.plan.steps)
    assert write_hours(job.plan.minutes_two).endswith(" h")

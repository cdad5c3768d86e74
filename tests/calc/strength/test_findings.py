"""The panel that is told is the one whose stress is nearest to what its wood stands."""

from __future__ import annotations

from dataclasses import replace

from calc.box.joints import measure_box
from calc.shapes.part_names import say_face
from calc.strength.findings import judge_strength
from tests.shop import load_job


def test_worst_panel_is_found_by_the_stress_that_is_printed() -> None:
    job = load_job("boatshed")
    first, second, *others = job.design.strength.panels
    free = replace(first, stress_pa=9e6, breaking_pa=36e6)
    held = replace(second, stress_pa=8e6, breaking_pa=16e6)
    rest = [replace(panel, stress_pa=1e5, breaking_pa=30e6) for panel in others]
    strength = replace(job.design.strength, panels=(free, held, *rest))
    found = next(
        f for f in judge_strength(job.project, measure_box(job.project.box), strength) if f.key == "stress.panel"
    )
    assert found.value is not None
    assert found.value.value == 8e6  # less than the other, but nearer to what the wood stands that way
    assert found.limit is not None
    assert found.limit.value == 4e6
    assert found.what.names["face"] == say_face(second.face)

"""Findings on the ducts as drawn: steps that a reducer mends, hoods that no gate closes, a hose moved by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc import project as p
from calc.finding import Verdict
from calc.measures.quantity import Reader
from calc.record.questions import ask_about_test
from packet.words.say import say
from tests.shop import load_job, settle_and_size

INCH = Reader("inch")


def test_a_narrow_hose_on_a_wide_gate_is_named_with_its_reducer() -> None:
    project = load_job("boatshed").project
    narrow = [
        replace(m, pieces=(p.Hose(0.1016, 1.5),), gate=p.Gate(0.1524)) if m.name == "jointer" else m
        for m in project.machines
    ]
    found = {f.key: f for f in settle_and_size(replace(project, machines=tuple(narrow))).findings}
    step = found["step.jointer.1"]
    assert step.verdict is Verdict.TIGHT
    assert "4 in meets 6 in" in say(step.what, INCH)
    assert "taper from 4 in to 6 in" in say(step.mends[0], INCH)


def test_a_machine_without_a_gate_is_named_with_what_it_takes() -> None:
    project = load_job("boatshed").project
    machines = tuple(replace(m, gate=None) if m.name == "drum sander" else m for m in project.machines)
    open_project = replace(project, machines=machines)
    sizing = settle_and_size(open_project)
    found = {f.key: f for f in sizing.findings}["gate.drum sander"]
    assert found.value is not None
    assert found.value.value == pytest.approx(0.2, rel=0.5)
    assert "board on the hood of drum sander" in " ".join(say(q.label, INCH) for q in ask_about_test(open_project))
    assert not [f.key for f in load_job("boatshed").sizing.findings if f.key.startswith("gate.")]


def test_a_shop_without_gates_is_told_of_its_hose() -> None:
    for finding in load_job("cart").sizing.judged:
        told = f"{say(finding.what, INCH)} {' '.join(say(mend, INCH) for mend in finding.mends)}"
        assert "gate" not in told, told

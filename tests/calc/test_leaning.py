"""What a finding leans on: each finding whose number moves when a guess is moved names that guess."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from calc.finding import Finding
from calc.leaning import LEANS, list_leans
from packet.job import make_job, work_out_job
from packet.reading.load import Loaded, read_project

PROJECTS = Path(__file__).parents[2] / "projects"
TEXT = (PROJECTS / "minimal.yaml").read_text(encoding="utf-8")
LEAST_MOVE = 1e-6

MOVED = [
    ("shop.ceiling", "ceiling: 9 ft 6 in", "ceiling: 9 ft"),
    ("filters.weight", "weight: 14 lb", "weight: 20 lb"),
    ("filters.outside", "outside: 12.7 in", "outside: 12.2 in"),
    ("filters.height", "height: 36 in", "height: 33 in"),
    ("blower.power", "power: 1.5 hp", "power: 2 hp"),
    ("blower.curve", "[600 cfm, 4 inH2O]", "[600 cfm, 4.6 inH2O]"),
    ("machines.needs", "needs: 400 cfm", "needs: 420 cfm"),
    ("filter_box.panel.thickness", "thickness: 18 mm", "thickness: 15 mm"),
    ("ducts.main.pieces[0].length", "length: 12 ft", "length: 18 ft"),
]


def load(text: str) -> Loaded:
    return read_project(text.encode("utf-8"), "shop.yaml")


def find_all(text: str) -> dict[str, Finding]:
    return {finding.key: finding for finding in work_out_job(load(text), Path("shop.yaml")).findings}


@pytest.fixture(scope="module")
def plain() -> dict[str, Finding]:
    return find_all(TEXT)


@pytest.mark.parametrize(("path", "before", "after"), MOVED, ids=[path for path, _, _ in MOVED])
def test_a_finding_that_moves_with_a_guess_names_it(
    path: str, before: str, after: str, plain: dict[str, Finding]
) -> None:
    assert before in TEXT
    key, _, value = before.rpartition(": ") if ": " in before else ("", "", before)
    about = f"{key}: about {value}" if key else before.replace(", ", ", about ")
    project = load(TEXT.replace(before, about)).project
    assert path in project.assumed
    moved = find_all(TEXT.replace(before, after))
    changed = [one for key, one in plain.items() if key in moved and differs(one, moved[key])]
    assert changed
    assert [one.key for one in changed if path not in list_leans(project, one)] == []


def differs(first: Finding, second: Finding) -> bool:
    """Tell whether what was found, or what it is held against, is another."""
    pairs = ((first.value, second.value), (first.limit, second.limit))
    return any(a and b and abs(a.value - b.value) > LEAST_MOVE * max(1.0, abs(a.value)) for a, b in pairs)


def test_what_is_measured_or_a_choice_of_method_is_not_leaned_on(plain: dict[str, Finding]) -> None:
    assert all(one.leans == () or "shop_methods" not in "".join(one.leans) for one in plain.values())
    measured = replace(load(TEXT).project, assumed=())
    assert all(list_leans(measured, one) == () for one in plain.values())


@pytest.mark.parametrize("name", ["cart", "schoolroom"])
def test_every_finding_of_a_sample_has_a_row(name: str) -> None:
    for finding in make_job(PROJECTS / f"{name}.yaml").findings:
        phrase = finding.what.phrase
        assert any(phrase == row or phrase.startswith((f"{row}.", f"{row}_")) for row in LEANS), phrase

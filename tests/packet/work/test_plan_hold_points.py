"""Hold points: a value and a tolerance to each, where it comes from, and only for what the project has."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from packet.pages.kit.kit import Kit
from packet.pages.steps import TRADE, _make_hold
from packet.words.phrases import take_words
from packet.words.reader import BadWords
from packet.words.word_files import fill_words, load_file, read_words
from packet.work.model import HoldPoint, Step
from packet.work.plan import _read_holds, load_glossary
from tests.shop import finish_job, load_job, make_job, make_project

SAMPLES = ("boatshed", "schoolroom", "cart", "outdoor", "minimal")


def read_holds(line: str) -> list[HoldPoint]:
    words = read_words("steps/x.md", f"title: Cut\n---\n{line}\n")
    return list(_read_holds("x", words, fill_words(words, {})))


def show_hold(hold: HoldPoint) -> Any:
    job = make_job()
    return _make_hold(hold, job.plan.steps[0], Kit(job.project.display.paper, job.reader), take_words("steps"))


def test_a_tolerance_of_the_trade_carries_its_sign_and_one_worked_out_does_not() -> None:
    trade, project = read_holds("hold: gap | 0 | at most 1 mm | trade\nhold: width | 300 mm | ± 1 mm | project")
    assert show_hold(trade).value.count(TRADE) == 1
    assert TRADE not in show_hold(project).value


@pytest.mark.parametrize("line", ["hold: gap | 0 | at most 1 mm", "hold: gap | 0 | at most 1 mm | ", "hold: gap"])
def test_a_hold_point_that_lacks_a_part_is_refused(line: str) -> None:
    with pytest.raises(
        BadWords, match="a hold point is 'what | value | tolerance | project or trade'".replace("|", r"\|")
    ):
        read_holds(line)


def test_a_tolerance_from_nowhere_is_refused() -> None:
    with pytest.raises(BadWords, match=r"a tolerance comes from .*, not from 'habit'"):
        read_holds("hold: gap | 0 | at most 1 mm | habit")


@pytest.mark.parametrize("name", SAMPLES)
def test_every_hold_point_has_a_value_and_a_tolerance(name: str) -> None:
    for step in load_job(name).plan.steps:
        for hold in step.holds:
            assert hold.value, (step.id, hold)
            assert hold.tolerance, (step.id, hold)
            assert "above" not in hold.value.split()[:2], f"{step.id}: a hold point says its own value"


def test_a_shop_without_gates_is_told_nothing_of_gates() -> None:
    job = load_job("cart")
    assert not any(machine.gate for machine in job.project.machines)
    assert "fit_gates" not in {step.id for step in job.plan.steps}
    boatshed = load_job("boatshed")
    assert "fit_gates" in {step.id for step in boatshed.plan.steps}


def list_said(step: Step, plan: Any) -> list[str]:
    """Return the cautions' words at a step."""
    return [plan.get_caution(each).short for each in step.cautions]


def test_cards_of_a_spanish_project_are_in_one_language() -> None:
    project = make_project()
    spanish = finish_job(dataclasses.replace(project, display=dataclasses.replace(project.display, language="spanish")))
    english = finish_job(project)
    assert [s.title for s in spanish.plan.steps] == [s.title for s in english.plan.steps]
    assert [s.lines for s in spanish.plan.steps] == [s.lines for s in english.plan.steps]
    for ours, theirs in zip(english.plan.steps, spanish.plan.steps, strict=True):
        assert list_said(ours, english.plan) == list_said(theirs, spanish.plan)
    assert spanish.plan.helper.phrases("terms") != english.plan.helper.phrases("terms")


def test_every_term_of_the_trade_is_in_spanish_too() -> None:
    english, spanish = load_glossary("english"), load_glossary("spanish")
    assert len(spanish) == len(english)
    assert all(term.word and term.meaning for term in spanish)
    assert not {term.meaning for term in spanish} & {term.meaning for term in english}
    assert len(fill_words(load_file("spanish/glossary.md"), {}).lines) == len(spanish)

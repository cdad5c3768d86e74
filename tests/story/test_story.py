"""What a packet says more than once agrees: read back from the finished files of samples and made-up projects."""

from __future__ import annotations

import random

import pytest

from packet.reading.load import read_project
from tests.story.built import build_made, build_sample
from tests.story.fact import check_fact, list_contradictions
from tests.story.facts import FACTS
from tests.story.make_project import make_project
from tests.story.outputs import Outputs
from tests.story.said import read_amount
from tests.story.slips import SLIPS, Slip

SAMPLES = ("boatshed", "cart", "minimal", "outdoor", "schoolroom")
"""The whole shops; what part of a shop tells is held by tests/packet/test_parts.py."""
SEEDS = (0, 2, 7, 9, 11)
"""A cart, a machine that cuts and blows outdoors, a box of three filters, tape in eighths, a cart with strips: each
told one fact in two ways once. More of them: python -m tests.bench.story."""


@pytest.mark.parametrize("name", SAMPLES)
def test_a_sample_tells_one_story(name: str) -> None:
    assert list_contradictions(build_sample(name), FACTS) == ()


@pytest.mark.parametrize("seed", SEEDS)
def test_a_made_up_shop_tells_one_story(seed: int) -> None:
    assert list_contradictions(build_made(seed), FACTS) == ()


@pytest.mark.parametrize("seed", range(60))
def test_a_made_up_project_can_be_read(seed: int) -> None:
    read_project(make_project(random.Random(seed)).encode("utf-8"), "made.yaml")


@pytest.mark.parametrize("slip", SLIPS, ids=[f"{slip.fact}: {slip.place}" for slip in SLIPS])
def test_a_wrong_value_is_found(slip: Slip) -> None:
    fact = next(fact for fact in FACTS if fact.name == slip.fact)
    right = build_sample(slip.sample)
    assert check_fact(right, fact) == ()
    wrong = check_fact(slip.break_it(right), fact)
    named = [line for line in wrong if line.startswith(f"{slip.fact}, {slip.subject}: ") and slip.place in line]
    assert named, wrong
    others = {place.label for place in fact.places} - {slip.place}
    assert any(other in line for line in named for other in others), named


def test_every_fact_has_a_slip() -> None:
    assert {slip.fact for slip in SLIPS} == {fact.name for fact in FACTS}
    assert len({fact.name for fact in FACTS}) == len(FACTS)


def list_told(outputs: Outputs) -> set[tuple[str, str]]:
    return {(fact.name, place.label) for fact in FACTS for place in fact.places if place.read(outputs)}


def test_every_place_tells_something_somewhere() -> None:
    """A pattern that finds nothing anywhere proves nothing: its words have been changed since."""
    told = set().union(*(list_told(build_sample(name)) for name in SAMPLES))
    told |= set().union(*(list_told(build_made(seed)) for seed in SEEDS))
    assert {(fact.name, place.label) for fact in FACTS for place in fact.places} - told == set()


@pytest.mark.parametrize(
    ("text", "step_mm", "value", "within"),
    [
        ("103-19/32 in", 25.4 / 32, 103.59375 * 25.4, 25.4 / 64),
        ("11.866 in", 0.0, 11.866 * 25.4, 0.0127),
        ("378 mm", 0.5, 378.0, 0.25),
        ("4 ft 6 in", 0.0, 54 * 25.4, 0.0),
        ("1.22 inH2O", 0.0, 1.22 * 249.0889, 0.005 * 249.0889),
        ("1170 cfm", 0.0, 1170 * 0.3048**3 / 60, 0.5 * 0.3048**3 / 60),
        ("1,618 kg", 0.0, 1618.0, 0.5),
    ],
)
def test_a_printed_amount_is_read_as_a_person_reads_it(text: str, step_mm: float, value: float, within: float) -> None:
    """By hand from NIST SP 811 (2008), appendix B: 25.4 mm, 0.3048 m, 249.0889 Pa."""
    said = read_amount(text, step_mm)
    assert said.value == pytest.approx(value)
    assert said.within == pytest.approx(within)

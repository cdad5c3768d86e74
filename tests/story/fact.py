"""A fact and the places where it stands; the check that all of them tell one value."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from tests.story.outputs import Outputs
from tests.story.said import Said

Telling = Mapping[str, Said]
"""Subject, such as a port or a gate, to what is said of it."""


@dataclass(frozen=True)
class Place:
    """label: file and page; read: what it tells; must: whether it has to tell a subject that another place tells."""

    label: str
    read: Callable[[Outputs], Telling]
    must: Callable[[Outputs, str], bool] = lambda outputs, subject: True


@dataclass(frozen=True)
class Fact:
    name: str
    places: tuple[Place, ...]


def may(outputs: Outputs, subject: str) -> bool:
    """For a place that may be silent about some subjects."""
    return False


def list_contradictions(outputs: Outputs, facts: tuple[Fact, ...]) -> tuple[str, ...]:
    """Return a line for each two places that tell one subject differently, and for each that does not tell it."""
    return tuple(line for fact in facts for line in check_fact(outputs, fact))


def check_fact(outputs: Outputs, fact: Fact) -> tuple[str, ...]:
    """Return what is wrong with one fact. Every place is held against every other, as each rounds in its own way."""
    told = [(place, place.read(outputs)) for place in fact.places]
    wrong: list[str] = []
    for subject in dict.fromkeys(subject for _, telling in told for subject in telling):
        said = [(place.label, telling[subject]) for place, telling in told if subject in telling]
        for n, (label, value) in enumerate(said):
            wrong += [
                f"{fact.name}, {subject}: {label} {value}, but {other} {second}"
                for other, second in said[n + 1 :]
                if not value.agrees(second)
            ]
        first = said[0][0]
        wrong += [
            f"{fact.name}, {subject}: stands in {first}, not in {place.label}"
            for place, telling in told
            if subject not in telling and place.must(outputs, subject)
        ]
    return tuple(wrong)


def list_silent(outputs: Outputs, facts: tuple[Fact, ...]) -> tuple[str, ...]:
    """Return the places that tell nothing at all: for whoever adds a fact."""
    return tuple(f"{fact.name}: {place.label}" for fact in facts for place in fact.places if not place.read(outputs))


def one(subject: str, said: Said | None) -> Telling:
    """Return what is said of the one subject of a fact; nothing where it is not said."""
    return {} if said is None else {subject: said}

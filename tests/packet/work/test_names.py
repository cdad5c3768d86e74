"""The list of names in templates/names.md: all of them, with what each is, as the facts are now."""

from __future__ import annotations

from packet.words.filler import fill_text
from packet.work.facts import gather_facts
from packet.work.names import SHAPES
from tests.bench.names import FILE, read_meanings, write_names
from tests.shop import load_job


def test_the_list_of_names_is_as_the_facts_are() -> None:
    assert FILE.read_text(encoding="utf-8") == write_names(), "run python -m tests.bench.names"


def test_each_name_says_what_it_is() -> None:
    assert [name for name, what in read_meanings().items() if not what] == []


def test_every_fact_is_on_the_list_and_can_be_put_in() -> None:
    """Not through the maker of the list: each name of the list is filled in, each fact is looked for on it."""
    job = load_job("boatshed")
    facts, names = gather_facts(job.project, job.sizing, job.gauge, job.design), list(read_meanings())
    assert {name.partition(".")[0].partition("[")[0].partition("(")[0] for name in names} == set(facts)
    for name in names:
        whole = SHAPES.get(name.partition(".")[0].partition("[")[0])
        if whole is None or facts[name.partition(".")[0].partition("[")[0]]:
            source = name.replace("(mm)", "(75)")
            if "pickups[0]" not in source:
                assert fill_text("{{ " + source + " }}", facts) is not None

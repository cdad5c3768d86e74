"""Hostile files: whatever a file holds, it loads or gives clear problems, in few steps; nothing is run, opened or hung.

20,000 of the same kind: tests/bench/fuzz.py.
"""

from __future__ import annotations

import random
import tracemalloc
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from packet.reading.load import BadProject, Loaded, read_project
from packet.reading.nodes import MOST_NODES
from packet.reading.problem import show_problems
from tests.packet.hostile import SAMPLES, TEXTS, mutate
from tests.packet.steps_taken import count_events

MOST_EVENTS = 3 * MOST_NODES
"""A value is one event, a list or table two, a key one more; the reading stops at so many values."""


def load_hostile(text: str) -> Loaded | None:
    """Load; a refusal must show itself without an error of its own."""
    loaded = refused = None
    with count_events() as steps:
        try:
            loaded = read_project(text.encode("utf-8", "surrogatepass"), "hostile.yaml")
        except BadProject as bad:
            refused = bad
    if refused is not None:
        assert refused.problems
        assert all(problem.found for problem in refused.problems)
        assert "\x1b" not in show_problems(refused.problems, refused.lines)
    assert steps.taken <= MOST_EVENTS
    return loaded


@pytest.mark.parametrize("group", range(10))
def test_five_hundred_mutations_of_the_samples(group: int) -> None:
    for seed in range(group * 50, group * 50 + 50):
        pick = random.Random(seed)
        load_hostile(mutate(pick.choice(SAMPLES), pick))


@pytest.mark.parametrize("path", sorted((Path(__file__).parent / "failed_once").iterdir()), ids=lambda path: path.stem)
def test_files_that_once_failed(path: Path) -> None:
    """Each gave a traceback, a hang or a wrong place before it was mended."""
    load_hostile(path.read_bytes().decode("utf-8", "surrogatepass"))


@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.text(max_size=200))
def test_any_text_at_all(text: str) -> None:
    load_hostile(text)


@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.binary(max_size=200))
def test_any_bytes_at_all(data: bytes) -> None:
    with pytest.raises(BadProject):
        read_project(data, "hostile.yaml")


MINIMAL = next(sample for sample in SAMPLES if "Smallest collector" in sample)


@settings(max_examples=100, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.sampled_from(["shop", "blower", "ducts", "machines", "filters", "filter_box"]), st.text(max_size=60))
def test_any_text_as_the_value_of_a_section(section: str, text: str) -> None:
    lines = [f"{section}: {text}" if line.startswith(f"{section}:") else line for line in MINIMAL.splitlines()]
    load_hostile("\n".join(lines))


@pytest.mark.parametrize("text", TEXTS)
def test_markup_in_every_text_field_is_data(text: str) -> None:
    quoted = "'" + text.replace("'", "''").replace("\n", " ") + "'"
    sample = MINIMAL.replace("Smallest collector (invented)", "x").replace("{title: x,", f"{{title: {quoted},")
    loaded = load_hostile(sample.replace("birch plywood", quoted).replace("name: table saw", f"name: {quoted}"))
    if loaded is not None:
        assert loaded.project.title.title == loaded.project.machines[0].name
        assert loaded.project.title.title == " ".join(text.replace("\n", " ").split())


@pytest.mark.parametrize(
    "text",
    [
        "[" * 100_000,
        "{a: " * 50_000,
        "- " * 100_000,
        "a:\n" * 50_000,
        "? " * 50_000,
        "&a " * 50_000,
        "! " * 50_000,
        "a: " + "x" * 900_000,
        "a: '" + "x\n" * 400_000,
        "#" * 900_000,
        "\n" * 900_000,
        "a: 1" + "0" * 100_000,
        '"\\u0041' * 50_000,
        "link: [" + "{pipe: 5 in, length: 3 ft}," * 30_000 + "]",
        "ports: " + "[" * 20 + "]" * 20,
        "%TAG ! x\n" * 20_000,
        "prices: {" + ", ".join(f"k{n}: 1" for n in range(20_000)) + "}",
        "a: |\n" + "  x\n" * 200_000,
    ],
    ids=range(18),
)
def test_large_and_deep_files_are_refused_in_few_steps_and_little_memory(text: str) -> None:
    assert load_hostile(text) is None
    tracemalloc.start()  # apart from the first round, whose counting takes memory of its own
    try:
        with pytest.raises(BadProject):
            read_project(text.encode("utf-8"), "hostile.yaml")
        assert tracemalloc.get_traced_memory()[1] < 200e6
    finally:
        tracemalloc.stop()

"""The rule of the verdicts: one place decides, and nothing is called tight or failing by hand."""

from __future__ import annotations

import ast
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from calc.finding import Band, Limit, Said, Verdict, decide, hold, tell
from calc.measures.kinds import Reader
from packet.words.findings import write_margin, write_row

HERE = Path(__file__).parents[2]
WORDS = Said("judging.leaks_why")
FITS, TIGHT, FAILS = Verdict.FITS, Verdict.TIGHT, Verdict.DOES_NOT_FIT


@pytest.mark.parametrize(
    ("value", "limit", "verdict"),
    [
        (Band(9.0, 10.0, 11.0), Limit(8.9, "at least"), FITS),
        (Band(9.0, 10.0, 11.0), Limit(9.0, "at least"), FITS),  # the band ends on the limit: it is met
        (Band(9.0, 10.0, 11.0), Limit(9.5, "at least"), TIGHT),
        (Band(9.0, 10.0, 11.0), Limit(10.5, "at least"), FAILS),  # though the upper end reaches it
        (Band(9.0, 10.0, 11.0), Limit(11.0, "at most"), FITS),
        (Band(9.0, 10.0, 11.0), Limit(10.5, "at most"), TIGHT),
        (Band(9.0, 10.0, 11.0), Limit(9.5, "at most"), FAILS),
        (Band(0.996, 1.993, 3.985), Limit(1.0, "at most"), FAILS),  # noise at 199 % of the day
        (80.2, Limit(50.0, "at most"), FAILS),
        (0.0, Limit(10.0, "at least"), FAILS),
        (5.999999997, Limit(6.0, "at least"), FITS),
        (6.000000003, Limit(6.0, "at most"), FITS),
        (5.9999, Limit(6.0, "at least"), FAILS),
        (7.0, Limit(6.0, "at least", tight=2.0), TIGHT),
        (8.0, Limit(6.0, "at least", tight=2.0), FITS),
        (7.9999999, Limit(6.0, "at least", tight=2.0), FITS),
        (5.0, Limit(6.0, "at least", tight=2.0), FAILS),
        (0.0, Limit(0.0, "at least"), FITS),
        (float("nan"), Limit(1.0, "at most"), FAILS),
        (float("nan"), Limit(1.0, "at least"), FAILS),
    ],
)
def test_a_verdict_follows_from_value_band_and_limit_alone(value: float | Band, limit: Limit, verdict: Verdict) -> None:
    assert decide(value, limit) is verdict


def test_a_mend_stands_where_it_is_needed_and_nowhere_else() -> None:
    mend, ease = Said("judging.leaks_mend"), Said("judging.hours_mend")

    def list_mends(value: float) -> tuple[Said, ...]:
        limit = Limit(6.0, "at least", tight=2.0)
        return hold("a", WORDS, value, limit, WORDS, topic="box", mends=(mend,), eases=(ease,)).mends

    assert [list_mends(v) for v in (9.0, 7.0, 5.0)] == [(), (ease,), (mend, ease)]


@pytest.mark.parametrize("sense", ["at least", "at most"])
@pytest.mark.parametrize("off", [0.0, 3e-9, -3e-9, 4e-3, -4e-3, 4e-6, -4e-6])
def test_no_margin_reads_minus_nothing(sense: str, off: float) -> None:
    finding = hold("a", WORDS, 1.0 + off, Limit(1.0, sense), WORDS, topic="box", kind="share")  # type: ignore[arg-type]
    told = write_margin(finding)
    assert told == write_row(finding, Reader("inch", 16))[-1]
    assert told[0] == ("-" if finding.verdict is FAILS else "+")
    assert float(told.rstrip("%")) != 0 or told == "+0%"


def walk_sources() -> Iterator[tuple[str, ast.Module]]:
    for room in ("calc", "packet"):
        for file in sorted((HERE / room).rglob("*.py")):
            yield file.relative_to(HERE).as_posix(), ast.parse(file.read_text(encoding="utf-8"))


def list_calls(tree: ast.AST, name: str) -> list[ast.Call]:
    """Return every call of a name, bare or behind a dot."""
    calls = (node for node in ast.walk(tree) if isinstance(node, ast.Call))
    return [call for call in calls if getattr(call.func, "id", getattr(call.func, "attr", "")) == name]


def test_findings_are_made_by_two_constructors_alone() -> None:
    made = {file: len(list_calls(tree, "Finding")) for file, tree in walk_sources()}
    assert {file: count for file, count in made.items() if count} == {"calc/finding.py": 2}


def test_what_has_a_limit_gets_its_verdict_from_the_rule() -> None:
    """`hold` takes no verdict, `tell` takes no limit, and nobody changes a verdict afterwards."""
    for make, banned in ((hold, "verdict"), (tell, "limit")):
        assert banned not in _list_parameters(make)
    changed = [
        file for file, tree in walk_sources() for call in list_calls(tree, "replace")
        if any(word.arg == "verdict" for word in call.keywords)
    ]  # fmt: skip
    assert not changed


def _list_parameters(make: Callable[..., object]) -> tuple[str, ...]:
    return make.__code__.co_varnames[: make.__code__.co_argcount + make.__code__.co_kwonlyargcount]


HELD_AGAINST = {"calc/record/diagnosis.py"}
"""Here a verdict is worded for what the eye saw: no number is held against a limit."""


def test_no_verdict_is_chosen_by_comparing_numbers_elsewhere() -> None:
    """A verdict picked by an `if` over numbers would be a second rule."""
    for file, tree in walk_sources():
        if file == "calc/finding.py" or file in HELD_AGAINST:
            continue
        for choice in (node for node in ast.walk(tree) if isinstance(node, ast.IfExp)):
            picked = [ast.unparse(part) for part in (choice.body, choice.orelse)]
            assert not any(part.startswith("Verdict.") for part in picked), f"{file}:{choice.lineno}"

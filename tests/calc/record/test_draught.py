"""What the as-built log says of the room's depression is held to what the flue stands."""

from __future__ import annotations

import datetime
from dataclasses import replace
from types import MappingProxyType
from typing import Any

import pytest

from calc.finding import Finding, Verdict
from calc.measures.quantity import Reader
from calc.record.draught import BURNERS_OFF, DEPRESSION, SPILLAGE, judge_draught
from calc.record.entries import Answer, Entry, Record
from calc.sizing.make_up_air import describe_make_up
from packet.words.say import say
from tests.shop import make_project, size

INCH = Reader("inch")


def note(day: int, **given: Any) -> Entry:
    """Return a test of a day: depression [Pa] from the sheet, words of the hold point, spillage passed or not."""
    answers = {}
    if "depression" in given:
        answers[DEPRESSION] = Answer(DEPRESSION, "", "draught_pa", given["depression"])
    if "words" in given:
        answers[BURNERS_OFF] = Answer(BURNERS_OFF, given["words"], "words")
    if "spillage" in given:
        answers[SPILLAGE] = Answer(SPILLAGE, "", "yes no", yes=given["spillage"])
    return Entry(
        date=datetime.date(2026, 3, day),
        by="A",
        kind="test",
        revision="A",
        digest="",
        answers=MappingProxyType(answers),
    )


def judge(*entries: Entry, flue: Any = "unknown", air: Any = "outdoors") -> dict[str, Finding]:
    project = make_project()
    project = replace(project, shop=replace(project.shop, clean_air=air, flued_appliance=flue))
    sizing = replace(size(), make_up_air=describe_make_up(project.shop, 0.4, 1.2))
    return {each.key: each for each in judge_draught(project, sizing, Record(entries) if entries else None)}


def test_until_somebody_has_read_it_the_draught_is_never_done_with() -> None:
    assert judge()["air.draught_test"].verdict is Verdict.TIGHT
    assert judge(note(1, spillage=True))["air.draught_test"].verdict is Verdict.TIGHT
    assert judge(note(1, words="forgotten"))["air.draught_test"].verdict is Verdict.TIGHT


@pytest.mark.parametrize(
    "given",
    [
        {"depression": 6.1}, {"depression": -6.1}, {"words": "6.1 Pa"}, {"words": "6.1"},
        {"words": "about 6.1 Pa, door shut"},
        {"words": "0.0245 inH2O"}, {"depression": 1.0, "words": "6.1 Pa"},
    ],
)  # fmt: skip
def test_a_reading_past_the_limit_stops_the_job(given: dict[str, Any]) -> None:
    found = judge(note(1, **given))["air.draught_test"]
    assert found.verdict is Verdict.DOES_NOT_FIT
    assert found.value is not None
    assert found.limit is not None
    assert found.value.value == pytest.approx(6.1, abs=0.01)
    assert found.limit.value == 2.0
    assert "STOP" in say(found.what, INCH)
    assert say(found.mends[0], INCH).startswith("STOP")


def test_the_latest_day_counts() -> None:
    assert judge(note(2, depression=1.4), note(1, depression=6.1))["air.draught_test"].verdict is Verdict.FITS
    assert judge(note(1, depression=1.4), note(2, depression=6.1))["air.draught_test"].verdict is Verdict.DOES_NOT_FIT
    same_day = judge(note(2, depression=6.1), note(2, depression=1.4))["air.draught_test"]
    assert same_day.verdict is Verdict.DOES_NOT_FIT


def test_a_reading_is_held_to_the_kind_of_heater() -> None:
    assert judge(note(1, depression=6.1), flue="power vented")["air.draught_test"].verdict is Verdict.FITS
    assert judge(note(1, depression=15.5), flue="power vented")["air.draught_test"].verdict is Verdict.DOES_NOT_FIT


def test_gas_that_came_out_stops_the_job() -> None:
    found = judge(note(1, depression=1.0, spillage=False))["air.spillage"]
    assert found.verdict is Verdict.DOES_NOT_FIT
    assert "STOP" in say(found.what, INCH)
    assert judge(note(1, depression=1.0, spillage=True))["air.spillage"].verdict is Verdict.FITS


def test_where_no_flue_is_drawn_on_nothing_is_judged() -> None:
    assert judge(note(1, depression=6.1), flue="none") == {}
    assert judge(note(1, depression=6.1), air="indoors") == {}

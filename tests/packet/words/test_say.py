from __future__ import annotations

from typing import Literal

import pytest

from calc.finding import Amount, Limit, Said, Verdict, hold
from calc.measures.quantity import Reader
from calc.project import System
from packet.words.reader import BadWords
from packet.words.say import say, write


def test_numbers_and_names_are_filled_in() -> None:
    need, machine = Amount(0.283168466, "flow_m3s"), "planer {odd} {{ need }} <b>"
    said = Said("loading.machine_need", {"need": need}, {"machine": machine})
    assert say(said, Reader("inch")) == f"air at {machine} falls below the 600 cfm it needs"
    assert say(said, Reader("metric")) == f"air at {machine} falls below the 1019 m³/h it needs"
    assert write(Amount(300.9, "length_mm"), Reader("inch", 16)) == "11-7/8 in"


def test_a_sentence_may_be_a_part_of_another() -> None:
    said = Said("judging.motor", names={"gates": Said("judging.gates_open", names={"scenario": "saw"})})
    assert say(said, Reader("inch")) == "power at the blower's shaft, with saw open"


def test_missing_amount_is_our_fault() -> None:
    with pytest.raises(BadWords, match="'machine_need': 'machine' is not known here"):
        say(Said("loading.machine_need"), Reader("inch"))


@pytest.mark.parametrize("phrase", ["Air leaks.", "{flow}", "air", "", "loading.no_such", "no_such.never", "loading."])
def test_plain_words_are_no_sentence(phrase: str) -> None:
    with pytest.raises(BadWords):
        say(Said(phrase), Reader("inch"))


@pytest.mark.parametrize(
    ("toward", "inch", "metric"),
    [("up", "1/2 in", "13 mm"), ("down", "15/32 in", "12 mm"), ("", "15/32 in", "12.1 mm")],
)
def test_a_mend_is_rounded_to_what_is_cut_on_the_safe_side(
    toward: Literal["", "up", "down"], inch: str, metric: str
) -> None:
    """12.1 mm is 15.2 thirty-seconds of an inch."""
    mend = Amount(12.1, "length_mm", toward=toward)
    assert write(mend, Reader("inch")) == inch
    assert write(mend, Reader("metric")) == metric


@pytest.mark.parametrize("system", ["inch", "metric"])
@pytest.mark.parametrize("over", [0.02, 0.4, 0.99])
def test_what_passes_its_limit_by_a_hair_does_not_look_like_it(system: System, over: float) -> None:
    why = Said("fit.sheet_why")
    finding = hold("sheet.back", why, 1220.0 + over, Limit(1220.0, "at most"), why, topic="other")
    assert finding.verdict is Verdict.DOES_NOT_FIT
    assert finding.value is not None
    assert finding.limit is not None
    assert write(finding.value, Reader(system)) != write(finding.limit, Reader(system))


def test_a_long_length_is_told_in_whole_millimetres_unless_it_is_fine() -> None:
    assert write(Amount(1589.2, "length_mm"), Reader("metric")) == "1589 mm"
    assert write(Amount(99.4, "length_mm"), Reader("metric")) == "99.4 mm"
    assert write(Amount(301.47, "length_mm", fine=True), Reader("metric")) == "301.47 mm"

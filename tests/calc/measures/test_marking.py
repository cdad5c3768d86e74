"""Lengths to mark out: on the marks of the reader's tape, and chains that add up as they are printed."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.measures.kinds import Reader
from calc.measures.marking import round_mark, write_between, write_mark
from calc.measures.quantity import read_amount

METRIC, INCH = Reader("metric"), Reader("inch", 32)
LENGTHS = st.floats(0.0, 5000.0)


@pytest.mark.parametrize(
    ("mm", "words"), [(301.8, "302 mm"), (301.6, "301.5 mm"), (17.6, "17.5 mm"), (0.1, "0 mm"), (791.0, "791 mm")]
)
def test_metric_lengths_are_whole_or_half(mm: float, words: str) -> None:
    assert write_mark(mm, METRIC) == words


def test_inch_lengths_stay_the_reader_s_fraction() -> None:
    assert write_mark(300.8, INCH) == "11-27/32 in"
    assert write_mark(300.8, Reader("inch", 16)) == "11-13/16 in"


@given(LENGTHS)
def test_no_mark_is_off_by_more_than_half_a_step(mm: float) -> None:
    assert abs(round_mark(mm, METRIC) - mm) <= 0.25 + 1e-6
    assert abs(round_mark(mm, INCH) - mm) <= 25.4 / 64 + 1e-6


@given(LENGTHS)
def test_a_groove_is_never_narrower_than_its_board(mm: float) -> None:
    assert mm - 1e-3 <= round_mark(mm, METRIC, "up") <= mm + 0.5


@given(st.lists(LENGTHS, min_size=2, max_size=6), st.sampled_from([METRIC, INCH]))
def test_a_chain_adds_up_as_printed(places: list[float], reader: Reader) -> None:
    ordered = [0.0, *sorted(places)]
    chain = [write_between(a, b, reader) for a, b in itertools.pairwise(ordered)]
    whole = write_mark(ordered[-1], reader)
    assert sum(read_amount(each, "length_mm") for each in chain) == pytest.approx(read_amount(whole, "length_mm"))

"""Commas: what can mean one thing is read as that, what can mean two is given as both."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.measures.commas import list_comma_readings
from calc.measures.quantity import ReadError, read_amount


@pytest.mark.parametrize(
    ("text", "readings"),
    [
        ("1,250 cfm", ("1250 cfm", "1.250 cfm")),
        ("-1,250 ft", ("-1250 ft", "-1.250 ft")),
        ("2,40 m", ("2.40 m",)),
        ("2,4 m", ("2.4 m",)),
        ("0,315 m", ("0.315 m",)),
        ("1250,500 mm", ("1250.500 mm",)),
        ("1,250.5 mm", ("1250.5 mm",)),
        ("1,250,000 Pa", ("1250000 Pa",)),
        ("1.250,5 mm", ("1250.5 mm",)),
        ("1,20,300 mm", ()),
        ("12 in, 13 in", ()),
        ("12", ()),
    ],
)
def test_a_comma_means_what_it_can_mean(text: str, readings: tuple[str, ...]) -> None:
    assert list_comma_readings(text) == readings


@given(st.integers(1_000_000, 10**9))
def test_thousands_as_python_writes_them_read_the_same(number: int) -> None:
    assert read_amount(f"{number:,} mm", "length_mm") == number


@given(st.decimals(0, 99999, places=2))
def test_a_decimal_comma_reads_as_its_point(number: object) -> None:
    assert read_amount(f"{number}".replace(".", ",") + " mm", "length_mm") == read_amount(f"{number} mm", "length_mm")


@given(st.integers(1, 999), st.integers(0, 999))
def test_one_comma_before_three_digits_is_never_guessed_without_a_key(first: int, second: int) -> None:
    with pytest.raises(ReadError, match=f"write '{first}{second:03} mm' or '{first}.{second:03} mm'"):
        read_amount(f"{first},{second:03} mm", "length_mm")

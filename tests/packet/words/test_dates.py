"""Every way a day is written reads as that day, or as both days it can be."""

from __future__ import annotations

import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from packet.words.dates import MONTHS, list_days

DAYS = st.dates(datetime.date(1990, 1, 1), datetime.date(2099, 12, 31))


@given(DAYS)
def test_a_written_day_reads_as_itself(day: datetime.date) -> None:
    month = MONTHS[day.month - 1].capitalize()
    for text in (
        day.isoformat(),
        f"{month} {day.day}, {day.year}",
        f"{month[:3]} {day.day} {day.year}",
        f"{day.day} {month} {day.year}",
        f"{day.day}-{month[:3]}-{day.year}",
        f"{day.year}/{day.month}/{day.day}",
    ):
        assert list_days(text) == (day,), text


@given(DAYS)
def test_a_day_in_figures_is_among_what_it_can_mean(day: datetime.date) -> None:
    both = list_days(f"{day.month}/{day.day}/{day.year}")
    assert day in both
    assert len(both) == (2 if day.day <= 12 and day.day != day.month else 1)
    assert day in list_days(f"{day.day}.{day.month}.{day.year}")


@pytest.mark.parametrize("text", ["2026-02-30", "31 Nov 2026", "13/13/2026", "Foo 3 2026", "3/4/26", "soon", ""])
def test_what_is_no_day_is_none(text: str) -> None:
    assert list_days(text) == ()

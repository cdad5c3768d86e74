"""Dates as people write them: year first, month by its name, or in figures where those can mean one day only."""

from __future__ import annotations

import datetime
import re

MONTHS = ("january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november",
          "december")  # fmt: skip
YEAR_FIRST = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})")
FIGURES = re.compile(r"(\d{1,2})[-/.](\d{1,2})[-/.](\d{4})")
MONTH_FIRST = re.compile(r"([A-Za-z]{3,9})\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})")
DAY_FIRST = re.compile(r"(\d{1,2})(?:st|nd|rd|th)?\.?[\s-]+(?:of\s+)?([A-Za-z]{3,9})\.?,?[\s-]+(\d{4})")


def list_days(text: str) -> tuple[datetime.date, ...]:
    """Return the days a text can mean: none, one, or two where month and day could change places (American first)."""
    text = text.strip()
    if found := YEAR_FIRST.fullmatch(text):
        return make_days((int(found[1]), int(found[2]), int(found[3])))
    if found := MONTH_FIRST.fullmatch(text):
        return make_days((int(found[3]), find_month(found[1]), int(found[2])))
    if found := DAY_FIRST.fullmatch(text):
        return make_days((int(found[3]), find_month(found[2]), int(found[1])))
    if found := FIGURES.fullmatch(text):
        first, second, year = int(found[1]), int(found[2]), int(found[3])
        return make_days((year, first, second), (year, second, first))
    return ()


def find_month(name: str) -> int:
    """Return a month by its name or the beginning of it; 0 for none."""
    word = name.lower()
    return next((number for number, month in enumerate(MONTHS, 1) if month.startswith(word) or (word == "sept"
                 and month == "september")), 0)  # fmt: skip


def make_days(*parts: tuple[int, int, int]) -> tuple[datetime.date, ...]:
    """Return the days that are in the calendar, each once."""
    days = []
    for year, month, day in parts:
        try:
            days.append(datetime.date(year, month, day))
        except ValueError:
            continue
    return tuple(dict.fromkeys(days))


def write_day(day: datetime.date) -> str:
    """Return a day so that nobody can take the month for the day: ``2026-11-04`` (4 November)."""
    return f"'{day.isoformat()}' ({day.day} {MONTHS[day.month - 1].capitalize()})"

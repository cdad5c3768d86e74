"""The gauge over time: cleanings, how fast the reading climbs, when the next cleaning is due."""

from __future__ import annotations

import datetime
import itertools
from dataclasses import dataclass

from calc.finding import Said, say
from calc.record.entries import Entry, Record
from calc.record.questions import split_key

LEAK_HUNT_DAYS = 182
YEAR_DAYS = 365

FEW_CLIMBS = 5
"""Fewer climbs than this say little about the next: their fastest and slowest are no bounds (common practice, no
source)."""


@dataclass(frozen=True)
class TrendPoint:
    """A reading at the gauge's gate. kind: ``test``, ``before`` or ``after`` a cleaning; pressure [Pa]."""

    date: datetime.date
    pressure_pa: float
    kind: str
    hours: float | None = None


@dataclass(frozen=True, kw_only=True)
class Due:
    """Something that comes round. date: None when there is too little to say it from; early, late: its band.

    key: ``clean``, ``leaks`` or ``test``; guess: the band rests on few climbs
    """

    what: Said
    date: datetime.date | None
    why: Said
    key: str = ""
    early: datetime.date | None = None
    late: datetime.date | None = None
    guess: bool = False


@dataclass(frozen=True, kw_only=True)
class Trend:
    """points by date; climb_pa_day: mean climb between cleanings, None when not known.

    last_pa, last_date: where the climb goes on from; next_date: when *clean me* is reached, next_early and next_late at
    the fastest and the slowest climb so far (None: further than twenty years); creep_pa: how much higher
    the latest reading after a cleaning is than the first (None with fewer than two)
    climbs: how many climbs between cleanings the forecast rests on
    """

    points: tuple[TrendPoint, ...]
    climb_pa_day: float | None
    last_pa: float | None
    last_date: datetime.date | None
    next_date: datetime.date | None
    hours_left: float | None
    creep_pa: float | None
    next_early: datetime.date | None = None
    next_late: datetime.date | None = None
    climbs: int = 0

    @property
    def rests_on_few(self) -> bool:
        """Whether the forecast's band comes from so few climbs that the next may well fall outside it."""
        return self.climbs < FEW_CLIMBS


def draw_trend(record: Record, gate: str, clean_me_pa: float, error_pa: float = 0.0) -> Trend:
    """Return the trend of the readings at the gauge's gate towards *clean me*.

    error_pa: what one reading may be wrong by.
    """
    points = tuple(sorted(_list_points(record, gate), key=lambda p: (p.date, _ORDER[p.kind])))
    climbs = _list_climbs(points)
    days = sum(_count_days(a, b) for a, b in climbs)
    rise = sum(b.pressure_pa - a.pressure_pa for a, b in climbs)
    per_day = rise / days if days > 0 and rise > 0 else None
    timed = [(a, b) for a, b in climbs if b.hours is not None and b.hours > 0]
    hours = sum(b.hours or 0.0 for _, b in timed)
    timed_rise = sum(b.pressure_pa - a.pressure_pa for a, b in timed)
    per_hour = timed_rise / hours if hours > 0 and timed_rise > 0 else None
    after = [p.pressure_pa for p in points if p.kind == "after"]
    last = points[-1] if points else None
    dates: list[datetime.date | None] = [None, None, None]
    hours_left = None
    if last is not None and last.kind != "before":
        left = max(clean_me_pa - last.pressure_pa, 0.0)
        if per_day is not None:
            rates = _spread_rates(climbs, per_day, error_pa)
            dates = [_add_days(last.date, left / rate) if rate > 0 else None for rate in rates]
        hours_left = left / per_hour if per_hour is not None else None
    return Trend(
        points=points,
        climb_pa_day=per_day,
        last_pa=last.pressure_pa if last else None,
        last_date=last.date if last else None,
        next_date=dates[1],
        hours_left=hours_left,
        creep_pa=after[-1] - after[0] if len(after) > 1 else None,
        next_early=dates[0],
        next_late=dates[2],
        climbs=sum(1 for a, b in climbs if _count_days(a, b) > 0),
    )


def _count_days(a: TrendPoint, b: TrendPoint) -> int:
    return b.date.toordinal() - a.date.toordinal()


def _spread_rates(
    climbs: list[tuple[TrendPoint, TrendPoint]], mean: float, error_pa: float
) -> tuple[float, float, float]:
    """Return the fastest, the mean and the slowest climb [Pa a day].

    Each climb has its own; and all may be off by what the eye misreads at both ends.
    """
    long = [(a, b, days) for a, b in climbs if (days := _count_days(a, b)) > 0]
    rates = [(b.pressure_pa - a.pressure_pa) / days for a, b, days in long]
    off = 2 * error_pa / sum(days for _, _, days in long)
    return max(rates) + off, mean, min(rates) - off


_ORDER = {"before": 0, "after": 1, "test": 2}


def _list_points(record: Record, gate: str) -> list[TrendPoint]:
    points = []
    for entry in record.entries:
        reading = entry.get_value("baseline.reading")
        if reading is None:
            reading = entry.get_value(f"reading.{gate}")
        if reading is not None:
            points.append(TrendPoint(entry.date, abs(reading), "test"))
        hours = entry.get_value("cleaning.hours")
        for kind in ("before", "after"):
            value = entry.get_value(f"cleaning.{kind}")
            if value is not None:
                points.append(TrendPoint(entry.date, abs(value), kind, hours if kind == "before" else None))
    return points


def _list_climbs(points: tuple[TrendPoint, ...]) -> list[tuple[TrendPoint, TrendPoint]]:
    """Return each pair of neighbours between which nothing was cleaned: the later one is not an ``after``."""
    return [(a, b) for a, b in itertools.pairwise(points) if b.kind != "after" and a.kind != "before"]


def _add_days(date: datetime.date, days: float) -> datetime.date | None:
    """Return a date so many days on, None when that is further than twenty years: no forecast."""
    return date + datetime.timedelta(days=round(days)) if days <= 20 * YEAR_DAYS else None


def list_due(record: Record, trend: Trend, computed_days: float | None = None) -> tuple[Due, ...]:
    """Return what comes round, with the dates that the record allows to say.

    computed_days: between cleanings by the sizing, for a shop that has no trend yet; None when it has none either.
    """
    tests = [entry.date for entry in record.entries if entry.kind == "test"]
    leaks = [entry.date for entry in record.entries if _has_leak_test(entry)]
    leak = max(leaks) + datetime.timedelta(days=LEAK_HUNT_DAYS) if leaks else None
    year = max(tests) + datetime.timedelta(days=YEAR_DAYS) if tests else None
    return (
        _find_next_cleaning(record, trend, computed_days),
        Due(
            what=say("trend.leaks"),
            date=leak,
            why=say("trend.leaks_again" if leak else "trend.leaks_never"),
            key="leaks",
        ),
        Due(what=say("trend.test"), date=year, why=say("trend.test_again" if year else "trend.test_never"), key="test"),
    )


def _find_next_cleaning(record: Record, trend: Trend, computed_days: float | None) -> Due:
    what = say("trend.clean")
    if trend.next_date is not None:
        return Due(
            what=what,
            date=trend.next_date,
            why=say("trend.clean_by_climb"),
            key="clean",
            early=trend.next_early,
            late=trend.next_late,
            guess=trend.rests_on_few,
        )
    if trend.points and trend.points[-1].kind == "before":
        return Due(what=what, date=None, why=say("trend.clean_no_reading"), key="clean")
    starts = [e.date for e in record.entries if e.kind == "cleaning" or e.get_value("baseline.reading") is not None]
    if starts and computed_days is not None:
        date = _add_days(max(starts), computed_days)
        return Due(what=what, date=date, why=say("trend.clean_computed"), key="clean")
    return Due(what=what, date=None, why=say("trend.clean_no_trend"), key="clean")


def _has_leak_test(entry: Entry) -> bool:
    return any(split_key(key)[0] == "leak" for key in entry.answers)

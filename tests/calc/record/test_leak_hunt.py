"""The leak hunt in numbers: monotone, honest about what the eye can tell, and read back from the record."""

from __future__ import annotations

import datetime
import math
from types import MappingProxyType

import pytest

from calc.airflow.chains import BEST
from calc.airflow.system import System
from calc.finding import Verdict
from calc.record.entries import Answer, Entry, Record
from calc.record.leak_hunt import ALLOWED_SHARE, find_leak_limits, find_shut_reading, judge_shut_readings
from tests.shop import load_job


def make_record(*readings: float) -> Record:
    return Record(
        tuple(
            Entry(
                date=datetime.date(2026, 3, day), by="", kind="test", revision="B", digest="",
                answers=MappingProxyType({"shutoff.reading": Answer("shutoff.reading", "", "pressure_pa", reading)}),
            )
            for day, reading in enumerate(readings, 1)
        )
    )  # fmt: skip


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_more_leak_lifts_the_gauge(name: str) -> None:
    job = load_job(name)
    system = System(job.project, job.sizing.air)
    readings = [find_shut_reading(system, leak) for leak in (0.0, 0.01, 0.02, 0.05, 0.1)]
    assert readings[0] == 0.0
    assert readings == sorted(readings)


def test_pass_value_is_the_filters_own_loss_at_the_allowed_leak() -> None:
    """Second route: a leak is an orifice, Q ~ sqrt(dp) (orifice equation, any fluid mechanics text)."""
    job = load_job("schoolroom")
    system = System(job.project, job.sizing.air)
    limits = find_leak_limits(job.project, job.sizing, job.gauge)
    one = job.sizing.get_alone(job.sizing.gauge_at).flow.best
    suction = system.balance((job.sizing.gauge_at,), BEST).root_suction
    leak = ALLOWED_SHARE * one * math.sqrt(system.blower.find_total(0.0)[0] / suction)
    assert limits.leak_m3s == pytest.approx(leak, rel=1e-9)
    assert limits.pass_pa == pytest.approx(system.bank.find_loss(leak, BEST)[0], rel=1e-9)
    assert limits.pass_share == pytest.approx(ALLOWED_SHARE, rel=1e-6)
    assert limits.is_told


@pytest.mark.parametrize("name", ["boatshed", "schoolroom", "cart", "outdoor"])
def test_nobody_is_asked_to_read_finer_than_the_eye(name: str) -> None:
    job = load_job(name)
    limits = find_leak_limits(job.project, job.sizing, job.gauge)
    assert limits.pass_pa >= limits.seen_pa > 0
    assert limits.gate_speed_ms > 0


def test_recorded_readings_are_judged() -> None:
    job = load_job("schoolroom")
    limits = find_leak_limits(job.project, job.sizing, job.gauge)
    tight, edge, leaks = judge_shut_readings(
        job.project, job.sizing, job.gauge, make_record(0.0, limits.pass_pa + 1.0, 60.0)
    )
    assert tight.verdict is Verdict.FITS
    assert tight.share == 0.0
    assert edge.verdict is Verdict.TIGHT
    assert leaks.verdict is Verdict.DOES_NOT_FIT
    assert leaks.share is not None
    assert leaks.share > ALLOWED_SHARE
    assert judge_shut_readings(job.project, job.sizing, job.gauge, Record()) == ()


def test_reading_no_leak_can_give_has_no_share() -> None:
    """More than clean filters hold back of the whole air: the gates were not shut, or the filters not clean."""
    job = load_job("schoolroom")
    (found,) = judge_shut_readings(job.project, job.sizing, job.gauge, make_record(2000.0))
    assert found.verdict is Verdict.DOES_NOT_FIT
    assert found.share is None

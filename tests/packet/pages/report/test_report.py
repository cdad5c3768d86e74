"""The report prints what was computed, in the reader's units, for every gate and every finding."""

from __future__ import annotations

import dataclasses
import math
import re

import pypdfium2
import pytest

from calc.finding import Amount, Finding, Verdict
from calc.measures.quantity import write_amount
from packet.draw.fonts import clean_text
from packet.job import Job
from packet.words.amounts import Sources, limit_of, margin_of, value_of
from packet.words.say import say
from tests.shop import load_job, write_pages


def read_report(job: Job, *only: str) -> str:
    data, _ = write_pages(job, only or ("report",))
    text = " ".join(page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(data))
    return re.sub(r"\s+", " ", text)


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_every_gate_has_its_flow(name: str) -> None:
    job = load_job(name)
    words = read_report(job)
    for scenario in job.sizing.scenarios:
        for flow in scenario.machines:
            assert flow.machine in words
            assert write_amount(flow.flow.best, "flow_m3s", job.reader, unit=False) in words


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_every_finding_is_told_with_its_numbers(name: str) -> None:
    """All that does not simply fit, in full; of what fits, the nearest to its limit of each kind of finding."""
    job = load_job(name)
    words = read_report(job).replace(" ", "")
    kinds: dict[str, list[Finding]] = {}
    for finding in job.findings:
        if finding.verdict is Verdict.FITS:
            kinds.setdefault(finding.what.phrase, []).append(finding)
    nearest = [min(each, key=lambda f: math.inf if f.margin is None else f.margin) for each in kinds.values()]
    assert len(nearest) >= 20
    for finding in [f for f in job.findings if f.verdict is not Verdict.FITS] + nearest:
        told = say(finding.what, job.reader)
        assert told[1:].replace(" ", "") in words, told
        assert value_of(finding, job.reader).replace(" ", "") in words, told
        if finding.verdict is not Verdict.FITS:
            assert say(finding.why, job.reader).replace(" ", "") in words, told


def test_every_line_of_the_ledger_is_there() -> None:
    job = load_job("boatshed")
    words = read_report(job).replace(" ", "")
    for row in job.sizing.get_alone(job.sizing.worst).ledger:
        assert say(row.what, job.reader).replace(" ", "") in words


def test_every_worked_calculation_is_there_with_its_source() -> None:
    job = load_job("boatshed")
    words = read_report(job, "worked").replace(" ", "")
    assert job.sizing.worked
    for row in job.sizing.worked:
        symbol, formula = (say(part, job.reader) for part in (row.symbol, row.formula))
        assert clean_text(f"{symbol}={formula}").replace(" ", "") in words
        assert row.source.replace(" ", "") in words


def test_units_never_mix() -> None:
    """A metric reader sees no cfm and no inH2O in the report, and the other way round."""
    metric, inch = read_report(load_job("schoolroom")), read_report(load_job("boatshed"))
    assert not re.search(r"\b(cfm|fpm|inH2O|psi)\b", metric)
    assert not re.search(r"\b(Pa|m/s|m³/h)\b", inch)


def test_margin_and_limit_words() -> None:
    finding = load_job("boatshed").findings[0]
    reader = load_job("boatshed").reader
    inch = Amount(25.4, "length_mm")
    made = dataclasses.replace(finding, value=inch, limit=Amount(50.8, "length_mm"), low=None, high=None)
    assert margin_of(dataclasses.replace(made, sense="at most"), reader) == "+50 %"
    assert margin_of(dataclasses.replace(made, sense="at least"), reader) == "short by 50 %"
    assert limit_of(dataclasses.replace(made, sense="at least"), reader) == "≥ 2 in"
    assert value_of(made, reader) == "1 in"
    assert margin_of(dataclasses.replace(made, sense="at least", value=Amount(508.0, "length_mm")), reader) == "ample"
    over = dataclasses.replace(made, sense="at most", value=Amount(54.864, "length_mm"))
    assert margin_of(over, reader) == "over by 8 %"
    assert margin_of(dataclasses.replace(over, value=Amount(254.0, "length_mm")), reader) == "far over"
    assert margin_of(dataclasses.replace(made, limit=None), reader) == "–"


def test_sources_are_numbered_once() -> None:
    sources = Sources()
    assert [sources.number(s) for s in ("a", "b", "a", "")] == ["1", "2", "1", ""]
    assert sources.listed() == "[1] a · [2] b"

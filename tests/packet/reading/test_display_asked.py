"""Units and paper asked for on the command line change what is written, and nothing that is built or bought."""

from __future__ import annotations

import csv
import io
from functools import cache
from pathlib import Path

import pytest

from calc.finding import Finding
from packet.files.bill_csv import HEAD, write_bill_csv
from packet.files.tables_csv import MARK
from packet.job import Job, make_job
from packet.pages.bill import write_needed
from packet.reading.display_asked import AS_THE_FILE, Asked
from packet.words.phrases import take_words
from packet.words.say import say

PROJECTS = Path(__file__).parents[3] / "projects"
SAMPLES = ("boatshed", "cart", "minimal", "outdoor", "schoolroom")
FOOT_M = 0.3048  # exact: NIST SP 811, appendix B, from memory


@cache
def load(name: str, asked: Asked = AS_THE_FILE) -> Job:
    return make_job(PROJECTS / f"{name}.yaml", asked=asked)


def list_facts(finding: Finding) -> tuple[object, ...]:
    """Return all of a finding that is no word: verdict and numbers in base units, how many mends it has."""
    return finding.key, finding.verdict, finding.value, finding.limit, finding.low, finding.high, len(finding.mends)


def list_bought(job: Job) -> list[tuple[object, ...]]:
    return [
        (line.name, line.needed, line.unit, line.waste, line.pack, line.sold, line.size, line.on_hand, line.buy,
         line.each, line.cost, line.place)
        for line in (*job.bill.lines, *job.bill.yearly)
    ]  # fmt: skip


@pytest.mark.parametrize(
    "asked", [Asked(units="inch"), Asked(units="metric"), Asked(paper="a4"), Asked(paper="letter")]
)
@pytest.mark.parametrize("name", SAMPLES)
def test_what_is_asked_of_the_print_changes_no_fact(name: str, asked: Asked) -> None:
    plain, other = load(name), load(name, asked)
    assert other.bill.total == plain.bill.total
    assert list_bought(other) == list_bought(plain)
    assert other.warnings == plain.warnings
    assert other.sizing.remedies == plain.sizing.remedies
    assert list(map(list_facts, other.findings)) == list(map(list_facts, plain.findings))
    assert [part.features for part in other.design.flat_parts] == [part.features for part in plain.design.flat_parts]
    assert [(s.id, s.minutes, len(s.holds)) for s in other.plan.steps] == [
        (s.id, s.minutes, len(s.holds)) for s in plain.plan.steps
    ]


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_words_are_in_the_units_asked_for(name: str) -> None:
    """The test above must not pass because nothing changes at all."""
    inch, metric = load(name, Asked(units="inch")), load(name, Asked(units="metric"))
    assert (inch.reader.system, metric.reader.system) == ("inch", "metric")
    told = [
        " ".join(say(finding.why, job.reader) for finding in job.findings)
        + " ".join(line.detail for line in job.bill.lines)
        for job in (inch, metric)
    ]
    assert told[0] != told[1]
    steps = [" ".join(hold.value for step in job.plan.steps for hold in step.holds) for job in (inch, metric)]
    assert " in " in f"{steps[0]} "
    assert " mm" in steps[1]
    assert " mm" not in steps[0]


def test_goods_go_by_their_sizes_as_sold_with_the_units_of_the_print_beside_them() -> None:
    plain, metric = load("boatshed"), load("boatshed", Asked(units="metric"))
    named = {line.name: line.item for line in metric.bill.lines}
    assert {line.name for line in plain.bill.lines} == set(named)
    assert named["6 in pipe"] == "6 in (152.4 mm) pipe"  # 25.4 mm an inch, exact
    assert named["5 in gate"] == "5 in (127 mm) gate"
    assert all("(" not in line.item for line in plain.bill.lines)


@pytest.mark.parametrize("asked", [AS_THE_FILE, Asked(units="metric")])
@pytest.mark.parametrize(("name", "metre", "square"), [("boatshed", "ft", "ft²"), ("schoolroom", "m", "m²")])
def test_bill_csv_is_in_the_units_the_shop_buys_in(name: str, metre: str, square: str, asked: Asked) -> None:
    job = load(name, asked)
    rows = list(csv.reader(io.StringIO(write_bill_csv(job.bill_as_sold).removeprefix(MARK), newline="")))
    lines = (*job.bill.lines, *job.bill.yearly)
    sold_per = {"ft": FOOT_M, "ft²": FOOT_M**2, "m": 1.0, "m²": 1.0}
    seen = set()
    for row, line in zip(rows[1:], lines, strict=False):
        cells = dict(zip(HEAD, row, strict=True))
        if line.unit in ("m", "m2"):
            assert cells["unit"] == (metre if line.unit == "m" else square), line.item
            seen.add(line.unit)
            assert float(cells["needed"]) * sold_per[cells["unit"]] == pytest.approx(line.needed, abs=1e-3)
            page = write_needed(line, job.bill.buyer, take_words("bill", "english"))
            assert page == f"{float(cells['needed']):.1f} {cells['unit']}"
        assert int(cells["buy"]) == line.buy
        if metre == "ft":
            assert cells["unit"] not in ("m", "m2", "m²")
            assert not any(cells["sold"].endswith(f" {unit}") for unit in ("m", "mm", "m²", "mL"))
    assert seen == {"m", "m2"}


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_no_word_of_bill_csv_hangs_on_the_units_of_the_print(name: str) -> None:
    plain, *shown = (load(name, asked) for asked in (AS_THE_FILE, Asked(units="metric"), Asked(units="inch")))
    for job in shown:
        assert write_bill_csv(job.bill_as_sold) == write_bill_csv(plain.bill)

"""The findings at the terminal: worst last, alike ones as one row with a list, what fits folded."""

from __future__ import annotations

import pytest

from calc.finding import Finding, Limit, Verdict, hold, say
from calc.measures.quantity import Reader
from packet.words.findings import count_verdicts, group_alike, write_table

INCH = Reader("inch")


def hold_air(machine: str, flow_cfm: float, need_cfm: float = 450.0) -> Finding:
    cfm = 0.3048**3 / 60
    what = say("judging.flow_set", machine=machine, scenario="two gates")
    return hold(
        f"flow.{machine}", what, flow_cfm * cfm, Limit(need_cfm * cfm, "at least"), say("judging.flow_why"),
        topic="air", kind="flow_m3s",
    )  # fmt: skip


SHORT, SHORTER = hold_air("planer", 400.0), hold_air("band saw", 300.0)
GOOD = hold_air("jointer", 600.0)


def test_worst_stands_last_and_what_fits_is_folded() -> None:
    table = write_table((SHORT, GOOD), INCH, 100)
    assert "jointer" not in table
    whole = write_table((SHORT, GOOD), INCH, 100, whole=True)
    assert whole.index("jointer") < whole.index("planer")


def test_alike_findings_are_one_row_the_worst_first() -> None:
    table = write_table((SHORT, SHORTER), INCH, 100)
    assert table.count("DOES NOT FIT") == 1
    assert "band saw" in table.splitlines()[2]
    assert "also planer 400 cfm" in table
    assert count_verdicts((SHORT, SHORTER)) == "0 fit, 2 do not fit"


def test_a_limit_of_its_own_is_told_in_the_list() -> None:
    table = write_table((hold_air("planer", 500.0, 650.0), SHORTER), INCH, 100)
    assert "also planer 500 cfm (at least 650 cfm)" in table


def test_unlike_verdicts_are_not_put_together() -> None:
    assert [len(group) for group in group_alike((SHORT, GOOD, SHORTER))] == [2, 1]


def test_where_all_fits_there_is_one_line() -> None:
    assert GOOD.verdict is Verdict.FITS
    assert write_table((GOOD,), INCH, 100) == "Everything that was looked at fits."


@pytest.mark.parametrize("width", [48, 60, 80, 160])
def test_no_line_is_wider_than_the_terminal(width: int) -> None:
    lines = write_table((SHORT, SHORTER, GOOD), INCH, width, whole=True).splitlines()
    assert max(map(len, lines)) <= max(width, 78)

"""What the record says of the room's depression and of the flue, against what the flue stands."""

from __future__ import annotations

import datetime
import re
from dataclasses import dataclass

from calc.finding import Finding, Limit, Verdict, decide, hold, say, tell
from calc.measures.quantity import ReadError, read_amount
from calc.project import Aired
from calc.record.entries import Answer, Entry, Record
from calc.results import MakeUpAir, Sizing
from calc.sizing.judging_make_up import SHOP, judge_draught_untested

DEPRESSION, SPILLAGE, BURNERS_OFF = "draught.depression", "draught.spillage", "step.test_draught.1"
"""Keys of the record: both of the commissioning sheet, and the hold point of the draught step."""


@dataclass(frozen=True)
class DraughtFound:
    """One reading [Pa] of how far the room fell below outdoors, and what it is held against."""

    date: datetime.date
    measured_pa: float
    most_pa: float

    @property
    def verdict(self) -> Verdict:
        return decide(self.measured_pa, Limit(self.most_pa, "at most"))


def list_draughts(make_up: MakeUpAir, record: Record | None) -> tuple[DraughtFound, ...]:
    """Return every recorded depression, oldest first."""
    found = []
    for entry in record.entries if record else ():
        measured = read_depression(entry)
        if measured is not None:
            found.append(DraughtFound(entry.date, measured, make_up.depression_pa))
    return tuple(sorted(found, key=lambda each: each.date))


def read_depression(entry: Entry) -> float | None:
    """Return how far [Pa] the room fell by an entry, None where it does not say; of two readings the greater.

    The sign is left out, for gauges are read either way round.
    """
    values = [value for key in (DEPRESSION, BURNERS_OFF) if (value := _read(entry.answers.get(key))) is not None]
    return max(values, default=None)


def _read(answer: Answer | None) -> float | None:
    """Return the depression [Pa] of an answer, None where none can be read; a hold point may have words round it."""
    if answer is None:
        return None
    if answer.value is not None:
        return abs(answer.value)
    number = re.search(r"-?\d+(?:\.\d+)?(?:\s*(?:Pa|hPa|kPa|mbar|mmH2O|inH2O)\b)?", answer.written)
    try:
        return abs(read_amount(number.group(), "draught_pa", negative=True, bare="Pa")) if number else None
    except ReadError:
        return None


def judge_draught(project: Aired, sizing: Sizing, record: Record | None) -> tuple[Finding, ...]:
    """Return the findings on the tests of a flue that the collector draws on; none where there is no such flue.

    The latest day's reading counts. Until there is one the finding is tight, whatever the sizing says.
    """
    if not project.shop.draws_on_flue:
        return ()
    findings, make_up = [], sizing.make_up_air
    draughts = list_draughts(make_up, record)
    if draughts:
        last = [found for found in draughts if found.date == draughts[-1].date]
        findings.append(_judge_reading(max(last, key=lambda found: found.measured_pa), make_up))
    else:
        findings.append(judge_draught_untested(make_up))
    spilled = record.find_latest(SPILLAGE) if record else None
    if spilled is not None and spilled[1].yes is not None:
        findings.append(_judge_spillage(spilled[0], spilled[1].yes))
    return tuple(findings)


def _judge_reading(found: DraughtFound, make_up: MakeUpAir) -> Finding:
    passed = found.verdict is Verdict.FITS
    return hold(
        "air.draught_test",
        say("make_up.tested" if passed else "make_up.tested_stop", date=found.date.isoformat()),
        found.measured_pa,
        Limit(found.most_pa, "at most", source=f"as-built log; {make_up.limit_source}"),
        say("make_up.tested_why"),
        topic="air",
        kind="draught_pa",
        subjects=SHOP,
        mends=(say("make_up.stop"), say("make_up.tested_mend")),
    )


def _judge_spillage(entry: Entry, passed: bool) -> Finding:
    return tell(
        "air.spillage",
        say("make_up.spillage" if passed else "make_up.spillage_stop", date=entry.date.isoformat()),
        say("make_up.tested_why"),
        {True: Verdict.FITS, False: Verdict.DOES_NOT_FIT}[passed],
        topic="air",
        subjects=SHOP,
        mends=() if passed else (say("make_up.stop"),),
        source="as-built log",
    )

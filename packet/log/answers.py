"""Raw answers of a form checked and made into entries: the same rules for paper typed in, PDF and terminal."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, field

from calc.measures.kinds import INH2O_PA
from calc.measures.quantity import ReadError
from calc.record.as_built import find_designed
from calc.record.draught import read_depression
from calc.record.entries import Answer, Entry
from calc.record.questions import (
    Question,
    ask_about_build,
    ask_about_hold,
    ask_about_log,
    ask_about_test,
    name_unit,
    split_key,
)
from calc.settled import SettledShop
from calc.sizing.appliances import choose_limit
from calc.trade import MOST_OVER_SHUT_OFF
from packet.log.log import clean_words, make_answer, read_date
from packet.reading.problem import Problem, quote_found

EARLIEST = datetime.date(1950, 1, 1)


@dataclass
class AnswerSheet:
    """What a form says, raw: text by question key; problems found on the way. file: where it came from."""

    file: str
    written: dict[str, str] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)

    def add(self, label: str, found: str, expected: str = "", example: str = "", mend: str = "") -> None:
        """Note a problem of one question."""
        self.problems.append(
            Problem(
                file=self.file, line=0, column=0, path=label, found=found, expected=expected, example=example, mend=mend
            )
        )


def find_shut_off(project: SettledShop) -> float:
    """Return the highest pressure [Pa] of the blower's curve, at the speed it runs."""
    faster = 1.0
    if project.blower.curve_speed and project.blower.runs_at:
        faster = (project.blower.runs_at / project.blower.curve_speed) ** 2
    return faster * max(point.pressure_pa for point in project.blower.curve)


def check_answer(question: Question, written: str, project: SettledShop, today: datetime.date) -> Answer:
    """Return one answer. Raises ReadError that says what is wrong and what would be right."""
    reader = project.display.reader
    text = written.strip()
    if question.kind == "date":
        check_date(text, today)
        return Answer(question.key, text, "date")
    answer = make_answer(question.key, text, question.kind, name_unit(question.kind, reader))
    if question.kind == "pressure_pa" and answer.value is not None:
        most = find_shut_off(project)
        if abs(answer.value) > MOST_OVER_SHUT_OFF * most:
            raise ReadError(
                text, f"is more than this blower can make ({most / INH2O_PA:.1f} inH2O, {most:.0f} Pa)", "the reading",
                "'1.35 inH2O'", "check the decimal point and the unit",
            )  # fmt: skip
    if question.kind in ("length_mm", "length_m") and answer.value == 0:
        raise ReadError(text, "is nothing", "a length", "'12-1/2 in'", "leave the blank empty when it was not measured")
    return answer


def check_date(text: str, today: datetime.date) -> datetime.date:
    """Return a date that is not in the future. Raises ReadError."""
    date = read_date(text)
    if date is None:
        raise ReadError(text, "is not a date", "year-month-day", "'2026-03-14'")
    if date > today:
        raise ReadError(
            text, f"is in the future (today is {today.isoformat()})", "the day it was measured", "'2026-03-14'"
        )
    if date < EARLIEST:
        raise ReadError(text, "is too long ago to be meant", "the day it was measured", "'2026-03-14'")
    return date


def make_entries(
    sheet: AnswerSheet, project: SettledShop, revision: str, digest: str, today: datetime.date
) -> tuple[Entry, ...]:
    """Return the entries of a filled form: test, as built, and one a row of the log; faults go to the sheet."""
    holds = tuple(ask_about_hold(key) for key in sheet.written if split_key(key)[0] == "step")
    built, packet = (*ask_about_build(project), *holds), (revision, digest)
    entries = [
        _make_entry(sheet, project, ask_about_test(project), "test", ("test", "test"), packet, today),
        _make_entry(sheet, project, built, "as built", ("built", "as built"), packet, today),
    ]
    for row, questions in enumerate(ask_about_log(), 1):
        entries.append(_make_entry(sheet, project, questions, "cleaning", (f"log.{row}", "cleaning"), packet, today))
    return tuple(entry for entry in entries if entry is not None)


def _make_entry(
    sheet: AnswerSheet,
    project: SettledShop,
    questions: tuple[Question, ...],
    kind: str,
    stem_and_name: tuple[str, str],
    packet: tuple[str, str],
    today: datetime.date,
) -> Entry | None:
    """Return one entry, None when nothing of it was answered."""
    stem, name = stem_and_name
    written = {q.key: sheet.written[q.key] for q in questions if sheet.written.get(q.key, "").strip()}
    if not written:
        return None
    answers: dict[str, Answer] = {}
    for question in questions:
        if question.key in written:
            try:
                answers[question.key] = check_answer(question, written[question.key], project, today)
            except ReadError as error:
                found = f"{quote_found(error.found)} {error.wrong}"
                sheet.add(_label(question, name, project), found, error.expected, error.example, error.hint)
    date_key, by_key = f"{stem}.date", f"{stem}.by"
    if date_key not in written:
        sheet.add(f"{name}: date", "the date is blank but other blanks are filled", "year-month-day", "2026-03-14")
        return None
    date = read_date(written[date_key])
    if date is None:
        return None
    by = clean_words(written.get(by_key, ""))
    if kind != "cleaning" and not set(written) - {date_key, by_key}:
        return None  # a day and a name alone say nothing; a day of cleaning does
    kept = {_log_key(key, stem): answer for key, answer in answers.items() if key not in (date_key, by_key)}
    notes = "".join(clean_words(kept.pop(key).written) for key in list(kept) if key.endswith(".notes"))
    return Entry(
        date=date,
        by=by,
        kind=kind,
        revision=packet[0],
        digest=packet[1],
        answers={k: _rekey(k, a) for k, a in kept.items()},
        notes=notes,
    )


def _label(question: Question, name: str, project: SettledShop) -> str:
    label = name_question(question, project)
    return f"{name} {question.key.split('.')[1]}: {label}" if question.group == "log" else label


def name_question(question: Question, project: SettledShop) -> str:
    """Return a question's words as they stand on the project's forms."""
    from packet.words.say import say

    return say(question.label, project.display.reader)


def _log_key(key: str, stem: str) -> str:
    return key.replace(stem, "cleaning", 1) if stem.startswith("log.") else key


def _rekey(key: str, answer: Answer) -> Answer:
    return Answer(key, answer.written, answer.kind, answer.value, answer.yes)


FAR_OFF = 3.0
UNLIKE = 0.2


def list_doubts(entries: tuple[Entry, ...], project: SettledShop) -> list[str]:
    """Return a line for each value that can be meant but hardly is, and for two answers to one question."""
    drawn = find_designed(project)
    doubts = []
    most = choose_limit(project.shop.flued_appliance, project.shop.appliance_draught_pa)
    for entry in entries:
        fallen = read_depression(entry) if project.shop.draws_on_flue else None
        if fallen is not None and fallen > most:
            doubts.append(
                f"STOP: the room fell {fallen:.3g} Pa below outdoors, and the heater's flue stands {most:g} Pa: do not "
                "run the collector while the heater can burn; have a licensed heating contractor test both"
            )
        for key, answer in entry.answers.items():
            is_length = answer.kind in ("length_mm", "length_m") and key in drawn and drawn[key].value > 0
            if is_length and answer.value and not 1 / FAR_OFF < answer.value / drawn[key].value < FAR_OFF:
                times = answer.value / drawn[key].value
                doubts.append(f"{key}: {answer.written} is {times:.2g} times what was drawn; is the unit right?")
        baseline, reading = (entry.answers.get(key) for key in ("baseline.reading", f"reading.{project.gauge.read_at}"))
        if not (baseline and reading and baseline.value and reading.value):
            continue
        if abs(abs(baseline.value) - abs(reading.value)) > UNLIKE * abs(baseline.value):
            doubts.append(
                f"the clean baseline ({baseline.written}) and the reading at {project.gauge.read_at} "
                f"({reading.written}) are the same reading, and differ; the baseline counts"
            )
    return doubts


def drop_known(entries: tuple[Entry, ...], known: tuple[Entry, ...]) -> tuple[Entry, ...]:
    """Return the entries that the log does not have word for word already."""

    def say(entry: Entry) -> tuple[object, ...]:
        answers: Mapping[str, Answer] = entry.answers
        return entry.date, entry.kind, entry.by, entry.notes, tuple(sorted((k, a.written) for k, a in answers.items()))

    have = {say(entry) for entry in known}
    return tuple(entry for entry in entries if say(entry) not in have)

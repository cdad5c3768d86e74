"""The as-built form: what was really made, beside what was drawn; then the history, once there is a log."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.measures.quantity import unit_name, write_amount
from calc.record.as_built import find_designed
from calc.record.questions import Question, ask_about_build
from packet.log.names import name_fields
from packet.pages import history
from packet.pages.kit.form_blocks import make_blank, make_short_row
from packet.words.phrases import Phrases, take_words
from packet.words.say import say

if TYPE_CHECKING:
    from collections.abc import Mapping

    from packet.job import Job
    from packet.pages.kit.kit import Kit

ROW_MM, NOTES_MM = 6.5, 26.0


def make_story(job: Job, kit: Kit) -> list[Any]:
    """Return the as-built form, to fill on paper or on screen, and the history when there is one."""
    questions = ask_about_build(job.project)
    names = name_fields(questions)
    groups: dict[str, list[Question]] = {}
    for question in questions:
        groups.setdefault(question.group, []).append(question)
    notes, words = groups["notes"][0], take_words("as_built", job.reader.language)
    return [
        kit.heading(words("title")),
        kit.text(words("lead")),
        kit.text(_say_units(job, words), "small"),
        make_short_row(kit, groups["built"], names),
        kit.space(2),
        _tell_sizes(job, kit, [*groups["box"], *groups["filters"], *groups.get("hoses", [])], names, words),
        kit.space(2),
        *([_tell_ports(job, kit, groups["ports"], names, words)] if "ports" in groups else []),
        kit.heading(say(notes.label, kit.reader), 3),
        make_blank(kit, notes, names, kit.frame_width_mm, NOTES_MM),
        *history.make_story(job, kit),
    ]


def _say_units(job: Job, words: Phrases) -> str:
    short, long = unit_name("length_mm", job.reader), unit_name("length_m", job.reader)
    return words("units_inch" if job.reader.system == "inch" else "units_metric", short=short, long=long)


def _tell_sizes(job: Job, kit: Kit, questions: list[Question], names: Mapping[str, str], words: Phrases) -> Any:
    """Return two measures a row."""
    designed = find_designed(job.project)

    def make_cells(question: Question) -> list[Any]:
        amount = designed.get(question.key)
        shown = write_amount(amount.value, amount.kind, job.reader) if amount else "-"
        return [say(question.label, kit.reader), shown, make_blank(kit, question, names, 24, ROW_MM)]

    head = [words(f"column_{name}") for name in ("what", "drawn", "measured")]
    half = -(-len(questions) // 2)
    rows: list[list[Any]] = [head + head]
    for index in range(half):
        right = make_cells(questions[index + half]) if index + half < len(questions) else ["", "", ""]
        rows.append([*make_cells(questions[index]), *right])
    return kit.table(rows, widths_mm=(42, 21, 28) * 2, style="form", align="lrllrl", size=8.4)


def _tell_ports(job: Job, kit: Kit, questions: list[Question], names: Mapping[str, str], words: Phrases) -> Any:
    """Return one port a row: pail and hole."""
    designed = find_designed(job.project)
    asked = {question.key: question for question in questions}
    columns = ("port", "pail_drawn", "pail", "hole_drawn", "hole")
    rows: list[list[Any]] = [[words(f"column_{name}") for name in columns]]
    for port in job.project.ports:
        row: list[Any] = [port.name]
        for stem in ("pail", "hole"):
            amount = designed[f"{stem}.{port.name}"]
            row.append(write_amount(amount.value, amount.kind, job.reader))
            row.append(make_blank(kit, asked[f"{stem}.{port.name}"], names, 36, ROW_MM))
        rows.append(row)
    return kit.table(rows, widths_mm=(48, 26, 41, 26, 41), style="form", align="lrlrl", size=8.4)

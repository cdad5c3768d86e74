"""The as-built form: what was really made, beside what was drawn."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.as_built import find_designed
from calc.quantity import unit_name, write_amount
from calc.questions import Question, ask_about_build
from packet.pages.form_blocks import make_blank, make_short_row
from packet.record_names import name_fields

if TYPE_CHECKING:
    from collections.abc import Mapping

    from packet.job import Job
    from packet.pages.kit import Kit

TITLES = {
    "box": "Box and room", "filters": "Filters and gauge", "ports": "Pails and holes", "hoses": "Hoses as hung",
}  # fmt: skip


def make_story(job: Job, kit: Kit) -> list[Any]:
    """Return the as-built form, to fill on paper or on screen."""
    questions = ask_about_build(job.project)
    names = name_fields(questions)
    groups: dict[str, list[Question]] = {}
    for question in questions:
        groups.setdefault(question.group, []).append(question)
    story: list[Any] = [
        kit.heading("As built"),
        kit.text(
            "Measure the finished thing, not the drawing. Leave blank what you did not measure: a blank is honest, "
            "a copied "
            "number is not. Keep this sheet; fill it on screen and the record command stores it beside the project "
            "file."
        ),
        kit.text(_say_units(job), "small"),
        make_short_row(kit, groups["built"], names),
    ]
    story += [block for group, title in TITLES.items() if groups.get(group) for block in (
        kit.heading(title, 2), _tell_group(job, kit, groups[group], names))]  # fmt: skip
    notes = groups["notes"][0]
    return [*story, kit.heading(notes.label, 2), make_blank(kit, notes, names, kit.frame_width_mm)]


def _say_units(job: Job) -> str:
    short, long = unit_name("length_mm", job.reader), unit_name("length_m", job.reader)
    inch = "Fractions are fine: 11-27/32. " if job.reader.system == "inch" else ""
    return f"Lengths in {short}, hoses in {long}, unless you write another unit. {inch}Dates as 2026-03-14."


def _tell_group(job: Job, kit: Kit, questions: list[Question], names: Mapping[str, str]) -> Any:
    designed = find_designed(job.project)
    rows: list[list[Any]] = [["What", "Drawn", "Measured", ""]]
    for question in questions:
        amount = designed.get(question.key)
        shown = write_amount(amount.value, amount.kind, job.reader) if amount else "-"
        unit = "" if question.kind == "count" else unit_name(question.kind, job.reader)  # type: ignore[arg-type]
        rows.append([question.label, shown, make_blank(kit, question, names, 50), unit])
    return kit.table(rows, widths_mm=(76, 36, 56, 12), style="form", align="lrll")

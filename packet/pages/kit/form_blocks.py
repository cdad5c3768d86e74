"""Rows of questions as blanks, for a pencil or the keyboard; units are printed beside each blank."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from calc.measures.quantity import Reader, unit_name
from calc.record.questions import Question
from packet.log.names import NO, YES
from packet.words.phrases import take_words
from packet.words.say import say

if TYPE_CHECKING:
    from packet.pages.kit.forms import FieldKind
    from packet.pages.kit.kit import Kit


def name_blank_unit(question: Question, reader: Reader) -> str:
    """Return the unit printed beside a blank; a number without a unit is read in it."""
    if question.kind == "words" or question.kind == "yes no":
        return ""
    if question.kind == "date":
        words = take_words("form_blocks", reader.language)
        return words("date_unit")
    return unit_name(question.kind, reader)


def label_blank(question: Question, reader: Reader) -> str:
    """Return the words beside a blank: what is asked, and the unit it is answered in."""
    unit = name_blank_unit(question, reader)
    words = take_words("form_blocks", reader.language)
    label = say(question.label, reader)
    return words("label_with_unit", label=label, unit=unit) if unit else label


def make_blank(
    kit: Kit, question: Question, names: Mapping[str, str], width_mm: float, height_mm: float | None = None
) -> Any:
    """Return the blank of a question that is not a yes-no one."""
    kind: FieldKind = "long text" if question.long else "date" if question.kind == "date" else "text"
    return kit.field(names[question.key], width_mm, label_blank(question, kit.reader), kind, height_mm=height_mm)


def make_yes_no(kit: Kit, question: Question, names: Mapping[str, str]) -> tuple[Any, Any]:
    """Return two boxes, yes and no: neither ticked means not answered."""
    name, words = names[question.key], take_words("form_blocks", kit.reader.language)
    label = say(question.label, kit.reader)
    return (
        kit.field(name + YES, 6, words("tip_yes", label=label), kind="tick"),
        kit.field(name + NO, 6, words("tip_no", label=label), kind="tick"),
    )


def make_stage_table(
    kit: Kit, questions: Sequence[Question], names: Mapping[str, str], passes: Mapping[str, str]
) -> Any:
    """Return a table of yes-no questions with the value that passes, by question key."""
    words = take_words("form_blocks", kit.reader.language)
    rows: list[list[Any]] = [[words("column_stage"), words("column_passes"), words("yes"), words("no")]]
    rows += [[say(q.label, kit.reader), passes[q.key], *make_yes_no(kit, q, names)] for q in questions]
    return kit.table(rows, widths_mm=(92, 68, 11, 11), style="form", align="llcc", size=8.4)


def make_short_row(kit: Kit, questions: Sequence[Question], names: Mapping[str, str]) -> Any:
    """Return a few blanks side by side, label above each: date, name, temperature."""
    share = kit.frame_width_mm / len(questions)
    labels = [label_blank(question, kit.reader) for question in questions]
    blanks = [make_blank(kit, question, names, share - 8, 6.0) for question in questions]
    return kit.table([labels, blanks], widths_mm=[share] * len(questions), header_rows=1, style="form")

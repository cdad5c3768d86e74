"""Names of form fields for the questions of the record: plain letters, no two alike, the same in every build."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from calc.record.questions import Question
from packet.log.field_names import name_field

YES, NO = "-yes", "-no"


def key_hold(field: str) -> str:
    """Return the key that a step's hold point is recorded under, from its field on the form."""
    return name_field(field).replace("-", ".")


def name_fields(questions: Iterable[Question]) -> Mapping[str, str]:
    """Return the field name of each question by its key; keys that spell alike get a number."""
    names: dict[str, str] = {}
    taken: set[str] = set()
    for question in questions:
        base = name = name_field(question.key.replace(".", "_"))
        count = 1
        while name in taken or any(name + end in taken for end in (YES, NO)):
            count += 1
            name = f"{base}-{count}"
        taken |= {name, name + YES, name + NO}
        names[question.key] = name
    return names

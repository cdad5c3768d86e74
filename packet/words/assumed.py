"""What the project file holds that nobody measured yet, in the words every sheet says it with."""

from __future__ import annotations

from calc.project import Given
from calc.shapes.shapes import FlatPart
from packet.words.guesses import list_things
from packet.words.phrases import take_words

CUT_BY = (
    "filters.count", "filters.outside", "filters.bore", "filters.height", "filters.gasket_inside",
    "filters.gasket_outside", "filters.gasket_thick", "filter_box", "ports",
    "closure", "lining",
)  # fmt: skip
"""What ends up in the size of a cut part."""


def say_assumed(project: Given, about: tuple[str, ...]) -> str:
    """Return one sentence that names every assumed value that is part of some paths, or holds one; or nothing."""
    paths = [
        path
        for path in project.assumed
        if any(f"{path}.".startswith(f"{one}.") or f"{one}.".startswith(f"{path}.") for one in about)
    ]
    words = take_words("assumed", project.display.language)
    return words("things", things=", ".join(list_things(paths))) if paths else ""


def count_assumed(project: Given) -> str:
    """Return one sentence for the cover: how many values are assumed, and where they are named; or nothing."""
    count = len(project.assumed)
    if not count:
        return ""
    words = take_words("assumed", project.display.language)
    return words("count_one") if count == 1 else words("count_many", count=count)


def stamp_assumed(project: Given, part: FlatPart) -> tuple[str, ...]:
    """Return what stands across a template that is cut by values nobody measured, and which they are; or nothing."""
    if not part.assumed:
        return ()
    words = take_words("assumed", project.display.language)
    return words("stamp"), words("stamp_things", things=", ".join(list_things(part.assumed)))

"""Paper and units asked for on the command line, for one print only; the project file is left as it is."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TypeVar

from calc.project import Display, Given, Paper
from packet.fields.model import Choice, Group
from packet.fields.shop import DISPLAY, PAPERS
from packet.reading.context import Reading, Where
from packet.reading.faults import Faults
from packet.reading.nodes import Text
from packet.reading.problem import BadProject, Place, Problem
from packet.reading.scalars import read_scalar
from packet.words.phrases import take_words


@dataclass(frozen=True)
class Asked:
    """paper, units: the words of the project file's own keys; None: as the file says."""

    paper: str | None = None
    units: str | None = None


AS_THE_FILE = Asked()
Whole = TypeVar("Whole", bound=Given)


def read_asked(paper: str | None, units: str | None) -> Asked:
    """Return what was asked for, read as the file's own keys are. Raises BadProject with one clear line each."""
    problems: list[Problem] = []

    def read_one(option: str, key: str, text: str | None) -> str | None:
        if text is None:
            return None
        faults = Faults(option)
        value = read_scalar(find_choice(key), Text(text, Place(0, 0)), Where(), Reading(faults))
        problems.extend(faults.problems)
        return str(value) if value is not None else None

    asked = Asked(read_one("--paper", "paper", paper), read_one("--units", "system", units))
    if problems:
        raise BadProject(problems)
    return asked


def find_choice(key: str) -> Choice:
    """Return the rule of a key of the file's display section."""
    assert isinstance(DISPLAY, Group)
    what = next(known.what for known in DISPLAY.fields if known.key == key)
    assert isinstance(what, Choice)
    return what


def apply_asked(project: Whole, asked: Asked) -> Whole:
    """Return the project shown as asked: other paper, other units in words. What is built and bought stays."""
    display: Display = project.display
    if asked.units in ("inch", "metric"):
        display = replace(display, shown_in=asked.units)  # type: ignore[arg-type]
    if asked.paper is not None:
        width, height = PAPERS[asked.paper]
        old = display.paper
        display = replace(display, paper=Paper(asked.paper, width, height, old.margin_mm, old.overlap_mm))
    return replace(project, display=display)


def tell_asked(project: Given, asked: Asked) -> str:
    """Return for the cover where this print differs from the project file, and what to mind then; else nothing."""
    display = project.display
    words, parts = take_words("asked", display.language), []
    if asked.paper is not None and asked.paper != display.paper.name:
        parts.append(words("paper", asked=asked.paper, file=display.paper.name))
    if asked.units is not None and asked.units != display.system:
        parts.append(words("units", asked=asked.units, file=display.system))
    if not parts:
        return ""
    told = words("asked", parts=", ".join(parts))
    if asked.paper not in (None, display.paper.name) and (display.printer_x, display.printer_y) != (1.0, 1.0):
        told = f"{told} {words('correction', file=display.paper.name)}"
    return told

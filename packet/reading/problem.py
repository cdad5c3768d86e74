"""Problems of a project file: where, what was found, what is expected, and how they are shown."""

from __future__ import annotations

import difflib
import re
import textwrap
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from packet.words.visible import make_visible

LONGEST_SHOWN = 60
WIDEST_SOURCE = 110
INDENT = " " * 9
RED, BOLD, DIM, PLAIN = "\x1b[31m", "\x1b[1m", "\x1b[2m", "\x1b[0m"


@dataclass(frozen=True)
class Place:
    """Where something stands in a file: line and column, both from 1; width in characters."""

    line: int
    column: int
    width: int = 1


@dataclass(frozen=True, kw_only=True)
class Problem:
    """One fault of a file, or one doubt about it (a warning).

    path: dotted path of the value; found: what is there, as a phrase; expected, example: what should be there;
    nearest: the valid word that looks most like the one found; mend: what to do, as an order
    lines: lines of the file as they should be, shown as they stand
    """

    file: str
    line: int
    column: int
    path: str
    found: str
    expected: str = ""
    example: str = ""
    nearest: str = ""
    mend: str = ""
    width: int = 1
    lines: tuple[str, ...] = ()

    @property
    def headline(self) -> str:
        """``file:line:column path: found``, without line or path where there are none."""
        where = f"{self.file}:{self.line}:{self.column}" if self.line else self.file
        return f"{where} {self.path}: {self.found}" if self.path else f"{where}: {self.found}"

    @property
    def advice(self) -> tuple[str, ...]:
        """What is expected, the nearest word and the mend, a line each."""
        said = []
        if self.expected:
            said.append(f"expected {self.expected}" + (f", for example: {self.example}" if self.example else ""))
        elif self.example:
            said.append(f"for example: {self.example}")
        if self.nearest:
            said.append(f"did you mean '{self.nearest}'?")
        if self.mend:
            said.append(self.mend)
        return tuple(said)

    def __str__(self) -> str:
        return "; ".join((self.headline, *self.advice, *self.lines))


class BadProject(ValueError):
    """A project file that cannot be used; all its problems, by line. Raised for the user's faults only."""

    def __init__(self, problems: Iterable[Problem], lines: Sequence[str] = ()) -> None:
        self.problems = tuple(sorted(problems, key=lambda p: (p.line, p.column)))
        self.lines = tuple(lines)
        super().__init__("\n".join(str(problem) for problem in self.problems))


def quote_found(text: str) -> str:
    """Return the user's text in quotes, cut short, with invisible characters made visible."""
    flat = make_visible(text.replace("\n", " "))
    return f"'{flat[: LONGEST_SHOWN - 1]}…'" if len(flat) > LONGEST_SHOWN else f"'{flat}'"


def find_nearest(word: str, known: Iterable[str]) -> str:
    """Return the known word that looks most like the given one, or nothing when none is near."""
    names = {name.lower().replace("_", " "): name for name in known}
    near = difflib.get_close_matches(word[:80].lower().replace("_", " ").replace("-", " "), names, n=1, cutoff=0.6)
    return names[near[0]] if near else ""


def fold_key(word: str) -> str:
    """Return a key as the table of fields writes it: ``Ceiling`` and ``Flued appliance`` are keys all the same."""
    return re.sub(r"[\s_-]+", "_", word.strip().lower())


def list_words(words: Sequence[str], most: int = 12) -> str:
    """Return 'a, b or c', cut after some words."""
    if len(words) > most:
        return ", ".join(words[:most]) + " ..."
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " or " + words[-1] if words else "nothing"


def show_problems(problems: Sequence[Problem], lines: Sequence[str] = (), *, colour: bool = False) -> str:
    """Return the problems as text, each with its source line and a caret; with colour for a terminal only."""
    return "\n".join(show_problem(problem, lines, colour=colour) for problem in problems)


def show_problem(problem: Problem, lines: Sequence[str] = (), *, colour: bool = False) -> str:
    """Return one problem: headline, source line, caret, advice."""
    red, bold, dim, plain = (RED, BOLD, DIM, PLAIN) if colour else ("", "", "", "")
    shown = [f"{bold}{make_visible(problem.headline)}{plain}"]
    if 0 < problem.line <= len(lines):
        source, at = cut_source(lines[problem.line - 1], problem.column - 1)
        width = max(1, min(problem.width, len(source) - at))
        shown.append(f"{dim}{problem.line:>6} |{plain} {source}")
        shown.append(f"{dim}       |{plain} {' ' * at}{red}{'^' * width}{plain}")
    for said in problem.advice:
        shown += textwrap.wrap(make_visible(said), WIDEST_SOURCE, initial_indent=INDENT, subsequent_indent=INDENT)
    shown += [f"{INDENT}  {make_visible(line)}" for line in problem.lines]
    return "\n".join(shown)


def cut_source(line: str, column: int) -> tuple[str, int]:
    """Return the part of a source line round a column, made visible, and where the column now is."""
    start = max(0, column - 2 * WIDEST_SOURCE // 3) if len(line) > WIDEST_SOURCE else 0
    before = make_visible(line[start:column])
    shown = before + make_visible(line[column : start + WIDEST_SOURCE])
    mark = "…" if start else ""
    return mark + shown + ("…" if start + WIDEST_SOURCE < len(line) else ""), len(mark) + len(before)

"""Every wrong file in bad/ gives exactly the problems written beside it: text, line, column, caret."""

from __future__ import annotations

import ast
import contextlib
import sys
from pathlib import Path
from typing import Any

import pytest

from packet import reading as reading_rooms
from packet.reading.faults import Faults
from packet.reading.load import BadProject, load_project
from packet.reading.problem import RED, show_problems

BAD = Path(__file__).parent / "bad"
FILES = sorted(BAD.glob("*.yaml"))


def show_faults(path: Path) -> str:
    with pytest.raises(BadProject) as caught:
        load_project(path)
    shown = show_problems(caught.value.problems, caught.value.lines)
    return shown.replace(str(path), path.name) + "\n"


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_each_wrong_file_gives_the_problems_written_beside_it(path: Path) -> None:
    shown, beside = show_faults(path), path.with_suffix(".txt")
    assert shown == beside.read_text(encoding="utf-8"), (
        f"if a reader is helped by what is shown now, put it in {beside}"
    )


def test_no_wrong_file_is_without_its_problems() -> None:
    assert {path.stem for path in FILES} == {path.stem for path in BAD.glob("*.txt")}
    assert len(FILES) > 50


def test_plain_text_carries_no_escape_and_a_terminal_gets_colour() -> None:
    with pytest.raises(BadProject) as caught:
        load_project(BAD / "no_unit.yaml")
    assert "\x1b" not in show_problems(caught.value.problems, caught.value.lines)
    assert RED in show_problems(caught.value.problems, caught.value.lines, colour=True)


def test_escapes_in_a_file_never_reach_the_terminal() -> None:
    """An ANSI escape in the source line is shown as its code, so that a file cannot repaint the screen."""
    assert "\x1b" not in show_faults(BAD / "control_signs.yaml")


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_problem_has_a_place_inside_its_file(path: Path) -> None:
    with pytest.raises(BadProject) as caught:
        load_project(path)
    for problem in caught.value.problems:
        if problem.line:
            assert 1 <= problem.line <= len(caught.value.lines)
            assert 1 <= problem.column <= len(caught.value.lines[problem.line - 1]) + 1
    places = [(problem.line, problem.column) for problem in caught.value.problems]
    assert places == sorted(places)


DOUBTFUL = sorted((Path(__file__).parent / "doubtful").glob("*.yaml"))


@pytest.mark.parametrize("path", DOUBTFUL, ids=lambda path: path.stem)
def test_each_doubtful_file_loads_with_the_warnings_written_beside_it(path: Path) -> None:
    assert "\n".join(load_project(path).warnings) + "\n" == path.with_suffix(".txt").read_text(encoding="utf-8")


PASS_ON = ("faults.py", "context.py", "values.py")
"""Modules that hand on what another has to say."""


def list_messages() -> dict[tuple[str, int], str]:
    """Return every place in the reading rooms that notes a fault or a doubt."""
    found = {}
    for file in sorted(Path(reading_rooms.__file__).parent.glob("*.py")):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if (
                isinstance(node, ast.Call)
                and isinstance(node.func, ast.Attribute)
                and (
                    node.func.attr in ("fault", "warn")
                    or (node.func.attr == "add" and ast.unparse(node.func.value) in ("faults", "self.faults"))
                )
                and file.name not in (*PASS_ON, "load.py")  # load: no file to stand beside
            ):
                for line in range(node.lineno, (node.end_lineno or node.lineno) + 1):
                    found[str(file), line] = f"{file.name}: {ast.unparse(node)[:100]}"
    return found


# Said where no file can stand beside: a file too large (test_reading), and a parser's error without a place.
APART = ("text.py: faults.add(None, '', f'the file has", "syntax.py: faults.add(None, '', 'the text cannot be read'")


def test_every_message_has_a_file_that_brings_it_out(monkeypatch: pytest.MonkeyPatch) -> None:
    messages = list_messages()
    said: set[str] = set()
    keep = Faults.keep

    def watch(self: Faults, *given: Any) -> None:
        frame = sys._getframe(1)
        while frame.f_back and frame.f_code.co_filename.endswith(PASS_ON):
            frame = frame.f_back
        said.add(messages.get((frame.f_code.co_filename, frame.f_lineno), ""))
        keep(self, *given)

    monkeypatch.setattr(Faults, "keep", watch)
    for path in (*FILES, *DOUBTFUL):
        with contextlib.suppress(BadProject):
            load_project(path)
    missing = {text for text in messages.values() if text not in said and not text.startswith(APART)}
    assert missing == set()
    assert len(said) > 60

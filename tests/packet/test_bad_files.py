"""Every wrong file in tests/packet/bad/ gives exactly the problems written beside it: text, line, column, caret."""

from __future__ import annotations

from pathlib import Path

import pytest

from packet.load import BadProject, load_project
from packet.problem import RED, show_problems

BAD = Path(__file__).parent / "bad"
FILES = sorted(BAD.glob("*.yaml"))


def show_faults(path: Path) -> str:
    with pytest.raises(BadProject) as caught:
        load_project(path)
    shown = show_problems(caught.value.problems, caught.value.lines)
    return shown.replace(str(path), path.name) + "\n"


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_each_wrong_file_gives_the_problems_written_beside_it(path: Path) -> None:
    assert show_faults(path) == path.with_suffix(".txt").read_text(encoding="utf-8")


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

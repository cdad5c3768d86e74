"""No sentence of the packet stands in the code: pages, pictures, bill and steps ask templates/ for their words."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

PACKET = Path(__file__).parents[3] / "packet"
ROOMS = ("bill", "draw", "files", "pages", "work")
"""Rooms whose words are printed; reading, log, cli and disk answer at the terminal."""
FOR_PROGRAMS = {"sizing_json.py"}  # what the keys of sizing.json mean
PRINTING = [path for room in ROOMS for path in sorted((PACKET / room).rglob("*.py")) if path.name not in FOR_PROGRAMS]
SENTENCE = re.compile(r"[A-Za-z]{2,}(?: [A-Za-z]+){3,}")

NAMED = (
    "Drawing",
    "Plot",
    "close_drawing",
)  # their first argument, or ``name``, names the drawing in faults, never in print
NOT_PRINTED = {
    "ring and lid set",  # another name under which the bill finds a price
    "lower ends of the filters",
    "water and food dye",
    "nothing in the bill is called ",
    "One unit is one millimetre.",  # for the machine that reads the SVG
}


def list_sentences(source: str) -> list[str]:
    """Return text of four words and more that is neither docstring, nor fault, nor the name of a drawing."""
    tree = ast.parse(source)
    quiet: set[int] = set()
    for node in ast.walk(tree):
        silent: list[ast.AST] = []
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            silent = [node.value]
        elif isinstance(node, ast.Raise):
            silent = [node]
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            named = [*node.args[:1], *(each.value for each in node.keywords if each.arg == "name")]
            silent = named if node.func.id in NAMED else [node] if node.func.id == "BadWords" else []
        quiet |= {id(each) for part in silent for each in ast.walk(part)}
    return [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant)
        and isinstance(node.value, str)
        and id(node) not in quiet
        and SENTENCE.search(node.value)
        and node.value not in NOT_PRINTED
    ]


@pytest.mark.parametrize("path", PRINTING, ids=lambda path: f"{path.parent.name}.{path.stem}")
def test_no_sentence_stands_in_the_code(path: Path) -> None:
    said = list_sentences(path.read_text(encoding="utf-8"))
    assert not said, "a line of templates/words/, asked for by its key, says this"


def test_each_room_that_prints_is_looked_at() -> None:
    for room in ROOMS:
        assert any(path.is_relative_to(PACKET / room) for path in PRINTING), f"packet/{room}/ holds no module"


def test_a_sentence_in_the_code_is_seen() -> None:
    assert list_sentences('"""Doc of four words."""\nx = f"Cut on the line {size} twice"\n') == ["Cut on the line "]
    assert list_sentences('raise ValueError("not a size at all")\ny = "two words"\n') == []

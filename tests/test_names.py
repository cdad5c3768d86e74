"""What a thing is stands in a field of it; nothing is decided by how its name, number or key is spelt."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from calc.cutting.lids import make_inspection_lid
from calc.project import Closure

TOP = Path(__file__).parents[1]
SPELT = {"startswith", "endswith", "split", "partition", "rpartition", "removeprefix", "removesuffix", "find"}
OWN = {"name", "key", "number", "kind", "lid", "part", "port", "subject", "material"}
SIZES = {"radius", "radius_mm", "diameter", "diameter_mm"}

ALLOWED = {
    "calc/leaning.py": "dotted keys of the project file, as they are marked there",
    "calc/record/questions.py": "split_key: the keys of the log are written so in the file",
    "calc/sizing/absorption.py": "what the user calls the lining's stock",
    "packet/pages/kit/flow.py": "lines of a text",
    "packet/pages/step_card.py": "words of a line",
    "packet/bill/names.py": "what the user calls a thing against what the bill calls it",
    "packet/bill/bill.py": "the same",
    "packet/words/reader.py": "names of files of words",
    "packet/log/answers.py": "keys of the filled form become keys of the log",
    "packet/draw/steps/pictures.py": "the picture that a step's own file asks for",
}
"""Where text that people or files wrote is read."""


def list_read(tree: ast.AST) -> Iterator[int]:
    """Yield the lines where the spelling of a name, or a size that stands for a kind, decides."""

    def is_own(node: ast.expr) -> bool:
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            return is_own(node.func.value)  # name.lower()
        return (isinstance(node, ast.Attribute) and node.attr in OWN) or (isinstance(node, ast.Name) and node.id in OWN)

    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            if node.func.attr in SPELT and is_own(node.func.value):
                yield node.lineno
        elif isinstance(node, ast.Compare):
            inside = isinstance(node.left, ast.Constant) and isinstance(node.left.value, str)
            if isinstance(node.ops[0], ast.In) and inside and is_own(node.comparators[0]):
                yield node.lineno
            sides = [node.left, *node.comparators]
            if isinstance(node.ops[0], ast.Eq) and any(isinstance(s, ast.Attribute) and s.attr in SIZES for s in sides):
                yield node.lineno


def test_nothing_is_read_out_of_a_name() -> None:
    read = {
        f"{name}:{line}"
        for folder in ("calc", "packet")
        for path in sorted((TOP / folder).rglob("*.py"))
        if (name := path.relative_to(TOP).as_posix()) not in ALLOWED
        and not name.startswith(("packet/reading/", "packet/fields/", "packet/disk/", "packet/cli/", "packet/build/"))
        for line in list_read(ast.parse(path.read_text(encoding="utf-8")))
    }
    assert not read


@pytest.mark.parametrize("name", ALLOWED)
def test_each_allowed_place_is_needed(name: str) -> None:
    assert list(list_read(ast.parse((TOP / name).read_text(encoding="utf-8"))))


@pytest.mark.parametrize(
    "code",
    [
        'part.name.startswith("test disc")', "kind, *rest = name.split()", 'key.split(".")[0]', '"cleat" in part.name',
        "hole.radius == CLIP_DRILL_MM / 2", "lid.startswith(port)",
    ],
)  # fmt: skip
def test_a_decision_by_spelling_is_seen(code: str) -> None:
    assert list(list_read(ast.parse(code)))


def test_a_port_named_like_the_beginning_of_a_word_keeps_its_name() -> None:
    """Two inspection lids, of the ports ``in`` and ``inspection``, are told apart."""
    assert make_inspection_lid(Closure(), "L8", "in").name == "inspection lid in"
    assert make_inspection_lid(Closure(), "L9", "inspection").name == "inspection lid"

"""Each rule stands once: no number under one name with two values, no field that nobody reads."""

from __future__ import annotations

import ast
import dataclasses
import typing
from collections import defaultdict
from pathlib import Path

from calc import project as p
from tests.test_house import is_of_math

TOP = Path(__file__).parents[1]
SOURCES = {
    path.relative_to(TOP): ast.parse(path.read_text("utf-8"))
    for room in ("calc", "packet")
    for path in sorted((TOP / room).rglob("*.py"))
}
LAYOUT = ("packet/draw/", "packet/pages/")
"""Drawings and pages each have their own room between lines: numbers of paper, not of the trade."""

NOT_READ_YET = {"room_width_m", "room_depth_m"}
"""shop.room waits for the pressure of the room when air leaves it."""


def test_the_inch_of_water_stands_once() -> None:
    """NIST SP 811 (2008), appendix B.8: 249.0889 Pa."""
    places = [
        path
        for room in ("calc", "packet")
        for path in (TOP / room).rglob("*.py")
        for line in path.read_text("utf-8").splitlines()
        if "249.0889" in line
    ]
    assert places == [TOP / "calc" / "measures" / "kinds.py"]


def list_numbers(tree: ast.Module) -> dict[str, float]:
    """Return a module's own constants that are numbers, single ones and those of ``A, B = 1, 2``."""
    found: dict[str, float] = {}
    for node in tree.body:
        if not isinstance(node, ast.Assign | ast.AnnAssign) or node.value is None:
            continue
        for target in node.targets if isinstance(node, ast.Assign) else [node.target]:
            several = isinstance(target, ast.Tuple) and isinstance(node.value, ast.Tuple)
            pairs = zip(target.elts, node.value.elts, strict=True) if several else [(target, node.value)]
            for name, value in pairs:
                if isinstance(name, ast.Name) and isinstance(value, ast.Constant | ast.UnaryOp):
                    number = ast.literal_eval(value)
                    if isinstance(number, int | float) and not isinstance(number, bool):
                        found[name.id] = number
    return found


def test_no_name_has_two_values() -> None:
    said: dict[str, dict[str, float]] = defaultdict(dict)
    for path, tree in SOURCES.items():
        if path.name != "cli.py":  # exit statuses
            for name, number in list_numbers(tree).items():
                said[name][path.as_posix()] = number
    wrong = {}
    for name, places in said.items():
        trade = {path: number for path, number in places.items() if not path.startswith(LAYOUT)}
        if len(set(trade.values())) > 1:
            wrong[name] = trade
    assert wrong == {}


def list_types(kind: object) -> list[type]:
    """Return the dataclasses a type is made of, those inside its fields too."""
    if dataclasses.is_dataclass(kind) and isinstance(kind, type):
        hints = typing.get_type_hints(kind)
        return [kind, *(each for hint in hints.values() for each in list_types(hint))]
    return [each for part in typing.get_args(kind) for each in list_types(part)]


def test_every_field_of_a_project_is_read() -> None:
    fields = {field.name for kind in list_types(p.Project) for field in dataclasses.fields(kind)}
    read = {
        node.attr
        for path, tree in SOURCES.items()
        if path.as_posix() != "calc/project.py"
        for node in ast.walk(tree)
        if isinstance(node, ast.Attribute) and isinstance(node.ctx, ast.Load) and not is_of_math(node)
    }
    assert fields - read == NOT_READ_YET, "a key that is asked and used nowhere: use it, or take it out"

"""Every public function of the physics that gives a quantity is reached by a check against the outside, or is worked by
hand in a test."""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FOLDERS = ("airflow", "gauges", "measures", "record", "sizing", "strength")
PHYSICS = [
    path
    for folder in FOLDERS
    for path in sorted((ROOT / "calc" / folder).glob("*.py"))
    if path.stem not in ("rib_places", "rib_room")  # where wood stands, not how strong it is
]
QUANTITIES = ("float", "float | None", "Coefficient", "tuple[float, float]", "tuple[float, ...]", "tuple[Coefficient")

PICKED = {
    "first_diameter", "get_start", "get_end", "find_pickup_end", "find_main_size", "find_widest",
    "choose_screw", "choose_ring_screw", "find_blower_weight", "choose_inside_screw", "choose_plate_screw",
    "list_sizes",
    "find_lining_density", "find_baseline",
    "find_deck", "find_too_high", "get_ends", "find_pail_across", "find_tolerance", "to_reader", "from_reader",
    "round_up", "read_depression",
}  # fmt: skip
"""They pick a value out of those that stand in the file, the log or on the shelf; nothing is computed."""


def list_functions(module: Path) -> list[str]:
    """Return the public functions of a module of calc/ whose result is a number or a coefficient."""
    tree = ast.parse(module.read_text(encoding="utf-8"))
    return [
        node.name
        for node in tree.body
        if isinstance(node, ast.FunctionDef)
        and not node.name.startswith("_")
        and node.returns is not None
        and ast.unparse(node.returns).startswith(QUANTITIES)
    ]


def list_names(node: ast.AST) -> set[str]:
    """Return every name and attribute that stands in a piece of code."""
    return {each.id if isinstance(each, ast.Name) else each.attr for each in ast.walk(node)
            if isinstance(each, ast.Name | ast.Attribute)}  # fmt: skip


@cache
def list_held() -> frozenset[str]:
    """Return every name in a test that holds something against the outside or a sum by hand, and in what it calls."""
    shared = ast.parse((ROOT / "tests" / "outside" / "standard_air.py").read_text(encoding="utf-8")).body
    held: set[str] = set()
    calc = sorted((ROOT / "tests" / "calc").rglob("test_*.py"))
    for path in [*sorted((ROOT / "tests" / "outside").glob("test_*.py")), *calc]:
        tree = ast.parse(path.read_text(encoding="utf-8"))
        called = {node.name: list_names(node) for node in [*shared, *tree.body] if isinstance(node, ast.FunctionDef)}
        reached = {name for name, names in called.items() if names & {"hold_against", "approx"}}
        while more := {name for each in reached for name in called[each] if name in called} - reached:
            reached |= more
        held |= {name for each in reached for name in called[each]}
    inside = read_calls()
    while more := {name for each in held - WHOLE if each in inside for name in inside[each]} - held:
        held |= more
    return frozenset(held)


WHOLE = {"size_project", "settle_and_size", "settle_box", "make_job", "make_sizing", "find_remedies", "work_out",
         "check_strength", "System"}  # fmt: skip
"""What works out a whole shop: a check of its end result is no check of each step on the way."""


@cache
def read_calls() -> dict[str, set[str]]:
    """Return what each public function of the physics calls: a check of the one goes through the others."""
    found: dict[str, set[str]] = {}
    for path in PHYSICS:
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.FunctionDef):
                found.setdefault(node.name, set()).update(list_names(node))
            elif isinstance(node, ast.ClassDef):
                found[node.name] = list_names(node)
    return found


@pytest.mark.parametrize("module", PHYSICS, ids=lambda path: path.stem)
def test_every_quantity_has_a_check_against_the_outside(module: Path) -> None:
    assert not [name for name in list_functions(module) if name not in list_held() | PICKED]

"""Every public function of the physics that gives a quantity is named by at least one check against the outside."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PHYSICS = (
    "air", "balance", "blower", "curve", "ducts", "filters", "fittings", "gauge", "make_up_air", "network", "plates",
    "rating", "separator", "sound", "loading", "velocities", "structure", "handling", "sealing", "fasteners", "chains",
    "checks", "choices", "trend", "diagnosis", "takeoff", "quantity", "units", "gauge_design", "gauge_board", "stock",
)  # fmt: skip
QUANTITIES = ("float", "float | None", "Coefficient", "tuple[float, float]", "tuple[float, ...]", "tuple[Coefficient")

PICKED = {
    "first_diameter", "find_widest", "choose_screw", "list_sizes", "find_lining_density", "find_baseline",
    "find_too_high",
}  # fmt: skip
"""They pick a value out of those that stand in the file, the log or on the shelf; nothing is computed."""


def list_functions(module: str) -> list[str]:
    """Return the public functions of a module of calc/ whose result is a number or a coefficient."""
    (path,) = (ROOT / "calc").rglob(f"{module}.py")
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return [
        node.name
        for node in tree.body
        if isinstance(node, ast.FunctionDef)
        and not node.name.startswith("_")
        and node.returns is not None
        and ast.unparse(node.returns).startswith(QUANTITIES)
    ]


def list_named() -> set[str]:
    """Return every name that a check against the outside calls."""
    named: set[str] = set()
    for path in sorted((ROOT / "tests" / "outside").glob("test_*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Name):
                named.add(node.id)
            elif isinstance(node, ast.Attribute):
                named.add(node.attr)
    return named


@pytest.mark.parametrize("module", PHYSICS)
def test_every_quantity_has_a_check_against_the_outside(module: str) -> None:
    named = list_named()
    assert not [name for name in list_functions(module) if name not in named | PICKED]

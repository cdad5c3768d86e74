"""A port without a place, or a box without a size, never reaches what is drilled, drawn, bought or billed."""

from __future__ import annotations

import ast
from dataclasses import fields
from pathlib import Path

import pytest

from calc.box.box import settle_box
from calc.settled import PlacedInlet, PlacedPort, Settled, SizedBox
from tests.shop import make_project

ROOT = Path(__file__).parents[2]
TREES = {
    path: ast.parse(path.read_text(encoding="utf-8"))
    for folder in ("calc", "packet")
    for path in sorted((ROOT / folder).rglob("*.py"))
}
SETTLED = {"across_mm", "up_mm", "underside_mm", "width_mm", "depth_mm", "height_mm"}

TAKES_SETTLED = """
from pathlib import Path
from typing import Any
from calc.box.box import settle_box
from calc.box.ports import design_port
from calc.design import design_box, design_project
from calc.project import FilterBox, Port, Project
from calc.box.joints import measure_box
from calc.record.review import review_record
from calc.settled import SettledShop
from calc.sizing.sizing import size_project
from packet.draw.views.views import draw_views

def take_open(project: Project, box: FilterBox, port: Port, any_: Any) -> None:
    size_project(project)  # air asks for no place
    design_project(project, any_)  # refused
    design_box(project, 1.0, 1.0)  # refused
    design_port(project, port)  # refused
    measure_box(box)  # refused
    review_record(project, any_, any_, any_, "")  # refused
    draw_views(project, any_, any_, 1.0)  # refused
    size_project(settle_box(project))

def take_settled(project: SettledShop) -> float:
    size_project(project)
    return project.box.underside_mm + project.box.inlet.up_mm + project.ports[0].across_mm
"""


def test_the_type_checker_refuses_an_open_project(tmp_path: Path) -> None:
    run = pytest.importorskip("mypy.api").run
    code = tmp_path / "open_project.py"
    code.write_text(TAKES_SETTLED, encoding="utf-8")
    config = ["--config-file", str(ROOT / "pyproject.toml"), "--cache-dir", str(ROOT / ".mypy_cache")]
    told, wrong, _ = run([*config, "--follow-imports=silent", "--no-error-summary", str(code)])
    assert not wrong
    refused = {int(line.split(":")[1]) for line in told.splitlines() if "error" in line}
    assert refused == {at for at, line in enumerate(TAKES_SETTLED.splitlines(), start=1) if "# refused" in line}, told


def test_no_default_stands_in_for_a_place_or_a_size() -> None:
    """``port.across_mm or 0.0`` drills a port that nobody placed at its panel's corner."""
    assert not [
        f"{path.relative_to(ROOT)}:{node.lineno}"
        for path, tree in TREES.items()
        for node in ast.walk(tree)
        if isinstance(node, ast.BoolOp)
        and isinstance(node.op, ast.Or)
        and isinstance(node.values[0], ast.Attribute)
        and node.values[0].attr in SETTLED
        and isinstance(node.values[-1], ast.Constant)
    ]


def test_only_the_settling_makes_what_is_settled() -> None:
    names = {each.__name__ for each in (PlacedInlet, PlacedPort, SizedBox, Settled)}
    assert {
        path.relative_to(ROOT).as_posix()
        for path, tree in TREES.items()
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in names
    } == {"calc/settled.py"}


def test_nothing_settled_can_be_left_out() -> None:
    project = settle_box(make_project())
    for whole, names in (
        (project, ("box", "ports")),
        (project.box, ("width_mm", "depth_mm", "height_mm", "underside_mm", "inlet")),
        (project.box.inlet, ("across_mm", "up_mm")),
        (project.ports[0], ("across_mm", "up_mm")),
    ):
        values = {each.name: getattr(whole, each.name) for each in fields(whole)}
        assert all(values[name] is not None for name in names)
        for name in names:
            with pytest.raises(TypeError, match=name):
                type(whole)(**{key: value for key, value in values.items() if key != name})

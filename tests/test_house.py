"""The house rules that a machine can check."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest

TOP = Path(__file__).parent.parent
SOURCES = sorted([*TOP.glob("calc/**/*.py"), *TOP.glob("packet/**/*.py")])
CALC = [path for path in SOURCES if path.relative_to(TOP).parts[0] == "calc"]


@cache  # several rules ask for the same file
def list_imports(path: Path) -> set[str]:
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: imports are written in full"
            found.add(node.module or "")
    return found


@pytest.mark.parametrize("path", CALC, ids=lambda path: path.stem)
def test_calc_looks_at_nothing_above_it(path: Path) -> None:
    tops = {name.split(".")[0] for name in list_imports(path)}
    assert not tops & {
        "packet",
        "reportlab",
        "jinja2",
        "yaml",
        "pypdf",
        "ezdxf",
        "svgwrite",
        "pathlib",
        "os",
        "io",
        "time",
    }


@pytest.mark.parametrize("path", CALC, ids=lambda path: path.stem)
def test_calc_opens_and_prints_nothing(path: Path) -> None:
    calls = {
        node.func.id
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    }
    assert not calls & {"open", "print", "input"}


def test_test_libraries_stay_in_tests() -> None:
    for path in SOURCES:
        tops = {name.split(".")[0] for name in list_imports(path)}
        assert not tops & {"numpy", "scipy", "fluids", "psychrolib", "iapws", "hypothesis", "pytest"}, path


def test_no_module_is_a_drawer_of_leftovers() -> None:
    for path in SOURCES:
        assert not re.search(r"util|helpers|misc|common", path.stem), path


def test_no_address_stands_in_the_words() -> None:
    for path in [*SOURCES, *TOP.glob("templates/**/*.*")]:
        if path.suffix in {".py", ".md", ".txt", ".html", ".j2", ".css", ".js", ".yaml"}:
            text = path.read_text(encoding="utf-8")
            for address in re.findall(r"https?://[^\s\"')]+", text):
                assert re.match(r"http://www\.w3\.org/|https?://json-schema\.org/", address), f"{path}: {address}"


def test_version_stays_light() -> None:
    code = "import sys; from packet.cli.cli import main; main(['--version'])"
    tail = "; print(sorted(sys.modules))"
    wrapped = f"try:\n    {code}\nexcept SystemExit:\n    pass\nimport sys{tail}"
    done = subprocess.run([sys.executable, "-c", wrapped], capture_output=True, text=True, cwd=TOP, check=True)
    for heavy in ("pint", "reportlab", "jinja2", "ezdxf", "pypdf", "yaml"):
        assert f"'{heavy}'" not in done.stdout

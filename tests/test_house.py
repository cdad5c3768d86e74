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


ORDER = (
    "calc/measures", "calc/trade.py", "calc/project.py", "calc/settled.py", "calc/finding.py", "calc/guess.py",
    "calc/results.py", "calc/stock.py", "calc/shapes", "calc/airflow", "calc/sizing", "calc/box", "calc/strength",
    "calc/cutting", "calc/gauges", "calc/record", "calc/design.py", "calc/leaning.py", "packet/version.py",
    "packet/parts.py", "packet/words", "packet/fields", "packet/disk", "packet/reading", "packet/bill", "packet/work",
    "packet/draw", "packet/draw/backends", "packet/log", "packet/job.py", "packet/draw/views", "packet/draw/steps",
    "packet/files", "packet/pages/kit", "packet/pages/report", "packet/pages", "packet/build", "packet/api.py",
    "packet/desk", "packet/cli", "packet/__main__.py",
)  # fmt: skip
"""The rooms of the house: each may import only what stands before it, and itself."""

UNMAPPED = {"packet/version.py", "packet/__main__.py"}
"""One line each: the map does not tell them."""

MOST_MODULES, MOST_LINES, MOST_OUTSIDE = 24, 3600, 6


def find_room(path: Path) -> str:
    """Return the innermost room a module stands in, empty for the line of a package above all rooms."""
    name = path.relative_to(TOP).as_posix()
    return max((room for room in ORDER if name == room or name.startswith(f"{room}/")), key=len, default="")


@cache
def list_modules() -> dict[str, Path]:
    """Return every module by its dotted name."""
    names = {path: ".".join(path.relative_to(TOP).with_suffix("").parts).removesuffix(".__init__") for path in SOURCES}
    return {name: path for path, name in names.items()}


NAMED = re.compile(r"((?:calc|packet)(?:\.\w+)+)(?::\w+)?")
"""A module, or a function in it, that the code loads by its name."""


@cache
def list_house_imports(path: Path) -> frozenset[str]:
    """Return the modules of the house that a module imports, late, for types alone and by name in a text too."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and (named := NAMED.fullmatch(node.value)):
            found.add(named[1])
        elif isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            whole = [f"{node.module}.{alias.name}" for alias in node.names]
            found |= {name if name in list_modules() else node.module or "" for name in whole}
    return frozenset(found & set(list_modules()))


def list_wrong_ways(edges: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """Return the imports between rooms that go up the order."""
    return [(one, other) for one, other in edges if one and other and ORDER.index(other) > ORDER.index(one)]


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.relative_to(TOP).as_posix())
def test_a_room_imports_only_rooms_before_it(path: Path) -> None:
    room = find_room(path)
    assert room or path.name == "__init__.py", f"{path} stands in no room"
    targets = {name: find_room(list_modules()[name]) for name in list_house_imports(path)}
    wrong = {name for name, other in targets.items() if list_wrong_ways([(room, other)])}
    assert not wrong, (
        f"{room} stands before the rooms of {sorted(wrong)} in ORDER: move what is needed down, or hand it in"
    )


def list_mapped() -> list[str]:
    """Return the rooms of the map in DEVELOPERS.md, from top to bottom; names after the first stand in its folder."""
    told = (TOP / "DEVELOPERS.md").read_text(encoding="utf-8").split("## The map of the house")[1].split("\n## ")[0]
    found: list[str] = []
    for cell in re.findall(r"^\| (`[^|]+) \|", told, re.M):
        names = [name.rstrip("/") for name in re.findall(r"`([^`]+)`", cell)]
        folder = names[0].rpartition("/")[0]
        found += [name if "/" in name or (TOP / name).is_dir() else f"{folder}/{name}" for name in names]
    return found


def test_the_map_for_developers_is_the_house_in_its_order() -> None:
    rooms = [room for room in ORDER if (TOP / room).exists() and room not in UNMAPPED]
    mapped = [room for room in list_mapped() if room.split("/")[0] in ("calc", "packet")]
    assert mapped == rooms, "the map in DEVELOPERS.md tells the rooms of ORDER from the first to the last"


LOADS_BY_NAME = {"packet/build/outputs.py"}
"""Where modules are loaded by their whole names, written out, so that their order is seen here."""


def test_only_the_table_of_outputs_loads_modules_by_name() -> None:
    loads = {
        path.relative_to(TOP).as_posix()
        for path in SOURCES
        if re.search(r"import_module|__import__", path.read_text(encoding="utf-8"))
    }
    assert loads == LOADS_BY_NAME, "import the module: a name put together while it runs is not seen by these tests"


def test_each_function_that_is_loaded_by_name_is_there() -> None:
    for place in LOADS_BY_NAME:
        named = {
            node.value
            for node in ast.walk(ast.parse((TOP / place).read_text(encoding="utf-8")))
            if isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and NAMED.fullmatch(node.value)
            and ":" in node.value
        }
        assert len(named) > 5
        for name in named:
            module, _, function = name.partition(":")
            tree = ast.parse(list_modules()[module].read_text(encoding="utf-8"))
            assert function in {node.name for node in tree.body if isinstance(node, ast.FunctionDef)}, name


def test_a_wrong_way_is_seen() -> None:
    assert list_wrong_ways([("calc/shapes", "calc/box"), ("calc/box", "calc/shapes")]) == [("calc/shapes", "calc/box")]


def test_no_modules_import_each_other_in_a_circle() -> None:
    left = {
        name: {other for other in list_house_imports(path) if other != name} for name, path in list_modules().items()
    }
    while leaves := [name for name, imports in left.items() if not imports & set(left)]:
        for name in leaves:
            del left[name]
    assert not left, sorted(left)


def test_no_room_is_too_large_and_few_modules_stand_outside_rooms() -> None:
    rooms: dict[str, list[Path]] = {}
    for path in SOURCES:
        if (room := find_room(path)) and not room.endswith(".py"):
            rooms.setdefault(room, []).append(path)
    for room, paths in rooms.items():
        assert len([path for path in paths if path.name != "__init__.py"]) <= MOST_MODULES, room
        assert sum(len(path.read_text(encoding="utf-8").splitlines()) for path in paths) <= MOST_LINES, room
    assert len(list((TOP / "packet").glob("*.py"))) <= MOST_OUTSIDE


@pytest.mark.parametrize("path", CALC, ids=lambda path: path.stem)
def test_calc_uses_no_library_of_paper_files_or_clocks(path: Path) -> None:
    tops = {name.split(".")[0] for name in list_imports(path)}
    assert not tops & {
        "packet", "reportlab", "jinja2", "yaml", "pypdf", "ezdxf", "svgwrite", "pathlib", "os", "io", "time",
    }  # fmt: skip


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


def test_no_class_name_has_two_meanings() -> None:
    places: dict[str, list[str]] = {}
    for path in SOURCES:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ClassDef):
                places.setdefault(node.name, []).append(path.relative_to(TOP).as_posix())
    assert {name: paths for name, paths in places.items() if len(paths) > 1} == {}


TOLD = {
    "PanelStrength": {"weight_pa", "softer"},  # what the bow is worked out from; tests hold them against statics
    "Handling": {"cart_kg", "blower_kg"},  # the same, for tipping
    "Fitting": {"parameter", "conditions", "confidence"},  # where a coefficient holds and how its source was read
    "Pages": {"sections"},  # where each section stands, for who reads a finished packet back
    "FileStamp": {"changed"},  # compared whole
    "Shop": {"room_width_m", "room_depth_m"},  # wait for the pressure of the room: tests/test_one_place.py
}
"""Fields that no code reads by name, and why they stand."""


def is_of_math(node: ast.Attribute) -> bool:
    """Tell whether it is a function of math, as ``math.floor``, and no field of that name."""
    return isinstance(node.value, ast.Name) and node.value.id == "math"


def list_read_names() -> set[str]:
    """Return every attribute that the code or a template reads."""
    read = {
        node.attr
        for path in SOURCES
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Attribute) and isinstance(node.ctx, ast.Load) and not is_of_math(node)
    }
    for path in [*TOP.glob("templates/**/*.md"), *TOP.glob("templates/**/*.j2"), *TOP.glob("templates/**/*.html")]:
        text = path.read_text(encoding="utf-8")
        for code in re.findall(r"\{\{.*?\}\}|\{%.*?%\}|^when:[^\n]*", text, re.S | re.M):
            read |= set(re.findall(r"\w+", code))
    return read


def test_every_field_is_read() -> None:
    """By name, in code or in a template; the results of the sizing are written whole into sizing.json."""
    read = list_read_names()
    unread: dict[str, set[str]] = {}
    for path in SOURCES:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ClassDef) and any("dataclass" in ast.unparse(mark) for mark in node.decorator_list):
                fields = [
                    each.target
                    for each in node.body
                    if isinstance(each, ast.AnnAssign) and "KW_ONLY" not in ast.unparse(each)
                ]
                if path.name != "results.py" and (
                    left := {each.id for each in fields if isinstance(each, ast.Name)} - read
                ):
                    unread[node.name] = left
    assert unread == TOLD, "a field that nothing reads: use it, or take it out"


def test_long_constructors_say_the_names() -> None:
    """More than five fields: by keyword, so that two numbers cannot change places; leading columns
    of a table may stand bare.
    """
    classes = {
        node.name: node
        for path in SOURCES
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ClassDef) and any("dataclass" in ast.unparse(mark) for mark in node.decorator_list)
    }

    def list_bare(node: ast.ClassDef) -> list[str]:
        if any("kw_only=True" in ast.unparse(mark) for mark in node.decorator_list):
            return []
        bare: list[str] = []
        for each in node.body:
            if isinstance(each, ast.AnnAssign) and isinstance(each.target, ast.Name):
                if "KW_ONLY" in ast.unparse(each.annotation):
                    break
                bare.append(each.target.id)
        return bare

    assert {name: bare for name, node in classes.items() if len(bare := list_bare(node)) > 5} == {}

"""The table of fields holds together: every example and default in it reads, and the schema agrees with the reader."""

from __future__ import annotations

import datetime
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from packet.fields import PROJECT
from packet.fields import model as m
from packet.fields.schema import NAME, make_project_schema
from packet.reading.context import Reading, Where
from packet.reading.faults import Faults
from packet.reading.load import load_project
from packet.reading.nodes import Listing, Node, Table, compose_nodes
from packet.reading.tables import read_node
from packet.reading.text import decode_text
from tests.packet.hostile import SAMPLE_FILES

PROJECTS = Path(__file__).parents[3] / "projects"


def list_fields(what: m.What, path: str = "") -> Iterator[tuple[str, m.Key]]:
    match what:
        case m.Group():
            for known in what.fields:
                yield f"{path}.{known.key}".strip("."), known
                yield from list_fields(known.what, f"{path}.{known.key}".strip("."))
        case m.Variants():
            for name, group in what.cases.items():
                yield from list_fields(group, f"{path}.{name}")
        case m.ListOf() | m.MapOf():
            yield from list_fields(what.item, path)


FIELDS = dict(list_fields(PROJECT))


def read_text(what: m.What, text: str) -> tuple[Any, list[str]]:
    faults = Faults("example")
    faults.lines = (text,)
    reading = Reading(faults)
    value = read_node(what, compose_nodes(text, faults), Where("value", "value"), reading)
    return value, [str(problem) for problem in (*faults.problems, *faults.warnings)]


@pytest.mark.parametrize("path", FIELDS)
def test_every_example_reads_without_a_fault_or_a_doubt(path: str) -> None:
    known = FIELDS[path]
    assert known.example, "a field without an example"
    assert known.about.endswith((".", "?"))
    value, said = read_text(known.what, known.example)
    assert not said
    assert value is not None


@pytest.mark.parametrize("path", [path for path, known in FIELDS.items() if known.default])
def test_every_default_reads_without_a_fault_or_a_doubt(path: str) -> None:
    known = FIELDS[path]
    value, said = read_text(known.what, known.default or "")
    assert not said
    assert value is not None


@pytest.mark.parametrize("path", [path for path, known in FIELDS.items() if isinstance(known.what, m.Value)])
def test_usual_ranges_lie_inside_the_hard_limits_and_name_a_source(path: str) -> None:
    what = FIELDS[path].what
    assert isinstance(what, m.Value)
    if what.usual:
        assert what.source
        for end in what.usual:
            assert not read_text(what, end)[1]


def test_no_key_asks_for_a_required_value_and_has_a_default() -> None:
    assert not [path for path, known in FIELDS.items() if known.required and known.default is not None]


@pytest.mark.parametrize("path", SAMPLE_FILES, ids=lambda path: path.stem)
def test_samples_load_without_a_doubt_and_say_that_they_are_invented(path: Path) -> None:
    loaded = load_project(path)
    assert loaded.warnings == ()
    assert "invented" in loaded.project.title.title
    assert path.read_text(encoding="utf-8").startswith(f"# yaml-language-server: $schema={NAME}\n")


def read_as_editors_do(path: Path) -> Any:
    """Return plain data by YAML 1.2 words, as the editors' language server reads it."""

    def convert(node: Node) -> Any:
        if isinstance(node, Table):
            return {entry.key.value: convert(entry.value) for entry in node.entries}
        if isinstance(node, Listing):
            return [convert(item) for item in node.items]
        if node.plain and node.value in ("true", "false"):
            return node.value == "true"
        if node.plain and re.fullmatch(r"[-+]?\d+", node.value):
            return int(node.value)
        return float(node.value) if node.plain and re.fullmatch(r"[-+]?\d+\.\d*", node.value) else node.value

    faults = Faults(path.name)
    return convert(compose_nodes(decode_text(path.read_bytes(), faults), faults))


@pytest.mark.parametrize("path", SAMPLE_FILES, ids=lambda path: path.stem)
def test_samples_are_valid_by_the_schema(path: Path) -> None:
    """Checked by the general-purpose library jsonschema."""
    data = read_as_editors_do(path)
    jsonschema.Draft7Validator(make_project_schema()).validate(data)


def test_schema_is_itself_valid_and_refuses_an_unknown_key() -> None:
    schema = make_project_schema()
    jsonschema.Draft7Validator.check_schema(schema)
    data = read_as_editors_do(PROJECTS / "minimal.yaml")
    data["shop"]["cieling"] = "8 ft"
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.Draft7Validator(schema).validate(data)


def test_schema_in_projects_is_the_one_the_command_prints() -> None:
    same = json.loads((PROJECTS / NAME).read_text(encoding="utf-8")) == make_project_schema()
    assert same, f"write it anew: collector-packet schema project > projects/{NAME}"


def test_every_key_of_the_schema_has_hover_help() -> None:
    def walk(schema: Any) -> Iterator[tuple[str, Any]]:
        if isinstance(schema, dict):
            yield from schema.get("properties", {}).items()
            for part in schema.values():
                yield from walk(part)
        elif isinstance(schema, list):
            for part in schema:
                yield from walk(part)

    keys = list(walk(make_project_schema()))
    assert len(keys) > 150
    assert all(key[1]["description"] for key in keys)


def test_dates_are_dates() -> None:
    assert load_project(PROJECTS / "boatshed.yaml").project.title.date == datetime.date(2026, 3, 14)

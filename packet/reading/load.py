"""Load a project file: YAML in, the typed project out, or every fault of the file at once."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from calc.measures.quantity import Reader
from calc.project import Given
from packet.disk.held import NotPlain, open_plain
from packet.fields import PROJECT
from packet.reading.about import part_list, refuse_list
from packet.reading.context import Reading, Where
from packet.reading.cross_air import check_air
from packet.reading.cross_blower import check_blower
from packet.reading.cross_box import check_box
from packet.reading.faults import Faults
from packet.reading.make_project import make_project
from packet.reading.nodes import Node, Table, Text, compose_nodes
from packet.reading.parts import check_parts
from packet.reading.problem import BadProject, Problem, fold_key
from packet.reading.tables import read_group
from packet.reading.text import MOST_BYTES, decode_text
from packet.reading.values import Values

PROJECT_FILE = "a project file"


@dataclass(frozen=True, kw_only=True)
class Loaded:
    """echo: dotted path -> as typed; warnings: doubts in the reader's words; line_of: dotted path -> line.

    digest: first 12 hex characters of the SHA-256 of the file's bytes; doubts: the warnings with their places
    lines: source; keys: of the file's top, that it has
    """

    project: Given
    digest: str
    echo: Mapping[str, str]
    warnings: tuple[str, ...]
    line_of: Mapping[str, int]
    doubts: tuple[Problem, ...] = ()
    lines: tuple[str, ...] = ()
    keys: frozenset[str] = frozenset()


def load_project(path: Path | str) -> Loaded:
    """Return the project of a file. Raises BadProject with every fault of the file."""
    path = Path(path)
    return read_project(read_bytes(path), str(path))


def read_bytes(path: Path, wanted: str = PROJECT_FILE) -> bytes:
    """Return a file's bytes, no more than a project file can have. Raises BadProject with one clear line.

    A pipe or a device is refused, not waited for. wanted: what is expected, for the message
    """
    faults = Faults(str(path))
    try:
        if path.is_dir():
            faults.add(None, "", "this is a folder", expected=wanted, example="projects/boatshed.yaml")
        else:
            with open_plain(path) as stream:
                return stream.read(MOST_BYTES + 1)
    except NotPlain:
        faults.add(None, "", "this is not a plain file", expected=wanted)
    except FileNotFoundError:
        near = find_near_file(path)
        begin = "" if near or wanted != PROJECT_FILE else "to begin it: collector-packet new, with that name"
        faults.add(None, "", "there is no such file", nearest=near, mend=begin)
    except (OSError, ValueError) as error:
        faults.add(None, "", f"the file cannot be read ({getattr(error, 'strerror', None) or error})")
    faults.stop_if_any()
    raise AssertionError("unreachable")


def find_near_file(path: Path) -> str:
    """Return the project file in the same folder with the nearest name."""
    from packet.reading.problem import find_nearest

    try:
        names = [found.name for found in path.parent.iterdir() if found.suffix in (".yaml", ".yml")]
    except OSError:
        return ""
    near = find_nearest(path.name, names)
    return str(path.with_name(near)) if near else ""


def read_project(data: bytes, file: str) -> Loaded:
    """Return the project in a file's bytes; file is its name for messages. Raises BadProject."""
    faults = Faults(file)
    root = compose_nodes(decode_text(data, faults), faults)
    if not isinstance(root, Table):
        found = "the file holds a list" if not isinstance(root, Text) else "the file holds one line of text"
        faults.add(root.place, "", found, expected="lines of key: value", example="packet: 1")
        faults.stop_if_any()
    reading = Reading(faults, find_reader(root))
    assert isinstance(root, Table)
    if isinstance(money := find_value(root, "money"), Text) and not money.is_empty:
        reading.money = money.value.strip()
    root, guesses = part_list(root)
    values = read_group(PROJECT, root, Where(), reading)
    assert isinstance(values, Values)
    check_air(values, reading)
    check_blower(values, reading)
    check_box(values, reading)
    if guesses:
        refuse_list(guesses, reading)
    check_parts(values)
    faults.stop_if_any()
    project = make_project(values, reading)
    doubts = tuple(sorted(faults.warnings, key=lambda doubt: (doubt.line, doubt.column)))
    return Loaded(
        project=project,
        digest=hashlib.sha256(data).hexdigest()[:12],
        echo=MappingProxyType(reading.echo),
        warnings=tuple(write_warning(doubt) for doubt in doubts),
        line_of=MappingProxyType(reading.line_of),
        doubts=doubts,
        lines=faults.lines,
        keys=frozenset(values.places),
    )


def find_reader(root: Node) -> Reader:
    """Return who reads, before anything else is read, so that messages come in the right units."""
    display = find_value(root, "display")
    system = find_value(display, "system") if isinstance(display, Table) else display  # display: metric is short for it
    metric = isinstance(system, Text) and system.value.strip().lower() in ("metric", "mm")
    return Reader("metric" if metric else "inch")


def find_value(node: Node | None, key: str) -> Node | None:
    """Return what a table says behind a key, if anything."""
    entries = node.entries if isinstance(node, Table) else ()
    return next((entry.value for entry in entries if fold_key(entry.key.value) == key), None)


def write_warning(doubt: Problem) -> str:
    """Return a doubt as a sentence for the packet: line, path, what."""
    where = f"line {doubt.line}, {doubt.path}" if doubt.path else f"line {doubt.line}"
    return f"{where}: {doubt.found}"


__all__ = ["BadProject", "Loaded", "load_project", "read_project"]

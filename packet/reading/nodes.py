"""Text to a tree of nodes with their places. Every scalar stays text: no word turns into a number, date or boolean."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import yaml

from packet.reading.faults import Faults
from packet.reading.problem import Place, quote_found
from packet.reading.syntax import explain_syntax
from packet.reading.text import CONTROL

LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
MOST_NODES, MOST_ALIASES, DEEPEST = 30_000, 200, 24
CUT_BY_COMMENT = re.compile(r"\s+#(?=[^\s#])")


@dataclass(frozen=True)
class Text:
    """A scalar as typed. plain: without quotes."""

    value: str
    place: Place
    plain: bool = True
    size: int = 1

    @property
    def is_empty(self) -> bool:
        """True for ``key:`` with nothing behind it, and for ``~`` and ``null``."""
        return self.plain and self.value.strip() in ("", "~", "null", "Null", "NULL")


@dataclass(frozen=True)
class Listing:
    items: tuple[Node, ...]
    place: Place
    size: int


@dataclass(frozen=True)
class NodeEntry:
    key: Text
    value: Node


@dataclass(frozen=True)
class Table:
    entries: tuple[NodeEntry, ...]
    place: Place
    size: int


Node = Text | Listing | Table


@dataclass
class Building:
    """A list or table whose end has not been reached."""

    is_table: bool
    place: Place
    anchor: str | None
    children: list[Node] = field(default_factory=list)


def compose_nodes(text: str, faults: Faults) -> Node:
    """Return the tree of a YAML text. Raises BadProject for bad syntax, two documents, too much or too deep."""
    composer = Composer(faults)
    try:
        for event in yaml.parse(text, Loader=LOADER):
            composer.take(event)
    except yaml.YAMLError as error:
        explain_syntax(error, faults)
    faults.stop_if_any()
    if composer.root is None:
        faults.add(
            None, "", "the file is empty", expected="a project", mend="start one: collector-packet new my-shop.yaml"
        )
        faults.stop_if_any()
        raise AssertionError("unreachable")
    return composer.root


class Composer:
    """Builds nodes from parser events with a stack of its own, so that depth cannot exhaust Python's."""

    def __init__(self, faults: Faults) -> None:
        self.faults = faults
        self.root: Node | None = None
        self.open: list[Building] = []
        self.anchors: dict[str, Node] = {}
        self.nodes = 0
        self.aliases = 0

    def take(self, event: yaml.Event) -> None:
        """Take the parser's next event. Raises BadProject at once where going on would cost too much."""
        match event:
            case yaml.ScalarEvent():
                self.finish(self.make_text(event), event.anchor)
            case yaml.MappingStartEvent() | yaml.SequenceStartEvent():
                self.check_tag(event)
                is_table = isinstance(event, yaml.MappingStartEvent)
                self.open.append(Building(is_table, place_of(event), event.anchor))
                if len(self.open) > DEEPEST:
                    self.refuse(event, f"nested more than {DEEPEST} deep", mend="a project needs no more than eight")
            case yaml.MappingEndEvent() | yaml.SequenceEndEvent():
                self.close()
            case yaml.AliasEvent():
                self.take_alias(event)
            case yaml.DocumentStartEvent() if self.root is not None:
                self.refuse(
                    event, "a second document starts here", mend="keep one project in a file; delete the line ---"
                )

    def refuse(self, event: yaml.Event, found: str, *, mend: str) -> None:
        self.faults.add(place_of(event), "", found, mend=mend)
        self.faults.stop_if_any()

    def check_tag(self, event: Any) -> None:
        if event.tag not in (None, "!"):
            self.faults.add(
                place_of(event),
                "",
                f"the tag {quote_found(event.tag)} is not used in a project file",
                mend="put a value that starts with ! in single quotes, or delete the tag",
            )

    def make_text(self, event: Any) -> Text:
        self.check_tag(event)
        place = place_of(event)
        if odd := CONTROL.search(event.value):
            self.faults.add(place, "", f"control character U+{ord(odd.group()):04X} in a text", mend="delete it")
        plain = not event.style
        if plain:
            self.warn_of_comment(event)
        return Text(event.value.replace("\t", " "), place, plain)

    def warn_of_comment(self, event: Any) -> None:
        """Warn where `` #10 screws`` was cut off as a comment although it looks like text."""
        line, column = event.end_mark.line, event.end_mark.column
        rest = self.faults.lines[line][column:] if line < len(self.faults.lines) else ""
        if event.value and (cut := CUT_BY_COMMENT.match(rest)):
            self.faults.warn(
                Place(line + 1, column + cut.end(), len(rest.strip())),
                "",
                f"text after # is dropped: {quote_found(rest.strip())}",
                mend="if it belongs to the value, put the whole value in single quotes",
            )

    def take_alias(self, event: yaml.AliasEvent) -> None:
        self.aliases += 1
        node = self.anchors.get(event.anchor or "")
        if self.aliases > MOST_ALIASES:
            self.refuse(event, f"more than {MOST_ALIASES} references with *", mend="write the values out")
        if node is None:
            self.refuse(
                event,
                f"'*{event.anchor}' refers to nothing that is complete above it",
                mend="put a value that starts with * in single quotes",
            )
            raise AssertionError("unreachable")
        self.finish(node, None, place_of(event))

    def close(self) -> None:
        built = self.open.pop()
        children = built.children
        size = 1 + sum(child.size for child in children)
        if not built.is_table:
            self.finish(Listing(tuple(children), built.place, size), built.anchor)
            return
        entries = tuple(self.pair_up(children))
        self.finish(Table(entries, built.place, size), built.anchor)

    def pair_up(self, children: list[Node]) -> Iterator[NodeEntry]:
        """Yield keys with values; a key given twice is a fault that names both lines; ``<<`` brings in a table."""
        first: dict[str, Place] = {}
        merged: list[NodeEntry] = []
        for key, value in zip(children[::2], children[1::2], strict=True):
            if not isinstance(key, Text):
                self.faults.add(key.place, "", "a key must be a word", mend="write key: value")
            elif key.value == "<<" and key.plain:
                merged += self.take_merge(value)
            elif key.value in first:
                line = first[key.value].line
                self.faults.add(
                    key.place,
                    "",
                    f"the key {quote_found(key.value)} stands twice: line {line} and line {key.place.line}",
                    mend="keep one of them",
                )
            else:
                first[key.value] = key.place
                yield NodeEntry(key, value)
        for entry in merged:
            if entry.key.value not in first:
                first[entry.key.value] = entry.key.place
                yield entry

    def take_merge(self, value: Node) -> list[NodeEntry]:
        tables = value.items if isinstance(value, Listing) else (value,)
        entries: list[NodeEntry] = []
        for table in tables:
            if isinstance(table, Table):
                entries += table.entries
            else:
                self.faults.add(table.place, "", "'<<' needs a table to bring in", mend="write <<: *name_of_a_table")
        return entries

    def finish(self, node: Node, anchor: str | None, place: Place | None = None) -> None:
        """Hand a finished node to what is open, or make it the root."""
        self.nodes += node.size if place else 1
        if self.nodes > MOST_NODES:
            self.faults.add(
                place or node.place, "", f"more than {MOST_NODES:,} values", mend="is this the project file?"
            )
            self.faults.stop_if_any()
        if anchor:
            self.anchors[anchor] = node
        if self.open:
            self.open[-1].children.append(node)
        else:
            self.root = node


def place_of(event: Any) -> Place:
    """Return where an event starts, from 1."""
    start, end = event.start_mark, event.end_mark
    width = end.column - start.column if end.line == start.line else 1
    return Place(start.line + 1, start.column + 1, max(1, width))

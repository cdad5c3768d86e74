"""The word ``about`` before a value: nobody measured it yet. The only place where the owner tells a guess.

It may stand before any value but a text of the user's own (a machine may be called *about face*), also in lists, pairs
and on both sides of ``at`` and ``x``. What it stands before is named by its dotted path in `Reading.assumed`.
"""

from __future__ import annotations

import re
from dataclasses import replace

from packet.fields import model as m
from packet.reading.context import Reading, Where
from packet.reading.nodes import Listing, Node, NodeEntry, Table, Text
from packet.reading.problem import fold_key

LIST_KEY = "assumed"
"""The list of guesses that files of an earlier kind had at their end."""
BEFORE = re.compile(r"about\s+(?=\S)", re.IGNORECASE)
INSIDE = re.compile(r"(?<=\s|@|x)about\s+(?=\S)", re.IGNORECASE)
WHOLE_LIST = re.compile(r"about\s*\[(?P<items>.*)\]", re.IGNORECASE)
ITEM = re.compile(r"(?:\[\d+\])+$")
MEASURED = m.Value | m.ValueAt | m.TwoLengths | m.Number | m.Ratio


def take_about(what: m.What, node: Text, where: Where, reading: Reading) -> Text:
    """Return a value without its ``about``, and note what it stands before."""
    if isinstance(what, m.OwnText):
        return node
    reading.scalars[where.known] = (what, node)
    rest = BEFORE.sub("", node.value, count=1) if BEFORE.match(node.value) else node.value
    if isinstance(what, m.ValueAt | m.TwoLengths):
        rest = INSIDE.sub("", rest)
    if rest == node.value:
        return node
    note_guess(where, reading)
    return replace(node, value=rest)


def note_guess(where: Where, reading: Reading) -> None:
    """Note a value nobody measured; of a list or a pair the whole of it."""
    path = ITEM.sub("", where.known)
    if path not in reading.assumed:
        reading.assumed.append(path)


def refuse_about_list(node: Node, where: Where, reading: Reading) -> bool:
    """Note an ``about`` before the brackets of a list; tell whether there was one."""
    found = WHOLE_LIST.fullmatch(node.value.strip()) if isinstance(node, Text) and node.plain else None
    if found is None:
        return False
    items = ", ".join(f"about {item.strip()}" for item in found["items"].split(","))
    reading.fault(
        node, where, "'about' stands before a whole list", expected="it before each value", mend=f"write [{items}]"
    )
    return True


def part_list(root: Table) -> tuple[Table, NodeEntry | None]:
    """Return the file without its list of guesses, and that list."""
    entry = next((entry for entry in root.entries if fold_key(entry.key.value) == LIST_KEY), None)
    rest = tuple(one for one in root.entries if one is not entry)
    return (replace(root, entries=rest), entry) if entry else (root, None)


def refuse_list(entry: NodeEntry, reading: Reading) -> None:
    """Note the list of guesses once, with the lines to write in its place. Call it when the whole file is read."""
    value = entry.value
    items = value.items if isinstance(value, Listing) else (value,)
    paths = [" ".join(item.value.split()) for item in items if isinstance(item, Text) and not item.is_empty]
    marked = [node for known, (what, node) in reading.scalars.items() if is_listed(known, what, paths)]
    lines = write_marked(marked, reading.faults.lines)
    reading.faults.add(
        entry.key.place,
        LIST_KEY,
        "a list of guesses is not read any more: 'about' before a value marks it as not measured",
        mend="delete the list, and write these lines instead:" if lines else "delete the list",
        lines=lines,
    )


def is_listed(known: str, what: m.What, paths: list[str]) -> bool:
    """Tell whether a value is one of some paths, or a measure that belongs to one."""
    if known in paths:
        return True
    return isinstance(what, MEASURED) and any(known.startswith((f"{path}.", f"{path}[")) for path in paths)


def write_marked(nodes: list[Text], source: tuple[str, ...]) -> tuple[str, ...]:
    """Return the lines of a file that hold some values, with ``about`` before each, behind their numbers."""
    places = {(node.place.line, node.place.column + (not node.plain)) for node in nodes if not BEFORE.match(node.value)}
    lines: dict[int, str] = {}
    for line, column in sorted(places, reverse=True):
        text = lines.get(line, source[line - 1])
        lines[line] = f"{text[: column - 1]}about {text[column - 1 :]}"
    return tuple(f"line {line}: {lines[line].strip()}" for line in sorted(lines))

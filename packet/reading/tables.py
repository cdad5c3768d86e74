"""Tables and lists to values, by the table of fields: unknown keys, missing keys, empty values, defaults."""

from __future__ import annotations

import re
from collections.abc import Collection
from itertools import pairwise
from typing import Any

from packet.fields import model as m
from packet.reading.about import refuse_about_list, take_about
from packet.reading.context import OpenTable, Reading, Where
from packet.reading.nodes import Listing, Node, NodeEntry, Table, Text
from packet.reading.problem import Place, find_nearest, fold_key, list_words, quote_found
from packet.reading.scalars import read_scalar
from packet.reading.values import Items, NamedValues, Values

BANDS = (31, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16000)
SPLIT = re.compile(r"\d{1,15},\d+\s*[^\s\d,.].*")
WORDS_FOR = {m.Group: "key: value", m.Variants: "key: value", m.MapOf: "name: value", m.ListOf: "a list in brackets"}


def read_node(what: m.What, node: Node, where: Where, reading: Reading) -> Any:
    """Return the value of a node, or None after noting what is wrong with it."""
    reading.note(where, node)
    match what:
        case m.Group():
            return read_group(what, node, where, reading)
        case m.Variants():
            return read_variant(what, node, where, reading)
        case m.ListOf():
            return read_list(what, node, where, reading)
        case m.MapOf():
            return read_map(what, node, where, reading)
        case m.Pair():
            return read_pair(what, node, where, reading)
    if not isinstance(node, Text):
        reading.fault(
            node,
            where,
            f"a {'list' if isinstance(node, Listing) else 'table'} where one value is due",
            expected="one value",
            mend="write the value behind the colon",
        )
        return None
    reading.echo[where.known] = node.value
    return read_scalar(what, take_about(what, node, where, reading), where, reading)


def refuse_shape(what: m.What, node: Node, where: Where, reading: Reading, keys: tuple[str, ...] = ()) -> None:
    """Note that the value has the wrong shape."""
    found = "a list" if isinstance(node, Listing) else "a table" if isinstance(node, Table) else quote_found(node.value)
    words = getattr(what, "words", ())
    expected = WORDS_FOR[type(what)] + (f"; keys: {list_words(keys, 40)}" if keys else "")
    expected = f"{list_words(words)}, or {expected}" if words else expected
    if isinstance(node, Text) and (line := add_colon(node.value, keys)):
        reading.fault(node, where, f"{found} has no colon behind its key", mend=f"write '{line}'")
        return
    reading.fault(node, where, f"{found} where {WORDS_FOR[type(what)]} is due", expected=expected)


def add_colon(text: str, keys: Collection[str]) -> str:
    """Return a line such as ``ceiling 8 ft`` or ``ceiling:8 ft`` with its colon, where it begins with a key."""
    found = re.fullmatch(r"(\w+)\s*:?\s*(\S.*)", text.strip())
    return f"{found[1]}: {found[2]}" if found and found[1] != text.strip() and fold_key(found[1]) in keys else ""


def read_group(what: m.Group, node: Node, where: Where, reading: Reading) -> Values | str | None:
    if isinstance(node, Text) and what.words and node.value.strip().lower().replace("_", " ") in what.words:
        return node.value.strip().lower().replace("_", " ")
    if what.short and not isinstance(node, Table):
        return read_short(what, node, where, reading)
    if not isinstance(node, Table):
        refuse_shape(what, node, where, reading, what.keys)
        return None
    values = Values(where=where, place=node.place, group=what, reading=reading)
    fields = {known.key: known for known in what.fields}
    reading.above.append(OpenTable(where, node.place, what.keys))
    for entry in node.entries:
        key = find_key(entry.key.value, fields)
        if key in values.places:
            refuse_twice(entry.key, values, key)
        elif key not in fields:
            refuse_key(entry, what, values)
        elif isinstance(entry.value, Text) and entry.value.is_empty:
            values.places[key] = entry.key.place
            note_empty(fields[key], entry.key, where, reading)
        else:
            values.places[key] = entry.value.place
            values.items[key] = read_node(fields[key].what, entry.value, where.key(key), reading)
    reading.above.pop()
    fill_missing(what, values, reading)
    return values


def find_key(word: str, known: Collection[str]) -> str:
    """Return the key a word stands for, whatever its capitals; the word itself where it stands for none."""
    return word if word in known or fold_key(word) not in known else fold_key(word)


def refuse_twice(key: Text, values: Values, known: str) -> None:
    """Note a key that stands a second time in other capitals."""
    found = f"the key {quote_found(key.value)} stands twice: line {values.places[known].line} and line {key.place.line}"
    values.reading.fault(key, values.where, found, mend="keep one of them")


def read_short(what: m.Group, node: Node, where: Where, reading: Reading) -> Values:
    """Read a bare value as the table's short key."""
    known = next(known for known in what.fields if known.key == what.short)
    values = Values(where=where, place=node.place, group=what, reading=reading, places={known.key: node.place})
    values.items[known.key] = read_node(known.what, node, where.key(known.key), reading)
    fill_missing(what, values, reading)
    return values


def refuse_key(entry: NodeEntry, what: m.Group, values: Values) -> None:
    key, where, reading = entry.key, values.where, values.reading
    if key.value[:1].isdigit() and isinstance(entry.value, Text) and entry.value.is_empty:
        mend = "write a number without commas: 1200 cfm, 12.5 in"
        reading.fault(key, where, f"{quote_found(key.value)} stands alone behind a comma", mend=mend)
        return
    if mend := explain_indent(key, what, values):
        reading.fault(key, where, f"{quote_found(key.value)} is not a key here", mend=mend)
        return
    nearest = find_nearest(key.value, what.keys)
    expected = f"one of: {list_words(what.keys, 40)}" if not nearest else ""
    reading.fault(key, where, f"{quote_found(key.value)} is not a key here", expected=expected, nearest=nearest)


def explain_indent(key: Text, what: m.Group, values: Values) -> str:
    """Return how a key that belongs to the table round this one, or to the one above it, is put in its place."""
    folded, place = fold_key(key.value), key.place
    for outer in reversed(values.reading.above[:-1]):
        spaces = place.column - outer.place.column
        if folded in outer.keys and place.line > values.place.line and spaces > 0:
            name = f"'{outer.where.path}'" if outer.where.path else "the file itself"
            return f"it is one of {name}: begin it {count_spaces(spaces)} further left, in column {outer.place.column}"
    last = next(reversed(values.places), "")
    inner = next((known.what for known in what.fields if known.key == last), None)
    if isinstance(inner, m.Group) and folded in inner.keys and place.line > values.places[last].line:
        column = values.places[last].column
        spaces = column - place.column
        if spaces == 0 and values.items.get(last) is None:  # nothing stands behind that key's colon
            return f"it is one of '{last}': begin it two spaces further right"
        if spaces > 0:
            return f"it is one of '{last}': begin it {count_spaces(spaces)} further right, in column {column}"
    return ""


def count_spaces(number: int) -> str:
    return "one space" if number == 1 else f"{number} spaces"


def note_empty(known: m.Key, key: Text, where: Where, reading: Reading) -> None:
    reading.fault(
        key,
        where.key(known.key),
        "no value behind the colon",
        expected=known.about.rstrip(".").lower(),
        example=f"{known.key}: {known.example}",
        mend="fill it in, or delete the key",
    )


def fill_missing(what: m.Group, values: Values, reading: Reading) -> None:
    """Fill defaults; note missing required keys; note which defaults are assumptions."""
    for known in what.fields:
        if known.key in values.places:
            continue
        if known.required:
            example = f"{known.key}: {known.example}"
            reading.fault(
                values.place,
                values.where,
                f"the key '{known.key}' is missing",
                example=example,
                mend=f"add it: {known.about}",
            )
        elif known.default is not None:
            values.items[known.key] = read_default(known, reading)
            if known.assume:
                reading.assumed.append(values.where.key(known.key).known)


def read_default(known: m.Key, reading: Reading) -> Any:
    """Return a default, read as if it had been typed."""
    if known.default == "":
        return ""
    node: Node = Text(known.default or "", Place(0, 0), plain=False)
    apart = Reading(reading.faults, reading.reader)
    return read_node(known.what, node, Where(known.key, known.key), apart)


def default_group(what: m.Group, where: Where, reading: Reading) -> Values:
    """Return a group as if the file had given it empty; used for sections that are left out."""
    values = Values(where=where, place=Place(0, 0), group=what, reading=reading)
    fill_missing(what, values, reading)
    return values


def read_variant(what: m.Variants, node: Node, where: Where, reading: Reading) -> Values | str | None:
    if isinstance(node, Text) and (word := node.value.strip().lower()) in what.words:
        return word
    names = tuple(what.cases)
    if not isinstance(node, Table):
        refuse_shape(what, node, where, reading, names)
        return None
    keys = [find_key(entry.key.value, names) for entry in node.entries]
    cases = [key for key in keys if key in what.cases]
    if len(cases) > 1 and all(key in what.cases[cases[0]].keys for key in cases):
        cases = cases[:1]
    if len(cases) != 1:
        found = f"this {what.what} is two at once: {' and '.join(cases)}" if cases else f"this {what.what} has no kind"
        nearest = next((near for key in keys if not cases and (near := find_nearest(key, names))), "")
        reading.fault(node, where, found, expected=f"one of the keys {list_words(names)}", nearest=nearest)
        return None
    values = read_group(what.cases[cases[0]], node, where, reading)
    if isinstance(values, Values):
        values.variant = cases[0]
    return values


def read_list(what: m.ListOf, node: Node, where: Where, reading: Reading) -> Items | None:
    if refuse_about_list(node, where, reading):
        return None
    if isinstance(node, Listing) and refuse_split(node, where, reading):
        return None
    if isinstance(node, Listing):
        items = node.items
    elif what.single and (isinstance(node, Text) or isinstance(what.item, m.Group | m.Variants)):
        items = (node,)
    else:
        refuse_shape(what, node, where, reading)
        return None
    if not what.fewest <= len(items) <= what.most:
        reading.fault(node, where, f"a list of {len(items):,}", expected=f"{what.fewest} to {what.most} of them")
        if len(items) > what.most:
            return None
    values = Items(len(items))
    for number, item in enumerate(items):
        inner = where.item(number, find_name(item)) if isinstance(node, Listing) else where
        if isinstance(item, Text) and item.is_empty:
            reading.fault(item, inner, "an empty item in a list", mend="fill it in, or delete the dash")
            continue
        value = read_node(what.item, item, inner, reading)
        if value is not None:
            values.take(value, item.place)
    return values


def refuse_split(node: Listing, where: Where, reading: Reading) -> bool:
    """Note a number that a comma inside brackets has parted in two: ``[1,250 cfm, 10 inH2O]``; tell whether."""
    for first, second in pairwise(node.items):
        if not isinstance(first, Text) or not isinstance(second, Text) or not first.plain or not second.plain:
            continue
        touching = second.place.column == first.place.column + len(first.value) + 1
        number = f"{first.value},{second.value}"
        if not touching or first.place.line != second.place.line or not SPLIT.fullmatch(number):
            continue
        thousand = re.match(r"\d{3}(?!\d)", second.value) and not first.value.startswith("0")
        whole, decimal = f"'{first.value}{second.value}'", f"'{first.value}.{second.value}'"
        mend = f"write {whole} or {decimal}" if thousand else f"write {decimal}"
        found = f"the comma in {quote_found(number)} parts it in two values inside brackets"
        reading.fault(first, where, found, mend=mend)
        return True
    return False


def find_name(node: Node) -> str | None:
    """Return the name a table gives itself."""
    if isinstance(node, Table):
        for entry in node.entries:
            if fold_key(entry.key.value) == "name" and isinstance(entry.value, Text):
                return " ".join(entry.value.value.split())
    return None


def read_map(what: m.MapOf, node: Node, where: Where, reading: Reading) -> NamedValues | None:
    if not isinstance(node, Table):
        refuse_shape(what, node, where, reading)
        return None
    if not what.fewest <= len(node.entries) <= what.most:
        reading.fault(
            node, where, f"a table of {len(node.entries):,}", expected=f"{what.fewest} to {what.most} of them"
        )
        if len(node.entries) > what.most:
            return None
    values = NamedValues(where, node.place, reading)
    for entry in node.entries:
        name: Any = (
            read_band(entry.key, where, reading) if what.keys == "bands" else read_map_name(entry.key, where, reading)
        )
        if name is None:
            continue
        values.places[name] = entry.key.place
        inner = where.key(str(name))
        if isinstance(entry.value, Text) and entry.value.is_empty:
            reading.fault(entry.key, inner, "no value behind the colon", mend="fill it in, or delete the line")
            continue
        values.items[name] = read_node(what.item, entry.value, inner, reading)
    if what.keys == "bands":
        values.items = dict(sorted(values.items.items()))
    return values


def read_map_name(key: Text, where: Where, reading: Reading) -> str | None:
    name = " ".join(key.value.split())
    if not name or len(name) > 80:
        reading.fault(key, where, "a name of no or too many characters", expected="a name of 1 to 80 characters")
        return None
    return name


def read_band(key: Text, where: Where, reading: Reading) -> int | None:
    word = key.value.lower().removesuffix("hz").strip()
    if word == "31.5":
        word = "31"
    if word.isascii() and word.isdigit() and int(word) in BANDS:
        return int(word)
    reading.fault(
        key, where, f"{quote_found(key.value)} is not an octave band", expected=list_words([str(b) for b in BANDS])
    )
    return None


def read_pair(what: m.Pair, node: Node, where: Where, reading: Reading) -> tuple[float, float] | None:
    if isinstance(node, Listing) and refuse_split(node, where, reading):
        return None
    if not isinstance(node, Listing) or len(node.items) != 2:
        reading.fault(
            node,
            where,
            "not a pair of values",
            expected="[flow, pressure] in brackets",
            example="[800 cfm, 10.0 inH2O]",
        )
        return None
    first = read_node(what.first, node.items[0], where.item(0), reading)
    second = read_node(what.second, node.items[1], where.item(1), reading)
    return None if first is None or second is None else (first, second)

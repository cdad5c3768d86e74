"""Slips of the pen in a project file: a key left out, left empty, or at the ends of what it may be.

A sample is taken apart into plain data, changed at one place and written again as YAML that any reader takes (JSON).
"""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from packet.fields import PROJECT
from packet.fields import model as m
from packet.reading.faults import Faults
from packet.reading.nodes import Listing, Node, Table, compose_nodes
from packet.reading.text import decode_text

Place = tuple[str | int, ...]
RIVALS = (
    {"curve", "rating"},
    {"loss", "coefficient"},
    {"permeability", "loss"},
    {"diameter", "width"},
    {"diameter", "height"},
    {"hood", "pickups"},
)
"""Keys of one table of which only one may be given."""
LARGE = 1e5
"""A number of the user's own without a sensible end (prices, counts on hand) is tried up to here."""


def read_plain(path: Path) -> Any:
    """Return a project file as tables, lists and texts."""

    def convert(node: Node) -> Any:
        if isinstance(node, Table):
            return {entry.key.value: convert(entry.value) for entry in node.entries}
        if isinstance(node, Listing):
            return [convert(item) for item in node.items]
        return node.value

    faults = Faults(path.name)
    return convert(compose_nodes(decode_text(path.read_bytes(), faults), faults))


def write_plain(data: Any) -> str:
    return json.dumps(data, ensure_ascii=False, indent=1)


def list_tables(what: m.What, data: Any, place: Place = (), general: str = "") -> Iterator[tuple[Place, str, m.Group]]:
    """Yield every table with known keys: its place, its path without names and numbers, and its fields."""
    match what:
        case m.Group() if isinstance(data, dict):
            yield place, general, what
            for known in what.fields:
                if known.key in data:
                    inner = f"{general}.{known.key}".strip(".")
                    yield from list_tables(known.what, data[known.key], (*place, known.key), inner)
        case m.Variants() if isinstance(data, dict):
            case = next((name for name in what.cases if name in data), None)
            if case:
                yield from list_tables(what.cases[case], data, place, f"{general}<{case}>")
        case m.ListOf() if isinstance(data, list):
            for number, item in enumerate(data):
                yield from list_tables(what.item, item, (*place, number), general)
        case m.ListOf():
            yield from list_tables(what.item, data, place, general)
        case m.MapOf() if isinstance(data, dict):
            for name, item in data.items():
                yield from list_tables(what.item, item, (*place, name), general)


def change(data: Any, place: Place, value: Any = None, *, drop: bool = False) -> Any:
    """Return the data with another value at a place, or without it."""
    whole = copy.deepcopy(data)
    inner = whole
    for step in place[:-1]:
        inner = inner[step]
    if drop:
        del inner[place[-1]]
        return whole
    inner[place[-1]] = value
    if isinstance(inner, dict):
        for rivals in RIVALS:
            if place[-1] in rivals:
                for rival in rivals - {place[-1]}:
                    inner.pop(rival, None)
    return whole


def list_given(data: Any) -> Iterator[tuple[str, Place]]:
    """Yield the place of every key, list item and table of a file, each with its path without names and numbers."""
    for place, general, _ in list_tables(PROJECT, data):
        inner = data
        for step in place:
            inner = inner[step]
        if place and isinstance(place[-1], int):
            yield f"{general}[]", place
        for key in inner:
            yield f"{general}.{key}".strip("."), (*place, key)


def list_slips(data: Any) -> Iterator[tuple[str, str]]:
    """Yield a name and a file for each key or item left out, and for each left empty, the first of its kind."""
    seen = set()
    for general, place in list_given(data):
        if general in seen:
            continue
        seen.add(general)
        yield f"{general} left out", write_plain(change(data, place, drop=True))
        now = data
        for step in place:
            now = now[step]
        empty: Any = [] if isinstance(now, list) else {} if isinstance(now, dict) else ""
        yield f"{general} empty", write_plain(change(data, place, empty))
        if not isinstance(now, list):
            yield f"{general} an empty list", write_plain(change(data, place, []))


def list_ends(what: m.What) -> list[str]:
    """Return the least and the greatest that a value may be, as typed."""
    match what:
        case m.Value():
            return [end for end in (what.least, what.most) if end]
        case m.ValueAt():
            return [f"{one} at {at}" for one in list_ends(what.amount) for at in list_ends(what.at)]
        case m.TwoLengths():
            return [f"{one} x {other}" for one in (what.least, what.most) for other in (what.least, what.most)]
        case m.Number():
            return [
                f"{end:.0f} {what.unit}".strip() if what.whole else f"{end:.10f} {what.unit}".strip()
                for end in (what.least, min(what.most, LARGE))
            ]
        case m.Ratio():
            return [f"1:{1 / what.least:g}", f"1:{1 / what.most:g}"]
        case m.InchFraction():
            return ["1/2", "1/64"]
        case m.PrintedLength():
            return [f"{100 * what.least:g} %", f"{100 * what.most:g} %"]
        case m.Choice():
            return list(what.options)
        case m.YesNo():
            return ["yes", "no"]
        case m.OwnText():
            return ["x", "x" * what.longest] if not what.of else []
        case m.Day():
            return ["1000-01-01", "9999-12-31"]
    return []


def list_extremes(data: Any) -> Iterator[tuple[str, str]]:
    """Yield a name and a file for each key of the table of fields at each end of what it may be."""
    seen = set()
    for place, general, group in list_tables(PROJECT, data):
        for known in group.fields:
            path = f"{general}.{known.key}".strip(".")
            if path in seen:
                continue
            seen.add(path)
            what, fewest = known.what, 0
            if isinstance(what, m.ListOf):
                what, fewest = what.item, max(what.fewest, 1)
            if isinstance(what, m.Group) and what.short:
                what = next(inner.what for inner in what.fields if inner.key == what.short)
            for end in list_ends(what):
                yield (
                    f"{path} {end[:60]}",
                    write_plain(change(data, (*place, known.key), [end] * fewest if fewest else end)),
                )

"""Every key of the table of fields reaches the project, and a new key takes one row and one field."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest

from calc import project as p
from packet.fields import PROJECT
from packet.fields import model as m
from packet.fields.making import METHODS
from packet.reading.context import Reading, Where
from packet.reading.faults import Faults
from packet.reading.fill import fill, find_unit, name_fields
from packet.reading.make_project import make_project
from packet.reading.nodes import compose_nodes
from packet.reading.tables import read_group
from packet.reading.values import Values

Tree = dict[str, Any]


def read_values(what: m.Group, text: str) -> tuple[Values, Reading]:
    """Return what a text says; what must agree between keys is not asked."""
    faults = Faults("full.yaml")
    reading = Reading(faults)
    values = read_group(what, compose_nodes(text, faults), Where(), reading)
    assert [str(problem) for problem in faults.problems] == []
    assert isinstance(values, Values)
    return values, reading


# --- a file that says everything --------------------------------------------------------------------------------------


def make_tree(what: m.What, example: str = "") -> Any:
    """Return plain data that says all keys of a table, a leaf by its example; a list of pieces has one of each."""
    match what:
        case m.Group():
            return {one.key: make_tree(one.what, one.example) for one in what.fields}
        case m.Variants():
            return [make_tree(group) for group in what.cases.values()]
        case m.ListOf(item=m.Variants()):
            return make_tree(what.item)
        case m.ListOf(item=m.Group()):
            return [make_tree(what.item)]
        case m.MapOf(item=m.Group()):
            return {"one": make_tree(what.item)}
    return example


def write_tree(tree: Any) -> str:
    if isinstance(tree, dict):
        return "{" + ", ".join(f"{key}: {write_tree(value)}" for key, value in tree.items()) + "}"
    return "[" + ", ".join(write_tree(value) for value in tree) + "]" if isinstance(tree, list) else str(tree)


# --- a second legal value of each leaf --------------------------------------------------------------------------------


def list_others(what: m.What) -> Iterator[str]:
    """Yield legal values that a key can have: two of them at least, so that one is not its example."""
    match what:
        case m.Value():
            yield from (end for end in (what.most, what.least, *(what.usual or ())) if end)
        case m.ValueAt():
            yield from (f"{one} at {at}" for one in list_others(what.amount) for at in list_others(what.at))
        case m.Pair():
            yield from (f"[{one}, {other}]" for one in list_others(what.first) for other in list_others(what.second))
        case m.TwoLengths():
            yield from (f"{what.most} x {what.most}", f"{what.least_second or what.least} x {what.most}")
        case m.Number():
            yield from (f"{number:g} {what.unit}".strip() for number in (what.most, what.least))
        case m.Ratio():
            yield from ("1:3", "1:7")
        case m.InchFraction():
            yield from ("1/16", "1/8")
        case m.PrintedLength():
            yield from ("99 %", "98 %")
        case m.OwnText():
            yield from ("other"[: what.longest], "else"[: what.longest])
        case m.Choice():
            yield from what.options
        case m.YesNo():
            yield from ("yes", "no")
        case m.Day():
            yield from ("2027-01-02", "2027-02-03")
        case m.ListOf():
            yield from (f"[{', '.join([one] * max(what.fewest, 1))}]" for one in list_others(what.item))
        case m.MapOf():
            name = "500" if what.keys == "bands" else "a thing"
            yield from (f"{{{name}: {one}}}" for one in list_others(what.item))


def list_leaves(what: m.What, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], m.Key]]:
    """Yield every key that holds a value, not a table, by its path; a piece's or a join's kind is part of the path."""
    match what:
        case m.Group():
            for known in what.fields:
                inner = known.what.item if isinstance(known.what, m.ListOf | m.MapOf) else known.what
                if isinstance(inner, m.Group | m.Variants):
                    yield from list_leaves(inner, (*path, known.key))
                else:
                    yield (*path, known.key), known
        case m.Variants():
            for kind, group in what.cases.items():
                yield from list_leaves(group, (*path, kind))


LEAVES = {".".join(path): (path, known) for path, known in list_leaves(PROJECT)}
ASKED_ONLY = {"packet", "blower.rating.assume_curve", "filter_box.side"}
"""The version of the file, a yes without which the file is refused, and a side of the blower that alone is built."""
INSTEAD = {
    "blower.curve": ("blower.rating",),
    "machines.hood": ("machines.pickups",),
    "shop.make_up_opening.diameter": ("shop.make_up_opening.size",),
    "shop.make_up_opening.area": ("shop.make_up_opening.size", "shop.make_up_opening.diameter"),
    "display.paper": ("display.sheet",),
    "closure": ("ports.closure",),
    "panel": ("filter_box",),
}
"""Keys by their path, and those that go before them when both are said."""


def drop(tree: Tree, path: str) -> None:
    *above, last = path.split(".")
    for key in above:
        tree = tree[key][0] if isinstance(tree[key], list) else tree[key]
    del tree[last]


def put(tree: Any, path: tuple[str, ...], value: str) -> None:
    """Set the leaf at a path, in the one item of a list or the one of its kind."""
    key, *rest = path
    if isinstance(tree, list):
        kinds = [one for one in tree if key in one and (len(tree) > 1 or rest[:1] == [key])]
        put(kinds[0], tuple(rest), value) if kinds else put(tree[0], path, value)
    elif key not in tree and "one" in tree:
        put(tree["one"], path, value)
    elif rest:
        put(tree[key], tuple(rest), value)
    else:
        tree[key] = value


def choose_joins(tree: Any, kind: str) -> None:
    """Leave one of the two joins wherever the file says how a duct enters."""
    for key, value in tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ():
        if key in ("join", "pickups_join"):
            tree[key] = next(one for one in value if kind in one)
        else:
            choose_joins(value, kind)


@cache
def read_project(path: str, value: str) -> p.Project:
    """Return the project of the full file, made without what goes before a key, and with another value at it."""
    tree = make_tree(PROJECT)
    for over in [over for one, overs in INSTEAD.items() if f"{path}.".startswith(f"{one}.") for over in overs]:
        drop(tree, over)
    if value:
        put(tree, LEAVES[path][0], value)
    choose_joins(tree, "tee" if "join.tee" in path else "wye")
    return make_project(*read_values(PROJECT, write_tree(tree)))


def find_full(path: str) -> str:
    """Return the path by which the full file that a key belongs to is known, so that it is read once."""
    return next((one for one in INSTEAD if f"{path}.".startswith(f"{one}.")), "join.tee" if "join.tee" in path else "")


@pytest.mark.parametrize("path", sorted(LEAVES.keys() - ASKED_ONLY))
def test_every_key_reaches_a_field_of_the_project(path: str) -> None:
    """Another legal value at the key makes another project."""
    known = LEAVES[path][1]
    other = next(value for value in list_others(known.what) if value != known.example)
    assert read_project(path, other) != read_project(find_full(path), "")


def test_the_walk_finds_all_keys_of_the_table() -> None:
    """As many rows as have a value of their own, counted by another walk."""

    def count(what: object) -> int:
        if isinstance(what, m.Key):
            inner = getattr(what.what, "item", what.what)
            return count(inner) if isinstance(inner, m.Group | m.Variants) else 1
        if isinstance(what, m.Group):
            return sum(map(count, what.fields))
        return sum(map(count, what.cases.values())) if isinstance(what, m.Variants) else 0

    assert len(LEAVES) == count(PROJECT) > 150


# --- a new key is one row and one field -------------------------------------------------------------------------------


ROW = m.Key(
    key="apron",
    what=m.Value("length_mm", "1 in", "6 ft"),
    about="Width of the shop apron.",
    example="30 in",
    default="28 in",
)


def test_a_new_key_is_one_row_and_one_field(monkeypatch: pytest.MonkeyPatch) -> None:
    """25.4 mm to the inch is exact (NIST SP 811, 2008, appendix B.8)."""
    wider = dataclasses.make_dataclass(
        "Methods", [("apron_mm", float, dataclasses.field(default=0.0))], bases=(p.Methods,), frozen=True
    )
    section = dataclasses.replace(METHODS, fields=(*METHODS.fields, ROW))
    table = dataclasses.replace(
        PROJECT,
        fields=tuple(
            dataclasses.replace(one, what=section) if one.key == "shop_methods" else one for one in PROJECT.fields
        ),
    )
    monkeypatch.setattr(p, "Methods", wider)
    tree = make_tree(table)
    choose_joins(tree, "wye")
    said = make_project(*read_values(table, write_tree(tree)))
    assert getattr(said.methods, "apron_mm", None) == pytest.approx(30 * 25.4)
    del tree["shop_methods"]["apron"]
    unsaid = make_project(*read_values(table, write_tree(tree)))
    assert getattr(unsaid.methods, "apron_mm", None) == pytest.approx(28 * 25.4)


def test_a_row_without_a_field_is_our_fault_and_told_at_once() -> None:
    values, _ = read_values(dataclasses.replace(METHODS, fields=(*METHODS.fields, ROW)), "{helper: yes}")
    with pytest.raises(TypeError, match="the key 'apron' reaches no field: apron"):
        fill(p.Methods, values)


def test_an_amount_read_in_mm_never_lands_in_a_field_of_metres() -> None:
    with pytest.raises(TypeError, match="reaches no field"):
        name_fields(ROW, {"apron_m"})
    assert name_fields(ROW, {"apron_mm", "apron_m"}) == ("apron_mm",)


def test_what_the_file_does_not_say_is_left_to_the_dataclass() -> None:
    values, _ = read_values(m.Group((m.Key(key="pieces", what=m.OwnText(9), about="Not said.", example="x"),)), "{}")
    assert fill(p.Pickup, values, name="port", hood=p.Hood(kind="plain", diameter_m=0.1)).pieces == ()


UNITS = {"mm", "m", "m2", "m3s", "ms", "pa", "k", "deg", "w", "kg", "kgs", "db"}
"""Units that end the names of fields. Shares, densities, hours a day and speeds of a wheel have none."""
WORKED = {"shop.room"}
"""Worked out in another unit on the way: typed as a size in mm, kept in m as the air of a room is reckoned."""


@pytest.mark.parametrize("path", sorted(path for path in LEAVES.keys() - WORKED if LEAVES[path][1].into))
def test_a_row_that_names_its_field_names_one_in_the_unit_it_reads(path: str) -> None:
    known = LEAVES[path][1]
    endings = {name.rpartition("_")[2] for name in known.into or ()} & UNITS
    assert not find_unit(known.what) or not endings or endings == {find_unit(known.what)}

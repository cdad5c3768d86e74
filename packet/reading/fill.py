"""A table of the file to the dataclass it stands for: each key to its field, by its name or by its row."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import astuple, fields, replace
from types import MappingProxyType
from typing import Any, TypeVar

from packet.fields import model as m
from packet.reading.scalars import AtValue, SizeValue
from packet.reading.values import NamedValues, Values

Made = TypeVar("Made")


def fill(kind: type[Made], values: Values, **worked: Any) -> Made:
    """Return the dataclass of what a table says. worked: fields whose value is not simply that of a key.

    What the file does not say is left to the dataclass's own default. Raises TypeError for a key that reaches no field:
    its row in the table of fields and the dataclass do not agree.
    """
    return kind(**list_filled(kind, values, worked))


def change(made: Made, values: Values) -> Made:
    """Return the dataclass with what the file itself says in place of its own; the table's defaults are not taken."""
    said = replace(values, items={key: values[key] for key in values.places})
    return replace(made, **list_filled(type(made), said, {}))  # type: ignore[type-var]


def list_filled(kind: type, values: Values, worked: dict[str, Any]) -> dict[str, Any]:
    """Return the values by field, the worked ones as they are."""
    known_fields = {field.name for field in fields(kind)}
    filled = dict(worked)
    for known in values.group.fields:
        names, value = name_fields(known, known_fields), values[known.key]
        if value is not None and not worked.keys() >= set(names):
            filled |= dict(zip(names, part_value(value, len(names)), strict=True)) | worked
    return filled


def name_fields(known: m.Key, known_fields: Collection[str]) -> tuple[str, ...]:
    """Return the fields a key goes into: those its row names, else the one called as the key, its unit behind it.

    The unit is the one the row reads in, so that an inch read in mm cannot end in a field of metres.
    """
    with_unit = f"{known.key}_{find_unit(known.what)}"
    names = known.into if known.into is not None else (with_unit if with_unit in known_fields else known.key,)
    if lacking := [name for name in names if name not in known_fields]:
        raise TypeError(f"the key '{known.key}' reaches no field: {', '.join(lacking)}")
    return names


def find_unit(what: m.What) -> str:
    """Return the unit of a key's value as it ends the name of a field: ``mm``, ``m3s``; or nothing."""
    match what:
        case m.Value():
            return what.kind.rpartition("_")[2]
        case m.ListOf() | m.MapOf():
            return find_unit(what.item)
        case m.TwoLengths():
            return "mm"
    return ""


def part_value(value: Any, count: int) -> tuple[Any, ...]:
    """Return what goes into each of the fields of one key, in their order."""
    if count == 1:
        return (freeze(value),)
    match value:
        case AtValue() | SizeValue():
            return astuple(value)
        case Values():
            return tuple(value[key] for key in value.group.keys)
        case list():
            return tuple(value)
    raise TypeError(f"{value!r} for {count} fields")


def freeze(value: Any) -> Any:
    """Return the value as a frozen dataclass holds it. Raises TypeError for a table: that wants a dataclass."""
    match value:
        case SizeValue():
            return astuple(value)
        case NamedValues():
            return MappingProxyType(dict(value.items))
        case Values() | [Values(), *_]:
            raise TypeError("a table where one value is due: work it out")
        case list():
            return tuple(value)
    return value

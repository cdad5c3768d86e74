"""The JSON Schema of the project file, made from the table of fields, for completion and hover help in editors."""

from __future__ import annotations

from typing import Any

from calc.measures.quantity import Kind
from packet.fields import PROJECT
from packet.fields import model as m
from packet.fields.airway import HOOD, JOIN, PIECE
from packet.fields.box import CLOSURE
from packet.version import VERSION

Schema = dict[str, Any]
SHARED: dict[str, m.What] = {"piece": PIECE, "join": JOIN, "hood": HOOD, "closure": CLOSURE}  # said once, referred to
DRAFT = "http://json-schema.org/draft-07/schema#"
NAME = "project.schema.json"
PLAIN_NUMBER = r"^(about )?\d[\d.,]*$"


def make_project_schema() -> Schema:
    """Return the schema (draft-07, which editors know best) of a project file."""
    return {
        "$schema": DRAFT,
        "title": "collector-packet project file",
        "description": f"Made by collector-packet {VERSION}: collector-packet schema project",
        **make_schema(PROJECT),
        "definitions": {name: make_schema(what) for name, what in SHARED.items()},
    }


def make_answers_schema() -> Schema:
    """Return the schema of an answers file for ``new --answers``."""
    from packet.fields.questions import make_answers_group

    return {
        "$schema": DRAFT,
        "title": "answers for collector-packet new",
        "description": f"Made by collector-packet {VERSION}. Every key may be left out: it is then assumed.",
        **make_schema(make_answers_group()),
    }


def make_schema(what: m.What) -> Schema:
    """Return the schema of one kind of field."""
    match what:
        case m.Group():
            return make_group_schema(what)
        case m.Variants():
            cases: list[Schema] = [make_group_schema(group) for group in what.cases.values()]
            return {"anyOf": [*make_word_schema(what.words), *cases]}
        case m.ListOf():
            item = refer_to(what.item)
            listing = {"type": "array", "items": item, "minItems": what.fewest, "maxItems": what.most}
            return {"anyOf": [listing, item]} if what.single else listing
        case m.MapOf():
            return {"type": "object", "additionalProperties": make_schema(what.item), "maxProperties": what.most}
        case m.Pair():
            pair = [make_schema(what.first), make_schema(what.second)]
            return {"type": "array", "items": pair, "minItems": 2, "maxItems": 2}
    return make_scalar_schema(what)


def refer_to(what: m.What) -> Schema:
    """Return a reference for what several keys share, else its schema."""
    name = next((name for name, shared in SHARED.items() if shared is what), None)
    return {"$ref": f"#/definitions/{name}"} if name else make_schema(what)


def make_group_schema(what: m.Group) -> Schema:
    table: Schema = {
        "type": "object",
        "properties": {known.key: describe_field(known) for known in what.fields},
        "additionalProperties": False,
    }
    if required := [known.key for known in what.fields if known.required]:
        table["required"] = required
    others = make_word_schema(what.words)
    if what.short:
        others.append(make_schema(next(known.what for known in what.fields if known.key == what.short)))
    return {"anyOf": [table, *others]} if others else table


def make_word_schema(words: tuple[str, ...]) -> list[Schema]:
    return [{"type": "string", "enum": list(words)}] if words else []


def describe_field(known: m.Key) -> Schema:
    """Return a key's schema with its hover help: what it is, example, default, usual range."""
    about = [known.about]
    if known.example:
        about.append(f"Example: {known.key}: {known.example}")
    if known.default:
        about.append(f"Not given: {known.default}{' (noted as assumed)' if known.assume else ''}")
    if limits := describe_limits(known.what):
        about.append(limits)
    schema = refer_to(known.what)
    if "$ref" in schema:  # editors ignore what stands beside a reference
        schema = {"allOf": [schema]}
    schema = {"description": "\n".join(about), **schema}
    if known.default and isinstance(known.what, m.Choice):
        schema["default"] = known.default
    if isinstance(known.what, m.Value | m.ValueAt | m.TwoLengths | m.OwnText | m.Ratio | m.Day):
        schema["examples"] = [known.example] if known.example else []
    return schema


def describe_limits(what: m.What) -> str:
    """Return the range of a field as words."""
    if isinstance(what, m.ValueAt):
        return describe_limits(what.amount)
    if isinstance(what, m.Number):
        return f"From {what.least:g} to {what.most:g}."
    if isinstance(what, m.TwoLengths):
        return f"From {what.least} x {what.least_second or what.least} to {what.most} x {what.most}."
    if not isinstance(what, m.Value):
        return ""
    ends = [f"from {what.least}" if what.least else "", f"to {what.most}" if what.most else ""]
    said = " ".join(end for end in ends if end).capitalize()
    usual = f"; usual {what.usual[0]} to {what.usual[1]} ({what.source})" if what.usual else ""
    return f"{said}{usual}. Units: {', '.join(list_units(what.kind))}."


def list_units(kind: Kind) -> list[str]:
    from calc.measures.quantity import list_spellings

    return list(list_spellings(kind))[:8]


def guessed(schema: Schema) -> Schema:
    """Return the schema of words that may have ``about`` before them."""
    return {"anyOf": [schema, {"type": "string", "pattern": "^about "}]}


def make_scalar_schema(what: m.What) -> Schema:
    match what:
        case m.Choice():
            words = [*what.options, *(other for other, _ in what.means)]
            return guessed({"enum": [True, False, *words]} if "yes" in words else {"type": "string", "enum": words})
        case m.YesNo():
            return guessed({"enum": [True, False, "yes", "no"]})
        case m.Number() if what.money:
            return {"type": ["number", "string"], "minimum": what.least, "maximum": what.most, "pattern": r"\d"}
        case m.Number() if what.unit:
            return {"type": "string", "pattern": rf"^(about )?[0-9.,eE+]+ *{what.unit}$"}
        case m.Number():
            kind = "integer" if what.whole else "number"
            return {"type": [kind, "string"], "minimum": what.least, "maximum": what.most, "pattern": PLAIN_NUMBER}
        case m.Day():
            return {"type": "string", "pattern": r"\d{4}"}
        case m.InchFraction():
            return {"type": "string", "enum": [f"1/{2**power}" for power in range(1, 7)]}
        case m.PrintedLength():
            return {"type": "string", "pattern": r"\d.*(%|mm|cm|in|\")"}
        case m.Ratio():
            return {"type": "string", "pattern": r"^(about )?\d+(\.\d+)? *(:|/|in|to) *\d+(\.\d+)?$|%"}
        case m.TwoLengths():
            return {"type": "string", "pattern": r"\d.* *(x|by) *.*\d"}
        case m.ValueAt():
            return {"type": "string", "pattern": r"\d.*( at |@).*\d"}
        case m.OwnText():
            return {"type": ["string", "number", "boolean"], "maxLength": what.longest}
    return {"type": "string", "pattern": "[0-9¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]"}

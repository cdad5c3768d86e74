"""The sizing as JSON, for programs: SI numbers, the unit in the key or beside the value; and its JSON Schema."""

from __future__ import annotations

import dataclasses
import json
import types
import typing
from collections.abc import Mapping
from enum import Enum
from typing import Any, Literal, Union, get_args, get_origin

from calc.finding import Amount, Finding, Said
from calc.measures.kinds import Reader
from calc.results import Considered, Sizing
from packet.job import AirJob
from packet.words.say import say

VERSION = 1

# Unit beside an amount, by its kind.
UNITS: Mapping[str, str] = {
    "length_mm": "mm", "length_m": "m", "area_m2": "m2", "volume_m3": "m3", "flow_m3s": "m3/s", "speed_ms": "m/s",
    "face_speed_ms": "m/s", "pressure_pa": "Pa", "barometer_pa": "Pa", "draught_pa": "Pa",
    "temperature_k": "K", "temperature_rise_k": "K", "angle_deg": "deg",
    "power_w": "W", "mass_kg": "kg", "mass_rate_kgs": "kg/s", "density_kgm3": "kg/m3", "areal_mass_kgm2": "kg/m2",
    "time_s": "s", "time_h": "h", "sound_db": "dB", "frequency_hz": "Hz", "rotation_hz": "1/s", "force_n": "N",
    "stress_pa": "Pa", "share": "1", "ratio": "1", "count": "1", "sone": "sone", "money": "1",
}  # fmt: skip

# Fields whose name in Python does not carry the unit: key in the file.
KEYS: Mapping[tuple[str, str], str] = {
    ("MachineFlow", "flow"): "flow_m3s",
    ("DuctFlow", "flow"): "flow_m3s",
    ("DuctFlow", "speed"): "speed_ms",
    ("Scenario", "flow"): "flow_m3s",
    ("Scenario", "reading"): "reading_pa",
    ("BlowerPoint", "crossings"): "crossings_m3s",
    ("BlowerPoint", "shaft_power"): "shaft_power_w",
    ("Filters", "clean_loss"): "clean_loss_pa",
    ("Filters", "cake_resistance"): "cake_resistance_per_s",
    ("LoadPoint", "hours"): "time_h",
    ("CleanMe", "areal"): "areal_band_kgm2",
    ("CleanMe", "rise"): "rise_pa",
    ("CleanMe", "hours_first"): "first_h",
    ("CleanMe", "hours_later"): "later_h",
    ("Catching", "hours"): "until_emptied_h",
    ("FilterChoice", "hours"): "between_cleanings_h",
    ("Sound", "hours_a_day"): "a_day_h",
    ("Sound", "together"): "together_db",
    ("Sound", "box"): "box_db",
    ("Sound", "lining"): "lining_db",
    ("Sound", "quieter"): "quieter_db",
    ("Sound", "past_below"): "past_below_db",
}
DIGITS = 10


def make_document(job: AirJob) -> dict[str, Any]:
    """Return the whole document: whose it is, then the sizing, with the findings of the design too."""
    sizing = {name: encode(getattr(job.sizing, name), job.reader) for name in _list_sizing()}
    sizing["findings"] = encode(job.findings, job.reader)
    title = job.project.title
    return {
        "sizing_version": VERSION,
        "program_version": job.version,
        "project": {"title": title.title, "revision": title.revision, "digest": job.digest},
        "verdict": job.verdict.value,
        "sizing": sizing,
    }


def write_sizing_json(job: AirJob) -> str:
    """Return the document as JSON text, keys in a fixed order. Raises ValueError for a number that is not finite."""
    return json.dumps(make_document(job), indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def encode(value: Any, reader: Reader) -> Any:
    """Return a result as plain JSON values: sentences in the reader's units, numbers in SI."""
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, float):
        return float(f"{value:.{DIGITS}g}")
    if isinstance(value, (str, int, bool)) or value is None:
        return value
    if isinstance(value, Said):
        return say(value, reader)
    if isinstance(value, Amount):
        return {"value": encode(value.value, reader), "unit": UNITS[value.kind]}
    if isinstance(value, (tuple, list)):
        return [encode(item, reader) for item in value]
    if isinstance(value, Mapping):
        return {str(key): encode(value[key], reader) for key in value}
    if dataclasses.is_dataclass(value):
        name = type(value).__name__
        return {
            KEYS.get((name, field.name), field.name): encode(getattr(value, field.name), reader)
            for field in dataclasses.fields(value)
        }
    raise TypeError(f"no JSON form for {type(value).__name__}")


# --- the schema -------------------------------------------------------------------------------------------------------


def make_schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of the document, made from the types of the results."""
    definitions: dict[str, Any] = {}
    sizing = _describe(Sizing, definitions)
    project = {"title": {"type": "string"}, "revision": {"type": "string"}, "digest": {"type": "string"}}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Sizing of a dust collector",
        "description": "SI numbers; the unit is the end of the key (flow_m3s, loss_pa, diameter_m) or stands beside "
        "the value. A band is low, best and high over the spread of published coefficients.",
        **_make_object(
            {
                "sizing_version": {"const": VERSION},
                "program_version": {"type": "string"},
                "project": _make_object(project),
                "verdict": {"enum": ["fits", "tight", "does not fit"]},
                "sizing": sizing,
            }
        ),
        "$defs": definitions,
    }


def write_schema() -> str:
    """Return the JSON Schema of sizing.json as text."""
    return json.dumps(make_schema(), indent=2) + "\n"


def _make_object(properties: dict[str, Any]) -> dict[str, Any]:
    return {
        "type": "object",
        "properties": properties,
        "required": list(properties),
        "additionalProperties": False,
    }


def _describe(kind: Any, definitions: dict[str, Any]) -> dict[str, Any]:
    """Return the schema of a type of the results, adding the dataclasses it meets to the definitions."""
    origin = get_origin(kind)
    if origin is Literal:
        return {"enum": list(get_args(kind))}
    if origin is tuple:
        return {"type": "array", "items": _describe(get_args(kind)[0], definitions)}
    if origin in (Union, types.UnionType):
        return {"anyOf": [_describe(part, definitions) for part in get_args(kind)]}
    if kind is Said:
        return {"type": "string"}
    if kind is Amount:
        units = sorted(set(UNITS.values()))
        return _make_object({"value": {"type": "number"}, "unit": {"enum": units}})
    plain = {str: "string", int: "integer", bool: "boolean", float: "number", type(None): "null"}
    if kind in plain:
        return {"type": plain[kind]}
    if isinstance(kind, type) and issubclass(kind, Enum):
        return {"enum": [member.value for member in kind]}
    if dataclasses.is_dataclass(kind) and isinstance(kind, type):
        return _describe_dataclass(kind, definitions)
    raise TypeError(f"no schema for {kind}")


def _list_sizing() -> dict[str, Any]:
    """Return what of the sizing stands in the file, with its type; what is worked out late stands among the rest."""
    first, later = typing.get_type_hints(Sizing), typing.get_type_hints(Considered)
    del first["consider"], first["judged"]
    untried = later.pop("untried")
    return {**first, **later, "findings": tuple[Finding, ...], "untried": untried}


def _describe_dataclass(kind: type, definitions: dict[str, Any]) -> dict[str, Any]:
    name = kind.__name__
    if name not in definitions:
        definitions[name] = {}
        hints = _list_sizing() if kind is Sizing else typing.get_type_hints(kind)
        fields = tuple(hints) if kind is Sizing else tuple(field.name for field in dataclasses.fields(kind))
        properties = {KEYS.get((name, f), f): _describe(hints[f], definitions) for f in fields}
        about = (kind.__doc__ or "").strip().split("\n")[0]
        definitions[name] = {"description": about, **_make_object(properties)}
    return {"$ref": f"#/$defs/{name}"}


SCHEMA: Mapping[str, Any] = make_schema()

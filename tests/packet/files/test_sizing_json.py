"""sizing.json: holds to its published schema, SI in the keys, same text every time."""

from __future__ import annotations

import copy
import json

import jsonschema
import pytest

from packet.files.sizing_json import SCHEMA, UNITS, make_document, make_schema, write_schema, write_sizing_json
from tests.shop import load_job

UNIT_ENDS = (
    "_m3s",
    "_ms",
    "_pa",
    "_m",
    "_mm",
    "_m2",
    "_m3",
    "_kg",
    "_kgs",
    "_kgm2",
    "_kgm3",
    "_w",
    "_h",
    "_db",
    "_hz",
    "_pas",
    "_per_s",
)


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_it_holds_to_its_schema(name: str) -> None:
    jsonschema.Draft202012Validator.check_schema(json.loads(write_schema()))
    jsonschema.Draft202012Validator(json.loads(write_schema())).validate(json.loads(write_sizing_json(load_job(name))))


@pytest.mark.parametrize(
    "spoil",
    [
        lambda d: d["sizing"].pop("scenarios"),
        lambda d: d["sizing"]["air"].update(colour="blue"),
        lambda d: d["sizing"]["filters"]["clean_me"].update(criterion="someday"),
        lambda d: d["sizing"]["findings"][0].update(verdict="maybe"),
        lambda d: d["sizing"]["scenarios"][0]["flow_m3s"].update(best="much"),
    ],
)
def test_a_spoilt_document_does_not(spoil: object) -> None:
    document = copy.deepcopy(json.loads(write_sizing_json(load_job("boatshed"))))
    spoil(document)  # type: ignore[operator]
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.Draft202012Validator(make_schema()).validate(document)


def test_every_number_has_a_unit() -> None:
    """A number's unit is the end of its key, stands beside it, or it is a plain ratio or count named here."""
    plain = {
        "sizing_version", "factor", "barometer_gap", "humidity_ratio", "coefficient", "captures", "count", "share",
        "absorption", "sones", "niosh_share", "osha_share", "hz", "machines_short", "runs_settling", "value",
        "level",
    }  # fmt: skip
    bare: set[str] = set()

    def walk(value: object, key: str) -> None:
        if isinstance(value, dict):
            if set(value) == {"low", "best", "high"} or set(value) == {"value", "unit"}:
                walk(0.0, key if "best" in value else "value")
                return
            for name, inner in value.items():
                walk(inner, name)
        elif isinstance(value, list):
            for inner in value:
                walk(inner, key)
        elif isinstance(value, (int, float)) and not isinstance(value, bool) and not key.endswith(UNIT_ENDS):
            bare.add(key)

    walk(make_document(load_job("boatshed")), "")
    assert bare - plain == set()


def test_numbers_are_those_of_the_sizing() -> None:
    job = load_job("boatshed")
    document = json.loads(write_sizing_json(job))
    for scenario, written in zip(job.sizing.scenarios, document["sizing"]["scenarios"], strict=True):
        assert written["flow_m3s"]["best"] == pytest.approx(scenario.flow.best, rel=1e-9)
    assert len(document["sizing"]["findings"]) == len(job.findings)
    assert document["project"]["digest"] == job.digest


def test_every_kind_has_a_unit() -> None:
    from typing import get_args

    from calc.measures.kinds import Kind

    assert set(UNITS) == set(get_args(Kind))


def test_same_text_again() -> None:
    assert write_sizing_json(load_job("boatshed")) == write_sizing_json(load_job("boatshed"))
    assert json.loads(write_schema()) == json.loads(json.dumps(SCHEMA))

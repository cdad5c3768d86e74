"""Findings on air blown outdoors: nothing passes that a flue in the room does not stand."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from calc.finding import Finding, Verdict
from calc.measures.quantity import Reader
from calc.sizing.judging_make_up import judge_make_up
from calc.sizing.make_up_air import describe_make_up
from packet.words.say import say
from tests.shop import make_project

INCH = Reader("inch")
FLOW, DENSITY = 0.4, 1.2


def judge(**shop: Any) -> dict[str, Finding]:
    made = replace(make_project().shop, **{"clean_air": "outdoors", **shop})
    return {finding.key: finding for finding in judge_make_up(describe_make_up(made, FLOW, DENSITY))}


def opening_for(pascal: float) -> float:
    """Return the opening [m2] by hand: Q = 0.6 A sqrt(2 dp / rho)."""
    return float(FLOW / (0.6 * (2 * pascal / DENSITY) ** 0.5))


@pytest.mark.parametrize("kind", ["unknown", "natural draught", "power vented", "sealed", "solid fuel"])
def test_a_flue_and_no_opening_does_not_fit(kind: str) -> None:
    found = judge(flued_appliance=kind)["air.make_up"]
    assert found.verdict is Verdict.DOES_NOT_FIT
    assert "carbon monoxide" in say(found.why, INCH)
    assert say(found.mends[0], INCH).startswith("STOP")


def test_without_a_flue_a_missing_opening_is_tight() -> None:
    assert judge(flued_appliance="none")["air.make_up"].verdict is Verdict.TIGHT
    assert judge(clean_air="indoors", flued_appliance="none") == {}


@pytest.mark.parametrize(("kind", "most"), [("unknown", 2.0), ("boiler", 3.0), ("power vented", 15.0)])
def test_an_opening_is_held_to_what_the_flue_stands(kind: str, most: float) -> None:
    wide = judge(flued_appliance=kind, make_up_opening_m2=opening_for(most) * 1.001)["air.make_up"]
    narrow = judge(flued_appliance=kind, make_up_opening_m2=opening_for(most) * 0.98)["air.make_up"]
    assert (wide.verdict, narrow.verdict) == (Verdict.FITS, Verdict.DOES_NOT_FIT)
    assert wide.value is not None
    assert wide.limit is not None
    assert wide.value.value == pytest.approx(most, rel=0.003)
    assert wide.limit.value == most


@pytest.mark.parametrize(
    ("kind", "asked", "counts", "verdict"),
    [
        ("unknown", 6.1, 2.0, Verdict.DOES_NOT_FIT),
        ("natural draught", 3.0, 2.0, Verdict.DOES_NOT_FIT),
        ("water heater", 2.0, 2.0, Verdict.FITS),
        ("power vented", 6.1, 6.1, Verdict.FITS),
        ("unknown", 1.5, 1.5, Verdict.FITS),
    ],
)
def test_the_lower_of_file_and_flue_counts(kind: str, asked: float, counts: float, verdict: Verdict) -> None:
    made = replace(
        make_project().shop,
        clean_air="outdoors",
        flued_appliance=kind,
        appliance_draught_pa=asked,  # type: ignore[arg-type]
    )
    make_up = describe_make_up(made, FLOW, DENSITY)
    assert make_up.depression_pa == counts
    assert make_up.opening_m2 == pytest.approx(opening_for(counts))
    assert {f.key: f.verdict for f in judge_make_up(make_up)}["air.draught_asked"] is verdict


def test_too_much_asked_for_is_told_indoors_too() -> None:
    assert judge(clean_air="indoors", flued_appliance="unknown", appliance_draught_pa=6.1).keys() == {
        "air.draught_asked"
    }


@pytest.mark.parametrize("reader", [Reader("inch"), Reader("metric")])
def test_limits_are_told_in_pascals_and_openings_never_too_small(reader: Reader) -> None:
    found = judge(flued_appliance="unknown")["air.make_up"]
    from packet.words.say import write

    assert found.limit is not None
    written = write(found.limit, reader)
    number = float(written.split()[0]) * (0.09290304 if reader.system == "inch" else 1.0)
    assert number >= opening_for(2.0) - 1e-9
    assert number < opening_for(2.0) * 1.04
    asked = judge(flued_appliance="unknown", appliance_draught_pa=6.1)["air.draught_asked"]
    assert asked.value is not None
    assert write(asked.value, reader) == "6.1 Pa"

"""Which parts of a job a file brings, what it begins and does not end, and what each part asks of the others."""

from __future__ import annotations

from collections.abc import Mapping

from packet.fields import PROJECT
from packet.parts import BROUGHT_BY, WHOLE, Part
from packet.reading.values import Values

WHOLE_KEYS = ("shop", "blower", "ducts", "machines", "filters", "filter_box")
"""A file that has all of these is that of a whole shop."""

TOLD: Mapping[Part, tuple[str, ...]] = {
    "pails": ("ports", "closure", "filters", "panel"),
    "box": ("ports", "closure", "filters", "filter_box", "lining"),
    "air": (
        "shop", "dust", "noise", "blower", "separator", "ducts", "link", "delivery", "machines", "gate_sets", "filters",
    ),
    "gauge": ("gauge", "shop"),
}  # fmt: skip
"""The sections of the file that each part is made of; what is assumed in another is nobody's concern."""

OFFER: tuple[str, ...] = ("ports", "filter_box", "machines")
"""What a file that holds nothing yet may begin with."""


def is_whole(values: Values) -> bool:
    """Tell whether the file has every part of a shop; an opening for each filter is then taken where it names none."""
    return all(values.is_given(key) for key in WHOLE_KEYS)


def list_parts(values: Values) -> frozenset[Part]:
    """Return the parts that can be made from the file."""
    if is_whole(values):
        return WHOLE
    found: set[Part] = {"pails"} if values.is_given("ports") else set()
    if all(values.is_given(key) for key in BROUGHT_BY["air"]):
        found |= {"air", "gauge"} if values.is_given("gauge") else {"air"}
    if all(values.is_given(key) for key in BROUGHT_BY["box"]):
        found |= {"box", "pails"}
    if isinstance(values["gauge"], Values) and values["gauge"].is_given("clean"):
        found.add("gauge")
    return frozenset(found)


def list_told(has: frozenset[Part]) -> frozenset[str]:
    """Return the sections of the file whose values stand in the packet of a job with these parts."""
    return frozenset(key for part in has for key in TOLD[part])


def check_parts(values: Values) -> None:
    """Note what a part that is there needs of another, and a file from which nothing can be made."""
    check_readings(values)
    if not list_parts(values):
        ask_for_parts(values)
    if values.is_given("filter_box"):
        ask_for(values["shop"], "ceiling")
        for one in values["filters"] or []:
            ask_for(one, "media_area")
        for port in values["ports"] or []:
            ask_for(port, "face")
        if values.is_given("panel"):
            values.fault("panel", "the box says its own panel", mend="keep the one in filter_box")
    elif values.is_given("blower"):
        for one in values["filters"] or []:
            ask_for(one, "media_area")


def check_readings(values: Values) -> None:
    """A gauge for readings that are taken needs both marks, or what the second is worked out of, and its highest."""
    gauge = values["gauge"]
    if not isinstance(gauge, Values) or "air" in list_parts(values):
        return
    if gauge.is_given("clean_me") or gauge.is_given("most"):
        ask_for(gauge, "clean")
    if not gauge.is_given("clean"):
        return
    if not gauge.is_given("clean_me") and not (values.is_given("blower") and values.is_given("filters")):
        gauge.fault(
            "",
            "the reading to clean at is not given, nor what it is worked out of",
            expected="clean_me, or blower and filters",
            example="clean_me: 2.6 inH2O",
        )
    if not values.is_given("blower"):
        ask_for(gauge, "most")
    if gauge["clean"] is not None and gauge["clean_me"] is not None and gauge["clean_me"] <= gauge["clean"]:
        gauge.fault("clean_me", "filters to be cleaned read no more than clean ones", mend="are the two swapped?")


def ask_for_parts(values: Values) -> None:
    """Note what is missing of the parts that are begun; where none is, that nothing can be made."""
    begun = [part for part, keys in BROUGHT_BY.items() if any(values.is_given(key) for key in keys)]
    if not begun:
        values.fault(
            "",
            "nothing can be made from this file yet",
            expected=f"what you want made: {', '.join(OFFER)}",
            example=write_example(OFFER[0]),
        )
    for key in dict.fromkeys(key for part in begun for key in BROUGHT_BY[part]):
        ask_for(values, key)


def ask_for(values: object, key: str) -> None:
    """Note that a key is missing that the job needs here."""
    if isinstance(values, Values) and not values.is_given(key):
        known = next(each for each in values.group.fields if each.key == key)
        values.fault(
            "", f"the key '{key}' is missing", example=f"{key}: {known.example}", mend=f"add it: {known.about}"
        )


def list_missing(given: frozenset[str], part: Part) -> tuple[str, ...]:
    """Return the keys that would bring a part; given: those that the file has."""
    return tuple(key for key in BROUGHT_BY[part] if key not in given)


def write_example(key: str) -> str:
    """Return a line of the project file that brings a key."""
    known = next(each for each in PROJECT.fields if each.key == key)
    return f"{key}: {known.example}"

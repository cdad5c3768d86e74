"""Where flows, speeds, readings, hours, noise and the limit of a flue stand."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from tests.story.box import tell
from tests.story.fact import Fact, Place, Telling, may, one
from tests.story.find import fill, find_all, find_words, has_gate, list_gates
from tests.story.gauge import exact, from_helper, get_sizing, if_computed, is_computed, pressure
from tests.story.outputs import Outputs
from tests.story.said import NUMBER, Said, read_amount


def units(outputs: Outputs) -> dict[str, str]:
    """Return the units of the columns that stand in a heading only."""
    return (
        {"flow": "cfm", "speed": "fpm", "pressure": "inH2O"}
        if outputs.inch
        else {"flow": "m³/h", "speed": "m/s", "pressure": "Pa"}
    )


def has_lining(outputs: Outputs, subject: str) -> bool:
    return get_sizing(outputs, "sound", "lining_db") is not None


def is_bare(outputs: Outputs, subject: str) -> bool:
    return not has_lining(outputs, subject)


def list_scenarios(outputs: Outputs) -> dict[str, dict[str, Any]]:
    return {s["name"]: s for s in get_sizing(outputs, "scenarios") if s["kind"] == "alone"}


def list_machines(outputs: Outputs) -> dict[str, dict[str, Any]]:
    """Return what each gate's own machine gets with it alone open."""
    return {name: m for name, s in list_scenarios(outputs).items() for m in s["machines"] if m["machine"] == name}


def find_report_row(outputs: Outputs, name: str) -> re.Match[str] | None:
    """Return needs, air, band, air at clean me, speed, band, total pressure, reading, band of a gate's line."""
    band = rf"({NUMBER}) \(({NUMBER})–({NUMBER})\)"
    text = outputs.words("sizing report").partition("What each machine gets")[2]
    return re.search(
        rf"(?<!\S)\d+ {re.escape(name)} ({NUMBER}) {band} (?:({NUMBER})|–|-) {band} ({NUMBER}) {band} "
        "(fits|tight|does not fit|DOES NOT FIT)",
        text,
    )


def from_report(column: int, kind: str) -> Callable[[Outputs], Telling]:
    return lambda o: {
        name: read_amount(row[column], unit=units(o)[kind])
        for name in list_gates(o)
        if (row := find_report_row(o, name)) and row[column]
    }


def from_table(section: str, pattern: str) -> Callable[[Outputs], Telling]:
    """Return an amount of each gate's line of a table; {gate} stands for its name."""

    def read(outputs: Outputs) -> Telling:
        text, found = outputs.words(section), {}
        for name in list_gates(outputs):
            told = re.search(
                fill(pattern.replace("{gate}", rf"{re.escape(name)}(?: \((?:baseline|read here)\))?")), text
            )
            if told:
                found[name] = read_amount(told[1])
        return found

    return read


def from_sizing(get: Callable[[dict[str, Any], dict[str, Any]], float | None]) -> Callable[[Outputs], Telling]:
    return lambda o: {
        name: Said(value)
        for name, machine in list_machines(o).items()
        if (value := get(list_scenarios(o)[name], machine)) is not None
    }


def find_drop(scenario: dict[str, Any], machine: dict[str, Any]) -> float | None:
    drop = next((d for d in scenario["ducts"] if d["kind"] == "drop" and d["place"] == machine["machine"]), None)
    return drop["speed_ms"]["best"] if drop else None


FLOWS = (
    Fact(
        "air of a machine, its gate alone open",
        (
            Place("report", from_report(2, "flow")),
            Place("commissioning", from_table("commissioning", r"{gate} {A} {a} {a} {n} to {n}")),
            Place("step that checks the gates", from_table("steps", r"(?<!\w){gate}: {A} expected")),
            Place("sizing.json", from_sizing(lambda s, m: m["flow_m3s"]["best"])),
        ),
    ),
    Fact(
        "least air of a machine, its gate alone open",
        (
            Place("report", from_report(3, "flow")),
            Place("step that checks the gates", from_table("steps", r"(?<!\w){gate}: {a} expected, {A} at the least")),
            Place("sizing.json", from_sizing(lambda s, m: m["flow_m3s"]["low"])),
        ),
    ),
    Fact(
        "air a machine needs",
        (
            Place("report", from_report(1, "flow")),
            Place(
                "step that checks the gates",
                from_table("steps", r"(?<!\w){gate}: {a} expected, {a} at the least, {A} wanted"),
            ),
            Place("label of its gate", from_table("labels", r"GATE {gate} (?:(?!GATE).)*?Needs {A}"), has_gate),
            Place("sizing.json", from_sizing(lambda s, m: m["needs_m3s"])),
        ),
    ),
    Fact(
        "speed in a drop",
        (
            Place("report", from_report(6, "speed")),
            Place("commissioning", from_table("commissioning", "{gate} {a} {A} {a} {n} to {n}")),
            Place("sizing.json", from_sizing(find_drop)),
        ),
    ),
    Fact(
        "clean reading of a gate",
        (
            Place("report", from_report(10, "pressure")),
            Place("commissioning", from_table("commissioning", "{gate} {a} {a} {A} {n} to {n}")),
            Place("gauge section", from_table("water gauge", "{gate} {a} {A} {n} to {n} {a}")),
            Place("sizing.json", from_sizing(lambda s, m: s["reading_pa"]["best"])),
        ),
    ),
    Fact(
        "reading of a gate at CLEAN ME",
        (
            Place("gauge section", from_table("water gauge", "{gate} {a} {a} {n} to {n} {A}")),
            Place("sizing.json", if_computed(from_sizing(lambda s, m: s["reading_clean_me_pa"])), is_computed),
        ),
    ),
    Fact(
        "air of the blower, one gate open",
        (
            Place("gauge section", from_table("water gauge", "{gate} {A} {a} {n} to {n} {a}")),
            Place("sizing.json", from_sizing(lambda s, m: s["flow_m3s"]["best"])),
        ),
    ),
    Fact(
        "machine worst off",
        (
            Place(
                "cover",
                lambda o: one(
                    "machine", find_words(o.words("cover"), r"(?:cfm|m³/h|m³/s) at ([^,:;()]+?), the machine worst off")
                ),
            ),
            Place(
                "report",
                lambda o: one(
                    "machine",
                    find_words(o.words("sizing report"), r"Where the pressure goes: (.+?) The machine worst off"),
                ),
            ),
            Place(
                "worked calculations",
                lambda o: one("machine", find_words(o.words("worked"), r"For (.+?), the machine worst off")),
            ),
            Place("sizing.json", lambda o: one("machine", Said(get_sizing(o, "worst")))),
            Place(
                "step that checks the gates",
                lambda o: one("machine", find_words(o.words("steps"), r"HOLD Air at (.+?), the worst off")),
            ),
        ),
    ),
    Fact(
        "hours between cleanings",
        (
            Place("report", tell("hours", "sizing report", "after that about every {A}", mark=False)),
            Place(
                "report, finding",
                tell("hours", "sizing report", "Machine hours between cleanings {A}", mark=False),
                may,
            ),
            Place(
                "maintenance",
                tell("hours", "maintenance", r"At {a}, about every {A} (?:\([^)]*\) )?of machines", mark=False),
            ),
            Place("sizing.json", exact("hours", "filters", "clean_me", "later_h", "best")),
        ),
    ),
    Fact(
        "hours to the first cleaning",
        (
            Place("report", tell("hours", "sizing report", "From new: after about {A}", mark=False)),
            Place(
                "step of the first cleaning",
                tell("hours", "steps", r"after about {A} (?:\([^)]*\) )?of machines running", mark=False),
            ),
            Place(
                "worked calculations", tell("hours", "worked", r"hours to CLEAN ME = .*?\) {A} \d+ ", mark=False), may
            ),
            Place("sizing.json", exact("hours", "filters", "clean_me", "first_h", "best")),
        ),
    ),
    Fact(
        "noise with the machines",
        (
            Place("step that measures it", tell("noise", "steps", "At the ear, machines running {A}", mark=False)),
            Place("its words", tell("noise", "steps", "{A}: bare ears", mark=False), may),
            Place(
                "cautions", tell("noise", "cautions", "machines included: {A}", mark=False), lambda o, s: s == "noise"
            ),
            Place("helper's sheet", from_helper("noise", "Expect about {A}, machines"), may),
            Place("helper's page", from_helper("noise", "Expect about {A}, machines", page=True), may),
            Place("report", tell("noise", "sizing report", "With the other machines {A}", mark=False), may),
        ),
    ),
    Fact(
        "noise of the collector alone",
        (
            Place("step that measures it", tell("alone", "steps", "At the ear, collector alone {A}", mark=False)),
            Place("report", tell("alone", "sizing report", "Collector, lined box {A}", mark=False), has_lining),
            Place(
                "report, bare box", tell("alone", "sizing report", "Collector with its box {A}", mark=False), is_bare
            ),
            Place(
                "worked calculations",
                tell("alone", "worked", r"10 log10 Σ 10\^\(L/10\) (?:[\d.]+ dB,? ){6}{A}", mark=False),
            ),
            Place("sizing.json", exact("alone", "sound", "after", "level_db")),
        ),
    ),
    Fact(
        "noise taken by the bare box",
        (
            Place("report", tell("box", "sizing report", "by the bare box {A}", mark=False)),
            Place("sizing.json", exact("box", "sound", "box_db", "best")),
        ),
    ),
    Fact(
        "noise taken by the lining",
        (
            Place("report", tell("lining", "sizing report", "more by the lining {A}", mark=False), has_lining),
            Place("sizing.json", exact("lining", "sound", "lining_db", "best")),
        ),
    ),
    Fact(
        "noise taken by both",
        (
            Place("report", tell("both", "sizing report", "by both together {A}", mark=False), has_lining),
            Place("sizing.json", exact("both", "sound", "quieter_db", "best")),
        ),
    ),
    Fact(
        "most the blower can make",
        (
            Place("gauge section", pressure("shut off", "water gauge", "the most this blower can make, {A}")),
            Place("report", pressure("shut off", "sizing report", "Box at worst, filters blocked {A}")),
            Place("sizing.json", exact("shut off", "pressures", "box_worst_pa")),
        ),
    ),
)


def has_flue(outputs: Outputs, subject: str) -> bool:
    return "DANGER Flue gas" in outputs.words("steps")


FLUE_LIMIT = r"[Rr]oom at most {A} below outdoors"

FLUE = (
    Fact(
        "limit of the flue",
        (
            Place("cover", tell("limit", "cover", FLUE_LIMIT, mark=False), has_flue),
            Place(
                "report", tell("limit", "sizing report", "Room may fall below outdoors by {A}", mark=False), has_flue
            ),
            *(
                Place(
                    f"{section}, {n}",
                    lambda o, s=section, k=n: one(
                        "limit", dict(enumerate(find_all(o.words(s), FLUE_LIMIT, "limit").values(), 1)).get(k)
                    ),
                    may,
                )
                for section, most in (("steps", 4), ("commissioning", 1), ("maintenance", 2), ("labels", 4))
                for n in range(1, most + 1)
            ),
            Place("steps", tell("limit", "steps", FLUE_LIMIT, mark=False), has_flue),
            Place("step's stop", tell("limit", "steps", "More than {A}: STOP", mark=False), has_flue),
            Place(
                "step's hold point",
                tell("limit", "steps", r"room below outdoors 0 Pa \(at most {A}; more: stop\)", mark=False),
                has_flue,
            ),
            Place("cautions", tell("limit", "cautions", "room may fall at most {A} below", mark=False), has_flue),
            Place("commissioning", tell("limit", "commissioning", FLUE_LIMIT, mark=False), has_flue),
            Place("maintenance", tell("limit", "maintenance", FLUE_LIMIT, mark=False), has_flue),
            Place("labels", tell("limit", "labels", FLUE_LIMIT, mark=False), has_flue),
            Place(
                "sizing.json",
                lambda o: exact("limit", "make_up_air", "limit_pa")(o) if has_flue(o, "") else {},
                has_flue,
            ),
        ),
    ),
    Fact(
        "make-up opening",
        (
            Place("cover", tell("opening", "cover", "make-up air opening {A} or more", mark=False), has_flue),
            Place(
                "commissioning",
                tell("opening", "commissioning", "make-up air opening {A} or more", mark=False),
                has_flue,
            ),
            Place(
                "maintenance", tell("opening", "maintenance", "make-up air opening {A} or more", mark=False), has_flue
            ),
            Place("label", tell("opening", "labels", "below outdoors, opening {A} open", mark=False), may),
        ),
    ),
)

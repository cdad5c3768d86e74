"""Where the marks of the water gauge, its kind and the gate to read it at stand."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from tests.story.box import tell
from tests.story.fact import Fact, Place, Telling, may, one
from tests.story.find import all_steps, fill, find_amount, find_words, list_gates
from tests.story.outputs import Outputs
from tests.story.said import Said, read_amount

ALONE = r"(?: gate)? (?:alone open|alone|on the hose)"


def pressure(subject: str, section: str, pattern: str) -> Callable[[Outputs], Telling]:
    return tell(subject, section, pattern, mark=False)


def from_helper(subject: str, pattern: str, page: bool = False) -> Callable[[Outputs], Telling]:
    return lambda o: one(subject, find_amount(o.helper_page if page else o.helper, pattern))


def watches_start(outputs: Outputs, subject: str) -> bool:
    return "Watch the first start" in outputs.helper


def is_unmeasured(outputs: Outputs, subject: str) -> bool:
    return not is_measured(outputs)


def get_sizing(outputs: Outputs, *path: str) -> Any:
    found: Any = outputs.sizing["sizing"]
    for key in path:
        found = found.get(key) if isinstance(found, dict) else None
    return found


def exact(subject: str, *path: str) -> Callable[[Outputs], Telling]:
    """Return what sizing.json tells."""
    return lambda o: one(subject, Said(value) if (value := get_sizing(o, *path)) is not None else None)


def gate(section: str, pattern: str) -> Callable[[Outputs], Telling]:
    """Return a place that names the gate to read at, group 1 of the pattern."""
    return lambda o: one("gate", find_words(o.words(section), pattern))


def is_measured(outputs: Outputs) -> bool:
    return "MEASURED" in outputs.lines("water gauge")


def is_computed(outputs: Outputs, subject: str = "") -> bool:
    """Tell whether CLEAN ME stands where it was computed: over a measured clean reading full pleats' dust is added."""
    return not (is_measured(outputs) and get_sizing(outputs, "filters", "clean_me", "criterion") == "dust load")


def if_computed(read: Callable[[Outputs], Telling]) -> Callable[[Outputs], Telling]:
    return lambda o: read(o) if is_computed(o) else {}


def list_cards(outputs: Outputs) -> list[str]:
    """Return the words of each card: from its tab to the gauge's name."""
    text = outputs.words("water gauge")
    return re.findall(r"tape to the board by this tab only.*?Water gauge, [\w -]+?(?= tape to|$| \d)", text)


def from_cards(name: str, subject: str) -> Callable[[Outputs], Telling]:
    """Return what the first card that bears a mark tells of it."""

    def read(outputs: Outputs) -> Telling:
        told = [found for card in list_cards(outputs) if (found := re.search(fill(rf"{name} {{A}}"), card))]
        return {subject: read_amount(told[0][1])} if told else {}

    return read


GAUGE = (
    Fact(
        "CLEAN ME",
        (
            Place("cover", pressure("mark", "cover", "{A} on the gauge: clean the filters")),
            Place("report, when to clean", pressure("mark", "sizing report", "Clean when the gauge shows {A}")),
            Place("report, finding", pressure("mark", "sizing report", r"against the clean reading {A} ≥"), may),
            Place("gauge section's table", pressure("mark", "water gauge", "CLEAN ME {A} =")),
            Place("its other unit", pressure("mark", "water gauge", "CLEAN ME {a} = {A}")),
            Place(
                "gauge section, gate by gate", pressure("mark", "water gauge", r"\(read here\) {a} {a} {n} to {n} {A}")
            ),
            Place("gauge card", from_cards("CLEAN ME", "mark")),
            Place("step of the baseline", pressure("mark", "steps", "Mark CLEAN ME at {A} on")),
            Place("step of the first cleaning", pressure("mark", "steps", "Gauge shows {A}, only")),
            Place("maintenance", pressure("mark", "maintenance", "At {A}, about every")),
            Place("label", pressure("mark", "labels", "CLEAN ME at {A}")),
            Place(
                "worked calculations",
                if_computed(pressure("mark", "worked", r"reading at CLEAN ME = .*? ({n} (?:Pa|inH2O)) \d+ ")),
                may,
            ),
            Place("sizing.json", if_computed(exact("mark", "filters", "clean_me", "reading_pa")), is_computed),
        ),
    ),
    Fact(
        "TOO HIGH",
        (
            Place("gauge section's table", pressure("mark", "water gauge", "TOO HIGH {A} =")),
            Place("its other unit", pressure("mark", "water gauge", "TOO HIGH {a} = {A}")),
            Place("gauge card", from_cards("TOO HIGH", "mark"), may),  # beyond a short card
            Place("step of the first start", pressure("mark", "steps", "at TOO HIGH, {A}, stop")),
            Place(
                "its hold point",
                pressure("mark", "steps", r"first minute 0 to {A} \((?:above|liquid past the card's end): stop\)"),
            ),
            Place("helper's sheet", from_helper("mark", "TOO HIGH, {A}"), watches_start),
            Place("helper's page", from_helper("mark", "TOO HIGH, {A}", page=True), watches_start),
        ),
    ),
    Fact(
        "CLEAN on the card",
        (
            Place("gauge section's table", pressure("mark", "water gauge", "CLEAN(?:, MEASURED)? {A} =")),
            Place("its other unit", pressure("mark", "water gauge", "CLEAN(?:, MEASURED)? {a} = {A}")),
            Place("gauge card", from_cards("CLEAN(?:, MEASURED)?", "mark")),
            Place(
                "commissioning",
                lambda o: {} if is_measured(o) else pressure("mark", "commissioning", r"Expected {A}\.")(o),
                is_unmeasured,
            ),
            Place(
                "step of the baseline",
                lambda o: {} if is_measured(o) else pressure("mark", "steps", r"filters new {A} \(")(o),
                is_unmeasured,
            ),
            Place("step of the first cleaning", pressure("mark", "steps", r", cleaned {A} \(")),
        ),
    ),
    Fact(
        "clean reading to expect at the gate to read at",
        (
            Place("commissioning", pressure("clean", "commissioning", r"Expected {A}\.")),
            Place("commissioning, gate by gate", pressure("clean", "commissioning", r"\(baseline\) {a} {a} {A} ")),
            Place("gauge section, gate by gate", pressure("clean", "water gauge", r"\(read here\) {a} {A} ")),
            Place("step of the baseline", pressure("clean", "steps", r"filters new {A} \(")),
        ),
    ),
    Fact(
        "gate to read at",
        (
            Place("cover", gate("cover", r"\((?:gate of (?=.+? open)|hose on )(.+?)(?: open)?\)")),
            Place(
                "report",
                gate(
                    "sizing report", r"gauge shows \S+ \S+ with (?:only the gate of|the hose on) (.+?) (?:open|alone)\."
                ),
            ),
            Place("report, finding", gate("sizing report", r"Reading at CLEAN ME, with (.+?) alone open"), may),
            Place("gauge section", gate("water gauge", r"blower running and the (?:hose on )?(.+?) (?:gate )?alone")),
            Place("gauge section, gate by gate", lambda o: one("gate", find_row(o, "water gauge", r" \(read here\)"))),
            Place(
                "gauge cards",
                lambda o: one(
                    "gate",
                    join_words(
                        re.findall(
                            r"Read while not cutting, (?:hose on )?(.+?) (?:gate )?alone", o.words("water gauge")
                        )
                    ),
                ),
            ),
            Place(
                "step of the baseline", gate("steps", r"Gauge, only ([^,()]{1,60}?) (?:open|on the hose), filters new")
            ),
            Place(
                "step of the first cleaning", gate("steps", r"Gauge shows [^,]+, only (.+?) (?:open|on the hose) \(")
            ),
            Place(
                "step of the first start",
                gate("steps", r"Gauge, only ([^,()]{1,60}?) (?:open|on the hose), first minute"),
            ),
            Place("commissioning, gate by gate", lambda o: one("gate", find_row(o, "commissioning", r" \(baseline\)"))),
            Place(
                "commissioning, baseline",
                gate("commissioning", r"Filters clean or new, the (?:hose on )?(.+?) (?:gate )?alone"),
            ),
            Place("maintenance", gate("maintenance", r"Read the gauge with the (?:hose on )?(.+?) (?:gate )?alone")),
            Place(
                "maintenance, log",
                gate("maintenance", r"read with the (?:hose on )?(.+?) (?:gate )?alone(?: open)?, before"),
            ),
            Place("label", gate("labels", r"CLEAN ME at \S+ \S+ (?:Hose on )?(.+?) (?:gate )?alone")),
            Place(
                "label of the gate",
                gate("labels", r"GATE (\S(?:(?!GATE).)*?) (?:Open|Needs|Always)[^G]*?READ THE GAUGE"),
                may,
            ),
            Place(
                "sizing.json, clean_me.read_at",
                lambda o: one("gate", Said(get_sizing(o, "filters", "clean_me", "read_at"))),
            ),
            Place("sizing.json, gauge_at", lambda o: one("gate", Said(get_sizing(o, "gauge_at")))),
        ),
    ),
    Fact(
        "slope of the sloping tube",
        (
            Place(
                "gauge card", lambda o: one("slope", find_words(o.words("water gauge"), r"Slope (1 in [\d.]+), low"))
            ),
            Place(
                "board's template",
                lambda o: one("slope", find_words(o.words("full-size"), r"Slope (1 in [\d.]+): level")),
            ),
            Place("step", lambda o: one("slope", find_words(o.words("steps"), r"slope (1 in [\d.]+)"))),
            Place(
                "gauge section",
                lambda o: one("slope", find_words(o.words("water gauge"), r"Built is a tube at (1 in [\d.]+)")),
                may,
            ),
        ),
    ),
    Fact(
        "kind of gauge built",
        (
            Place("gauge cards", lambda o: {kind: Said("built") for kind in list_kinds(o)}),
            Place(
                "gauge section, tubes",
                lambda o: name_kinds(o, "water gauge", r"On the ([\w -]+?): Clear tube"),
                lambda o, s: len(list_kinds(o)) > 1,
            ),
            Place(
                "steps",
                lambda o: name_kinds(o, "steps", r"\b(sloping(?:-| )tube|one-leg U-tube|U-tube|well)\b"),
                lambda o, s: len(list_kinds(o)) > 1,
            ),
            Place(
                "bill: a tee for two",
                lambda o: (
                    dict.fromkeys(list_kinds(o), Said("built"))
                    if ("hose tee" in {r["item"] for r in o.bill}) == (len(list_kinds(o)) > 1)
                    else {}
                ),
            ),
            Place(
                "bill: a jar for one leg",
                lambda o: (
                    dict.fromkeys(list_kinds(o), Said("built"))
                    if ("jar" in {r["item"] for r in o.bill}) == bool(list_kinds(o) & {"sloping tube", "well"})
                    else {}
                ),
            ),
        ),
    ),
    Fact(
        "clear tube to buy",
        (
            Place(
                "step",
                lambda o: one("tube", find_amount(all_steps(o), "clear tube: {A}", 25.4 if o.inch else 0.0)),
                may,
            ),
            Place(
                "bill.csv",
                lambda o: one(
                    "tube",
                    next(
                        (
                            read_amount(f"{float(r['needed']):.3f} {r['unit']}")
                            for r in o.bill
                            if r["item"] == "clear tube"
                        ),
                        None,
                    ),
                ),
                may,
            ),
        ),
    ),
)


def join_words(told: list[str]) -> Said | None:
    """Return what several say, once where all say the same."""
    return Said(" or ".join(dict.fromkeys(told))) if told else None


def list_kinds(outputs: Outputs) -> set[str]:
    return {
        re.sub(r",? .*leg.*", "", kind).strip()
        for kind in re.findall(r"Water gauge, ([^\n]+)", outputs.lines("water gauge"))
    }


def name_kinds(outputs: Outputs, section: str, pattern: str) -> dict[str, Said]:
    found = {
        name.replace("-tube", " tube") if name.startswith("sloping") else name
        for name in re.findall(pattern, outputs.words(section))
    }
    return {kind: Said("built") for kind in found if kind in list_kinds(outputs)}


def find_row(outputs: Outputs, section: str, mark: str) -> Said | None:
    """Return the gate whose line in a table bears a mark."""
    text = outputs.words(section)
    return next((Said(name) for name in list_gates(outputs) if re.search(re.escape(name) + mark, text)), None)

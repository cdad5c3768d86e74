"""Where weights and screws stand: what is lifted, and what holds it."""

from __future__ import annotations

import re

from tests.story.box import tell, tell_count
from tests.story.fact import Fact, Place, Telling, may, one
from tests.story.find import all_steps, find_all, find_amount, find_count, find_step, sum_up
from tests.story.outputs import Outputs
from tests.story.said import Said, count


def find_weight(text: str, pattern: str) -> Said | None:
    return find_amount(text, pattern)


def has_helper(outputs: Outputs, subject: str) -> bool:
    return "Lift" in outputs.helper


WEIGHTS = (
    Fact(
        "box, empty, weight",
        (
            Place("drawing", tell("box", "drawings", "box, empty {A}")),
            Place("step that hangs the box", tell("box", "steps", r"Parts (?:.*?· )?box: {A},")),
            Place("cautions", tell("box", "cautions", "What goes up weighs {A}")),
            Place(
                "report",
                tell(
                    "box", "sizing report", r"Weight of the box(?:, empty)?: [\w ]+?(?: \(nearest of \d+\))? {A} [≤–]"
                ),
                may,
            ),
            Place("sizing.json", lambda o: find_finding(o, "lift.box, empty"), may),
            Place("check --json", lambda o: find_checked(o, "lift.box, empty"), may),
            Place("helper's sheet", lambda o: one("box", find_weight(o.helper, r"The box, {A}\b")), may),
            Place("helper's page", lambda o: one("box", find_weight(o.helper_page, r"The box, {A}\b")), may),
            Place("exact weight of the lift to hire", lambda o: find_lift(o), may),
        ),
    ),
    Fact(
        "one clean filter, weight",
        (
            Place("step that clips the lids", lambda o: find_all(all_steps(o), "high, {A} each", "filter")),
            Place("cautions", tell("filter", "cautions", "One clean filter weighs {A}"), may),
            Place("helper's sheet", lambda o: one("filter", find_weight(o.helper, r"One filter, {A}\b")), may),
            Place("helper's page", lambda o: one("filter", find_weight(o.helper_page, r"One filter, {A}\b")), may),
        ),
    ),
    Fact(
        "filter at CLEAN ME, weight",
        (
            Place("drawing", tell("full", "drawings", r"(?i:filter at CLEAN ME) {A} \d")),
            Place("cautions", tell("full", "cautions", "at CLEAN ME about {A} with its lid")),
            Place("helper's sheet", lambda o: one("full", find_weight(o.helper, r"A full filter: about {A}\b")), may),
        ),
    ),
    Fact(
        "catch pail when it is emptied, weight",
        (
            Place("drawing", tell("pail", "drawings", r"(?i:catch pail, half full) {A} \d")),
            Place("cautions", tell("pail", "cautions", r"its pail, half full, {A}")),
        ),
    ),
)


def find_finding(outputs: Outputs, key: str, subject: str = "box") -> Telling:
    found = next((f for f in outputs.sizing["sizing"]["findings"] if f["key"] == key), None)
    return {subject: Said(found["value"]["value"])} if found else {}


def find_checked(outputs: Outputs, key: str, subject: str = "box") -> Telling:
    found = next((f for f in outputs.check["findings"] if f["key"] == key), None)
    return {subject: Said(found["value"]["value"])} if found else {}


def is_apart(outputs: Outputs, subject: str) -> bool:
    """Tell whether the bill keeps screws from inside apart: of one length with the others they share a line."""
    uses = [row["where used"] for row in outputs.bill if "flat head screw" in row["item"]]
    return not any(re.search("joints of the box|front panel", use) and re.search("cleats|rails", use) for use in uses)


def is_hung(outputs: Outputs, subject: str) -> bool:
    """Tell whether the box's own screws are apart: a cart's are on the same lines of the bill."""
    return is_apart(outputs, subject) and "cart base" not in {row["part"] for row in outputs.cuts}


def find_lift(outputs: Outputs) -> Telling:
    """Return the load of the lift to hire: at least the box, told up to the next kilogram or pound."""
    row = next((row for row in outputs.bill if row["item"] == "material lift"), None)
    said = find_amount(row["detail"], "straps; {A} up to") if row else None
    step = 0.45359237 if outputs.inch else 1.0
    return {} if said is None else {"box": Said(float(said.value) - step / 2, step / 2 + said.within)}


def find_needed(outputs: Outputs, item: str, used: str = "") -> Said | None:
    """Return how many of an item the bill says are needed, all lines of that name and use together."""
    rows = [
        r
        for r in outputs.bill
        if r["unit"]
        and r["group"] != "A year of use"
        and re.fullmatch(item, r["item"])
        and re.search(used, r["where used"])
    ]
    return sum_up(count(row["needed"]) for row in rows)


SCREWS = (
    Fact(
        "box screws, how many",
        (
            Place("cut list page", tell_count("box screws", "cut list", r"Box screws: {N},")),
            Place(
                "steps",
                lambda o: one(
                    "box screws",
                    sum_up(
                        count(n.replace(",", ""))
                        for n in re.findall(
                            r"flat head screws, [\d/ -]+ (?:in|mm)(?:, in the \w+|, into the ribs)?: (\d+)",
                            all_steps(o),
                        )
                    ),
                ),
            ),
            Place(
                "bill.csv",
                lambda o: one(
                    "box screws",
                    find_needed(o, ".*flat head screw", "joints of the box|front panel") if is_hung(o, "") else None,
                ),
                is_hung,
            ),
        ),
    ),
    Fact(
        "screws of the removable face, how many",
        (
            Place(
                "step that closes the box",
                tell_count("face", "steps", r"flat head screws, [\d/ -]+ (?:in|mm), in the \w+: {N}"),
            ),
            Place("drawing", tell_count("face", "drawings", r"(?:front|back|top|left|right) panel screws {N}")),
        ),
    ),
    Fact(
        "box screws, widest apart",
        (
            Place(
                "cut list page", lambda o: widest(o.words("cut list"), o, r"(?<!From inside)[:;,] at most {A} apart")
            ),
            Place(
                "steps",
                lambda o: widest(
                    all_steps(o), o, r"(?:as in the cut list|in the \w+: \d+|\d+ screws), at most {A} apart"
                ),
            ),
        ),
    ),
    Fact(
        "screws from inside, how many",
        (
            Place("cut list page", tell_count("inside", "cut list", "From inside: {N} screws")),
            Place(
                "steps",
                lambda o: one(
                    "inside",
                    sum_up(
                        count(n)
                        for n in re.findall(r"(?:Screw from inside, |,\s+through\s+the\s+cleats: )(\d+)", all_steps(o))
                    ),
                ),
            ),
            Place(
                "bill.csv",
                lambda o: one(
                    "inside", find_needed(o, ".*flat head screw", "^(rails|cleats)") if is_apart(o, "") else None
                ),
                is_apart,
            ),
        ),
    ),
    Fact(
        "ring screws, how many",
        (
            Place(
                "step that screws the collars in",
                lambda o: one(
                    "rings", find_count(find_step(o, "ollars (?:in|on gaskets)"), r"pan head screws, [^:]+: {N}")
                ),
            ),
            Place(
                "bill.csv",
                lambda o: one("rings", find_needed(o, ".*pan head screw", "rings") if is_hung(o, "") else None),
                is_hung,
            ),
            Place(
                "circle settings, drilled",
                lambda o: one(
                    "rings",
                    sum_up(
                        count(n)
                        for n in re.findall(
                            r"H\d+ hole for (?!the inlet)[^×]{1,60}? (?:\S+) (?:in|mm) x (\d+)",
                            o.words("circle settings").partition("Drilled")[2],
                        )
                    ),
                ),
            ),
        ),
    ),
    Fact(
        "ring screws, of one ring",
        (
            Place(
                "step that drills the pilots",
                lambda o: one("ring", find_count(find_step(o, "pilot holes through the ring"), "Drill {N} holes")),
            ),
            Place("drawing", tell_count("ring", "drawings", r"ring screws of .+? {N} {n} (?:N|lbf) ")),
            Place("section drawing", tell_count("ring", "drawings", r"{N} screws ring"), may),
            Place("label of section", tell_count("ring", "drawings", r"sealant, {a} bead {N} screws ring"), may),
        ),
    ),
    Fact(
        "lag screws, how many",
        (
            Place("step that fixes the rail", tell_count("lags", "steps", r"Parts [^·]*?lag screw: {N}")),
            Place("words of that step", tell_count("lags", "steps", r"{N} lag screws"), may),
            Place("bill.csv", lambda o: one("lags", find_needed(o, ".*lag screw"))),
            Place("drawing", tell_count("lags", "drawings", r"{N} lag screws in all"), may),
            Place("report", tell_count("lags", "sizing report", r"on {N} lag screws of"), may),
        ),
    ),
)


def widest(text: str, outputs: Outputs, pattern: str) -> Telling:
    found = find_all(text, pattern, "box screws", outputs.step_mm)
    return one("box screws", max(found.values(), key=lambda said: said.value, default=None))

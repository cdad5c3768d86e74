"""One wrong value in one place of a finished packet, for each fact: what the check has to find."""

from __future__ import annotations

import copy
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from tests.story.outputs import Outputs


@dataclass(frozen=True)
class Slip:
    """fact, subject, place: what the check has to name; break_it: puts the wrong value into a copy of the outputs."""

    fact: str
    subject: str
    place: str
    break_it: Callable[[Outputs], Outputs]
    sample: str = "boatshed"


def reprint(section: str, old: str, new: str) -> Callable[[Outputs], Outputs]:
    """Return a change of a section's words: the first that match ``old``. Raises AssertionError where nothing does."""

    def change(outputs: Outputs) -> Outputs:
        first, last = (1, outputs.last_page("print check")[0] - 1) if section == "cover" else outputs.last_page(section)
        pages = list(outputs.pages)
        for n in range(first - 1, last):
            words, found = re.subn(old, new, pages[n].words, count=1)
            if found and words != pages[n].words:
                pages[n] = replace(pages[n], words=words)
                return replace(outputs, pages=tuple(pages))
        raise AssertionError(f"{old!r} is not on a page of {section}")

    return change


def refoot(old: str, new: str) -> Callable[[Outputs], Outputs]:
    """Return a change of the footer of one page in the middle."""

    def change(outputs: Outputs) -> Outputs:
        pages = list(outputs.pages)
        page = pages[9]
        footer = re.sub(old, new, page.footer)
        assert footer != page.footer
        pages[9] = replace(page, footer=footer)
        return replace(outputs, pages=tuple(pages))

    return change


def retable(
    table: str, find: Callable[[dict[str, str]], bool], column: str, old: str, new: str
) -> Callable[[Outputs], Outputs]:
    """Return a change of one cell of bill or cuts."""

    def change(outputs: Outputs) -> Outputs:
        rows = [dict(row) for row in getattr(outputs, table)]
        row = next(row for row in rows if find(row))
        assert old in row[column], row
        row[column] = row[column].replace(old, new, 1)
        return replace(outputs, **{table: tuple(rows)})

    return change


def rebill(item: str, column: str, old: str, new: str) -> Callable[[Outputs], Outputs]:
    return retable("bill", lambda row: row["item"] == item, column, old, new)


def recut(number: str, column: str, old: str, new: str) -> Callable[[Outputs], Outputs]:
    return retable("cuts", lambda row: row["no."] == number, column, old, new)


def redraw(files: str, part: str, layer: str, **wrong: float) -> Callable[[Outputs], Outputs]:
    """Return a change of the first circle of a part's file."""

    def change(outputs: Outputs) -> Outputs:
        parts = dict(getattr(outputs, files))
        name = next(name for name in parts if name.startswith(part))
        circles = list(parts[name].circles)
        at = next(n for n, circle in enumerate(circles) if circle.layer == layer)
        circles[at] = replace(circles[at], **{side: getattr(circles[at], side) + by for side, by in wrong.items()})
        parts[name] = replace(parts[name], circles=tuple(circles))
        return replace(outputs, **{files: parts})

    return change


def rework(change_it: Callable[[dict[str, Any]], object], which: str = "sizing") -> Callable[[Outputs], Outputs]:
    """Return a change of sizing.json or of what the check prints."""

    def change(outputs: Outputs) -> Outputs:
        document = copy.deepcopy(getattr(outputs, which))
        change_it(document)
        return replace(outputs, **{which: document})

    return change


def move_mark(outputs: Outputs) -> Outputs:
    """Return outputs whose bookmark of the bill leads one page on."""
    marks = tuple(replace(m, page=m.page + 1) if m.title == "Bill of materials" else m for m in outputs.marks)
    return replace(outputs, marks=marks)


def set_in(*path: str | int, to: object) -> Callable[[dict[str, Any]], None]:
    def change(document: dict[str, Any]) -> None:
        *way, last = path
        place: Any = document
        for key in way:
            place = place[key]
        assert place[last] != to
        place[last] = to

    return change


NEEDED = "needed"
SLIPS = (
    Slip(
        "hole, across",
        "filter A",
        "circle settings",
        reprint("circle settings", r"11-7/8 in\n\(11\.866\)", "11-7/8 in\n(11.886)"),
    ),
    Slip("hole, across", "inlet", "panel's SVG", redraw("drawn", "3-left", "cut", across=0.1)),
    Slip("hole, from left", "filter A", "panel's DXF", redraw("parts", "1-bottom", "cut", left=1.0)),
    Slip("hole, from left", "gauge", "panel's drawing", reprint("cut list", r"\n39-1/16 in\n", "\n39-1/32 in\n")),
    Slip("hole, up", "gauge", "step that marks the holes", reprint("steps", "39-1/16 × 8-11/16", "39-1/16 × 8-21/32")),
    Slip(
        "first line of a hole, across",
        "inspection",
        "step that cuts the holes",
        reprint("steps", r"11\.751(\), final line 11-7/8 in \(11\.877\)\.\s+gauge)", r"11.571\1"),
    ),
    Slip(
        "pail, across", "filter B", "as-built page", reprint("as built", "filter B 11-7/8 in", "filter B 11-13/16 in")
    ),
    Slip(
        "screw circle of a ring, across",
        "gauge",
        "template's words",
        reprint(
            "full-size", r"(gauge - sheet A1, 1 of 4\s[^\n]*screw circle) 12-7/16 in \(12\.43", r"\1 12-3/8 in (12.37"
        ),
    ),
    Slip("part, size", "10 height", "cuts.csv in mm", recut("10", "height mm", "75.0", "57.0")),
    Slip("part, size", "6 width", "steps' parts", reprint("steps", "6 front: 47-13/32", "6 front: 47-3/32")),
    Slip(
        "box, outside",
        "depth",
        "step that hangs the box",
        reprint("steps", r"(box: 87\.2 lb, 47-13/32 ×\s+)20-13/32", r"\g<1>20-3/32"),
    ),
    Slip("box, inside", "height", "as-built page", reprint("as built", "top to bottom 16 in", "top to bottom 15 in")),
    Slip(
        "panel, thickness",
        "panel",
        "step that gathers",
        reprint("steps", "with a caliper 23/32 in", "with a caliper 3/4 in"),
    ),
    Slip(
        "underside above the floor",
        "underside",
        "cautions",
        reprint("cautions", "103-19/32 in above", "103-9/32 in above"),
    ),
    Slip(
        "upper edge of the wall rail above the floor",
        "rail",
        "cuts.csv",
        recut("10", "joints", "116-13/16", "113-13/16"),
    ),
    Slip(
        "drop to unscrew a filter",
        "drop",
        "step of the first cleaning",
        reprint("steps", r"1-3/8 in of drop", "1-5/8 in of drop"),
    ),
    Slip("filter and pail below the box", "hang", "cover", reprint("cover", "51-11/32 in", "51-3/8 in")),
    Slip("pail above the floor", "pail", "drawing", reprint("drawings", "clear 52-1/4 in", "clear 52-7/32 in")),
    Slip(
        "ceiling above the floor",
        "ceiling",
        "as-built page",
        reprint("as built", "Floor to ceiling 122 in", "Floor to ceiling 120 in"),
    ),
    Slip(
        "box, empty, weight",
        "box",
        "helper's sheet",
        lambda o: replace(o, helper=o.helper.replace("The box, 87.2 lb", "The box, 78.3 lb")),
    ),
    Slip(
        "box, empty, weight",
        "box",
        "exact weight of the lift to hire",
        rebill("material lift", "detail", "88 lb", "80 lb"),
    ),
    Slip(
        "one clean filter, weight",
        "filter",
        "cautions",
        reprint("cautions", "One clean filter weighs 18 lb", "One clean filter weighs 16 lb"),
    ),
    Slip(
        "box screws, how many", "box screws", "bill.csv", rebill("No. 8 x 1-1/2 in flat head screw", NEEDED, "76", "60")
    ),
    Slip(
        "box screws, widest apart",
        "box screws",
        "cut list page",
        reprint("cut list", "at most 5-7/16 in apart", "at most 5-11/16 in apart"),
    ),
    Slip(
        "screws from inside, how many",
        "inside",
        "steps",
        reprint("steps", "from inside, 18 screws", "from inside, 16 screws"),
    ),
    Slip(
        "ring screws, how many",
        "rings",
        "step that screws the collars in",
        reprint("steps", r"(pan\s+head\s+screws,\s+3/4\s+in,\s+for\s+the\s+rings:)\s+32", r"\1 24"),
    ),
    Slip(
        "ring screws, of one ring",
        "ring",
        "step that drills the pilots",
        reprint("steps", "Drill 8 holes", "Drill 6 holes"),
    ),
    Slip("lag screws, how many", "lags", "bill.csv", rebill("5/16 in x 3 in lag screw", NEEDED, "4", "6")),
    Slip("CLEAN ME", "mark", "label", reprint("labels", r"CLEAN ME at \d\.\d+", "CLEAN ME at 9.34")),
    Slip(
        "CLEAN ME", "mark", "gauge card", reprint("water gauge", r"CLEAN ME \d\.\d+ inH2O\n", "CLEAN ME 9.35 inH2O\n")
    ),
    Slip(
        "TOO HIGH",
        "mark",
        "helper's page",
        lambda o: replace(o, helper_page=re.sub(r"TOO HIGH, \d\.\d+", "TOO HIGH, 9.38", o.helper_page)),
    ),
    Slip(
        "CLEAN on the card",
        "mark",
        "its other unit",
        reprint("water gauge", r"(CLEAN \d\.\d+ inH2O) = \d+ Pa", r"\1 = 954 Pa"),
    ),
    Slip(
        "CLEAN on the card",
        "mark",
        "step of the first cleaning",
        reprint("steps", r"cleaned 0\.18", "cleaned 0.15"),
    ),
    Slip(
        "clean reading to expect at the gate to read at",
        "clean",
        "step of the baseline",
        reprint("steps", r"filters new 0\.18", "filters new 0.15"),
    ),
    Slip(
        "gate to read at",
        "gate",
        "maintenance",
        reprint("maintenance", "with the planer gate", "with the jointer gate"),
    ),
    Slip("gate to read at", "gate", "label of the gate", reprint("labels", r"(GATE\n)planer\n", r"\1drum sander\n")),
    Slip(
        "slope of the sloping tube",
        "slope",
        "board's template",
        reprint("full-size", "Slope 1 in 5: level", "Slope 1 in 8: level"),
    ),
    Slip("kind of gauge built", "sloping tube", "bill: a jar for one leg", rebill("jar", "item", "jar", "bottle")),
    Slip("clear tube to buy", "tube", "bill.csv", rebill("clear tube", NEEDED, "8.774", "7.874")),
    Slip(
        "air of a machine, its gate alone open",
        "jointer",
        "commissioning",
        reprint("commissioning", r"jointer \d+ cfm", "jointer 9017 cfm"),
    ),
    Slip(
        "least air of a machine, its gate alone open",
        "planer",
        "step that checks the gates",
        reprint("steps", r"\d+ cfm at the least", "9109 cfm at the least"),
    ),
    Slip("air a machine needs", "band saw", "label of its gate", reprint("labels", "Needs 450 cfm", "Needs 550 cfm")),
    Slip(
        "speed in a drop",
        "table saw",
        "report",
        reprint("sizing report", r"(table saw 550 \d+ \(\d+–\d+\) \d+) \d{4} \(", r"\1 9211 ("),
    ),
    Slip(
        "clean reading of a gate",
        "planer",
        "sizing.json",
        rework(set_in("sizing", "scenarios", 0, "reading_pa", "best", to=54.6)),
    ),
    Slip(
        "reading of a gate at CLEAN ME",
        "jointer",
        "gauge section",
        reprint("water gauge", r"0\.29 inH2O", "9.22 inH2O"),
    ),
    Slip(
        "air of the blower, one gate open",
        "table saw",
        "gauge section",
        reprint("water gauge", r"table saw \d+ cfm", "table saw 9006 cfm"),
    ),
    Slip(
        "machine worst off",
        "machine",
        "cover",
        reprint("cover", r"at drum sander, the\nmachine", "at jointer, the\nmachine"),
    ),
    Slip(
        "hours between cleanings",
        "hours",
        "maintenance",
        reprint("maintenance", r"At 0\.\d+ inH2O, about every 60\b", "At 0.33 inH2O, about every 80"),
    ),
    Slip(
        "hours to the first cleaning",
        "hours",
        "sizing.json",
        rework(set_in("sizing", "filters", "clean_me", "first_h", "best", to=60.0)),
    ),
    Slip(
        "filter at CLEAN ME, weight",
        "full",
        "cautions",
        reprint("cautions", "at CLEAN ME about 22.8 lb", "at CLEAN ME about 28.2 lb"),
    ),
    Slip(
        "catch pail when it is emptied, weight",
        "pail",
        "drawing",
        reprint("drawings", "half full 6.5 lb", "half full 11.7 lb"),
    ),
    Slip(
        "noise with the machines",
        "noise",
        "helper's sheet",
        lambda o: replace(o, helper=o.helper.replace("about 92.2 dB", "about 79.3 dB")),
    ),
    Slip(
        "noise of the collector alone",
        "alone",
        "sizing.json",
        rework(set_in("sizing", "sound", "after", "level_db", to=79.3)),
    ),
    Slip(
        "noise taken by the bare box",
        "box",
        "sizing.json",
        rework(set_in("sizing", "sound", "box_db", "best", to=5.1)),
    ),
    Slip(
        "noise taken by the lining",
        "lining",
        "sizing.json",
        rework(set_in("sizing", "sound", "lining_db", "best", to=2.1)),
    ),
    Slip(
        "noise taken by both",
        "both",
        "sizing.json",
        rework(set_in("sizing", "sound", "quieter_db", "best", to=4.6)),
    ),
    Slip(
        "most the blower can make",
        "shut off",
        "gauge section",
        reprint("water gauge", r"can make, 15\.20", "can make, 12.50"),
    ),
    Slip("limit of the flue", "limit", "labels", reprint("labels", "at most 2 Pa", "at most 3 Pa"), "outdoor"),
    Slip(
        "limit of the flue",
        "limit",
        "steps, 3",
        reprint("steps", r"(?s)((?:at most 2 Pa below.*?){1})at most 2 Pa below", r"\1at most 5 Pa below"),
        "outdoor",
    ),
    Slip(
        "make-up opening",
        "opening",
        "maintenance",
        reprint("maintenance", r"opening 0\.36 m²", "opening 0.26 m²"),
        "outdoor",
    ),
    Slip(
        "pages of a section",
        "cautions",
        "cover's list",
        reprint("cover", r"(page 2\npages \S+)\npages \S+", r"\1\npages 2–3"),
    ),
    Slip("first page of a section", "bill of materials", "bookmarks", move_mark),
    Slip("pages in all", "pages", "footers", refoot(r"page 10 of \d+", "page 10 of 9")),
    Slip(
        "sheets of a template",
        "H1 hole for filter A",
        "its own words",
        reprint("full-size", "sheet A1, 1 of 4", "sheet A1, 1 of 3"),
    ),
    Slip(
        "how true the print must be",
        "print",
        "template sheets",
        reprint("full-size", "more than 1/64 in", "more than 1/32 in"),
    ),
    Slip("revision", "revision", "footers", refoot(r"rev\. B", "rev. A")),
    Slip(
        "digest of the project file", "digest", "cover", reprint("cover", "8278c0b03ff8|[0-9a-f]{12}", "000000000000")
    ),
    Slip("verdicts, how many", "tight", "report", reprint("sizing report", r"\b\d are tight", "99 are tight")),
    Slip("verdict of all", "packet", "sizing.json", rework(set_in("verdict", to="fits"))),
    Slip(
        "verdict of a finding",
        "flow.planer",
        "check --json",
        rework(set_in("findings", 0, "verdict", to="tight"), "check"),
    ),
    Slip(
        "price of all", "total", "bill page", reprint("bill", r"(Total of what has a price \d+) [\d.]+", r"\1 1999.00")
    ),
    Slip("lines to buy", "lines", "cover", reprint("cover", r"\d+ lines to buy", "7 lines to buy")),
    Slip("filters", "filters", "its pails", reprint("steps", "catch pails with rings: 2", "catch pails with rings: 3")),
    Slip("machines and runs", "machines", "cover", reprint("cover", r"serves 5 machines", "serves 4 machines")),
    Slip("sheets of panel stock", "birch plywood", "bill.csv", rebill("birch plywood", NEEDED, "2", "3")),
    Slip("steps", "steps", "steps' head", reprint("steps", "44 steps", "43 steps")),
    Slip("time for two", "time", "cover", reprint("cover", r"\b20 h", "18 h")),
    Slip("gates", "planer", "labels", reprint("labels", r"GATE\nplaner", "GATE\nplane")),
    Slip(
        "goods that the steps take",
        "hook clip",
        "steps, all together",
        reprint("steps", "hook clip: 16", "hook clip: 12"),
    ),
    Slip(
        "gasket tape",
        "tape",
        "steps, all together",
        reprint("steps", r"gasket\s+tape:\s+10\s+ft\s+7\s+in", "gasket tape: 20 ft 7 in"),
    ),
    Slip(
        "screws of the removable face, how many",
        "face",
        "drawing",
        reprint("drawings", r"front panel screws(\s+)26", r"front panel screws\g<1>30"),
    ),
    Slip("goods to gather", "screw lid", "bill.csv, needed", rebill("screw lid", NEEDED, "6", "8")),
    Slip("bill's page", "pipe hanger", "bill page", reprint("bill", "☐ pipe hanger", "☐ pipe strap")),
    Slip("deck of the work platform", "deck", "bill.csv", rebill("work platform", "detail", "60 in", "48 in")),
    Slip(
        "liquid in the gauge", "liquid", "step", reprint("steps", r"about 2\.9 fl oz in all", "about 2.5 fl oz in all")
    ),
)

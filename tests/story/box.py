"""Where the sizes and heights of the box and its parts stand."""

from __future__ import annotations

import re
from collections.abc import Callable

from tests.story.fact import Fact, Place, Telling, may, one
from tests.story.find import all_steps, fill, find_all, find_amount, find_count
from tests.story.holes import EXACT
from tests.story.outputs import Outputs, Part
from tests.story.said import Said, read_amount


def tell(
    subject: str, section: str, pattern: str, *, mark: bool = True, unit: str = ""
) -> Callable[[Outputs], Telling]:
    """Return a place that tells one amount. mark: a length to the tape's mark."""
    return lambda o: one(subject, find_amount(o.words(section), pattern, o.step_mm if mark else 0.0, unit))


def tell_count(subject: str, section: str, pattern: str) -> Callable[[Outputs], Telling]:
    return lambda o: one(subject, find_count(o.words(section), pattern))


def tell_all(
    subject: str, section: str, pattern: str, *, mark: bool = True, unit: str = ""
) -> Callable[[Outputs], Telling]:
    return lambda o: find_all(o.words(section), pattern, subject, o.step_mm if mark else 0.0, unit)


def tell_three(section: str, pattern: str, sides: str = "width depth height") -> Callable[[Outputs], Telling]:
    """Return a place that tells width, depth and height, the unit behind each or behind the last."""

    def read(outputs: Outputs) -> Telling:
        found = re.search(
            pattern.replace("{three}", fill("{N}(?: in| mm)? × {N}(?: in| mm)? × {N} (in|mm)")), outputs.words(section)
        )
        if not found:
            return {}
        *amounts, unit = found.groups()
        return {
            side: read_amount(f"{amount} {unit}", outputs.step_mm)
            for side, amount in zip(sides.split(), amounts, strict=True)
        }

    return read


def from_parts_files(parts: Callable[[Outputs], dict[str, Part]]) -> Callable[[Outputs], Telling]:
    def read(outputs: Outputs) -> Telling:
        found: dict[str, Said] = {}
        for name, part in parts(outputs).items():
            number = name.partition("-")[0]
            if number.isdigit() and part.width:
                found |= {f"{number} width": Said(part.width, EXACT), f"{number} height": Said(part.height, EXACT)}
        return found

    return read


def from_cuts_file(outputs: Outputs) -> Telling:
    return {
        f"{row['no.']} {side}": read_amount(row[side], outputs.step_mm)
        for row in outputs.cuts
        for side in ("width", "height")
    }


def from_cuts_file_mm(outputs: Outputs) -> Telling:
    return {
        f"{row['no.']} {side}": Said(float(row[f"{side} mm"]), 0.05)
        for row in outputs.cuts
        for side in ("width", "height")
    }


def from_cuts_page(outputs: Outputs) -> Telling:
    text, found = outputs.words("cut list"), {}
    for row in outputs.cuts:
        told = re.search(fill(rf"(?<!\S){row['no.']} {re.escape(row['part'])} {row['how many']} {{A}} {{A}} "), text)
        if told:
            found |= {
                f"{row['no.']} width": read_amount(told[1], outputs.step_mm),
                f"{row['no.']} height": read_amount(told[2], outputs.step_mm),
            }
    return found


def from_steps(outputs: Outputs) -> Telling:
    """Return sizes as the steps' lists of parts tell them: 1 bottom: 46-23/32 × 19-11/32 in."""
    found: dict[str, Said] = {}
    for row in outputs.cuts:
        told = re.search(
            fill(rf"(?<!\S){row['no.']} {re.escape(row['part'])}: {{N}} × {{N}} (in|mm)"), all_steps(outputs)
        )
        if told:
            found[f"{row['no.']} width"] = read_amount(f"{told[1]} {told[3]}", outputs.step_mm)
            found[f"{row['no.']} height"] = read_amount(f"{told[2]} {told[3]}", outputs.step_mm)
    return found


def is_panel(outputs: Outputs, subject: str) -> bool:
    return any(name.startswith(f"{subject.split()[0]}-") and "-panel" in name for name in outputs.parts)


SIZES = (
    Fact(
        "part, size",
        (
            Place("cut list page", from_cuts_page),
            Place("cuts.csv", from_cuts_file),
            Place("cuts.csv in mm", from_cuts_file_mm),
            Place("steps' parts", from_steps, is_panel),
            Place("panel's DXF", from_parts_files(lambda o: o.parts), is_panel),
            Place("panel's SVG", from_parts_files(lambda o: o.drawn), is_panel),
        ),
    ),
    Fact(
        "box, outside",
        (
            Place("cover", tell_three("cover", "box of [^×]*?, {three} outside")),
            Place("cut list page", tell_three("cut list", r"outside {three} \(width")),
            Place("step that hangs the box", tell_three("steps", r"box: [\d.]+ \w+, {three}")),
        ),
    ),
    Fact(
        "box, inside",
        (
            Place("cut list page", tell_three("cut list", "Box inside {three}, outside")),
            Place(
                "step that puts the box together",
                tell_three("steps", "Inside of the box, width × depth × height {three}"),
            ),
            Place(
                "as-built page",
                lambda o: {
                    side: said
                    for side, words in (
                        ("width", "left to right"),
                        ("depth", "front to back"),
                        ("height", "top to bottom"),
                    )
                    if (said := find_amount(o.words("as built"), f"Box inside, {words} {{A}}", o.step_mm))
                },
            ),
        ),
    ),
    Fact(
        "panel, thickness",
        (
            Place("cut list page", tell("panel", "cut list", "Panels measured {A} thick")),
            Place("step that gathers", tell("panel", "steps", "Panel thickness at four places, with a caliper {A}")),
            Place("as-built page", tell("panel", "as built", "Panel thickness {A}")),
            Place("cuts.csv", lambda o: one("panel", read_amount(o.cuts[0]["thickness"], o.step_mm))),
            Place(
                "hole's template",
                tell("panel", "full-size", r"1 off · [\w ]+? {A} · face up: outside of \w+ panel"),
                may,
            ),
        ),
    ),
)


def by_itself(read: Callable[[Outputs], Telling]) -> Callable[[Outputs], Telling]:
    """Return a place that rounds a distance itself, one mark off: drawings tell it between rounded heights."""
    return lambda o: {subject: Said(said.value, said.within + o.step_mm) for subject, said in read(o).items()}


HEIGHTS = (
    Fact(
        "underside above the floor",
        (
            Place("drawing", tell("underside", "drawings", r"underside ({n} (?:mm|in)) ?box")),
            Place(
                "step that hangs the box",
                tell("underside", "steps", r"(?:Floor to underside|Underside of the box above the floor) {A} \("),
            ),
            Place("as-built page", tell("underside", "as built", "Floor to underside of the box {A}")),
            Place("cautions", tell("underside", "cautions", "Underside of the box at {A} above"), may),
        ),
    ),
    Fact(
        "upper edge of the wall rail above the floor",
        (
            Place("step that fixes the rail", tell("rail", "steps", "Floor to the wall rail's upper edge {A}")),
            Place("cut list page", tell("rail", "cut list", "point away from the wall, {A} above the floor")),
            Place(
                "cuts.csv",
                lambda o: next(
                    (
                        one("rail", s)
                        for row in o.cuts
                        if (s := find_amount(row["joints"], "{A} above the floor", o.step_mm))
                    ),
                    {},
                ),
            ),
        ),
    ),
    Fact(
        "drop to unscrew a filter",
        (
            Place("drawing", tell("drop", "drawings", "A filter drops {A} to unscrew")),
            Place("step of the first cleaning", tell("drop", "steps", "You need {A} of drop")),
            Place("step that hangs the filters", tell("drop", "steps", r"\(at least {A} to unscrew\)"), may),
            Place(
                "report",
                tell(
                    "drop",
                    "sizing report",
                    r"Room from the pail to the [^;]+; filter and pail hang {a} below the box {a} ≥ {A}",
                ),
                may,
            ),
        ),
    ),
    Fact(
        "filter and pail below the box",
        (
            Place("cover", tell("hang", "cover", "{A} hangs below the box")),
            Place("drawing", tell("hang", "drawings", "hangs {A}")),
            Place("report", tell("hang", "sizing report", "filter and pail hang {A} below the box"), may),
            Place("step that hangs the filters", tell("hang", "steps", r"From the box down to the pail's foot {A} \(")),
        ),
    ),
    Fact(
        "pail above the floor",
        (
            Place("drawing", tell("pail", "drawings", "clear {A}")),
            Place(
                "step that hangs the filters",
                tell("pail", "steps", r"Pail above the (?:floor|base|cart's base) {A} \("),
            ),
            Place(
                "report", by_itself(tell("pail", "sizing report", "filter and pail hang {a} below the box {A} ≥")), may
            ),
        ),
    ),
    Fact(
        "ceiling above the floor",
        (
            Place("drawing", tell("ceiling", "drawings", "ceiling {A}")),
            Place("report", tell("ceiling", "sizing report", "ceiling at {A} less"), may),
            Place("as-built page", tell("ceiling", "as built", "Floor to ceiling {A}")),
        ),
    ),
)

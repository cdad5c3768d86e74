"""Where the places and sizes of holes stand."""

from __future__ import annotations

import re
from collections.abc import Callable

from tests.story.fact import Fact, Place, Telling, may
from tests.story.find import fill, find_step
from tests.story.outputs import Circle, Outputs, Part
from tests.story.said import AMOUNT, Said, read_amount

Sides = dict[str, tuple[Said, Said, Said]]
"""Hole to its diameter, place from the left and place up [mm]."""

EXACT = 2e-3
"""Files for machines: four digits behind the point [mm]."""


def read_holes(outputs: Outputs, text: str) -> tuple[Said, Said, Said]:
    found = re.fullmatch(fill("{A} dia. at {A} from left, {A} up"), text)
    assert found, f"{outputs.name}: {text!r} is no hole of a cut list"
    across, left, up = (read_amount(part, outputs.step_mm) for part in found.groups())
    return across, left, up


def list_panels(outputs: Outputs) -> dict[str, dict[str, str]]:
    """Return panel number to its holes as the cut list file tells them; lining has numbers of its own."""
    return {
        row["no."]: dict(hole.rsplit(": ", 1) for hole in row["holes"].split("; "))
        for row in outputs.cuts
        if row["no."].isdigit() and row["holes"]
    }


def from_cuts_file(outputs: Outputs) -> Sides:
    return {name: read_holes(outputs, told) for holes in list_panels(outputs).values() for name, told in holes.items()}


def from_cuts_page(outputs: Outputs) -> Sides:
    text, found = outputs.words("cut list").split("Sheet layouts")[0], {}
    for name in from_cuts_file(outputs):
        told = re.search(
            rf"(?:; |sheet \d+ |way |width |height |- |– ){re.escape(name)}: "
            rf"({fill('{a} dia. at {a} from left, {a} up')})",
            text,
        )
        if told:
            found[name] = read_holes(outputs, told[1])
    return found


def from_parts(outputs: Outputs, parts: dict[str, Part]) -> Sides:
    """Return the circles of panels' files: each hole of the cut list takes the circle nearest to its place."""
    found: Sides = {}
    for number, holes in list_panels(outputs).items():
        part = next((part for name, part in parts.items() if name.startswith(f"{number}-") and "-panel" in name), None)
        circles = [c for c in part.circles if c.layer == "cut"] if part else []
        for name, told in holes.items():
            _, left, up = read_holes(outputs, told)
            if circles:
                near = min(circles, key=lambda c: abs(c.left - float(left.value)) + abs(c.up - float(up.value)))
                found[name] = from_circle(near)
    return found


def from_circle(circle: Circle) -> tuple[Said, Said, Said]:
    return Said(circle.across, EXACT), Said(circle.left, EXACT), Said(circle.up, EXACT)


def from_step(outputs: Outputs) -> Sides:
    """Return left and up of the step that marks the holes; it does not tell their size."""
    text, found = find_step(outputs, "Mark every hole"), {}
    for name in from_cuts_file(outputs):
        told = re.search(fill(rf"HOLD {re.escape(name)} {{N}} × {{N}} (in|mm) "), text)
        if told:
            left, up = (read_amount(f"{told[n]} {told[3]}", outputs.step_mm) for n in (1, 2))
            found[name] = (left, left, up)
    return found


def from_panel_drawing(outputs: Outputs) -> Sides:
    """Return the dimension of the panel's drawing nearest to each place: a place not drawn is told by none."""
    text = outputs.lines("cut list").partition("Marking out the panels")[2]
    drawn = re.split(r"^(\d+) (?:bottom|top|left|right|back|front)(?: scale.*)?$", text, flags=re.MULTILINE)
    blocks = dict(zip(drawn[1::2], drawn[::2], strict=False))
    found: Sides = {}
    for number, holes in list_panels(outputs).items():
        amounts = [
            read_amount(a, outputs.step_mm) for a in re.findall(AMOUNT, " ".join(blocks.get(number, "").split()))
        ]
        for name, told in holes.items():
            if amounts:
                _, left, up = read_holes(outputs, told)
                found[name] = (left, nearest(amounts, left), nearest(amounts, up))
    return found


def nearest(amounts: list[Said], wanted: Said) -> Said:
    return min(amounts, key=lambda amount: abs(float(amount.value) - float(wanted.value)))


def take(read: Callable[[Outputs], Sides], side: int) -> Callable[[Outputs], Telling]:
    return lambda outputs: {name: sides[side] for name, sides in read(outputs).items()}


def list_ports(outputs: Outputs) -> list[str]:
    """Return the ports that the as-built page has a blank for, by the words over the blank."""
    return [
        t.removesuffix(found[0]) for t in outputs.fields.values() if (found := re.search(r": hole as cut \(\w+\)$", t))
    ]


def is_marked(outputs: Outputs, subject: str) -> bool:
    """Tell whether holes are marked by hand at all."""
    return "Mark every hole on its panel" in outputs.words("steps")


def is_port(outputs: Outputs, subject: str) -> bool:
    return subject != "inlet"


def is_port_opened(outputs: Outputs, subject: str) -> bool:
    return is_port(outputs, subject) and bool(re.search(r"first (?:line|pass) \d", outputs.words("steps")))


def shape(name: str) -> str:
    return "the inlet" if name == "inlet" else name


def from_templates(pattern: str, subject: str = "hole for") -> Callable[[Outputs], Telling]:
    """Return what the words of each template tell, of its first sheet."""

    def read(outputs: Outputs) -> Telling:
        text, found = outputs.words("full-size templates"), {}
        for name in from_cuts_file(outputs):
            told = re.search(
                fill(rf"H\d+ {subject} {re.escape(shape(name))} - (?:sheet \w+, 1 of \d+|one sheet) {pattern}"), text
            )
            if told:
                found[name] = read_exact(told[1], text[told.end(1) :], outputs.step_mm)
        return found

    return read


def read_exact(amount: str, after: str, step_mm: float) -> Said:
    """Return an amount by the thousandths of an inch that stand behind it, or by its own last place."""
    thousandths = re.match(r" \(([\d.]+)\)", after)
    if thousandths:
        return read_amount(f"{thousandths[1]} in")
    return read_amount(amount, 0.0 if amount.endswith("mm") else step_mm)


def find_each(section: str, pattern: str) -> Callable[[Outputs], Telling]:
    """Return what a section tells of each hole; {name} stands for it in the pattern."""

    def read(outputs: Outputs) -> Telling:
        text, found = outputs.words(section), {}
        for name in from_cuts_file(outputs):
            told = re.search(
                fill(pattern.replace("{name}", re.escape(name)).replace("{shape}", re.escape(shape(name)))), text
            )
            if told:
                found[name] = read_exact(told[1], text[told.end(1) :], outputs.step_mm)
        return found

    return read


def from_as_built(which: int) -> Callable[[Outputs], Telling]:
    """Return the drawn diameters of the as-built page: 1 the pail's, 2 the hole's."""

    def read(outputs: Outputs) -> Telling:
        text = outputs.words("as built").partition("Port Pail across")[2]
        told = {
            name: re.search(fill(rf"(?:cut|{{a}}) {re.escape(name)} {{A}} {{A}}"), text) for name in list_ports(outputs)
        }
        return {name: read_exact(found[which], "", outputs.step_mm) for name, found in told.items() if found}

    return read


def from_pilot_step(outputs: Outputs) -> Telling:
    """Return each ring's circle: told for all at once, or port by port."""
    text = find_step(outputs, "pilot holes through the ring")
    alike = re.search(fill(r"holes on a circle {A} across"), text)
    found: dict[str, Said] = {}
    for name in list_ports(outputs):
        told = alike or re.search(fill(rf"(?:across: |; ){re.escape(name)} {{A}}[;.]"), text)
        if told:
            found[name] = read_amount(told[1], 0.0 if told[1].endswith("mm") else outputs.step_mm)
    return found


CUTS_PAGE, CUTS_FILE, DXF, SVG = "cut list page", "cuts.csv", "panel's DXF", "panel's SVG"

HOLES = (
    Fact(
        "hole, across",
        (
            Place(CUTS_PAGE, take(from_cuts_page, 0)),
            Place(CUTS_FILE, take(from_cuts_file, 0)),
            Place(DXF, take(lambda o: from_parts(o, o.parts), 0)),
            Place(SVG, take(lambda o: from_parts(o, o.drawn), 0)),
            Place("template's words", from_templates("FINAL {A}"), may),  # a hole saw's or a machine's has none
            Place(
                "circle settings",
                find_each("circle settings", r"H\d+ hole for {shape} - hole: keep the outside {A}"),
                may,
            ),
            Place(
                "step that cuts the holes",
                find_each("steps", r" {name}: first (?:line|pass) {a}[^:]*? (?:final line|last pass) {A}"),
                is_port_opened,
            ),
            Place("as-built page", from_as_built(2), is_port),
        ),
    ),
    Fact(
        "hole, from left",
        (
            Place(CUTS_PAGE, take(from_cuts_page, 1)),
            Place(CUTS_FILE, take(from_cuts_file, 1)),
            Place(DXF, take(lambda o: from_parts(o, o.parts), 1)),
            Place(SVG, take(lambda o: from_parts(o, o.drawn), 1)),
            Place("step that marks the holes", take(from_step, 1), is_marked),
            Place("panel's drawing", take(from_panel_drawing, 1)),
        ),
    ),
    Fact(
        "hole, up",
        (
            Place(CUTS_PAGE, take(from_cuts_page, 2)),
            Place(CUTS_FILE, take(from_cuts_file, 2)),
            Place(DXF, take(lambda o: from_parts(o, o.parts), 2)),
            Place(SVG, take(lambda o: from_parts(o, o.drawn), 2)),
            Place("step that marks the holes", take(from_step, 2), is_marked),
            Place("panel's drawing", take(from_panel_drawing, 2)),
        ),
    ),
    Fact(
        "first line of a hole, across",
        (
            Place("step that cuts the holes", find_each("steps", r" {name}: first (?:line|pass) {A}"), is_port_opened),
            Place("template's words", from_templates(r"FINAL [^·]*· first cut {A}"), may),
            Place(
                "panel's DXF",
                lambda o: {
                    name: near
                    for number, holes in list_panels(o).items()
                    for name, told in holes.items()
                    if (near := find_first_cut(o, number, told)) is not None
                },
                may,
            ),
        ),
    ),
    Fact(
        "pail, across",
        (
            Place("step that measures the pails", find_each("steps", r"HOLD {name}: across \([^)]*\) {A}"), may),
            Place(
                "step that cuts the collars",
                find_each("steps", r"Measure across at four places, ring on\..*?HOLD {name} {A}"),
                may,
            ),
            Place("as-built page", from_as_built(1), is_port),
        ),
    ),
    Fact(
        "screw circle of a ring, across",
        (
            Place("template's words", from_templates(r"FINAL [^·]*·[^F]*?screw circle {A}"), may),
            Place("step that drills the pilots", from_pilot_step, is_port),
        ),
    ),
)


def find_first_cut(outputs: Outputs, number: str, told: str) -> Said | None:
    """Return the first line's circle round a hole's place in its panel's file."""
    part = next((p for name, p in outputs.parts.items() if name.startswith(f"{number}-") and "-panel" in name), None)
    _, left, up = read_holes(outputs, told)
    circles = [c for c in part.circles if c.layer == "first-cut"] if part else []
    if not circles:
        return None
    near = min(circles, key=lambda c: abs(c.left - float(left.value)) + abs(c.up - float(up.value)))
    return Said(near.across, EXACT)

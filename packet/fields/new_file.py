"""The text of a new project file: commented, valid, with ``about`` before every value nobody measured."""

from __future__ import annotations

import datetime
import re
import string
import textwrap
from collections.abc import Mapping, Sequence

from packet.fields.questions import Query, split_readings

PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._/%+-]*")

FILE = """\
# yaml-language-server: $schema=project.schema.json
# Help while you type, in editors that know YAML: collector-packet schema project > project.schema.json
# The project file of one shop. Every value carries its unit: 5 1/8 in, 10 ft 6 in, 130 mm, 650 cfm, 2.0 inH2O.
# "about" before a value: a common one, not yours. Once you have measured, write yours without "about".
packet: 1

project: {{title: {title}, revision: A, date: {date}}}   # raise the revision whenever you print anew

display: {{system: {system}, paper: {paper}}}   # paper: letter, legal, tabloid, a4 or a3

shop:
  ceiling: {ceiling}
  doorway: {doorway}
  altitude: {altitude}
  flued_appliance: {flued_appliance}

# The two numbers of a plate are the ends of a curve. If you have the maker's curve, write it instead of rating:
#   curve: [{curve}]
blower:
  outlet: {outlet}
  power: {power}
  rating: {{free_flow: {free_flow}, shut_off: {shut_off}, assume_curve: yes}}

{separator}

# Each run names the run it joins; pieces go from the machines toward the blower.
ducts:
  main:
    into: separator
    join: straight
    pieces:
      - {{pipe: {duct}, length: {duct_length}}}
{elbows}
# hood: plain is a bare duct end; pieces: what lies between the machine's port and the main duct; gate: its blast gate.
machines:
{machines}

filters:
  count: {filters}
  media_area: {media_area}
  outside: {filter_outside}
  bore: {filter_bore}
  height: {filter_height}
  weight: {filter_weight}

# inside: auto makes the smallest box that holds everything.
filter_box:
  inside: auto
  panel: {{stock: {panel}, thickness: {thickness}}}
  inlet: {{face: left, diameter: {inlet}}}   # the duct from the blower comes in here

# Measure each pail just below its ring, across at three angles or more; no two pails are the same.
{ports}

# holes: jigsaw, router, trammel, hole saw or cnc; helper: yes shares the steps between two people.
shop_methods: {{holes: {holes}, helper: {helper}}}
"""

SEPARATOR_LOSS = {"inch": "2.0 inH2O at 800 cfm", "metric": "500 Pa at 1360 m3/h"}
HOSE_LENGTH = {"inch": "5 ft", "metric": "1.5 m"}
CURVE = {
    "inch": "[0 cfm, 10 inH2O], [600 cfm, 7 inH2O], [1100 cfm, 1 inH2O]",
    "metric": "[0 m3/h, 2500 Pa], [1000 m3/h, 1800 Pa], [1850 m3/h, 250 Pa]",
}
MEASURED = {"inch": ("11-27/32 in", "11.88 in", "11-7/8 in"), "metric": ("300.8 mm", "301.7 mm", "301.6 mm")}


def write_project_text(answers: Mapping[str, str], skipped: Sequence[Query], date: datetime.date) -> str:
    """Return a project file for the answers, with ``about`` before what the skipped questions would have said."""
    missing = {question.key for question in skipped}
    guessed = {question.key for question in skipped if question.measured}
    said = {key: quote(f"about {answer}" if key in guessed else answer) for key, answer in answers.items()}
    system = "metric" if answers["system"].strip().lower() in ("metric", "mm") else "inch"
    said |= {
        "date": date.isoformat(),
        "system": system,
        "curve": CURVE[system],
        "inlet": guess(answers["outlet"]),
        "separator": write_separator(answers["separator"], system, "separator" in missing),
        "elbows": f"      - {{elbow: {said['duct']}, count: {said['elbows']}}}\n"
        if answers["elbows"].strip() != "0"
        else "",
        "machines": write_machines(answers, system, "machines" in missing),
        "ports": write_ports(answers["filters"], answers["pail"], "pail" in missing, system),
    }
    return FILE.format(**said)


def write_left_out(things: Sequence[str]) -> str:
    """Return the remark at the end of the file: what it does not say and the packet takes as common."""
    if not things:
        return ""
    head = "Not said above, so a common one is taken; measure before you cut:"
    return "\n" + "".join(f"# {line}\n" for line in (head, *textwrap.wrap(", ".join(things) + ".", 110)))


def guess(answer: str) -> str:
    """Return an answer as a value that nobody measured."""
    return quote(f"about {answer}")


def write_separator(answer: str, system: str, skipped: bool) -> str:
    """Return the separator's lines; its loss and capture are guesses until somebody measures them."""
    kind = answer.strip().lower()
    if kind == "none":
        return "separator: none"
    captures = "95 %" if kind == "cyclone" else "75 %"
    said = guess(kind) if skipped else kind
    return f"separator:\n  kind: {said}\n  loss: about {SEPARATOR_LOSS[system]}\n  captures: about {captures}"


def write_machines(answers: Mapping[str, str], system: str, skipped: bool) -> str:
    """Return a block for each machine; how it is connected is a guess until somebody looks."""
    lines = []
    for name, needs in split_machines(answers["machines"]):
        lines += [
            f"  - name: {quote(name)}",
            "    on: main",
            f"    needs: {guess(needs) if skipped else quote(needs)}",
            "    hood: about plain",
            f"    pieces: [{{hose: {guess(answers['hose'])}, length: about {HOSE_LENGTH[system]}}}]",
            f"    gate: {guess(answers['duct'])}",
        ]
    return "\n".join(lines)


def list_ports(filters: str) -> list[tuple[str, str, str]]:
    """Return name, kind and face of a port for each filter, one to reach in and one for the gauge."""
    count = int(filters) if filters.strip().isdecimal() else 1
    hung = [(f"filter {letter}", "filter", "bottom") for letter in string.ascii_uppercase[:count]]
    return [*hung, ("inspection", "inspection", "front"), ("gauge", "gauge", "front")]


def write_ports(filters: str, pail: str, skipped: bool, system: str) -> str:
    """Return the ports: as remarks while no pail was measured; else the measured pail is the first one's, and stands
    for the others, with ``about``, until theirs are measured."""
    readings = MEASURED[system] if skipped else split_readings(pail)
    rows = ["ports:"]
    for number, (name, kind, face) in enumerate(list_ports(filters)):
        across = ", ".join(guess(each) if number and not skipped else quote(each) for each in readings)
        rows.append(f"  - {{name: {name}, kind: {kind}, face: {face}, pail: {{across: [{across}]}}}}")
    if skipped:
        return "\n".join(
            ["# Until then the common five-gallon pail is assumed. For example:", *(f"# {row}" for row in rows)]
        )
    return "\n".join(["# One pail was measured, the first below: taken for the others too: measure each.", *rows])


def split_machines(answer: str) -> list[tuple[str, str]]:
    """Return name and air of each machine in 'planer 600 cfm, band saw 400 cfm'; an empty part where one is missing."""
    found = []
    for part in re.split(r"\s*[;,]\s*", answer.strip(" ,;")):
        match = re.fullmatch(r"(.*\S)[\s:]+(\d[\d.]*\s*[^\s\d].*)", part.strip())
        found.append((match[1].rstrip(" :"), match[2].strip()) if match else (part.strip(), ""))
    return found


def quote(text: str) -> str:
    """Return a text as a YAML value that reads back as typed."""
    text = " ".join(text.split())
    return text if PLAIN.fullmatch(text) else "'" + text.replace("'", "''") + "'"

"""The text of a new project file: commented, valid, with every assumed value marked."""

from __future__ import annotations

import datetime
import re
import string
from collections.abc import Mapping, Sequence

from packet.fields.questions import Query, split_readings

PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._/%+-]*")
MARK = "# assumed"

FILE = """\
# yaml-language-server: $schema=project.schema.json
# Help while you type, in editors that know YAML: collector-packet schema project > project.schema.json
# The project file of one shop. Every value carries its unit: 5 1/8 in, 10 ft 6 in, 130 mm, 650 cfm, 2.0 inH2O.
# Values marked "assumed" are common ones, not yours. Once you have measured one: write it, and take away both its
# mark and its line in the list "assumed" at the end.
packet: 1

project: {{title: {title}, revision: A, date: {date}}}   # raise the revision whenever you print anew

display: {{system: {system}, paper: {paper}}}   # paper: letter, legal, tabloid, a4 or a3

shop:
  ceiling: {ceiling}{ceiling_mark}
  doorway: {doorway}{doorway_mark}
  altitude: {altitude}{altitude_mark}
  flued_appliance: {flued_appliance}{flued_appliance_mark}

# The two numbers of a plate are the ends of a curve. If you have the maker's curve, write it instead of rating:
#   curve: [{curve}]
blower:
  outlet: {outlet}{outlet_mark}
  power: {power}{power_mark}
  rating: {{free_flow: {free_flow}, shut_off: {shut_off}, assume_curve: yes}}{rating_mark}

{separator}

# Each run names the run it joins; pieces go from the machines toward the blower.
ducts:
  main:
    into: separator
    join: straight
    pieces:
      - {{pipe: {duct}, length: {duct_length}}}{duct_mark}
{elbows}
# hood: plain is a bare duct end; pieces: what lies between the machine's port and the main duct; gate: its blast gate.
machines:
{machines}

filters:
  count: {filters}{filters_mark}
  media_area: {media_area}{media_area_mark}
  outside: {filter_outside}{filter_outside_mark}
  bore: {filter_bore}{filter_bore_mark}
  height: {filter_height}{filter_height_mark}
  weight: {filter_weight}{filter_weight_mark}

# inside: auto makes the smallest box that holds everything.
filter_box:
  inside: auto
  panel: {{stock: {panel}, thickness: {thickness}}}{panel_mark}
  inlet: {{face: left, diameter: {outlet}}}   # the duct from the blower comes in here

# Measure each pail just below its ring, across at three angles or more; no two pails are the same.
{ports}

# holes: jigsaw, router, trammel, hole saw or cnc; helper: yes shares the steps between two people.
shop_methods: {{holes: {holes}, helper: {helper}}}{methods_mark}

# Values nobody measured yet. The packet says "assumed, measure before cutting" for each.
assumed:{assumed}
"""

SEPARATOR_LOSS = {"inch": "2.0 inH2O at 800 cfm", "metric": "500 Pa at 1360 m3/h"}
HOSE_LENGTH = {"inch": "5 ft", "metric": "1.5 m"}
CURVE = {
    "inch": "[0 cfm, 10 inH2O], [600 cfm, 7 inH2O], [1100 cfm, 1 inH2O]",
    "metric": "[0 m3/h, 2500 Pa], [1000 m3/h, 1800 Pa], [1850 m3/h, 250 Pa]",
}
MEASURED = {"inch": "11-27/32 in, 11.88 in, 11-7/8 in", "metric": "300.8 mm, 301.7 mm, 301.6 mm"}
SHARED_MARKS = {
    "rating": ("free_flow", "shut_off"),
    "duct": ("duct", "duct_length", "elbows"),
    "panel": ("panel", "thickness"),
    "methods": ("holes", "helper"),
}


def write_project_text(answers: Mapping[str, str], skipped: Sequence[Query], date: datetime.date) -> str:
    """Return a project file for the answers; what the skipped questions would have said is marked assumed."""
    said = {key: quote(answer) for key, answer in answers.items()}
    system = "metric" if answers["system"].strip().lower() in ("metric", "mm") else "inch"
    missing = {question.key for question in skipped}
    assumed = [path for question in skipped for path in question.assumed]
    assumed += list_always_assumed(answers, missing)
    if "pail" not in missing:
        assumed += [f"ports.{name}.pail.across" for name, _, _ in list_ports(answers["filters"])[1:]]
    said |= {
        "date": date.isoformat(),
        "system": system,
        "curve": CURVE[system],
        "separator": write_separator(answers["separator"], system),
        "elbows": f"      - {{elbow: {said['duct']}, count: {said['elbows']}}}\n"
        if answers["elbows"].strip() != "0"
        else "",
        "machines": write_machines(answers["machines"], said["hose"], said["duct"], system, "machines" in missing),
        "ports": write_ports(answers["filters"], answers["pail"], "pail" in missing, system),
    }
    for key in (*answers, *SHARED_MARKS):
        said[f"{key}_mark"] = f"   {MARK}" if missing & set(SHARED_MARKS.get(key, (key,))) else ""
    said["assumed"] = "".join(f"\n  - {quote(path)}" for path in dict.fromkeys(assumed)) if assumed else " []"
    return FILE.format(**said)


def list_always_assumed(answers: Mapping[str, str], missing: set[str]) -> list[str]:
    """Return the paths of what no question asks: loss and capture of the separator, hose and hood of each machine."""
    paths = ["filter_box.inlet"]
    if answers["separator"].strip().lower() != "none":
        paths.append("separator")
    if "machines" not in missing:
        for name, _ in split_machines(answers["machines"]):
            paths += [f"machines.{name}.hood", f"machines.{name}.pieces"]
    return paths


def write_separator(answer: str, system: str) -> str:
    """Return the separator's lines; its loss and capture are always assumed until somebody measures them."""
    kind = answer.strip().lower()
    if kind == "none":
        return "separator: none"
    captures = "95 %" if kind == "cyclone" else "75 %"
    return f"separator:   {MARK}\n  kind: {kind}\n  loss: {SEPARATOR_LOSS[system]}\n  captures: {captures}"


def write_machines(answer: str, hose: str, gate: str, system: str, assumed: bool) -> str:
    """Return a block for each machine; how it is connected is always assumed."""
    lines = []
    for name, needs in split_machines(answer):
        mark = f"   {MARK}" if assumed else ""
        lines += [
            f"  - name: {quote(name)}{mark}",
            "    on: main",
            f"    needs: {quote(needs)}",
            f"    hood: plain   {MARK}",
            f"    pieces: [{{hose: {hose}, length: {HOSE_LENGTH[system]}}}]   {MARK}",
            f"    gate: {gate}",
        ]
    return "\n".join(lines)


def list_ports(filters: str) -> list[tuple[str, str, str]]:
    """Return name, kind and face of a port for each filter, one to reach in and one for the gauge."""
    count = int(filters) if filters.strip().isdecimal() else 1
    hung = [(f"filter {letter}", "filter", "bottom") for letter in string.ascii_uppercase[:count]]
    return [*hung, ("inspection", "inspection", "front"), ("gauge", "gauge", "front")]


def write_ports(filters: str, pail: str, assumed: bool, system: str) -> str:
    """Return the ports: as remarks while no pail was measured; else the measured pail is the first one's, and stands
    for the others, each marked, until theirs are measured."""
    across = MEASURED[system] if assumed else ", ".join(quote(each) for each in split_readings(pail))
    rows = [f"{{name: {name}, kind: {kind}, face: {face}, pail: {{across: [{across}]}}}}"
            for name, kind, face in list_ports(filters)]  # fmt: skip
    if assumed:
        lines = ["ports:", *(f"  - {row}" for row in rows)]
        return "\n".join(
            ["# Until then the common five-gallon pail is assumed. For example:", *(f"# {line}" for line in lines)]
        )
    first, *others = rows
    remark = ["# One pail was measured, the first below: taken for the others too: measure each."]
    return "\n".join([*remark, "ports:", f"  - {first}", *(f"  - {row}   {MARK}" for row in others)])


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

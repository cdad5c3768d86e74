"""The text of a new project file: commented, valid, with every assumed value marked."""

from __future__ import annotations

import datetime
import re
from collections.abc import Mapping, Sequence

from packet.questions import Question

PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ./%+-]*")
WORD_FOR_MARK = "# assumed, measure before cutting"

FILE = """\
# yaml-language-server: $schema=project.schema.json
# Help while you type, in editors that know YAML: collector-packet schema project > project.schema.json
# The project file of one shop. Every value carries its unit: 5 1/8 in, 10 ft 6 in, 130 mm, 650 cfm, 2.0 inH2O.
# Values marked "assumed" are common ones, not yours: measure, correct, and delete their line under "assumed".
packet: 1

project: {{title: {title}, revision: A, date: {date}}}

display: {{system: {system}, paper: {paper}}}

shop:
  ceiling: {ceiling}
  doorway: {doorway}
  altitude: {altitude}
  flued_appliance: {flued_appliance}

# The two numbers of a plate are the ends of a curve. If you have the maker's curve, write it instead of rating:
#   curve: [[0 cfm, 10 inH2O], [600 cfm, 7 inH2O], [1100 cfm, 1 inH2O]]
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
  inlet: {{face: left, diameter: {outlet}}}

# Measure each pail just below its ring at three angles, and write a port for each, for example:
# ports:
#   - {{name: filter A, kind: filter, face: bottom, pail: {{across: [11-27/32 in, 11.88 in, 11-7/8 in]}}}}

shop_methods: {{holes: {holes}, helper: {helper}}}

# Values nobody measured yet. The packet says "assumed, measure before cutting" beside each.
assumed:{assumed}
"""

SEPARATOR_LOSS = {"inch": "2.0 inH2O at 800 cfm", "metric": "500 Pa at 1360 m3/h"}
HOSE_LENGTH = {"inch": "5 ft", "metric": "1.5 m"}


def write_project_text(answers: Mapping[str, str], skipped: Sequence[Question], date: datetime.date) -> str:
    """Return a project file for the answers; what the skipped questions would have said is marked assumed."""
    said = {key: quote(answer) for key, answer in answers.items()}
    system = "metric" if answers["system"].strip().lower() in ("metric", "mm") else "inch"
    assumed = list(dict.fromkeys(path for question in skipped for path in question.assumed))
    said |= {
        "date": date.isoformat(),
        "system": system,
        "separator": write_separator(answers["separator"], system, assumed),
        "elbows": f"      - {{elbow: {said['duct']}, count: {said['elbows']}}}\n"
        if answers["elbows"].strip() != "0"
        else "",
        "machines": write_machines(answers["machines"], said["hose"], said["duct"], system),
    }
    said["assumed"] = "".join(f"\n  - {path}" for path in assumed) if assumed else " []"
    return FILE.format(**said)


def write_separator(answer: str, system: str, assumed: list[str]) -> str:
    """Return the separator's lines; its loss and capture are always assumed until somebody measures them."""
    kind = answer.strip().lower()
    if kind == "none":
        return "separator: none"
    if "separator" not in assumed:
        assumed.append("separator")
    captures = "95 %" if kind == "cyclone" else "75 %"
    return f"separator:  {WORD_FOR_MARK}\n  kind: {kind}\n  loss: {SEPARATOR_LOSS[system]}\n  captures: {captures}"


def write_machines(answer: str, hose: str, gate: str, system: str) -> str:
    lines = []
    for name, needs in split_machines(answer):
        pieces = f"[{{hose: {hose}, length: {HOSE_LENGTH[system]}}}]"
        lines.append(
            f"  - {{name: {quote(name)}, on: main, needs: {quote(needs)}, hood: plain, pieces: {pieces}, gate: {gate}}}"
        )
    return "\n".join(lines)


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

"""Which values that nobody measured a finding leans on: by what it looks at, and by what it speaks of.

One table, by the phrase of what was looked at: the keys of the project file that its number is worked out from. Names
in braces stand for the pails, machines and runs the finding speaks of. A choice of method is never leaned on.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace

from calc.finding import Finding
from calc.project import Given

CLEAN = ("filters.permeability", "filters.loss", "filters.media_area", "filters.count")
SHOP_AIR = ("shop.altitude", "shop.temperature", "shop.humidity")
BLOWER = ("blower.curve", "blower.rating", "blower.outlet")
SEPARATOR = ("separator.loss", "separator.coefficient", "separator.kind")
AIR = (*BLOWER, *SEPARATOR, "link", "delivery", "filter_box.inlet", *SHOP_AIR, *CLEAN)
ONE = (*AIR, "{machine}", "{runs}")
ALL = (*AIR, "machines", "ducts")
DUST = ("dust.made", "dust.hours_a_day", "separator.captures", "filters.residual", "filters.cake_resistance")
PLEATS = ("filters.outside", "filters.bore", "filters.height")
RING = ("{pail}", "closure", "{closure}")
PANEL = ("filter_box.panel", "filter_box.inside")
INSIDE = ("filter_box", "filters.outside", "ports", "closure")
HANGING = ("filters.weight", "filters.count", "dust.made", "filters.media_area", *PLEATS)
WEIGHT = (*INSIDE, "filters.weight", "filters.count", "blower.weight")
PRESSED = ("blower.curve", "blower.rating", *PANEL, *INSIDE)
STACK = ("filter_box", "filters.height", "filters.outside", "ports", "closure")

LEANS: Mapping[str, tuple[str, ...]] = {
    "judging.all_open": ALL,
    "judging.flow": ONE,
    "judging.velocity": ONE,
    "judging.leaks": ALL,
    "judging_ducts": (*ONE, "ducts"),
    "judging.barometer": ("shop.barometer", "shop.altitude"),
    "make_up": (*ALL, "shop.make_up_opening", "shop.appliance_draught", "shop.flued_appliance"),
    "judging.curve": ALL,
    "judging.crossings": ALL,
    "judging.shut_off": ("blower.curve", "blower.rating"),
    "judging.motor": (*ALL, "blower.power", "blower.efficiency"),
    "judging.rating": ("blower.rating",),
    "judging.capture": ("separator.captures",),
    "judging.air_to_media": ALL,
    "judging.hours": (*ALL, *DUST, *PLEATS),
    "judging.media_limit": (*ALL, *DUST, *PLEATS, "filters.most"),
    "judging.clean_me": (*ALL, *DUST, *PLEATS),
    "loading": (*ALL, *DUST),
    "gauge_design": (*ALL, *DUST, *PLEATS, "gauge"),
    "judging.exposure": (*AIR, "noise", "blower.sound", "lining"),
    "fit": (*INSIDE, *RING, "lining"),
    "fit.thickness": PANEL,
    "framing": ("filter_box", "filters.outside", "ports"),
    "mount_findings": (*WEIGHT, "shop.doorway"),
    "mount_findings.door": (*STACK, "shop.doorway"),
    "lids": ("closure", "{closure}", "filters.gasket_inside", "filters.gasket_outside", "filters.bore"),
    "ports": RING,
    "templates": ("{pail}", "closure"),
    "stack_findings": STACK,
    "stack_findings.ceiling": (*STACK, "shop.ceiling"),
    "stack_findings.tilt": (*STACK, "shop.ceiling"),
    "stack_findings.drop": (*STACK, "shop.ceiling"),
    "stack_findings.motor": ("shop.ceiling", "blower.motor_top"),
    "strength_findings": (*WEIGHT, *HANGING),
    "strength_findings.bow": (*PRESSED, *HANGING),
    "strength_findings.stress": (*PRESSED, *HANGING),
    "strength_findings.screws": (*PRESSED, *HANGING),
    "strength_findings.lift": ("filter_box.panel", "filters.weight", "blower.weight"),
    "strength_findings.door": (*INSIDE, "shop.doorway"),
    "sheet": PANEL,
}
"""By the longest beginning of the phrase that stands here."""


def name_leans(project: Given, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return the findings, each with the values that nobody measured and that it leans on."""
    return tuple(replace(finding, leans=list_leans(project, finding)) for finding in findings)


def list_leans(project: Given, finding: Finding) -> tuple[str, ...]:
    """Return the dotted paths a finding leans on that nobody measured, in the order of the project's own list."""
    phrase = finding.what.phrase
    known = [start for start in LEANS if phrase == start or phrase.startswith((f"{start}.", f"{start}_"))]
    if not known:
        return ()
    keys = [key for row in LEANS[max(known, key=len)] for key in fill_names(row, project, finding)]
    return tuple(path for path in project.assumed if any(is_part(path, key) for key in keys))


def fill_names(key: str, project: Given, finding: Finding) -> list[str]:
    """Return a row's key for each thing the finding speaks of, or the key itself."""
    names = {kind: [one.name for one in finding.subjects if one.kind == kind] for kind in ("machine", "run")}
    ports = [one.name for one in finding.subjects if one.kind in ("pail", "port") and one.name]
    match key:
        case "{machine}":
            return [f"machines.{name}" for name in names["machine"]] if names["machine"] else ["machines"]
        case "{runs}":
            ends = [*(machine.on for machine in project.machines if machine.name in names["machine"]), *names["run"]]
            return [f"ducts.{run}" for end in ends for run in follow_runs(project, end)]
        case "{pail}":
            return [f"ports.{name}.pail" for name in ports]
        case "{closure}":
            return [f"ports.{name}.closure" for name in ports]
    return [key]


def follow_runs(project: Given, name: str) -> list[str]:
    """Return a run and all the runs its air goes on through."""
    into = {run.name: run.into for run in project.runs}
    found: list[str] = []
    while name in into and name not in found:
        found.append(name)
        name = into[name]
    return found


def is_part(path: str, key: str) -> bool:
    """Tell whether a path is under a key, or holds it. The name of one of several kinds of filter does not matter."""
    if key.startswith("filters."):
        path = re.sub(r"^filters(?:\[\d+\]|\.[^.]+(?=\.))", "filters", path)
    if path.startswith("machines.") and key.startswith("machines.") and path.count(".") < 2 and "[" not in path:
        return True
    return any(one == other or one.startswith((f"{other}.", f"{other}[")) for one, other in ((path, key), (key, path)))

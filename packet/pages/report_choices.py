"""What else could be built: filters, trunk diameters, shorter hoses, and the smallest change that mends each fault."""

from __future__ import annotations

from typing import Any

from packet.job import Job
from packet.pages.amounts import bare, duct, full, head
from packet.pages.kit import Kit
from packet.pages.report_findings import begin_large
from packet.say import say, write


def make_blocks(job: Job, kit: Kit) -> list[Any]:
    """Return the choice tables; the row of the design as it is carries a mark."""
    sizing = job.sizing
    blocks: list[Any] = [kit.heading("Choices", 2)]
    if sizing.remedies:
        blocks += [kit.heading("Smallest single change that mends it", 3), _table_remedies(job, kit)]
    if sizing.trunk_choices:
        blocks += [kit.heading("Diameter of the main runs", 3), _table_trunks(job, kit)]
    filters = [kit.heading("How many filters", 3), _table_filters(job, kit)] if sizing.filter_choices else []
    hoses = [kit.heading("Shorter hoses", 3), _table_hoses(job, kit)] if sizing.hose_choices else []
    if filters and hoses and len(sizing.hose_choices) <= 12:
        blocks.append(kit.columns([filters, hoses], (97, 85)))
    else:
        blocks += filters + hoses
    if len(blocks) == 1:
        return []
    blocks.insert(
        1, kit.text("Each line is the whole shop calculated again with that one change. → marks the design as it is.")
    )
    return blocks


def _mark(is_design: bool) -> str:
    return "→" if is_design else ""


def _table_remedies(job: Job, kit: Kit) -> Any:
    reader = kit.reader
    names = {f.key: begin_large(say(f.what, reader)) for f in job.findings}
    rows: list[list[Any]] = [["For", "Change", "Before", "After", "Then"]]
    rows += [
        [
            names.get(r.finding, r.finding),
            begin_large(say(r.what, reader)),
            write(r.before, reader),
            write(r.after, reader),
            kit.mark(r.verdict),
        ]
        for r in job.sizing.remedies
    ]
    return kit.table(rows, (62, 71, 17.5, 17.5, 14), align="llrrl", size=8.0)


def _table_filters(job: Job, kit: Kit) -> Any:
    reader = kit.reader
    rows: list[list[Any]] = [
        ["", "Filters", head("Flow", "flow_m3s", reader),
         head("Air to media", "face_speed_ms", reader), head("Gauge, clean", "pressure_pa", reader),
         head("Clean every", "time_h", reader), "Short of air"]
    ]  # fmt: skip
    for c in job.sizing.filter_choices:
        hours = "never" if c.hours is None else bare(c.hours, "time_h", reader)
        rows.append(
            [_mark(c.is_design), str(c.count), bare(c.flow_m3s, "flow_m3s", reader),
             bare(c.face_speed_ms, "face_speed_ms", reader), bare(c.reading_pa, "pressure_pa", reader), hours,
             str(c.machines_short)]
        )  # fmt: skip
    return kit.table(rows, (6, 13, 14, 16, 15, 15, 11), align="lrrrrrr", size=8.4, width_mm=90)


def _table_trunks(job: Job, kit: Kit) -> Any:
    reader = kit.reader
    rows: list[list[Any]] = [
        ["", "Diameter", "Worst machine", head("Gets", "flow_m3s", reader), head("Needs", "flow_m3s", reader),
         head("Slowest", "speed_ms", reader), head("Wanted", "speed_ms", reader), head("Loss", "pressure_pa", reader),
         "Machines short", "Runs settling"]
    ]  # fmt: skip
    for c in job.sizing.trunk_choices:
        rows.append(
            [_mark(c.is_design), duct(c.diameter_m, reader), c.machine, bare(c.flow_m3s, "flow_m3s", reader),
             bare(c.needs_m3s, "flow_m3s", reader), bare(c.speed_ms, "speed_ms", reader),
             bare(c.limit_ms, "speed_ms", reader), bare(c.loss_pa, "pressure_pa", reader), str(c.machines_short),
             str(c.runs_settling)]
        )  # fmt: skip
    return kit.table(rows, (8, 20, 34, 16, 16, 18, 18, 18, 18, 16), align="lllrrrrrrr", size=8.6)


def _table_hoses(job: Job, kit: Kit) -> Any:
    reader = kit.reader
    rows: list[list[Any]] = [
        ["Machine", "Hose now", "Cut to", head("Gets now", "flow_m3s", reader), head("Then", "flow_m3s", reader)]
    ]
    for c in job.sizing.hose_choices:
        rows.append(
            [
                c.machine,
                full(c.length_m, "length_m", reader),
                full(c.shorter_m, "length_m", reader),
                bare(c.flow_m3s, "flow_m3s", reader),
                bare(c.flow_shorter_m3s, "flow_m3s", reader),
            ]
        )
    return kit.table(rows, (25, 16, 16, 14, 14), align="lllrr", size=8.4, width_mm=85)

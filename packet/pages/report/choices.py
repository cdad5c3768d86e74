"""What else could be built: other main ducts, more or fewer filters, shorter hoses."""

from __future__ import annotations

from typing import Any

from packet.job import AirJob
from packet.pages.kit.kit import Kit
from packet.words.amounts import bare, bare_band, duct, full, head
from packet.words.phrases import Phrases, take_words


def make_blocks(job: AirJob, kit: Kit) -> list[Any]:
    """Return the choice tables; the row of the design as it is carries a mark."""
    sizing, words = job.sizing, take_words("report_choices", kit.reader.language)
    blocks: list[Any] = [kit.heading(words("title"), 2)]
    if sizing.trunk_choices:
        blocks += [kit.heading(words("trunks"), 3), kit.keep([_table_trunks(job, kit, words)])]
    filters = [kit.heading(words("filters"), 3), _table_filters(job, kit, words)] if sizing.filter_choices else []
    hoses = [kit.heading(words("hoses"), 3), _table_hoses(job, kit, words)] if sizing.hose_choices else []
    if filters and hoses and len(sizing.hose_choices) <= 12:
        blocks.append(kit.keep([kit.columns([filters, hoses], (97, 85))]))
    else:
        blocks += filters + hoses
    if len(blocks) == 1:
        return []
    blocks.insert(1, kit.text(words("lead")))
    return blocks


def _table_filters(job: AirJob, kit: Kit, words: Phrases) -> Any:
    reader = kit.reader
    rows: list[list[Any]] = [
        ["", words("filters_count"), head(words("filters_flow"), "flow_m3s", reader),
         head(words("filters_face_speed"), "face_speed_ms", reader),
         head(words("filters_reading"), "pressure_pa", reader),
         head(words("filters_hours"), "time_h", reader), words("filters_short")]
    ]  # fmt: skip
    for c in job.sizing.filter_choices:
        hours = words("never") if c.hours is None else bare_band(c.hours, "time_h", reader)
        rows.append(
            [words("design") if c.is_design else "", str(c.count), bare(c.flow_m3s, "flow_m3s", reader),
             bare(c.face_speed_ms, "face_speed_ms", reader), bare(c.reading_pa, "pressure_pa", reader), hours,
             str(c.machines_short)]
        )  # fmt: skip
    return kit.table(rows, (6, 12, 13, 15, 14, 20, 10), align="lrrrrrr", size=8.4, width_mm=90)


def _table_trunks(job: AirJob, kit: Kit, words: Phrases) -> Any:
    reader = kit.reader
    rows: list[list[Any]] = [
        ["", words("trunk_diameter"), words("trunk_machine"), head(words("trunk_gets"), "flow_m3s", reader),
         head(words("trunk_needs"), "flow_m3s", reader), head(words("trunk_speed"), "speed_ms", reader),
         head(words("trunk_wanted"), "speed_ms", reader), head(words("trunk_loss"), "pressure_pa", reader),
         words("trunk_short"), words("trunk_settling")]
    ]  # fmt: skip
    for c in job.sizing.trunk_choices:
        rows.append(
            [words("design") if c.is_design else "", duct(c.diameter_m, reader), c.machine,
             bare(c.flow_m3s, "flow_m3s", reader), bare(c.needs_m3s, "flow_m3s", reader),
             bare(c.speed_ms, "speed_ms", reader),
             bare(c.limit_ms, "speed_ms", reader), bare(c.loss_pa, "pressure_pa", reader), str(c.machines_short),
             str(c.runs_settling)]
        )  # fmt: skip
    return kit.table(rows, (7, 18, 33, 14, 14, 18, 16, 16, 23, 23), align="lllrrrrrrr", size=8.6)


def _table_hoses(job: AirJob, kit: Kit, words: Phrases) -> Any:
    reader = kit.reader
    rows: list[list[Any]] = [
        [
            words("hose_machine"),
            words("hose_now"),
            words("hose_cut"),
            head(words("hose_gets_now"), "flow_m3s", reader),
            head(words("hose_then"), "flow_m3s", reader),
        ]
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

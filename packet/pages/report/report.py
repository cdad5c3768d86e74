"""The sizing report: what was found first, then the pictures and tables that show why."""

from __future__ import annotations

from typing import Any

from packet.job import AirJob, AnyJob
from packet.pages.kit.kit import Kit
from packet.pages.report import air as report_air
from packet.pages.report import choices as report_choices
from packet.pages.report import filters as report_filters
from packet.pages.report import findings as report_findings
from packet.pages.report import losses as report_losses
from packet.pages.report import power as report_power
from packet.pages.report import room as report_room
from packet.words.phrases import take_words


def make_story(job: AnyJob, kit: Kit) -> list[Any]:
    """Return the report's blocks."""
    words = take_words("report", kit.reader.language)
    if not isinstance(job, AirJob):
        return [kit.heading(words("title_findings")), *report_findings.make_blocks(job, kit)[1:]]
    return [
        kit.heading(words("title")),
        *report_findings.make_blocks(job, kit),
        *report_air.make_blocks(job, kit),
        *report_power.make_blocks(job, kit),
        *report_losses.make_blocks(job, kit),
        *report_filters.make_blocks(job, kit),
        *report_choices.make_blocks(job, kit),
        *report_room.make_blocks(job, kit),
    ]

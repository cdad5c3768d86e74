"""The cautions section: all that applies to this project on one place, and the glossary of the trade's terms."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from packet.pages.caution_panel import PanelColumns, make_panels
from packet.pages.kit import Kit

if TYPE_CHECKING:
    from packet.job import Job


def make_story(job: Job, kit: Kit) -> list[Any]:
    """Return the section: what is not designed here, the cautions, gravest first, and the glossary."""
    plan, phrases = job.plan, job.plan.helper.phrases
    first = sorted(plan.cautions, key=lambda caution: caution.id != "scope")
    panels = make_panels(first, plan.helper.signals)
    story: list[Any] = [kit.heading(phrases["cautions"])]
    story += [kit.keep([kit.text(phrases["cautions_first"]), panels[0]]), PanelColumns(panels[1:])]
    rows = [[term.word, term.meaning] for term in plan.glossary]
    half = (len(rows) + 1) // 2
    width = kit.frame_width_mm / 2 - 4
    tables = [
        kit.table(part, [24, width - 24 - 3], header_rows=0, style="plain", size=8.2, width_mm=width)
        for part in (rows[:half], rows[half:])
    ]
    story += [kit.keep([kit.heading("Terms of the trade", level=2), kit.columns([[tables[0]], [tables[1]]])])]
    return story

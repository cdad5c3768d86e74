"""The cautions section: all that applies to this project on one place, and the glossary of the trade's terms."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from packet.pages.kit.caution_panel import PanelColumns, make_panels
from packet.pages.kit.kit import Kit

if TYPE_CHECKING:
    from packet.job import AnyJob


COLUMNS = 3  # of terms


def make_story(job: AnyJob, kit: Kit) -> list[Any]:
    """Return the section: what is not designed here, the cautions, gravest first, and the glossary."""
    plan, phrases = job.plan, job.plan.helper.phrases
    first = sorted(plan.cautions, key=lambda caution: caution.id != "scope")
    panels = make_panels(first, plan.helper.signals)
    story: list[Any] = [kit.heading(phrases("cautions"))]
    story += [kit.keep([kit.text(phrases("cautions_first")), panels[0]]), PanelColumns(panels[1:])]
    return [*story, kit.keep([kit.heading(phrases("terms"), level=2), _list_terms(job, kit)])]


def _list_terms(job: AnyJob, kit: Kit) -> Any:
    """Return the terms of the trade in columns, each word bold before its meaning."""
    terms = [
        kit.rich(f"<b>{kit.escape(term.word)}</b> {kit.escape(term.meaning)}", "cell") for term in job.plan.glossary
    ]
    tall = -(-len(terms) // COLUMNS)
    return kit.columns([terms[start : start + tall] for start in range(0, COLUMNS * tall, tall)])

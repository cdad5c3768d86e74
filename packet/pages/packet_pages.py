"""The packet's pages: each section with the page module that tells its story."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import IO

from packet.job import AirJob, AnyJob, BoxJob, GaugeJob, Job
from packet.pages import (
    as_built,
    bill,
    cautions,
    circle_settings,
    commissioning,
    contents,
    cover,
    cuts,
    drawings,
    gauge_cards,
    labels,
    maintenance,
    print_check,
    steps,
    templates,
)
from packet.pages.kit.document import Pages, write_chapters
from packet.pages.kit.kit import Kit
from packet.pages.kit.sections import Chapter, Section, Story, pick_sections
from packet.pages.report import report, worked
from packet.words.languages import choose_language

CONTENTS = "contents"
"""It tells of all the others, and is made last."""

Tell = Callable[[AnyJob, Kit], Story]


def of_air(tell: Callable[[AirJob, Kit], Story]) -> Tell:
    """Return what tells a section of the air, and nothing where no air is sized."""
    return lambda job, kit: tell(job, kit) if isinstance(job, AirJob) else []


def of_box(tell: Callable[[BoxJob, Kit], Story]) -> Tell:
    """Return what tells a section of the box, and nothing where no box is built."""
    return lambda job, kit: tell(job, kit) if isinstance(job, BoxJob) else []


def of_gauge(tell: Callable[[GaugeJob, Kit], Story]) -> Tell:
    """Return what tells a section of the gauge, and nothing where none is built."""
    return lambda job, kit: tell(job, kit) if isinstance(job, GaugeJob) else []


def of_shop(tell: Callable[[Job, Kit], Story]) -> Tell:
    """Return what tells a section of a whole shop, and nothing where a part of one is left out."""
    return lambda job, kit: tell(job, kit) if isinstance(job, Job) else []


STORIES: Mapping[str, Tell] = {
    "cover": cover.make_story,
    "print-check": print_check.make_story,
    "report": report.make_story,
    "bill": bill.make_story,
    "cuts": of_box(cuts.make_story),
    "drawings": of_box(drawings.make_story),
    "circles": circle_settings.make_story,
    "gauge": of_gauge(gauge_cards.make_story),
    "steps": steps.make_story,
    "cautions": cautions.make_story,
    "commissioning": of_shop(commissioning.make_story),
    "as-built": of_shop(as_built.make_story),
    "maintenance": of_gauge(maintenance.make_story),
    "worked": of_air(worked.make_story),
    "labels": of_air(labels.make_story),
    "templates": templates.make_story,
}
"""What makes each section of packet/pages/kit/sections.py, by its key."""


def write_packet(job: AnyJob, stream: IO[bytes], only: tuple[str, ...] | None = None) -> Pages:
    """Write the packet's PDF. Raises KeyError when `only` names a section there is not."""
    kit = Kit(job.project.display.paper, job.reader)
    language = choose_language(job.project.display.language)
    chapters = make_chapters(job, kit, pick_sections(only, job.has))
    return write_chapters(job, kit, chapters, stream, job.project.title.title, language)


def make_chapters(job: AnyJob, kit: Kit, sections: Sequence[Section]) -> list[Chapter]:
    """Return the stories of the sections; the contents page is made last, when all headings are known."""
    chapters: dict[str, Chapter] = {}
    for section in sorted(sections, key=lambda section: section.key == CONTENTS):
        kit.section, kit.number = section.key, section.number
        made = list(chapters.values())
        story = contents.make_story(job, kit, made) if section.key == CONTENTS else STORIES[section.key](job, kit)
        chapters[section.key] = Chapter(section, story)
    return [chapters[section.key] for section in sections]

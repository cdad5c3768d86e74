"""The helper's sheet on paper: two sides at most, large type, nothing but what the helper does and must know."""

from __future__ import annotations

from itertools import groupby
from typing import IO, TYPE_CHECKING, Any

from packet.pages.kit.columns import BlockGroup, lay_columns, make_painter
from packet.pages.kit.document import write_chapters
from packet.pages.kit.forms import WriteLine
from packet.pages.kit.kit import Kit
from packet.pages.kit.panels import SignalWords, StopPanel, TitleBar
from packet.pages.kit.sections import Chapter, Section
from packet.work.model import HelperSheet, HelperStep

if TYPE_CHECKING:
    from packet.job import AnyJob

MOST_PAGES = 2
SIZES = tuple(round(13.0 - 0.2 * step, 1) for step in range(21))
"""Sizes of type [pt] tried from large to small until the sheet fits on two sides."""

BULLET = "handout-bullet"


def write_helper_pdf(job: AnyJob, stream: IO[bytes]) -> None:
    """Write the helper's sheet, in the largest type that fits on two sides."""
    kit = Kit(job.project.display.paper, job.reader)
    kit.section = "helper"
    for size in SIZES:
        sides = lay_columns(_make_groups(job.plan.helper, kit, size, job.project.title.title), kit.full_frame)
        if len(sides) <= MOST_PAGES:
            break
    story: list[Any] = []
    for number, side in enumerate(sides, start=1):
        page = kit.full_page(make_painter(side), f"{job.plan.helper.phrases('sheet')}, {number}", level=1)
        page.height -= 1  # room for the section's closing mark, which would begin a page of its own
        story.append(page)
    title = f"{job.plan.helper.phrases('sheet')}: {job.project.title.title}"
    write_chapters(job, kit, [Chapter(Section("helper", title), story)], stream, title, job.plan.helper.language)


def _make_groups(sheet: HelperSheet, kit: Kit, size: float, title: str) -> list[BlockGroup]:
    words, gap = sheet.phrases, size * 0.45
    tools = list(dict.fromkeys(tool for step in sheet.steps for tool in step.tools))
    return [
        _make_title(sheet, kit, size, title),
        BlockGroup((StopPanel(words("stop_if"), kit.bullets(sheet.stop, BULLET, size), size),)),
        _make_blanks(sheet, kit, size),
        BlockGroup((_make_heading(kit, words("wear"), size), *kit.bullets(sheet.wear, BULLET, size)), after=gap),
        BlockGroup(
            (_make_heading(kit, words("lay_out"), size), *kit.bullets([", ".join(tools) + "."], BULLET, size)),
            after=gap,
        ),
        *_warn(sheet, kit, size),
        *_make_steps(sheet, kit, size),
    ]


def _make_heading(kit: Kit, text: str, size: float) -> Any:
    return kit.text(text, "handout-strong", size + 1)


def _make_title(sheet: HelperSheet, kit: Kit, size: float, title: str) -> BlockGroup:
    return BlockGroup(
        (
            kit.text(sheet.phrases("sheet"), "handout-strong", size * 1.75),
            kit.text(title, "handout", size),
            kit.text(sheet.phrases("numbers"), "handout-note", size - 2),
        ),
        after=4.0,
    )


def _make_blanks(sheet: HelperSheet, kit: Kit, size: float) -> BlockGroup:
    """Return whom to ask, with a line to write on below each."""
    blocks: list[Any] = [_make_heading(kit, sheet.phrases("ask"), size)]
    for each in kit.bullets(sheet.ask, BULLET, size):
        blocks += [each, WriteLine(size * 0.9, each.style.leftIndent)]
    return BlockGroup(tuple(blocks), after=size * 0.45)


def _warn(sheet: HelperSheet, kit: Kit, size: float) -> list[BlockGroup]:
    """Return the cautions of each signal word in a paragraph: what to do, short."""
    heading, warned = _make_heading(kit, sheet.phrases("cautions"), size), []
    for signal, group in groupby(sheet.cautions, key=lambda caution: caution.signal):
        words = kit.escape(". ".join(caution.short for caution in group) + ".")
        warned.append(SignalWords(signal, kit.escape(sheet.signals[signal]), words, size - 0.5))
    return [BlockGroup((heading,), after=size * 0.35, with_next=True), *(BlockGroup((each,)) for each in warned)]


def _make_steps(sheet: HelperSheet, kit: Kit, size: float) -> list[BlockGroup]:
    """Return each step: number in the builder's packet, title, who, minutes, lift, ticks."""
    heading, groups = _make_heading(kit, sheet.phrases("steps"), size), []
    for step in sheet.steps:
        groups.append(BlockGroup(tuple(_make_step(step, sheet, kit, size)), size * 2.0, size * 0.45 + 1))
    return [BlockGroup((heading,), after=size * 0.35, with_next=True), *groups]


def _make_step(step: HelperStep, sheet: HelperSheet, kit: Kit, size: float) -> list[Any]:
    words = sheet.phrases
    who = words("both") if step.with_builder else words("you")
    bar = TitleBar(str(step.number), step.title, f"{who} · {step.minutes:.0f} {words('minutes')}", size)
    lift = [kit.text(f"{words('lift')}: {step.lift}", "handout-strong", size - 0.5)] if step.lift else []
    return [bar, *lift, *(kit.tick(line, "handout", size) for line in step.lines)]

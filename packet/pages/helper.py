"""The helper's sheet on paper: two sides at most, large type, nothing but what the helper does and must know."""

from __future__ import annotations

from itertools import groupby
from typing import IO, TYPE_CHECKING, Any

from packet.draw.fonts import BODY, BOLD, clean_text, measure_text
from packet.pages.kit.document import write_chapters
from packet.pages.kit.flow import Painter, break_words
from packet.pages.kit.kit import Kit
from packet.pages.kit.panels import PANELS, draw_alert_sign
from packet.pages.kit.sections import Chapter, Section
from packet.pages.kit.style import BLACK, DARK, MM, WASH, Frame
from packet.work.model import Caution, HelperSheet, HelperStep

if TYPE_CHECKING:
    from packet.job import Job

MOST_PAGES = 2
SIZES = tuple(round(13.0 - 0.2 * step, 1) for step in range(21))
"""Sizes of type [pt] tried from large to small until the sheet fits on two sides."""

GUTTER = 6 * MM
FOOT = 6 * MM


def write_helper_pdf(job: Job, stream: IO[bytes]) -> None:
    """Write the helper's sheet, in the largest type that fits on two sides."""
    kit = Kit(job.project.display.paper, job.reader)
    kit.section = "helper"
    size = next((each for each in SIZES if _count_pages(job.plan.helper, kit, each) <= MOST_PAGES), SIZES[-1])
    sides = _lay_pages(job.plan.helper, kit, size, job.project.title.title)
    story: list[Any] = []
    for number, side in enumerate(sides, start=1):
        page = kit.full_page(_make_painter(side), f"{job.plan.helper.phrases('sheet')}, {number}", level=1)
        page.height -= 1  # room for the section's closing mark, which would begin a page of its own
        story.append(page)
    title = f"{job.plan.helper.phrases('sheet')}: {job.project.title.title}"
    write_chapters(
        job, kit, [Chapter(Section("helper", "helper", title), story)], stream, title, job.plan.helper.language
    )


# --- laying out ---------------------------------------------------------------------------------------------------


class Block:
    """A piece of the sheet with a known height at a width; draw(canvas, left, top)."""

    height = 0.0

    def draw(self, canvas: Any, left: float, top: float) -> None:
        raise NotImplementedError


class TextBlock(Block):
    """A bold heading and points below it; mark: what stands before each point (``tick``, ``dot`` or ``line``)."""

    def __init__(self, title: str, points: list[str], width: float, size: float, mark: str) -> None:
        self.size, self.leading, self.mark, self.width = size, size * 1.2, mark, width
        self.title = break_words(clean_text(title), width, size + 1, BOLD) if title else []
        self.points = [break_words(clean_text(text), width - size - 3, size) for text in points]
        rows = sum(len(lines) for lines in self.points)
        extra = size * 0.9 if mark == "line" else 0.0
        self.height = len(self.title) * (self.leading + 1.5) + rows * self.leading + extra * len(points) + size * 0.45

    def draw(self, canvas: Any, left: float, top: float) -> None:
        canvas.setFillGray(BLACK)
        canvas.setFont(BOLD, self.size + 1)
        y = top
        for line in self.title:
            canvas.drawString(left, y - self.size, line)
            y -= self.leading + 1.5
        canvas.setFont(BODY, self.size)
        for lines in self.points:
            self._draw_mark(canvas, left, y)
            for line in lines:
                canvas.drawString(left + self.size + 3, y - self.size, line)
                y -= self.leading
            if self.mark == "line":
                y -= self.size * 0.9
                canvas.setLineWidth(0.5)
                canvas.line(left + self.size + 3, y + 1, left + self.width, y + 1)

    def _draw_mark(self, canvas: Any, left: float, y: float) -> None:
        if self.mark == "tick":
            canvas.setStrokeGray(BLACK)
            canvas.setLineWidth(0.9)
            canvas.rect(left + 0.5, y - self.size, self.size * 0.84, self.size * 0.84)
        else:
            canvas.drawString(left + 3, y - self.size, "•")


class StopBlock(Block):
    """The stop conditions, black on white in a heavy frame: the first thing the eye finds."""

    def __init__(self, sheet: HelperSheet, width: float, size: float) -> None:
        self.width, self.title, self.size = width, clean_text(sheet.phrases("stop_if")), size
        self.inner = TextBlock("", list(sheet.stop), width - 14, size, "dot")
        self.height = self.inner.height + size * 1.7 + 8

    def draw(self, canvas: Any, left: float, top: float) -> None:
        bar = self.size * 1.7
        canvas.setFillGray(BLACK)
        canvas.rect(left, top - bar, self.width, bar, stroke=0, fill=1)
        canvas.setStrokeGray(BLACK)
        canvas.setLineWidth(1.8)
        canvas.rect(left, top - self.height + 4, self.width, self.height - 4)
        canvas.setFillGray(1)
        canvas.setFont(BOLD, self.size + 2)
        canvas.drawString(left + 7, top - bar + self.size * 0.5, self.title)
        self.inner.draw(canvas, left + 7, top - bar - 3)


class StepBlock(Block):
    """One of the helper's steps: number in the builder's packet, title, who, minutes, lift, ticks."""

    def __init__(self, step: HelperStep, sheet: HelperSheet, width: float, size: float) -> None:
        phrases = sheet.phrases
        self.number, self.width, self.size, self.small = str(step.number), width, size, size - 1.5
        who = phrases("both") if step.with_builder else phrases("you")
        self.about = clean_text(f"{who} · {step.minutes:.0f} {phrases('minutes')}")
        self.indent = size * 2.0
        aside = measure_text(self.about, self.small) + 6
        self.head = break_words(clean_text(step.title), width - self.indent - aside, size + 0.5, BOLD)
        lift = clean_text(f"{phrases('lift')}: {step.lift}") if step.lift else ""
        self.lift = break_words(lift, width - self.indent, size - 0.5, BOLD) if lift else []
        self.ticks = TextBlock("", list(step.lines), width - self.indent, size, "tick")
        above = len(self.head) * size * 1.3 + len(self.lift) * size * 1.15 + 1
        self.height = above + self.ticks.height + 1

    def draw(self, canvas: Any, left: float, top: float) -> None:
        size, x = self.size, left + self.indent
        canvas.setFillGray(WASH)
        canvas.rect(left, top - size * 1.3 * len(self.head), self.width, size * 1.3 * len(self.head), stroke=0, fill=1)
        canvas.setFillGray(BLACK)
        canvas.setFont(BOLD, size + 1)
        canvas.drawString(left + 2, top - size, self.number)
        canvas.setFont(BODY, self.small)
        canvas.drawRightString(left + self.width - 2, top - size, self.about)
        y = top
        for lines, font, high, leading in ((self.head, BOLD, size + 0.5, 1.3), (self.lift, BOLD, size - 0.5, 1.15)):
            canvas.setFont(font, high)
            for line in lines:
                canvas.drawString(x, y - size, line)
                y -= size * leading
        self.ticks.draw(canvas, x, y - 1)


class CautionBlock(Block):
    """The cautions of one signal word in a paragraph: what to do, short."""

    def __init__(self, signal: str, cautions: list[Caution], sheet: HelperSheet, width: float, size: float) -> None:
        self.label, self.size = clean_text(sheet.signals[signal]), size
        self.alert = PANELS[signal][3]
        self.indent = measure_text(self.label, self.size, BOLD) + (self.size * 1.3 if self.alert else 0.0) + 4
        words = clean_text(". ".join(caution.short for caution in cautions) + ".")
        first = break_words(words, width - self.indent, self.size)
        rest = words[len(first[0]) :].lstrip()
        self.lines = [first[0], *(break_words(rest, width, self.size) if rest else [])]
        self.height = len(self.lines) * self.size * 1.2 + 3

    def draw(self, canvas: Any, left: float, top: float) -> None:
        x = left
        if self.alert:
            draw_alert_sign(canvas, x, top - self.size, self.size, 0.0, 1.0)
            x += self.size * 1.3
        canvas.setFillGray(BLACK)
        canvas.setFont(BOLD, self.size)
        canvas.drawString(x, top - self.size, self.label)
        canvas.setFont(BODY, self.size)
        canvas.drawString(left + self.indent, top - self.size, self.lines[0])
        for number, line in enumerate(self.lines[1:], start=1):
            canvas.drawString(left, top - self.size - number * self.size * 1.2, line)


class TitleBlock(Block):
    def __init__(self, sheet: HelperSheet, title: str, width: float, size: float) -> None:
        self.size, self.width = size, width
        self.words = clean_text(sheet.phrases("sheet"))
        self.title = break_words(clean_text(title), width, size)
        self.note = break_words(clean_text(sheet.phrases("numbers")), width, size - 2)
        self.height = size * 2.3 + len(self.title) * size * 1.25 + len(self.note) * (size - 2) * 1.25 + 4

    def draw(self, canvas: Any, left: float, top: float) -> None:
        canvas.setFillGray(BLACK)
        canvas.setFont(BOLD, self.size * 1.75)
        canvas.drawString(left, top - self.size * 1.6, self.words)
        y = top - self.size * 2.2
        canvas.setFont(BODY, self.size)
        for line in self.title:
            canvas.drawString(left, y - self.size, line)
            y -= self.size * 1.25
        canvas.setFillGray(DARK)
        canvas.setFont(BODY, self.size - 2)
        for line in self.note:
            canvas.drawString(left, y - self.size + 2, line)
            y -= (self.size - 2) * 1.25


Placed = tuple[Block, float, float]


def _make_painter(side: list[Placed]) -> Painter:
    """Return what paints one side of the sheet, its blocks already placed from the frame's upper left corner."""

    def paint(canvas: Any, frame: Frame) -> None:
        for block, left, down in side:
            block.draw(canvas, frame.left + left, frame.top - down)

    return paint


def _make_blocks(sheet: HelperSheet, width: float, size: float, title: str) -> list[Block]:
    phrases = sheet.phrases
    tools = list(dict.fromkeys(tool for step in sheet.steps for tool in step.tools))
    blocks: list[Block] = [
        TitleBlock(sheet, title, width, size),
        StopBlock(sheet, width, size),
        TextBlock(phrases("ask"), list(sheet.ask), width, size, "line"),
        TextBlock(phrases("wear"), list(sheet.wear), width, size, "dot"),
        TextBlock(phrases("lay_out"), [", ".join(tools) + "."], width, size, "dot"),
        TextBlock(phrases("cautions"), [], width, size, "dot"),
    ]
    for signal, group in groupby(sheet.cautions, key=lambda caution: caution.signal):
        blocks.append(CautionBlock(signal, list(group), sheet, width, size - 0.5))
    blocks.append(TextBlock(phrases("steps"), [], width, size, "dot"))
    return blocks + [StepBlock(step, sheet, width, size) for step in sheet.steps]


def _lay_pages(sheet: HelperSheet, kit: Kit, size: float, title: str) -> list[list[Placed]]:
    """Return sides of two columns, filled downwards; a block never breaks."""
    frame = kit.full_frame
    width, tall = (frame.width - GUTTER) / 2, frame.height - FOOT
    pages: list[list[Placed]] = [[]]
    column, y = 0, 0.0
    for block in _make_blocks(sheet, width, size, title):
        if y and y + block.height > tall:
            column, y = column + 1, 0.0
            if column == 2:
                pages.append([])
                column = 0
        pages[-1].append((block, column * (width + GUTTER), y))
        y += block.height
    return pages


def _count_pages(sheet: HelperSheet, kit: Kit, size: float) -> int:
    return len(_lay_pages(sheet, kit, size, ""))

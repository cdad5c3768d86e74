"""The cover: what is built, does it fit, what to buy, what to print, in which order."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from typing import Any

from reportlab.platypus import Flowable

from calc.finding import Finding, Verdict
from calc.project import Project
from packet.assumed import count_assumed
from packet.draw.exploded import draw_together
from packet.job import Job
from packet.pages.amounts import full, limit_of, value_of
from packet.pages.canvas import PacketCanvas
from packet.pages.flow import break_words
from packet.pages.fonts import BODY, BOLD, clean_text
from packet.pages.kit import Kit
from packet.pages.report_findings import ORDER, begin_large, say_counts
from packet.pages.style import BLACK, DARK, HEAVY_RULE, WASH
from packet.say import say

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)  # fmt: skip
MOST_LISTED = 4
FILTER_ALONE = "filter that screws on below it, a catch pail under it"
PICTURE_MM = (27.0, 50.0)  # room for the picture of the box


def make_story(job: Job, kit: Kit) -> list[Any]:
    """Return the cover's blocks; they fill one page."""
    return [
        TitleBlock(job),
        kit.space(2),
        VerdictBanner(job),
        kit.space(4),
        KeyFigures(list_figures(job)),
        kit.space(4),
        kit.columns([_tell_building(job, kit), [kit.space(4), _show_box(job, kit)], _tell_order(kit)], (66, 34, 82)),
        kit.signal("NOTICE", _tell_printing(job), title="Print at actual size"),
        kit.signal("WARNING", _tell_scope(), title="Local codes and licensed practice come first"),
    ]


class TitleBlock(Flowable):  # type: ignore[misc]
    """The title, large, between two rules, with revision, date, who drew it and the digest of the project file."""

    SIZE, LEADING = 26.0, 30.0

    def __init__(self, job: Job) -> None:
        super().__init__()
        title = job.project.title
        self.title = clean_text(title.title)
        self.facts = [
            ("Revision", clean_text(title.revision)),
            ("Date", write_date(title.date)),
            *([("Drawn by", clean_text(title.drawn_by))] if title.drawn_by else []),
            ("Project file", job.digest),
            ("Program", f"version {job.version}"),
        ]
        self.notes = [clean_text(note) for note in title.notes]

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        self.lines = break_words(self.title, width, self.SIZE, BOLD)[:4]
        self.note_lines = [line for note in self.notes for line in break_words(note, width, 9.5)][:5]
        self.fact_width = width / len(self.facts)
        wrapped = [break_words(value, self.fact_width - 8, 10, BOLD)[:2] for _, value in self.facts]
        self.values = wrapped
        deep = max(len(w) for w in wrapped)
        self.height = 24 + len(self.lines) * self.LEADING + len(self.note_lines) * 12.5 + 20 + deep * 12.5
        return width, self.height

    def draw(self) -> None:
        canvas, y = self.canv, self.height
        canvas.setStrokeGray(BLACK)
        canvas.setLineWidth(HEAVY_RULE * 1.6)
        canvas.line(0, y - 2, self.width, y - 2)
        canvas.setFillGray(DARK)
        canvas.setFont(BOLD, 10.5)
        canvas.drawString(0, y - 16, "BUILD PACKET")
        canvas.drawRightString(self.width, y - 16, "Dust collector: blower, ducts, filter box")
        canvas.setFillGray(BLACK)
        canvas.setFont(BOLD, self.SIZE)
        y -= 20
        for line in self.lines:
            y -= self.LEADING
            canvas.drawString(0, y + 5, line)
        canvas.setFont(BODY, 9.5)
        for line in self.note_lines:
            y -= 12.5
            canvas.drawString(0, y + 3, line)
        canvas.setLineWidth(0.6)
        canvas.line(0, y - 2, self.width, y - 2)
        for index, ((label, _), lines) in enumerate(zip(self.facts, self.values, strict=True)):
            x = index * self.fact_width
            canvas.setFillGray(DARK)
            canvas.setFont(BODY, 8)
            canvas.drawString(x, y - 12, label)
            canvas.setFillGray(BLACK)
            canvas.setFont(BOLD, 10)
            for number, line in enumerate(lines):
                canvas.drawString(x, y - 24 - number * 12.5, line)


class VerdictBanner(Flowable):  # type: ignore[misc]
    """Does it fit? One band across the page, black when it does not, and the gravest findings below it."""

    def __init__(self, job: Job) -> None:
        super().__init__()
        verdict, reader = job.verdict, job.reader
        self.ground, self.ink = {Verdict.FITS: (WASH, BLACK), Verdict.TIGHT: (0.8, BLACK)}.get(verdict, (0.0, 1.0))
        self.words = {Verdict.FITS: "IT FITS", Verdict.TIGHT: "IT FITS, BUT TIGHTLY"}.get(
            verdict, "IT DOES NOT FIT YET"
        )
        self.counts = say_counts(job.findings, reader)
        listed = [f for v in ORDER[:2] for f in job.findings if f.verdict is v]
        self.findings = [_tell_finding(f, reader) for f in listed[:MOST_LISTED]]
        self.more = len(listed) - len(self.findings)

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        self.lines = [break_words(clean_text(f), width - 22, 9.6) for f in self.findings]
        below = sum(len(lines) for lines in self.lines) * 12.4 + (14 if self.more or self.findings else 0)
        self.height = 26 + (below + 4 if self.findings else 0)
        return width, self.height

    def draw(self) -> None:
        canvas, top = self.canv, self.height
        canvas.setFillGray(self.ground)
        canvas.setStrokeGray(BLACK)
        canvas.setLineWidth(1.0)
        canvas.rect(0, top - 26, self.width, 26, stroke=1, fill=1)
        canvas.setFillGray(self.ink)
        canvas.setFont(BOLD, 15)
        canvas.drawString(8, top - 18.5, self.words)
        canvas.setFont(BODY, 10)
        canvas.drawRightString(self.width - 8, top - 17, self.counts)
        canvas.setFillGray(BLACK)
        y = top - 26 - 13
        for lines in self.lines:
            canvas.setFont(BOLD, 9.6)
            canvas.drawString(8, y, "•")
            canvas.setFont(BODY, 9.6)
            for line in lines:
                canvas.drawString(18, y, line)
                y -= 12.4
        if self.findings and isinstance(canvas, PacketCanvas):
            more = f"and {self.more} more, with " if self.more else "With "
            canvas.write_later(
                18, y, lambda done: f"{more}what mends them: {name_pages(done, 'report', 'the report')}.", BODY, 9.6
            )


def _tell_finding(finding: Finding, reader: Any) -> str:
    limit = f", wanted {limit_of(finding, reader)}" if finding.limit else ""
    value = f": {value_of(finding, reader)}{limit}" if finding.value else ""
    return f"{begin_large(say(finding.what, reader))}{value} ({finding.verdict.value})"


class KeyFigures(Flowable):  # type: ignore[misc]
    """A row of large numbers with a line of words under each."""

    def __init__(self, figures: Sequence[tuple[str, str]]) -> None:
        super().__init__()
        self.figures = [(clean_text(value), clean_text(words)) for value, words in figures]

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width, self.cell = width, width / len(self.figures)
        self.lines = [break_words(words, self.cell - 10, 8.4) for _, words in self.figures]
        self.height = 24 + max(len(lines) for lines in self.lines) * 10.4
        return width, self.height

    def draw(self) -> None:
        canvas = self.canv
        for index, ((value, _), lines) in enumerate(zip(self.figures, self.lines, strict=True)):
            x = index * self.cell
            canvas.setStrokeGray(BLACK)
            canvas.setLineWidth(1.4)
            canvas.line(x, 2, x, self.height - 2)
            canvas.setFillGray(BLACK)
            size = 15.0
            while len(break_words(value, self.cell - 10, size, BOLD)) > 1 and size > 8:
                size -= 0.5
            canvas.setFont(BOLD, size)
            canvas.drawString(x + 6, self.height - 15, value)
            canvas.setFillGray(DARK)
            canvas.setFont(BODY, 8.4)
            for number, line in enumerate(lines):
                canvas.drawString(x + 6, self.height - 27 - number * 10.4, line)


def list_figures(job: Job) -> list[tuple[str, str]]:
    """Return the key figures of the job as (number, words)."""
    reader, sizing = job.reader, job.sizing
    worst = sizing.get_alone(sizing.worst)
    flow = worst.get_machine(sizing.worst)
    figures = [
        (
            full(flow.flow.best, "flow_m3s", reader),
            f"at {flow.machine}, the machine worst off (needs {full(flow.needs_m3s, 'flow_m3s', reader)})",
        ),
        (full(sizing.filters.face_speed_ms, "face_speed_ms", reader), "air to filter media at the highest flow"),
        (
            full(sizing.filters.clean_me.reading_pa, "pressure_pa", reader),
            f"on the gauge: clean the filters (gate of {sizing.filters.clean_me.read_at} open)",
        ),
        (full(job.design.stack.hanging_mm, "length_mm", reader), "hangs below the box: filter and catch pail"),
        (write_hours(job.plan.minutes_two), "of work for two, side by side"),
    ]
    if job.bill.total > 0:
        figures.append((f"{job.bill.total:,.2f} {job.bill.money}", "to buy" + _tell_missing(job)))
    return figures


def write_hours(minutes: float) -> str:
    """Return a working time in hours, to the half hour."""
    hours = round(minutes / 30) / 2
    return f"{hours:g} h"


def _tell_missing(job: Job) -> str:
    count = len(job.bill.missing)
    return f", {count} price{'s' if count != 1 else ''} missing" if count else ""


def write_date(date: datetime.date) -> str:
    """Return a date that nobody can read the wrong way round: 14 March 2026."""
    return f"{date.day} {MONTHS[date.month - 1]} {date.year}"


def name_pages(canvas: PacketCanvas, key: str, otherwise: str) -> str:
    """Return ``page 3`` or ``pages 3–9`` of a section, or other words when it is not in this print."""
    pages = canvas.find_pages(key)
    if pages is None:
        return otherwise
    first, last = pages
    return f"page {first}" if first == last else f"pages {first}–{last}"


# --- blocks -----------------------------------------------------------------------------------------------------------


def _tell_building(job: Job, kit: Kit) -> list[Any]:
    project, reader = job.project, kit.reader
    outside = job.design.box.outside
    sizes = " × ".join(full(v, "length_mm", reader) for v in (outside.width, outside.depth, outside.height))
    hung = {"wall": "hung on the wall", "ceiling": "hung from the ceiling", "cart": "on a cart"}[project.box.hung]
    count = sum(f.count for f in project.filters)
    words = (
        f"A filter box of {project.box.panel.stock}, {sizes} outside, {hung}, with {count} "
        f"cartridge {'filters that screw on below it, a catch pail under each' if count != 1 else FILTER_ALONE}, "
        f"{_list_ports(project)}. It serves {count_of(len(project.machines), 'machine')} by "
        f"{count_of(len(project.runs), 'duct run')}."
    )
    lines = [line for line in job.bill.lines if line.buy > 0]
    buy = f"{len(lines)} lines to buy" + (
        f" at {len(job.bill.subtotals)} places" if len(job.bill.subtotals) > 1 else ""
    )
    if job.bill.total > 0:
        buy += f", {job.bill.total:,.2f} {job.bill.money}{_tell_missing(job)}"
    return [
        kit.heading("What you are building", 3),
        kit.text(words),
        kit.heading("What to buy", 3),
        kit.text(f"{buy}. Measure your pails before you buy or cut anything else. {count_assumed(project)}"),
    ]


def count_of(count: int, thing: str) -> str:
    """Return ``1 machine`` or ``3 machines``."""
    return f"{count} {thing}" if count == 1 else f"{count} {thing}s"


def _show_box(job: Job, kit: Kit) -> Any:
    """Return a small picture of the box with its filters."""
    size = draw_together(job.project, job.design, 1000.0).bounds
    scale = min(PICTURE_MM[0] / size.width, PICTURE_MM[1] / size.height)
    return kit.drawing(draw_together(job.project, job.design, scale), scale=scale)


def _list_ports(project: Project) -> str:
    kinds = [port.kind for port in project.ports]
    parts = []
    if "inspection" in kinds:
        parts.append("an inspection opening to reach in by")
    parts.append("a water gauge that says when to clean")
    return " and ".join(parts)


def _tell_order(kit: Kit) -> list[Any]:
    steps = (
        ("Print the check page alone; measure it.", "print-check"),
        ("Read the findings; mend what does not fit.", "report"),
        ("Read the cautions with your helper.", "cautions"),
        ("Buy once, from the bill.", "bill"),
        ("Cut panels and lining.", "cuts"),
        ("Print the templates; cut holes and lids.", "templates"),
        ("Print the steps for the wall; build.", "steps"),
        ("Print and mount gauge card and labels.", "gauge"),
        ("Test; write down the first readings.", "commissioning"),
        ("Fill in what was really built.", "as-built"),
    )
    blocks: list[Any] = [kit.heading("What to print and do, in this order", 3)]
    return [*blocks, *(OrderLine(n, words, key) for n, (words, key) in enumerate(steps, 1))]


class OrderLine(Flowable):  # type: ignore[misc]
    """One line of the order: number, words, pages."""

    def __init__(self, number: int, words: str, key: str) -> None:
        super().__init__()
        self.number, self.words, self.key = number, words, key

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        return width, 13.6

    def draw(self) -> None:
        canvas = self.canv
        canvas.setFillGray(BLACK)
        canvas.setFont(BOLD, 10)
        canvas.drawString(0, 3.4, str(self.number))
        canvas.setFont(BODY, 10)
        canvas.drawString(16, 3.4, self.words)
        if isinstance(canvas, PacketCanvas):
            key = self.key
            canvas.write_later(self.width, 3.4, lambda done: name_pages(done, key, "–"), BODY, 9, "end")


def _tell_printing(job: Job) -> list[str]:
    paper = job.project.display.paper.name.title()
    return [
        *([job.asked] if job.asked else []),
        f"In the print window choose “Actual size”, “100 %” or “Scale: none”; not “Fit”, not “Shrink”. Paper: {paper}.",
        "Measure the check rule on every template sheet, both ways, before you cut. Wrong by more than 0.5 mm in "
        "100 mm (1/64 in in 4 in): do not use that sheet.",
    ]


def _tell_scope() -> str:
    return (
        "Wood dust can burn, explode and harm lungs. This packet does not design explosion protection, wiring, "
        "fire protection or make-up air for flued appliances: ask the local authority and licensed people."
    )

"""The cover: what is built, does it fit, what to buy, what to print, in which order."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from typing import Any

from reportlab.platypus import Flowable

from calc.finding import Finding, Verdict
from calc.measures.marking import write_between
from calc.measures.quantity import Reader
from packet.draw.fonts import BODY, BOLD, clean_text
from packet.draw.views.exploded import draw_together
from packet.job import AirJob, AnyJob, Job
from packet.pages.cover_parts import (
    list_air_figures,
    list_costs,
    list_left_out,
    list_part_figures,
    say_parts,
    say_subject,
    tell_work,
)
from packet.pages.flue import make_danger
from packet.pages.kit.canvas import PacketCanvas
from packet.pages.kit.flow import break_words
from packet.pages.kit.kit import Kit
from packet.pages.kit.style import BLACK, DARK, HEAVY_RULE, WASH
from packet.pages.report.findings import ORDER, begin_large, say_counts
from packet.parts import SECTIONS as NEEDS
from packet.words.amounts import full, full_band, limit_of, value_of
from packet.words.assumed import count_assumed
from packet.words.phrases import Phrases, take_words
from packet.words.safe_work import CHECK_WITHIN
from packet.words.say import say

MOST_LISTED, LISTED_BESIDE_DANGER = 4, 2
PICTURE_MM = (27.0, 50.0)  # room for the picture of the box


def make_story(job: AnyJob, kit: Kit) -> list[Any]:
    """Return the cover's blocks; they fill one page."""
    words = take_words("cover", kit.reader.language)
    danger = make_danger(job, kit, "keep", "limit", "alarm") if isinstance(job, AirJob) else []
    gap = kit.space(0.5 if danger else 4)
    figures = list_figures(job, words) if isinstance(job, Job) else list_part_figures(job, words)
    return [
        TitleBlock(job, words),
        kit.space(2),
        VerdictBanner(job, words, LISTED_BESIDE_DANGER if danger else MOST_LISTED),
        *danger,
        gap,
        KeyFigures(figures),
        gap,
        *_tell_job(job, kit, words),
        kit.signal("NOTICE", _tell_printing(job, words), title=words("printing")),
        kit.signal("WARNING", _tell_scope(job, words, bool(danger)), title=words("scope")),
    ]


def _tell_job(job: AnyJob, kit: Kit, words: Phrases) -> list[Any]:
    """Return what is built and bought, a picture of it, and the order; and what is left out, where anything is."""
    order = _tell_order(job, kit, words)
    if isinstance(job, Job):
        building = _tell_building(job, say_building(job, words), kit, words)
        return [kit.columns([building, [kit.space(4), _show_box(job, kit)], order], (66, 34, 82))]
    building = _tell_building(job, say_parts(job, words), kit, words)
    return [kit.columns([building, order], (92, 90)), *list_left_out(job, kit)]


def _tell_scope(job: AnyJob, words: Phrases, danger: bool) -> str:
    if {"air", "box"} & job.has:
        return words("scope_text_flue" if danger else "scope_text")
    return words("scope_text_parts")


class TitleBlock(Flowable):  # type: ignore[misc]
    """The title, large, between two rules, with revision, date, who drew it and the digest of the project file."""

    SIZE, LEADING = 26.0, 30.0

    def __init__(self, job: AnyJob, words: Phrases) -> None:
        super().__init__()
        title = job.project.title
        self.title = clean_text(title.title)
        self.kind, self.about = clean_text(words("packet")), clean_text(say_subject(job))
        facts = [
            (words("revision"), title.revision),
            (words("date"), write_date(title.date, words)),
            *([(words("drawn_by"), title.drawn_by)] if title.drawn_by else []),
            (words("file"), job.digest),
            (words("program"), words("version", version=job.version)),
        ]
        self.facts = [(clean_text(label), clean_text(value)) for label, value in facts]
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
        canvas.drawString(0, y - 16, self.kind)
        canvas.drawRightString(self.width, y - 16, self.about)
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

    def __init__(self, job: AnyJob, words: Phrases, most: int = MOST_LISTED) -> None:
        super().__init__()
        verdict, reader = job.verdict, job.reader
        self.ground, self.ink = {Verdict.FITS: (WASH, BLACK), Verdict.TIGHT: (0.8, BLACK)}.get(verdict, (0.0, 1.0))
        self.words, self.phrases = clean_text(words(f"banner_{verdict.name.lower()}")), words
        self.counts = say_counts(job.findings, reader)
        listed = [f for v in ORDER[:2] for f in job.findings if f.verdict is v]
        self.findings = [_tell_finding(f, reader, words) for f in listed[:most]]
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
            canvas.write_later(18, y, self._tell_more, BODY, 9.6)

    def _tell_more(self, done: PacketCanvas) -> str:
        words = self.phrases
        pages = name_pages(done, "report", words, words("the_report"))
        return clean_text(words("more", count=self.more, pages=pages) if self.more else words("mends", pages=pages))


def _tell_finding(finding: Finding, reader: Reader, words: Phrases) -> str:
    what, verdict = begin_large(say(finding.what, reader)), words(f"verdict_{finding.verdict.name.lower()}")
    if not finding.value:
        return words("finding", what=what, verdict=verdict)
    value = value_of(finding, reader)
    if not finding.limit:
        return words("finding_value", what=what, value=value, verdict=verdict)
    return words("finding_limit", what=what, value=value, limit=limit_of(finding, reader), verdict=verdict)


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


def list_figures(job: Job, words: Phrases) -> list[tuple[str, str]]:
    """Return the key figures of the job as (number, words)."""
    figures = [
        *list_air_figures(job, words),
        _tell_clean(job, words),
        (_write_hanging(job), words("figure_hangs")),
        tell_work(job, words),
    ]
    return figures + list_costs(job, words)


def _tell_clean(job: Job, words: Phrases) -> tuple[str, str]:
    """Return what tells to clean: the gauge's mark, or the hours run where it cannot be read."""
    gauge, later = job.gauge, job.sizing.filters.clean_me.hours_later
    if gauge.signal != "gauge" and later is not None:
        return full_band(later, "time_h", job.reader), words("figure_hours")
    key = "figure_gauge" if job.project.has_gates else "figure_gauge_hose"
    return full(gauge.clean_me_pa, "pressure_pa", job.reader), words(key, machine=gauge.read_at)


def _write_hanging(job: Job) -> str:
    """Return how far filter and pail hang below the box, told between rounded places as the elevation tells it."""
    stack = job.design.stack
    return write_between(stack.box_bottom_mm - stack.hanging_mm, stack.box_bottom_mm, job.reader)


def write_date(date: datetime.date, words: Phrases) -> str:
    """Return a date that nobody can read the wrong way round: 14 March 2026."""
    return words("day", day=date.day, month=words(f"month_{date.month}"), year=date.year)


def name_pages(canvas: PacketCanvas, key: str, words: Phrases, otherwise: str) -> str:
    """Return ``page 3`` or ``pages 3–9`` of a section, or other words when it is not in this print."""
    pages = canvas.find_pages(key)
    if pages is None:
        return otherwise
    first, last = pages
    return words("page", page=first) if first == last else words("pages", first=first, last=last)


def name_sections(canvas: PacketCanvas, keys: str, words: Phrases) -> str:
    """Return the pages of sections, their keys joined by a plus sign: ``pages 15–17, page 33``."""
    named = [name_pages(canvas, key, words, "") for key in keys.split("+")]
    return ", ".join(name for name in named if name) or "–"


# --- blocks -----------------------------------------------------------------------------------------------------------


def _tell_building(job: AnyJob, told: str, kit: Kit, words: Phrases) -> list[Any]:
    return [
        kit.heading(words("building"), 3),
        kit.text(told),
        kit.heading(words("buying"), 3),
        kit.text(" ".join(part for part in (_say_buying(job, words), count_assumed(job.project)) if part)),
    ]


def say_building(job: Job, words: Phrases) -> str:
    """Return what is built in two sentences."""
    project, outside, reader = job.project, job.design.box.outside, job.reader
    filters, machines, runs = sum(f.count for f in project.filters), len(project.machines), len(project.runs)
    reached = any(port.kind == "inspection" for port in project.ports)
    return words(
        "building_text",
        stock=project.box.panel.stock,
        sizes=" × ".join(full(v, "length_mm", reader) for v in (outside.width, outside.depth, outside.height)),
        hung=words(f"hung_{project.box.hung}"),
        filters=words("filters_one" if filters == 1 else "filters_many", count=filters),
        openings=words("openings_both" if reached else "openings_gauge"),
        machines=words("machines_one" if machines == 1 else "machines_many", count=machines),
        runs=words("runs_one" if runs == 1 else "runs_many", count=runs),
    )


def _say_buying(job: AnyJob, words: Phrases) -> str:
    bill, missing, pails = job.bill, len(job.bill.missing), "pails" in job.has
    lines, places = sum(line.buy > 0 for line in bill.lines), len(bill.subtotals)
    number = "one" if lines == 1 else "many"
    buy = words(f"buy_places_{number}" if places > 1 else f"buy_{number}", count=lines, places=places)
    if bill.total <= 0:
        return words("buying_text" if pails else "buying_alone", buy=buy)
    cost = f"{bill.total:,.2f} {bill.money}"
    if missing:
        cost = words("cost_missing_one" if missing == 1 else "cost_missing_many", cost=cost, count=missing)
    return words("buying_text_cost" if pails else "buying_alone_cost", buy=buy, cost=cost)


def _show_box(job: Job, kit: Kit) -> Any:
    """Return a small picture of the box with its filters."""
    size = draw_together(job.project, job.design, 1000.0).bounds
    scale = min(PICTURE_MM[0] / size.width, PICTURE_MM[1] / size.height)
    return kit.drawing(draw_together(job.project, job.design, scale), scale=scale)


def _tell_order(job: AnyJob, kit: Kit, words: Phrases) -> list[Any]:
    cautions = "order_cautions" if job.project.methods.helper else "order_cautions_alone"
    marks = _name_order(job)
    cuts = "order_cuts" if job.project.lining else "order_cuts_bare"
    steps = (
        (words("order_print_check"), "print-check"),
        (words("order_report"), "report"),
        (words(cautions), "cautions"),
        (words("order_bill"), "bill"),
        (words(cuts), "cuts"),
        (words("order_templates" if "pails" in job.has else "order_templates_alone"), "templates"),
        (words("order_steps"), "steps"),
        (words(marks), "gauge+labels"),
        (words("order_commissioning"), "commissioning"),
        (words("order_as_built"), "as-built"),
    )
    there = [(text, keys) for text, keys in steps if any(NEEDS[key].is_met(job.has) for key in keys.split("+"))]
    lines = [OrderLine(n, clean_text(text), keys, words) for n, (text, keys) in enumerate(there, 1)]
    return [kit.heading(words("order"), 3), *lines]


def _name_order(job: AnyJob) -> str:
    """Return the key of what is mounted: the gauge's card, the labels, or both."""
    if "gauge" not in job.has:
        return "order_labels"
    return "order_gauge" if "air" in job.has else "order_card"


class OrderLine(Flowable):  # type: ignore[misc]
    """One line of the order: number, words, pages."""

    def __init__(self, number: int, text: str, key: str, words: Phrases) -> None:
        super().__init__()
        self.number, self.text, self.key, self.words = number, text, key, words

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        return width, 13.6

    def draw(self) -> None:
        canvas = self.canv
        canvas.setFillGray(BLACK)
        canvas.setFont(BOLD, 10)
        canvas.drawString(0, 3.4, str(self.number))
        canvas.setFont(BODY, 10)
        canvas.drawString(16, 3.4, self.text)
        if isinstance(canvas, PacketCanvas):
            key, words = self.key, self.words
            canvas.write_later(self.width, 3.4, lambda done: name_sections(done, key, words), BODY, 9, "end")


def _tell_printing(job: AnyJob, words: Phrases) -> list[str]:
    key = "printing_rules_inch" if job.reader.system == "inch" else "printing_rules_metric"
    rules = words(key, within=CHECK_WITHIN[job.reader.system])
    return [
        *([job.asked] if job.asked else []),
        words("printing_dialog", paper=job.project.display.paper.name.title()),
        rules,
    ]

"""Everything one build knows, handed from room to room; each of it is worked out here, once."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from calc.finding import Finding, Verdict, find_worst
from calc.measures.quantity import Reader
from calc.project import Project
from calc.settled import Settled
from packet.reading.display_asked import AS_THE_FILE, Asked, apply_asked, tell_asked
from packet.reading.load import Loaded, load_project
from packet.version import VERSION

if TYPE_CHECKING:
    from calc.design import Design
    from calc.gauges.gauge_design import GaugeDesign
    from calc.record.entries import Record
    from calc.record.review import Review
    from calc.results import Sizing
    from packet.bill.model import Bill
    from packet.reading.problem import Problem
    from packet.work.plan import Plan

Progress = Callable[[str], None]


def say_nothing(_: str) -> None:
    """Progress for who does not want it."""


@dataclass(frozen=True, kw_only=True)
class Job:
    """echo: dotted path -> the user's own spelling; digest: of the project file's bytes (first 12 hex characters).

    gauge: the one that is built, billed and drawn, from the clean reading of the record where there is one
    asked: a sentence where paper or units of this print are not the project file's
    warnings: doubts about the file in words; doubts: the same with their places
    filed: the project as its file says, nothing settled, nothing asked for
    """

    project: Settled
    stem: str
    digest: str
    version: str
    echo: Mapping[str, str]
    warnings: tuple[str, ...]
    sizing: Sizing
    gauge: GaugeDesign
    design: Design
    bill: Bill
    record: Record | None = None
    asked: str = ""
    doubts: tuple[Problem, ...] = ()
    filed: Project | None = None

    @property
    def reader(self) -> Reader:
        """The units and fractions this packet is written in."""
        return self.project.display.reader

    @cached_property
    def bill_as_sold(self) -> Bill:
        """The bill in the words and sizes of the shop that buys, whatever this print is written in."""
        display = self.project.display
        if display.shown_in in (None, display.system):
            return self.bill
        from packet.bill.bill import make_bill

        bought = replace(self.project, display=replace(display, shown_in=None))
        return make_bill(bought, self.sizing, self.design, self.gauge)

    @cached_property
    def plan(self) -> Plan:
        """The steps of the work. Raises packet.words.reader.BadWords when a file of words is at fault."""
        from packet.work.plan import plan_steps

        return plan_steps(self.project, self.sizing, self.gauge, self.design, self.bill)

    def check_words(self) -> None:
        """Look at every file of templates/, needed or not. Raises packet.words.reader.BadWords for the first slip."""
        from packet.work.check_words import check_words
        from packet.work.facts import gather_facts

        check_words(tuple(gather_facts(self.project, self.sizing, self.gauge, self.design)))

    @cached_property
    def review(self) -> Review | None:
        """What the as-built log says; None when there is no log."""
        if self.record is None:
            return None
        from calc.record.review import review_record

        return review_record(self.project, self.sizing, self.gauge, self.record, self.digest)

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        from calc.leaning import name_leans

        found = self.draught + self.sizing.findings + self.design.findings + self.gauge.findings
        return name_leans(self.project, found)

    @cached_property
    def draught(self) -> tuple[Finding, ...]:
        """The findings on a flue that the collector draws on, from the as-built log."""
        from calc.record.draught import judge_draught

        return judge_draught(self.project, self.sizing, self.record)

    @cached_property
    def judged(self) -> tuple[Finding, ...]:
        """The findings without the mends that take another run of the model: enough for verdicts and counts."""
        return self.draught + self.sizing.judged + self.design.findings + self.gauge.findings

    @property
    def verdict(self) -> Verdict:
        return find_worst(self.judged)


def make_job(path: Path, progress: Progress = say_nothing, asked: Asked = AS_THE_FILE) -> Job:
    """Return everything computed from a project file and the log beside it. Raises BadProject. Nothing is written.

    Both files are read before anything heavy is loaded.
    """
    from packet.log.log import load_record

    progress("reading the project")
    loaded = load_project(path)
    record = load_record(path)
    return work_out_job(loaded, path, record, progress, asked)


def work_out_job(
    loaded: Loaded,
    path: Path,
    record: Record | None = None,
    progress: Progress = say_nothing,
    asked: Asked = AS_THE_FILE,
) -> Job:
    """Return everything computed from a project that is read, whose box need not be settled, and its log."""
    from calc.box.box import settle_box
    from calc.design import add_parts, design_project
    from calc.gauges.gauge_design import design_gauge
    from calc.gauges.gauge_parts import make_gauge_parts
    from calc.record.entries import find_baseline
    from calc.sizing.sizing import size_project
    from packet.bill.bill import make_bill
    from packet.bill.names import add_doubts
    from packet.reading.no_balance import refuse_no_balance

    progress("sizing")
    project = settle_box(apply_asked(loaded.project, asked))
    with refuse_no_balance(loaded, str(path)):
        sizing = size_project(project)
    gauge = design_gauge(project, sizing, find_baseline(record))
    progress("designing the box and its parts")
    design = add_parts(design_project(project, sizing), make_gauge_parts(project, gauge))
    bill = make_bill(project, sizing, design, gauge)
    doubted = add_doubts(loaded, bill, str(path))
    return Job(
        project=project,
        stem=path.stem,
        digest=loaded.digest,
        version=VERSION,
        echo=loaded.echo,
        warnings=doubted.warnings,
        sizing=sizing,
        gauge=gauge,
        design=design,
        bill=bill,
        record=record,
        asked=tell_asked(loaded.project, asked),
        doubts=doubted.doubts,
        filed=loaded.project,
    )

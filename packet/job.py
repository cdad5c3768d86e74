"""Everything one build knows, handed from room to room."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from calc.finding import Finding, Verdict, find_worst
from calc.measures.quantity import Reader
from calc.project import Project

if TYPE_CHECKING:
    from calc.gauges.gauge_design import GaugeDesign
    from calc.geometry.design import Design
    from calc.record.review import Review
    from calc.sizing import Sizing
    from packet.bill import Bill
    from packet.record import Record
    from packet.steps import Plan


@dataclass(frozen=True)
class Job:
    """echo: dotted path -> the user's own spelling; digest: of the project file's bytes (first 12 hex signs).

    asked: a sentence where paper or units of this print are not the project file's
    """

    project: Project
    stem: str
    digest: str
    version: str
    echo: Mapping[str, str]
    warnings: tuple[str, ...]
    sizing: Sizing
    design: Design
    bill: Bill
    record: Record | None = None
    asked: str = ""

    @property
    def reader(self) -> Reader:
        """The units and fractions this packet is written in."""
        display = self.project.display
        return Reader(display.system, display.fraction, display.language)

    @cached_property
    def plan(self) -> Plan:
        """The steps of the work. Raises packet.words.BadWords when a file of words is at fault."""
        from packet.steps import plan_steps

        return plan_steps(self.project, self.sizing, self.design, self.bill, self.gauge)

    @cached_property
    def gauge(self) -> GaugeDesign:
        """The water gauge, its marks and readings."""
        from calc.gauges.gauge_design import design_gauge

        return design_gauge(self.project, self.sizing, self.record)

    @cached_property
    def review(self) -> Review | None:
        """What the as-built log says; None when there is no log."""
        if self.record is None:
            return None
        from calc.record.review import review_record

        return review_record(self.project, self.sizing, self.record, self.digest)

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        return self.draught + self.sizing.findings + self.design.findings + self.gauge.findings

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

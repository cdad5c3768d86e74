"""Everything one build knows, handed from room to room; each of it is worked out here, once."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from calc.finding import Finding, Verdict, find_worst
from calc.measures.quantity import Reader
from calc.project import Aired, Boxed, Given, Project
from calc.settled import Settled, SettledShop
from packet.parts import WHOLE, Part
from packet.reading.display_asked import AS_THE_FILE, Asked, apply_asked, tell_asked
from packet.reading.load import Loaded, load_project
from packet.reading.problem import BadProject, Problem, list_words, quote_found
from packet.version import VERSION

if TYPE_CHECKING:
    from calc.design import Design, Made
    from calc.gauges.gauge_design import GaugeDesign
    from calc.record.entries import Record
    from calc.record.review import Review
    from calc.results import Sizing
    from packet.bill.model import Bill
    from packet.work.plan import Plan

Progress = Callable[[str], None]


def say_nothing(_: str) -> None:
    """Progress for who does not want it."""


@dataclass(frozen=True, kw_only=True)
class AnyJob:
    """What every job holds, whatever parts of a shop its file has; None: that part is left out.

    echo: dotted path -> the user's own spelling; digest: of the project file's bytes (first 12 hex characters).

    keys: of the file's top, that it has
    gauge: the one that is built, billed and drawn, from the clean reading of the record where there is one
    asked: a sentence where paper or units of this print are not the project file's
    warnings: doubts about the file in words; doubts: the same with their places
    filed: the project as its file says, nothing settled, nothing asked for
    """

    project: Given
    stem: str
    digest: str
    version: str
    echo: Mapping[str, str]
    warnings: tuple[str, ...]
    design: Made
    bill: Bill
    sizing: Sizing | None = None
    gauge: GaugeDesign | None = None
    record: Record | None = None
    asked: str = ""
    doubts: tuple[Problem, ...] = ()
    filed: Given | None = None
    keys: frozenset[str] = frozenset()

    @property
    def reader(self) -> Reader:
        """The units and fractions this packet is written in."""
        return self.project.display.reader

    @property
    def has(self) -> frozenset[Part]:
        """The parts that this job is made of."""
        found: dict[Part, bool] = {
            "pails": bool(self.design.ports),
            "box": isinstance(self, BoxJob),
            "air": self.sizing is not None,
            "gauge": self.gauge is not None,
        }
        return frozenset(part for part, there in found.items() if there)

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

        return plan_steps(self.project, self.sizing, self.gauge, self.design, self.bill, self.has)

    def check_words(self) -> None:
        """Look at every file of templates/, needed or not. Raises packet.words.reader.BadWords for the first slip."""
        from packet.work.check_words import check_words
        from packet.work.fact_names import list_fact_names

        check_words(list_fact_names())

    @property
    def review(self) -> Review | None:
        """What the as-built log says; None when there is no log."""
        return None

    @property
    def draught(self) -> tuple[Finding, ...]:
        """The findings on a flue that the collector draws on, from the as-built log."""
        return ()

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        from calc.leaning import name_leans

        found = self.draught + self._join(self.sizing.findings if self.sizing else ())
        return name_leans(self.project, found)

    @cached_property
    def judged(self) -> tuple[Finding, ...]:
        """The findings without the mends that take another run of the model: enough for verdicts and counts."""
        return self.draught + self._join(self.sizing.judged if self.sizing else ())

    def _join(self, sized: tuple[Finding, ...]) -> tuple[Finding, ...]:
        return sized + self.design.findings + (self.gauge.findings if self.gauge else ())

    @property
    def verdict(self) -> Verdict:
        return find_worst(self.judged)


@dataclass(frozen=True, kw_only=True)
class AirJob(AnyJob):
    """A job with its air sized. ``field()`` takes away the default that a lacking part has."""

    project: Aired
    sizing: Sizing = field()

    @cached_property
    def draught(self) -> tuple[Finding, ...]:
        from calc.record.draught import judge_draught

        return judge_draught(self.project, self.sizing, self.record)


@dataclass(frozen=True, kw_only=True)
class BoxJob(AnyJob):
    """A job with its box settled and designed."""

    project: Settled
    design: Design


@dataclass(frozen=True, kw_only=True)
class GaugeJob(AnyJob):
    """A job with its gauge designed."""

    gauge: GaugeDesign = field()


@dataclass(frozen=True, kw_only=True)
class AirGaugeJob(AirJob, GaugeJob):
    """A job of air without a box, with a gauge."""

    gauge: GaugeDesign = field()


@dataclass(frozen=True, kw_only=True)
class BoxGaugeJob(BoxJob, GaugeJob):
    """A job of a box whose gauge shows readings that were taken."""

    gauge: GaugeDesign = field()


@dataclass(frozen=True, kw_only=True)
class Job(AirGaugeJob, BoxGaugeJob):
    """The job of a whole shop: air, box and gauge."""

    project: SettledShop
    design: Design
    gauge: GaugeDesign = field()
    filed: Project | None = None

    @property
    def has(self) -> frozenset[Part]:
        return WHOLE

    @cached_property
    def review(self) -> Review | None:
        if self.record is None:
            return None
        from calc.record.review import review_record

        return review_record(self.project, self.sizing, self.gauge, self.record, self.digest)


def make_job(path: Path, progress: Progress = say_nothing, asked: Asked = AS_THE_FILE) -> AnyJob:
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
) -> AnyJob:
    """Return everything computed from a project that is read, whose box need not be settled, and its log."""
    if isinstance(loaded.project, Project):
        return _work_out_shop(loaded, loaded.project, path, record, progress, asked)
    if isinstance(loaded.project, Aired):
        return _work_out_air(loaded, loaded.project, path, record, progress, asked)
    if isinstance(loaded.project, Boxed):
        return _work_out_box(loaded, loaded.project, path, record, progress, asked)
    from calc.design import add_parts, design_openings
    from calc.gauges.gauge_parts import make_gauge_parts
    from packet.bill.bill import make_bill

    project = apply_asked(loaded.project, asked)
    progress("designing the parts")
    design, gauge = design_openings(project), _design_gauge(project)
    if gauge is not None:
        design = add_parts(design, make_gauge_parts(project, gauge))
    bill = make_bill(project, None, design, gauge)
    more = _take_over(loaded, bill, path, record, asked)
    if gauge is not None:
        return GaugeJob(project=project, design=design, gauge=gauge, bill=bill, **more)
    return AnyJob(project=project, design=design, bill=bill, **more)


def _work_out_box(
    loaded: Loaded, filed: Boxed, path: Path, record: Record | None, progress: Progress, asked: Asked
) -> BoxJob:
    """Return the job of a box whose air is not sized."""
    from calc.box.box import settle_box
    from calc.design import add_parts, design_box_alone
    from calc.gauges.gauge_parts import make_gauge_parts
    from packet.bill.bill import make_bill

    progress("designing the box and its parts")
    project = settle_box(apply_asked(filed, asked))
    design, gauge = design_box_alone(project), _design_gauge(project)
    if gauge is not None:
        design = add_parts(design, make_gauge_parts(project, gauge))
    bill = make_bill(project, None, design, gauge)
    more = _take_over(loaded, bill, path, record, asked)
    if gauge is not None:
        return BoxGaugeJob(project=project, design=design, gauge=gauge, bill=bill, **more)
    return BoxJob(project=project, design=design, bill=bill, **more)


def _design_gauge(project: Given) -> GaugeDesign | None:
    """Return the gauge of the readings that the file gives; None where it gives none."""
    from calc.gauges.gauge_design import design_for
    from calc.gauges.shown import take_readings

    if project.gauge is None or project.gauge.clean_pa is None:
        return None
    return design_for(project.gauge, take_readings(project), project.ports)


def _work_out_air(
    loaded: Loaded, filed: Aired, path: Path, record: Record | None, progress: Progress, asked: Asked
) -> AirJob:
    """Return the job of a shop's air without a box; with a gauge where the file says one."""
    from calc.airflow.completing import complete_ducts
    from calc.design import add_parts, design_openings
    from calc.gauges.gauge_design import design_gauge
    from calc.gauges.gauge_parts import make_gauge_parts
    from calc.sizing.sizing import size_project
    from packet.bill.bill import make_bill

    progress("sizing")
    project = complete_ducts(apply_asked(filed, asked))
    with _refuse_no_balance(loaded, str(path)):
        sizing = size_project(project)
    gauge = design_gauge(project, sizing) if "gauge" in loaded.keys else None
    design = design_openings(project)
    if gauge is not None:
        design = add_parts(design, make_gauge_parts(project, gauge))
    bill = make_bill(project, sizing, design, gauge)
    more = _take_over(loaded, bill, path, record, asked)
    if gauge is not None:
        return AirGaugeJob(project=project, sizing=sizing, gauge=gauge, design=design, bill=bill, **more)
    return AirJob(project=project, sizing=sizing, design=design, bill=bill, **more)


def _work_out_shop(
    loaded: Loaded, filed: Project, path: Path, record: Record | None, progress: Progress, asked: Asked
) -> Job:
    """Return the job of a whole shop."""
    from calc.box.box import settle_box
    from calc.design import add_parts, design_project
    from calc.gauges.gauge_design import design_gauge
    from calc.gauges.gauge_parts import make_gauge_parts
    from calc.record.entries import find_baseline
    from calc.sizing.sizing import size_project
    from packet.bill.bill import make_bill

    progress("sizing")
    project = settle_box(apply_asked(filed, asked))
    with _refuse_no_balance(loaded, str(path)):
        sizing = size_project(project)
    gauge = design_gauge(project, sizing, find_baseline(record))
    progress("designing the box and its parts")
    design = add_parts(design_project(project, sizing), make_gauge_parts(project, gauge))
    bill = make_bill(project, sizing, design, gauge)
    return Job(
        project=project,
        sizing=sizing,
        gauge=gauge,
        design=design,
        bill=bill,
        **_take_over(loaded, bill, path, record, asked),
    )


@contextmanager
def _refuse_no_balance(loaded: Loaded, file: str) -> Iterator[None]:
    """Turn a NoBalance inside into BadProject, with the line of the blower."""
    from calc.airflow.balance import NoBalance

    try:
        yield
    except NoBalance as lost:
        gates = list_words([quote_found(name) for name in lost.machines], 6)
        found = f"blower and ducts find no balance with the gate of {gates} open"
        mend = "look for a size or a flow in another unit: blower outlet and curve, link, delivery, separator"
        problem = Problem(
            file=file, line=loaded.line_of.get("blower", 1), column=1, path="blower", found=found, mend=mend
        )
        raise BadProject([problem], loaded.lines) from lost


def _take_over(loaded: Loaded, bill: Bill, path: Path, record: Record | None, asked: Asked) -> dict[str, Any]:
    """Return what a job has from its file as it was read."""
    from packet.bill.names import add_doubts

    doubted = add_doubts(loaded, bill, str(path))
    return {
        "stem": path.stem,
        "digest": loaded.digest,
        "version": VERSION,
        "echo": loaded.echo,
        "warnings": doubted.warnings,
        "record": record,
        "asked": tell_asked(loaded.project, asked),
        "doubts": doubted.doubts,
        "filed": loaded.project,
        "keys": loaded.keys,
    }

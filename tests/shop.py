"""The one place that makes invented shops for tests and works them out: projects, sizings, jobs, packets.

All of them are real: a project that the tool itself could size, and everything after it computed by the tool.
What costs time is made once; pages and files are loaded only when they are asked for.
"""

from __future__ import annotations

import datetime
import io
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from calc import project as p
from calc.box.box import settle_box
from calc.finding import Band
from calc.results import Later, Scenario, Sizing
from calc.sizing.sizing import size_project

if TYPE_CHECKING:
    from calc.record.entries import Record
    from packet.job import Job
    from packet.pages.kit.document import Pages

PROJECTS = Path(__file__).parents[1] / "projects"

CURVE = ((0, 11.6), (400, 11.4), (800, 10.0), (1200, 6.6), (1500, 2.4))  # cfm, inH2O
INCH, FOOT, CFM, INH2O, POUND = 25.4, 0.3048, 0.00047194744, 249.0889, 0.45359237


def make_pipe(inches: float, feet: float) -> p.Pipe:
    return p.Pipe(inches * INCH / 1000, feet * FOOT)


def make_machine(name: str, on: str, cfm: float, hose_in: float, hose_ft: float, gate_in: float = 6.0) -> p.Machine:
    d = hose_in * INCH / 1000
    return p.Machine(
        name=name,
        on=on,
        needs_m3s=cfm * CFM,
        pickups=(p.Pickup("port", p.Hood(kind="plain", diameter_m=d)),),
        pieces=(p.Hose(d, hose_ft * FOOT),),
        gate=p.Gate(gate_in * INCH / 1000, 2e-5),
    )


def make_project(**changes: Any) -> p.Project:
    """Return the boatshed: five machines, a trunk with two branches, two filters, inspection and gauge ports.

    changes: parts of the project that are to be others
    """
    d6, d8 = 6 * INCH / 1000, 8 * INCH / 1000
    project = p.Project(
        title=p.Title("Tidewater boatshed collector (invented)", "B", datetime.date(2026, 3, 14), "build committee"),
        display=p.Display(system="inch", paper=p.Paper("letter", 215.9, 279.4)),
        shop=p.Shop(
            altitude_m=12.2,
            temperature_k=292.04,
            humidity=0.55,
            ceiling_mm=100 * INCH,
            doorway_width_mm=36 * INCH,
            doorway_height_mm=80 * INCH,
            room_width_m=24 * FOOT,
            room_depth_m=38 * FOOT,
        ),
        dust=p.Dust(
            made_kgs=6 * POUND / 3600,
            hours_a_day=3.0,
            branch_speed_ms=20.32,
            main_speed_ms=17.78,
            woods=("hardwood", "plywood"),
        ),
        blower=p.Blower(
            curve=tuple(p.CurvePoint(q * CFM, h * INH2O) for q, h in CURVE),
            curve_is="static",
            outlet_m=d8,
            power_w=3 * 745.7,
            sound_db=86.0,
            sound_at_m=5 * FOOT,
        ),
        separator=p.Separator(kind="cyclone", captures=0.985, loss_pa=2.0 * INH2O, loss_at_m3s=800 * CFM),
        runs=(
            p.Run("trunk", "separator", (make_pipe(6, 18), p.Elbow(d6, count=2)), p.Join("straight", 0.0)),
            p.Run("north", "trunk", (make_pipe(6, 12),)),
            p.Run("south", "trunk", (make_pipe(6, 22), p.Elbow(d6)), p.Join("straight", 0.0)),
        ),
        machines=(
            make_machine("planer", "north", 600, 5, 5),
            make_machine("table saw", "north", 450, 4, 6),
            make_machine("band saw", "south", 450, 4, 5),
            make_machine("jointer", "south", 440, 5, 4),
            make_machine("drum sander", "south", 550, 5, 6),
        ),
        filters=(
            p.Filter(
                count=2,
                media_m2=210 * 0.09290304,
                outside_mm=12.7 * INCH,
                bore_mm=9.4 * INCH,
                height_mm=36 * INCH,
                weight_kg=16 * POUND,
                permeability_ms=22 * 0.00508,
                permeability_pa=0.5 * INH2O,
                cake_resistance=3e4,
            ),
        ),
        box=p.FilterBox(
            width_mm=46 * INCH,
            depth_mm=19 * INCH,
            height_mm=16 * INCH,
            panel=p.Panel(stock="birch plywood", thickness_mm=18.0, nominal_mm=18.0),
            inlet=p.Inlet("left", 8 * INCH),
        ),
        lining=p.Lining("carpet", 0.5 * INCH, ("top", "back", "left", "right")),
        ports=(
            p.Port(name="filter A", kind="filter", face="bottom", pail=p.Pail(across_mm=(300.83, 301.75, 301.63))),
            p.Port(name="filter B", kind="filter", face="bottom", pail=p.Pail(across_mm=(301.0, 302.2, 301.6))),
            p.Port(name="inspection", kind="inspection", face="front", pail=p.Pail(around_mm=37.3125 * INCH)),
            p.Port(name="gauge", kind="gauge", face="front", pail=p.Pail(across_mm=(301.24,))),
        ),
        gauge=p.Gauge(),
        delivery=(make_pipe(8, 6), p.Elbow(d8)),
        prices={"birch plywood": 78.0},
    )
    return replace(project, **changes)


def make_curve(*points: tuple[float, float]) -> tuple[p.CurvePoint, ...]:
    """Return curve points from (cfm, inH2O)."""
    return tuple(p.CurvePoint(q * CFM, h * INH2O) for q, h in points)


def make_shop(
    runs: tuple[p.Run, ...],
    machines: tuple[p.Machine, ...],
    curve: tuple[p.CurvePoint, ...] | None = None,
    **changes: Any,
) -> p.Project:
    """Return the sample with other runs and machines, and other parts as named."""
    blower = make_project().blower
    blower = replace(blower, curve=curve) if curve else blower
    return make_project(**{"runs": runs, "machines": machines, "gate_sets": (), "blower": blower} | changes)


def settle_and_size(project: p.Project) -> Sizing:
    """Return the sizing of a project whose box need not be settled."""
    return size_project(settle_box(project))


def make_tree(count: int, per_run: int = 5, leak_m2: float = 2e-5) -> p.Project:
    """Return a shop of `count` machines, per_run on each branch, all branches into one trunk: the same depth always."""
    d = 6 * INCH / 1000
    trunk = p.Run("trunk", "separator", (p.Pipe(d, 6.0), p.Elbow(d)), p.Join("straight", 0.0))
    runs, machines = [trunk], []
    for i in range(count):
        branch = f"branch {i // per_run}"
        if i % per_run == 0:
            runs.append(p.Run(branch, "trunk", (p.Pipe(d, 3.0 + (i // per_run) % 5),)))
        hood = p.Pickup("port", p.Hood(kind="plain", diameter_m=0.127))
        pieces = (p.Hose(0.127, 1.0 + (i % 7) * 0.2),)
        machines.append(
            p.Machine(
                name=f"machine {i}", on=branch, needs_m3s=0.2, pickups=(hood,), pieces=pieces, gate=p.Gate(d, leak_m2)
            )
        )
    return make_shop(tuple(runs), tuple(machines))


@cache
def size() -> Sizing:
    """Return the sizing of the boatshed."""
    return settle_and_size(make_project())


def make_sizing(
    clean: float = 0.4,
    clean_me: float = 1.8,
    shut_off: float = 11.6,
) -> Sizing:
    """Return the boatshed's sizing with other pressures in its box, in inches of water, and the same flows.

    clean, clean_me: read with the gauge's gate alone open; the others keep their share of it
    shut_off: the most that the blower can make
    """
    whole, worst = size(), shut_off * INH2O
    at, filters = whole.at_gauge, whole.filters
    scale, scale_me = clean * INH2O / at.reading.best, clean_me * INH2O / at.reading_clean_me_pa
    rise = (clean_me - clean) * INH2O / (at.reading_clean_me_pa - at.reading.best)

    def change(one: Scenario) -> Scenario:
        reading = Band(scale * one.reading.low, scale * one.reading.best, scale * one.reading.high)
        return replace(one, reading=reading, reading_clean_me_pa=scale_me * one.reading_clean_me_pa)

    loading = tuple(
        replace(point, reading_pa=clean * INH2O + rise * (point.reading_pa - at.reading.best))
        for point in filters.loading
    )
    apart = (clean_me - clean) * INH2O
    mark = replace(filters.clean_me, reading_pa=clean_me * INH2O, rise=Band(apart, apart, apart))
    return replace(
        whole,
        scenarios=tuple(change(one) for one in whole.scenarios),
        filters=replace(filters, loading=loading, clean_me=mark),
        pressures=replace(whole.pressures, box_worst_pa=worst),
        blower=replace(whole.blower, shut_off_pa=worst),
        consider=Later(lambda _: whole.considered),
    )


def make_job(project: p.Project | None = None, sizing: Sizing | None = None, record: Record | None = None) -> Job:
    """Return the job of a project that need not be settled, of the boatshed where none is given.

    sizing: to be taken for the project's own
    """
    if project is None and sizing is None and record is None:
        return _make_boatshed()
    job = finish_job(project or make_project(), record=record)
    return job if sizing is None else _design_again(job, sizing)


@cache
def _make_boatshed() -> Job:
    return finish_job(make_project())


def _design_again(job: Job, sizing: Sizing) -> Job:
    """Return the job with gauge, design and bill for another sizing."""
    from calc.design import add_parts, design_project
    from calc.gauges.gauge_design import design_gauge
    from calc.gauges.gauge_parts import make_gauge_parts
    from calc.record.entries import find_baseline
    from packet.bill.bill import make_bill

    project = job.project
    gauge = design_gauge(project, sizing, find_baseline(job.record))
    design = add_parts(design_project(project, sizing), make_gauge_parts(project, gauge))
    bill = make_bill(project, sizing, design, gauge)
    return replace(job, sizing=sizing, gauge=gauge, design=design, bill=bill)


def finish_job(
    project: p.Project, stem: str = "made", digest: str = "0123456789ab", record: Record | None = None
) -> Job:
    """Return the job of a project that need not be settled."""
    from packet.job import work_out_job
    from packet.reading.load import Loaded

    return work_out_job(
        Loaded(project=project, digest=digest, echo={}, warnings=(), line_of={}), Path(f"{stem}.yaml"), record
    )


@cache
def load_job(name: str) -> Job:
    """Return the job of a project in projects/, without its as-built log."""
    from packet.job import work_out_job
    from packet.reading.load import load_project

    path = PROJECTS / f"{name}.yaml"
    return work_out_job(load_project(path), path)


@cache
def write_whole(name: str) -> tuple[bytes, Pages]:
    """Return the packet of a project in projects/ and what it says about its pages."""
    return write_pages(load_job(name))


def print_pages(job: Job, *sections: str) -> bytes:
    """Return the PDF of some sections of a job's packet."""
    return write_pages(job, sections)[0]


def write_pages(job: Job, only: tuple[str, ...] | None = None) -> tuple[bytes, Pages]:
    """Return the packet of a job, or some sections of it, and what it says about its pages."""
    from packet.pages.packet_pages import write_packet

    stream = io.BytesIO()
    pages = write_packet(job, stream, only)
    return stream.getvalue(), pages

"""Whole jobs, everything computed, for tests of pages and files; each made once."""

from __future__ import annotations

import dataclasses
import io
from functools import cache
from pathlib import Path

from calc.geometry.box import settle_box
from calc.geometry.design import add_parts, design_project
from calc.geometry.gauge_parts import make_gauge_parts
from calc.project import Project
from calc.sizing import size_project
from packet.bill import make_bill
from packet.job import Job
from packet.load import load_project
from packet.pages.document import Pages, write_packet

PROJECTS = Path(__file__).parents[2] / "projects"


def finish_job(project: Project, stem: str = "made", digest: str = "0123456789ab") -> Job:
    """Return the job of a project that need not be settled."""
    project = settle_box(project)
    sizing = size_project(project)
    design = add_parts(design_project(project, sizing), make_gauge_parts(project, sizing))
    bill = make_bill(project, sizing, design)
    return Job(project, stem, digest, "0.0.0", {}, (), sizing, design, bill)


@cache
def load_job(name: str) -> Job:
    """Return the job of a project in projects/, without its as-built log."""
    loaded = load_project(PROJECTS / f"{name}.yaml")
    job = finish_job(loaded.project, name, loaded.digest)
    return dataclasses.replace(job, warnings=loaded.warnings, echo=loaded.echo)


@cache
def write_whole(name: str) -> tuple[bytes, Pages]:
    """Return the packet of a project in projects/ and what it says about its pages."""
    return write_pages(load_job(name))


def write_pages(job: Job, only: tuple[str, ...] | None = None) -> tuple[bytes, Pages]:
    """Return the packet of a job, or some sections of it."""
    stream = io.BytesIO()
    pages = write_packet(job, stream, only)
    return stream.getvalue(), pages

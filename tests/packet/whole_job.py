"""Whole jobs, everything computed, for tests of pages and files; each made once."""

from __future__ import annotations

import io
from functools import cache
from pathlib import Path

from calc.project import Project
from packet.job import Job, work_out_job
from packet.pages.kit.document import Pages, write_packet
from packet.reading.load import Loaded, load_project

PROJECTS = Path(__file__).parents[2] / "projects"


def finish_job(project: Project, stem: str = "made", digest: str = "0123456789ab") -> Job:
    """Return the job of a project that need not be settled."""
    return work_out_job(Loaded(project, digest, {}, (), {}), Path(f"{stem}.yaml"))


@cache
def load_job(name: str) -> Job:
    """Return the job of a project in projects/, without its as-built log."""
    path = PROJECTS / f"{name}.yaml"
    return work_out_job(load_project(path), path)


@cache
def write_whole(name: str) -> tuple[bytes, Pages]:
    """Return the packet of a project in projects/ and what it says about its pages."""
    return write_pages(load_job(name))


def write_pages(job: Job, only: tuple[str, ...] | None = None) -> tuple[bytes, Pages]:
    """Return the packet of a job, or some sections of it."""
    stream = io.BytesIO()
    pages = write_packet(job, stream, only)
    return stream.getvalue(), pages

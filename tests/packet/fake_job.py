"""A job made without a project file: the sample project, its round parts, and nothing else that templates need."""

from __future__ import annotations

from collections.abc import Sequence
from types import MappingProxyType, SimpleNamespace
from typing import Any, cast

from calc.box.ports import design_port
from calc.cutting.round_parts import make_round_parts
from calc.finding import Finding
from calc.project import Project
from calc.shapes.shapes import FlatPart
from packet.job import Job
from tests.sample import make_project


def make_job(
    project: Project | None = None, parts: Sequence[FlatPart] | None = None, findings: Sequence[Finding] = ()
) -> Job:
    """Return a job whose design holds only round parts and the findings given."""
    project = project or make_project()
    ports = tuple(design_port(project, port) for port in project.ports)
    made = make_round_parts(project, ports)
    design = SimpleNamespace(
        flat_parts=tuple(parts) if parts is not None else made.parts,
        ports=ports,
        findings=tuple(findings),
        sheets=(),
        parts=(),
    )
    sizing = SimpleNamespace(findings=(), judged=())
    nothing = cast(Any, None)
    return Job(
        project,
        "sample",
        "0123456789ab",
        "0.1.0",
        MappingProxyType({}),
        (),
        cast(Any, sizing),
        cast(Any, SimpleNamespace(findings=())),  # no air was sized, so no gauge can be
        cast(Any, design),
        nothing,
    )

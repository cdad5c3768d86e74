"""What ``check`` says for programs: the findings of a job, without any page."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from packet.job import Job


def describe_check(job: Job) -> dict[str, Any]:
    """Return what ``check --json`` prints."""
    from packet.words.findings import list_findings

    return {
        "tool": f"collector-packet {job.version}",
        "project": job.project.title.title,
        "revision": job.project.title.revision,
        "digest": job.digest,
        "verdict": job.verdict.value,
        "warnings": list(job.warnings),
        "assumed": list(job.project.assumed),
        "findings": list_findings(job.findings, job.reader),
    }

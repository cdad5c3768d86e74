"""What ``check`` says for programs: the findings of a job, without any page."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from packet.job import AnyJob


def describe_check(job: AnyJob) -> dict[str, Any]:
    """Return what ``check --json`` prints."""
    from packet.parts import PARTS
    from packet.words.findings import list_findings
    from packet.work.left_out import list_wanted

    return {
        "tool": f"collector-packet {job.version}",
        "project": job.project.title.title,
        "revision": job.project.title.revision,
        "digest": job.digest,
        "verdict": job.verdict.value,
        "warnings": list(job.warnings),
        "assumed": list(job.project.assumed),
        "left_out": {part: list(list_wanted(part, job.keys)) for part in PARTS if part not in job.has},
        "findings": list_findings(job.findings, job.reader),
    }

"""``check`` and ``build`` look at the same things: the same findings, so the same verdict and exit status."""

from __future__ import annotations

from pathlib import Path

import pytest

from packet.build import make_job
from packet.check import check_project

PROJECTS = Path(__file__).parents[2] / "projects"
SAMPLES = sorted(p for p in PROJECTS.glob("*.yaml") if not p.name.endswith(".as-built.yaml"))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_same_findings_and_verdict(path: Path) -> None:
    checked = check_project(path)
    job, _ = make_job(path)
    assert [(f.key, f.verdict, f.value, f.limit) for f in checked.findings] == [
        (f.key, f.verdict, f.value, f.limit) for f in job.findings
    ]
    assert checked.verdict is job.verdict

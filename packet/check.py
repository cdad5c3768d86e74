"""Findings of a project without any page: load, settle, size, design."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from calc.finding import Finding, Verdict, find_worst
from calc.measures.quantity import Reader
from calc.project import Project
from packet.display_asked import AS_THE_FILE, Asked, apply_asked
from packet.load import Loaded, load_project
from packet.version import VERSION


@dataclass(frozen=True)
class Checked:
    """project: settled; findings: of sizing and design."""

    loaded: Loaded
    project: Project
    findings: tuple[Finding, ...]

    @property
    def verdict(self) -> Verdict:
        return find_worst(self.findings)

    @property
    def reader(self) -> Reader:
        display = self.project.display
        return Reader(display.system, display.fraction, display.language)

    def as_data(self) -> dict[str, Any]:
        """Return what ``check --json`` prints."""
        from packet.findings import list_findings

        return {
            "tool": f"collector-packet {VERSION}",
            "project": self.project.title.title,
            "revision": self.project.title.revision,
            "digest": self.loaded.digest,
            "verdict": self.verdict.value,
            "warnings": list(self.loaded.warnings),
            "assumed": list(self.project.assumed),
            "findings": list_findings(self.findings, self.reader),
        }


def check_project(path: Path, asked: Asked = AS_THE_FILE) -> Checked:
    """Return the findings of a project file. Raises BadProject. The file is read before anything heavy is loaded."""
    loaded = load_project(path)
    from calc.gauges.gauge_design import design_gauge
    from calc.geometry.box import settle_box
    from calc.geometry.design import design_project
    from calc.record.draught import judge_draught
    from calc.sizing import size_project
    from packet.bill import make_bill
    from packet.bill_names import add_doubts
    from packet.reading.no_balance import refuse_no_balance
    from packet.record_log import load_record

    project = settle_box(apply_asked(loaded.project, asked))
    with refuse_no_balance(loaded, str(path)):
        sizing = size_project(project)
    record = load_record(path)
    gauge = design_gauge(project, sizing, record)
    design = design_project(project, sizing)
    draught = judge_draught(project, sizing, record)
    loaded = add_doubts(loaded, make_bill(project, sizing, design), str(path))
    return Checked(loaded, project, draught + sizing.findings + design.findings + gauge.findings)

"""The first cut of a hole leaves wood for the last one."""

from __future__ import annotations

from calc.box.ports import design_port
from calc.finding import Verdict
from calc.project import Pail, Port
from tests.shop import make_project


def test_a_hole_is_cut_slightly_small_first() -> None:
    project = make_project()
    port = design_port(project, Port(name="A", kind="filter", face="bottom", pail=Pail(across_mm=(301.6,))))
    assert 0 < port.hole_mm - port.first_cut_mm < 6.0
    assert all(f.verdict is Verdict.FITS for f in port.findings)

"""Facts of the trade about pails and lids (common practice, no source)."""

from __future__ import annotations

import pytest

from calc.box.ports import design_port
from calc.cutting.lids import LAND_MM, design_filter_lid
from calc.finding import Verdict
from calc.project import Closure, Pail, Port
from tests.outside.check import hold_against
from tests.shop import make_project

pytestmark = pytest.mark.outside

PRACTICE = "common practice, no source"


def test_a_common_pail_is_about_eleven_and_seven_eighths_near_the_top() -> None:
    project = make_project()
    for port in project.ports:
        across = design_port(project, port).hole_mm / 25.4
        hold_against(
            f"hole for {port.name} [in]", f"{PRACTICE}: a 5-gallon pail is about 11 7/8 in", 11.875, across, abs=0.13
        )


def test_about_half_an_inch_of_land_is_left_on_a_lid() -> None:
    lid = design_filter_lid(Closure(), make_project().filters[0], ("filter A",))
    hold_against("land of a filter lid [in]", f"{PRACTICE}: about 1/2 in", 0.5, lid.land_mm / 25.4, abs=0.07)
    hold_against("land looked for [in]", f"{PRACTICE}: about 1/2 in", 0.5, LAND_MM / 25.4, abs=0.07)


def test_a_hole_is_cut_slightly_small_first() -> None:
    project = make_project()
    port = design_port(project, Port(name="A", kind="filter", face="bottom", pail=Pail(across_mm=(301.6,))))
    assert 0 < port.hole_mm - port.first_cut_mm < 6.0
    assert all(f.verdict is Verdict.FITS for f in port.findings)

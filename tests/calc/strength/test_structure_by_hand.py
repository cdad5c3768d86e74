"""Facts of the trade about boxes, pails and filters."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc.box.box import settle_box
from calc.box.stack import find_hanging
from calc.design import design_box
from calc.project import Pail
from tests.shop import INCH, INH2O, make_project

POUND_FORCE = 4.4482216


def test_hanging_stack() -> None:
    """A 36 in filter on a common 5-gallon pail hangs about 51 in below the box."""
    project = settle_box(make_project())
    port = next(p for p in project.ports if p.kind == "filter")
    assert find_hanging(project, port) / INCH == pytest.approx(51.0, abs=0.75)


def test_force_on_a_panel_at_shut_off() -> None:
    """A 24 x 48 in panel carries 166 lb at 4 in w.g. and 416 lb at 10 in; a 12 in lid 41 lb at 10 in."""
    project = make_project()
    box = replace(project.box, width_mm=48 * INCH, height_mm=24 * INCH)
    settled = settle_box(replace(project, box=box))
    for inches, pounds in ((4, 166), (10, 416)):
        design = design_box(settled, 0.0, inches * INH2O)
        force = design.strength.get_panel("front").force_worst_n / POUND_FORCE
        assert force == pytest.approx(pounds, abs=0.6)
    pail = Pail(across_mm=(12 * INCH + 2 * 2.3,))  # 12 in clear inside the collar
    ports = tuple(replace(port, pail=pail) for port in settled.ports)
    design = design_box(replace(settled, ports=ports), 0.0, 10 * INH2O)
    lid = next(each for each in design.strength.screws if each.name == "ring screws of inspection")
    assert 8 * lid.load_each_n / POUND_FORCE == pytest.approx(41, abs=0.5)

"""Every sentence that a design makes, needed or not, can be said with what it was given."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc.box.box import settle_box
from calc.cutting.circles import list_drilled, list_settings
from calc.design import Design, design_box
from calc.finding import Said
from calc.measures.quantity import Reader
from calc.project import Inlet, Lining, Pail, Panel, Project, Sheet
from packet.words.phrases import take_words
from packet.words.say import FINDINGS, say
from tests.shop import make_project

READERS = (Reader("inch"), Reader("metric"))


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[Said]:
    """What is made while the test runs."""
    kept: list[Said] = []
    init = Said.__init__

    def keep(self: Said, *args: object, **kwargs: object) -> None:
        init(self, *args, **kwargs)  # type: ignore[arg-type]
        kept.append(self)

    monkeypatch.setattr(Said, "__init__", keep)
    return kept


def with_box(project: Project, **changes: object) -> Project:
    return replace(project, box=replace(project.box, **changes))  # type: ignore[arg-type]


def list_odd() -> list[Project]:
    """Projects that go wrong in as many ways as there are sentences for."""
    plain = make_project()
    panel, shop = plain.box.panel, plain.shop
    settled = settle_box(plain)
    near = tuple(replace(p, across_mm=160.0 + 5.0 * i, up_mm=100.0) for i, p in enumerate(settled.ports))
    return [
        plain,
        with_box(plain, depth_mm=280.0, hung="wall"),
        replace(settled, ports=near),
        replace(plain, lining=Lining("carpet", 100.0, ("back", "left", "right"))),
        with_box(plain, inlet=Inlet("front", 203.2, 600.0, 220.0)),
        with_box(plain, inlet=Inlet("left", 500.0)),
        with_box(plain, hung="wall", removable="back", inlet=Inlet("back", 150.0)),
        with_box(plain, hung="ceiling", removable="top"),
        with_box(plain, hung="cart", underside_mm=900.0),
        with_box(plain, panel=Panel(stock="plywood", thickness_mm=6.0, nominal_mm=12.0), hung="wall"),
        with_box(plain, panel=replace(panel, sheet=Sheet(500.0, 300.0), grain_matters=True)),
        with_box(plain, panel=replace(panel, thickness_mm=3.0, nominal_mm=3.0), width_mm=1500.0, depth_mm=900.0),
        replace(plain, shop=replace(shop, ceiling_mm=1500.0, doorway_width_mm=300.0, doorway_height_mm=400.0)),
        replace(plain, ports=tuple(p for p in plain.ports if p.kind != "inspection")),
        replace(plain, ports=tuple(replace(p, face="top") for p in plain.ports)),
        with_box(plain, hung="ceiling", underside_mm=1500.0, inlet=Inlet("bottom", 150.0)),
        with_box(plain, inlet=Inlet("top", 400.0), width_mm=500.0, depth_mm=500.0),
        replace(plain, ports=tuple(replace(p, pail=Pail(across_mm=(300.0,), around_mm=900.0)) for p in plain.ports)),
        replace(plain, ports=tuple(replace(p, closure=replace(p.closure, flange_mm=280.0)) for p in plain.ports)),
        replace(plain, ports=tuple(replace(p, pail=Pail(across_mm=(9000.0,))) for p in plain.ports)),
        replace(plain, display=replace(plain.display, most_sheets=2)),
        replace(plain, methods=replace(plain.methods, lift_limit_kg=60.0)),
        replace(plain, blower=replace(plain.blower, motor_top_mm=2400.0)),
        with_box(
            plain, hung="cart", width_mm=1300.0, depth_mm=450.0, panel=replace(panel, thickness_mm=9.0, nominal_mm=9.0)
        ),
        with_box(
            plain, hung="cart", width_mm=600.0, depth_mm=1300.0, panel=replace(panel, thickness_mm=6.0, nominal_mm=6.0)
        ),
        replace(plain, methods=replace(plain.methods, lift_limit_kg=8.0, helper=True)),
    ]


def say_all(sentences: list[Said]) -> set[str]:
    """Say each in both systems and return which they were. Raises BadWords."""
    for said in sentences:
        for reader in READERS:
            assert say(said, reader)
    return {said.phrase for said in sentences}


def make_design(project: Project) -> Design:
    return design_box(settle_box(project), 800.0, 2800.0)


def test_each_sentence_of_odd_boxes_can_be_said(made: list[Said]) -> None:
    for project in list_odd():
        design = make_design(project)
        list_settings(design.flat_parts, project.methods)
        list_drilled(design.flat_parts)
    phrases = say_all(made)
    for file in ("fit", "lids", "mount_findings", "ports", "stack_findings", "strength_findings"):
        keys = {f"{file}.{key}" for key in take_words(file, room=FINDINGS).lines}
        assert len(keys & phrases) > 0.9 * len(keys), sorted(keys - phrases)

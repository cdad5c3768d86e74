"""Absurd boxes are judged, not crashed on: eighty at random, every part of some size."""

from __future__ import annotations

import random
from dataclasses import replace

from calc.box.box import settle_box
from calc.design import design_box
from calc.finding import Verdict
from calc.project import FACES, Inlet, Lining, Pail, Port, Project, Sheet
from tests.shop import make_project


def make_absurd(chance: random.Random) -> Project:
    """Return a project with sizes, joints, linings and ports that may not go together at all."""
    project, pick = make_project(), chance.choice
    faces = tuple(face for face in FACES if chance.random() < 0.5)
    sizes = {f"{size}_mm": pick([None, 20.0, 80.0, 300.0, 900.0, 3000.0]) for size in ("width", "depth", "height")}
    panel = replace(
        project.box.panel,
        thickness_mm=pick([3.0, 12.0, 18.0, 60.0]),
        sheet=pick([Sheet(2440.0, 1220.0), Sheet(300.0, 200.0)]),
        offcuts=pick([(), (Sheet(400.0, 300.0),)]),
        grain_matters=pick([True, False]),
    )
    box = replace(
        project.box,
        **sizes,  # type: ignore[arg-type]
        panel=panel,
        joint=pick(["butt", "rabbet", "dado", "cleat"]),
        removable=pick(FACES),
        hung=pick(["wall", "ceiling", "cart"]),
        inlet=Inlet(pick(FACES), pick([50.0, 200.0, 900.0]), pick([None, 5.0])),
        cart_wheelbase_mm=pick([None, 600.0]),
    )
    ports = tuple(
        Port(
            name=f"p{i}",
            kind=pick(["filter", "inspection", "gauge"]),
            face=pick(FACES),
            pail=Pail(across_mm=(pick([90.0, 301.0, 500.0]),)),
        )
        for i in range(chance.randint(0, 5))
    )
    lining = pick([None, Lining("carpet", pick([0.5, 10.0, 50.0, 200.0, 400.0]), faces)])
    return replace(project, box=box, ports=ports, lining=lining)


def test_absurd_boxes_are_judged() -> None:
    chance = random.Random(11)
    refused = 0
    for _ in range(80):
        project = settle_box(make_absurd(chance))
        design = design_box(project, chance.choice([0.0, 800.0, -800.0]), chance.choice([0.0, 2800.0, -2800.0]))
        refused += any(finding.verdict is Verdict.DOES_NOT_FIT for finding in design.findings)
        for part in (*design.parts, *(design.lining.pieces if design.lining else ())):
            assert part.width_mm > 0
            assert part.height_mm > 0
        for plan in design.sheets:
            placed = sum(len(layout.placed) for layout in plan.layouts)
            wanted = (
                sum(part.quantity for part in design.parts)
                if plan is design.sheets[0]
                else len(design.lining.pieces)
                if design.lining
                else 0
            )
            assert placed + len(plan.too_large) == wanted
        assert settle_box(project) == project
    assert refused > 40

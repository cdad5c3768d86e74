"""Ducts counted: every piece of the project is in the takeoff once."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from calc.airflow.takeoff import take_off
from calc.project import Elbow, Hose, Join, OpenGate, OtherPart, Pipe, Run, Taper
from tests.sample import make_project


def test_the_sample_counted_by_hand() -> None:
    taken = take_off(make_project())
    feet = {(round(p.diameter_m / 0.0254), p.material): p.length_m / 0.3048 for p in taken.pipes}
    assert feet[(6, "galvanised")] == pytest.approx(18 + 12 + 22)
    assert feet[(8, "galvanised")] == pytest.approx(6)
    hose = {round(h.diameter_m / 0.0254): h.length_m / 0.3048 for h in taken.hoses}
    assert hose == {5: pytest.approx(5 + 4 + 6), 4: pytest.approx(6 + 5)}
    elbows = {round(f.diameter_m / 0.0254): f.count for f in taken.fittings if f.kind == "elbow"}
    assert elbows == {6: 3, 8: 1}
    # north joins the trunk by a wye, five machines join by wyes; trunk and south go straight on
    assert sum(f.count for f in taken.fittings if f.kind == "wye") == 6
    assert sum(g.count for g in taken.gates) == 5
    assert sum(c.count for c in taken.clamps) == 10
    assert taken.bonding_m == pytest.approx(26 * 0.3048)
    assert not taken.plastic


def test_joints_tape_and_screws() -> None:
    project = make_project()
    bare = replace(project, runs=(), machines=(), delivery=(Pipe(0.2, 2.0), Elbow(0.2, count=2), Taper(0.2, 0.15)))
    taken = take_off(bare)
    assert taken.joints == 4  # one a piece: pipe, two elbows, taper
    assert taken.tape_m == pytest.approx(1.1 * math.pi * (0.2 * 3 + 0.15))
    assert taken.screws == 12
    assert taken.hangers == 1 + 2


def test_every_kind_of_piece() -> None:
    project = make_project()
    run = Run(
        "extra", "trunk",
        (Pipe(0.1, 3.0, "pvc"), Hose(0.1, 1.0, wall="smooth"), Elbow(0.1, 45.0, make="smooth"), Taper(0.1, 0.15, None),
         OpenGate(0.15), OtherPart("silencer", 0.15, coefficient=1.0)),
        Join("tee", 90.0),
    )  # fmt: skip
    taken = take_off(replace(project, runs=(*project.runs, run)))
    assert taken.plastic
    assert any(f.kind == "tee" and f.diameter_m == 0.1524 and f.other_m == 0.15 for f in taken.fittings)
    assert any(f.kind == "other" and f.detail == "silencer" for f in taken.fittings)
    assert any(f.kind == "taper" and f.turn_deg == 0.0 for f in taken.fittings)
    assert sum(g.count for g in taken.gates) == 6

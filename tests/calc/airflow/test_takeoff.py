"""Ducts counted: every piece of the project is in the takeoff once."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from calc.airflow.system import System
from calc.airflow.takeoff import LEFT_OUT, Counted, take_off
from calc.box.box import settle_box
from calc.project import Elbow, Gate, Hood, Hose, Join, Machine, OpenGate, OtherPart, Pickup, Pipe, Project, Run, Taper
from packet.reading.load import load_project
from tests.shop import PROJECTS, make_project


def test_the_sample_counted_by_hand() -> None:
    taken = take_off(make_project())
    feet = {(round(p.diameter_m / 0.0254), p.material): p.length_m / 0.3048 for p in taken.pipes}
    assert feet[(6, "galvanised")] == pytest.approx(18 + 12 + 22)
    assert feet[(8, "galvanised")] == pytest.approx(6)
    hose = {round(h.diameter_m / 0.0254): h.length_m / 0.3048 for h in taken.hoses}
    # 8 in: the flexible piece at the blower, 1 ft (common practice, no source), for the way to the box has no hose
    assert hose == {5: pytest.approx(5 + 4 + 6), 4: pytest.approx(6 + 5), 8: pytest.approx(1.0, abs=0.02)}
    elbows = {round(f.diameter_m / 0.0254): f.count for f in taken.fittings if f.kind == "elbow"}
    assert elbows == {6: 3, 8: 1}
    # north joins the trunk by a wye; two machines on north and three on south take a wye less each, for the last of
    # them goes into the run's open end
    assert sum(f.count for f in taken.fittings if f.kind == "wye") == 1 + 1 + 2
    # hose of 5 in and 4 in goes onto gates of 6 in: a reducer each
    tapers = [
        (round(f.diameter_m / 0.0254), round(f.other_m / 0.0254), f.count) for f in taken.fittings if f.kind == "taper"
    ]
    assert tapers == [(4, 6, 2), (5, 6, 3)]
    assert sum(g.count for g in taken.gates) == 5
    assert sum(c.count for c in taken.clamps) == 10 + 2
    assert taken.bonding_m == pytest.approx((26 + 1) * 0.3048)
    assert not taken.plastic


def test_joints_tape_and_screws() -> None:
    project = make_project()
    inlet = replace(project.box.inlet, diameter_mm=150.0)
    bare = replace(
        project, runs=(), machines=(), delivery=(Pipe(0.2, 2.0), Elbow(0.2, count=2), Taper(0.2, 0.15)),
        box=replace(project.box, inlet=inlet), blower=replace(project.blower, outlet_m=0.2),
    )  # fmt: skip
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


def count_kind(project: Project, kind: str) -> int:
    return sum(fitting.count for fitting in take_off(project).fittings if fitting.kind == kind)


@pytest.mark.parametrize("count", [1, 2, 3, 6])
def test_a_main_of_n_machines_takes_one_wye_less(count: int) -> None:
    """A pipe with n machines along it ends in the last of them: n - 1 branches (common practice, no source)."""
    project, d = make_project(), 0.15
    main = Run("main", "separator", (Pipe(d, 6.0),))
    machines = tuple(
        Machine(
            name=f"m{n}",
            on="main",
            needs_m3s=0.2,
            pickups=(Pickup("port", Hood(kind="plain", diameter_m=d)),),
            pieces=(Hose(d, 1.0),),
            gate=Gate(d),
        )
        for n in range(count)
    )
    assert count_kind(replace(project, runs=(main,), machines=machines), "wye") == count - 1
    # the file may tell which one goes straight: the same wyes
    told = (replace(machines[0], join=Join("straight", 0.0)), *machines[1:])
    assert count_kind(replace(project, runs=(main,), machines=told), "wye") == count - 1


def test_the_last_machine_on_a_main_needs_a_reducer_where_its_size_is_another() -> None:
    project = make_project()
    main = Run("main", "separator", (Pipe(0.15, 6.0),))
    small = Machine(
        name="saw",
        on="main",
        needs_m3s=0.2,
        pickups=(Pickup("port", Hood(kind="plain", diameter_m=0.1)),),
        pieces=(Hose(0.1, 1.0),),
        gate=Gate(0.1),
    )
    taken = take_off(replace(project, runs=(main,), machines=(small,)))
    assert Counted(kind="taper", diameter_m=0.1, other_m=0.15, turn_deg=0.0, detail=LEFT_OUT, count=1) in taken.fittings
    assert not any(fitting.kind == "wye" for fitting in taken.fittings)


def test_two_ports_of_one_machine_meet_in_a_wye() -> None:
    project = make_project()
    main = Run("main", "separator", (Pipe(0.15, 6.0),))
    pickups = (
        Pickup("cabinet", Hood(kind="plain", diameter_m=0.125)),
        Pickup("guard", Hood(kind="plain", diameter_m=0.075), (Hose(0.075, 2.0),)),
    )
    saw = Machine(
        name="saw",
        on="main",
        needs_m3s=0.2,
        pickups=pickups,
        pieces=(Taper(0.125, 0.15), Pipe(0.15, 1.0)),
        gate=Gate(0.15),
    )
    taken = take_off(replace(project, runs=(main,), machines=(saw,)))
    assert [(f.diameter_m, f.other_m) for f in taken.fittings if f.kind == "wye"] == [(0.125, 0.075)]
    assert not any(fitting.detail == LEFT_OUT for fitting in taken.fittings if fitting.diameter_m < 0.15)


def test_one_hose_that_goes_from_machine_to_machine_is_bought_once() -> None:
    project = make_project()
    main = Run("hose end", "separator", (Pipe(0.1, 0.3),))
    machines = tuple(
        Machine(
            name=name,
            on="hose end",
            needs_m3s=0.15,
            pickups=(Pickup("port", Hood(kind="plain", diameter_m=0.1)),),
            pieces=(Hose(0.1, 2.0),),
            gate=None,
            moved=True,
        )
        for name in ("saw", "planer", "sander")
    )
    taken = take_off(replace(project, runs=(main,), machines=machines))
    assert {round(hose.diameter_m, 3): hose.length_m for hose in taken.hoses if hose.diameter_m < 0.15} == {0.1: 2.0}


@pytest.mark.parametrize("name", ["boatshed", "cart", "minimal", "outdoor", "schoolroom", "sample"])
def test_each_sudden_step_of_the_sizing_is_bought(name: str) -> None:
    """The sizing's own steps, counted again: each is a reducer left out, or lies in a wye of two sizes."""
    project = settle_box(make_project() if name == "sample" else load_project(PROJECTS / f"{name}.yaml").project)
    system = System(project)
    stretches = [*system.network.runs.values(), *system.network.machines.values()]
    stretches += [each for pickups in system.network.pickups.values() for each in pickups]
    items = [item for stretch in stretches for item in stretch.items] + system.tail
    steps = sum(item.what.phrase == "items.sudden" for item in items)
    fittings = take_off(project).fittings
    left_out = sum(f.count for f in fittings if f.detail == LEFT_OUT)
    in_wyes = sum(
        f.count for f in fittings if f.kind in ("wye", "tee") and abs(f.diameter_m - f.other_m) > 0.01 * f.other_m
    )
    assert left_out + in_wyes == steps
    assert steps == {"sample": 5, "schoolroom": 3}.get(name, steps)

"""The box settled: automatic sizes hold what they must, and nothing the file states is changed."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from calc.box.box import settle_box
from calc.box.joints import measure_box
from calc.box.room import find_spacing
from calc.design import design_box
from calc.finding import Verdict
from calc.project import FACES, Face, Inlet, Lining, Pail, Port, Project, System
from calc.shapes.faces import VIEWS, Sizes, find_flat, find_spot
from tests.shop import make_project


def make_auto(filters: int, lining_mm: float, system: str = "metric", joint: str = "butt") -> Project:
    project = make_project()
    ports = tuple(
        Port(name=f"filter {i}", kind="filter", face="bottom", pail=Pail(across_mm=(300.0 + i,)))
        for i in range(filters)
    )
    ports += tuple(port for port in project.ports if port.kind != "filter")
    box = replace(project.box, width_mm=None, depth_mm=None, height_mm=None, joint=joint)  # type: ignore[arg-type]
    lining = Lining("carpet", lining_mm, ("top", "back", "left", "right", "bottom")) if lining_mm else None
    return replace(
        project,
        ports=ports,
        box=box,
        lining=lining,
        display=replace(project.display, system=system),  # type: ignore[arg-type]
    )


@settings(max_examples=25, deadline=None)
@given(
    st.integers(1, 5),
    st.floats(0.0, 40.0),
    st.sampled_from(["inch", "metric"]),
    st.sampled_from(["butt", "dado", "cleat"]),
)
@example(4, 0.0, "inch", "cleat")
def test_auto_box_holds_ports_grip_and_lining(filters: int, lining: float, system: str, joint: str) -> None:
    project = settle_box(make_auto(filters, lining, system, joint))
    design = design_box(project, 500.0, 2500.0)
    wrong = [
        f.key
        for f in design.findings
        if f.verdict is Verdict.DOES_NOT_FIT and f.key.split(".")[0] in ("wall", "edge", "grip", "inlet", "lining")
    ]
    assert wrong == []
    assert [f.key for f in design.findings if f.key.startswith("grip.") and f.verdict is not Verdict.FITS] == []


@pytest.mark.parametrize("face", FACES)
def test_auto_box_has_room_for_the_inlet_beside_ports(face: Face) -> None:
    project = make_auto(2, 12.0)
    project = settle_box(replace(project, box=replace(project.box, inlet=Inlet(face, 150.0))))
    design = design_box(project, 500.0, 2500.0)
    assert [f.key for f in design.findings if f.key.startswith("inlet.") and f.verdict is not Verdict.FITS] == []
    assert settle_box(project) == project


def test_auto_box_is_the_smallest() -> None:
    """Half a step less in any direction, and something no longer fits."""
    project = settle_box(make_auto(2, 12.0))
    for size in ("width_mm", "depth_mm", "height_mm"):
        box = replace(project.box, **{size: getattr(project.box, size) - 12.0})
        free = tuple(replace(port, across_mm=None, up_mm=None) for port in project.ports)
        inlet = replace(box.inlet, across_mm=None, up_mm=None)
        tighter = settle_box(replace(project, box=replace(box, inlet=inlet), ports=free))
        design = design_box(tighter, 500.0, 2500.0)
        keys = {f.key.split(".")[0] for f in design.findings if f.verdict is not Verdict.FITS}
        assert keys & {"wall", "edge", "grip", "reach"}, f"{size} could be smaller"


def test_auto_box_keeps_everything_within_reach() -> None:
    """Two filters: the smallest box that holds the ports leaves one out of reach, a little more width mends it."""
    project = make_auto(2, 12.0)
    settled = settle_box(project)
    assert all(target.can for target in design_box(settled, 500.0, 2500.0).reach.targets)
    narrow = settle_box(replace(project, box=replace(project.box, width_mm=settled.box.width_mm - 20.0)))
    design = design_box(narrow, 500.0, 2500.0)
    assert not all(target.can for target in design.reach.targets)
    # and only the arm asks for it: everything else fits in the narrower box
    assert not [
        f for f in design.findings if f.key.split(".")[0] in ("wall", "edge", "grip") and f.verdict.value != "fits"
    ]


def test_auto_box_stays_small_where_no_box_is_in_reach() -> None:
    """Four filters are too many for one arm in one row and in two: the smallest box that holds them is taken."""
    settled = settle_box(make_auto(4, 12.0))
    reach = design_box(settled, 500.0, 2500.0).reach
    assert not all(target.can for target in reach.targets)
    assert len({port.up_mm for port in settled.ports if port.kind == "filter"}) == 1
    more = Port(name="second", kind="inspection", face="front", pail=Pail(across_mm=(300.0,)))
    project = make_auto(4, 12.0)
    two = settle_box(replace(project, ports=(*project.ports, more)))
    assert len(design_box(two, 500.0, 2500.0).reach.targets) == len(reach.targets)


def test_what_the_file_states_stays() -> None:
    project = make_project()
    port = replace(project.ports[0], across_mm=123.4, up_mm=50.0)
    inlet = replace(project.box.inlet, across_mm=77.0, up_mm=33.0)
    box = replace(project.box, inlet=inlet, underside_mm=1900.0)
    settled = settle_box(replace(project, ports=(port, *project.ports[1:]), box=box))
    assert (settled.ports[0].across_mm, settled.ports[0].up_mm) == (123.4, 50.0)
    assert (settled.box.inlet.across_mm, settled.box.underside_mm) == (77.0, 1900.0)
    assert settle_box(settled) == settled
    assert [p.name for p in settled.ports] == [p.name for p in project.ports]
    assert all(p.across_mm is not None and p.up_mm is not None for p in settled.ports)


def test_inspection_and_gauge_clear_each_other() -> None:
    project = settle_box(make_project())
    inspection, gauge = (next(p for p in project.ports if p.kind == kind) for kind in ("inspection", "gauge"))
    assert inspection.up_mm == gauge.up_mm
    assert gauge.across_mm - inspection.across_mm == pytest.approx(
        find_spacing(project, inspection, gauge), abs=25.4 / 16
    )


def test_cart_hangs_as_low_as_the_pails_allow() -> None:
    project = make_project()
    on_cart = settle_box(replace(project, box=replace(project.box, hung="cart", cart_wheelbase_mm=900.0)))
    assert on_cart.box.underside_mm < settle_box(project).box.underside_mm
    design = design_box(on_cart, 500.0, 2500.0)
    # the pail hangs over the base, with the thread's drop and an inch to spare
    assert design.stack.stand_mm == pytest.approx(100.0 + 18.0)
    assert design.stack.floor_gap_mm == pytest.approx(design.stack.drop_mm + 25.0)
    low = on_cart.box.underside_mm
    assert low - design.stack.hanging_mm - design.stack.stand_mm == pytest.approx(design.stack.floor_gap_mm)
    assert design.strength.hang_fasteners == 0


@pytest.mark.parametrize("face", FACES)
def test_faces_fold_out_right_handed(face: Face) -> None:
    """Across x up points out of the box for every face; corners map onto the box's own corners."""
    outside = Sizes(100.0, 60.0, 40.0)
    origin, right, up = (find_spot(face, a, u, outside) for a, u in ((0, 0), (1, 0), (0, 1)))
    a = (right.x - origin.x, right.y - origin.y, right.z - origin.z)
    b = (up.x - origin.x, up.y - origin.y, up.z - origin.z)
    out = (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
    inward = find_spot(face, 0, 0, outside, 1.0)
    step = (inward.x - origin.x, inward.y - origin.y, inward.z - origin.z)
    assert tuple(-s for s in step) == out
    view = VIEWS[face]
    assert {view.across_axis, view.up_axis} == {i for i in range(3) if out[i] == 0}
    project = settle_box(make_project())
    shape = measure_box(project.box)
    left, bottom, right_, top = find_flat(face, shape.cavity, shape.outside)
    assert right_ - left == pytest.approx(shape.inside.along(view.across_axis))
    assert top - bottom == pytest.approx(shape.inside.along(view.up_axis))


def test_filters_stand_in_two_rows_where_one_is_too_long() -> None:
    project = make_auto(4, 0.0)
    box = replace(project.box, width_mm=900.0, depth_mm=900.0, height_mm=400.0)
    settled = settle_box(replace(project, box=box))
    filters = [port for port in settled.ports if port.kind == "filter"]
    assert len({port.up_mm for port in filters}) == 2
    assert len({port.across_mm for port in filters}) == 2
    design = design_box(settled, 500.0, 2500.0)
    assert [f.key for f in design.findings if f.key.startswith("grip.filter") and f.verdict is not Verdict.FITS] == []
    # where two rows do not help either, they stay in one and the finding says so
    small = settle_box(replace(project, box=replace(box, width_mm=600.0, depth_mm=400.0)))
    assert len({port.up_mm for port in small.ports if port.kind == "filter"}) == 1
    crowded = design_box(small, 500.0, 2500.0)
    assert any(f.key.startswith("grip.filter") and f.verdict is Verdict.DOES_NOT_FIT for f in crowded.findings)


@pytest.mark.parametrize(("system", "step"), [("inch", 25.4 / 16), ("metric", 1.0)])
def test_inlet_is_marked_out_on_whole_steps_of_the_tape(system: System, step: float) -> None:
    project = make_project()
    project = replace(project, display=replace(project.display, system=system))
    faces: tuple[Face, ...] = ("left", "back", "top")
    for face in faces:
        inlet = replace(project.box.inlet, face=face, across_mm=None, up_mm=None)
        placed = settle_box(replace(project, box=replace(project.box, inlet=inlet))).box.inlet
        assert placed.across_mm is not None
        assert placed.up_mm is not None
        for at in (placed.across_mm, placed.up_mm):
            assert at / step == pytest.approx(round(at / step), abs=1e-6)

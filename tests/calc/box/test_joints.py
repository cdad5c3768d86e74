"""The assembled box holds its declared sizes, whatever the joint and whichever face comes off."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise, product

import pytest

from calc.box.box import settle_box
from calc.box.joints import BoxShape, Solid, find_grooves, measure_box, place_cleats, place_panels
from calc.box.lining import plan_lining
from calc.box.parts import plan_parts
from calc.box.ports import design_port
from calc.project import FACES, FilterBox, Inlet, Panel
from calc.shapes.faces import AXIS, Block
from tests.shop import make_project

JOINTS = ("butt", "rabbet", "dado", "cleat")
NEAR = 0.01  # mm: parts add up to the declared sizes within this


def make_box(joint: str, removable: str, thickness: float = 17.6) -> FilterBox:
    panel = Panel(stock="birch plywood", thickness_mm=thickness, nominal_mm=18.0)
    return FilterBox(
        width_mm=1003.7,
        depth_mm=452.3,
        height_mm=377.9,
        panel=panel,
        inlet=Inlet("left", 200.0),
        joint=joint,
        removable=removable,
    )  # type: ignore[arg-type]


def cut_cells(blocks: list[Block], within: Block) -> dict[tuple[int, int, int], list[float]]:
    """Return every cell of `within` cut along all block sides: index -> middle."""
    steps = []
    for axis in range(3):
        ends = sorted({within.low[axis], within.high[axis]} | {e for b in blocks for e in (b.low[axis], b.high[axis])})
        kept: list[float] = []
        for end in ends:
            if not kept or end - kept[-1] > 1e-6:
                kept.append(end)
        steps.append([(a + b) / 2 for a, b in pairwise(kept)])
    return {
        (i, j, k): [x, y, z]
        for (i, x), (j, y), (k, z) in product(enumerate(steps[0]), enumerate(steps[1]), enumerate(steps[2]))
    }


def holds(block: Block, spot: list[float]) -> bool:
    return all(lo < s < hi for lo, s, hi in zip(block.low, spot, block.high, strict=True))


def assemble(box: FilterBox) -> tuple[BoxShape, tuple[Solid, ...], tuple[Solid, ...]]:
    shape = measure_box(box)
    return shape, place_panels(shape, box.panel.thickness_mm), place_cleats(shape, box.panel.thickness_mm)


@pytest.mark.parametrize(("joint", "removable"), list(product(JOINTS, FACES)))
def test_wood_fills_the_walls_once_and_leaves_the_cavity(joint: str, removable: str) -> None:
    shape, panels, cleats = assemble(make_box(joint, removable))
    solids = panels + cleats
    whole = Block((0.0, 0.0, 0.0), (shape.outside.width, shape.outside.depth, shape.outside.height))
    cells = cut_cells([s.block for s in solids] + [whole, shape.cavity], whole)
    wood, inside = set(), set()
    for index, middle in cells.items():
        filled = 0
        for solid in solids:
            groove = any(holds(g, middle) for g in find_grooves(solid, solids))
            filled += holds(solid.block, middle) and not groove
        assert filled <= 1, f"two parts in one place at {middle}"
        if filled:
            wood.add(index)
        if holds(shape.cavity, middle) and not any(holds(c.block, middle) for c in cleats):
            inside.add(index)
            assert not filled
    # air cannot creep from the cavity to the outside between the parts
    seen, todo = set(inside), list(inside)
    while todo:
        i, j, k = todo.pop()
        for step in ((i + 1, j, k), (i - 1, j, k), (i, j + 1, k), (i, j - 1, k), (i, j, k + 1), (i, j, k - 1)):
            assert step in cells, "the cavity is open to the outside"
            if step not in seen and step not in wood:
                seen.add(step)
                todo.append(step)


@pytest.mark.parametrize(("joint", "removable"), list(product(JOINTS, FACES)))
def test_cut_list_sizes_add_up(joint: str, removable: str) -> None:
    """The sizes in the cut list, put together by tape, give the declared inside and outside (0.01 mm)."""
    project = make_project()
    project = settle_box(replace(project, box=make_box(joint, removable)))
    shape = measure_box(project.box)
    t = project.box.panel.thickness_mm
    parts = {p.face: p for p in plan_parts(project, shape, ()) if p.kind == "panel"}
    front, fixed = parts[shape.removable], parts[shape.cover[0][1]]
    # the two outer panels are as large as the box itself
    for outer in (front, fixed):
        sizes = sorted(shape.outside.along(axis) for axis in range(3) if axis != AXIS[outer.face])
        assert sorted((outer.width_mm, outer.height_mm)) == pytest.approx(sizes, abs=NEAR)
    inner, cover = parts[shape.cover[2][0]], parts[shape.cover[1][0]]
    depth, lip = shape.joint.depth_mm, shape.joint.lip_mm
    first, second, third = (AXIS[pair[0]] for pair in shape.cover)
    across = sorted((inner.width_mm, inner.height_mm))
    assert across == pytest.approx(
        sorted((shape.inside.along(second) + 2 * depth, shape.inside.along(first) + depth)), abs=NEAR
    )
    assert sorted((cover.width_mm, cover.height_mm)) == pytest.approx(
        sorted((shape.inside.along(third) + 2 * t + 2 * lip, shape.inside.along(first) + depth)), abs=NEAR
    )
    assert shape.inside.width == 1003.7
    # depth over all: removable face, tube, and the fixed face less what the tube enters
    tube = shape.inside.along(first) + depth
    assert tube + 2 * t - depth == pytest.approx(shape.outside.along(first), abs=NEAR)
    for part in parts.values():
        for groove in part.grooves:
            assert groove.depth_mm == pytest.approx(depth, abs=NEAR)
            assert min(groove.width_mm, groove.height_mm) == pytest.approx(t, abs=NEAR)
    assert bool(fixed.grooves) == (joint in ("rabbet", "dado"))


def test_lining_leaves_no_overlap_and_fits_the_cavity() -> None:
    for joint in JOINTS:
        project = make_project()
        box = replace(make_box(joint, "front"))
        lining = replace(project.lining, faces=FACES)
        project = settle_box(replace(project, box=box, lining=lining))
        shape = measure_box(project.box)
        plan = plan_lining(project, shape, tuple(design_port(project, p) for p in project.ports))
        assert plan is not None
        thick = project.lining.thickness_mm
        assert plan.clear.width == pytest.approx(shape.inside.width - 2 * thick)
        for piece in plan.pieces:
            assert piece.width_mm > 0
            assert piece.height_mm > 0
        back = next(p for p in plan.pieces if p.face == "back")
        cleats = 80.0 if joint == "cleat" else 0.0  # two upright cleats, 40 mm wide each
        assert back.width_mm == pytest.approx(shape.inside.width - cleats)

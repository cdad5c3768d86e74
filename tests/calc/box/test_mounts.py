"""Rails and cart: cut from the panel stock, clear of openings, nested, weighed and judged with everything else."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace

import pytest

from calc.box.box import settle_box
from calc.box.joints import place_panels
from calc.box.standing import CASTER_MM
from calc.design import Design, design_box
from calc.finding import Verdict
from calc.project import Face, Inlet, Project
from calc.shapes.faces import Block, meet_blocks
from calc.strength.handling import weigh_part
from tests.shop import load_job, make_project


def build(**changes: object) -> tuple[Project, Design]:
    project = make_project()
    box = replace(project.box, **changes)  # type: ignore[arg-type]
    settled = settle_box(replace(project, box=box))
    return settled, design_box(settled, 800.0, 2800.0)


@pytest.mark.parametrize("hung", ["wall", "ceiling", "cart"])
def test_mounts_touch_the_box_and_nothing_overlaps(hung: str) -> None:
    project, design = build(hung=hung, underside_mm=None)
    panels = place_panels(design.box, project.box.panel.thickness_mm)
    parts = {part.name: part for part in design.mount.parts}
    for part in parts.values():
        assert not any(meet_blocks(part.block, panel.block) for panel in panels), part.name
        # the brick is the part as cut, all layers
        sides = sorted((part.block.along(axis) for axis in range(3)), reverse=True)
        assert sides == pytest.approx(
            sorted((part.width_mm, part.height_mm, part.thickness_mm * part.quantity), reverse=True)
        )
    for a in parts.values():
        for b in parts.values():
            if a.name < b.name and {a.name, b.name} != {"box rail", "wall rail"}:
                assert not meet_blocks(a.block, b.block), (a.name, b.name)


def test_wall_rails_hook_and_hold_the_box_upright() -> None:
    project, design = build(hung="wall")
    box, wall, spacer = (design.get_part(name) for name in ("box rail", "wall rail", "lower spacer"))
    t = project.box.panel.thickness_mm
    # bevels of 45 degrees through the rail: the two overlap by its thickness, and lie in one plane on the back
    assert wall.block.high[2] - box.block.low[2] == pytest.approx(t)
    for rail in (box, wall, spacer):
        assert rail.block.low[1] == pytest.approx(design.box.outside.depth)
        assert rail.block.along(1) == pytest.approx(t)
        assert rail.width_mm == pytest.approx(design.box.outside.width)
    assert {row.into for row in design.rows if row.through == "back" and row.from_inside} == {
        "box rail",
        "lower spacer",
    }


def test_thin_stock_makes_rails_in_layers() -> None:
    project = make_project()
    panel = replace(project.box.panel, thickness_mm=9.0, nominal_mm=9.0)
    _, design = build(hung="wall", panel=panel)
    assert {part.quantity for part in design.mount.parts} == {2}
    assert [part.block.along(1) for part in design.mount.parts] == pytest.approx([18.0] * 3)


def test_an_inlet_at_the_back_goes_under_the_rails() -> None:
    settled, design = build(hung="wall", inlet=Inlet("back", 160.0), height_mm=380.0)
    low = min(part.block.low[2] for part in design.mount.parts if part.name.endswith("rail"))
    assert settled.box.inlet.up_mm + 80.0 < low
    assert not [f for f in design.findings if f.key.startswith("mount.") and f.verdict is Verdict.DOES_NOT_FIT]
    crossed = replace(settled, box=replace(settled.box, inlet=replace(settled.box.inlet, up_mm=300.0)))
    finding = next(f for f in design_box(crossed, 800.0, 2800.0).findings if f.key == "mount.box rail.inlet")
    assert finding.verdict is Verdict.DOES_NOT_FIT
    worst = max(
        (f for f in design_box(crossed, 800.0, 2800.0).findings if f.key.startswith("mount.")),
        key=lambda f: f.mends[0].amounts["by"].value if f.mends else 0.0,
    )
    move = worst.mends[0].amounts["by"].value
    mended = replace(settled, box=replace(settled.box, inlet=replace(settled.box.inlet, up_mm=300.0 - move)))
    after = [f for f in design_box(mended, 800.0, 2800.0).findings if f.key == worst.key]
    assert all(f.verdict is not Verdict.DOES_NOT_FIT for f in after)


def test_ceiling_rails_lie_against_the_ceiling() -> None:
    settled, design = build(hung="ceiling", underside_mm=None, ceiling_gap_mm=25.0)
    top = max(part.block.high[2] for part in design.mount.parts) + settled.box.underside_mm
    assert top == pytest.approx(settled.shop.ceiling_mm)
    assert {part.quantity for part in design.mount.parts} == {2}
    low = replace(settled, box=replace(settled.box, underside_mm=settled.box.underside_mm - 40.0))
    packing = next(f for f in design_box(low, 800.0, 2800.0).findings if f.key == "mount.packing")
    assert packing.value is not None
    assert packing.value.value == pytest.approx(40.0)


def test_a_cart_stands_on_its_wheels() -> None:
    settled, design = build(hung="cart", underside_mm=None, cart_wheelbase_mm=700.0)
    under = settled.box.underside_mm
    base, side = design.get_part("cart base"), design.get_part("cart left side")
    assert base.block.low[2] + under == pytest.approx(CASTER_MM)
    assert side.block.low[2] == pytest.approx(base.block.high[2])
    assert side.block.high[2] == pytest.approx(0.0)  # the box's underside
    assert design.mount.wheels_mm is not None
    assert min(design.mount.wheels_mm) == pytest.approx(700.0)
    assert base.block.along(1) >= 700.0
    assert base.block.along(0) >= design.box.outside.width - 1e-6
    assert not design.mount.rows
    finding = next(f for f in design.findings if f.key == "cart.casters")
    assert finding.value is not None
    # three of four carry; the filters hang a little off the middle, and the heavier corner counts
    assert 3 * finding.value.value == pytest.approx(design.handling.total_kg + design.handling.cart_kg, rel=0.01)
    assert 3 * finding.value.value >= design.handling.total_kg + design.handling.cart_kg
    assert design.handling.cart_kg > sum(weigh_part(settled, part) for part in design.mount.parts)


def test_a_cart_too_high_for_the_door() -> None:
    settled, design = build(hung="cart", underside_mm=None)
    top = design.stack.box_top_mm
    shop = replace(settled.shop, doorway_width_mm=2000.0, doorway_height_mm=top - 30.0)
    finding = next(f for f in design_box(replace(settled, shop=shop), 800.0, 2800.0).findings if f.key == "door.cart")
    assert finding.verdict is Verdict.DOES_NOT_FIT
    assert finding.mends[0].amounts["by"].value == pytest.approx(30.0)


@pytest.mark.parametrize("hung", ["wall", "ceiling", "cart"])
def test_mounts_are_nested_and_weighed(hung: str) -> None:
    settled, design = build(hung=hung, underside_mm=None)
    laid = Counter(p.blank.name for layout in design.sheets[0].layouts for p in layout.placed)
    for part in design.mount.parts:
        assert laid[part.name] == part.quantity
    bare = sum(load.weight_kg for load in design.handling.loads if load.name.endswith(" panel"))
    rails = sum(weigh_part(settled, part) for part in design.mount.parts if part.name in design.mount.carried)
    assert (rails > 0) == (hung != "cart")
    assert design.handling.box_kg >= bare + rails


@pytest.mark.parametrize("face", ["left", "right", "back", "top"])
def test_a_blower_on_the_cart_stands_on_its_base_beside_the_box(face: Face) -> None:
    """Given 400 x 450 mm and 500 high, 30 kg: it meets neither box nor cart, and the base reaches under all of it."""
    project = make_project()
    blower = replace(project.blower, stands_on="cart", footprint_mm=(400.0, 450.0), height_mm=500.0, weight_kg=30.0)
    box = replace(project.box, hung="cart", underside_mm=None, inlet=Inlet(face, 160.0))
    settled = settle_box(replace(project, blower=blower, box=box))
    design = design_box(settled, 800.0, 2800.0)
    stands, base = design.mount.blower, design.get_part("cart base").block
    assert stands is not None
    assert tuple(stands.along(axis) for axis in range(3)) == pytest.approx((400.0, 450.0, 500.0))
    assert stands.low[2] == pytest.approx(base.high[2])
    assert base.low[0] <= stands.low[0]
    assert stands.high[0] <= base.high[0]
    assert base.low[1] <= stands.low[1]
    assert stands.high[1] <= base.high[1]
    outside = design.box.outside
    whole = Block((0.0, 0.0, -1e6), (outside.width, outside.depth, 1e6))
    assert meet_blocks(stands, whole) is None
    assert not [part.name for part in design.mount.parts if meet_blocks(stands, part.block)]
    assert design.handling.blower_kg == 30.0
    off = replace(settled, blower=replace(settled.blower, stands_on="floor"))
    bare = design_box(off, 800.0, 2800.0)
    assert bare.mount.blower is None
    assert bare.handling.blower_kg == 0.0
    assert design.handling.caster_kg > bare.handling.caster_kg + 30.0 / 4 - 1e-6
    assert design.handling.pull_n > bare.handling.pull_n  # low weight and wheels farther out hold it down


def test_a_cart_too_light_for_a_tug_is_told_how_much_wider_it_must_be() -> None:
    project = make_project()
    box = replace(project.box, hung="cart", underside_mm=None, cart_weight_kg=10.0, cart_wheelbase_mm=260.0)
    settled = settle_box(replace(project, box=box))
    finding = next(f for f in design_box(settled, 800.0, 2800.0).findings if f.key == "cart.pull")
    assert finding.verdict is Verdict.DOES_NOT_FIT
    wider = 260.0 + finding.mends[0].amounts["by"].value
    mended = replace(settled, box=replace(settled.box, cart_wheelbase_mm=wider + 0.1))
    after = next(f for f in design_box(mended, 800.0, 2800.0).findings if f.key == "cart.pull")
    assert after.verdict is not Verdict.DOES_NOT_FIT


def test_the_bill_asks_for_casters_that_carry_what_the_finding_says() -> None:
    job = load_job("cart")
    finding = next(f for f in job.findings if f.key == "cart.casters")
    assert finding.value is not None
    asked = float(re.search(r"carries (\d+) lb", job.bill.get_line("caster").detail).group(1))  # type: ignore[union-attr]
    assert asked - 1 < finding.value.value / 0.45359237 <= asked
    assert any(f"{asked:g} lb or more" in part.amount for part in job.plan.get_step("build_cart").parts)

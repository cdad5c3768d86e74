"""Columns of whole pages: filled downwards in order, groups unbroken, no heading alone at the foot."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.platypus import Spacer

from packet.pages.kit.columns import FOOT, GUTTER, BlockGroup, PlacedBlock, lay_columns
from packet.pages.kit.style import Frame

FRAME = Frame(20.0, 30.0, 400.0, 300.0 + FOOT)
HALF = (FRAME.width - GUTTER) / 2


def lay(*groups: BlockGroup) -> list[list[PlacedBlock]]:
    return lay_columns(groups, FRAME)


def make_group(*heights: float, with_next: bool = False) -> BlockGroup:
    return BlockGroup(tuple(Spacer(1, height) for height in heights), with_next=with_next)


@given(st.lists(st.lists(st.floats(5.0, 140.0), min_size=1, max_size=2), min_size=1, max_size=20))
def test_every_block_stands_once_in_order_inside_the_frame_and_groups_stay_together(heights: list[list[float]]) -> None:
    groups = [make_group(*each) for each in heights]
    pages = lay(*groups)
    placed = [each for page in pages for each in page]
    assert [each.block for each in placed] == [block for group in groups for block in group.blocks]
    spots = {id(each.block): (n, each.left) for n, page in enumerate(pages) for each in page}
    assert list(spots.values()) == sorted(spots.values())
    for group in groups:
        assert len({spots[id(block)] for block in group.blocks}) == 1
    for each in placed:
        assert each.left in (0.0, HALF + GUTTER)
        assert each.down + each.height <= FRAME.height - FOOT + 1e-6


def test_a_heading_goes_on_with_what_it_heads() -> None:
    (page,) = lay(make_group(200.0), make_group(40.0, with_next=True), make_group(90.0))
    assert [(each.left, each.down) for each in page] == [(0.0, 0.0), (HALF + GUTTER, 0.0), (HALF + GUTTER, 40.0)]
    (page,) = lay(make_group(200.0), make_group(40.0), make_group(90.0))
    assert [each.left for each in page] == [0.0, 0.0, HALF + GUTTER], "what is no heading stays"


def test_what_is_taller_than_a_column_gets_one_of_its_own() -> None:
    (page,) = lay(make_group(20.0), make_group(5000.0))
    assert [(each.left, each.down) for each in page] == [(0.0, 0.0), (HALF + GUTTER, 0.0)]


def test_all_but_the_first_block_of_a_group_are_indented() -> None:
    (page,) = lay(BlockGroup((Spacer(1, 10), Spacer(1, 12), Spacer(1, 14)), indent=26.0, after=5.0), make_group(3.0))
    assert [each.left for each in page] == [0.0, 26.0, 26.0, 0.0]
    assert [each.down for each in page] == pytest.approx([0.0, 10.0, 22.0, 41.0])

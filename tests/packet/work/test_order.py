"""An order that cannot trap: nothing before what it needs, nothing shut out, faults named."""

from __future__ import annotations

from graphlib import TopologicalSorter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from packet.words.reader import BadWords
from packet.work.order import Node, find_ancestors, order_steps


def test_unknown_step_is_named() -> None:
    with pytest.raises(BadWords, match=r"steps/seal\.md: comes after 'glue', which is no step"):
        order_steps([Node(id="seal", stage=0, after=("glue",))])


def test_ring_of_steps_is_named() -> None:
    nodes = [
        Node(id="a", stage=0, after=("c",)),
        Node(id="b", stage=0, after=("a",)),
        Node(id="c", stage=0, after=("b",)),
    ]
    with pytest.raises(BadWords, match="wait for each other: a after c after b after a"):
        order_steps(nodes)


def test_step_left_out_hands_its_place_on() -> None:
    nodes = [
        Node(id="a", stage=2),
        Node(id="b", stage=1, after=("a",), chosen=False),
        Node(id="c", stage=0, after=("b",)),
    ]
    assert order_steps(nodes) == (("a", ()), ("c", ("a",)))


def test_step_that_needs_an_open_box_may_not_be_free_to_follow_the_closing() -> None:
    nodes = [
        Node(id="assemble", stage=0, makes=("open box",)),
        Node(id="line", stage=0, after=("assemble",), needs=("open box",)),
        Node(id="close", stage=0, after=("assemble",), ends=("open box",)),
    ]
    with pytest.raises(BadWords, match=r"line\.md: needs 'open box', but 'close' ends it and may come first: a trap"):
        order_steps(nodes)
    nodes[2] = Node(id="close", stage=0, after=("line",), ends=("open box",))
    assert [step for step, _ in order_steps(nodes)] == ["assemble", "line", "close"]


def test_state_that_nothing_makes_is_refused() -> None:
    with pytest.raises(BadWords, match="needs 'hung box', but no step before it makes that"):
        order_steps([Node(id="hang filters", stage=0, needs=("hung box",))])


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_any_sound_set_of_steps_comes_in_a_sound_order(data: st.DataObject) -> None:
    """Held against Python's own graphlib: same ancestors, and every step after all it waits for."""
    count = data.draw(st.integers(1, 12))
    nodes = []
    for index in range(count):
        after = data.draw(st.lists(st.integers(0, index - 1), unique=True, max_size=3)) if index else []
        nodes.append(
            Node(
                id=f"s{index}",
                stage=data.draw(st.integers(0, 3)),
                after=tuple(f"s{i}" for i in after),
                chosen=data.draw(st.booleans()),
            )
        )
    placed = order_steps(data.draw(st.permutations(nodes)))
    order = [step for step, _ in placed]
    full = find_ancestors({node.id: node.after for node in nodes})
    position = {step: place for place, step in enumerate(order)}
    assert set(order) == {node.id for node in nodes if node.chosen}
    for step in order:
        assert all(position[other] < position[step] for other in full[step] if other in position)
    list(TopologicalSorter({step: set(after) for step, after in placed}).static_order())  # raises on a ring

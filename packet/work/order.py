"""The order of the steps: nothing before what it needs, and no step that shuts out a later one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from packet.words.reader import BadWords


@dataclass(frozen=True, kw_only=True)
class Node:
    """A step as the order sees it.

    needs: states that must hold while it is done; makes, ends: states it brings about or ends for good
    chosen: whether this project takes the step; what a step left out comes after is handed on to its followers
    perhaps: of ``after``, those that hand on nothing when they are left out (``mount_parts?`` in the file)
    places: header line -> its line in the file
    """

    id: str
    stage: int
    after: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    makes: tuple[str, ...] = ()
    ends: tuple[str, ...] = ()
    chosen: bool = True
    perhaps: frozenset[str] = frozenset()
    places: Mapping[str, int] = field(default_factory=dict)

    def refuse(self, key: str, fault: str) -> BadWords:
        """Return what to raise for a line of its header, ``after`` or ``needs``."""
        return BadWords(f"steps/{self.id}.md", fault, self.places.get(key, 0))


def order_steps(nodes: Sequence[Node]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return the chosen steps in order, each with the chosen steps it comes right after.

    Raises BadWords, naming the steps, for an unknown id, a cycle of steps, a state that nothing makes, or a trap: a
    step that needs a state and is not bound to come before the step that ends it.
    """
    known = {node.id: node for node in nodes}
    for node in nodes:
        for other in node.after:
            if other not in known:
                raise node.refuse("after", f"comes after '{other}', which is no step")
    _refuse_cycles(known)
    after = {node.id: _hand_on(node, known) for node in nodes if node.chosen}
    chosen = [node for node in nodes if node.chosen]
    before = find_ancestors(after)
    _refuse_traps(chosen, before)
    return tuple((step, after[step]) for step in _sort(chosen, after))


def find_ancestors(after: Mapping[str, Sequence[str]]) -> dict[str, frozenset[str]]:
    """Return for each step all steps that must be done before it."""
    found: dict[str, frozenset[str]] = {}

    def collect(step: str) -> frozenset[str]:
        if step not in found:
            direct = after[step]
            found[step] = frozenset(direct).union(*(collect(other) for other in direct))
        return found[step]

    return {step: collect(step) for step in after}


def _refuse_cycles(known: Mapping[str, Node]) -> None:
    done: set[str] = set()

    def walk(step: str, way: tuple[str, ...]) -> None:
        if step in way:
            cycle = [*way[way.index(step) :], step]
            raise known[step].refuse("after", "the steps wait for each other: " + " after ".join(cycle))
        if step not in done:
            for other in known[step].after:
                walk(other, (*way, step))
            done.add(step)

    for step in known:
        walk(step, ())


def _hand_on(node: Node, known: Mapping[str, Node]) -> tuple[str, ...]:
    found: dict[str, None] = {}
    for other in node.after:
        if other in node.perhaps and not known[other].chosen:
            continue
        behind = (other,) if known[other].chosen else _hand_on(known[other], known)
        found.update(dict.fromkeys(behind))
    return tuple(found)


def _refuse_traps(chosen: Sequence[Node], before: Mapping[str, frozenset[str]]) -> None:
    makers = {state: [n.id for n in chosen if state in n.makes] for n in chosen for state in n.makes}
    enders = {state: [n.id for n in chosen if state in n.ends] for n in chosen for state in n.ends}
    for node in chosen:
        for state in node.needs:
            if not any(maker in before[node.id] for maker in makers.get(state, ())):
                raise node.refuse("needs", f"needs '{state}', but no step before it makes that")
            for ender in enders.get(state, ()):
                if ender != node.id and node.id not in before[ender]:
                    raise node.refuse("needs", f"needs '{state}', but '{ender}' ends it and may come first: a trap")


def _sort(chosen: Sequence[Node], after: Mapping[str, Sequence[str]]) -> list[str]:
    """Return the ids in order: the lowest stage first, then the way the files name them."""
    stages = {node.id: node.stage for node in chosen}
    waiting = dict.fromkeys(sorted(stages, key=lambda step: (stages[step], step)))
    order: list[str] = []
    while waiting:
        ready = [step for step in waiting if all(other not in waiting for other in after[step])]
        # Stay with what was just done when it leads on: fewer walks across the shop.
        following = [step for step in ready if order and order[-1] in after[step]]
        lowest = min(stages[step] for step in ready)
        step = next((each for each in following if stages[each] == lowest), ready[0])
        del waiting[step]
        order.append(step)
    return order

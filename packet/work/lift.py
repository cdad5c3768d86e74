"""What the word files may put in about the lift of the box: the way it goes up, and the heights that go with it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.box.mounts import find_rail_up
from calc.settled import Settled
from calc.strength.lifting import HANDS_MM, find_deck, plan_lift

if TYPE_CHECKING:
    from calc.design import Design
    from packet.work.writer import Writer


@dataclass(frozen=True, kw_only=True)
class LiftFacts:
    """How the box goes up. deck: height of the guarded platform, ``rail``: of the wall rail's upper edge, or empty;
    low_filters: a filter is carried by its lower end with both feet on the floor"""

    way: str
    weight: str
    deck: str
    rail: str
    hands: str
    low_filters: bool


def tell_lift(project: Settled, design: Design, writer: Writer) -> LiftFacts:
    """Return how the box goes up, in the reader's units."""
    lift = plan_lift(project, design.handling)
    rail = find_rail_up(design.parts, design.stack.box_bottom_mm)
    deck = find_deck(lift, writer.reader.system)
    longest = max((each.height_mm for each in project.filters), default=0.0)
    return LiftFacts(
        way=lift.way,
        weight=writer.amount(lift.weight_kg, "mass_kg"),
        deck="" if deck is None else writer.mark(deck),
        rail="" if rail is None else writer.mark(rail),
        hands=writer.near(HANDS_MM),
        low_filters=project.box.underside_mm - longest <= HANDS_MM,
    )

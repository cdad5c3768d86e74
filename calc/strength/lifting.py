"""How the box goes up: by hand, on a material lift, over a guarded platform, or bare first and closed in its place."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from calc.project import System
from calc.settled import Settled
from calc.strength.handling import Handling

HANDS_MM = 1750.0
"""Hands lift no higher: upper end of the vertical location, 175 cm (NIOSH 94-110, from memory). About head height."""

KNUCKLES_MM = 750.0
HEIGHT_SHARE = 0.003
"""The vertical multiplier of the lifting equation: 1 - 0.003 a centimetre away from 75 cm (NIOSH 94-110, from memory).
Its other multipliers, for reach, twist and grip, are left to the limit that the project file sets."""

CREW = 2
"""Two lift the box: one at each end (common practice, no source)."""

DECK_MOST_MM = 1200.0
"""A load is set by hand on a deck no higher than the chest (common practice, no source)."""

WORK_MM = 1500.0
"""What is screwed at stands about so high above the feet (common practice, no source)."""

Way = Literal["hands", "lift", "platform", "parts"]


DECK_STEP: dict[System, float] = {"inch": 152.4, "metric": 100.0}
"""A hired platform's deck is set by half feet, or by 100 mm (common practice, no source)."""


@dataclass(frozen=True)
class Lift:
    """How the box gets to its place.

    way: ``hands`` two people on the floor; ``lift`` a material lift; ``platform`` two people, floor to deck, deck to
    place; ``parts`` the same with the bare carcass, which is lined and closed where it hangs
    weight_kg: what goes up in one; deck_mm: height of the guarded platform's deck, None where none is needed
    """

    way: Way
    weight_kg: float
    deck_mm: float | None


def find_hand_limit(limit_kg: float, hands_mm: float) -> float:
    """Return what one person lifts [kg] with the hands so high above the feet [mm]; 0 above HANDS_MM.

    Source: the vertical multiplier of the NIOSH lifting equation (94-110, from memory).
    """
    if hands_mm > HANDS_MM:
        return 0.0
    return limit_kg * (1.0 - HEIGHT_SHARE * abs(hands_mm - KNUCKLES_MM) / 10.0)


def plan_lift(project: Settled, handling: Handling) -> Lift:
    """Return how a settled box goes up, by its height, its weight and what the shop has.

    Never by hand above head height. Under a ceiling it must be held while it is screwed: always on a lift. Where no
    lift is to be had and nothing lighter can be passed up over a platform either, a lift it stays.
    """
    underside, whole = project.box.underside_mm, handling.box_kg
    top = underside + project.box.height_mm
    high = underside > HANDS_MM or project.box.hung == "ceiling"
    work = max(top - WORK_MM, 0.0) if high else None
    if project.box.hung != "ceiling":
        if not high and _can_lift(project, whole, underside):
            return Lift("hands", whole, None)
        if not project.methods.material_lift:
            deck = min(underside / 2, DECK_MOST_MM) if high else None
            stages = (underside,) if deck is None else (deck, underside - deck)
            for way, weight in _list_ways(whole, handling.bare_kg, high):
                if all(_can_lift(project, weight, stage) for stage in stages):
                    return Lift(way, weight, deck)
    return Lift("lift", whole, work)


def _list_ways(whole_kg: float, bare_kg: float, high: bool) -> list[tuple[Way, float]]:
    """Return the ways without a lift, the whole box first; a low box too heavy for two hands goes bare."""
    bare: tuple[Way, float] = ("parts", bare_kg)
    return [("platform", whole_kg), bare] if high else [bare]


def _can_lift(project: Settled, weight_kg: float, hands_mm: float) -> bool:
    """Tell whether the crew lifts a weight with its hands so high."""
    return weight_kg <= CREW * find_hand_limit(project.methods.lift_limit_kg, hands_mm) + 1e-9


def find_deck(lift: Lift, system: System) -> float | None:
    """Return the height [mm] of the guarded platform's deck, in steps it can be set by; None where none is used."""
    step = DECK_STEP[system]
    return None if lift.deck_mm is None else max(step, lift.deck_mm // step * step)

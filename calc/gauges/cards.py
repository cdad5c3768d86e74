"""The cards of a water gauge: which pressures are marked, how far the liquid moves, what the eye tells apart."""

from __future__ import annotations

from dataclasses import dataclass, replace

from calc.finding import Said, say
from calc.gauges.gauge import (
    SEEN_APART,
    GaugeKind,
    Instrument,
    Tube,
    find_leg_travel,
    find_reading_error,
    size_tube,
)
from calc.gauges.shown import Points, Shown

LEG_GAP_MM = 96.0
"""Between the two legs of a U: the card stands between them."""

LONGEST_SCALE_MM = 200.0
"""What a sheet carries at full size that may be Letter or A4, with the printer's correction and the check rule."""

SHORTEST_SCALE_MM = 30.0

JOIN_MM = 10.0
"""Two strips of a scale too long for one sheet share so much of it: their ticks must meet there."""

TOO_HIGH = 1.5
"""Over *clean me* by half: something is wrong beyond a loaded filter (common practice, no source)."""


@dataclass(frozen=True)
class Mark:
    """A line on the card. travel_mm: where one meniscus stands from the still-air mark; fits: it is on the card."""

    key: str
    words: Said
    pressure_pa: float
    travel_mm: float
    fits: bool


@dataclass(frozen=True, kw_only=True)
class Card:
    """One scale to print: instrument, marks, and how far it reaches each side of zero [mm]; both_ways: a two-leg U.

    from_mm: where a strip of a long scale begins, above still air; joined: the next strip goes on at its upper end
    """

    instrument: Instrument
    marks: tuple[Mark, ...]
    scale_mm: float
    both_ways: bool
    error_pa: float
    error_share: float
    tube: Tube
    from_mm: float = 0.0
    joined: bool = False

    @property
    def shows_clean_me(self) -> bool:
        """Whether *clean me* stands on the card, or is never asked for."""
        return all(mark.fits for mark in self.marks if mark.key == "clean me")


def can_tell(card: Card, points: Points) -> bool:
    """Tell whether the eye knows *clean me* from clean on a card: both may be misread by its error."""
    return card.shows_clean_me and points.rise >= SEEN_APART * card.error_pa


def take_mark_off(card: Card) -> Card:
    """Return a card without its *clean me*: where that cannot be read it is not drawn."""
    return replace(card, marks=tuple(mark for mark in card.marks if mark.key != "clean me"))


def find_too_high(shown: Shown) -> float:
    """Return the reading [Pa] at which to stop: half over *clean me* and over all that clean filters may show, or near
    shut-off.

    The lesser that is above *clean me*; where the reading falls with loading, the shut-off.
    """
    points, worst = shown.points, shown.worst_pa
    start = max(points.clean_me, points.clean, 0.0 if points.falls else points.highest)
    limits = [TOO_HIGH * start, 0.95 * worst]
    return min((limit for limit in limits if limit > start), default=max(worst, TOO_HIGH * start))


def find_companion(asked: Instrument, others: list[Instrument], shown: Shown) -> Card | None:
    """Return the first card of another kind that shows every mark; None when none does."""
    cards = [make_card(other, shown) for other in others if other.kind != asked.kind]
    return next((card for card in cards if all(mark.fits for mark in card.marks)), None)


def lay_strips(instrument: Instrument, shown: Shown) -> list[Card]:
    """Return a scale that reaches *too high* cut into sheets' lengths, each beginning JOIN_MM before the last ends."""
    whole = find_leg_travel(instrument, find_too_high(shown)) * 1.1
    cards: list[Card] = []
    start = 0.0
    while True:
        end = min(start + LONGEST_SCALE_MM, whole)
        cards.append(make_card(instrument, shown, (start, end, end < whole)))
        if end >= whole:
            return cards
        start = end - JOIN_MM


def make_card(
    instrument: Instrument,
    shown: Shown,
    strip: tuple[float, float, bool] | None = None,
) -> Card:
    """Return a card; strip: from where, to where [mm], and whether another goes on. None: one sheet from still air."""
    points, too_high = shown.points, find_too_high(shown)
    both = instrument.kind == "u-tube"
    reach = find_leg_travel(instrument, too_high) * 1.1
    start, joined = 0.0, False
    scale = min(max(reach, SHORTEST_SCALE_MM), LONGEST_SCALE_MM / (2 if both else 1))
    if strip is not None:
        start, scale, joined = strip
    at_clean = say("gauge_design.mark_clean_measured" if points.is_measured else "gauge_design.mark_clean")
    wanted = [("still", say("gauge_design.mark_still"), 0.0), ("clean", at_clean, points.clean)]
    if shown.clean_me_asked:
        wanted.append(("clean me", say("gauge_design.mark_clean_me"), points.clean_me))
    wanted.append(("too high", say("gauge_design.mark_too_high"), too_high))
    marks = tuple(
        Mark(key, words, pressure, travel, start <= travel <= scale)
        for key, words, pressure in wanted
        for travel in [find_leg_travel(instrument, pressure)]
    )
    error = find_reading_error(instrument)
    tube = size_tube(instrument, shown.worst_pa, max(scale, reach) if strip else scale, LEG_GAP_MM)
    share = error / points.clean if points.clean else float("inf")
    return Card(
        instrument=instrument,
        marks=marks,
        scale_mm=scale,
        both_ways=both,
        error_pa=error,
        error_share=share,
        tube=tube,
        from_mm=start,
        joined=joined,
    )


def name_kind(kind: GaugeKind) -> Said:
    """Return a gauge's kind in words."""
    return say(f"gauge_design.kind_{kind.replace('-', '_').replace(' ', '_')}")

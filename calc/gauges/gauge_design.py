"""The gauge of this shop: its instrument, its marks at the named gate, its readings at every gate, what they say."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.finding import Amount, Band, Finding, Limit, Said, Subject, hold, say
from calc.gauges.gauge import (
    READ_WITHIN,
    SLOPES,
    GaugeKind,
    Instrument,
    Tube,
    advise_slope,
    find_fluid_density,
    find_least_travel,
    find_leg_travel,
    find_reading_error,
    find_travel,
    make_instrument,
    size_tube,
)
from calc.trade import MOST_OVER_SHUT_OFF

if TYPE_CHECKING:
    from calc.results import Sizing
    from calc.settled import Settled

FREEZES_K = 273.15
U_TUBES = ("u-tube", "u-tube one leg")

LEG_GAP_MM = 96.0
"""Between the two legs of a U: the card stands between them."""

LONGEST_SCALE_MM = 200.0
"""What a sheet carries at full size that may be Letter or A4, with the printer's correction and the check rule."""

SHORTEST_SCALE_MM = 30.0

JOIN_MM = 10.0
"""Two strips of a scale too long for one sheet share so much of it: their ticks must meet there."""

LEAST_FALL = 0.10

SIGHTING = "sighting 0.5 mm, published working value; 5 % is this project's choice"
GAUGE = Subject("gauge")

USUAL_TIMES = (3.0, 8.0)
"""*Clean me* over clean of spray-booth filter gauges (trade text): the sanity of the marks, not a limit."""

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


@dataclass(frozen=True)
class GateReading:
    """What the gauge shows with a set of gates: clean filters with their band, and filters at *clean me*."""

    name: str
    open: tuple[str, ...]
    flow: Band
    reading: Band
    clean_me_pa: float


@dataclass(frozen=True, kw_only=True)
class GaugeDesign:
    """The gauge that is built, billed and drawn: one, or two on one hose.

    card: the one asked for, or the sloping one that is built in its place (instead_of: what was asked for) because the
    clean reading is too small to be read on it
    sloping: built beside an upright card that shows *clean me*, where the sloping one reads clean but ends before that
    companion: an upright card beside, where *clean me* lies beyond the end of the card
    strips: the scale of the companion (of the card, when it is a one-leg one) goes on over these, one sheet each
    on_lid: the card's board turns on the lid; every other board is on the wall
    read_at: machine whose gate alone is open; falls: the reading falls as the filters load (tap on the suction side)
    rising_leg: the leg to read on a one-leg card, ``room`` or ``box``
    """

    read_at: str
    falls: bool
    side: str
    rising_leg: str
    liquid_kgm3: float
    card: Card
    sloping: Card | None
    companion: Card | None
    instead_of: Instrument | None
    on_lid: bool
    readings: tuple[GateReading, ...]
    findings: tuple[Finding, ...]
    strips: tuple[Card, ...] = ()

    def get_mark(self, key: str) -> Mark:
        """Return the mark of that key, as it stands on the card asked for. Raises KeyError."""
        return {mark.key: mark for mark in self.card.marks}[key]

    @property
    def clean_me_times(self) -> float | None:
        """*Clean me* over clean; None where the reading falls with loading, or the filters never ask for cleaning."""
        at = {mark.key: mark.pressure_pa for mark in self.card.marks}
        return None if self.falls or "clean me" not in at or at["clean"] <= 0 else at["clean me"] / at["clean"]

    @property
    def boards(self) -> tuple[Card, ...]:
        """The cards that need a board of their own, two at most: the gauges that are built.

        A one-leg card hangs on the U-tube's own board, with the longer tube of the two.
        """
        if self.companion is not None and self.card.instrument.kind in U_TUBES:
            return (max(self.card, self.companion, key=lambda card: card.tube.above_mm),)
        return tuple(card for card in (self.card, self.sloping, self.companion) if card is not None)

    @property
    def finest(self) -> Card:
        """The card on which clean is read: the one with the least error by eye."""
        return self.sloping or self.card

    @property
    def other(self) -> Card:
        """The card beside it, where two gauges are built; else the only one."""
        return next((card for card in self.boards if card != self.finest), self.card)

    @property
    def cards(self) -> tuple[Card, ...]:
        """Every card to print, strips of a long scale in their order."""
        return tuple(card for card in (self.card, self.sloping, self.companion) if card is not None) + self.strips


def design_gauge(project: Settled, sizing: Sizing, clean_pa: float | None = None) -> GaugeDesign:
    """Return the gauge of a sized project. Water in a shop below freezing is a finding, not an error.

    clean_pa: the reading measured with clean filters; the clean mark then stands there, not where it was computed.
    *Clean me* stays: at the flow the shop may fall to, the blower and the ducts alone set the pressure in the box.
    """
    gauge, air = project.gauge, sizing.air.density_kgm3
    freezes = gauge.fluid in ("water", "dyed water") and project.shop.temperature_k < FREEZES_K
    liquid = find_fluid_density(gauge.fluid, FREEZES_K if freezes else project.shop.temperature_k)
    measured = clean_pa
    if measured is not None and measured > MOST_OVER_SHUT_OFF * abs(sizing.pressures.box_worst_pa):
        measured = None  # written into the log by hand: no blower here makes it
    clean = abs(sizing.at_gauge.reading.best) if measured is None else measured

    def make(kind: GaugeKind, slope: float | None = None) -> Instrument:
        return make_instrument(kind, liquid, air, gauge.tube_bore_mm, slope=slope, well_bore_mm=gauge.well_bore_mm)

    upright = make("u-tube")
    best = advise_slope(upright, clean)
    asked = make(gauge.kind, gauge.slope or min(best or SLOPES[-1], SLOPES[0]))
    card = _make_card(asked, sizing, clean, measured is not None)
    sloping = companion = instead_of = None
    if best is not None and best < 1.0 and card.error_share > READ_WITHIN:
        better = _make_card(make("inclined", best), sizing, clean, measured is not None)
        if asked.kind == "inclined" or better.shows_clean_me or not card.shows_clean_me:
            card, instead_of = better, asked
        else:
            sloping = better
    if not card.shows_clean_me:
        others = [upright, make("u-tube one leg")]
        companion = _find_companion(card.instrument, others, sizing, clean, measured is not None)
    strips: tuple[Card, ...] = ()
    if companion is None and not card.shows_clean_me:
        # No single sheet carries this scale: the one-leg card goes on over strips.
        first, *rest = _lay_strips(make("u-tube one leg"), sizing, clean, measured is not None)
        strips = tuple(rest)
        card, companion = (first, None) if card.instrument.kind == first.instrument.kind else (card, first)
    falls = sizing.filters.clean_me.reading_pa < clean
    readings = tuple(GateReading(s.name, s.open, s.flow, s.reading, s.reading_clean_me_pa) for s in sizing.scenarios)
    side = sizing.pressures.side
    return GaugeDesign(
        read_at=sizing.gauge_at,
        falls=falls,
        side=side,
        rising_leg="room" if side == "pressure" else "box",
        liquid_kgm3=liquid,
        card=card,
        sloping=sloping,
        companion=companion,
        instead_of=instead_of,
        on_lid=gauge.mount == "lid"
        and card.instrument.kind in U_TUBES
        and any(p.kind == "gauge" for p in project.ports),
        readings=readings,
        findings=_find(project, card, (sloping, instead_of), clean, abs(sizing.filters.clean_me.reading_pa)),
        strips=strips,
    )


def find_too_high(sizing: Sizing, most_pa: float | None = None) -> float:
    """Return the reading [Pa] at which to stop: half over *clean me*, the media's own limit, or near shut-off.

    The least of the three that is above *clean me*; where the reading falls with loading, the shut-off.
    """
    clean_me, worst = abs(sizing.filters.clean_me.reading_pa), abs(sizing.pressures.box_worst_pa)
    start = max(clean_me, abs(sizing.at_gauge.reading.best))
    limits = [TOO_HIGH * start, 0.95 * worst, *([most_pa] if most_pa else [])]
    return min((limit for limit in limits if limit > start), default=max(worst, TOO_HIGH * start))


def _find_companion(
    asked: Instrument, others: list[Instrument], sizing: Sizing, clean: float, is_measured: bool
) -> Card | None:
    """Return the first card of another kind that shows every mark; None when none does."""
    cards = [_make_card(other, sizing, clean, is_measured) for other in others if other.kind != asked.kind]
    return next((card for card in cards if all(mark.fits for mark in card.marks)), None)


def _lay_strips(instrument: Instrument, sizing: Sizing, clean: float, is_measured: bool) -> list[Card]:
    """Return a scale that reaches *too high* cut into sheets' lengths, each beginning JOIN_MM before the last ends."""
    whole = find_leg_travel(instrument, find_too_high(sizing)) * 1.1
    cards: list[Card] = []
    start = 0.0
    while True:
        end = min(start + LONGEST_SCALE_MM, whole)
        cards.append(_make_card(instrument, sizing, clean, is_measured, (start, end, end < whole)))
        if end >= whole:
            return cards
        start = end - JOIN_MM


def _make_card(
    instrument: Instrument,
    sizing: Sizing,
    clean: float,
    is_measured: bool,
    strip: tuple[float, float, bool] | None = None,
) -> Card:
    """Return a card; strip: from where, to where [mm], and whether another goes on. None: one sheet from still air."""
    clean_me = abs(sizing.filters.clean_me.reading_pa)
    too_high = find_too_high(sizing)
    both = instrument.kind == "u-tube"
    reach = find_leg_travel(instrument, too_high) * 1.1
    start, joined = 0.0, False
    scale = min(max(reach, SHORTEST_SCALE_MM), LONGEST_SCALE_MM / (2 if both else 1))
    if strip is not None:
        start, scale, joined = strip
    at_clean = say("gauge_design.mark_clean_measured" if is_measured else "gauge_design.mark_clean")
    wanted = [("still", say("gauge_design.mark_still"), 0.0), ("clean", at_clean, clean)]
    if sizing.filters.clean_me.criterion != "never":
        wanted.append(("clean me", say("gauge_design.mark_clean_me"), clean_me))
    wanted.append(("too high", say("gauge_design.mark_too_high"), too_high))
    marks = tuple(
        Mark(key, words, pressure, travel, start <= travel <= scale)
        for key, words, pressure in wanted
        for travel in [find_leg_travel(instrument, pressure)]
    )
    error = find_reading_error(instrument)
    tube = size_tube(instrument, abs(sizing.pressures.box_worst_pa), max(scale, reach) if strip else scale, LEG_GAP_MM)
    share = error / clean if clean else float("inf")
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


def _find(
    project: Settled,
    card: Card,
    better: tuple[Card | None, Instrument | None],
    clean_pa: float,
    clean_me_pa: float,
) -> tuple[Finding, ...]:
    findings = [_find_frost(project)] if project.gauge.fluid in ("water", "dyed water") else []
    findings.append(_find_readable(card, better, clean_pa))
    if any(mark.key == "clean me" for mark in card.marks):
        findings.append(_find_travel(card, abs(clean_me_pa - clean_pa)))
    if project.box.side == "suction":
        findings.append(_find_dull_tap(clean_pa, clean_me_pa))
    if project.gauge.tube_length_mm is not None:
        need = sum(c.tube.length_mm for c in (card, better[0]) if c is not None)
        have = project.gauge.tube_length_mm
        findings.append(
            hold(
                "gauge.tube",
                say("gauge_design.tube"),
                have,
                Limit(need, "at least", source="U-tube hydrostatics with a quarter to spare"),
                say("gauge_design.tube_why"),
                topic="gauge",
                subjects=(GAUGE,),
                mends=(say("gauge_design.tube_mend", need=Amount(need, "length_mm")),),
            )
        )
    return tuple(findings)


def _find_readable(card: Card, better: tuple[Card | None, Instrument | None], clean_pa: float) -> Finding:
    """How well the clean mark is read by eye, on the finer of the gauges that are built.

    better: a sloping gauge beside the card, or what was asked for where the card is the sloping one in its place
    """
    sloping, instead_of = better
    built, coarse = sloping or card, instead_of or card.instrument
    clean, error = Amount(clean_pa, "pressure_pa"), Amount(find_reading_error(coarse), "pressure_pa")
    why = say("gauge_design.readable_why", clean=clean, error=error)
    if sloping is not None or instead_of is not None:
        why = say(
            "gauge_design.readable_why_added" if sloping is not None else "gauge_design.readable_why_instead",
            clean=clean,
            error=error,
            kind=name_kind(coarse.kind),
            run=Amount(round(1 / built.instrument.slope), "count"),
        )
    return hold(
        "gauge.readable",
        say("gauge_design.readable", kind=name_kind(built.instrument.kind)),
        min(built.error_share, 9.99),
        Limit(READ_WITHIN, "at most", source=SIGHTING),
        why,
        topic="gauge",
        kind="share",
        subjects=(GAUGE,),
        mends=(say("gauge_design.readable_mend"),),
    )


def _find_travel(card: Card, gap_pa: float) -> Finding:
    """How far the liquid moves in this very instrument from clean to *clean me*, both legs of a U together."""
    instrument = card.instrument
    travel, least = find_travel(instrument, gap_pa), find_least_travel(READ_WITHIN)
    mend = say("gauge_design.travel_mend" if instrument.kind != "inclined" else "gauge_design.travel_mend_inclined")
    return hold(
        "gauge.travel",
        say("gauge_design.travel", kind=name_kind(instrument.kind)),
        travel,
        Limit(least, "at least", source=SIGHTING),
        say("gauge_design.travel_why"),
        topic="gauge",
        subjects=(GAUGE,),
        mends=(mend,),
    )


def _find_dull_tap(clean_pa: float, clean_me_pa: float) -> Finding:
    """On the suction side most of the reading is ducts; the filters only show in how much it falls."""
    share = (clean_pa - clean_me_pa) / clean_pa if clean_pa > 0 else 0.0
    return hold(
        "gauge.tap",
        say("gauge_design.tap"),
        share,
        Limit(LEAST_FALL, "at least", source="this project's choice: twice the 5 % that the eye is trusted with"),
        say("gauge_design.tap_why"),
        topic="gauge",
        kind="share",
        subjects=(GAUGE,),
        mends=(say("gauge_design.tap_mend"),),
    )


def _find_frost(project: Settled) -> Finding:
    return hold(
        "gauge.frost",
        say("gauge_design.frost"),
        project.shop.temperature_k,
        Limit(FREEZES_K, "at least", source="freezing point of water"),
        say("gauge_design.frost_why"),
        topic="gauge",
        kind="temperature_k",
        subjects=(GAUGE,),
        mends=(say("gauge_design.frost_mend"),),
    )


def name_kind(kind: GaugeKind) -> Said:
    """Return a gauge's kind in words."""
    return say(f"gauge_design.kind_{kind.replace('-', '_').replace(' ', '_')}")

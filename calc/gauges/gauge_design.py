"""The gauge of this shop: its instrument, its marks at the named gate, its readings at every gate, what they say."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.finding import Finding
from calc.gauges.cards import (
    Card,
    Mark,
    can_tell,
    find_companion,
    lay_strips,
    make_card,
    take_mark_off,
)
from calc.gauges.gauge import (
    READ_WITHIN,
    SLOPES,
    GaugeKind,
    Instrument,
    advise_slope,
    find_fluid_density,
    make_instrument,
)
from calc.gauges.gauge_findings import FREEZES_K, Signal, judge_gauge
from calc.gauges.shown import GateReading, Shown, take_sizing

if TYPE_CHECKING:
    from calc.project import Aired, Gauge, Opening
    from calc.results import Sizing

U_TUBES = ("u-tube", "u-tube one leg")

USUAL_TIMES = (3.0, 8.0)
"""*Clean me* over clean of spray-booth filter gauges (trade text): the sanity of the marks, not a limit."""


@dataclass(frozen=True, kw_only=True)
class GaugeDesign:
    """The gauge that is built, billed and drawn: one, or two on one hose.

    card: the one asked for, or the sloping one that is built in its place (instead_of: what was asked for) because the
    clean reading is too small to be read on it
    sloping: built beside an upright card that shows *clean me*, where the sloping one reads clean but ends before that
    companion: an upright card beside, where *clean me* lies beyond the end of the card
    clean_me_pa: where CLEAN ME stands at the gate to read at: above a measured clean reading, or where it was computed
    signal: what tells to clean: the gauge, or the hours run where no gauge can be read; none: neither can
    strips: the scale of the companion (of the card, when it is a one-leg one) goes on over these, one sheet each
    asked: what the file says of it; drop: share of the air lost at *clean me*, where blower and filters gave that alone
    on_lid: the card's board turns on the lid; every other board is on the wall
    read_at: machine whose gate alone is open
    """

    asked: Gauge
    read_at: str
    liquid_kgm3: float
    card: Card
    sloping: Card | None
    companion: Card | None
    instead_of: Instrument | None
    on_lid: bool
    readings: tuple[GateReading, ...]
    findings: tuple[Finding, ...]
    clean_me_pa: float
    signal: Signal
    drop: float | None = None
    strips: tuple[Card, ...] = ()

    def get_mark(self, key: str) -> Mark:
        """Return the mark of that key, as it stands on the card asked for. Raises KeyError."""
        return {mark.key: mark for mark in self.card.marks}[key]

    @property
    def clean_me_times(self) -> float | None:
        """*Clean me* over clean; None where the filters never ask for cleaning."""
        at = {mark.key: mark.pressure_pa for mark in self.card.marks}
        return None if "clean me" not in at or at["clean"] <= 0 else at["clean me"] / at["clean"]

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


def design_gauge(project: Aired, sizing: Sizing, clean_pa: float | None = None) -> GaugeDesign:
    """Return the gauge of a sized project. Water in a shop below freezing is a finding, not an error.

    clean_pa: the reading measured with clean filters; the clean mark then stands there, not where it was computed, and
    so does *clean me* where the pleats are full: its rise is the dust's. Where air is lost it stays: at the flow the
    shop may fall to, the blower and the ducts alone set the pressure in the box.
    """
    return design_for(project.gauge, take_sizing(project, sizing, clean_pa), project.ports)


def design_for(gauge: Gauge, shown: Shown, ports: tuple[Opening, ...] = ()) -> GaugeDesign:
    """Return the gauge that shows these readings; ports: those of the box, among them perhaps the gauge's own lid."""
    air, points = shown.air_kgm3, shown.points
    freezes = gauge.fluid in ("water", "dyed water") and shown.temperature_k < FREEZES_K
    liquid = find_fluid_density(gauge.fluid, FREEZES_K if freezes else shown.temperature_k)

    def make(kind: GaugeKind, slope: float | None = None) -> Instrument:
        return make_instrument(kind, liquid, air, gauge.tube_bore_mm, slope=slope, well_bore_mm=gauge.well_bore_mm)

    upright = make("u-tube")
    best = advise_slope(upright, points.clean, points.rise) or SLOPES[-1]
    asked = make(gauge.kind, gauge.slope or min(best, SLOPES[0]))
    card = make_card(asked, shown)
    sloping = companion = instead_of = None
    if best < 1.0 and not (card.error_share <= READ_WITHIN and can_tell(card, points)):
        better = make_card(make("inclined", best), shown)
        if asked.kind == "inclined" or better.shows_clean_me or not card.shows_clean_me:
            card, instead_of = better, asked
        else:
            sloping = better
    if not card.shows_clean_me:
        others = [upright, make("u-tube one leg")]
        companion = find_companion(card.instrument, others, shown)
    strips: tuple[Card, ...] = ()
    if companion is None and not card.shows_clean_me:
        # No single sheet carries this scale: the one-leg card goes on over strips.
        first, *rest = lay_strips(make("u-tube one leg"), shown)
        strips = tuple(rest)
        card, companion = (first, None) if card.instrument.kind == first.instrument.kind else (card, first)
    built = [each for each in (card, sloping, companion, *strips) if each is not None]
    signal = _choose_signal(shown, built)
    if signal != "gauge":
        card = take_mark_off(card)
        sloping = take_mark_off(sloping) if sloping is not None else None
        companion, strips = None, ()
    return GaugeDesign(
        asked=gauge,
        drop=shown.drop,
        read_at=shown.read_at,
        liquid_kgm3=liquid,
        card=card,
        sloping=sloping,
        companion=companion,
        instead_of=instead_of,
        on_lid=gauge.mount == "lid" and card.instrument.kind in U_TUBES and any(p.kind == "gauge" for p in ports),
        readings=shown.gates,
        findings=judge_gauge(gauge, shown, built, instead_of, signal),
        clean_me_pa=points.clean_me,
        signal=signal,
        strips=strips,
    )


def _choose_signal(shown: Shown, built: list[Card]) -> Signal:
    """Return what tells to clean: the gauge where its marks can be told apart, else the hours run."""
    if not shown.clean_me_asked or any(can_tell(card, shown.points) for card in built):
        return "gauge"
    return "hours" if shown.hours is not None else "none"

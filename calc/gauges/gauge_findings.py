"""What a water gauge can be read to: its findings, and whether it or the hours run tell when to clean."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from calc.finding import Amount, Finding, Limit, Said, Subject, Verdict, hold, say, tell
from calc.gauges.cards import Card, can_tell, name_kind
from calc.gauges.gauge import (
    READ_COARSELY,
    READ_WITHIN,
    SEEN_APART,
    Instrument,
    find_least_travel,
    find_reading_error,
    find_travel,
)

if TYPE_CHECKING:
    from calc.gauges.shown import Points, Shown
    from calc.project import Gauge

Signal = Literal["gauge", "hours", "none"]
FREEZES_K = 273.15


RISE_WITHIN = 0.10
"""A rise read to this share is read well: the dust that makes it is not known so closely (project design)."""

SIGHTING = "sighting 0.5 mm, published working value; 5 % and 25 % are this project's choice"
APART = "sighting 0.5 mm, published working value; twice the error is this project's choice"
GAUGE = Subject("gauge")


def judge_gauge(
    gauge: Gauge,
    shown: Shown,
    built: list[Card],
    instead_of: Instrument | None,
    signal: Signal,
) -> tuple[Finding, ...]:
    """Return the findings on a gauge. built: its cards, the one asked for or built in its place first."""
    points = shown.points
    findings = [_find_frost(shown)] if gauge.fluid in ("water", "dyed water") else []
    if signal != "gauge":
        findings.append(_tell_signal(shown, built, signal))
    else:
        findings.append(_find_readable(built, instead_of, points.clean))
        if shown.clean_me_asked:
            findings += [_find_travel(built, points), _find_mark(shown, built)]
    if gauge.tube_length_mm is not None:
        need = sum(card.tube.length_mm for card in built[:2])
        findings.append(
            hold(
                "gauge.tube",
                say("gauge_design.tube"),
                gauge.tube_length_mm,
                Limit(need, "at least", source="U-tube hydrostatics with a quarter to spare"),
                say("gauge_design.tube_why"),
                topic="gauge",
                subjects=(GAUGE,),
                mends=(say("gauge_design.tube_mend", need=Amount(need, "length_mm")),),
            )
        )
    return tuple(findings)


def _tell_signal(shown: Shown, built: list[Card], signal: Signal) -> Finding:
    """Say that no gauge can be read here, and what tells to clean in its place."""
    finest, points = min(built, key=lambda card: card.error_pa), shown.points
    amounts = {
        "clean": Amount(points.clean, "pressure_pa"),
        "rise": Amount(points.rise, "pressure_pa"),
        "error": Amount(finest.error_pa, "pressure_pa"),
    }
    later = shown.hours
    if signal == "none" or later is None:
        return tell(
            "gauge.signal", say("gauge_design.signal_none"), say("gauge_design.signal_none_why", **amounts),
            Verdict.DOES_NOT_FIT, topic="gauge", subjects=(GAUGE,), mends=(say("gauge_design.signal_none_mend"),),
            source=APART,
        )  # fmt: skip
    hours = {name: Amount(value, "time_h") for name, value in (("hours", later.best), ("low", later.low))}
    return tell(
        "gauge.signal", say("gauge_design.signal"), say("gauge_design.signal_why", **amounts), Verdict.TIGHT,
        topic="gauge", subjects=(GAUGE,), mends=(say("gauge_design.signal_mend", **hours),), source=APART,
    )  # fmt: skip


def _find_readable(built: list[Card], instead_of: Instrument | None, clean_pa: float) -> Finding:
    """How well the clean mark is read by eye, on the finest of the gauges that are built."""
    finest = min(built, key=lambda card: card.error_share)
    added = finest is not built[0]
    coarse = instead_of or built[0].instrument
    clean, error = Amount(clean_pa, "pressure_pa"), Amount(find_reading_error(coarse), "pressure_pa")
    why = say("gauge_design.readable_why", clean=clean, error=error)
    if added or instead_of is not None:
        why = say(
            "gauge_design.readable_why_added" if added else "gauge_design.readable_why_instead",
            clean=clean,
            error=error,
            kind=name_kind(coarse.kind),
            run=Amount(round(1 / finest.instrument.slope), "count"),
        )
    return hold(
        "gauge.readable",
        say("gauge_design.readable", kind=name_kind(finest.instrument.kind)),
        min(finest.error_share, 9.99),
        Limit(READ_COARSELY, "at most", tight=READ_COARSELY - READ_WITHIN, source=SIGHTING),
        why,
        topic="gauge",
        kind="share",
        subjects=(GAUGE,),
        eases=(say("gauge_design.readable_mend"),),
    )


def _find_travel(built: list[Card], points: Points) -> Finding:
    """How far the liquid moves from clean to *clean me*, both legs of a U together, where both can be told apart."""
    telling = [card for card in built if can_tell(card, points)] or built
    instrument = min(telling, key=lambda card: card.error_pa).instrument
    least, well = find_least_travel(1 / SEEN_APART), find_least_travel(RISE_WITHIN)
    mend = say("gauge_design.travel_mend" if instrument.kind != "inclined" else "gauge_design.travel_mend_inclined")
    return hold(
        "gauge.travel",
        say("gauge_design.travel", kind=name_kind(instrument.kind)),
        find_travel(instrument, points.rise),
        Limit(least, "at least", tight=well - least, source=APART),
        say("gauge_design.travel_why"),
        topic="gauge",
        subjects=(GAUGE,),
        eases=(mend,),
    )


def _name_mark(shown: Shown) -> Said:
    if not shown.read_at:
        return say("gauge_design.clean_me_alone")
    return say(f"gauge_design.clean_me{shown.by_hose}", machine=shown.read_at)


def _find_mark(shown: Shown, built: list[Card]) -> Finding:
    """Whether *clean me* stands clear of what clean filters may show: their band, or once measured the eye's error."""
    points, error = shown.points, SEEN_APART * min(card.error_pa for card in built)
    spread = points.clean - points.lowest if points.falls else points.highest - points.clean
    return hold(
        "gauge.clean_me",
        _name_mark(shown),
        points.clean_me,
        Limit(
            points.clean,
            "at most" if points.falls else "at least",
            tight=max(spread, error),
            source="spread of published coefficients; clean filters half to thrice their loss; twice the eye's error",
        ),
        say("gauge_design.clean_me_why" if not points.is_measured else "gauge_design.clean_me_why_measured"),
        topic="gauge",
        kind="pressure_pa",
        subjects=(GAUGE,),
        eases=() if points.is_measured else (say("gauge_design.clean_me_mend"),),
    )


def _find_frost(shown: Shown) -> Finding:
    return hold(
        "gauge.frost",
        say("gauge_design.frost"),
        shown.temperature_k,
        Limit(FREEZES_K, "at least", source="freezing point of water"),
        say("gauge_design.frost_why"),
        topic="gauge",
        kind="temperature_k",
        subjects=(GAUGE,),
        mends=(say("gauge_design.frost_mend"),),
    )

"""What worked calculations are grouped under, and how their numbers are written."""

from __future__ import annotations

from calc.finding import Amount, say
from calc.measures.quantity import Kind

OF_AIR, OF_DUCTS, OF_BLOWER = say("worked.of_air"), say("worked.of_ducts"), say("worked.of_blower")
OF_FILTERS, OF_GAUGE, OF_ROOM = say("worked.of_filters"), say("worked.of_gauge"), say("worked.of_room")


def to_amount(value: float, kind: Kind) -> Amount:
    """Return a value in SI as an amount of its kind."""
    return Amount(value, kind)


def to_ratio(value: float) -> Amount:
    """Return a number without a unit."""
    return Amount(value, "ratio")


def to_figures(value: float) -> str:
    """Return a number that has no unit, or is in the formula's own, to four figures."""
    return f"{value:.0f}" if abs(value) >= 1e4 else f"{value:.4g}"

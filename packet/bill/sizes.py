"""Sizes of what is bought: as sold, and in brackets in the units of the print where those are others."""

from __future__ import annotations

from calc.measures.quantity import write_length
from calc.project import Display


def write_sold(mm: float, display: Display) -> str:
    """Return a size as the shop buys it, with the print's own units in brackets where they differ."""
    sold, read = write_length(mm, display.buyer), write_length(mm, display.reader)
    return sold if display.shown_in in (None, display.system) else f"{sold} ({read})"


def is_metric(display: Display) -> bool:
    """Tell whether the shop buys in metric sizes, whatever the print is written in."""
    return display.system == "metric"

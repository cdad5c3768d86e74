"""Arithmetic of bands: products of figures that nobody knows closely, and rounding as a person says them."""

from __future__ import annotations

import math

from calc.finding import Band

SURE = Band(1.0, 1.0, 1.0)

SPOKEN = (1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0)
"""The figures a person says when the truth is not known better than to a quarter; then ten times these, and so on."""


def multiply(*factors: Band, over: tuple[Band, ...] = ()) -> Band:
    """Return the product of independent figures, divided by others, with its band.

    Independent errors seldom all go one way: their logarithms add as squares (JCGM 100:2008, Guide to the expression of
    uncertainty in measurement, 5.1.2, from memory). A figure whose best is nothing makes the product nothing.
    """
    best = math.prod(each.best for each in factors)
    if best == 0:
        return Band(0.0, 0.0, 0.0)
    ups = [each.high / each.best for each in factors] + [each.best / each.low for each in over]
    downs = [each.best / each.low for each in factors] + [each.high / each.best for each in over]
    best /= math.prod(each.best for each in over)
    up, down = (math.exp(math.hypot(*map(math.log, shares), 0.0)) for shares in (ups, downs))
    return Band(best / down, best, best * up)


def round_as_said(value: float) -> float:
    """Return a figure rounded as a person would say it: 1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10 times a power of ten."""
    if not value > 0 or not math.isfinite(value):
        return value
    power = 10.0 ** math.floor(math.log10(value))
    return min(SPOKEN, key=lambda said: abs(math.log(value / power / said))) * power


def round_band(band: Band) -> Band:
    """Return a band with its ends and its middle rounded as a person would say them."""
    return Band(round_as_said(band.low), round_as_said(band.best), round_as_said(band.high))

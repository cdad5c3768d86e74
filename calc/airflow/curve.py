"""A blower's curve: smooth through points and never swinging beyond them, or from the two numbers of a plate."""

from __future__ import annotations

from bisect import bisect_right
from itertools import pairwise

from calc.project import CurvePoint

SHARES = (0.0, 0.25, 0.5, 0.75, 1.0)
"""Of free flow: where points of a rated curve stand."""


def _find_end_slope(h0: float, h1: float, d0: float, d1: float) -> float:
    """Return the three-point slope at an end, kept to the sign of the first chord and at most three times it."""
    slope = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1)
    if slope * d0 <= 0:
        return 0.0
    if d0 * d1 <= 0 and abs(slope) > 3 * abs(d0):
        return 3 * d0
    return slope


class MonotoneCurve:
    """Cubic Hermite pieces with slopes by weighted harmonic mean.

    F. N. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300; ends by three points (Moler, Numerical
    Computing with MATLAB, 2004, section 3.6). Where the points rise the curve rises, where they fall it falls.
    Beyond the points it goes on straight, with the slope it had at the end. Raises ValueError for fewer than two
    points, or points that do not go up in x.
    """

    __slots__ = ("slopes", "xs", "ys")

    def __init__(self, xs: list[float], ys: list[float]) -> None:
        if len(xs) < 2:
            raise ValueError("a curve needs at least two points")
        if any(b <= a for a, b in pairwise(xs)):
            raise ValueError("the points of a curve must go up in flow")
        self.xs, self.ys = xs, ys
        steps = [b - a for a, b in pairwise(xs)]
        chords = [(b - a) / h for (a, b), h in zip(pairwise(ys), steps, strict=True)]
        if len(xs) == 2:
            self.slopes = [chords[0], chords[0]]
            return
        slopes = [_find_end_slope(steps[0], steps[1], chords[0], chords[1])]
        for i in range(1, len(xs) - 1):
            d0, d1, h0, h1 = chords[i - 1], chords[i], steps[i - 1], steps[i]
            if d0 * d1 <= 0:
                slopes.append(0.0)
            else:
                w0, w1 = 2 * h1 + h0, h1 + 2 * h0
                slopes.append((w0 + w1) / (w0 / d0 + w1 / d1))
        slopes.append(_find_end_slope(steps[-1], steps[-2], chords[-1], chords[-2]))
        self.slopes = slopes

    def find(self, x: float) -> tuple[float, float]:
        """Return the curve's value and slope at x."""
        xs = self.xs
        if x <= xs[0]:
            return self.ys[0] + self.slopes[0] * (x - xs[0]), self.slopes[0]
        if x >= xs[-1]:
            return self.ys[-1] + self.slopes[-1] * (x - xs[-1]), self.slopes[-1]
        i = bisect_right(xs, x) - 1
        h = xs[i + 1] - xs[i]
        t = (x - xs[i]) / h
        y0, y1, m0, m1 = self.ys[i], self.ys[i + 1], self.slopes[i], self.slopes[i + 1]
        chord = (y1 - y0) / h
        c = (3 * chord - 2 * m0 - m1) / h
        d = (m0 + m1 - 2 * chord) / (h * h)
        s = t * h
        return y0 + s * (m0 + s * (c + s * d)), m0 + s * (2 * c + 3 * s * d)

    def is_falling(self) -> bool:
        """Tell whether the curve never rises."""
        return all(b <= a for a, b in pairwise(self.ys))


def draw_rated_curve(free_flow_m3s: float, shut_off_pa: float) -> tuple[CurvePoint, ...]:
    """Return a curve between shut-off pressure [Pa] and free flow [m3/s], by rising flow.

    The two numbers of a plate are the opposite ends of the curve, never one working point. Between them a straight line
    is drawn: common practice, no source. Most wheels bulge above it, so flows come out on the low side.
    Raises ValueError when either is not positive.

    >>> [round(point.pressure_pa) for point in draw_rated_curve(1.0, 1000.0)]
    [1000, 750, 500, 250, 0]
    """
    if free_flow_m3s <= 0 or shut_off_pa <= 0:
        raise ValueError("free flow and shut-off pressure must be positive")
    return tuple(CurvePoint(share * free_flow_m3s, shut_off_pa * (1 - share)) for share in SHARES)

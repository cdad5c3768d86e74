"""A blower curve from the two numbers of a plate, as a stated assumption."""

from __future__ import annotations

from calc.project import CurvePoint

SHARES = (0.0, 0.25, 0.5, 0.75, 1.0)


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

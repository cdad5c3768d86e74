"""A blower curve from the two numbers of a plate, as a stated assumption."""

from __future__ import annotations

from calc.project import CurvePoint

SHARES = (0.0, 0.2, 0.4, 0.6, 0.8, 0.9, 1.0)


def draw_rated_curve(free_flow_m3s: float, shut_off_pa: float) -> tuple[CurvePoint, ...]:
    """Return a curve between shut-off pressure [Pa] and free flow [m3/s], by rising flow.

    The two numbers of a plate are the opposite ends of the curve, never one working point. Between them a parabola is
    assumed, p = p0 (1 - (Q / Q0)^2): common practice, no source. A real wheel may lie a quarter above or below.
    Raises ValueError when either is not positive.

    >>> [round(point.pressure_pa) for point in draw_rated_curve(1.0, 1000.0)]
    [1000, 960, 840, 640, 360, 190, 0]
    """
    if free_flow_m3s <= 0 or shut_off_pa <= 0:
        raise ValueError("free flow and shut-off pressure must be positive")
    return tuple(CurvePoint(share * free_flow_m3s, shut_off_pa * (1 - share * share)) for share in SHARES)

"""A plate's two numbers are the ends of a curve."""

from __future__ import annotations

import itertools

import pytest

from calc.airflow.curve import draw_rated_curve


def test_ends_are_the_plates_numbers_and_no_point_has_both() -> None:
    """A rating read as one point (2,100 cfm at 10 in) would promise far more air than any wheel gives."""
    curve = draw_rated_curve(1.0, 2500.0)
    assert (curve[0].flow_m3s, curve[0].pressure_pa) == (0.0, 2500.0)
    assert (curve[-1].flow_m3s, curve[-1].pressure_pa) == (1.0, 0.0)
    assert all(b.flow_m3s > a.flow_m3s and b.pressure_pa < a.pressure_pa for a, b in itertools.pairwise(curve))
    assert max(point.flow_m3s * point.pressure_pa for point in curve) <= 2500.0 / 4


@pytest.mark.parametrize(("flow", "pressure"), [(0.0, 1.0), (1.0, 0.0), (-1.0, 5.0)])
def test_ends_must_be_positive(flow: float, pressure: float) -> None:
    with pytest.raises(ValueError, match="positive"):
        draw_rated_curve(flow, pressure)

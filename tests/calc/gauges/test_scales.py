"""Tick geometry: from one origin, close enough to read, numbered in round steps."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.gauges.scales import INH2O_PA, LABEL_GAP_MM, LEAST_GAP_MM, UNIT_PA, make_scale


@given(st.sampled_from(["inH2O", "Pa"]), st.floats(0.02, 3.0), st.floats(20, 210))
def test_every_tick_stands_at_its_own_pressure(unit, mm_per_pa: float, reach: float) -> None:
    scale = make_scale(unit, mm_per_pa, reach)
    gaps = [b.at_mm - a.at_mm for a, b in zip(scale.ticks, scale.ticks[1:], strict=False)]
    assert all(gap >= LEAST_GAP_MM - 1e-6 for gap in gaps)
    for tick in scale.ticks:
        assert tick.at_mm == pytest.approx(tick.pressure_pa * mm_per_pa, abs=1e-9)
        if tick.label:
            assert float(tick.label) * UNIT_PA[unit] == pytest.approx(tick.pressure_pa, rel=1e-9)
    assert scale.ticks[-1].at_mm <= reach + 1e-6
    numbered = [tick.at_mm for tick in scale.ticks if tick.label]
    assert all(b - a >= LABEL_GAP_MM - 1e-6 for a, b in itertools.pairwise(numbered))


def test_forty_quarter_inch_ticks_end_at_ten_inches() -> None:
    """Spacing drifts when ticks are added up; the last of 40 at 1/4 in must be within 0.05 mm of 10 in."""
    per_pa = 6.35 / (0.05 * INH2O_PA)  # smallest step 0.01: 1.27 mm; numbered by tenths
    scale = make_scale("inH2O", per_pa, 254.0)
    at = {round(tick.pressure_pa / INH2O_PA, 6): tick.at_mm for tick in scale.ticks}
    assert at[2.0] == pytest.approx(254.0, abs=1e-9)
    assert len(scale.ticks) == 201


def test_numbers_have_as_many_decimals_as_they_need() -> None:
    labels = [t.label for t in make_scale("inH2O", 25.4 / INH2O_PA, 80.0).ticks if t.label]
    assert labels[:4] == ["0", "0.2", "0.4", "0.6"]
    assert [t.label for t in make_scale("Pa", 0.1, 60.0).ticks if t.label][:3] == ["0", "100", "200"]


@pytest.mark.parametrize(("per_pa", "reach"), [(0.0, 10.0), (1.0, 0.0), (float("nan"), 10.0), (1.0, float("inf"))])
def test_nothing_to_draw_is_refused(per_pa: float, reach: float) -> None:
    with pytest.raises(ValueError, match="scale needs"):
        make_scale("Pa", per_pa, reach)

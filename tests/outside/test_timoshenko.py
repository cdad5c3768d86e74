"""Plates against Timoshenko and Woinowsky-Krieger's tables, and against the double series summed here with numpy."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest

from calc.strength.plates import POISSON, find_clamped_factors, find_supported_factors, load_plate
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside

BOOK = "Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. 1959, Table {}, from memory"
NAVIER = "Navier's double series summed with numpy, 300 x 300 odd terms"


@pytest.mark.parametrize(
    ("ratio", "deflection", "moment"),
    [(1.0, 0.00406, 0.0479), (1.2, 0.00564, 0.0627), (1.5, 0.00772, 0.0812), (2.0, 0.01013, 0.1017),
     (3.0, 0.01223, 0.1189), (50.0, 0.01302, 0.1250)],
)  # fmt: skip
def test_table_8(ratio: float, deflection: float, moment: float) -> None:
    factors = find_supported_factors(ratio)
    hold_against(f"w D / q a4, b/a {ratio:g}", BOOK.format(8), deflection, factors.deflection, rel=0.002)
    hold_against(f"M / q a2, b/a {ratio:g}", BOOK.format(8), moment, factors.moment, rel=0.002)


@pytest.mark.parametrize(("ratio", "deflection", "moment"), [(1.0, 0.00126, 0.0513), (1.5, 0.00220, 0.0757)])
def test_table_35(ratio: float, deflection: float, moment: float) -> None:
    factors = find_clamped_factors(ratio)
    hold_against(f"w D / q a4 clamped, b/a {ratio:g}", BOOK.format(35), deflection, factors.deflection, rel=0.01)
    hold_against(f"edge M / q a2 clamped, b/a {ratio:g}", BOOK.format(35), moment, factors.moment, rel=0.01)


@pytest.mark.parametrize("ratio", [1.0, 1.37, 2.42, 3.3])
def test_double_series(ratio: float) -> None:
    m = np.arange(1, 600, 2)[:, None]
    n = np.arange(1, 600, 2)[None, :]
    sign = np.where(((m + n) // 2 - 1) % 2 == 0, 1.0, -1.0)
    k = m**2 + (n / ratio) ** 2  # b = 1, a = ratio
    amplitude = 16 / (math.pi**6 * m * n * k**2) * sign
    deflection = float(amplitude.sum())
    moment = float((amplitude * math.pi**2 * (m**2 + POISSON * (n / ratio) ** 2)).sum())
    factors = find_supported_factors(ratio)
    hold_against(f"deflection factor, a/b {ratio}", NAVIER, deflection, factors.deflection, rel=1e-5)
    hold_against(f"moment factor, a/b {ratio}", NAVIER, moment, factors.moment, rel=2e-3)


def test_limits_and_bad_plates() -> None:
    strip = find_supported_factors(200.0)
    assert strip.deflection == pytest.approx(5 / 384, rel=1e-6)
    assert strip.moment == pytest.approx(1 / 8, rel=1e-6)
    ratios = np.linspace(1, 6, 60)
    bows = [find_clamped_factors(float(r)).deflection for r in ratios]
    assert all(a <= b for a, b in pairwise(bows))
    for find in (find_supported_factors, find_clamped_factors):
        with pytest.raises(ValueError, match="cannot be below 1"):
            find(0.9)
    with pytest.raises(ValueError, match="above 0"):
        load_plate(strip, 100.0, 1.0, 0.0, 7e9)

"""Plates under even pressure against Roark's Formulas for Stress and Strain."""

from __future__ import annotations

import pytest

from calc.strength.plates import POISSON, find_clamped_factors, find_supported_factors, load_plate
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside

SIMPLE = "Young & Budynas, Roark's Formulas for Stress and Strain, 7th ed. 2002, Table 11.4 case 1a"
CLAMPED = "Young & Budynas, Roark's Formulas for Stress and Strain, 7th ed. 2002, Table 11.4 case 8a, from memory"

# long over short side, alpha: y = alpha q b^4 / (E t^3), beta: s = beta q b^2 / t^2, nu = 0.3
SUPPORTED = [
    (1.0, 0.0444, 0.2874), (1.2, 0.0616, 0.3762), (1.4, 0.0770, 0.4530), (1.6, 0.0906, 0.5172),
    (1.8, 0.1017, 0.5688), (2.0, 0.1110, 0.6102), (3.0, 0.1335, 0.7134), (4.0, 0.1400, 0.7410),
    (5.0, 0.1417, 0.7476),
]  # fmt: skip
HELD = [
    (1.0, 0.0138, 0.3078), (1.2, 0.0188, 0.3834), (1.4, 0.0226, 0.4356), (1.6, 0.0251, 0.4680),
    (1.8, 0.0267, 0.4872), (2.0, 0.0277, 0.4974), (1e6, 0.0284, 0.5000),
]  # fmt: skip


@pytest.mark.parametrize(("ratio", "alpha", "beta"), SUPPORTED)
def test_simply_supported(ratio: float, alpha: float, beta: float) -> None:
    factors = find_supported_factors(ratio)
    # the published coefficients are rounded: up to 0.6 % from the exact series
    hold_against(f"alpha, a/b {ratio}", SIMPLE, alpha, factors.deflection * 12 * (1 - POISSON**2), rel=0.006)
    hold_against(f"beta, a/b {ratio}", SIMPLE, beta, factors.moment * 6, rel=0.006)


@pytest.mark.parametrize(("ratio", "alpha", "beta"), HELD)
def test_clamped(ratio: float, alpha: float, beta: float) -> None:
    factors = find_clamped_factors(ratio)
    hold_against(f"alpha clamped, a/b {ratio:g}", CLAMPED, alpha, factors.deflection * 12 * (1 - POISSON**2), rel=0.008)
    hold_against(f"beta clamped, a/b {ratio:g}", CLAMPED, beta, factors.moment * 6, rel=0.008)


def test_a_worked_panel() -> None:
    """24 in square, 0.719 in thick, E 1.0e6 psi, 8 inH2O: y and s by the published coefficients put in by hand."""
    psi, inch = 6894.757, 0.0254
    q, b, t, e = 8 * 249.08891, 24 * inch, 0.719 * inch, 1.0e6 * psi
    plate = load_plate(find_supported_factors(1.0), q, b, t, e)
    hold_against(
        "bow of a 24 in square [in]", SIMPLE, 0.0444 * q * b**4 / (e * t**3) / inch, plate.bow_m / inch, rel=0.006
    )
    hold_against(
        "stress of a 24 in square [psi]", SIMPLE, 0.2874 * q * b**2 / t**2 / psi, plate.stress_pa / psi, rel=0.006
    )

"""Plates under even pressure against Roark's Formulas for Stress and Strain."""

from __future__ import annotations

import pytest

from calc.strength.plates import Plate, bend_held, bend_supported, find_rigidity
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside

MODULUS, POISSON, THICK, PRESSURE = 1e10, 0.3, 0.018, 1000.0
STIFF = find_rigidity(MODULUS, MODULUS, MODULUS / (2 * (1 + POISSON)), POISSON, THICK)

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
    (1.8, 0.0267, 0.4872), (2.0, 0.0277, 0.4974),
]  # fmt: skip


@pytest.mark.parametrize(("ratio", "alpha", "beta"), SUPPORTED)
def test_simply_supported(ratio: float, alpha: float, beta: float) -> None:
    load = bend_supported(Plate(ratio, 1.0, THICK, STIFF)).bend(PRESSURE)
    # the published coefficients are rounded: up to 0.6 % from the exact series
    hold_against(f"alpha, a/b {ratio}", SIMPLE, alpha, load.bow_m * MODULUS * THICK**3 / PRESSURE, rel=0.007)
    hold_against(f"beta, a/b {ratio}", SIMPLE, beta, load.stress_y_pa * THICK**2 / PRESSURE, rel=0.007)


@pytest.mark.parametrize(("ratio", "alpha", "beta"), HELD)
def test_held(ratio: float, alpha: float, beta: float) -> None:
    load = bend_held(Plate(ratio, 1.0, THICK, STIFF), PRESSURE)
    hold_against(f"alpha held, a/b {ratio:g}", CLAMPED, alpha, load.bow_m * MODULUS * THICK**3 / PRESSURE, rel=0.015)
    hold_against(f"beta held, a/b {ratio:g}", CLAMPED, beta, load.stress_y_pa * THICK**2 / PRESSURE, rel=0.05)


def test_a_worked_panel() -> None:
    """24 in square, 0.719 in thick, E 1.0e6 psi, 8 inH2O: y and s by the published coefficients put in by hand."""
    psi, inch = 6894.757, 0.0254
    q, b, t, e = 8 * 249.08891, 24 * inch, 0.719 * inch, 1.0e6 * psi
    stiff = find_rigidity(e, e, e / (2 * (1 + POISSON)), POISSON, t)
    load = bend_supported(Plate(b, b, t, stiff)).bend(q)
    bow, stress = 0.0444 * q * b**4 / (e * t**3) / inch, 0.2874 * q * b**2 / t**2 / psi
    hold_against("bow of a 24 in square [in]", SIMPLE, bow, load.bow_m / inch, rel=0.006)
    hold_against("stress of a 24 in square [psi]", SIMPLE, stress, load.stress_x_pa / psi, rel=0.006)

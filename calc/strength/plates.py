"""A rectangular plate under even pressure, its edges free to turn (simply supported) or held (clamped)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

POISSON = 0.3

# clamped plate: long over short side -> deflection q b^4 / D and edge moment q b^2 (Timoshenko and Woinowsky-Krieger,
# Theory of Plates and Shells, 2nd ed., Table 35; from memory, checked against an energy solution); the last row is the
# long strip, 1/384 and 1/12
_CLAMPED = (
    (1.0, 0.00127, 0.0513),
    (1.2, 0.00172, 0.0639),
    (1.4, 0.00207, 0.0726),
    (1.6, 0.00230, 0.0780),
    (1.8, 0.00245, 0.0812),
    (2.0, 0.00254, 0.0829),
    (4.0, 1 / 384, 1 / 12),
)


@dataclass(frozen=True)
class PlateFactors:
    """deflection: of q b^4 / D at the middle; moment: of q b^2 per width, the largest (b: the short side)."""

    deflection: float
    moment: float


@dataclass(frozen=True)
class PlateLoad:
    """What a plate does under pressure: bow at the middle [m] and largest bending stress [Pa]."""

    bow_m: float
    stress_pa: float


def find_supported_factors(ratio: float, poisson: float = POISSON) -> PlateFactors:
    """Return the factors of a simply supported plate by the series of Levy, long over short side `ratio` >= 1.

    Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed., chapter 5 (from memory). Raises ValueError
    for a ratio below 1.
    """
    if ratio < 1:
        raise ValueError(f"long over short side is {ratio}; it cannot be below 1")
    deflection, moment = 5 / 384, 1 / 8
    for index, m in enumerate(range(1, 60, 2)):
        sign = -1.0 if index % 2 else 1.0
        alpha = m * math.pi * ratio / 2
        if alpha > 300:
            break
        a = -2 * (alpha * math.tanh(alpha) + 2) / ((math.pi * m) ** 5 * math.cosh(alpha))
        b = 2 / ((math.pi * m) ** 5 * math.cosh(alpha))
        deflection += sign * a
        moment -= sign * (math.pi * m) ** 2 * (2 * poisson * b - (1 - poisson) * a)
    return PlateFactors(deflection, moment)


def find_clamped_factors(ratio: float) -> PlateFactors:
    """Return the factors of a plate with clamped edges, read between the rows of the published table.

    Beyond a ratio of 4 the plate is taken as a long strip. Raises ValueError for a ratio below 1.
    """
    if ratio < 1:
        raise ValueError(f"long over short side is {ratio}; it cannot be below 1")
    for (r0, d0, m0), (r1, d1, m1) in pairwise(_CLAMPED):
        if ratio <= r1:
            # straight in 1/ratio^2, the way the factors near their limit
            share = (1 / r0**2 - 1 / ratio**2) / (1 / r0**2 - 1 / r1**2)
            return PlateFactors(d0 + share * (d1 - d0), m0 + share * (m1 - m0))
    return PlateFactors(*_CLAMPED[-1][1:])


def load_plate(
    factors: PlateFactors,
    pressure_pa: float,
    short_m: float,
    thick_m: float,
    modulus_pa: float,
    poisson: float = POISSON,
) -> PlateLoad:
    """Return bow and stress under a pressure [Pa]: w = factor q b^4 / D, D = E t^3 / 12 (1 - nu^2); s = 6 M / t^2.

    Good while the bow stays below half the thickness; beyond it the plate is stiffer than this says. Raises ValueError
    for a thickness or modulus that is not above 0.
    """
    if thick_m <= 0 or modulus_pa <= 0:
        raise ValueError("thickness and modulus must be above 0")
    stiffness = modulus_pa * thick_m**3 / (12 * (1 - poisson**2))
    bow = factors.deflection * pressure_pa * short_m**4 / stiffness
    return PlateLoad(bow, 6 * factors.moment * pressure_pa * short_m**2 / thick_m**2)

"""Beads of sealant and how far a cartridge goes."""

from __future__ import annotations

import math

CARTRIDGE_M3 = 10.1 * 29.5735295625e-6
"""A common cartridge: 10.1 US fluid ounces [m3]; the US fluid ounce is 29.5735295625 mL exactly."""


def find_bead_volume(length_mm: float, bead_mm: float) -> float:
    """Return the volume [m3] of a round bead. Raises ValueError for a negative size."""
    if length_mm < 0 or bead_mm < 0:
        raise ValueError("a bead cannot have a negative size")
    return math.pi / 4 * (bead_mm / 1000) ** 2 * length_mm / 1000

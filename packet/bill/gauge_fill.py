"""How much liquid the gauge takes, the one figure of bill, step and card."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.measures.kinds import Reader
from calc.measures.quantity import write_amount

if TYPE_CHECKING:
    from calc.gauges.gauge_design import GaugeDesign

FLUID_OUNCE_M3 = 29.5735295625e-6
"""The US fluid ounce: 1/128 of a gallon of 231 cubic inches (NIST Handbook 44, appendix C, from memory)."""

LITRE_M3 = 1e-3


def write_fill(gauge: GaugeDesign, reader: Reader) -> str:
    """Return the liquid of all boards together: fluid ounces, or millilitres."""
    volume = sum(card.tube.liquid_m3 for card in gauge.boards)
    if volume > LITRE_M3:
        return write_amount(volume, "volume_m3", Reader("metric"))
    return f"{volume / FLUID_OUNCE_M3:.1f} fl oz" if reader.system == "inch" else f"{volume * 1e6:.0f} mL"

"""The kinds of quantity the house knows, and who reads them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

INH2O_PA = 249.08891
"""One conventional inch of water [Pa] (NIST SP 811, 2008, appendix B.8): the one place where it stands."""

Kind = Literal[
    "length_mm", "length_m", "area_m2", "volume_m3", "flow_m3s", "speed_ms", "face_speed_ms", "pressure_pa",
    "barometer_pa", "draught_pa",
    "temperature_k", "temperature_rise_k", "angle_deg", "power_w", "mass_kg", "mass_rate_kgs", "density_kgm3",
    "areal_mass_kgm2", "time_s", "time_h", "sound_db", "frequency_hz", "rotation_hz", "force_n", "stress_pa",
    "share", "ratio", "count", "sone", "money",
]  # fmt: skip


@dataclass(frozen=True)
class Reader:
    """Who reads: system, for inch people the smallest fraction's denominator; language (empty: the house's)."""

    system: Literal["inch", "metric"]
    fraction: int = 32
    language: str = ""

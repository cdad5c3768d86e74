"""Make-up air: the opening that lets into the room what the blower sends outdoors."""

from __future__ import annotations

import math

from calc.project import Shop
from calc.results import MakeUpAir

DISCHARGE = 0.6  # sharp-edged opening, any text on fluid flow
USUAL_DEPRESSION_PA = 5.0  # common practice, no source: no flue in the room


def find_opening(flow_m3s: float, depression_pa: float, density_kgm3: float) -> float:
    """Return the opening [m2] that lets a flow in at a depression: A = Q / (0.6 sqrt(2 dp / rho)), orifice equation.

    Raises ValueError for a depression that is not positive.
    """
    if depression_pa <= 0:
        raise ValueError("the depression must be above 0 Pa")
    return flow_m3s / (DISCHARGE * math.sqrt(2 * depression_pa / density_kgm3))


def describe_make_up(shop: Shop, flow_m3s: float, density_kgm3: float) -> MakeUpAir:
    """Return the opening the shop needs. A flued heater allows 2 Pa where the file says nothing (stricter of the
    combustion-appliance-zone limits: natural-draught water heater alone)."""
    usual = 2.0 if shop.flued_appliance else USUAL_DEPRESSION_PA
    depression = shop.appliance_draught_pa or usual
    needed = shop.clean_air == "outdoors"
    return MakeUpAir(flow_m3s, depression, find_opening(flow_m3s, depression, density_kgm3), needed)

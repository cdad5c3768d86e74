"""How far below outdoors a room may fall before a heater's flue draws backward: one limit a kind of appliance."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from calc.project import Appliance

STRICTEST_PA = 2.0
COMFORT_PA = 5.0
FINE_PA = 10.0
"""Under this limit a tube of water tells nothing: 1 mm of water is 9.8 Pa. It takes an instrument of 1 Pa steps."""

_ZONE = "depressurisation limits of combustion-appliance-zone tests (BPI type)"


@dataclass(frozen=True)
class DraughtLimit:
    """The most [Pa] the room may fall below outdoors, and where that comes from."""

    most_pa: float
    source: str


LIMITS: Mapping[Appliance, DraughtLimit] = MappingProxyType(
    {
        "unknown": DraughtLimit(STRICTEST_PA, f"{_ZONE}: kind not known, so the strictest"),
        "natural draught": DraughtLimit(STRICTEST_PA, f"{_ZONE}: natural draught, the strictest of its kinds"),
        "water heater": DraughtLimit(STRICTEST_PA, f"{_ZONE}: natural-draught water heater alone"),
        # A municipal rule lets a wood stove stand 5 Pa, but only as quoted by others; a fire burned low draws weakly.
        "solid fuel": DraughtLimit(STRICTEST_PA, f"{_ZONE}: none read for solid fuel, so the strictest"),
        "boiler": DraughtLimit(3.0, f"{_ZONE}: natural-draught water heater and boiler on one flue"),
        "furnace": DraughtLimit(5.0, f"{_ZONE}: natural-draught furnace"),
        "induced draught": DraughtLimit(5.0, f"{_ZONE}: induced draught"),
        "power vented": DraughtLimit(15.0, f"{_ZONE}: power vented"),
        "sealed": DraughtLimit(25.0, f"{_ZONE}: sealed combustion, the lower end of 25 to 50 Pa"),
        "none": DraughtLimit(COMFORT_PA, "doors that slam and pull: common practice, no source; no flue in the room"),
    }
)
"""By kind of appliance; of several in one room the one with the least counts."""


def choose_limit(appliance: Appliance, asked_pa: float | None) -> float:
    """Return how far [Pa] the room may fall: the appliance's limit, or less where the project file asks for less.

    Without a flue there is nothing to hold the file against: what it asks for is taken.
    """
    most = LIMITS[appliance].most_pa
    if asked_pa is None:
        return most
    return asked_pa if appliance == "none" else min(asked_pa, most)


def is_fine(most_pa: float) -> bool:
    """Return whether a depression is too small for a tube of water to tell."""
    return most_pa < FINE_PA

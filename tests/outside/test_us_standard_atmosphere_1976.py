"""Altitude and viscosity against the U.S. Standard Atmosphere 1976, by a general-purpose library."""

from __future__ import annotations

import fluids
import fluids.atmosphere
import fluids.fittings
import fluids.flow_meter
import fluids.friction
import pytest

from calc.airflow import air
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside


@pytest.mark.parametrize("metres", [500.0, 1000.0, 1609.344, 3000.0])
def test_pressure(metres: float) -> None:
    # geometric against geopotential height: 2e-4 apart
    published = fluids.atmosphere.ATMOSPHERE_1976(metres).P
    hold_against(
        f"pressure at {metres:g} m [Pa]",
        "fluids ATMOSPHERE_1976",
        published,
        air.find_standard_pressure(metres),
        rel=4e-4,
    )


def test_viscosity_at_70_fahrenheit() -> None:
    hold_against(
        "viscosity at 70 degF [Pa s]",
        "fluids ATMOSPHERE_1976.viscosity (Sutherland)",
        1.818717979073799e-05,
        air.find_viscosity(294.26111),
        rel=1e-5,
    )

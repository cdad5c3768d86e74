"""Room depression against the limits of combustion-appliance testing."""

from __future__ import annotations

import pytest

from calc import project as p
from calc.airflow import make_up_air
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside


@pytest.mark.parametrize(("flued", "published"), [(True, 2.0), (False, 5.0)])
def test_depression_allowed(flued: bool, published: float) -> None:
    shop = p.Shop(0.0, 294.0, 0.5, 2500.0, clean_air="outdoors", flued_appliance=flued)
    hold_against(
        f"depression allowed, flued heater {flued} [Pa]",
        "combustion-appliance-zone limits",
        published,
        make_up_air.describe_make_up(shop, 0.4, 1.2).depression_pa,
        abs=1e-9,
    )

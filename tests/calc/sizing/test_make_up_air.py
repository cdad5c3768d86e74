"""Room depression against the limits of combustion-appliance testing."""

from __future__ import annotations

import pytest

from calc import project as p
from calc.sizing import make_up_air
from calc.sizing.appliances import choose_limit, is_fine

ZONE = "combustion-appliance-zone limits (BPI type), as listed on a page read; the standard itself not read"


def describe(kind: p.Appliance, **more: float) -> make_up_air.MakeUpAir:
    shop = p.Shop(
        altitude_m=0.0,
        temperature_k=294.0,
        humidity=0.5,
        ceiling_mm=2500.0,
        clean_air="outdoors",
        flued_appliance=kind,
        **more,
    )  # type: ignore[arg-type]
    return make_up_air.describe_make_up(shop, 0.4, 1.2)


@pytest.mark.parametrize(
    ("kind", "published"),
    [
        ("water heater", 2.0),  # natural draught, alone
        ("boiler", 3.0),  # with a water heater on its flue
        ("furnace", 5.0),  # natural draught
        ("induced draught", 5.0),
        ("power vented", 15.0),
        ("sealed", 25.0),  # 25 to 50: the stricter end
    ],
)
def test_depression_allowed(kind: p.Appliance, published: float) -> None:
    assert choose_limit(kind, None) == pytest.approx(published, abs=1e-9)
    assert describe(kind).depression_pa == published


@pytest.mark.parametrize("kind", ["unknown", "natural draught", "solid fuel"])
def test_a_kind_without_a_limit_of_its_own_takes_the_strictest(kind: p.Appliance) -> None:
    assert describe(kind).depression_pa == pytest.approx(2.0, abs=0)


def test_a_flue_was_drawn_back_at_a_depression_that_is_not_allowed() -> None:
    """A field practitioner's report: 3 Pa, natural-draught water heater, 2,000 to 3,000 ppm in seconds."""
    for kind in ("unknown", "natural draught", "water heater"):
        assert describe(kind, appliance_draught_pa=3.0).depression_pa < 3.0  # type: ignore[arg-type]


@pytest.mark.parametrize("kind", ["unknown", "water heater", "boiler", "furnace", "induced draught"])
def test_a_tube_of_water_cannot_tell_these(kind: p.Appliance) -> None:
    """1 mm of conventional water is 9.80665 Pa (ISO 80000-4, from memory): less than that is no mark at all."""
    assert describe(kind).depression_pa < 9.80665
    assert is_fine(describe(kind).depression_pa)


def test_what_an_opening_lets_fall_is_the_opening_turned_round() -> None:
    """800 cfm at 5 Pa: 0.2181 m2 by hand from A = Q/(0.6 sqrt(2 dp/rho)), standard air."""
    fallen = make_up_air.find_depression(800 * 0.028316846592 / 60, 0.2181, 1.2013847530470112)
    assert fallen == pytest.approx(5.0, rel=1e-3)

"""Moist air against ASHRAE Handbook Fundamentals, Psychrometrics, through psychrolib 2.5.0 and its own test values."""

from __future__ import annotations

import psychrolib
import pytest

from calc.airflow import air
from calc.project import Shop
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside
LIBRARY = "psychrolib 2.5.0 (ASHRAE Fundamentals, Psychrometrics)"
POUND_PER_FOOT3 = 16.01846337396015


@pytest.fixture(autouse=True)
def _si_units() -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)


def test_density_of_dry_air_at_70_fahrenheit() -> None:
    computed = air.find_density(294.26111, 0.0, 101325.0)
    hold_against(
        "density, dry air 70 degF [kg/m3]", LIBRARY + " GetDryAirDensity", 1.19960507536811, computed, rel=1e-4
    )


def test_density_at_30_celsius_humid() -> None:
    # psychrolib's own test suite, test_psychrolib_si.py, tolerance 3e-4 as there
    computed = air.find_density(303.15, 0.02, 95461.0)
    hold_against(
        "density, 30 degC W 0.02 95461 Pa [kg/m3]",
        "psychrolib 2.5.0, its own tests after ASHRAE",
        1.08411986348219,
        computed,
        rel=3e-4,
    )


def test_density_at_86_fahrenheit_humid() -> None:
    computed = air.find_density(303.15, 0.02, 14.175 * 6894.757) / POUND_PER_FOOT3
    hold_against(
        "density, 86 degF W 0.02 14.175 psia [lb/ft3]",
        "psychrolib 2.5.0, its own tests after ASHRAE",
        0.0692907720594378,
        computed,
        rel=3e-4,
    )


def test_specific_volume_of_dry_air_at_25_celsius() -> None:
    # ASHRAE moist-air table prints 0.8443 m3/kg, four figures: 1e-3
    hold_against(
        "specific volume, dry 25 degC [m3/kg]",
        "psychrolib 2.5.0, its own tests after the ASHRAE moist-air table",
        0.8443,
        1 / air.find_density(298.15, 0.0, 101325.0),
        rel=1e-3,
    )


@pytest.mark.parametrize("celsius", [-10.0, 0.01, 20.0, 40.0])
def test_saturation_pressure(celsius: float) -> None:
    published = psychrolib.GetSatVapPres(celsius)
    hold_against(
        f"saturation pressure at {celsius:g} degC [Pa]",
        LIBRARY + " GetSatVapPres",
        published,
        air.find_saturation_pressure(celsius + 273.15),
        rel=1e-4,
    )


def test_humidity_ratio_and_moist_density_at_half_humidity() -> None:
    ratio = air.find_humidity_ratio(293.15, 0.5, 101325.0)
    hold_against(
        "humidity ratio, 20 degC 50 %",
        LIBRARY + " GetHumRatioFromRelHum",
        psychrolib.GetHumRatioFromRelHum(20.0, 0.5, 101325.0),
        ratio,
        rel=2e-4,
    )
    hold_against(
        "density, 20 degC 50 % [kg/m3]",
        LIBRARY + " GetMoistAirDensity",
        1.1988979666684412,
        air.find_density(293.15, ratio, 101325.0),
        rel=1e-4,
    )


def test_shop_at_mile_height_has_thin_air() -> None:
    # dry air, 70 degF, 5,280 ft: 0.0616619 lb/ft3 (psychrolib run)
    shop = Shop(altitude_m=1609.344, temperature_k=294.26111, humidity=0.0, ceiling_mm=2500.0)
    hold_against(
        "shop air at 5,280 ft, 70 degF [lb/ft3]",
        LIBRARY,
        0.06166189255962598,
        air.describe_air(shop).density_kgm3 / POUND_PER_FOOT3,
        rel=3e-4,
    )

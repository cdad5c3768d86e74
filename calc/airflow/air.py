"""Shop air: pressure by altitude, density of moist air, viscosity."""

from __future__ import annotations

import math

from calc.project import Shop
from calc.results import ShopAir

STANDARD_DENSITY = 1.2013847530470112  # kg/m3: 0.075 lb/ft3, US duct practice (ASHRAE, ACGIH)
SEA_LEVEL_PA = 101325.0  # U.S. Standard Atmosphere, 1976
DRY_AIR_GAS = 287.042  # J/(kg K), ASHRAE Handbook Fundamentals, Psychrometrics
WATER_TO_AIR = 0.621945  # ratio of molar masses, same place

_OVER_WATER = (-5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 6.5459673)
_OVER_ICE = (-5.6745359e3, 6.3925247, -9.677843e-3, 6.2215701e-7, 2.0747825e-9, -9.484024e-13, 4.1635019)


def find_standard_pressure(altitude_m: float) -> float:
    """Return the pressure [Pa] of the standard atmosphere at an altitude [m].

    P = 101325 (1 - 2.25577e-5 Z)^5.2559: U.S. Standard Atmosphere 1976, troposphere, in the ASHRAE form.
    Good from -5,000 m to 11,000 m; raises ValueError outside.
    """
    if not -5000.0 <= altitude_m <= 11000.0:
        raise ValueError(f"altitude {altitude_m:g} m is outside -5,000 to 11,000 m")
    return SEA_LEVEL_PA * float((1 - 2.25577e-5 * altitude_m) ** 5.2559)


def find_saturation_pressure(temperature_k: float) -> float:
    """Return the vapour pressure [Pa] of saturated moist air at a temperature [K].

    Hyland and Wexler 1983, as in ASHRAE Handbook Fundamentals, Psychrometrics (over ice below 0 degC). 173 to 473 K.
    """
    t = temperature_k
    if not 173.15 <= t <= 473.15:
        raise ValueError(f"temperature {t:g} K is outside 173 to 473 K")
    if t < 273.15:
        i = _OVER_ICE
        return math.exp(i[0] / t + i[1] + t * (i[2] + t * (i[3] + t * (i[4] + t * i[5]))) + i[6] * math.log(t))
    c = _OVER_WATER
    return math.exp(c[0] / t + c[1] + t * (c[2] + t * (c[3] + t * c[4])) + c[5] * math.log(t))


def find_humidity_ratio(temperature_k: float, humidity: float, pressure_pa: float) -> float:
    """Return water over dry air by mass at a relative humidity (0 to 1) and pressure [Pa].

    W = 0.621945 pw / (p - pw): ASHRAE Handbook Fundamentals, Psychrometrics.
    """
    vapour = humidity * find_saturation_pressure(temperature_k)
    return WATER_TO_AIR * vapour / (pressure_pa - vapour)


def find_density(temperature_k: float, humidity_ratio: float, pressure_pa: float) -> float:
    """Return the density [kg/m3] of moist air: (1 + W) p / (R T (1 + 1.607858 W)), ASHRAE Fundamentals."""
    volume = DRY_AIR_GAS * temperature_k * (1 + humidity_ratio / WATER_TO_AIR) / pressure_pa
    return (1 + humidity_ratio) / volume


def find_viscosity(temperature_k: float) -> float:
    """Return the dynamic viscosity [Pa s] of air: Sutherland's law, U.S. Standard Atmosphere 1976, equation 51."""
    return 1.458e-6 * float(temperature_k**1.5) / (temperature_k + 110.4)


def describe_air(shop: Shop) -> ShopAir:
    """Return the shop's air. The barometer, where the file gives one, is believed before the altitude."""
    standard = find_standard_pressure(shop.altitude_m)
    pressure = shop.barometer_pa or standard
    ratio = find_humidity_ratio(shop.temperature_k, shop.humidity, pressure)
    density = find_density(shop.temperature_k, ratio, pressure)
    gap = None if shop.barometer_pa is None else shop.barometer_pa / standard - 1
    viscosity = find_viscosity(shop.temperature_k)
    return ShopAir(
        density_kgm3=density,
        viscosity_pas=viscosity,
        pressure_pa=pressure,
        standard_pressure_pa=standard,
        humidity_ratio=ratio,
        factor=density / STANDARD_DENSITY,
        barometer_gap=gap,
    )

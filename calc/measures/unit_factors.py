"""Exact unit factors as the registry gives them: base units in one unit, by kind and expression.

Written by python -m tests.calc.measures.test_unit_factors, never by hand; a test compares it with the registry.
"""

from __future__ import annotations

from collections.abc import Mapping

FACTORS: Mapping[str, Mapping[str, str]] = {
    "length_mm": {
        "36 * inch": "4572/5",
        "foot": "1524/5",
        "inch": "127/5",
        "inch / 1000": "127/5000",
        "metre": "1000",
        "metre / 100": "10",
        "metre / 1000": "1",
    },
    "length_m": {
        "36 * inch": "1143/1250",
        "foot": "381/1250",
        "inch": "127/5000",
        "inch / 1000": "127/5000000",
        "metre": "1",
        "metre / 100": "1/100",
        "metre / 1000": "1/1000",
    },
    "area_m2": {
        "foot ** 2": "145161/1562500",
        "inch ** 2": "16129/25000000",
        "metre ** 2": "1",
        "metre ** 2 / 10000": "1/10000",
        "metre ** 2 / 1000000": "1/1000000",
    },
    "volume_m3": {
        "fluid_ounce": "473176473/16000000000000",
        "foot ** 3": "55306341/1953125000",
        "gallon": "473176473/125000000000",
        "inch ** 3": "2048383/125000000000",
        "litre": "1/1000",
        "litre / 1000": "1/1000000",
        "metre ** 3": "1",
    },
    "flow_m3s": {
        "foot ** 3 / minute": "18435447/39062500000",
        "litre / minute": "1/60000",
        "litre / second": "1/1000",
        "metre ** 3 / hour": "1/3600",
        "metre ** 3 / minute": "1/60",
        "metre ** 3 / second": "1",
    },
    "speed_ms": {
        "foot / minute": "127/25000",
        "foot / second": "381/1250",
        "metre / minute": "1/60",
        "metre / second": "1",
    },
    "face_speed_ms": {
        "foot / minute": "127/25000",
        "litre / minute / metre ** 2 * 100": "1/600",
        "metre / 1000 / second": "1/1000",
        "metre / hour": "1/3600",
        "metre / minute": "1/60",
        "metre / second": "1",
    },
    "pressure_pa": {
        "100 * pascal": "100",
        "1000 * pascal": "1000",
        "9.80665 * pascal": "196133/20000",
        "inch_mercury": "3386389/1000",
        "inch_water": "24908891/100000",
        "pascal": "1",
        "pound_force / foot ** 2": "8896443230521/185806080000",
        "pound_force / inch ** 2": "8896443230521/1290320000",
        "pound_force / inch ** 2 / 16": "8896443230521/20645120000",
    },
    "barometer_pa": {
        "100 * pascal": "100",
        "1000 * pascal": "1000",
        "9.80665 * pascal": "196133/20000",
        "inch_mercury": "3386389/1000",
        "inch_water": "24908891/100000",
        "pascal": "1",
        "pound_force / foot ** 2": "8896443230521/185806080000",
        "pound_force / inch ** 2": "8896443230521/1290320000",
        "pound_force / inch ** 2 / 16": "8896443230521/20645120000",
    },
    "draught_pa": {
        "100 * pascal": "100",
        "1000 * pascal": "1000",
        "9.80665 * pascal": "196133/20000",
        "inch_mercury": "3386389/1000",
        "inch_water": "24908891/100000",
        "pascal": "1",
        "pound_force / foot ** 2": "8896443230521/185806080000",
        "pound_force / inch ** 2": "8896443230521/1290320000",
        "pound_force / inch ** 2 / 16": "8896443230521/20645120000",
    },
    "temperature_k": {
        "degree_celsius": "1",
        "degree_fahrenheit": "5/9",
        "kelvin": "1",
    },
    "temperature_rise_k": {
        "5 / 9 * kelvin": "5/9",
        "kelvin": "1",
    },
    "angle_deg": {
        "degree": "1",
    },
    "power_w": {
        "1000 * watt": "1000",
        "horsepower": "37284993579113511/50000000000000",
        "watt": "1",
    },
    "mass_kg": {
        "kilogram": "1",
        "kilogram / 1000": "1/1000",
        "ounce": "45359237/1600000000",
        "pound": "45359237/100000000",
    },
    "mass_rate_kgs": {
        "kilogram / 1000 / hour": "1/3600000",
        "kilogram / 1000 / second": "1/1000",
        "kilogram / hour": "1/3600",
        "kilogram / second": "1",
        "ounce / hour": "45359237/5760000000000",
        "pound / hour": "45359237/360000000000",
        "pound / minute": "45359237/6000000000",
    },
    "density_kgm3": {
        "1000 * kilogram / metre ** 3": "1000",
        "kilogram / metre ** 3": "1",
        "pound / foot ** 3": "28349523125/1769802912",
    },
    "areal_mass_kgm2": {
        "kilogram / 1000 / metre ** 2": "1/1000",
        "kilogram / metre ** 2": "1",
        "ounce / foot ** 2": "45359237/148644864",
        "pound / foot ** 2": "45359237/9290304",
    },
    "time_s": {
        "hour": "3600",
        "minute": "60",
        "second": "1",
    },
    "time_h": {
        "day": "24",
        "hour": "1",
        "minute": "1/60",
        "second": "1/3600",
    },
    "sound_db": {
        "degree": "1",
    },
    "frequency_hz": {
        "1 / second": "1",
        "1000 / second": "1000",
    },
    "rotation_hz": {
        "1 / minute": "1/60",
        "1 / second": "1",
    },
    "force_n": {
        "1000 * newton": "1000",
        "newton": "1",
        "pound_force": "8896443230521/2000000000000",
    },
    "stress_pa": {
        "1000 * pascal": "1000",
        "1000 * pound_force / inch ** 2": "8896443230521/1290320",
        "1000000 * pascal": "1000000",
        "1000000 * pound_force / inch ** 2": "222411080763025/32258",
        "1000000000 * pascal": "1000000000",
        "pascal": "1",
        "pound_force / inch ** 2": "8896443230521/1290320000",
    },
    "share": {
        "percent": "1/100",
    },
    "ratio": {
        "degree": "1",
    },
    "count": {
        "degree": "1",
    },
    "sone": {
        "degree": "1",
    },
    "money": {
        "degree": "1",
    },
}

OFFSETS: Mapping[str, str] = {
    "degree_fahrenheit": "45967/180",
    "degree_celsius": "5463/20",
}

"""Manometers against published relations and water against IAPWS-95."""

from __future__ import annotations

import math

import pytest

from calc.gauges.gauge import (
    GRAVITY,
    Instrument,
    advise_slope,
    find_least_travel,
    find_leg_travel,
    find_pressure,
    find_reading_error,
    find_travel,
    find_water_density,
    make_instrument,
)
from calc.measures.quantity import read_amount
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside
HANDBOOK = "Mechanical Engineer's Data Handbook, p. 280"
IAPWS = "chemicals 1.5.2, iapws95_rho at 101325 Pa"
INH2O = 249.08891

# Celsius, kg/m3: run once with an independent implementation of IAPWS-95.
WATER = [
    (0.01, 999.8437620819207), (3.98, 999.9748729274512), (4.0, 999.974869139272), (10.0, 999.7024701877413),
    (15.0, 999.1026214670926), (15.5556, 999.0170824078157), (20.0, 998.2071504679451), (21.1111, 997.9713214012156),
    (25.0, 997.0476367603438), (30.0, 995.6494539376687), (35.0, 994.0333148824744), (40.0, 992.2163528731381),
]  # fmt: skip


@pytest.mark.parametrize(("celsius", "published"), WATER)
def test_water_has_the_density_of_the_standard(celsius: float, published: float) -> None:
    hold_against(
        f"water at {celsius:g} °C [kg/m3]",
        IAPWS,
        published,
        find_water_density(celsius + 273.15),
        abs=0.01,
    )


def test_water_agrees_with_the_library_installed_here() -> None:
    iapws = pytest.importorskip("iapws")
    for celsius in (5.0, 22.0):
        published = iapws.IAPWS95(T=celsius + 273.15, P=0.101325).rho
        hold_against(
            f"water at {celsius:g} °C [kg/m3]",
            "iapws.IAPWS95",
            published,
            find_water_density(celsius + 273.15),
            abs=0.01,
        )


def test_an_inch_of_real_water_presses_as_published() -> None:
    """Inch of water at other temperatures: NIST SP 811 (2008) app. B.8 for 4 °C and 60 °F; 20 °C from IAPWS-95."""
    for celsius, published, source in [
        (4.0, 249.082, "NIST SP 811 (2008) app. B.8"),
        (15.5556, 248.84, "NIST SP 811 (2008) app. B.8"),
        (20.0, 248.64233106, IAPWS),
    ]:
        u_tube = Instrument("u-tube", find_water_density(celsius + 273.15), 6.0)
        hold_against(f"1 in of water at {celsius:g} °C [Pa]", source, published, find_pressure(u_tube, 25.4), rel=2e-5)


def test_u_tube_follows_hydrostatics() -> None:
    """p1 - p2 = (rho_m - rho_f) g h."""
    u_tube = make_instrument("u-tube", 1000.0, 1.2, 6.0)
    assert find_pressure(u_tube, 100) == pytest.approx((1000 - 1.2) * 9.80665 * 0.1, rel=1e-9)
    mercury = Instrument("u-tube", 13595.1, 6.0)
    hold_against(
        "760 mm of mercury at 0 °C [Pa]",
        "NIST SP 811 (2008) app. B.8: standard atmosphere",
        101325.0,
        find_pressure(mercury, 760),
        rel=1e-5,
    )


def test_inclined_tube_amplifies() -> None:
    """p = rho g L sin a."""
    inclined = Instrument("inclined", 1000.0, 6.0, slope=math.sin(math.radians(30)))
    assert find_pressure(inclined, 100) == pytest.approx(1000 * 9.80665 * 0.1 * 0.5, rel=1e-9)
    flat = Instrument("inclined", 1000.0, 6.0, slope=0.1)
    upright = Instrument("u-tube", 1000.0, 6.0)
    assert find_travel(flat, 50) / find_travel(upright, 50) == pytest.approx(10.0, rel=1e-9)


def test_well_correction_is_the_ratio_of_areas() -> None:
    """p = rho g h (1 + d2/D2); the exponents from memory. 6 mm tube, 60 mm well: 1.01."""
    well = make_instrument("well", 1000.0, 0.0, 6.0, well_bore_mm=60.0)
    simple = 1000.0 * GRAVITY * 0.1
    assert find_pressure(well, 100) / simple == pytest.approx(1.01, rel=1e-9)


def test_adding_both_legs() -> None:
    """1 in down and 1 in up reads 2 in w.g. (a sub-slab suction gauge, trade text); one-leg marks stand half as far."""
    both = Instrument("u-tube", 1000.0, 6.0)
    assert find_leg_travel(both, 2 * INH2O) / 25.4 == pytest.approx(1.0, rel=1e-6)
    one = Instrument("u-tube one leg", 1000.0, 6.0)
    assert find_travel(one, INH2O) / 25.4 == pytest.approx(0.5, rel=1e-6)


def test_eye_error_sets_the_least_reading() -> None:
    """0.5 mm a leg and 2 % wanted: do not read less than 50 mm, with water about 0.5 kPa."""
    assert find_least_travel(0.02) == pytest.approx(50.0, rel=1e-9)
    water = make_instrument("u-tube", 998.2, 1.2, 6.0)
    assert find_pressure(water, 50.0) == pytest.approx(500.0, rel=0.03)
    clean = 0.4 * INH2O
    assert find_reading_error(water) / clean == pytest.approx(0.10, abs=0.005)
    sloping = make_instrument("inclined", 998.2, 1.2, 6.0, slope=0.2, well_bore_mm=1000.0)
    assert find_travel(sloping, clean) / 25.4 == pytest.approx(2.0, rel=0.005)
    slope = advise_slope(water, clean)
    assert slope is not None
    assert slope < 1


def test_change_point_is_three_to_eight_times_clean() -> None:
    """Booth filters: clean 0.05-0.15, change at 0.40-0.50 in w.g.: the ratio the gauge's bands must be able to show."""
    _low, _high = 0.40 / 0.15, 0.50 / 0.05
    clean = read_amount("0.10 in w.g.", "pressure_pa")
    inclined = make_instrument(
        "inclined", 998.2, 1.2, 6.0, slope=advise_slope(make_instrument("u-tube", 998.2, 1.2, 6.0), clean)
    )
    assert find_reading_error(inclined) / clean <= 0.05
    assert find_travel(inclined, 5 * clean) - find_travel(inclined, clean) > 80.0

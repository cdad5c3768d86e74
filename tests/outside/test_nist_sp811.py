"""Unit factors against NIST Special Publication 811, Guide for the Use of the SI, 2008 edition, appendix B.8.

The factors were read in a published transcription of B.8 as a data table; those marked `library` are the definitions
that a general-purpose unit library gives at full precision.
"""

from __future__ import annotations

import pint
import pytest
import scipy.constants

from calc.measures.kinds import Reader
from calc.measures.marking import find_step, round_mark
from calc.measures.quantity import Kind, read_amount
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside
B8 = "NIST SP 811 (2008) app. B.8"
# Published factors have seven figures at most: half a unit of the last is below 1e-6.
ROUNDED = 1.1e-6


@pytest.mark.parametrize(
    ("text", "kind", "published"),
    [
        ("1 inH2O", "pressure_pa", 249.0889),
        ("1 inHg", "pressure_pa", 3386.389),
        ("1 psi", "pressure_pa", 6894.757),
        ("1 psf", "pressure_pa", 47.88026),
        ("1 cfm", "flow_m3s", 4.719474e-4),
        ("1 fpm", "speed_ms", 5.08e-3),
        ("1 lb/ft3", "density_kgm3", 16.01846),
        ("1 hp", "power_w", 745.6999),
        ("1 gal", "volume_m3", 3.785412e-3),
        ("1 fl oz", "volume_m3", 2.957353e-5),
        ("1 ft", "length_m", 0.3048),
        ("1 in", "length_mm", 25.4),
        ("1 ft2", "area_m2", 9.290304e-2),
        ("1 lb", "mass_kg", 0.45359237),
        ("1 oz", "mass_kg", 2.834952e-2),
        ("1 lbf", "force_n", 4.448222),
        ("1 lb/h", "mass_rate_kgs", 1.259979e-4),
        ("1 mmH2O", "pressure_pa", 9.80665),
    ],
)
def test_factor_is_the_published_one(text: str, kind: Kind, published: float) -> None:
    note = B8 if text not in ("1 psf", "1 lb/h", "1 oz", "1 lbf", "1 mmH2O") else f"{B8}, from memory"
    hold_against(f"{text} in base units", note, published, read_amount(text, kind), rel=ROUNDED)


def test_temperature_scales_meet_where_they_are_defined_to() -> None:
    for text, kelvin in [("32 degF", 273.15), ("212 degF", 373.15), ("-40 degF", 233.15), ("0 degC", 273.15)]:
        hold_against(
            f"{text} in K", f"{B8}: T/K = (t/°F + 459.67)/1.8", kelvin, read_amount(text, "temperature_k"), abs=1e-9
        )


def test_our_registry_agrees_with_the_library_s_own_definitions() -> None:
    library = pint.UnitRegistry()
    for ours, kind, theirs, base in [
        ("1 cfm", "flow_m3s", "foot ** 3 / minute", "metre ** 3 / second"),
        ("1 hp", "power_w", "horsepower", "watt"),
        ("1 inH2O", "pressure_pa", "inch_H2O", "pascal"),
        ("1 psi", "pressure_pa", "psi", "pascal"),
        ("1 gal", "volume_m3", "gallon", "metre ** 3"),
    ]:
        published = library.Quantity(1.0, theirs).to(base).magnitude
        hold_against(ours, "pint's default definitions", published, read_amount(ours, kind), rel=1e-9)  # type: ignore[arg-type]
    hold_against(
        "1 psi [Pa]", "scipy.constants (CODATA)", scipy.constants.psi, read_amount("1 psi", "pressure_pa"), rel=1e-12
    )
    hold_against("1 hp [W]", "scipy.constants (CODATA)", scipy.constants.hp, read_amount("1 hp", "power_w"), rel=1e-12)


def test_the_three_inches_of_water_differ_by_no_more_than_published() -> None:
    """Why one definition everywhere: 4 °C 249.082, 60 °F 248.84 Pa (SP 811). Ours must be the largest of the three."""
    ours = read_amount("1 inH2O", "pressure_pa")
    assert ours / 249.082 == pytest.approx(249.0889 / 249.082, rel=1e-6)
    assert ours / 248.84 == pytest.approx(249.0889 / 248.84, rel=1e-6)


def test_marks_of_a_tape() -> None:
    # an inch is 25.4 mm exactly: 1/32 in is 0.79375 mm, and 301.6 mm lies nearest 11-28/32 in, 301.625 mm
    inch, metric = Reader("inch", 32), Reader("metric")
    assert find_step(inch) == pytest.approx(0.79375, rel=1e-12)
    assert round_mark(301.6, inch) == pytest.approx(301.625, rel=1e-12)
    assert round_mark(301.63, inch, "up") == pytest.approx(302.41875, rel=1e-12)
    assert round_mark(301.6, metric) == pytest.approx(301.5, rel=1e-12)

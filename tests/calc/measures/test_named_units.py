"""Units beyond the trade's list: by whole name, of the right kind, never at the cost of the list's own meaning."""

from __future__ import annotations

import subprocess
import sys

import pytest

from calc.measures.kinds import Kind
from calc.measures.named_units import find_named_factor, find_named_kind
from calc.measures.quantity import read_amount


@pytest.mark.parametrize(
    ("text", "kind", "right"),
    [
        ("25 daPa", "pressure_pa", 250.0),
        ("15 mmHg", "pressure_pa", 15 * 133.322),  # NIST SP 811, 2008, appendix B.8: 1.333 22 E+02
        ("30 kgf/m2", "pressure_pa", 30 * 9.80665),  # the same: 9.806 65 E+00
        ("1 atm", "barometer_pa", 101325.0),  # the same
        ("1.2 torr", "pressure_pa", 1.2 * 133.3224),  # the same
        ("1 bar", "stress_pa", 1e5),
        ("90 l/s", "flow_m3s", 0.09),
        ("2 dm", "length_mm", 200.0),
        ("1 hand", "length_mm", 101.6),
        ("2 stone", "mass_kg", 2 * 6.350293),  # NIST Handbook 44, appendix C: 14 pounds
        ("400 dm3/s", "flow_m3s", 0.4),
    ],
)
def test_a_unit_by_its_whole_name(text: str, kind: Kind, right: float) -> None:
    assert read_amount(text, kind) == pytest.approx(right, rel=1e-5)


NO_UNITS = ("cfm", "F", "ga", "pa", "6 * import os", "in; x", "", "degC")


@pytest.mark.parametrize("text", NO_UNITS)
def test_what_is_of_another_kind_or_no_unit_has_no_factor(text: str) -> None:
    assert find_named_factor(text, "length_mm") is None


def test_the_kind_of_a_unit_is_told() -> None:
    assert find_named_kind("acre", "length_mm") == ("an area",)
    assert find_named_kind("nonsense", "length_mm") == ()


@pytest.mark.parametrize(("text", "pascal"), [('3/8"', 0.375), ('10" SP', 10.0), ("10 in SP", 10.0), ('2.4 " SP', 2.4)])
def test_an_inch_mark_where_water_is_read_is_an_inch_of_water(text: str, pascal: float) -> None:
    assert read_amount(text, "pressure_pa") == pytest.approx(pascal * 249.08891)


def test_ounces_on_a_square_inch_are_a_sixteenth_of_pounds() -> None:
    assert read_amount("0.5 osi", "pressure_pa") == pytest.approx(read_amount("0.5 psi", "pressure_pa") / 16)


def test_the_list_is_read_without_the_registry_of_the_world() -> None:
    code = "import sys; from calc.measures.quantity import read_amount; read_amount('3/8\"', 'pressure_pa');"
    done = subprocess.run([sys.executable, "-c", code + "assert 'pint' not in sys.modules"], check=False)
    assert done.returncode == 0

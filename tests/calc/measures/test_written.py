"""Writing of values, and that what is written reads back the same."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.measures.quantity import (
    Kind,
    Reader,
    ReadError,
    from_reader,
    read_amount,
    to_reader,
    unit_name,
    write_amount,
    write_length,
)

INCH, METRIC = Reader("inch", 32), Reader("metric")
KINDS = get_args(Kind)


@pytest.mark.parametrize(
    ("mm", "reader", "right"),
    [
        (300.83125, INCH, "11-27/32 in"),
        (301.752, Reader("inch", 16), "11-7/8 in"),
        (12.7, INCH, "1/2 in"),
        (0.0, INCH, "0 in"),
        (25.4, INCH, "1 in"),
        (25.4 * 1.97, INCH, "1-31/32 in"),
        (25.4 * (2 - 1 / 1000), INCH, "2 in"),
        (-3.175, INCH, "-1/8 in"),
        (300.83, METRIC, "300.8 mm"),
        (130.0, METRIC, "130 mm"),
    ],
)
def test_length_is_a_reduced_fraction_or_millimetres(mm: float, reader: Reader, right: str) -> None:
    assert write_length(mm, reader) == right


def test_length_with_the_true_decimal_beside_it() -> None:
    assert write_length(300.83125, INCH, decimal=True) == "11-27/32 in (11.844)"
    assert write_length(300.83125, METRIC, decimal=True) == "300.8 mm"


@pytest.mark.parametrize(
    ("value", "kind", "inch", "metric"),
    [
        (0.283168466, "flow_m3s", "600 cfm", "1019 m³/h"),
        (249.08891, "pressure_pa", "1.00 inH2O", "249 Pa"),
        (20.32, "speed_ms", "4000 fpm", "20.3 m/s"),
        (294.2611111, "temperature_k", "70 °F", "21.1 °C"),
        (5.4864, "length_m", "18 ft", "5.49 m"),
        (0.1524, "length_m", "6 in", "0.15 m"),
        (3.2004, "length_m", "10 ft 6 in", "3.2 m"),
        (1609.344, "length_m", "5280 ft", "1609 m"),
        (19.5096384, "area_m2", "210 ft²", "19.5 m²"),
        (2237.1, "power_w", "3 hp", "2.24 kW"),
        (7.25747792, "mass_kg", "16 lb", "7.3 kg"),
        (0.98, "share", "98 %", "98 %"),
        (0.985, "share", "98.5 %", "98.5 %"),
        (45.0, "angle_deg", "45°", "45°"),
        (78.0, "money", "78.00", "78.00"),
        (2.0, "count", "2", "2"),
        (0.11176, "face_speed_ms", "22 cfm/ft²", "402 m³/h per m²"),
    ],
)
def test_kinds_are_written_with_sensible_digits(value: float, kind: Kind, inch: str, metric: str) -> None:
    assert write_amount(value, kind, INCH) == inch
    assert write_amount(value, kind, METRIC) == metric


def test_digits_and_unit_can_be_chosen() -> None:
    assert write_amount(300.83125, "length_mm", INCH, digits=3) == "11.844 in"
    assert write_amount(249.08891, "pressure_pa", INCH, unit=False) == "1.00"
    assert write_amount(-0.0001, "pressure_pa", INCH) == "0.00 inH2O"
    with pytest.raises(ValueError, match="not finite"):
        write_amount(float("nan"), "pressure_pa", INCH)


@given(st.integers(0, 400_000), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_a_length_reads_back_to_the_last_fraction(parts: int, denominator: int) -> None:
    exact = Fraction(parts, denominator)
    text = write_length(float(exact * 254 / 10), Reader("inch", denominator))
    assert Fraction(read_amount(text, "length_mm")) == Fraction(float(exact * 254 / 10))


@given(st.integers(0, 100_000))
def test_millimetres_read_back_to_the_tenth(tenths: int) -> None:
    assert read_amount(write_length(tenths / 10, METRIC), "length_mm") == pytest.approx(tenths / 10, abs=1e-9)


@given(st.sampled_from(KINDS), st.floats(0.001, 5000), st.sampled_from([INCH, METRIC]))
def test_what_is_written_is_read_as_the_same_kind_and_value(kind: Kind, shown: float, reader: Reader) -> None:
    value = from_reader(shown, kind, reader)
    assert to_reader(value, kind, reader) == pytest.approx(shown, rel=1e-9)
    text = write_amount(value, kind, reader, digits=6)
    bare = None if unit_name(kind, reader) else "in"
    again = read_amount(text, kind, bare=bare) if kind != "count" else float(text)
    assert to_reader(again, kind, reader) == pytest.approx(shown, rel=1e-3, abs=1e-6)


@given(st.sampled_from(sorted(set(KINDS) - {"count"})), st.floats(0.01, 5000), st.sampled_from([INCH, METRIC]))
def test_default_writing_reads_back_within_its_rounding(kind: Kind, shown: float, reader: Reader) -> None:
    value = from_reader(shown, kind, reader)
    again = to_reader(read_amount(write_amount(value, kind, reader), kind), kind, reader)
    assert again == pytest.approx(shown, rel=0.06, abs=0.51)


LIKELY = st.from_regex(r"[-+]?[0-9 ,./⅛½'\"a-zA-Z°%]{1,16}", fullmatch=True)


@given(st.text(max_size=24) | LIKELY, st.sampled_from(KINDS))
def test_any_text_is_a_finite_value_or_a_clear_refusal(text: str, kind: Kind) -> None:
    refused: ReadError | None = None
    value = 0.0
    try:
        value = read_amount(text, kind)
    except ReadError as error:
        refused = error
    assert math.isfinite(value)
    assert value >= 0
    assert refused is None or (refused.wrong and refused.expected and str(refused).startswith("'"))

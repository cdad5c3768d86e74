"""Reading of values: every spelling a person uses, and every one that must be refused."""

from __future__ import annotations

import math

import pytest

from calc.measures.quantity import ReadError, WrittenSize, read_amount, read_at, read_ratio, read_size

INCH, FOOT = 25.4, 304.8
CFM = 0.3048**3 / 60


@pytest.mark.parametrize(
    ("text", "kind", "right"),
    [
        ("5 1/8 in", "length_mm", 5.125 * INCH),
        ("5-1/8 in", "length_mm", 5.125 * INCH),
        ('5 1/8"', "length_mm", 5.125 * INCH),
        ('5-1/8"', "length_mm", 5.125 * INCH),
        ('5⅛"', "length_mm", 5.125 * INCH),
        ("5⅛ in", "length_mm", 5.125 * INCH),
        ("5 ⅛ in", "length_mm", 5.125 * INCH),
        ("⅛ in", "length_mm", 0.125 * INCH),
        ("5 1⁄8 in", "length_mm", 5.125 * INCH),
        ("5\u00a01/8\u202fin.", "length_mm", 5.125 * INCH),
        ("5–1/8 in", "length_mm", 5.125 * INCH),
        ("9/8 in", "length_mm", 1.125 * INCH),
        (".5 in", "length_mm", 0.5 * INCH),
        ("6.in", "length_mm", 6 * INCH),
        ("6in", "length_mm", 6 * INCH),
        ("6 inches", "length_mm", 6 * INCH),
        ('6"', "length_mm", 6 * INCH),
        ("6”", "length_mm", 6 * INCH),
        ("6″", "length_mm", 6 * INCH),
        ("6''", "length_mm", 6 * INCH),
        ("10 ft 6 in", "length_mm", 126 * INCH),
        ("10 ft. 6 in.", "length_mm", 126 * INCH),
        ("10ft6in", "length_mm", 126 * INCH),
        ("10' 6-1/2\"", "length_mm", 126.5 * INCH),
        ("10’ 6½”", "length_mm", 126.5 * INCH),
        ("10′ 6″", "length_mm", 126 * INCH),
        ("8'6\"", "length_mm", 102 * INCH),
        ("8'-6\"", "length_mm", 102 * INCH),
        ("5 ft 3 in", "length_mm", 63 * INCH),
        ("5' 3/4\"", "length_mm", 60.75 * INCH),
        ("60 ft 1 in", "length_mm", 721 * INCH),
        ("5 1/2 ft", "length_mm", 66 * INCH),
        ("8 ft 4 in", "length_mm", 100 * INCH),
        ("18 ft", "length_m", 18 * 0.3048),
        ("130 mm", "length_mm", 130.0),
        ("24 MM", "length_mm", 24.0),
        ("13 cm", "length_mm", 130.0),
        ("1.2 m", "length_mm", 1200.0),
        ("2 m 30 cm", "length_mm", 2300.0),
        ("5 mil", "length_mm", 0.005 * INCH),
        ("650 cfm", "flow_m3s", 650 * CFM),
        ("800 CFM", "flow_m3s", 800 * CFM),
        ("800 ft^3/min", "flow_m3s", 800 * CFM),
        ("800 cubic feet per minute", "flow_m3s", 800 * CFM),
        ("0.31 m3/s", "flow_m3s", 0.31),
        ("0.31 m³/s", "flow_m3s", 0.31),
        ("1e3 m3/h", "flow_m3s", 1000 / 3600),
        ("310 L/s", "flow_m3s", 0.31),
        ("3500 fpm", "speed_ms", 17.78),
        ("17.78 m/s", "speed_ms", 17.78),
        ("22 cfm/ft2", "face_speed_ms", 0.11176),
        ("22 cfm per sq ft", "face_speed_ms", 0.11176),
        ("600 Pa", "pressure_pa", 600.0),
        ("100 pa", "pressure_pa", 100.0),
        ("0.6 kPa", "pressure_pa", 600.0),
        ("70 degF", "temperature_k", 294.2611111),
        ("70 F", "temperature_k", 294.2611111),
        ("70°F", "temperature_k", 294.2611111),
        ("-10 degF", "temperature_k", 249.8166667),
        ("21 °C", "temperature_k", 294.15),
        ("−5 °C", "temperature_k", 268.15),
        ("10 degF", "temperature_rise_k", 5.5555556),
        ("45 deg", "angle_deg", 45.0),
        ("90°", "angle_deg", 90.0),
        ("3 hp", "power_w", 2237.099615),
        ("2.2 kW", "power_w", 2200.0),
        ("16 lb", "mass_kg", 16 * 0.45359237),
        ("3 lb 4 oz", "mass_kg", 3.25 * 0.45359237),
        ("2 1/3 oz", "mass_kg", 7 / 3 / 16 * 0.45359237),
        ("6 lb/h", "mass_rate_kgs", 6 * 0.45359237 / 3600),
        ("6 lb per hour", "mass_rate_kgs", 6 * 0.45359237 / 3600),
        ("98.5 %", "share", 0.985),
        ("12%", "share", 0.12),
        ("86 dB", "sound_db", 86.0),
        ("3450 rpm", "rotation_hz", 57.5),
        ("1 h 30 min", "time_h", 1.5),
        ("90 min", "time_h", 1.5),
        ("2", "count", 2.0),
        ("78.00", "money", 78.0),
        ("1.5", "ratio", 1.5),
        ("210 ft2", "area_m2", 19.5096384),
        ("10.1 fl oz", "volume_m3", 298.69265e-6),
    ],
)
def test_value_means_what_a_person_means(text: str, kind, right: float) -> None:
    assert read_amount(text, kind) == pytest.approx(right, rel=1e-8)


@pytest.mark.parametrize(
    "text",
    [
        "2 inH2O", "2 in H2O", "2 in w.g.", "2 in. w.g.", "2 in w.c.", "2 in. wc", "2 inwg", "2 in WG", '2 "wc',
        '2" w.g.', "2 inches of water", "2 in of water", "2 in H₂O", "2 INH2O", "4/2 in w.g.",
    ],
)  # fmt: skip
def test_every_spelling_of_an_inch_of_water_is_the_conventional_one(text: str) -> None:
    assert read_amount(text, "pressure_pa") == pytest.approx(2 * 249.08891, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "kind", "says"),
    [
        ("0.2", "pressure_pa", "'0.2' has no unit; write '0.2 inH2O' or '0.2 Pa'"),
        ("12", "length_m", "'12' has no unit; write '12 ft' or '12 in'"),
        ("5 1/8", "length_mm", "'5 1/8' has no unit; write '5 1/8 in' or '5 1/8 mm'"),
        ("12", "share", "'12' has no unit; write '12 %'"),
        ("70", "temperature_k", "'70' has no unit; write '70 degF' or '70 degC'"),
        (
            "2 inH20",
            "pressure_pa",
            "'2 inH20' ends in a zero where the letter O belongs; write 'inH2O' with the letter O",
        ),
        ("800 cfm", "length_mm", "'800 cfm' is a flow of air, not a length; write a length, for example '12-1/2 in'"),
        ("3 ft2", "length_mm", "'3 ft2' is an area, not a length; write a length, for example '12-1/2 in'"),
        ("12 in", "pressure_pa", "'12 in' is a length, not a pressure; for inches of water write '12 inH2O'"),
        ("70 degF", "pressure_pa", "'70 degF' is a temperature, not a pressure"),
        ("600 cmf", "flow_m3s", "'600 cmf' has the unknown unit 'cmf'; did you mean 'cfm'?"),
        ("600 cfmm", "flow_m3s", "'600 cfmm' has the unknown unit 'cfmm'; write a flow of air, for example '650 cfm'"),
        ("2 qsi", "pressure_pa", "'2 qsi' has the unknown unit 'qsi'; write a pressure, for example '2.0 inH2O'"),
        ("2 kpaa", "pressure_pa", "'2 kpaa' has the unknown unit 'kpaa'; write a pressure"),
        ("12 inchse", "length_mm", "did you mean 'in'?"),
        ("12 blorp", "length_mm", "'12 blorp' has the unknown unit 'blorp'"),
        ("6 pt", "length_mm", "'6 pt' is a volume, not a length"),
        ("5 daPa", "flow_m3s", "'5 daPa' is a pressure, not a flow of air"),
        ('30"', "barometer_pa", "is a length, not a barometer's pressure"),
        ("in", "length_mm", "'in' has no number"),
        ("", "length_mm", "'' has no value"),
        ("1,200 cfm", "flow_m3s", "could mean a decimal or a thousand; write '1200 cfm' or '1.200 cfm'"),
        ("1,20,300 mm", "length_mm", "has a comma"),
        ("1,250,00 mm", "length_mm", "has a comma"),
        ("1_000 mm", "length_mm", "has an underscore"),
        ("1 200 cfm", "flow_m3s", "has more than one number"),
        ("5 -1/8 in", "length_mm", "has more than one number"),
        ("1.5.2 in", "length_mm", "has two decimal points"),
        (".nan", "length_mm", "is not a finite number"),
        ("nan in", "length_mm", "is not a finite number"),
        ("-inf in", "length_mm", "is not a finite number"),
        ("1e400 in", "length_mm", "is beyond any size"),
        ("9" * 60 + " in", "length_mm", "is beyond any size"),
        ("-3 in", "length_mm", "'-3 in' is negative"),
        ("−3 in", "length_mm", "is negative"),
        ("-1' 2\"", "length_mm", "is negative"),
        ("-2 Pa", "pressure_pa", "is negative"),
        ("-500 degF", "temperature_k", "is below absolute zero"),
        ("5/0 in", "length_mm", "divides by zero"),
        ("5 1/0 in", "length_mm", "divides by zero"),
        ("5 9/8 in", "length_mm", "has the fraction 9/8 after a whole number"),
        ("5.5 ft 3 in", "length_mm", "has a part of a larger unit before a smaller one"),
        ("3 in 5 ft", "length_mm", "has units that do not follow each other"),
        ("3 ft 5 ft", "length_mm", "has units that do not follow each other"),
        ("2 ft 30 cm", "length_mm", "has units that do not follow each other"),
        ("8' 6", "length_mm", "has no unit after its last number"),
        ("six in", "length_mm", "has no number"),
        ("2.5", "count", "is not a whole number"),
        ("2 lids", "count", "has 'lids' after the number"),
        ("5 in\x00", "length_mm", "has characters that cannot be printed"),
        ("٣ in", "length_mm", "does not begin with a number"),
    ],
)
def test_value_is_refused_with_what_is_wrong(text: str, kind, says: str) -> None:
    with pytest.raises(ReadError) as caught:
        read_amount(text, kind)
    assert says in str(caught.value)
    assert caught.value.expected
    assert caught.value.example


def test_less_than_nothing_is_allowed_where_it_makes_sense() -> None:
    assert read_amount("-12 ft", "length_m", negative=True) == pytest.approx(-3.6576)
    assert read_amount("-1' 2\"", "length_mm", negative=True) == pytest.approx(-14 * INCH)
    assert read_amount("-0.4 inH2O", "pressure_pa", negative=True) == pytest.approx(-99.635564)


def test_bare_number_takes_the_unit_the_form_names() -> None:
    assert read_amount("1.35", "pressure_pa", bare="inH2O") == pytest.approx(336.27003)
    assert read_amount("336 Pa", "pressure_pa", bare="inH2O") == pytest.approx(336.0)
    assert read_amount("11 27/32", "length_mm", bare="in") == pytest.approx(300.83125)


def test_value_at_another_value() -> None:
    loss = read_at("2.0 inH2O at 800 cfm", "pressure_pa", "flow_m3s")
    assert (loss.value, loss.at) == (pytest.approx(498.17782), pytest.approx(800 * CFM))
    cloth = read_at("22 cfm/ft2 @ 0.5 in w.g.", "face_speed_ms", "pressure_pa")
    assert (cloth.value, cloth.at) == (pytest.approx(0.11176), pytest.approx(124.544455))
    assert read_at("86 dB at 5 ft", "sound_db", "length_m").at == pytest.approx(1.524)
    for text in ("2.0 inH2O", "at 800 cfm", "1 Pa at 2 cfm at 3 cfm"):
        with pytest.raises(ReadError, match="does not say at what it holds"):
            read_at(text, "pressure_pa", "flow_m3s")
    with pytest.raises(ReadError, match="is a flow of air, not a pressure"):
        read_at("800 cfm at 2 inH2O", "pressure_pa", "flow_m3s")


@pytest.mark.parametrize(
    "text", ["36 x 80 in", "36 in x 80 in", '36" × 80"', "36 X 80 in", "36 by 80 in", "3 ft x 6 ft 8 in"]
)
def test_size_takes_one_unit_for_both(text: str) -> None:
    assert read_size(text) == WrittenSize(pytest.approx(914.4), pytest.approx(2032.0))


@pytest.mark.parametrize(
    "text", ["36 x 80", "36 in", "36 x 80 x 4 in", "36 x 80 cfm", "3 x 6 ft 8 in", "-36 x 80 in", ""]
)
def test_size_is_refused(text: str) -> None:
    with pytest.raises(ReadError, match="width and a height"):
        read_size(text)


@pytest.mark.parametrize(
    ("text", "right"), [("1:12", 1 / 12), ("1 in 12", 1 / 12), ("1/12", 1 / 12), ("8 %", 0.08), ("1.5", 1.5)]
)
def test_ratio_is_a_ratio_not_a_time(text: str, right: float) -> None:
    assert read_ratio(text) == pytest.approx(right)


@pytest.mark.parametrize("text", ["0:5", "5:0", "1:2:3", "abc", "nan", "-1:4"])
def test_ratio_is_refused(text: str) -> None:
    with pytest.raises(ReadError):
        read_ratio(text)


def test_result_is_always_a_finite_float() -> None:
    assert math.isfinite(read_amount("1e59 in", "length_mm"))

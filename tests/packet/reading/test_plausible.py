"""What a person most likely meant: the comma and the unit that the key's limits leave, and no other."""

from __future__ import annotations

import pytest

from packet.fields.questions import find_what
from tests.packet.fields.test_fields import read_text


@pytest.mark.parametrize(
    ("path", "typed", "value"),
    [
        ("ducts.pieces.pipe.length", "1,250 mm", 1.25),
        ("dust.made", "1,500 lb/h", 1.5 * 0.45359237 / 3600),
        ("blower.curve_speed", "3,450 rpm", 57.5),
        ("filters.media_area", "2,40 m2", 2.4),
        ("shop.altitude", "1,250,0 m", None),
        ("filters.cake_resistance", "30,000 1/s", 30000.0),
        ("prices", "$62.50", 62.5),
        ("prices", "$1,250", 1250.0),
        ("prices", "62,50", 62.5),
        ("project.date", "11/28/2026", "2026-11-28"),
        ("project.date", "28.11.2026", "2026-11-28"),
        ("project.date", "Nov 29 2026", "2026-11-29"),
        ("project.date", "29th of November, 2026", "2026-11-29"),
        ("shop.ceiling", "8'4\"", 2540.0),
        ("separator.loss", '3/8" at 1,250 Pa', None),
    ],
)
def test_what_people_write_is_read(path: str, typed: str, value: object) -> None:
    what = find_what(path)
    what = what.item if path == "prices" else what  # type: ignore[union-attr]
    read, _ = read_text(what, "'" + typed.replace("'", "''") + "'")
    assert (str(read) if isinstance(value, str) else read) == (
        pytest.approx(value) if isinstance(value, float) else value
    )


@pytest.mark.parametrize(
    ("path", "typed", "says"),
    [
        ("machines.gate.diameter", "6", "'6' has no unit; expected a length; write '6 in'"),
        ("machines.gate.diameter", "150", "write '150 mm'"),
        ("shop.ceiling", "8", "write '8 ft'"),
        ("shop.ceiling", "96", "write '96 in'"),
        ("ducts.pieces.pipe.length", "12", "write '12 ft' or '12 in'"),
        ("filter_box.panel.thickness", "3/4", "write '3/4 in'"),
        ("machines.needs", "650", "write '650 cfm'"),
        ("separator.loss", "2 at 800 cfm", "write '2 inH2O'"),
        ("shop.doorway", "32x80", "write '32 x 80 in'"),
        ("shop.doorway", "800x2000", "write '800 x 2000 mm'"),
        ("shop.room", "24x38", "write '24 x 38 ft'"),
        ("machines.needs", "1,250 cfm", "write '1250 cfm' or '1.250 cfm'"),
        ("filters.media_area", "1,250 ft2", "write '1250 ft2' or '1.250 ft2'"),
        ("project.date", "11/04/2026", "write '2026-11-04' (4 November) or '2026-04-11' (11 April)"),
    ],
)
def test_what_can_mean_two_things_is_refused_with_what_to_write(path: str, typed: str, says: str) -> None:
    value, said = read_text(find_what(path), f"'{typed}'")
    assert value is None
    assert says in said[0]


def test_no_suggestion_is_outside_its_limits() -> None:
    _, said = read_text(find_what("machines.gate.diameter"), "'6'")
    assert "6 ft" not in said[0]

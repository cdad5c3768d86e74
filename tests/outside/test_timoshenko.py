"""Plates that are alike both ways against the tables of Timoshenko and Woinowsky-Krieger."""

from __future__ import annotations

import pytest

from calc.strength.plates import Plate, bend_held, bend_supported, find_rigidity
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside

BOOK = "Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. 1959, Table {}, from memory"
MODULUS, POISSON, THICK, PRESSURE = 1e10, 0.3, 0.018, 1000.0
STIFF = find_rigidity(MODULUS, MODULUS, MODULUS / (2 * (1 + POISSON)), POISSON, THICK)


@pytest.mark.parametrize(
    ("ratio", "deflection", "moment"),
    [(1.0, 0.00406, 0.0479), (1.2, 0.00564, 0.0627), (1.5, 0.00772, 0.0812), (2.0, 0.01013, 0.1017),
     (3.0, 0.01223, 0.1189), (50.0, 0.01302, 0.1250)],
)  # fmt: skip
def test_table_8(ratio: float, deflection: float, moment: float) -> None:
    load = bend_supported(Plate(ratio, 1.0, THICK, STIFF)).bend(PRESSURE)
    bow, bend = load.bow_m * STIFF.along / PRESSURE, load.stress_y_pa * THICK**2 / 6 / PRESSURE
    # the long strip of 50 squares needs more waves than are taken: no box has one
    hold_against(f"w D / q a4, b/a {ratio:g}", BOOK.format(8), deflection, bow, rel=0.003 if ratio < 50 else 0.05)
    hold_against(f"M / q a2, b/a {ratio:g}", BOOK.format(8), moment, bend, rel=0.003 if ratio < 50 else 0.05)


@pytest.mark.parametrize(
    ("ratio", "deflection", "moment"),
    [(1.0, 0.00126, 0.0513), (1.2, 0.00172, 0.0639), (1.5, 0.00220, 0.0757), (2.0, 0.00254, 0.0829)],
)
def test_table_35(ratio: float, deflection: float, moment: float) -> None:
    load = bend_held(Plate(ratio, 1.0, THICK, STIFF), PRESSURE)
    bow, bend = load.bow_m * STIFF.along / PRESSURE, load.stress_y_pa * THICK**2 / 6 / PRESSURE
    hold_against(f"w D / q a4 held, b/a {ratio:g}", BOOK.format(35), deflection, bow, rel=0.015)
    hold_against(f"edge M / q a2 held, b/a {ratio:g}", BOOK.format(35), moment, bend, rel=0.05)


def test_a_plate_turned_round_is_the_same_plate() -> None:
    stiff = find_rigidity(1.0e10, 4e9, 0.6e9, 0.02, THICK)
    one, other = Plate(0.9, 0.5, THICK, stiff), Plate(0.5, 0.9, THICK, stiff.turn())
    assert bend_supported(one).bend(PRESSURE).bow_m == pytest.approx(bend_supported(other).bend(PRESSURE).bow_m)
    assert bend_held(one, PRESSURE).stress_x_pa == pytest.approx(bend_held(other, PRESSURE).stress_y_pa)


def test_bad_plates() -> None:
    from calc.strength.plates import RoundHole

    with pytest.raises(ValueError, match="above 0"):
        find_rigidity(7e9, 7e9, 1e9, 0.3, 0.0)
    with pytest.raises(ValueError, match="reaches over the edge"):
        bend_supported(Plate(1.0, 0.5, THICK, STIFF), (RoundHole(0.1, 0.25, 0.2),))

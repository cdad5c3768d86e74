"""How much sound a wood panel keeps in, against measured panels of a handbook."""

from __future__ import annotations

import pytest

from calc.sizing.sound_paths import Skin, find_insulation
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside

MANUAL = "NIOSH, Industrial Noise Control Manual, 1978, transmission loss of materials, from memory"
PLYWOOD = [
    (3.4, (250, 15), (500, 20), (1000, 24), (2000, 28), (4000, 27)),  # 1/4 in, 0.7 lb/ft2
    (9.8, (250, 22), (500, 27), (1000, 28), (2000, 25), (4000, 27)),  # 3/4 in, 2 lb/ft2
]


@pytest.mark.parametrize(("mass", "hz", "measured"), [(mass, hz, level) for mass, *row in PLYWOOD for hz, level in row])
def test_plywood_keeps_in_what_was_measured(mass: float, hz: int, measured: float) -> None:
    """A single panel as measured in a laboratory scatters by some 3 dB about any smooth law."""
    hold_against(
        f"plywood of {mass} kg/m2 at {hz} Hz [dB]",
        MANUAL,
        measured,
        find_insulation(Skin(1.0, mass, True), hz),
        abs=3.5,
    )

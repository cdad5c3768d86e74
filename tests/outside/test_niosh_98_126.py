"""Daily noise against NIOSH publication 98-126."""

from __future__ import annotations

import pytest

from calc.project import Protector
from calc.sizing import hearing
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside
NIOSH = "NIOSH 98-126"


@pytest.mark.parametrize(
    ("level", "minutes"), [(85, 480), (88, 240), (91, 120), (97, 30), (100, 15), (90, 151), (95, 47.6)]
)
def test_niosh_hours(level: float, minutes: float) -> None:
    hold_against(f"hours at {level} dBA, NIOSH [min]", NIOSH, minutes, 60 * hearing.find_niosh_hours(level), rel=0.002)


@pytest.mark.parametrize(
    ("kind", "rating", "spared"),
    [("earmuffs", 29, 11.0), ("formable plugs", 29, 7.5), ("other plugs", 29, 1.7), ("other plugs", 20, 0.0)],
)
def test_a_protector_takes_away_the_smaller_field_estimate(kind: str, rating: float, spared: float) -> None:
    """NIOSH: 75, 50 or 30 % of the NRR, less 7 dB. OSHA: half of the NRR less 7 dB: 11 dB for an NRR of 29."""
    worn = Protector(kind, rating, "NRR")  # type: ignore[arg-type]
    source = "NIOSH 98-126, hearing protectors; OSHA Technical Manual, noise; from memory"
    hold_against(f"{kind}, NRR {rating} dB, in a shop [dB]", source, spared, hearing.find_protection(worn), abs=0.001)


def test_a_european_rating_is_never_counted_as_more_than_its_parts() -> None:
    """An SNR keeps one standard deviation and the 3 dB for spectra that an NRR gives up: alike, it would spare more."""
    worn, alike = Protector("earmuffs", 31.0, "SNR"), Protector("earmuffs", 25.0, "NRR")
    assert hearing.find_protection(worn) == hearing.find_protection(alike)
    assert hearing.find_protection(Protector("other plugs", 5.0, "SNR")) == 0.0

"""Daily noise against NIOSH publication 98-126."""

from __future__ import annotations

import pytest

from calc.airflow import sound
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside
NIOSH = "NIOSH 98-126"


@pytest.mark.parametrize(
    ("level", "minutes"), [(85, 480), (88, 240), (91, 120), (97, 30), (100, 15), (90, 151), (95, 47.6)]
)
def test_niosh_hours(level: float, minutes: float) -> None:
    hold_against(f"hours at {level} dBA, NIOSH [min]", NIOSH, minutes, 60 * sound.find_niosh_hours(level), rel=0.002)

"""Wood screw sizes against ASME B18.6.1."""

from __future__ import annotations

import pytest

from calc.strength.fasteners import NO8_MM
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside


def test_number_eight() -> None:
    """The number system: diameter in inches is 0.060 + 0.013 times the number."""
    hold_against("No. 8 diameter [in]", "ASME B18.6.1, 0.060 + 0.013 N, from memory", 0.164, NO8_MM / 25.4, rel=0.002)

"""Daily noise against 29 CFR 1910.95."""

from __future__ import annotations

import pytest

from calc.sizing import hearing
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside
OSHA = "29 CFR 1910.95 Table G-16"


@pytest.mark.parametrize(
    ("hours", "level", "rel"), [(8, 90, 1e-9), (4, 95, 1e-9), (2, 100, 1e-9), (6, 92, 0.011), (0.5, 110, 1e-9)]
)
def test_osha_hours(hours: float, level: float, rel: float) -> None:
    # the table rounds 6.06 h to 6
    hold_against(f"hours at {level} dBA, OSHA [h]", OSHA, hours, hearing.find_osha_hours(level), rel=rel)


@pytest.mark.parametrize(("level", "hours"), [(80, 32), (85, 16), (83, 21.1), (86, 13.9)])
def test_osha_appendix(level: float, hours: float) -> None:
    hold_against(
        f"hours at {level} dBA, OSHA [h]",
        "29 CFR 1910.95 Table G-16A",
        hours,
        hearing.find_osha_hours(level),
        rel=0.003,
    )


def test_osha_dose() -> None:
    # 8 h at 92 dBA: T 6.1 h, dose about 131 %; exactly 131.95
    exposure = hearing.expose(92.0, 8.0)
    hold_against("dose, 8 h at 92 dBA [%]", "29 CFR 1910.95 Appendix A", 131, 100 * exposure.osha_share, rel=0.01)

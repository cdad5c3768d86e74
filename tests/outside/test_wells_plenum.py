"""The lined box against R. J. Wells's equation as worked in a reference page, and against the lore of shops."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from calc.box.box import settle_box
from calc.results import Sound
from calc.sizing.sound import describe_sound
from calc.sizing.sound_paths import find_direct, find_plenum_share
from tests.outside.check import hold_against
from tests.shop import make_project

pytestmark = pytest.mark.outside


def test_lined_plenum() -> None:
    # alpha 0.65, S 16 m2, outlet 0.25 m2, r 2 m, 45 deg: 17.3 dB printed; the page's sum takes the outlet as 0.3 m2
    share = find_plenum_share(0.30, 16.0, 0.65 * 16.0, find_direct(2.0, 45.0))
    hold_against(
        "lined plenum [dB]",
        "worked example of a reference page after R. J. Wells 1958; common practice, no source",
        17.3,
        -10 * math.log10(share),
        abs=0.05,
    )


@pytest.mark.parametrize("stock", ["carpet", "foam"])
def test_lined_box_is_as_much_quieter_as_shops_report(stock: str) -> None:
    """5 to 8 dB: nothing in the model is set by it."""
    found = hear(stock)
    hold_against(
        f"box lined with {stock} quieter by [dB]",
        "common practice, no source: 5 to 8 dB",
        6.5,
        found.quieter.best,
        abs=1.5,
    )


def hear(stock: str) -> Sound:
    project = make_project()
    assert project.lining is not None
    found = describe_sound(settle_box(replace(project, lining=replace(project.lining, stock=stock))))
    assert found is not None
    return found

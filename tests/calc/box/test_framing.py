"""What rails ask of studs and joists, whose spacing no project file tells."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from calc.box.box import settle_box
from calc.box.framing import count_studs, find_widest_spacing
from calc.design import Design, design_box
from calc.finding import Verdict
from calc.measures.quantity import Reader
from packet.words.say import say
from tests.shop import make_project


def build(hung: str, width_mm: float = 1170.0) -> Design:
    project = make_project()
    box = replace(project.box, hung=hung, width_mm=width_mm, underside_mm=None)  # type: ignore[arg-type]
    return design_box(settle_box(replace(project, box=box)), 800.0, 2800.0)


def test_two_studs_at_least_and_two_screws_in_each() -> None:
    assert [count_studs(lags) for lags in (2, 4, 5, 6, 8)] == [2, 2, 3, 3, 4]


@pytest.mark.parametrize(("rail", "studs"), [(500.0, 2), (800.0, 2), (1205.0, 3)])
def test_a_rail_can_be_shifted_onto_studs_of_that_spacing_and_no_wider(rail: float, studs: int) -> None:
    """Try it: lay the rail along a wall with studs every so far, 1 mm by 1 mm, and count those under it."""

    def count_most(spacing: float) -> int:
        reach = rail - 2 * 25.0
        return max(
            math.floor((start + reach) / spacing + 1e-9) - math.ceil(start / spacing - 1e-9) + 1
            for start in (float(step) for step in range(int(spacing) + 1))
        )

    widest = find_widest_spacing(rail, studs)
    assert count_most(widest) == studs
    assert count_most(widest + 2.0) == studs - 1


def test_a_wide_box_spans_studs_and_a_narrow_one_is_told() -> None:
    """16 and 24 in from stud to stud are usual (common practice, no source)."""
    wide = next(f for f in build("wall").findings if f.key == "mount.studs")
    assert wide.verdict is Verdict.FITS
    assert "at least 2 studs" in say(wide.why, Reader("inch"))
    narrow = next(f for f in build("wall", 450.0).findings if f.key == "mount.studs")
    assert narrow.verdict is Verdict.TIGHT
    assert narrow.value
    assert narrow.mends[0].amounts["by"].value + narrow.value.value == pytest.approx(609.6)


def test_a_ceiling_asks_for_joists_and_a_cart_for_nothing() -> None:
    found = {f.key: f for f in build("ceiling").findings}
    assert found["mount.joists"].verdict is Verdict.TIGHT
    assert "spacing not given" in say(found["mount.joists"].what, Reader("metric"))
    assert not {"mount.joists", "mount.studs"} & {f.key for f in build("cart").findings}

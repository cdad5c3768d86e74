"""The cyclone against Lapple (from memory)."""

from __future__ import annotations

import pytest

from calc import project as p
from calc.airflow import separator
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside


def test_cut_size() -> None:
    # textbook example: 1.0 m cyclone, W 0.25 m, 150 m3/min, 6 turns, 1,600 kg/m3, 0.075 kg/(m h): 6.26 micrometres
    cut = separator.find_cut_size(0.25, 20.0, 6.0, 0.075 / 3600, 1600.0, 0.0)
    hold_against("cut size [micrometre]", "Lapple 1951, air pollution text, from memory", 6.26, 1e6 * cut, rel=0.01)


def test_cyclone_without_a_loss_takes_eight_inlet_heads() -> None:
    # 16 H W / De^2 with H = D/2, W = D/4, De = D/2
    item = separator.make_separator_item(p.Separator(kind="cyclone"), 0.15)
    assert item is not None
    assert item.coefficient is not None

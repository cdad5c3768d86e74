"""The worked calculations can be followed with a pencil: what is printed gives what is printed."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest

from calc.measures.quantity import Reader
from calc.project import Project
from calc.results import Worked
from packet.words.say import say
from tests.shop import make_project, settle_and_size

METRIC = Reader("metric")


def find(project: Project, symbol: str) -> Worked:
    return next(row for row in settle_and_size(project).worked if say(row.symbol, METRIC) == symbol)


def test_media_resistance_comes_from_what_the_file_gives() -> None:
    """Through one filter 125 Pa at 0.5 m3/s on 10 m2: S = 125 x 10 / 0.5 = 2,500 Pa s/m, by hand."""
    project = make_project()
    given = replace(
        project.filters[0], permeability_ms=None, permeability_pa=None, loss_pa=125.0, loss_at_m3s=0.5, media_m2=10.0
    )
    row = find(replace(project, filters=(given,)), "clean media loss")
    assert "loss × media area / flow" in say(row.formula, METRIC)
    assert "permeability" not in say(row.formula, METRIC)
    assert "S = 2500 " in " ".join(say(one, METRIC) for one in row.numbers)
    assert {a.value for one in row.numbers for a in one.amounts.values()} >= {125.0, 10.0, 0.5}
    tested = find(project, "clean media loss")
    assert "test pressure / permeability" in say(tested.formula, METRIC)


def test_plain_numbers_carry_four_figures() -> None:
    """A number printed as 0, or cut to one figure, cannot be followed."""
    numbers = [
        value
        for row in settle_and_size(make_project()).worked
        for said in row.numbers
        for key, value in said.names.items()
        if key in ("mu", "e", "w", "a", "k", "n") and re.fullmatch(r"[-0-9.e]+", value)
    ]
    assert numbers
    for text in numbers:
        assert float(text) != 0


def test_loss_of_a_length_of_duct_follows_from_its_printed_numbers() -> None:
    """Darcy and Weisbach with the printed friction factor, length, diameter and velocity pressure."""
    rows = settle_and_size(make_project()).worked
    factors = [row for row in rows if say(row.symbol, METRIC) == "f"]
    assert factors
    i = rows.index(factors[0])
    loss = next(row for row in rows[i:] if say(row.formula, METRIC) == "k f (L/D) ρ V²/2")
    numbers = {key: a.value for said in loss.numbers for key, a in said.amounts.items()}
    reynolds = rows[i - 1]
    diameter = next(a.value for said in reynolds.numbers for key, a in said.amounts.items() if key == "d") / 1000
    k = float(next(said.names["k"] for said in loss.numbers if "k" in said.names))
    by_hand = k * factors[0].value.value * numbers["l"] / diameter * numbers["vp"]
    assert loss.value.value == pytest.approx(by_hand, rel=1e-3)


def test_speed_and_lined_box_follow_from_their_printed_numbers() -> None:
    """Continuity; R. J. Wells 1958: by hand from the numbers as printed, four figures each."""
    sizing = settle_and_size(make_project())
    speed = next(row for row in sizing.worked if say(row.symbol, METRIC) == "V")
    numbers = {key: a.value for said in speed.numbers for key, a in said.amounts.items()}
    by_hand = numbers["q"] / (math.pi * (numbers["d"] / 1000) ** 2 / 4)
    assert speed.value.value == pytest.approx(by_hand, rel=1e-9)
    lined = next(row for row in sizing.worked if say(row.symbol, METRIC) == "taken on the way through the filters")
    amounts = {key: a.value for said in lined.numbers for key, a in said.amounts.items()}
    names = {key: float(name) for said in lined.numbers for key, name in said.names.items()}
    through = names["direct"] + (1 - names["a"] / names["inside_m2"]) / names["a"]
    assert lined.value.value == pytest.approx(amounts["m"] - 10 * math.log10(names["out_m2"] * through), abs=0.01)
    row = next(row for row in sizing.worked if say(row.symbol, METRIC) == "left of that band")
    told = {key: a.value for said in row.numbers for key, a in said.amounts.items()}
    past = 10 ** (-told["p"] / 10)
    left = told["l"] + 10 * math.log10((1 - past) * 10 ** (-told["t"] / 10) + past)
    assert row.value.value == pytest.approx(left, abs=1e-9)

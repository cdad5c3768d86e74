"""Dust on pleats and in pails: cake, working area, room in the ring, products of figures nobody knows closely."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from scipy.integrate import quad
from scipy.stats import lognorm

from calc.airflow.chains import BEST
from calc.airflow.dust import USUAL_BULK, find_pail_volume, find_ring
from calc.airflow.filters import USUAL_CAKE, FilterBank
from calc.finding import Band
from calc.guess import SPOKEN, multiply, round_as_said
from calc.project import Pail
from tests.outside.check import hold_against
from tests.outside.standard_air import STANDARD
from tests.shop import make_project

pytestmark = pytest.mark.outside

FELT = "Dembinski and others, Applied Sciences 11 (2021) 8965, abstract: pressure = K w W"
WOOD = "Harris and Phillips, Density of Selected Wood Fuels, Georgia Forest Research Paper 61"


@pytest.mark.parametrize(("cake", "pascal"), [(6507.0, 19.5), (10208.0, 30.6), (29729.0, 89.2)])
def test_cake_of_wood_dust_on_felt(cake: float, pascal: float) -> None:
    """300 g/m2 at 1 cm/s, all of the felt at work: what the three states of the bag lose by their dust alone."""
    one = replace(make_project().filters[0], cake_resistance=cake, working_area=1.0)
    bank = FilterBank((one,), STANDARD)
    flow = 0.01 * bank.media_m2
    found = bank.find_media(flow, BEST, 0.3) - bank.find_media(flow, BEST, 0.0)
    hold_against("loss of a cake of 300 g/m2 at 1 cm/s [Pa]", FELT, pascal, found, rel=0.005)
    assert USUAL_CAKE.low <= cake <= USUAL_CAKE.high


def test_half_of_the_area_at_work_is_half_a_filter_with_all_its_dust() -> None:
    """Nothing but the share at work differs: the same dust on half the cloth, the same air through half the cloth."""
    whole = replace(make_project().filters[0], working_area=0.5, cake_resistance=3e4)
    half = replace(whole, media_m2=whole.media_m2 / 2, working_area=1.0)
    pair = [FilterBank((each,), STANDARD) for each in (whole, half)]
    worn, cut = (
        bank.find_media(0.4, BEST, load) - bank.find_media(0.4, BEST)
        for bank, load in zip(pair, (0.05, 0.1), strict=True)
    )
    assert worn == pytest.approx(cut, rel=1e-9)


def test_ring_between_bore_and_outside() -> None:
    one = make_project().filters[0]
    inner, outer = one.bore_mm / 2000, one.outside_mm / 2000
    litres = 1000 * quad(lambda r: 2 * math.pi * r * one.height_mm / 1000, inner, outer)[0]
    hold_against(
        "ring of a 12.7 in filter [L]", "scipy.integrate.quad, shells", litres, 1000 * find_ring(one), rel=1e-9
    )


def test_pail_to_a_level() -> None:
    pail = Pail(top_mm=302.0, bottom_mm=267.0, height_mm=368.0)
    litres = 1000 * quad(lambda z: math.pi * (0.1335 + 0.0175 * z / 0.368) ** 2, 0.0, 0.75 * 0.368)[0]
    found = 1000 * find_pail_volume(pail, 0.75)
    hold_against("pail to three quarters [L]", "scipy.integrate.quad, a cone", litres, found, rel=1e-9)


def test_wood_dust_as_it_lies() -> None:
    for what, published in (("hardwood shavings, 8 % moist", 173.0), ("dry furniture waste, 12 % moist", 251.0)):
        hold_against(f"{what} [kg/m3]", WOOD, published, USUAL_BULK.best, rel=0.4)
        assert USUAL_BULK.low < published < USUAL_BULK.high


def test_independent_figures_multiply_as_their_logarithms_add() -> None:
    """Two log-normal figures, each low and high at its 5th and 95th percentile: so is the product's band."""
    wide, narrow = 0.5, 0.2
    ends = [[lognorm.ppf(p, s) for p in (0.05, 0.5, 0.95)] for s in (wide, narrow)]
    found = multiply(Band(*ends[0]), over=(Band(*ends[1]),))
    low, _, high = (lognorm.ppf(p, math.hypot(wide, narrow)) for p in (0.05, 0.5, 0.95))
    hold_against("5th percentile of a quotient", "scipy.stats.lognorm", low, found.low, rel=1e-9)
    hold_against("95th percentile of a quotient", "scipy.stats.lognorm", high, found.high, rel=1e-9)


@pytest.mark.parametrize(("value", "said"), [(1201.6, 1200.0), (57.0, 60.0), (13.4, 12.0), (2.3, 2.5), (0.97, 1.0)])
def test_hours_are_rounded_as_a_person_says_them(value: float, said: float) -> None:
    hold_against("hours as said", "common practice, no source", said, round_as_said(value), rel=1e-12)
    assert min(abs(round_as_said(value) / 10**n - each) for n in range(-1, 4) for each in SPOKEN) < 1e-9

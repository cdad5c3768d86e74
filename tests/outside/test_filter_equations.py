"""Filters against ASTM D737's meaning, the EPA's fabric-filter equation and plain arithmetic."""

from __future__ import annotations

from dataclasses import replace

import pytest
from scipy.optimize import brentq

from calc import filters
from calc.chains import BEST
from tests.outside.check import hold_against
from tests.sample import CFM, INH2O, make_project
from tests.sized import STANDARD

pytestmark = pytest.mark.outside
FPM, FOOT2, POUND = 0.00508, 0.09290304, 0.45359237
EPA = "US EPA Air Pollution Control Cost Manual, fabric-filter equation, from memory"


def test_air_to_media() -> None:
    # 800 cfm over 400 ft2 = 2 cfm/ft2; 1 cfm/ft2 = 0.508 cm/s exactly
    hold_against("1 cfm/ft2 [cm/s]", "NIST SP 811, exact", 0.508, 100 * filters.find_face_speed(CFM, FOOT2), rel=1e-6)
    hold_against(
        "800 cfm over 400 ft2 [cfm/ft2]",
        "definition",
        2.0,
        filters.find_face_speed(800 * CFM, 400 * FOOT2) / FPM,
        rel=1e-6,
    )


def test_permeability_is_the_flow_at_125_pascal() -> None:
    # ASTM D737: flow an area passes at 125 Pa. At that face speed the loss must be 125 Pa again.
    one = replace(make_project().filters[0], permeability_ms=0.11, permeability_pa=125.0)
    loss = filters.find_media_loss(0.11, filters.find_clean_resistance(one), 0.0, 0.0)
    hold_against("loss at the permeability's own face speed [Pa]", "ASTM D737", 125.0, loss, rel=1e-12)


def test_clean_loss_is_in_proportion() -> None:
    # 22 cfm/ft2 at 0.5 inH2O; at 2 cfm/ft2 Darcy gives 0.5 x 2/22 = 0.04545 inH2O
    resistance = filters.find_clean_resistance(make_project().filters[0])
    loss = filters.find_media_loss(2 * FPM, resistance, 0.0, 0.0) / INH2O
    hold_against("clean loss at 2 cfm/ft2 [inH2O]", "Darcy's law on ASTM D737", 0.5 * 2 / 22, loss, rel=1e-4)


def test_loaded_loss_in_pounds_and_inches() -> None:
    # S_E 0.5 inH2O/fpm, K2 5 inH2O/(fpm lb/ft2), W 0.1 lb/ft2, V 2 fpm: (0.5 + 5 x 0.1) x 2 = 2.0 inH2O
    clean = 0.5 * INH2O / FPM
    cake = 5 * INH2O / (FPM * POUND / FOOT2)
    loss = filters.find_media_loss(2 * FPM, clean, cake, 0.1 * POUND / FOOT2) / INH2O
    hold_against("loaded loss [inH2O]", EPA, 2.0, loss, rel=1e-9)
    back = filters.find_areal_load(2.0 * INH2O, 2 * FPM, clean, cake) / (POUND / FOOT2)
    hold_against("load that gives it [lb/ft2]", EPA, 0.1, back, rel=1e-9)


def test_hours_of_loading() -> None:
    # 0.1 lb/ft2 on 420 ft2 at 6 lb/h made and 98.5 % caught: 42 / 0.09 = 466.7 h
    hours = filters.find_hours(0.1 * POUND / FOOT2, 420 * FOOT2, 6 * 0.015 * POUND / 3600)
    hold_against("hours to load [h]", "mass balance", 42 / 0.09, hours, rel=1e-9)


def test_unequal_filters_share_by_pressure() -> None:
    first = make_project().filters[0]
    pair = (replace(first, count=1), replace(first, count=2, media_m2=first.media_m2 / 3, bore_mm=150.0, name="small"))
    bank = filters.FilterBank(pair, STANDARD)
    flow = 0.4

    def miss(pressure: float) -> float:
        total = 0.0
        for member in bank.members:
            q = brentq(lambda q, m=member: m.opening[BEST] * q * q + m.clean * q - pressure, 0.0, 1000.0, xtol=1e-15)
            total += member.filter.count * q
        return total - flow

    published = brentq(miss, 1e-6, 1e5, xtol=1e-12)
    pressure, slope = bank.find_loss(flow, BEST)
    hold_against("loss of unequal filters [Pa]", "scipy.optimize.brentq, nested", published, pressure, rel=1e-9)
    step = 1e-6
    rise = (bank.find_loss(flow + step, BEST)[0] - bank.find_loss(flow - step, BEST)[0]) / (2 * step)
    hold_against("its slope [Pa s/m3]", "difference", rise, slope, rel=1e-6)
    shares = bank.share_flow(flow, BEST)
    hold_against("shares add up [m3/s]", "continuity", flow, shares[0] + 2 * shares[1], rel=1e-9)


def test_equal_filters_written_twice_are_one_bank() -> None:
    first = make_project().filters[0]
    whole = filters.FilterBank((first,), STANDARD).find_loss(0.4, BEST, 0.2)[0]
    split = filters.FilterBank((replace(first, count=1), replace(first, count=1)), STANDARD).find_loss(0.4, BEST, 0.2)[
        0
    ]
    hold_against("two filters as two kinds [Pa]", "the same two as one kind, closed form", whole, split, rel=1e-9)


def test_load_turned_round() -> None:
    first = make_project().filters[0]
    for kinds in ((first,), (replace(first, count=1), replace(first, count=3, media_m2=5.0))):
        bank = filters.FilterBank(kinds, STANDARD)
        loss = bank.find_loss(0.35, BEST, 0.7)[0]
        load = bank.find_load(0.35, loss, BEST)
        assert load is not None
        hold_against(f"load found from its loss, {len(kinds)} kinds [kg/m2]", "inverse", 0.7, load, rel=1e-6)


def test_opening_loss() -> None:
    # 400 cfm through a 9.4 in opening: 830 fpm, VP 0.04286 inH2O at standard air; 1.5 VP
    bank = filters.FilterBank((replace(make_project().filters[0], count=1),), STANDARD)
    loss = bank.members[0].opening[BEST] * (400 * CFM) ** 2 / INH2O
    speed = 400 / (3.14159265 / 4 * (9.4 / 12) ** 2)
    hold_against(
        "loss of the filter's opening, 400 cfm [inH2O]",
        "1.5 (V/4005)^2, from memory",
        1.5 * (speed / 4005) ** 2,
        loss,
        rel=0.004,
    )

"""Permeability as ASTM D737 means it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc.airflow import filters
from calc.airflow.chains import BEST
from tests.outside.standard_air import STANDARD
from tests.shop import INH2O, make_project

FPM = 0.00508


def test_permeability_is_the_flow_at_125_pascal() -> None:
    # ASTM D737: flow an area passes at 125 Pa. At that face speed the loss must be 125 Pa again.
    one = replace(make_project().filters[0], permeability_ms=0.11, permeability_pa=125.0)
    loss = filters.FilterBank((one,), STANDARD).find_media(0.11 * one.media_m2 * one.count, BEST)
    assert loss == pytest.approx(125.0, rel=1e-9)
    clean = filters.find_clean_resistance(one)
    assert clean == pytest.approx(125 / 0.11, rel=1e-12)


def test_clean_loss_is_in_proportion() -> None:
    # 22 cfm/ft2 at 0.5 inH2O; at 2 cfm/ft2 Darcy gives 0.5 x 2/22 = 0.04545 inH2O
    one = make_project().filters[0]
    loss = filters.FilterBank((one,), STANDARD).find_media(2 * FPM * one.media_m2 * one.count, BEST) / INH2O
    assert loss == pytest.approx(0.5 * 2 / 22, rel=1e-4)


def test_thin_air_changes_neither_way_of_giving_the_clean_loss() -> None:
    """Darcy: loss goes with viscosity, never with density; 1,600 m up a filter loses what it loses at the sea."""
    one = replace(make_project().filters[0], permeability_ms=0.11, permeability_pa=125.0, bore_mm=5000.0)
    stated = replace(one, permeability_ms=None, loss_pa=125.0, loss_at_m3s=0.11 * one.media_m2)
    thin = replace(STANDARD, density_kgm3=0.83 * STANDARD.density_kgm3)
    for which in (one, stated):
        bank = filters.FilterBank((which,), thin)
        loss = bank.find_loss(0.11 * one.media_m2 * one.count, BEST)[0]
        assert loss == pytest.approx(125.0, rel=2e-3)

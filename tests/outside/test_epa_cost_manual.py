"""Friction and the fabric-filter equation against the US EPA Air Pollution Control Cost Manual (from memory)."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc.airflow import ducts, filters
from calc.airflow.chains import BEST, LOW
from tests.outside.check import hold_against
from tests.outside.standard_air import STANDARD, lose
from tests.shop import INH2O, make_project

pytestmark = pytest.mark.outside


FPM, FOOT2, POUND = 0.00508, 0.09290304, 0.45359237
EPA = "US EPA Air Pollution Control Cost Manual, fabric-filter equation, from memory"


@pytest.mark.parametrize(("inches", "cfm"), [(4, 350), (6, 800), (10, 2200)])
def test_epa_closed_form(inches: float, cfm: float) -> None:
    # 0.136 (1/D)^1.18 (V/1000)^1.8, US EPA Air Pollution Control Cost Manual, from memory: the lowest of the trade's
    # closed forms, which must lie in the band of the file's pipe
    fpm = cfm / (ducts.find_area(inches * 0.0254) / 0.09290304)
    published = 0.136 * (12 / inches) ** 1.18 * (fpm / 1000) ** 1.8
    low, best = (lose(inches, cfm, which=which) for which in (LOW, BEST))
    hold_against(
        f"galvanised {inches} in {cfm} cfm, in the band [inH2O/100 ft]",
        "US EPA Cost Manual form, from memory",
        published,
        min(max(published, low), best),
        rel=1e-9,
    )


def test_loaded_loss_in_pounds_and_inches() -> None:
    # S_E 0.5 inH2O/fpm, K2 5 inH2O/(fpm lb/ft2), W 0.1 lb/ft2, V 2 fpm: (0.5 + 5 x 0.1) x 2 = 2.0 inH2O
    clean = 0.5 * INH2O / FPM
    cake = 5 * INH2O / (FPM * POUND / FOOT2)
    one = replace(
        make_project().filters[0],
        permeability_ms=1.0,
        permeability_pa=clean,
        cake_resistance=cake,
        bore_mm=1e6,
        working_area=1.0,
    )
    bank = filters.FilterBank((one,), STANDARD)
    flow = 2 * FPM * bank.media_m2
    loss = bank.find_media(flow, BEST, 0.1 * POUND / FOOT2) / INH2O
    hold_against("loaded loss [inH2O]", EPA, 2.0, loss, rel=1e-9)
    back = bank.find_load(flow, 2.0 * INH2O, BEST)
    assert back is not None
    hold_against("load that gives it [lb/ft2]", EPA, 0.1, back / (POUND / FOOT2), rel=1e-9)

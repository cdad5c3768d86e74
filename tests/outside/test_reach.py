"""Arm and hand access, lifting and hanging against human-factors figures and facts of the trade."""

from __future__ import annotations

import pytest

from calc.geometry.box import settle_box
from calc.geometry.reach import ARM_MM, ARM_OPENING_MM
from calc.geometry.stack import find_hanging
from calc.handling import DUST_DENSITY, TIP_DEG
from calc.project import Methods
from tests.outside.check import hold_against
from tests.sample import INCH, make_project

pytestmark = pytest.mark.outside


def test_arm_opening() -> None:
    source = "MIL-STD-1472, access opening for an arm to the shoulder, light clothing, 5 in, from memory"
    hold_against("opening for an arm [in]", source, 5.0, ARM_OPENING_MM / INCH, rel=0.02)


def test_reach_is_a_short_arm() -> None:
    """Thumb-tip reach of a small woman is 677 mm from the wall behind her back; the shoulder takes about 80 mm of it.
    ISO 13857 keeps people 850 mm away through openings an arm fits: nobody's arm is longer than that."""
    source = "thumb-tip reach, 5th percentile woman, 677 mm less 80 mm of shoulder (US Army survey 1988), from memory"
    hold_against("reach through an opening [mm]", source, 597, ARM_MM, rel=0.03)
    assert ARM_MM < 850.0  # ISO 13857 Table 4, reaching through round openings, from memory


def test_lift_limit() -> None:
    source = "NIOSH lifting equation 1991, load constant 23 kg (51 lb), from memory"
    hold_against("most for one person [kg]", source, 23.0, Methods().lift_limit_kg, rel=0.02)
    hold_against("tip test [deg]", "IEC 60335-1 clause 20.1, from memory", 10.0, TIP_DEG, abs=1e-9)


def test_hanging_stack() -> None:
    """A 36 in filter on a common 5-gallon pail hangs about 51 in below the box."""
    project = settle_box(make_project())
    port = next(p for p in project.ports if p.kind == "filter")
    source = "common practice, no source"
    hold_against("filter and pail below the box [in]", source, 51.0, find_hanging(project, port) / INCH, abs=0.75)


def test_dust_density() -> None:
    # 160 to 240 kg/m3 (10 to 15 lb/ft3) is what bulk tables give for loose wood flour
    hold_against("loose wood dust [kg/m3]", "common practice, no source", 200, DUST_DENSITY, rel=0.2)

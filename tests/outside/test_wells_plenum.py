"""The lined box against R. J. Wells's equation as worked in reference pages, absorption tables and shop lore."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from calc import project as p
from calc.box.box import settle_box
from calc.settled import Settled
from calc.sizing import sound
from tests.outside.check import hold_against
from tests.shop import make_project

pytestmark = pytest.mark.outside


def test_lined_plenum() -> None:
    # alpha 0.65, S 16 m2, outlet 0.25 m2, r 2 m, 45 deg: 17.3 dB printed; the page's sum takes the outlet as 0.3 m2
    computed = sound.find_plenum_loss(0.65, 16.0, 0.30, 2.0, 45.0)
    hold_against("lined plenum [dB]", "reference page after R. J. Wells 1958", 17.3, computed, abs=0.05)


def test_lined_plenum_room_constant_form() -> None:
    # R = (So + Si + S a)/(1 - a) with So = Si = 0.25 counts the openings as absorbing: 18.22, the plain form 18.11
    computed = sound.find_plenum_loss(0.65, 16.0, 0.25, 2.0, 45.0)
    hold_against("lined plenum, second form [dB]", "UK mechanical services practice", 18.2214, computed, abs=0.15)


def test_inlet_at_an_edge_takes_less() -> None:
    # without reflected sound, Q 4 in place of 2 is 3.01 dB less
    flat = sound.find_plenum_loss(1.0, 16.0, 0.3, 2.0, 0.0)
    edge = sound.find_plenum_loss(1.0, 16.0, 0.3, 2.0, 0.0, corner=True)
    hold_against("edge against flat wall [dB]", "10 log10 2", 10 * math.log10(2), flat - edge, rel=1e-9)


@pytest.mark.parametrize(
    ("stock", "hz", "published"),
    [("carpet", 1000, 0.37), ("pile carpet", 125, 0.02), ("carpet on felt", 500, 0.57), ("1 in foam", 500, 0.68)],
)
def test_absorption(stock: str, hz: int, published: float) -> None:
    hold_against(
        f"absorption of {stock} at {hz} Hz",
        "general table of absorption coefficients",
        published,
        sound.find_absorption(stock, 25.0, {}, hz),
        abs=1e-9,
    )


def settle_amid() -> Settled:
    """Return the boatshed with inlet and filters amid their faces, as a box has whose filters are not by the inlet."""
    project = make_project()
    wide, deep, high = (size or 0.0 for size in (project.box.width_mm, project.box.depth_mm, project.box.height_mm))
    inlet = replace(project.box.inlet, across_mm=deep / 2, up_mm=high / 2)
    ports = tuple(
        replace(port, across_mm=wide / 2, up_mm=deep / 2) if port.kind == "filter" else port for port in project.ports
    )
    return settle_box(replace(project, box=replace(project.box, inlet=inlet), ports=ports))


def test_lined_box_is_five_to_eight_decibels_quieter() -> None:
    found = sound.describe_sound(settle_amid())
    assert found is not None
    hold_against(
        "boatshed's lined box quieter by [dB]", "common practice, no source: 5 to 8 dB", 6.5, found.quieter_db, abs=1.5
    )


def test_mean_absorption_by_area() -> None:
    project = make_project()
    # carpet on top, back, left, right; board on bottom and front: areas of 46 x 19 x 16 in
    areas = {"top": 46 * 19, "bottom": 46 * 19, "front": 46 * 16, "back": 46 * 16, "left": 19 * 16, "right": 19 * 16}
    lined = ("top", "back", "left", "right")
    published = sum(a * (0.37 if face in lined else 0.09) for face, a in areas.items()) / sum(areas.values())
    hold_against(
        "mean absorption at 1 kHz",
        "weighted by area",
        published,
        sound.find_mean_absorption(settle_box(project).box, project.lining, 1000),
        rel=1e-9,
    )


def test_no_lining_promises_more_than_shops_report() -> None:
    # foam on every face, absorbing all: still no more than the 8 dB shops report at best
    project = settle_amid()
    bands = dict.fromkeys(sound.OCTAVES, 1.0)
    lining = p.Lining("perfect", 25.0, p.FACES, absorption=bands)
    found = sound.describe_sound(replace(project, lining=lining))
    assert found is not None
    hold_against(
        "quieter by, perfect lining [dB]", "common practice, no source: 5 to 8 dB", 8.0, found.quieter_db, abs=1.0
    )
    assert found.quieter_db <= 8.0

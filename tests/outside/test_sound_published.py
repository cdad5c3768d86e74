"""Sound against Wells's equation as worked in a reference page, NIOSH 98-126, 29 CFR 1910.95, Stevens and SMACNA."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from calc import sound
from calc.project import Noise, NoiseSource
from tests.outside.check import hold_against
from tests.sample import make_project

pytestmark = pytest.mark.outside
NIOSH, OSHA = "NIOSH 98-126", "29 CFR 1910.95 Table G-16"


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


def test_cut_off() -> None:
    # f = c/(2a): 343 / (2 x 0.5) = 343 Hz
    hold_against(
        "cut-off of a 0.5 m box [Hz]", "SMACNA 1990 section 11, c/(2a)", 343.0, sound.find_cut_off(0.5), rel=1e-9
    )


@pytest.mark.parametrize(("levels", "published"), [((80, 80), 83.0103), ((90, 85), 91.19331), ((80, 74), 80.97323)])
def test_level_sum(levels: tuple[float, ...], published: float) -> None:
    hold_against(
        f"{levels[0]} + {levels[1]} dB", "definition of the level", published, sound.add_levels(levels), rel=1e-6
    )


@pytest.mark.parametrize(("phon", "sones"), [(40, 1), (50, 2), (60, 4), (90, 32), (100, 64)])
def test_sones(phon: float, sones: float) -> None:
    hold_against(f"loudness at {phon} phon [sone]", "Stevens, ISO 131", sones, sound.find_sones(phon), rel=1e-9)


def test_ten_decibels_more_is_twice_as_loud() -> None:
    hold_against(
        "loudness of 10 dB more",
        "common practice, no source",
        2.0,
        sound.find_sones(86) / sound.find_sones(76),
        rel=1e-9,
    )


@pytest.mark.parametrize(
    ("level", "minutes"), [(85, 480), (88, 240), (91, 120), (97, 30), (100, 15), (90, 151), (95, 47.6)]
)
def test_niosh_hours(level: float, minutes: float) -> None:
    hold_against(f"hours at {level} dBA, NIOSH [min]", NIOSH, minutes, 60 * sound.find_niosh_hours(level), rel=0.002)


@pytest.mark.parametrize(
    ("hours", "level", "rel"), [(8, 90, 1e-9), (4, 95, 1e-9), (2, 100, 1e-9), (6, 92, 0.011), (0.5, 110, 1e-9)]
)
def test_osha_hours(hours: float, level: float, rel: float) -> None:
    # the table rounds 6.06 h to 6
    hold_against(f"hours at {level} dBA, OSHA [h]", OSHA, hours, sound.find_osha_hours(level), rel=rel)


@pytest.mark.parametrize(("level", "hours"), [(80, 32), (85, 16), (83, 21.1), (86, 13.9)])
def test_osha_appendix(level: float, hours: float) -> None:
    hold_against(
        f"hours at {level} dBA, OSHA [h]", "29 CFR 1910.95 Table G-16A", hours, sound.find_osha_hours(level), rel=0.003
    )


def test_osha_dose() -> None:
    # 8 h at 92 dBA: T 6.1 h, dose about 131 %; exactly 131.95
    exposure = sound.expose(92.0, 8.0)
    hold_against("dose, 8 h at 92 dBA [%]", "29 CFR 1910.95 Appendix A", 131, 100 * exposure.osha_share, rel=0.01)


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


def test_lined_box_is_five_to_eight_decibels_quieter() -> None:
    found = sound.describe_sound(make_project())
    assert found is not None
    hold_against(
        "boatshed's lined box quieter by [dB]", "common practice, no source: 5 to 8 dB", 6.5, found.quieter_db, abs=1.5
    )


def test_bands_add_up_to_the_level_in_the_file() -> None:
    project = make_project()
    close = replace(project, noise=Noise(ear_m=project.blower.sound_at_m or 1.5))
    found = sound.describe_sound(close)
    assert found is not None
    hold_against(
        "level before the box, at the file's distance [dB]",
        "project file's own level",
        86.0,
        found.before.level_db,
        abs=1e-9,
    )
    hold_against(
        "sum of its bands [dB]",
        "definition of the level",
        86.0,
        sound.add_levels(b.before_db for b in found.bands),
        abs=1e-9,
    )


def test_other_noise_is_added() -> None:
    project = replace(make_project(), noise=Noise(others=(NoiseSource("planer", 95.0),)))
    found = sound.describe_sound(project)
    assert found is not None
    published = 10 * math.log10(10**9.5 + 10 ** (found.after.level_db / 10))
    hold_against(
        "blower and planer together [dB]", "definition of the level", published, found.with_others.level_db, rel=1e-9
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
        sound.find_mean_absorption(project.box, project.lining, 1000),
        rel=1e-9,
    )

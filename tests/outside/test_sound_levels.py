"""Sums of levels and loudness: the definition of the level, Stevens, ISO 131."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from calc import sound
from calc.project import Noise, NoiseSource
from tests.outside.check import hold_against
from tests.sample import make_project

pytestmark = pytest.mark.outside


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

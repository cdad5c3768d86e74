"""Sums of levels and loudness: the definition of the level, Stevens, ISO 131."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from calc.box.box import settle_box
from calc.project import Noise, NoiseSource
from calc.sizing import hearing, sound
from calc.sizing.absorption import OCTAVES
from calc.sizing.judging import judge_sound
from tests.outside.check import hold_against
from tests.shop import make_project

pytestmark = pytest.mark.outside


@pytest.mark.parametrize(("levels", "published"), [((80, 80), 83.0103), ((90, 85), 91.19331), ((80, 74), 80.97323)])
def test_level_sum(levels: tuple[float, ...], published: float) -> None:
    assert hearing.add_levels(levels) == pytest.approx(published, rel=1e-6)


@pytest.mark.parametrize(("phon", "sones"), [(40, 1), (50, 2), (60, 4), (90, 32), (100, 64)])
def test_sones(phon: float, sones: float) -> None:
    assert hearing.find_sones(phon) == pytest.approx(sones, rel=1e-9)


def test_bands_add_up_to_the_level_in_the_file() -> None:
    project = make_project()
    close = replace(project, noise=Noise(ear_m=project.blower.sound_at_m or 1.5))
    found = sound.describe_sound(settle_box(close))
    assert found is not None
    assert found.before.level_db == pytest.approx(86.0, abs=1e-9)
    assert hearing.add_levels(b.before_db for b in found.bands) == pytest.approx(86.0, abs=1e-9)


def test_other_noise_is_added() -> None:
    project = replace(make_project(), noise=Noise(others=(NoiseSource("planer", 95.0),)))
    found = sound.describe_sound(settle_box(project))
    assert found is not None
    published = 10 * math.log10(10**9.5 + 10 ** (found.after.level_db / 10))
    assert found.with_others.level_db == pytest.approx(published, rel=1e-9)


@pytest.mark.parametrize("hz", OCTAVES)
def test_a_weights_by_the_standards_formula(hz: int) -> None:
    """IEC 61672-1:2013, annex E formula of the A weighting (from memory), at the exact frequencies of the bands."""
    f = 1000 * 10 ** (0.3 * round(math.log2(hz / 1000)))
    a = (12194**2 * f**4) / ((f**2 + 20.6**2) * math.sqrt((f**2 + 107.7**2) * (f**2 + 737.9**2)) * (f**2 + 12194**2))
    published = 20 * math.log10(a) + 2.0
    found = dict(zip(OCTAVES, sound.A_WEIGHTS, strict=True))[hz]
    hold_against(
        f"A weight at {hz} Hz [dB]", "IEC 61672-1, formula of the A weighting, from memory", published, found, abs=0.06
    )


def test_flat_bands_are_weighed_before_they_are_added() -> None:
    """Six bands of 80 dB: 84.95 dBA by hand, 10 log10 of the sum of 10^((80 + A)/10)."""
    project = make_project()
    blower = replace(project.blower, sound_db=86.0, sound_at_m=2.0, sound_bands_db=dict.fromkeys(OCTAVES, 80.0))
    found = sound.describe_sound(settle_box(replace(project, blower=blower, noise=Noise(ear_m=2.0))))
    assert found is not None
    by_hand = 10 * math.log10(sum(10 ** ((80 + a) / 10) for a in (-16.1, -8.6, -3.2, 0.0, 1.2, 1.0)))
    assert found.before.level_db == pytest.approx(by_hand, rel=1e-9)
    assert not found.spectrum_assumed


def test_a_band_left_out_is_not_silent() -> None:
    project = make_project()
    blower = replace(project.blower, sound_db=86.0, sound_at_m=2.0, sound_bands_db={125: 60.0})
    found = sound.describe_sound(settle_box(replace(project, blower=blower, noise=Noise(ear_m=2.0))))
    assert found is not None
    assert len(found.bands) == 6
    assert found.spectrum_assumed
    assert found.before.level_db > 80


def test_a_days_noise_is_held_against_its_own_limit_three_decibels_either_way() -> None:
    """NIOSH 98-126: 4 hours at 88 dBA is the whole day's allowance, at 85 half of it, at 91 twice."""
    project = make_project()
    verdicts = []
    for level in (84.9, 85.1, 87.9, 88.1):
        noise = Noise(ear_m=2.0, hours_a_day=4.0, others=(NoiseSource("planer", level),))
        blower = replace(project.blower, sound_db=30.0, sound_at_m=2.0)
        heard = sound.describe_sound(settle_box(replace(project, blower=blower, noise=noise)))
        assert heard is not None
        finding = judge_sound(heard)
        verdicts.append(finding.verdict.value)
        assert finding.margin is not None
        assert (finding.margin >= 0) == (level < 88)
    assert verdicts == ["fits", "tight", "tight", "does not fit"]  # at 88 dBA the best value is the limit

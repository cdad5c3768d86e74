"""The box as the ear finds it: what box and lining take away, what goes past both, and what no setting can break."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc import project as p
from calc.box.box import settle_box
from calc.results import Sound
from calc.sizing.absorption import KINDS, OCTAVES, TABLES, find_absorption, find_kind
from calc.sizing.judging import judge_sound
from calc.sizing.sound import USUAL_PAST_DB, describe_sound
from calc.sizing.sound_paths import find_plenum_share
from tests.shop import make_project


def hear(project: p.Project) -> Sound:
    found = describe_sound(settle_box(project))
    assert found is not None
    return found


def change(**changes: object) -> Sound:
    """Return the sound of the boatshed with its blower changed."""
    project = make_project()
    return hear(replace(project, blower=replace(project.blower, **changes)))  # type: ignore[arg-type]


def test_box_and_lining_together_take_what_is_printed_for_both() -> None:
    found = hear(make_project())
    assert found.lining is not None
    assert found.box.best + found.lining.best == pytest.approx(found.quieter.best, abs=1e-9)
    assert found.before.level_db - found.after.level_db == pytest.approx(found.quieter.best, abs=1e-9)
    for band in (found.box, found.lining, found.quieter):
        assert 0 <= band.low < band.best < band.high


def test_a_bare_box_claims_nothing_for_a_lining() -> None:
    bare, lined = hear(make_project(lining=None)), hear(make_project())
    assert bare.lining is None
    assert bare.quieter == bare.box
    assert bare.box.best == pytest.approx(lined.box.best, abs=1e-9)
    assert all(band.bare_db == band.after_db for band in bare.bands)


def test_no_box_takes_away_what_goes_past_it() -> None:
    """A perfect lining on every face, in the whole band, stays above the level of casing, motor and ducts."""
    perfect = p.Lining("perfect", 25.0, p.FACES, absorption=dict.fromkeys(OCTAVES, 1.2))
    found = hear(make_project(lining=perfect))
    assert found.quieter.best < USUAL_PAST_DB.best
    assert found.quieter.high < USUAL_PAST_DB.high


def test_a_measured_level_past_the_box_takes_the_place_of_the_usual_one() -> None:
    usual, quiet, loud = (
        change(),
        change(past_box_db=66.0, past_box_at_m=5 * 0.3048),
        change(past_box_db=84.0, past_box_at_m=5 * 0.3048),
    )
    assert not usual.past_measured
    assert quiet.past_measured
    assert quiet.past_below.best == pytest.approx(20.0)
    assert loud.past_below.best == pytest.approx(2.0)
    assert loud.quieter.best < 2.0 < usual.quieter.best < quiet.quieter.best
    assert loud.quieter.high - loud.quieter.low < usual.quieter.high - usual.quieter.low
    nearer = change(past_box_db=76.0, past_box_at_m=5 * 0.3048 / 2)
    assert nearer.past_below.best == pytest.approx(10.0 + 3.01, abs=0.01)  # half as far away, 3 dB louder there


def test_thinner_panels_let_more_through() -> None:
    project = make_project()
    thin = replace(project, box=replace(project.box, panel=replace(project.box.panel, thickness_mm=4.0)))
    assert hear(thin).quieter.best < hear(project).quieter.best - 0.5


def test_a_lining_never_makes_a_band_louder() -> None:
    """Carpet takes less at 125 Hz than bare board does, which goes on swinging behind it."""
    for band in hear(make_project()).bands:
        assert band.after_db <= band.bare_db + 1e-9


def test_no_more_leaves_a_box_than_enters_it() -> None:
    for absorbing in (1e-6, 0.1, 1.0, 2.0):
        assert 0 < find_plenum_share(0.1, 2.0, absorbing, 0.5) <= 1
    for absorbing in (0.0, 2.1):
        with pytest.raises(ValueError, match="absorbs"):
            find_plenum_share(0.1, 2.0, absorbing, 0.5)


def test_each_kind_of_lining_is_taken_from_tables_that_are_there() -> None:
    assert {name for names in KINDS.values() for name in names} == set(TABLES)
    for kind in KINDS:
        for hz in OCTAVES:
            band = find_absorption(kind, hz)
            assert 0 < band.low <= band.best <= band.high <= 1
    named = ("1 in foam", 25.0), ("foam", 12.7), ("carpet underlay", 12.0), ("pile carpet", 12.0), ("cork", 5.0)
    assert [find_kind(*each) for each in named] == ["foam", "thin foam", "carpet on felt", "carpet", "board"]
    assert find_absorption("carpet", 500, {500: 0.9}).low == 0.9


def test_the_days_noise_is_unsure_as_far_as_the_box_is() -> None:
    """Alone, without other machines, what the box may take more or less decides; beside a loud planer 3 dB do."""
    project = make_project()
    alone = hear(replace(project, noise=p.Noise(hours_a_day=4.0)))
    told = judge_sound(alone)
    assert told.value
    assert told.high
    assert told.high.value / told.value.value == pytest.approx(2 ** ((alone.together.high - alone.together.best) / 3))
    beside = hear(replace(project, noise=p.Noise(others=(p.NoiseSource("planer", 100.0),))))
    told = judge_sound(beside)
    assert told.value
    assert told.high
    assert told.high.value / told.value.value == pytest.approx(2.0)

"""Sound at the operator's ear: what the box takes away, what the lining adds to that, and what goes past both."""

from __future__ import annotations

import math
from itertools import product

from calc.finding import Band
from calc.project import Aired, Blower
from calc.results import Sound, SoundBand
from calc.settled import Settled
from calc.sizing.absorption import OCTAVES, find_kind
from calc.sizing.hearing import add_levels, expose, find_protection
from calc.sizing.sound_paths import Plenum, Ways, Which, bare_plenum, find_ways, measure_plenum

A_WEIGHTS = (-16.1, -8.6, -3.2, 0.0, 1.2, 1.0)  # dB at those bands, IEC 61672-1 (from memory)

USUAL_SPECTRUM = (-16.0, -9.0, -5.5, -5.0, -7.0, -12.0)
"""A-weighted octave levels of a centrifugal blower, shifted to its A-weighted total: common practice, no source."""

USUAL_PAST_DB = Band(5.0, 10.0, 15.0)
"""How far below the whole is what casing, motor and ducts send past any box: common practice, no source. It is taken
where the file has no measured level (blower, past_box), and no box can take away more than this."""

PAST_SURE_DB = 2.0
"""What a measured level past the box is good for [dB]: a plain meter in a shop; common practice, no source."""

BY_CORNER: tuple[Which, Which] = ("low", "high")
BEST: tuple[Which, Which, Which] = ("best", "best", "best")
LEAST_EAR_M = 0.3


def fall_with_distance(ear_m: float, measured_at_m: float) -> float:
    """Return by how much [dB] a level at the ear is below the one measured nearer: indoors about 3 dB when the distance
    doubles (common practice, no source)."""
    return 10 * math.log10(max(ear_m, LEAST_EAR_M) / measured_at_m)


def find_spectrum(blower: Blower, away_db: float) -> tuple[dict[int, float], bool]:
    """Return the blower's A-weighted octave levels at the ear, and whether any band is that of a usual blower.

    A band that the file leaves out is as loud as a usual blower's, never silent.
    """
    assert blower.sound_db is not None
    shift = blower.sound_db - away_db - add_levels(USUAL_SPECTRUM)
    usual = {hz: level + shift for hz, level in zip(OCTAVES, USUAL_SPECTRUM, strict=True)}
    weigh = dict(zip(OCTAVES, A_WEIGHTS, strict=True))
    given = {hz: level - away_db + weigh[hz] for hz, level in blower.sound_bands_db.items() if hz in weigh}
    return usual | given, len(given) < len(OCTAVES)


def find_past(blower: Blower, before_db: float, ear_m: float) -> Band:
    """Return how far [dB] below the whole, at the ear, is what goes past the box: low is the louder.

    before_db: the whole at the ear. What goes past is never louder than the whole.
    """
    if blower.past_box_db is None or blower.past_box_at_m is None:
        return USUAL_PAST_DB
    best = before_db - (blower.past_box_db - fall_with_distance(ear_m, blower.past_box_at_m))
    return Band(max(0.0, best - PAST_SURE_DB), max(0.0, best), max(0.0, best + PAST_SURE_DB))


def leave(level_db: float, taken_db: float, past_db: float) -> float:
    """Return what is left of a level [dB]: all but the part past the box is brought down, and that part is added."""
    past = 10 ** (-past_db / 10)
    return level_db + 10 * math.log10((1 - past) * 10 ** (-taken_db / 10) + past)


class _Heard:
    """The box with its lining and bare, heard with any set of coefficients."""

    def __init__(self, project: Settled, source: dict[int, float], past: Band) -> None:
        lining, self.source, self.past = project.lining, source, past
        self.kind = find_kind(lining.stock, lining.thickness_mm) if lining else "board"
        self.given = dict(lining.absorption) if lining else {}
        self.lined = measure_plenum(project)
        self.bare = bare_plenum(self.lined)

    def find_ways(self, plenum: Plenum, hz: int, which: tuple[Which, Which, Which]) -> Ways:
        return find_ways(plenum, self.kind, self.given, hz, which)

    def find_left(self, plenum: Plenum, which: tuple[Which, Which, Which], past_db: float) -> float:
        """Return the level [dBA] that all bands leave at the ear."""
        return add_levels(
            leave(level, self.find_ways(plenum, hz, which).taken_db, past_db) for hz, level in self.source.items()
        )

    def find_taken(self) -> tuple[Band, Band, Band]:
        """Return what the bare box takes away at the ear, what the lining adds, and both [dB].

        Low and high: the least and the most of every set of coefficients, of equations and of what goes past.
        """
        before, found = add_levels(self.source.values()), []
        corners = [(which, past) for *which, past in product(BY_CORNER, repeat=4)]
        sets = [((a, b, c), getattr(self.past, past)) for (a, b, c), past in corners]
        for which, past_db in [(BEST, self.past.best), *sets]:
            bare = self.find_left(self.bare, which, past_db)
            lined = self.find_left(self.lined, which, past_db)
            found.append((before - bare, bare - lined, before - lined))
        return tuple(Band(min(row), row[0], max(row)) for row in zip(*found, strict=True))  # type: ignore[return-value]


def describe_sound(project: Aired) -> Sound | None:
    """Return the sound at the operator's ear before and after the box; None where the file gives no level.

    Lining and box are told apart: the bare box first, then what the lining adds to it.
    """
    blower, noise = project.blower, project.noise
    if blower.sound_db is None:
        return None
    away = fall_with_distance(noise.ear_m, blower.sound_at_m or noise.ear_m)
    source, assumed = find_spectrum(blower, away)
    before = add_levels(source.values())
    past = find_past(blower, before, noise.ear_m)
    if not isinstance(project, Settled):
        return _describe_alone(project, source, assumed, past)
    heard = _Heard(project, source, past)
    box, lining, quieter = heard.find_taken()
    bands = []
    for hz, level in source.items():
        ways = heard.find_ways(heard.lined, hz, BEST)
        bare = leave(level, heard.find_ways(heard.bare, hz, BEST).taken_db, past.best)
        after = leave(level, ways.taken_db, past.best)
        bands.append(
            SoundBand(
                hz=hz,
                before_db=level,
                bare_db=bare,
                after_db=after,
                absorbing_m2=ways.absorbing_m2,
                filters_db=ways.filters_db,
                panels_db=ways.panels_db,
                taken_db=ways.taken_db,
            )
        )
    after = before - quieter.best
    others = [other.level_db for other in noise.others]
    together = Band(*(add_levels([before - taken, *others]) for taken in (quieter.high, quieter.best, quieter.low)))
    spared = find_protection(noise.protector) if noise.protector else 0.0
    hours = noise.hours_a_day
    return Sound(
        bands=tuple(bands),
        before=expose(before, hours),
        after=expose(after, hours),
        with_others=expose(together.best, hours),
        together=together,
        box=box,
        lining=lining if project.lining else None,
        quieter=quieter,
        past_below=past,
        past_measured=blower.past_box_db is not None,
        hours_a_day=hours,
        spectrum_assumed=assumed,
        lowest_hz=heard.lined.lowest_hz,
        protected=expose(together.best - spared, hours) if noise.protector else None,
        protection_db=spared,
        protector=noise.protector,
    )


def _describe_alone(project: Aired, source: dict[int, float], assumed: bool, past: Band) -> Sound:
    """Return the sound of a collector without a box: nothing is taken away."""
    noise, none = project.noise, Band(0.0, 0.0, 0.0)
    bands = tuple(
        SoundBand(
            hz=hz, before_db=level, bare_db=level, after_db=level, absorbing_m2=0.0, filters_db=0.0, panels_db=0.0,
            taken_db=0.0,
        )
        for hz, level in source.items()
    )  # fmt: skip
    before = add_levels(source.values())
    together = add_levels([before, *(other.level_db for other in noise.others)])
    spared = find_protection(noise.protector) if noise.protector else 0.0
    hours = noise.hours_a_day
    return Sound(
        bands=bands,
        before=expose(before, hours),
        after=expose(before, hours),
        with_others=expose(together, hours),
        together=Band(together, together, together),
        box=none,
        lining=None,
        quieter=none,
        past_below=past,
        past_measured=project.blower.past_box_db is not None,
        hours_a_day=hours,
        spectrum_assumed=assumed,
        lowest_hz=0.0,
        protected=expose(together - spared, hours) if noise.protector else None,
        protection_db=spared,
        protector=noise.protector,
    )

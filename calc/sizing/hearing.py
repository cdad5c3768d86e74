"""Hearing: sums of levels, loudness, the hours a day a level allows, and what a protector takes away."""

from __future__ import annotations

import math
from collections.abc import Iterable

from calc.project import Protector
from calc.results import Exposure


def add_levels(levels_db: Iterable[float]) -> float:
    """Return the sum of levels [dB]: 10 log10 of the sum of 10^(L/10). Minus infinity for none."""
    total = sum(10 ** (level / 10) for level in levels_db)
    return 10 * math.log10(total) if total > 0 else -math.inf


def find_sones(level_phon: float) -> float:
    """Return loudness [sone]: 2^((L - 40)/10) from 40 phon up (Stevens, ISO 131); below, (L/40)^2.642 (from memory).

    Phon is the level of an equally loud 1 kHz tone. A level in dBA handed in instead gives an approximate figure.
    """
    if level_phon >= 40:
        return float(2 ** ((level_phon - 40) / 10))
    return float((max(level_phon, 0.0) / 40) ** 2.642)


def find_niosh_hours(level_db: float) -> float:
    """Return the hours a day at a level [dBA]: 8 / 2^((L - 85)/3), NIOSH 98-126."""
    return float(8 / 2 ** ((level_db - 85) / 3))


def find_osha_hours(level_db: float) -> float:
    """Return the hours a day at a level [dBA]: 8 / 2^((L - 90)/5), 29 CFR 1910.95 Appendix A."""
    return float(8 / 2 ** ((level_db - 90) / 5))


DERATED = {"earmuffs": 0.75, "formable plugs": 0.50, "other plugs": 0.30}
"""Share of a protector's rating that is left in a workplace (NIOSH 98-126, hearing protectors, from memory)."""

WEIGHTING_DB = 7.0
"""Taken off a rating where the level is A-weighted (29 CFR 1910.95 Appendix B; NIOSH 98-126; from memory)."""

OSHA_FIELD = 0.5
"""Of what is left of a rating after the weighting, for use in the field (OSHA Technical Manual, from memory)."""

SNR_OVER_NRR_DB = 6.0
"""An SNR is so much larger than the same protector's NRR: it takes one standard deviation off the mean (ISO 4869-2),
an NRR two, about 3 dB more, and 3 dB for unlike spectra (40 CFR 211 subpart B; both from memory)."""


def find_protection(protector: Protector) -> float:
    """Return the level [dB] a protector takes away in a shop from an A-weighted level; never below 0.

    The smaller of two field estimates from the rating R: NIOSH 98-126, R times the share left less 7 dB; OSHA,
    (R - 7)/2. Both are made for an NRR; an SNR, which is larger, is first brought down to one.
    """
    rating = protector.rating_db - (SNR_OVER_NRR_DB if protector.rating_is == "SNR" else 0.0)
    niosh, osha = rating * DERATED[protector.kind] - WEIGHTING_DB, (rating - WEIGHTING_DB) * OSHA_FIELD
    return max(0.0, min(niosh, osha))


def expose(level_db: float, hours: float) -> Exposure:
    """Return what a level at the ear means for a day with these hours."""
    niosh, osha = find_niosh_hours(level_db), find_osha_hours(level_db)
    return Exposure(
        level_db=level_db,
        sones=find_sones(level_db),
        niosh_h=niosh,
        osha_h=osha,
        niosh_share=hours / niosh,
        osha_share=hours / osha,
    )

"""Sound: what the lined box takes away by octave band, levels, loudness, and the hours a day they allow."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from calc.airflow.ducts import find_area
from calc.finding import say
from calc.project import Lining, Protector
from calc.results import Exposure, Sound, SoundBand
from calc.settled import PlacedPort, Settled, SizedBox

OCTAVES = (125, 250, 500, 1000, 2000, 4000)
A_WEIGHTS = (-16.1, -8.6, -3.2, 0.0, 1.2, 1.0)  # dB at those bands, IEC 61672-1 (from memory)
SOUND_SPEED = 343.0

# Absorption by octave band, 125 Hz to 4 kHz. Tables as in check-values: general tables of absorption (read).
ABSORPTION: dict[str, tuple[float, ...]] = {
    "carpet": (0.02, 0.06, 0.14, 0.37, 0.60, 0.65),  # heavy carpet on a hard ground
    "carpet on felt": (0.08, 0.24, 0.57, 0.69, 0.71, 0.73),
    "foam": (0.13, 0.22, 0.68, 1.00, 0.92, 0.97),  # polyurethane foam, 1 in
    "thin foam": (0.09, 0.11, 0.22, 0.60, 0.88, 0.94),  # 1/2 in
    "board": (0.28, 0.22, 0.17, 0.09, 0.10, 0.11),  # plywood panel 3/8 in (from memory)
}
# A-weighted octave levels of a centrifugal blower, to be shifted to its A-weighted total: common practice, no source.
USUAL_SPECTRUM = (-16.0, -9.0, -5.5, -5.0, -7.0, -12.0)
# Share of the level that comes from casing and motor and that no box touches: 8 dB below the whole. Set so that no
# lined box is promised more than the 5 to 8 dB that shops report: common practice, no source.
CASING_BELOW_DB = 8.0


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


def find_plenum_loss(
    absorption: float, surface_m2: float, outlet_m2: float, distance_m: float, angle_deg: float, corner: bool = False
) -> float:
    """Return the level [dB] a lined box takes away.

    -10 log10(S_out (Q cos(angle) / (4 pi r^2) + (1 - a) / (S a))), Q 2, or 4 for an inlet at an edge: R. J. Wells,
    Noise Control, July 1958; ASHRAE Handbook HVAC Applications, sound. Within 3 dB where the wave is shorter than the
    box; real boxes take 5 to 10 dB more at low frequency. Never below 0. Raises ValueError for absorption outside
    0 to 1.
    """
    if not 0 < absorption <= 1:
        raise ValueError("absorption lies above 0 and up to 1")
    q = 4 if corner else 2
    direct = q * math.cos(math.radians(angle_deg)) / (4 * math.pi * distance_m**2)
    through = outlet_m2 * (max(direct, 0.0) + (1 - absorption) / (surface_m2 * absorption))
    return max(0.0, -10 * math.log10(through))


def find_absorption(stock: str, thickness_mm: float, given: Mapping[int, float], hz: int) -> float:
    """Return the absorption of a lining by its name (carpet, felt, foam), or as the file gives it."""
    if hz in given:
        return given[hz]
    name = stock.lower()
    if "foam" in name:
        row = "thin foam" if thickness_mm < 20 else "foam"
    elif "felt" in name or "pad" in name or "underlay" in name:
        row = "carpet on felt"
    elif "carpet" in name:
        row = "carpet"
    else:
        row = "board"
    return ABSORPTION[row][OCTAVES.index(hz)]


def find_faces(box: SizedBox) -> dict[str, float]:
    """Return the inside area [m2] of each face."""
    w, d, h = (box.width_mm / 1000, box.depth_mm / 1000, box.height_mm / 1000)
    return {"top": w * d, "bottom": w * d, "front": w * h, "back": w * h, "left": d * h, "right": d * h}


def find_mean_absorption(box: SizedBox, lining: Lining | None, hz: int) -> float:
    """Return the absorption of the box, averaged over its faces by area."""
    areas = find_faces(box)
    total = 0.0
    for face, area in areas.items():
        if lining is not None and face in lining.faces:
            total += area * find_absorption(lining.stock, lining.thickness_mm, lining.absorption, hz)
        else:
            total += area * ABSORPTION["board"][OCTAVES.index(hz)]
    return total / sum(areas.values())


def find_path(box: SizedBox, ports: tuple[PlacedPort, ...]) -> tuple[float, float]:
    """Return the distance [m] from inlet to nearest filter opening, and the angle [deg] off the inlet's axis."""
    w, d, h = box.width_mm, box.depth_mm, box.height_mm
    inlet = _place(box.inlet.face, box.inlet.across_mm, box.inlet.up_mm, w, d, h)
    axis = {"left": (1, 0, 0), "right": (-1, 0, 0), "front": (0, 1, 0), "back": (0, -1, 0), "top": (0, 0, -1)}
    ahead = axis.get(box.inlet.face, (0, 0, 1))
    best = (math.hypot(w, h) / 2000, 45.0)
    found = []
    for port in ports:
        if port.kind != "filter":
            continue
        outlet = _place(port.face, port.across_mm, port.up_mm, w, d, h)
        way = [b - a for a, b in zip(inlet, outlet, strict=True)]
        distance = math.hypot(*way)
        if distance > 0:
            along = sum(a * b for a, b in zip(way, ahead, strict=True)) / distance
            found.append((distance / 1000, math.degrees(math.acos(max(-1.0, min(1.0, along))))))
    return min(found, default=best)


def _place(face: str, a: float, u: float, w: float, d: float, h: float) -> tuple[float, float, float]:
    """Return a point of a face (seen from outside, from its lower left) in the box: x right, y back, z up."""
    return {
        "front": (a, 0.0, u),
        "back": (w - a, d, u),
        "left": (0.0, d - a, u),
        "right": (w, a, u),
        "top": (a, u, h),
        "bottom": (a, d - u, 0.0),
    }[face]


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


@dataclass(frozen=True)
class Plenum:
    """The box as the lined-plenum equation sees it."""

    outlet_m2: float
    surface_m2: float
    distance_m: float
    angle_deg: float


def measure_plenum(project: Settled) -> Plenum:
    """Return the box's openings, inside area, and the way from inlet to the nearest filter."""
    outlet = sum(f.count * find_area(f.bore_mm / 1000) for f in project.filters)
    distance, angle = find_path(project.box, project.ports)
    return Plenum(outlet, sum(find_faces(project.box).values()), distance, angle)


def describe_sound(project: Settled) -> Sound | None:
    """Return the sound at the operator's ear before and after the lined box; None where the file gives no level."""
    blower, box, noise = project.blower, project.box, project.noise
    if blower.sound_db is None:
        return None
    # Indoors a level falls by about 3 dB when the distance doubles: common practice, no source.
    away = 10 * math.log10(max(noise.ear_m, 0.3) / (blower.sound_at_m or noise.ear_m))
    at_ear = blower.sound_db - away
    shift = at_ear - add_levels(USUAL_SPECTRUM)
    source = {hz: level + shift for hz, level in zip(OCTAVES, USUAL_SPECTRUM, strict=True)}
    weigh = dict(zip(OCTAVES, A_WEIGHTS, strict=True))
    given = {hz: level - away + weigh[hz] for hz, level in blower.sound_bands_db.items() if hz in weigh}
    source |= given  # a band the file leaves out is as loud as a usual blower's, never silent
    plenum = measure_plenum(project)
    bands = []
    for hz, level in source.items():
        mean = find_mean_absorption(box, project.lining, hz)
        taken = find_plenum_loss(mean, plenum.surface_m2, plenum.outlet_m2, plenum.distance_m, plenum.angle_deg)
        casing = level - CASING_BELOW_DB
        through = add_levels((level,)) + 10 * math.log10(1 - 10 ** (-CASING_BELOW_DB / 10)) - taken
        after = add_levels((through, casing))
        bands.append(SoundBand(hz, level, level - after, after, mean))
    before, after = add_levels(b.before_db for b in bands), add_levels(b.after_db for b in bands)
    together = add_levels([after, *(other.level_db for other in noise.others)])
    lowest = SOUND_SPEED / (min(box.width_mm, box.depth_mm, box.height_mm) / 1000)
    spared = find_protection(noise.protector) if noise.protector else 0.0
    protected = expose(together - spared, noise.hours_a_day) if noise.protector else None
    note = say("sound.note", below=f"{CASING_BELOW_DB:.0f}")
    return Sound(
        bands=tuple(bands),
        before=expose(before, noise.hours_a_day),
        after=expose(after, noise.hours_a_day),
        with_others=expose(together, noise.hours_a_day),
        quieter_db=before - after,
        hours_a_day=noise.hours_a_day,
        spectrum_assumed=len(given) < len(OCTAVES),
        lowest_hz=lowest,
        note=note,
        protected=protected,
        protection_db=spared,
        protector=noise.protector,
    )

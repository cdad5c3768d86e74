"""Dust: how much is made, where it ends up, how much of it the pleats and the pails hold, and for how long.

Each figure is a band: what the file gives is taken as it is, what it leaves open is taken as usual and spreads widely.
"""

from __future__ import annotations

import math

from calc.airflow.separator import find_capture
from calc.finding import Band
from calc.guess import SURE, multiply
from calc.project import Aired, Boxed, Filter, Given, Pail
from calc.trade import EMPTY_AT

USUAL_BULK = Band(115.0, 190.0, 270.0)
"""Wood dust as it lies [kg/m3]: fine dust 12 lb/ft3, 40 % either way (common practice, no source). Hardwood shavings
173, dry furniture waste 251: Harris and Phillips, Density of Selected Wood Fuels, Georgia Forest Research Paper 61."""

USUAL_FILL = Band(0.10, 0.20, 0.35)
"""Share of the ring between bore and outside that dust fills before pleats bridge: half of the ring is the clean side,
and cloth takes its part of the rest (common practice, no source)."""

TO_PLEATS = {
    "none": Band(0.05, 0.15, 0.40),
    "drop box": Band(0.40, 0.70, 0.90),
    "cyclone": Band(0.50, 0.80, 0.95),
}
"""Share of the dust that comes into the box and clings to the pleats; the rest falls into the catch pails. Without a
separator that rest is chips (common practice, no source)."""

MADE_GIVEN, MADE_ASSUMED = Band(0.8, 1.0, 1.25), Band(0.5, 1.0, 2.0)
PAST_GIVEN, PAST_ASSUMED = Band(0.67, 1.0, 1.5), Band(0.5, 1.0, 2.5)
"""How far the dust made, and the dust that gets past the separator, may lie from what is told: by the file, and where
nobody told it (common practice, no source)."""

USUAL_BIN_M3 = 0.114
"""A 30 gal drum, where the file does not tell the separator's bin (common practice, no source)."""

# --- what is made, and where it goes ----------------------------------------------------------------------------------


def find_made_rate(project: Aired) -> float:
    """Return the dust [kg/s] made while machines run: the shop's own figure.

    Where that was only assumed and machines have figures of their own, their mean: they take turns (common practice,
    no source).
    """
    known = [machine.dust_kgs for machine in project.machines if machine.dust_kgs is not None]
    if known and project.is_assumed("dust.made"):
        return sum(known) / len(known)
    return project.dust.made_kgs


def find_box_rate(project: Aired) -> Band:
    """Return the dust [kg/s] that comes past the separator into the box while machines run."""
    capture = find_capture(project.separator)
    made = find_made_rate(project) * (1 - capture.share)
    past = SURE if project.separator.kind == "none" else PAST_ASSUMED if capture.assumed else PAST_GIVEN
    spread = multiply(MADE_ASSUMED if project.is_assumed("dust.made") else MADE_GIVEN, past)
    return Band(made * spread.low, made, made * spread.high)


def find_pleat_share(project: Aired) -> Band:
    """Return the share of the dust in the box that clings to the pleats."""
    told = project.dust.to_pleats
    return TO_PLEATS[project.separator.kind] if told is None else Band(told, told, told)


def find_pleat_rate(project: Aired) -> Band:
    """Return the dust [kg/s] that lays itself on the pleats while machines run."""
    return multiply(find_box_rate(project), find_pleat_share(project))


def find_bulk(project: Given) -> Band:
    """Return how heavy dust lies [kg/m3]."""
    told = project.dust.bulk_kgm3 if project.dust else None
    return USUAL_BULK if told is None else Band(told, told, told)


# --- what the pleats hold ---------------------------------------------------------------------------------------------


def find_ring(filter_: Filter) -> float:
    """Return the volume [m3] between bore and outside of one filter, cloth and air and dust together."""
    return math.pi / 4 * (filter_.outside_mm**2 - filter_.bore_mm**2) * filter_.height_mm / 1e9


def find_room(filter_: Filter, bulk: Band) -> Band:
    """Return the dust [kg/m2] that the pleats of one kind of filter have room for."""
    told = filter_.dust_fills
    fills = USUAL_FILL if told is None else Band(told, told, told)
    each = find_ring(filter_) / filter_.media_m2
    return multiply(Band(each, each, each), fills, bulk)


def find_most_load(project: Aired | Boxed) -> Band:
    """Return the dust [kg/m2] at which the first kind of filter is full, whichever kind that is."""
    rooms = [find_room(each, find_bulk(project)) for each in project.filters]
    return min(rooms, key=lambda room: (room.best, room.low, room.high))


def find_hours_band(areal: Band, media_m2: float, rate: Band) -> Band | None:
    """Return the hours of machines running until a load [kg/m2] lies on the media; None where no dust comes."""
    if rate.best <= 0 or areal.best <= 0:
        return None
    seconds = multiply(areal, Band(media_m2, media_m2, media_m2), over=(rate,))
    return Band(seconds.low / 3600, seconds.best / 3600, seconds.high / 3600)


# --- pails and bins ---------------------------------------------------------------------------------------------------


def find_pail_volume(pail: Pail, level: float = 1.0) -> float:
    """Return the volume [m3] of a pail up to a share of its height: the frustum of a cone, by its outside."""
    r, s = pail.bottom_mm / 2000, pail.top_mm / 2000
    s = r + (s - r) * level
    height = pail.height_mm / 1000 * level
    return math.pi * height * (r * r + r * s + s * s) / 3


def weigh_pail_dust(project: Given, pail: Pail) -> float:
    """Return the dust [kg] in a catch pail at the level where it is emptied."""
    return find_pail_volume(pail, EMPTY_AT) * find_bulk(project).best


def list_pail_rates(project: Aired, shares: tuple[float, ...]) -> dict[str, Band]:
    """Return the dust [kg/s] that falls into the pail under each filter port, by its name.

    shares: part of the air that one filter of each kind takes, in the order of the kinds: dust comes as air does.
    """
    cling = find_pleat_share(project)
    falls = Band(max(1 - cling.high, 0.02), max(1 - cling.best, 0.02), max(1 - cling.low, 0.02))
    rate = multiply(find_box_rate(project), falls)
    by_kind = dict(zip((each.name for each in project.filters), shares, strict=True))
    parts = {p.name: by_kind[project.get_filter(p).name] for p in project.ports if p.kind == "filter"}
    return {
        name: Band(rate.low * part, rate.best * part, rate.high * part) for name, part in parts.items() if rate.best > 0
    }


def find_bin_rate(project: Aired) -> Band:
    """Return the dust [kg/s] that the separator drops into its bin."""
    kept = find_made_rate(project) * find_capture(project.separator).share
    spread = MADE_ASSUMED if project.is_assumed("dust.made") else MADE_GIVEN
    return Band(kept * spread.low, kept, kept * spread.high)


def find_fill_hours(volume_m3: float, project: Aired, rate: Band) -> Band | None:
    """Return the hours of machines running until a volume is full of dust; None where no dust comes."""
    held = multiply(Band(volume_m3, volume_m3, volume_m3), find_bulk(project))
    return find_hours_band(held, 1.0, rate)

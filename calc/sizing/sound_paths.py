"""The ways by which sound that enters the filter box leaves it: through the filters, and through panels and lids."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from calc.airflow.ducts import find_area
from calc.airflow.filters import find_clean_resistance
from calc.finding import Band
from calc.project import FACES, Face, Filter
from calc.settled import PlacedPort, Settled, SizedBox
from calc.sizing.absorption import find_absorption
from calc.stock import find_stock

Which = Literal["low", "best", "high"]

SOUND_SPEED = 343.0
"""In air of 20 degC [m/s]."""

AIR_RAYL = 413.0
"""Density of air times the speed of sound in it, at 20 degC [Pa s/m]."""

FIELD_DB = 47.0
"""Mass law for sound from many sides: 20 log10(kg/m2 x Hz) less this [dB] (Beranek and Ver, Noise and Vibration Control
Engineering, from memory)."""

WOOD_CEILING_DB = Band(19.0, 25.0, 28.0)
"""A wood panel insulates no better than this from 125 Hz to 4 kHz, as it bends in step with the sound. Low: plateau of
fir plywood, L. L. Beranek, Noise Reduction, 1960; best and high: 3/4 in plywood at 2 and 1 kHz, NIOSH, Industrial Noise
Control Manual, 1978 (all from memory)."""

LAW_DB = 3.0
"""What the mass law may miss either way [dB]: common practice, no source."""

LID_DENSITY = 950.0
"""Polyethylene of pails and lids [kg/m3], from memory."""

PLENUM_DB = 3.0
"""What the lined-plenum equation is good for where the wave is shorter than the box [dB]: Handbook for Sound Engineers,
note to its equation 4-6 of section 4.4.6."""

LONG_WAVE_DB = 10.0
"""What a real box may take beyond the equation where the wave is longer than the box (the same note: 5 to 10 dB)."""


@dataclass(frozen=True)
class Surface:
    """A part of the box's inside: its area [m2], and what covers it: the lining's kind or bare board."""

    area_m2: float
    lined: bool


@dataclass(frozen=True)
class Skin:
    """What stands between inside and room: area [m2], mass [kg/m2], and whether it is a wood panel."""

    area_m2: float
    mass_kgm2: float
    wooden: bool


@dataclass(frozen=True, kw_only=True)
class Plenum:
    """The box as the sound finds it.

    outlet_m2: filter openings; inlet_m2: duct; direct_per_m2: what of the inlet's sound meets a square metre of opening
    straight, cos(angle) / (2 pi r^2), mean of the openings
    filter_rayl: clean loss of a filter over the speed through its own cylinder [Pa s/m]
    """

    outlet_m2: float
    inlet_m2: float
    surfaces: tuple[Surface, ...]
    skins: tuple[Skin, ...]
    direct_per_m2: float
    filter_rayl: float
    lowest_hz: float

    @property
    def inside_m2(self) -> float:
        """All of the inside, openings too."""
        return self.outlet_m2 + self.inlet_m2 + sum(each.area_m2 for each in self.surfaces)


@dataclass(frozen=True)
class Ways:
    """Levels [dB] that a band loses by each way, and together; absorbing_m2: the inside as open window [m2]."""

    absorbing_m2: float
    filters_db: float
    panels_db: float
    taken_db: float


def find_plenum_share(outlet_m2: float, inside_m2: float, absorbing_m2: float, direct_per_m2: float) -> float:
    """Return the share of the sound entering a box that leaves by its outlets: at most 1.

    S_out (cos(angle) / (2 pi r^2) + (1 - a) / A), a = A/S: R. J. Wells, Noise Control, July 1958; ASHRAE Handbook, HVAC
    Applications, sound (from memory). absorbing_m2: A = sum of areas by their absorption, openings counted whole, as
    practice has it, so that no more leaves than enters. Raises ValueError where nothing or more than all is absorbed.
    """
    if not 0 < absorbing_m2 <= inside_m2 * (1 + 1e-9):
        raise ValueError("the inside absorbs more than nothing and no more than all")
    scattered = max(0.0, 1 - absorbing_m2 / inside_m2) / absorbing_m2
    return min(1.0, outlet_m2 * (direct_per_m2 + scattered))


def find_direct(distance_m: float, angle_deg: float) -> float:
    """Return what of a sound in a wall meets a square metre straight [1/m2]: cos(angle) / (2 pi r^2), angle off the
    normal of the outlet, whose opening is seen that much narrower (Wells 1958)."""
    return max(0.0, math.cos(math.radians(angle_deg))) / (2 * math.pi * distance_m**2)


def find_insulation(skin: Skin, hz: float, which: Which = "best") -> float:
    """Return the level [dB] that sound loses through a plate: mass law, below a wood panel's ceiling; never below 0.

    20 log10(m f) - 47 for sound from many sides (Beranek and Ver, from memory), 3 dB either way.
    """
    miss = {"low": -LAW_DB, "best": 0.0, "high": LAW_DB}[which]
    law = 20 * math.log10(skin.mass_kgm2 * hz) - FIELD_DB + miss
    return max(0.0, min(law, getattr(WOOD_CEILING_DB, which)) if skin.wooden else law)


def find_screen_loss(rayl: float) -> float:
    """Return the level [dB] that sound loses through a thin resisting layer: 20 log10(1 + r/(2 rho c)), from memory."""
    return 20 * math.log10(1 + rayl / (2 * AIR_RAYL))


def find_filter_rayl(filter_: Filter) -> float:
    """Return a clean filter's flow resistance over its inner cylinder [Pa s/m].

    Folded media lets sound through with the whole of its area.
    """
    cylinder = math.pi * filter_.bore_mm * filter_.height_mm / 1e6
    return find_clean_resistance(filter_) * cylinder / filter_.media_m2


def find_ways(plenum: Plenum, kind: str, given: dict[int, float], hz: int, which: tuple[Which, Which, Which]) -> Ways:
    """Return how an octave band leaves the box. which: set of absorption, of the plenum equation, of the panels."""
    absorbs, equation, panels = which
    bare = getattr(find_absorption("board", hz), absorbs)
    # the board behind a thin lining goes on swinging, and takes what it took bare
    lined = max(bare, getattr(find_absorption(kind, hz, given), absorbs))
    absorbing = plenum.outlet_m2 + plenum.inlet_m2
    absorbing += sum(each.area_m2 * (lined if each.lined else bare) for each in plenum.surfaces)
    share = find_plenum_share(plenum.outlet_m2, plenum.inside_m2, absorbing, plenum.direct_per_m2)
    best = find_screen_loss(plenum.filter_rayl) - 10 * math.log10(share)
    more = PLENUM_DB if hz >= plenum.lowest_hz else LONG_WAVE_DB
    by_filters = max(0.0, best + {"low": -PLENUM_DB, "best": 0.0, "high": more}[equation])
    # all that enters meets the walls at the end: each square metre takes 1/A of it, a plate lets its own share through
    through = sum(skin.area_m2 / absorbing * 10 ** (-find_insulation(skin, hz, panels) / 10) for skin in plenum.skins)
    through = min(1.0, through)
    together = min(1.0, 10 ** (-by_filters / 10) + through)
    return Ways(absorbing, by_filters, -10 * math.log10(through), -10 * math.log10(together))


def bare_plenum(plenum: Plenum) -> Plenum:
    """Return the same box without a lining."""
    return replace(plenum, surfaces=tuple(replace(each, lined=False) for each in plenum.surfaces))


def find_faces(box: SizedBox) -> dict[Face, float]:
    """Return the inside area [m2] of each face."""
    w, d, h = (box.width_mm / 1000, box.depth_mm / 1000, box.height_mm / 1000)
    return {"top": w * d, "bottom": w * d, "front": w * h, "back": w * h, "left": d * h, "right": d * h}


def find_paths(box: SizedBox, ports: tuple[PlacedPort, ...]) -> list[tuple[float, float]]:
    """Return distance [m] from the inlet, and angle [deg] off its own normal, of each filter opening, nearest first."""
    w, d, h = box.width_mm, box.depth_mm, box.height_mm
    inlet = _place(box.inlet.face, box.inlet.across_mm, box.inlet.up_mm, w, d, h)
    found = []
    for port in ports:
        if port.kind != "filter":
            continue
        outlet = _place(port.face, port.across_mm, port.up_mm, w, d, h)
        way = [b - a for a, b in zip(inlet, outlet, strict=True)]
        distance = math.hypot(*way)
        if distance > 0:
            along = sum(a * b for a, b in zip(way, OUTWARD[port.face], strict=True)) / distance
            found.append((distance / 1000, math.degrees(math.acos(max(-1.0, min(1.0, along))))))
    return sorted(found)


OUTWARD: dict[Face, tuple[int, int, int]] = {
    "left": (-1, 0, 0), "right": (1, 0, 0), "front": (0, -1, 0), "back": (0, 1, 0), "bottom": (0, 0, -1),
    "top": (0, 0, 1),
}  # fmt: skip


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


def measure_plenum(project: Settled) -> Plenum:
    """Return the box of a project as the sound finds it. Filters that hang from one opening leave by one opening."""
    box, lining = project.box, project.lining
    lined: tuple[Face, ...] = lining.faces if lining else ()
    count = sum(f.count for f in project.filters)
    bore = sum(f.count * find_area(f.bore_mm / 1000) for f in project.filters) / count
    paths = find_paths(box, project.ports)
    outlet = bore * len(paths or [count])
    inlet = find_area(box.inlet.diameter_mm / 1000)
    left = find_faces(box)
    left[box.inlet.face] -= inlet
    lids = []
    for port in project.ports:
        lid, opened = find_area(port.closure.lid_mm / 1000), bore if port.kind == "filter" else 0.0
        left[port.face] -= opened
        lids.append(Skin(max(0.0, lid - opened), LID_DENSITY * port.closure.lid_thick_mm / 1000, False))
    closed = sum(skin.area_m2 for skin in lids)
    mass = find_stock(box.panel).density * box.panel.thickness_mm / 1000
    return Plenum(
        outlet_m2=outlet,
        inlet_m2=inlet,
        surfaces=tuple(Surface(max(left[face], 0.0), face in lined) for face in FACES),
        skins=(Skin(max(0.0, sum(left.values()) - closed), mass, True), *lids),
        direct_per_m2=sum(find_direct(*path) for path in paths) / len(paths) if paths else 0.0,
        filter_rayl=sum(f.count * find_filter_rayl(f) for f in project.filters) / count,
        lowest_hz=SOUND_SPEED / (min(box.width_mm, box.depth_mm, box.height_mm) / 1000),
    )

"""The water gauge: liquids, kinds of manometer, what it can be read to, and how long its tube must be.

Pressures [Pa] become lengths [mm] along the scale that is read. Gravity is the standard 9.806 65 m/s2 (it varies by
0.3 % at most between shops, less than the eye can read).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from calc.trade import GRAVITY

SIGHTING_MM = 0.5
"""One sighting of a meniscus by eye (published working value, see tests). A reading is always two sightings."""

READ_WITHIN = 0.05
"""A clean reading is worth writing down when it can be read to this share (project design)."""

READ_COARSELY = 0.25
"""A clean reading that may be wrong by more than this share is no reading (project design)."""

SEEN_APART = 2.0
"""Two heights are told apart when they stand so many reading errors from each other: either may be wrong by one
(project design)."""

SLOPES = (1 / 2, 1 / 3, 1 / 4, 1 / 5, 1 / 6, 1 / 8, 1 / 10, 1 / 12, 1 / 15, 1 / 20)
"""Slopes worth making, rise over tube length. Flatter than 1 in 20 the board's own level spoils the reading."""

WELL_BORE_MM = 60.0
"""A jam jar as the well of a well or inclined gauge, when the project does not say (common practice, no source)."""

SURVIVES = 1.25
TUBE_SPARE_MM = 25.0

GaugeKind = Literal["u-tube", "u-tube one leg", "inclined", "well"]
Fluid = Literal["water", "dyed water", "glycol mix", "light oil"]

# Density at 20 °C [kg/m3] and share it loses a kelvin. From memory, good to 2 %: antifreeze mixed half and half,
# 1.05-1.08; light gauge oil 0.826. A shop that has a hydrometer should use its own.
_MIXES: dict[str, tuple[float, float]] = {"glycol mix": (1065.0, 4.5e-4), "light oil": (826.0, 8.0e-4)}


def find_water_density(temperature_k: float) -> float:
    """Return the density of water [kg/m3] at atmospheric pressure, from its temperature [K].

    Kell (1975), "Density, thermal expansivity, and compressibility of liquid water", J. Chem. Eng. Data 20(1),
    equation 16, from memory; it agrees with IAPWS-95 within 0.01 kg/m3 between 0 and 40 °C (tested). Below freezing
    and above 100 °C it raises ValueError: the gauge holds no liquid water.
    """
    t = temperature_k - 273.15
    if not 0.0 <= t <= 100.0:
        raise ValueError(f"water is not liquid at {t:.0f} °C")
    powers = (999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12)
    over = sum(factor * t**power for power, factor in enumerate(powers))
    return over / (1.0 + 16.879850e-3 * t)


def find_fluid_density(fluid: Fluid, temperature_k: float) -> float:
    """Return the density [kg/m3] of a gauge liquid at a temperature [K]. Dye and soap do not change water's.

    Raises ValueError for water that would be frozen or steam.
    """
    if fluid in ("water", "dyed water"):
        return find_water_density(temperature_k)
    at_20, expansion = _MIXES[fluid]
    return at_20 * (1.0 - expansion * (temperature_k - 293.15))


@dataclass(frozen=True)
class Instrument:
    """A manometer as it is read.

    density_kgm3: liquid less the air above it; slope: rise over length of an inclined tube (sine of its angle)
    area_ratio: bore of tube over bore of well, squared (0: the well does not sink noticeably)
    """

    kind: GaugeKind
    density_kgm3: float
    bore_mm: float
    slope: float = 1.0
    area_ratio: float = 0.0

    @property
    def mm_per_pa(self) -> float:
        """Travel along the scale of the leg that is read, each pascal.

        U-tube, difference of both legs: h = p / (rho g). One leg moves half of it. Inclined and well, with the well
        sinking by d2/D2 of the travel: p = rho g L (sin a + d2/D2). Mechanical Engineer's Data Handbook, p. 280,
        for U-tube and inclined; the exponents of the well correction from memory (ratio of areas).
        """
        column = 1000.0 / (self.density_kgm3 * GRAVITY)
        if self.kind == "u-tube":
            return column
        if self.kind == "u-tube one leg":
            return column / 2
        return column / (self.slope + self.area_ratio)


def find_travel(instrument: Instrument, pressure_pa: float) -> float:
    """Return how far [mm] along the scale a pressure stands; for a two-leg U-tube the sum of rise and fall."""
    return pressure_pa * instrument.mm_per_pa


def find_pressure(instrument: Instrument, travel_mm: float) -> float:
    """Return the pressure [Pa] of a travel [mm]; the inverse of find_travel."""
    return travel_mm / instrument.mm_per_pa


def find_leg_travel(instrument: Instrument, pressure_pa: float) -> float:
    """Return how far [mm] one meniscus stands from its still-air mark: half the sum for a two-leg U-tube."""
    return find_travel(instrument, pressure_pa) / (2 if instrument.kind == "u-tube" else 1)


def find_reading_error(instrument: Instrument) -> float:
    """Return what two sightings by eye may be wrong together [Pa].

    Two sightings of 0.5 mm: both legs, or still-air mark and reading. A U-tube read on one leg is twice as coarse.
    """
    return find_pressure(instrument, 2 * SIGHTING_MM)


def find_least_travel(share: float) -> float:
    """Return the travel [mm] below which two sightings are wrong by more than a share of the reading."""
    return 2 * SIGHTING_MM / share


def make_instrument(
    kind: GaugeKind,
    liquid_kgm3: float,
    air_kgm3: float,
    bore_mm: float,
    *,
    slope: float | None = None,
    well_bore_mm: float | None = None,
) -> Instrument:
    """Return the manometer. Slope only counts for an inclined one (None: 1 in 5); the well for inclined and well.

    Raises ValueError when the well is no wider than the tube, or the slope is not between 0 and 1.
    """
    if kind in ("u-tube", "u-tube one leg"):
        return Instrument(kind, liquid_kgm3 - air_kgm3, bore_mm)
    well = well_bore_mm or WELL_BORE_MM
    if well <= bore_mm:
        raise ValueError("the well must be wider than the tube")
    rise = 1.0 if kind == "well" else (slope or 1 / 5)
    if not 0.0 < rise <= 1.0:
        raise ValueError("a slope is between 0 and 1: rise over tube length")
    return Instrument(kind, liquid_kgm3 - air_kgm3, bore_mm, rise, (bore_mm / well) ** 2)


def advise_slope(instrument: Instrument, clean_pa: float, rise_pa: float = math.inf) -> float | None:
    """Return the steepest slope at which the clean reading can be read to 5 % and a rise above it can be seen.

    1.0: upright will do; None: none does. The tube then hangs on a well as wide as given, or a jar of 60 mm.
    """
    least, apart = find_least_travel(READ_WITHIN), find_least_travel(1 / SEEN_APART)

    def shows(instrument: Instrument) -> bool:
        return find_travel(instrument, clean_pa) >= least and find_travel(instrument, rise_pa) >= apart

    if shows(instrument):
        return 1.0
    ratio = instrument.area_ratio or (instrument.bore_mm / WELL_BORE_MM) ** 2
    for slope in SLOPES:
        inclined = replace(instrument, kind="inclined", slope=slope, area_ratio=ratio)
        if shows(inclined):
            return slope
    return None


@dataclass(frozen=True, kw_only=True)
class Tube:
    """The clear tube and what is in it [mm, m3].

    above_mm: straight up from the still-air mark, so that shut-off pressure does not blow liquid out
    below_mm: straight down, so that air is not blown through the bend; along_mm: along the slope of an inclined tube
    length_mm: clear tube in all, without the hose to the box; liquid_m3: to fill it to the still-air mark
    """

    above_mm: float
    below_mm: float
    along_mm: float
    length_mm: float
    liquid_m3: float
    highest_pa: float


def size_tube(instrument: Instrument, shut_off_pa: float, scale_mm: float, leg_gap_mm: float) -> Tube:
    """Return the tube that survives the blower's shut-off pressure with a quarter to spare.

    shut_off_pa: highest pressure the gauge can see; scale_mm: length of the printed scale on one side of zero;
    leg_gap_mm: between the legs of a U, for the bend.
    """
    column = SURVIVES * shut_off_pa * 1000.0 / (instrument.density_kgm3 * GRAVITY)
    area_m2 = math.pi / 4 * (instrument.bore_mm / 1000) ** 2
    if instrument.kind in ("u-tube", "u-tube one leg"):
        above = max(column / 2, scale_mm) + TUBE_SPARE_MM
        bend = math.pi * leg_gap_mm / 2
        return Tube(
            above_mm=above,
            below_mm=above,
            along_mm=0.0,
            length_mm=4 * above + bend,
            liquid_m3=area_m2 * (2 * above + bend) / 1000,
            highest_pa=shut_off_pa,
        )
    above = column + TUBE_SPARE_MM
    along = scale_mm + 2 * TUBE_SPARE_MM if instrument.kind == "inclined" else 0.0
    length = above + along + 2 * TUBE_SPARE_MM
    well_m2 = area_m2 / instrument.area_ratio
    liquid = well_m2 * (TUBE_SPARE_MM + column * instrument.area_ratio) / 1000 + area_m2 * 2 * TUBE_SPARE_MM / 1000
    return Tube(
        above_mm=above,
        below_mm=TUBE_SPARE_MM,
        along_mm=along,
        length_mm=length,
        liquid_m3=liquid,
        highest_pa=shut_off_pa,
    )

"""The separator before the blower: what it costs and what it lets through."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.airflow.air import STANDARD_DENSITY
from calc.airflow.fittings import Coefficient, look_up
from calc.airflow.items import Item
from calc.finding import say
from calc.project import Separator

USUAL_TURNS = 6.0  # effective turns of the air in a general-purpose cyclone (Lapple, from memory)
LONG_BODIES, CONE_BODIES = 2.0, 2.0
"""Length of barrel and cone over the body's diameter in Lapple's conventional cyclone (from memory)."""
USUAL_CAPTURE = {"cyclone": 0.98, "drop box": 0.85, "none": 0.0}  # by mass, chips and all: common practice, no source


@dataclass(frozen=True)
class Capture:
    """Share of the dust [0 to 1] that stays in the separator. assumed: the file does not say."""

    share: float
    assumed: bool


def find_capture(separator: Separator) -> Capture:
    """Return what the separator keeps, by mass."""
    if separator.captures is not None:
        return Capture(separator.captures, False)
    return Capture(USUAL_CAPTURE[separator.kind], separator.kind != "none")


def find_turns(separator: Separator) -> float:
    """Return the air's effective turns: the file's own; else from the body's diameter; else those usual.

    N = (barrel + cone / 2) / inlet height: Lapple, in C. D. Cooper and F. C. Alley, Air Pollution Control (from
    memory), with the barrel and cone that go with the body in the conventional cyclone. 1 to 20, as in the file.
    """
    if separator.turns is not None:
        return separator.turns
    if not separator.body_diameter_m or not separator.inlet_height_m:
        return USUAL_TURNS
    turns = (LONG_BODIES + CONE_BODIES / 2) * separator.body_diameter_m / separator.inlet_height_m
    return min(max(turns, 1.0), 20.0)


def find_inlet_diameter(separator: Separator, duct_m: float) -> float:
    """Return the round diameter [m] of the inlet's area; the duct's where the file does not say."""
    if separator.inlet_width_m and separator.inlet_height_m:
        return math.sqrt(4 * separator.inlet_width_m * separator.inlet_height_m / math.pi)
    return separator.inlet_diameter_m or duct_m


def make_separator_item(separator: Separator, duct_m: float) -> Item | None:
    """Return the separator's loss; None without one. duct_m: diameter of the duct into it."""
    if separator.kind == "none":
        return None
    what = say("separator.cyclone" if separator.kind == "cyclone" else "separator.drop_box")
    if separator.loss_pa is not None and separator.loss_at_m3s:
        k = separator.loss_pa / separator.loss_at_m3s**2
        return Item(
            what=what,
            section="separator",
            kind="part",
            diameter_m=None,
            resistance=(k, k, k),
            source="project file, square law",
        )
    at = find_inlet_diameter(separator, duct_m)
    if separator.coefficient is not None:
        c = separator.coefficient
        given = Coefficient(c, c, c, "upstream", "project file")
        return Item(
            what=what, section="separator", kind="part", diameter_m=at, coefficient=given, source="project file"
        )
    found = look_up(separator.kind)
    return Item(what=what, section="separator", kind="part", diameter_m=at, coefficient=found, source=found.source)


def find_cut_size(
    inlet_width_m: float,
    inlet_speed_ms: float,
    turns: float,
    viscosity_pas: float,
    particle_kgm3: float = 600.0,
    air_kgm3: float = STANDARD_DENSITY,
) -> float:
    """Return the particle size [m] a cyclone catches half of.

    d50 = sqrt(9 mu W / (2 pi N V (rho_p - rho))): Lapple 1951, in US EPA AP-42 and textbooks of air pollution control
    (from memory). An estimate for general-purpose proportions, dilute dust and round grains; wood dust is neither
    round nor dense, and small shop cyclones leak at the dust outlet, so expect coarser. particle_kgm3 is wood's own.
    """
    top = 9 * viscosity_pas * inlet_width_m
    return math.sqrt(top / (2 * math.pi * turns * inlet_speed_ms * (particle_kgm3 - air_kgm3)))

"""What hangs under the box, from ceiling to floor, and the room it takes to unscrew and tilt it out."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.project import Port, Project

CART_CLEARANCE_MM = 50.0
UNSCREW_SPARE_MM = 10.0
GASKET_SQUEEZED = 0.65  # of its thickness; 25 to 50 % squeeze is common practice, no source


@dataclass(frozen=True)
class StackPart:
    """One thing in the stack; bottom_mm and top_mm above the floor."""

    name: str
    bottom_mm: float
    top_mm: float

    @property
    def height_mm(self) -> float:
        """Return how tall it is."""
        return self.top_mm - self.bottom_mm


@dataclass(frozen=True)
class Stack:
    """The elevation at the deepest hanging port.

    hanging_mm: from the box's underside to the bottom of the pail; floor_gap_mm: from there to the floor
    drop_mm: drop needed to unscrew the top lid; tilt_mm: extra height filter and pail take when tipped over in place
    """

    ceiling_mm: float
    ceiling_gap_mm: float
    box_top_mm: float
    box_bottom_mm: float
    parts: tuple[StackPart, ...]
    hanging_mm: float
    floor_gap_mm: float
    drop_mm: float
    tilt_mm: float
    pail_off_tilt_mm: float


def list_hanging(project: Project, port: Port) -> list[tuple[str, float]]:
    """Return what hangs under a filter port as (name, height [mm]) from the panel down."""
    closure = port.closure
    filter_ = project.filters[0]
    gasket = GASKET_SQUEEZED * filter_.gasket_thick_mm
    return [
        ("ring flange", closure.flange_thick_mm),
        ("filter lid", closure.lid_thick_mm),
        ("gasket", gasket),
        ("filter", max(each.height_mm for each in project.filters)),
        ("gasket", gasket),
        ("pail lid", closure.lid_thick_mm),
        ("pail ring", closure.flange_thick_mm),
        ("catch pail", port.pail.height_mm),
    ]


def find_hanging(project: Project, port: Port) -> float:
    """Return how far [mm] a port's filter and pail hang below the panel (0 for a port without a filter)."""
    if port.kind != "filter" or not project.filters:
        return 0.0
    return sum(height for _, height in list_hanging(project, port))


def find_tilt(height_mm: float, width_mm: float) -> float:
    """Return the extra height [mm] a cylinder needs to be tipped over on the spot: diagonal less height."""
    return math.hypot(height_mm, width_mm) - height_mm

"""What hangs under the box, from ceiling to floor, and the room it takes to unscrew and tilt it out."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.box.joints import BoxShape
from calc.box.standing import find_stand
from calc.project import Boxed, Port
from calc.settled import Settled

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


@dataclass(frozen=True, kw_only=True)
class Stack:
    """The elevation at the deepest hanging port.

    hanging_mm: from the box's underside to the bottom of the pail; floor_gap_mm: from there to the floor
    stand_mm: the floor under the pails is this high: a cart's base; floor_gap_mm counts from it
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
    stand_mm: float = 0.0


def list_hanging(project: Boxed, port: Port) -> list[tuple[str, float]]:
    """Return what hangs under a filter port as (name, height [mm]) from the panel down."""
    closure = port.closure
    filter_ = project.get_filter(port)
    gasket = GASKET_SQUEEZED * filter_.gasket_thick_mm
    return [
        ("ring flange", closure.flange_thick_mm),
        ("filter lid", closure.lid_thick_mm),
        ("gasket", gasket),
        ("filter", filter_.height_mm),
        ("gasket", gasket),
        ("pail lid", closure.lid_thick_mm),
        ("pail ring", closure.flange_thick_mm),
        ("catch pail", port.pail.height_mm),
    ]


def hang_parts(project: Boxed, port: Port, underside_mm: float) -> tuple[StackPart, ...]:
    """Return what hangs under a filter port, from the box's underside [mm above the floor] down."""
    parts: list[StackPart] = []
    at = underside_mm
    for name, height in list_hanging(project, port):
        parts.append(StackPart(name, at - height, at))
        at -= height
    return tuple(parts)


def find_hanging(project: Boxed, port: Port) -> float:
    """Return how far [mm] a port's filter and pail hang below the panel (0 for a port without a filter)."""
    if port.kind != "filter" or not project.filters:
        return 0.0
    return sum(height for _, height in list_hanging(project, port))


def find_drop(project: Boxed, port: Port) -> float:
    """Return how far [mm] a port's filter drops before its lid is out of the thread (0 for a port without a filter)."""
    return port.closure.lid_height_mm + UNSCREW_SPARE_MM if port.kind == "filter" and project.filters else 0.0


def find_tilt(height_mm: float, width_mm: float) -> float:
    """Return the extra height [mm] a cylinder needs to be tipped over on the spot: diagonal less height."""
    return math.hypot(height_mm, width_mm) - height_mm


def plan_stack(project: Settled, shape: BoxShape) -> Stack:
    """Return the elevation from ceiling to floor at the port that hangs lowest."""
    bottom = project.box.underside_mm
    top = bottom + shape.outside.height
    hanging_ports = [port for port in project.ports if port.face == "bottom" and port.kind == "filter"]
    lowest = max(hanging_ports, key=lambda port: (find_hanging(project, port), port.name), default=None)
    stand = find_stand(project)
    parts = hang_parts(project, lowest, bottom) if lowest and project.filters else ()
    at = parts[-1].bottom_mm if parts else bottom
    hanging = bottom - at
    drop, tilt = 0.0, 0.0
    if lowest and project.filters:
        drop = find_drop(project, lowest)
        wide = max(project.get_filter(lowest).outside_mm, lowest.pail.top_mm)
        tilt = find_tilt(hanging, wide)
    return Stack(
        ceiling_mm=project.shop.ceiling_mm,
        ceiling_gap_mm=project.shop.ceiling_mm - top,
        box_top_mm=top,
        box_bottom_mm=bottom,
        parts=parts,
        hanging_mm=hanging,
        floor_gap_mm=at - stand,
        drop_mm=drop,
        tilt_mm=tilt,
        stand_mm=stand,
    )

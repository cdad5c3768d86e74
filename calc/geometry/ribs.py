"""Stiffeners: strips of panel stock on edge, inside the box across a panel's short side, clear of its holes."""

from __future__ import annotations

from calc.geometry.faces import AXIS, Block, is_low
from calc.geometry.joints import BoxShape, Solid
from calc.geometry.parts import BoxPart, make_strip
from calc.geometry.rib_places import find_long_axis
from calc.project import Project
from calc.structure import PanelStrength, Strength

PLAY_MM = 1.0


def plan_ribs(project: Project, shape: BoxShape, strength: Strength, first_number: int) -> tuple[BoxPart, ...]:
    """Return the ribs that the strength of the panels asks for, numbered from `first_number`."""
    ribs: list[BoxPart] = []
    for panel in strength.panels:
        for index, place in enumerate(panel.rib_places_mm, start=1):
            solid = Solid(f"rib {panel.name} {index}", panel.face, _place(project, shape, panel, place))
            ribs.append(make_strip(project, shape, solid, "stiffener", str(first_number + len(ribs))))
    return tuple(ribs)


def _place(project: Project, shape: BoxShape, panel: PanelStrength, spot: float) -> Block:
    normal, long_axis = AXIS[panel.face], find_long_axis(shape, panel.face)
    lining = project.lining.thickness_mm if project.lining else 0.0
    low, high = list(shape.cavity.low), list(shape.cavity.high)
    for axis in range(3):
        if axis == normal:
            if is_low(panel.face):
                high[axis] = low[axis] + panel.rib_high_mm
            else:
                low[axis] = high[axis] - panel.rib_high_mm
        elif axis == long_axis:
            middle = shape.cavity.low[axis] + spot
            low[axis], high[axis] = middle - panel.thickness_mm / 2, middle + panel.thickness_mm / 2
        else:
            low[axis] += lining + PLAY_MM
            high[axis] -= lining + PLAY_MM
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))

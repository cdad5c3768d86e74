"""Stiffeners: strips of panel stock on edge inside the box, across a panel or along it, clear of its holes."""

from __future__ import annotations

from calc.geometry.faces import AXIS, Block, is_low, meet_blocks
from calc.geometry.joints import BoxShape, Solid
from calc.geometry.parts import BoxPart, make_strip
from calc.project import Project
from calc.strength.structure import PanelStrength, Strength

PLAY_MM = 1.0


def plan_ribs(project: Project, shape: BoxShape, strength: Strength, first_number: int) -> tuple[BoxPart, ...]:
    """Return the ribs that the strength of the panels asks for, numbered from `first_number`."""
    ribs: list[BoxPart] = []
    for panel in strength.panels:
        for index, place in enumerate(panel.rib_places_mm, start=1):
            block = _place(project, shape, panel, place)
            for other in ribs:  # where two meet in a corner, the later one stops short
                block = _stop_short(block, other.block, panel)
            solid = Solid(f"rib {panel.name} {index}", panel.face, block)
            ribs.append(make_strip(project, shape, solid, "stiffener", str(first_number + len(ribs))))
    return tuple(ribs)


def _place(project: Project, shape: BoxShape, panel: PanelStrength, spot: float) -> Block:
    normal = AXIS[panel.face]
    lining = project.lining.thickness_mm if project.lining else 0.0
    low, high = list(shape.cavity.low), list(shape.cavity.high)
    for axis in range(3):
        if axis == normal:
            if is_low(panel.face):
                high[axis] = low[axis] + panel.rib_high_mm
            else:
                low[axis] = high[axis] - panel.rib_high_mm
        elif axis == panel.rib_axis:
            middle = shape.cavity.low[axis] + spot
            low[axis], high[axis] = middle - panel.thickness_mm / 2, middle + panel.thickness_mm / 2
        else:
            low[axis] += lining + PLAY_MM
            high[axis] -= lining + PLAY_MM
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _stop_short(block: Block, other: Block, panel: PanelStrength) -> Block:
    """Return a rib cut back along its length, on the side that loses least, so that it clears another."""
    if meet_blocks(block, other) is None:
        return block
    axis = next(axis for axis in range(3) if axis not in (AXIS[panel.face], panel.rib_axis))
    low, high = list(block.low), list(block.high)
    if other.high[axis] - low[axis] <= high[axis] - other.low[axis]:
        low[axis] = other.high[axis] + PLAY_MM
    else:
        high[axis] = other.low[axis] - PLAY_MM
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2])) if high[axis] > low[axis] else block

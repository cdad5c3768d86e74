"""Stiffeners: strips of panel stock on edge, inside the box across a panel's short side, clear of its holes."""

from __future__ import annotations

from dataclasses import dataclass

from calc.finding import Finding, Said, Verdict
from calc.geometry.faces import AXIS, VIEWS, Block, is_low
from calc.geometry.joints import BoxShape, Solid
from calc.geometry.judge import PRACTICE
from calc.geometry.parts import BoxPart, make_strip
from calc.project import Project
from calc.structure import PanelStrength, Strength

PLAY_MM = 1.0
FLANGE_GAP_MM = 3.0


@dataclass(frozen=True)
class RibPlan:
    """The stiffeners as parts, and a finding for each panel that has no place for one."""

    parts: tuple[BoxPart, ...]
    findings: tuple[Finding, ...]


def plan_ribs(project: Project, shape: BoxShape, strength: Strength, parts: tuple[BoxPart, ...]) -> RibPlan:
    """Return the ribs that the strength of the panels asks for, numbered after the other parts."""
    ribs: list[BoxPart] = []
    found: list[Finding] = []
    by_face = {part.face: part for part in parts if part.kind == "panel"}
    for panel in strength.panels:
        spots = [find_rib_place(shape, by_face[panel.face], panel, i + 1) for i in range(panel.ribs)]
        for index, spot in enumerate(spots, start=1):
            if spot is None:
                found.append(_say_no_room(panel))
                continue
            solid = Solid(f"rib {panel.name} {index}", panel.face, _place(project, shape, panel, spot))
            ribs.append(make_strip(project, shape, solid, "stiffener", str(len(parts) + len(ribs) + 1)))
    return RibPlan(tuple(ribs), tuple(found))


def find_long_axis(shape: BoxShape, panel: PanelStrength) -> int:
    """Return the axis of space along a panel's long inside span."""
    view = VIEWS[panel.face]
    across, up = shape.inside.along(view.across_axis), shape.inside.along(view.up_axis)
    return view.across_axis if across >= up else view.up_axis


def find_rib_place(shape: BoxShape, part: BoxPart, panel: PanelStrength, index: int) -> float | None:
    """Return where along the long inside span [mm] a rib stands: at even parts, moved aside to clear the holes."""
    view, long_axis = VIEWS[panel.face], find_long_axis(shape, panel)
    holes = []
    for hole in part.holes:
        along_across = long_axis == view.across_axis
        at = hole.across_mm + part.left_mm if along_across else hole.up_mm + part.bottom_mm
        back = view.across_back if along_across else view.up_back
        spot = shape.outside.along(long_axis) - at if back else at
        holes.append(
            (spot - shape.cavity.low[long_axis], hole.diameter_mm / 2 + panel.thickness_mm / 2 + FLANGE_GAP_MM)
        )
    wanted = panel.long_mm * index / (panel.ribs + 1)
    free = panel.long_mm / (panel.ribs + 1) / 4  # further aside the rib no longer halves the span
    for step in range(0, int(free) + 1, 2):
        for spot in (wanted + step, wanted - step):
            if all(abs(spot - at) >= room for at, room in holes):
                return spot
    return None


def _place(project: Project, shape: BoxShape, panel: PanelStrength, spot: float) -> Block:
    normal, long_axis = AXIS[panel.face], find_long_axis(shape, panel)
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


def _say_no_room(panel: PanelStrength) -> Finding:
    return Finding(
        f"rib.{panel.name}",
        Said("Room for a rib on the {face} panel between its holes", names={"face": panel.name}),
        Verdict.DOES_NOT_FIT,
        Said("The panel bows more than it may and a rib has no place."),
        mends=(Said("Use thicker panels, or move the holes apart."),),
        source=PRACTICE,
    )

"""Where an inlet that crosses a port could go: the shortest way aside, or another face with room."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.box.joints import BoxShape
from calc.box.ports import PortDesign
from calc.box.room import HOLE_TO_WALL_MM, find_inlet_room, find_inside_room
from calc.project import FACES, Face
from calc.settled import Settled
from calc.shapes.faces import Side, find_face_size, find_flat

_WAYS: dict[Side, tuple[float, float]] = {
    "left": (-1.0, 0.0),
    "right": (1.0, 0.0),
    "bottom": (0.0, -1.0),
    "top": (0.0, 1.0),
}
STEP_MM = 0.5


@dataclass(frozen=True)
class Aside:
    """side: which side of its face (seen from outside) the inlet is moved toward; by_mm: how far."""

    side: Side
    by_mm: float


def find_way_aside(project: Settled, shape: BoxShape, ports: tuple[PortDesign, ...]) -> Aside | None:
    """Return the shortest straight move that takes the inlet clear of every port and wall of its face, or None."""
    inlet = project.box.inlet
    best: Aside | None = None
    for side, (dx, dy) in _WAYS.items():
        far = sum(find_face_size(inlet.face, shape.outside))
        for count in range(1, math.ceil(far / STEP_MM)):
            by = count * STEP_MM
            if best is not None and by >= best.by_mm:
                break
            if _is_clear(project, shape, ports, inlet.across_mm + dx * by, inlet.up_mm + dy * by):
                best = Aside(side, by)
                break
    return best


def find_free_faces(project: Settled, shape: BoxShape) -> tuple[Face, ...]:
    """Return the faces without a port that are large enough for the inlet, best first: sides, top, back."""
    taken, room = {port.face for port in project.ports}, find_inlet_room(project)
    order: tuple[Face, ...] = ("left", "right", "top", "back", "front", "bottom")
    barred: set[Face] = {project.box.removable, project.box.inlet.face}
    if project.box.hung == "wall":
        barred.add("back")
    free = []
    for face in sorted(FACES, key=order.index):
        left, bottom, right, top = find_flat(face, shape.cavity, shape.outside)
        if face not in taken | barred and min(right - left, top - bottom) >= room:
            free.append(face)
    return tuple(free)


def _is_clear(project: Settled, shape: BoxShape, ports: tuple[PortDesign, ...], across: float, up: float) -> bool:
    inlet = project.box.inlet
    radius = inlet.diameter_mm / 2
    left, bottom, right, top = find_flat(inlet.face, shape.cavity, shape.outside)
    rim = radius + max(find_inside_room(project), HOLE_TO_WALL_MM)
    if not (left + rim <= across <= right - rim and bottom + rim <= up <= top - rim):
        return False
    here = [port for port in ports if port.port.face == inlet.face]
    return all(
        math.dist((across, up), (port.port.across_mm, port.port.up_mm)) >= radius + port.flange_mm / 2 for port in here
    )

"""Room that a port or the inlet needs about it: to its neighbours, to the walls, to the building behind."""

from __future__ import annotations

from calc.box.joints import CLEAT_WIDE_MM
from calc.box.ports import measure_pail
from calc.box.standing import find_stand_off
from calc.project import Boxed, Port
from calc.trade import PANEL_SCREW_EDGE_MM

HOLE_TO_WALL_MM = 6.0
INLET_TO_WALL_MM = 20.0


def find_port_width(project: Boxed, port: Port) -> float:
    """Return the diameter [mm] a port takes up outside: flange, lid, or the filter that hangs on it."""
    widest = max(port.closure.flange_mm, port.closure.lid_mm, measure_pail(port.pail)[0])
    if port.kind == "filter" and project.filters:
        widest = max(widest, project.get_filter(port).outside_mm)
    return widest


def find_spacing(project: Boxed, a: Port, b: Port) -> float:
    """Return the least distance [mm] between the centres of two ports: half of each, and a hand's grip between."""
    return (find_port_width(project, a) + find_port_width(project, b)) / 2 + max(a.closure.grip_mm, b.closure.grip_mm)


def find_wall_room(project: Boxed, port: Port) -> float:
    """Return the least distance [mm] from a port's centre to the inner walls: hole past the lining, flange, screws."""
    hole = measure_pail(port.pail)[0]
    circle = port.closure.screw_circle_mm or (hole + port.closure.flange_mm) / 2
    return max(
        hole / 2 + find_inside_room(project) + HOLE_TO_WALL_MM,
        port.closure.flange_mm / 2,
        circle / 2 + PANEL_SCREW_EDGE_MM,
    )


def find_back_room(project: Boxed, port: Port) -> float:
    """Return the least distance [mm] from a port's centre to the inner wall below it on its face, seen from outside.

    On the underside that is the back: on a wall, a hand must get round the lid between it and the building.
    """
    room = find_wall_room(project, port)
    if port.face == "bottom" and project.box.hung == "wall":
        off = project.box.panel.thickness_mm + find_stand_off(project)
        behind = find_port_width(project, port) / 2 + port.closure.grip_mm - off
        return max(room, behind)
    return room


def find_inlet_room(project: Boxed) -> float:
    """Return the width [mm] the inlet takes of its face, from wall or port to wall: duct, margins, lining or cleats."""
    return project.box.inlet.diameter_mm + 2 * (find_inside_room(project) + INLET_TO_WALL_MM)


def find_inside_room(project: Boxed) -> float:
    """Return how far [mm] lining or cleats may stand out from a wall."""
    lining = project.lining.thickness_mm if project.lining else 0.0
    return max(lining, CLEAT_WIDE_MM if project.box.joint == "cleat" else 0.0)

"""The box settled: inside sizes where the file leaves them open, the height it hangs at, and where the ports sit."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

from calc.geometry.faces import VIEWS, find_flat
from calc.geometry.joints import CLEAT_WIDE_MM, BoxShape, measure_box
from calc.geometry.ports import measure_pail
from calc.project import Face, Port, Project

HOLE_TO_WALL_MM = 6.0
INLET_TO_WALL_MM = 20.0
SCREW_EDGE_MM = 9.5
"""Least distance of a screw from a panel's edge: 3/8 in (common practice, no source)."""


def find_port_width(project: Project, port: Port) -> float:
    """Return the diameter [mm] a port takes up outside: flange, lid, or the filter that hangs on it."""
    widest = max(port.closure.flange_mm, port.closure.lid_mm, measure_pail(port.pail)[0])
    if port.kind == "filter" and project.filters:
        widest = max(widest, max(each.outside_mm for each in project.filters))
    return widest


def find_spacing(project: Project, a: Port, b: Port) -> float:
    """Return the least distance [mm] between the centres of two ports: half of each, and a hand's grip between."""
    return (find_port_width(project, a) + find_port_width(project, b)) / 2 + max(a.closure.grip_mm, b.closure.grip_mm)


def find_wall_room(project: Project, port: Port) -> float:
    """Return the least distance [mm] from a port's centre to the inner walls: hole past the lining, flange, screws."""
    lining, hole = project.lining.thickness_mm if project.lining else 0.0, measure_pail(port.pail)[0]
    circle = port.closure.screw_circle_mm or (hole + port.closure.flange_mm) / 2
    inside = max(lining, CLEAT_WIDE_MM if project.box.joint == "cleat" else 0.0)
    return max(hole / 2 + inside + HOLE_TO_WALL_MM, port.closure.flange_mm / 2, circle / 2 + SCREW_EDGE_MM)


def find_back_room(project: Project, port: Port) -> float:
    """Return the least distance [mm] from a port's centre to the inner wall below it on its face, seen from outside.

    On the underside that is the back: on a wall, a hand must get round the lid between it and the building.
    """
    room = find_wall_room(project, port)
    if port.face == "bottom" and project.box.hung == "wall":
        behind = find_port_width(project, port) / 2 + port.closure.grip_mm - project.box.panel.thickness_mm
        return max(room, behind)
    return room


def settle_box(project: Project) -> Project:
    """Return the project with every size of the box, its underside height and every port's place filled in.

    What the file states is kept as it is, even when it cannot work: the findings say so.
    """
    box = project.box
    sizes = {"width_mm": box.width_mm, "depth_mm": box.depth_mm, "height_mm": box.height_mm}
    needed = _find_needed(project)
    filled = {name: size if size is not None else _round_up(project, needed[name]) for name, size in sizes.items()}
    box = replace(box, **filled)  # type: ignore[arg-type]
    shape = measure_box(box)
    if box.underside_mm is None:
        box = replace(box, underside_mm=_settle_height(project, shape))
    face = find_flat(box.inlet.face, shape.cavity, shape.outside)
    across = box.inlet.across_mm if box.inlet.across_mm is not None else (face[0] + face[2]) / 2
    up = box.inlet.up_mm if box.inlet.up_mm is not None else (face[1] + face[3]) / 2
    box = replace(box, inlet=replace(box.inlet, across_mm=across, up_mm=up))
    return _place_ports(replace(project, box=box), shape)


def _settle_height(project: Project, shape: BoxShape) -> float:
    """Return floor to underside [mm]: under the ceiling; on a cart as low as the hanging filters and pails allow."""
    under_ceiling = project.shop.ceiling_mm - project.box.ceiling_gap_mm - shape.outside.height
    if project.box.hung != "cart":
        return under_ceiling
    from calc.geometry.stack import CART_CLEARANCE_MM, find_hanging  # the stack needs the box's ports

    hanging = max((find_hanging(project, p) for p in project.ports if p.face == "bottom"), default=0.0)
    return min(under_ceiling, hanging + CART_CLEARANCE_MM)


def _round_up(project: Project, size: float) -> float:
    step = 25.4 / 4 if project.display.system == "inch" else 5.0
    return math.ceil(size / step - 1e-9) * step


def _find_needed(project: Project) -> dict[str, float]:
    """Return the smallest inside width, depth and height [mm] that hold the ports, the inlet and the lining."""
    least = [0.0, 0.0, 0.0]
    for face in VIEWS:
        ports = [port for port in project.ports if port.face == face]
        view = VIEWS[face]
        if ports:
            row = sum(find_spacing(project, a, b) for a, b in pairwise(ports))
            row += find_wall_room(project, ports[0]) + find_wall_room(project, ports[-1])
            least[view.across_axis] = max(least[view.across_axis], row)
            high = max(find_wall_room(project, port) + find_back_room(project, port) for port in ports)
            least[view.up_axis] = max(least[view.up_axis], high)
        if project.box.inlet.face == face:
            lining = project.lining.thickness_mm if project.lining else 0.0
            inside = max(lining, CLEAT_WIDE_MM if project.box.joint == "cleat" else 0.0)
            room = project.box.inlet.diameter_mm + 2 * (inside + INLET_TO_WALL_MM)
            for axis in (view.across_axis, view.up_axis):
                least[axis] = max(least[axis], room)
    return {"width_mm": least[0], "depth_mm": least[1], "height_mm": least[2]}


def _place_ports(project: Project, shape: BoxShape) -> Project:
    placed: dict[str, Port] = {}
    for face in VIEWS:
        for port in _place_face(project, shape, face):
            placed[port.name] = port
    return replace(project, ports=tuple(placed[port.name] for port in project.ports))


def _place_face(project: Project, shape: BoxShape, face: Face) -> list[Port]:
    """Return a face's ports with their places: filters spread evenly, other ports round the middle, side by side."""
    ports = [port for port in project.ports if port.face == face]
    if not ports:
        return []
    left, bottom, right, top = find_flat(face, shape.cavity, shape.outside)
    spread = all(port.kind == "filter" for port in ports)
    rows = _count_rows(project, ports, right - left, top - bottom) if spread else 1
    step = 25.4 / 16 if project.display.system == "inch" else 1.0
    placed = []
    for row, group in enumerate(_split_rows(ports, rows)):
        centres = _spread_row(group, left, right) if spread else _centre_row(project, group, left, right)
        level = top - (top - bottom) * (2 * row + 1) / (2 * rows)
        for port, centre in zip(group, centres, strict=True):
            room, low = find_wall_room(project, port), bottom + find_back_room(project, port)
            across = port.across_mm if port.across_mm is not None else _snap(centre, left + room, right - room, step)
            up = port.up_mm if port.up_mm is not None else _snap(level, low, top - room, step)
            placed.append(replace(port, across_mm=across, up_mm=up))
    return placed


def _count_rows(project: Project, ports: list[Port], wide: float, high: float) -> int:
    """Return in how many rows filters stand: as few as give each its grip; one where none does."""
    spacing = max((find_spacing(project, a, b) for a, b in pairwise(ports)), default=0.0)
    room = max(find_wall_room(project, port) for port in ports)
    for rows in range(1, len(ports) + 1):
        a_row = math.ceil(len(ports) / rows)
        across = wide / a_row >= spacing if a_row > 1 else True
        upward = high / rows >= spacing if rows > 1 else True
        if across and upward and wide / a_row >= 2 * room - 1e-6 and high / rows >= 2 * room - 1e-6:
            return rows
    return 1


def _split_rows(ports: list[Port], rows: int) -> list[list[Port]]:
    a_row = math.ceil(len(ports) / rows)
    return [ports[start : start + a_row] for start in range(0, len(ports), a_row)]


def _snap(at: float, low: float, high: float, step: float) -> float:
    """Return a place on a whole step of the tape, or as it is where the step would leave the room there is."""
    if low <= high:
        at = min(max(at, low), high)
    snapped = round(at / step) * step
    return snapped if low <= snapped <= high else at


def _spread_row(ports: list[Port], left: float, right: float) -> list[float]:
    count = len(ports)
    return [left + (right - left) * (2 * i + 1) / (2 * count) for i in range(count)]


def _centre_row(project: Project, ports: list[Port], left: float, right: float) -> list[float]:
    """Return centres side by side at their least spacing: the first in the middle if the row then still fits."""
    offsets = [0.0]
    for a, b in pairwise(ports):
        offsets.append(offsets[-1] + find_spacing(project, a, b))
    middle = (left + right) / 2
    room_left, room_right = find_wall_room(project, ports[0]), find_wall_room(project, ports[-1])
    start = middle if middle + offsets[-1] + room_right <= right else middle - offsets[-1] / 2
    if start - room_left < left and start != middle:
        return _spread_row(ports, left, right)
    return [start + offset for offset in offsets]

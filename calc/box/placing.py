"""Where ports and inlet sit on their faces: filters spread evenly, other ports round the middle, side by side."""

from __future__ import annotations

import math
from itertools import pairwise

from calc.box.joints import BoxShape
from calc.box.room import INLET_TO_WALL_MM, find_back_room, find_inlet_room, find_spacing, find_wall_room
from calc.box.standing import RAIL_PLAY_MM, find_rails_high
from calc.project import Boxed, Face, Port
from calc.settled import PlacedInlet, PlacedPort, place_inlet, place_port
from calc.shapes.faces import VIEWS, find_flat


def place_ports(project: Boxed, shape: BoxShape) -> tuple[PlacedPort, ...]:
    """Return the ports, with a place for every one that has none."""
    placed: dict[str, PlacedPort] = {}
    for face in VIEWS:
        for port in _place_face(project, shape, face):
            placed[port.name] = port
    return tuple(placed[port.name] for port in project.ports)


def _place_face(project: Boxed, shape: BoxShape, face: Face) -> list[PlacedPort]:
    """Return a face's ports with their places: filters spread evenly, other ports round the middle, side by side."""
    ports = [port for port in project.ports if port.face == face]
    if not ports:
        return []
    left, bottom, right, top = find_flat(face, shape.cavity, shape.outside)
    right -= find_duct_share(project, shape, face)
    spread = all(port.kind == "filter" for port in ports)
    rows = _count_rows(project, ports, right - left, top - bottom) if spread else 1
    step = _find_step(project)
    placed = []
    for row, group in enumerate(split_rows(ports, rows)):
        centres = _spread_row(project, group, left, right) if spread else _centre_row(project, group, left, right)
        level = top - (top - bottom) * (2 * row + 1) / (2 * rows)
        stepped = _snap_row(project, group, centres, (left, right), step)
        for port, centre in zip(group, stepped, strict=True):
            room, low = find_wall_room(project, port), bottom + find_back_room(project, port)
            up = port.up_mm if port.up_mm is not None else _snap(level, low, top - room, step)
            placed.append(place_port(port, port.across_mm if port.across_mm is not None else centre, up))
    return placed


def _count_rows(project: Boxed, ports: list[Port], wide: float, high: float) -> int:
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


def split_rows(ports: list[Port], rows: int) -> list[list[Port]]:
    """Return ports in at most that many rows, the first ones fullest."""
    a_row = math.ceil(len(ports) / rows)
    return [ports[start : start + a_row] for start in range(0, len(ports), a_row)]


def _snap_row(
    project: Boxed, ports: list[Port], centres: list[float], ends: tuple[float, float], step: float
) -> list[float]:
    """Return a row's centres on whole steps of the tape; as they are where that would take a hand's grip away."""
    stepped = []
    for port, centre in zip(ports, centres, strict=True):
        room = find_wall_room(project, port)
        stepped.append(_snap(centre, ends[0] + room, ends[1] - room, step))
    pairs = zip(pairwise(ports), pairwise(stepped), pairwise(centres), strict=True)
    for (a, b), (x, y), (p, q) in pairs:
        wanted = find_spacing(project, a, b) - 1e-9
        if y - x < wanted <= q - p:
            return centres
    return stepped


def _find_step(project: Boxed) -> float:
    """Return the step [mm] of the tape that places are marked out by: 1/16 in or 1 mm."""
    return 25.4 / 16 if project.display.system == "inch" else 1.0


def _snap(at: float, low: float, high: float, step: float) -> float:
    """Return a place on a whole step of the tape, or as it is where the step would leave the room there is."""
    if low <= high:
        at = min(max(at, low), high)
    snapped = round(at / step) * step
    return snapped if low <= snapped <= high else at


def _spread_row(project: Boxed, ports: list[Port], left: float, right: float) -> list[float]:
    """Return centres spread evenly, each in its share's middle; out to the walls where the shares are small."""
    count = len(ports)
    pitch = (right - left) / count
    spacing = max((find_spacing(project, a, b) for a, b in pairwise(ports)), default=0.0)
    if count > 1 and pitch < spacing:
        first, last = left + find_wall_room(project, ports[0]), right - find_wall_room(project, ports[-1])
        return [first + (last - first) * i / (count - 1) for i in range(count)]
    return [left + pitch * (i + 0.5) for i in range(count)]


def _centre_row(project: Boxed, ports: list[Port], left: float, right: float) -> list[float]:
    """Return centres side by side at their least spacing: the first in the middle, or as near to it as the row fits."""
    offsets = [0.0]
    for a, b in pairwise(ports):
        offsets.append(offsets[-1] + find_spacing(project, a, b))
    middle = (left + right) / 2
    room_left, room_right = find_wall_room(project, ports[0]), find_wall_room(project, ports[-1])
    start = min(middle, right - room_right - offsets[-1])
    if start - room_left < left and start != middle:
        return _spread_row(project, ports, left, right)
    return [start + offset for offset in offsets]


def find_duct_share(project: Boxed, shape: BoxShape, face: Face) -> float:
    """Return what [mm] of a face's right end is kept for an inlet without a place that shares it with ports.

    Nothing where the ports need the whole face: the findings then say that the two cross.
    """
    inlet = project.box.inlet
    ports = [port for port in project.ports if port.face == face]
    if inlet.face != face or inlet.across_mm is not None or not ports:
        return 0.0
    left, _, right, _ = find_flat(face, shape.cavity, shape.outside)
    row = sum(find_spacing(project, a, b) for a, b in pairwise(ports))
    row += find_wall_room(project, ports[0]) + find_wall_room(project, ports[-1])
    share = find_inlet_room(project)
    return share if row + share <= right - left + 1e-6 else 0.0


def _find_inlet_height(project: Boxed, shape: BoxShape, bottom: float, top: float) -> float:
    """Return the middle of the face; on the back of a box on a wall, low enough to pass under its rails if it can."""
    inlet, middle = project.box.inlet, (bottom + top) / 2
    if project.box.hung != "wall" or inlet.face != "back":
        return middle
    under = shape.outside.height - find_rails_high(project) - RAIL_PLAY_MM - inlet.diameter_mm / 2
    least = bottom + INLET_TO_WALL_MM + inlet.diameter_mm / 2
    return min(middle, under) if under >= least else middle


def place_duct(project: Boxed, shape: BoxShape) -> PlacedInlet:
    """Return the inlet with a place: the middle of its face, or the end that the ports leave it.

    On a whole step of the tape, so up to that much nearer to the face's left and lower edge.
    """
    inlet, step = project.box.inlet, _find_step(project)
    left, bottom, right, top = find_flat(inlet.face, shape.cavity, shape.outside)
    share = find_duct_share(project, shape, inlet.face)
    across = right - share / 2 if share else (left + right) / 2
    up = _find_inlet_height(project, shape, bottom, top)
    across, up = (math.floor(at / step + 1e-6) * step for at in (across, up))  # never nearer to a rail above it
    across = inlet.across_mm if inlet.across_mm is not None else across
    up = inlet.up_mm if inlet.up_mm is not None else up
    return place_inlet(inlet, across, up)

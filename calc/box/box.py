"""The box settled: inside sizes where the file leaves them open, the height it hangs at, and where the ports sit."""

from __future__ import annotations

import math
from itertools import combinations, pairwise
from typing import overload

from calc.airflow.completing import complete_ducts
from calc.box.joints import BoxShape, measure_box, measure_shape
from calc.box.placing import place_duct, place_ports, split_rows
from calc.box.ports import design_port
from calc.box.reach import measure_reach
from calc.box.room import find_back_room, find_inlet_room, find_spacing, find_wall_room
from calc.box.stack import find_drop, find_hanging
from calc.box.standing import find_stand, find_top_gap
from calc.project import Boxed, Port, Project
from calc.settled import Settled, SettledShop, settle_project, size_box
from calc.shapes.faces import VIEWS, Sizes

CART_SPARE_MM = 25.0
"""Room left under a cart's pails once the filter is unscrewed (common practice, no source)."""

WIDER_MM, WIDER_STEPS = 20.0, 20

LEAST_MM = 150.0
"""No automatic size is smaller: a hand must work in it (common practice, no source)."""


@overload
def settle_box(project: Project) -> SettledShop: ...


@overload
def settle_box(project: Boxed) -> Settled: ...


def settle_box(project: Boxed) -> Settled:
    """Return the project with its ducts completed, if it has any, and every size of the box, its underside height and
    every port's place filled in.

    What the file states is kept as it is, even when it cannot work: the findings say so. Where the file leaves the
    box open, the smallest wins in which an arm gets from the inspection opening to everything, if there is one: with
    the filters in one row or several, or a little wider, so that the opening comes nearer to the middle.
    """
    if isinstance(project, Project):
        project = complete_ducts(project)
    box = project.box
    hung = sum(port.face == "bottom" and port.kind == "filter" for port in project.ports)
    rows = range(1, hung + 1) if box.width_mm is None and box.depth_mm is None and hung > 1 else range(1, 2)
    settled = [_settle_rows(project, count, 0.0) for count in rows]
    best = min(settled, key=_rank_box)
    if box.width_mm is None and _rank_box(best)[1]:
        wider = (WIDER_MM * step for step in range(1, WIDER_STEPS + 1))
        best = min([best, *(_settle_rows(project, 1, more) for more in wider)], key=_rank_box)
    return best


def _rank_box(project: Settled) -> tuple[bool, bool, float]:
    """Return what is to be made small: ports without their grip, an arm that gets not everywhere, then the box."""
    shape = measure_box(project.box)
    reach = measure_reach(project, shape, tuple(design_port(project, port) for port in project.ports))
    cramped = any(
        math.dist((a.across_mm, a.up_mm), (b.across_mm, b.up_mm)) < find_spacing(project, a, b) - 1e-6
        for a, b in combinations(project.ports, 2)
        if a.face == b.face
    )
    out = not all(target.can for target in reach.targets)
    return cramped, out, shape.inside.width * shape.inside.depth * shape.inside.height


def _settle_rows(project: Boxed, rows: int, wider_mm: float) -> Settled:
    """Return the project settled with its filters in that many rows and wider than need be, if its size is open."""
    box, needed = project.box, _find_needed(project, rows)
    stated, least = (box.width_mm, box.depth_mm, box.height_mm), (needed.width + wider_mm, needed.depth, needed.height)
    inside = Sizes(
        *(size if size is not None else _round_up(project, need) for size, need in zip(stated, least, strict=True))
    )
    shape = measure_shape(box, inside)
    underside = box.underside_mm if box.underside_mm is not None else _settle_height(project, shape)
    inlet = place_duct(project, shape)
    sized = size_box(box, inside.width, inside.depth, inside.height, underside, inlet)
    return settle_project(project, sized, place_ports(project, shape))


def _settle_height(project: Boxed, shape: BoxShape) -> float:
    """Return floor to underside [mm]: under the ceiling; on a cart as low as the filters can still be unscrewed."""
    under_ceiling = project.shop.ceiling_mm - find_top_gap(project) - shape.outside.height
    if project.box.hung != "cart":
        return under_ceiling
    below = [port for port in project.ports if port.face == "bottom"]
    hanging = max((find_hanging(project, port) + find_drop(project, port) for port in below), default=0.0)
    return min(under_ceiling, find_stand(project) + hanging + CART_SPARE_MM)


def _round_up(project: Boxed, size: float) -> float:
    step = 25.4 / 4 if project.display.system == "inch" else 5.0
    return math.ceil(size / step - 1e-9) * step


def _find_needed(project: Boxed, rows: int) -> Sizes:
    """Return the smallest inside width, depth and height [mm] that hold the ports, the inlet and the lining."""
    least = [LEAST_MM, LEAST_MM, LEAST_MM]
    for face in VIEWS:
        ports = [port for port in project.ports if port.face == face]
        view = VIEWS[face]
        duct = find_inlet_room(project) if project.box.inlet.face == face else 0.0
        least[view.across_axis] = max(least[view.across_axis], duct)
        least[view.up_axis] = max(least[view.up_axis], duct)
        if ports:
            in_rows = rows if face == "bottom" and all(port.kind == "filter" for port in ports) else 1
            wide, high = _find_field(project, ports, in_rows)
            least[view.across_axis] = max(least[view.across_axis], wide + duct)
            least[view.up_axis] = max(least[view.up_axis], high)
    return Sizes(*least)


def _find_field(project: Boxed, ports: list[Port], rows: int) -> tuple[float, float]:
    """Return the width and height [mm] that a face's ports take, standing in rows."""
    groups = split_rows(ports, rows)
    wide = 0.0
    for group in groups:
        row = sum(find_spacing(project, a, b) for a, b in pairwise(group))
        wide = max(wide, row + find_wall_room(project, group[0]) + find_wall_room(project, group[-1]))
    high = max(find_wall_room(project, port) + find_back_room(project, port) for port in ports)
    if len(groups) > 1:  # shares of the face, one a port, each as wide and high as the widest spacing
        spacing = max(find_spacing(project, a, b) for a, b in pairwise(ports))
        back = max(find_back_room(project, port) for port in ports)
        wide = max(wide, spacing * len(groups[0]) if len(groups[0]) > 1 else 0.0)
        high = len(groups) * max(spacing, 2 * back)
    return wide, high

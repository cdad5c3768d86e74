"""The box settled: inside sizes where the file leaves them open, the height it hangs at, and where the ports sit."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

from calc.geometry.faces import VIEWS
from calc.geometry.joints import BoxShape, measure_box
from calc.geometry.placing import place_inlet, place_ports
from calc.geometry.room import find_back_room, find_inlet_room, find_spacing, find_wall_room
from calc.geometry.stack import find_drop, find_hanging
from calc.geometry.standing import find_stand, find_top_gap
from calc.project import Project

CART_SPARE_MM = 25.0
"""Room left under a cart's pails once the filter is unscrewed (common practice, no source)."""

LEAST_MM = 150.0
"""No automatic size is smaller: a hand must work in it (common practice, no source)."""


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
    return place_inlet(place_ports(replace(project, box=box), shape), shape)


def _settle_height(project: Project, shape: BoxShape) -> float:
    """Return floor to underside [mm]: under the ceiling; on a cart as low as the filters can still be unscrewed."""
    under_ceiling = project.shop.ceiling_mm - find_top_gap(project) - shape.outside.height
    if project.box.hung != "cart":
        return under_ceiling
    below = [port for port in project.ports if port.face == "bottom"]
    hanging = max((find_hanging(project, port) + find_drop(project, port) for port in below), default=0.0)
    return min(under_ceiling, find_stand(project) + hanging + CART_SPARE_MM)


def _round_up(project: Project, size: float) -> float:
    step = 25.4 / 4 if project.display.system == "inch" else 5.0
    return math.ceil(size / step - 1e-9) * step


def _find_needed(project: Project) -> dict[str, float]:
    """Return the smallest inside width, depth and height [mm] that hold the ports, the inlet and the lining."""
    least = [LEAST_MM, LEAST_MM, LEAST_MM]
    for face in VIEWS:
        ports = [port for port in project.ports if port.face == face]
        view = VIEWS[face]
        duct = find_inlet_room(project) if project.box.inlet.face == face else 0.0
        least[view.across_axis] = max(least[view.across_axis], duct)
        least[view.up_axis] = max(least[view.up_axis], duct)
        if ports:
            row = sum(find_spacing(project, a, b) for a, b in pairwise(ports))
            row += find_wall_room(project, ports[0]) + find_wall_room(project, ports[-1])
            least[view.across_axis] = max(least[view.across_axis], row + duct)
            high = max(find_wall_room(project, port) + find_back_room(project, port) for port in ports)
            least[view.up_axis] = max(least[view.up_axis], high)
    return {"width_mm": least[0], "depth_mm": least[1], "height_mm": least[2]}

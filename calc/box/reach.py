"""How far an arm must reach from the inspection opening to every other opening and fitting."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.box.joints import BoxShape
from calc.box.ports import PortDesign
from calc.settled import Settled
from calc.shapes.faces import Spot, find_spot

ARM_MM = 600.0
"""Reach from the plane of the opening with the shoulder against it: the functional reach of a small woman, about
680 mm from the back to the thumb tip (5th percentile), less the depth of the shoulder (human-factors tables, from
memory)."""

ARM_OPENING_MM = 125.0
"""Least round opening for a bare or lightly clothed arm to the shoulder (MIL-STD-1472, arm access, from memory)."""


@dataclass(frozen=True)
class Target:
    """Something to be reached: straight way from the opening's middle to its far edge."""

    name: str
    reach_mm: float
    can: bool


@dataclass(frozen=True)
class Reach:
    """opening_mm: clear bore of the inspection opening; limit_mm: arm's reach through it; port None: no opening."""

    port: str | None
    opening_mm: float
    opening_least_mm: float
    limit_mm: float
    targets: tuple[Target, ...]


def measure_reach(project: Settled, shape: BoxShape, ports: tuple[PortDesign, ...]) -> Reach:
    """Return the reach from the inspection opening (the nearest, if several) to every other port."""
    inspections = [port for port in ports if port.port.kind == "inspection"]
    if not inspections:
        return Reach(None, 0.0, ARM_OPENING_MM, ARM_MM, ())
    wall = project.box.panel.thickness_mm
    starts = [_find_middle(port, shape, 0.0) for port in inspections]
    targets = []
    for port in ports:
        if port not in inspections:
            targets.append(_make_target(port.name, _find_middle(port, shape, wall), port.bore_mm / 2, starts))
    return Reach(inspections[0].name, min(p.bore_mm for p in inspections), ARM_OPENING_MM, ARM_MM, tuple(targets))


def _find_middle(port: PortDesign, shape: BoxShape, depth: float) -> Spot:
    return find_spot(port.port.face, port.port.across_mm, port.port.up_mm, shape.outside, depth)


def _make_target(name: str, middle: Spot, radius: float, starts: list[Spot]) -> Target:
    way = min(math.dist((s.x, s.y, s.z), (middle.x, middle.y, middle.z)) for s in starts)
    return Target(name, way + radius, way + radius <= ARM_MM)

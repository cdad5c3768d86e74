"""The box's parts as they are cut: size, thickness, grain, which edge shows, grooves and holes."""

from __future__ import annotations

from dataclasses import dataclass

from calc.geometry.faces import Block
from calc.project import Face


@dataclass(frozen=True)
class Hole:
    """A round hole; across_mm, up_mm from the part's own lower left corner, seen from outside."""

    name: str
    kind: str  # filter, inspection, gauge or inlet
    across_mm: float
    up_mm: float
    diameter_mm: float
    flange_mm: float  # what lands round it outside


@dataclass(frozen=True)
class Groove:
    """A rabbet or dado on the inner face, from the part's own lower left corner, seen from outside."""

    left_mm: float
    bottom_mm: float
    width_mm: float
    height_mm: float
    depth_mm: float


@dataclass(frozen=True)
class BoxPart:
    """A panel, cleat or stiffener. width_mm across and height_mm up as seen from outside on its face.

    grain: ``width``, ``height`` or ``none``; left_mm, bottom_mm: its lower left corner on the box's face
    shows: edges that show when the box is together (``left``, ``right``, ``top``, ``bottom`` of the part)
    """

    number: str
    name: str
    kind: str  # panel, cleat or stiffener
    face: Face
    width_mm: float
    height_mm: float
    thickness_mm: float
    material: str
    grain: str
    block: Block
    left_mm: float
    bottom_mm: float
    holes: tuple[Hole, ...] = ()
    grooves: tuple[Groove, ...] = ()
    shows: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    quantity: int = 1

"""The six faces of the box and where a spot on a face lies in space.

Space [mm]: x to the right seen from the front, y from the front to the back, z up; the box's lower left front corner
is the origin. Each face is seen from outside: front, back, left and right upright; the top with the front edge below,
the bottom with the front edge above (as the faces fold out from the front in third-angle projection).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from calc.project import Face

AXIS: dict[Face, int] = {"left": 0, "right": 0, "front": 1, "back": 1, "bottom": 2, "top": 2}
OPPOSITE: dict[Face, Face] = {
    "left": "right",
    "right": "left",
    "front": "back",
    "back": "front",
    "bottom": "top",
    "top": "bottom",
}
_LOW_FACES: tuple[Face, Face, Face] = ("left", "front", "bottom")


@dataclass(frozen=True)
class Spot:
    """A point in space [mm]."""

    x: float
    y: float
    z: float


@dataclass(frozen=True)
class Sizes:
    """Width (x), depth (y) and height (z) [mm]."""

    width: float
    depth: float
    height: float

    def along(self, axis: int) -> float:
        """Return the size along axis 0, 1 or 2."""
        return (self.width, self.depth, self.height)[axis]


@dataclass(frozen=True)
class Block:
    """A brick in space [mm], its sides along the axes."""

    low: tuple[float, float, float]
    high: tuple[float, float, float]

    def along(self, axis: int) -> float:
        """Return its size along axis 0, 1 or 2."""
        return self.high[axis] - self.low[axis]

    @property
    def volume(self) -> float:
        """Return its volume [mm3]."""
        return self.along(0) * self.along(1) * self.along(2)


@dataclass(frozen=True)
class View:
    """Which axes of space a face's across and up run along, and whether backwards."""

    across_axis: int
    across_back: bool
    up_axis: int
    up_back: bool


VIEWS: dict[Face, View] = {
    "front": View(0, False, 2, False),
    "back": View(0, True, 2, False),
    "left": View(1, True, 2, False),
    "right": View(1, False, 2, False),
    "top": View(0, False, 1, False),
    "bottom": View(0, False, 1, True),
}


Side = Literal["left", "bottom", "right", "top"]
SIDES: tuple[Side, ...] = ("left", "bottom", "right", "top")
"""The sides of a face or of a loose panel as it is seen from outside."""

_MEETS: dict[Face, tuple[Face, Face, Face, Face]] = {
    "front": ("left", "bottom", "right", "top"),
    "back": ("right", "bottom", "left", "top"),
    "left": ("back", "bottom", "front", "top"),
    "right": ("front", "bottom", "back", "top"),
    "top": ("left", "front", "right", "back"),
    "bottom": ("left", "back", "right", "front"),
}
"""Which wall a face meets at its left, bottom, right and top side, seen from outside."""


def find_wall(face: Face, side: Side) -> Face:
    """Return the wall that meets a face at one of its sides, seen from outside."""
    return _MEETS[face][SIDES.index(side)]


def is_low(face: Face) -> bool:
    """Tell whether the face lies at the low end of its axis (left, front, bottom)."""
    return face in _LOW_FACES


def meet_blocks(a: Block, b: Block) -> Block | None:
    """Return what two bricks have in common, or None."""
    for axis in range(3):
        if min(a.high[axis], b.high[axis]) - max(a.low[axis], b.low[axis]) <= 1e-9:
            return None
    low = tuple(max(p, q) for p, q in zip(a.low, b.low, strict=True))
    high = tuple(min(p, q) for p, q in zip(a.high, b.high, strict=True))
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def find_face_size(face: Face, outside: Sizes) -> tuple[float, float]:
    """Return how wide and high [mm] a face looks from outside."""
    view = VIEWS[face]
    return outside.along(view.across_axis), outside.along(view.up_axis)


def find_spot(face: Face, across: float, up: float, outside: Sizes, depth: float = 0.0) -> Spot:
    """Return the point `depth` mm inside the box behind a spot of a face (from its lower left corner, seen outside)."""
    view, at = VIEWS[face], [0.0, 0.0, 0.0]
    at[view.across_axis] = outside.along(view.across_axis) - across if view.across_back else across
    at[view.up_axis] = outside.along(view.up_axis) - up if view.up_back else up
    axis = AXIS[face]
    at[axis] = depth if is_low(face) else outside.along(axis) - depth
    return Spot(*at)


def find_flat(face: Face, block: Block, outside: Sizes) -> tuple[float, float, float, float]:
    """Return left, bottom, right, top [mm] of a brick as seen on a face (from the face's lower left corner)."""
    view = VIEWS[face]
    a0, a1 = block.low[view.across_axis], block.high[view.across_axis]
    u0, u1 = block.low[view.up_axis], block.high[view.up_axis]
    if view.across_back:
        a0, a1 = outside.along(view.across_axis) - a1, outside.along(view.across_axis) - a0
    if view.up_back:
        u0, u1 = outside.along(view.up_axis) - u1, outside.along(view.up_axis) - u0
    return a0, u0, a1, u1

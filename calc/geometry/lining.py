"""The lining: pieces that cover the inside of the box, with their holes, and what is left clear."""

from __future__ import annotations

from dataclasses import dataclass

from calc.geometry.faces import Sizes
from calc.geometry.parts import Hole
from calc.project import Face


@dataclass(frozen=True)
class LiningPiece:
    """One piece seen from outside through its panel; left_mm, bottom_mm: its corner on the box's face."""

    number: str
    name: str
    face: Face
    width_mm: float
    height_mm: float
    thickness_mm: float
    left_mm: float
    bottom_mm: float
    holes: tuple[Hole, ...]


@dataclass(frozen=True)
class LiningPlan:
    """The pieces, the clear inside sizes they leave, and their area [mm2] less holes."""

    stock: str
    pieces: tuple[LiningPiece, ...]
    clear: Sizes
    area_mm2: float

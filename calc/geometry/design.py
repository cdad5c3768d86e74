"""The whole design: box, parts, holes, sheets, lining, stack, strength, handling and reach, with their findings."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.finding import Finding
from calc.geometry.joints import BoxShape
from calc.geometry.lining import LiningPlan
from calc.geometry.parts import BoxPart
from calc.geometry.ports import PortDesign
from calc.geometry.reach import Reach
from calc.geometry.shapes import FlatPart
from calc.geometry.sheets import SheetPlan
from calc.geometry.stack import Stack
from calc.handling import Handling
from calc.structure import Strength

if TYPE_CHECKING:
    from calc.project import Project
    from calc.sizing import Sizing


@dataclass(frozen=True)
class Design:
    """Everything that is made.

    box: its sizes; parts: panels, cleats and stiffeners in cut-list order; flat_parts: all that has a 1:1 template
    sheets: layouts of panel stock, then of lining; lining: None when the box is bare
    seams_mm: length of the box's inner seams, to be sealed; gasket_mm: gasket round the removable face
    """

    box: BoxShape
    parts: tuple[BoxPart, ...]
    flat_parts: tuple[FlatPart, ...]
    ports: tuple[PortDesign, ...]
    sheets: tuple[SheetPlan, ...]
    lining: LiningPlan | None
    stack: Stack
    strength: Strength
    handling: Handling
    reach: Reach
    seams_mm: float
    gasket_mm: float
    findings: tuple[Finding, ...]

    def get_part(self, name: str) -> BoxPart:
        """Return the box part of that name. Raises KeyError."""
        return {part.name: part for part in self.parts}[name]

    def get_port(self, name: str) -> PortDesign:
        """Return the port of that name. Raises KeyError."""
        return {port.name: port for port in self.ports}[name]


def design_project(project: Project, sizing: Sizing) -> Design:
    """Return the design of a settled and sized project. Raises ValueError when the project was not settled."""
    raise NotImplementedError

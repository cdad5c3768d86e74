"""Pictures for the steps, drawn from the design's own sizes, with the parts a step touches standing out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from packet.draw.model import Drawing

if TYPE_CHECKING:
    from calc.geometry.design import Design
    from calc.project import Project
    from packet.steps_model import Step


class StepPictures:
    """Draws each picture once, by its key in the step files."""

    def __init__(self, project: Project, design: Design) -> None:
        self.project, self.design = project, design

    def draw(self, step: Step) -> Drawing | None:
        """Return the picture of a step, None when there is none."""
        return None

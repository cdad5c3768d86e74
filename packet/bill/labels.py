"""How many labels the job prints, and on how many self-adhesive sheets."""

from __future__ import annotations

import math

from calc.project import Aired

ACROSS, DOWN = 2, 6
"""Labels on a sheet: as many as the text frame that Letter and A4 share has room for."""

CLEANED = 2
"""Labels for the day of the last cleaning: one at once, one for the next time."""


def count_labels(project: Aired) -> int:
    """Return the labels: gates, openings, pails, bin, gauge, last cleaning, and the switch where a flue is near."""
    gates = sum(machine.gate is not None for machine in project.machines)
    pails = sum(port.kind == "filter" for port in project.ports)
    bins = project.separator.kind != "none"
    return gates + len(project.ports) + pails + bins + 1 + CLEANED + project.shop.draws_on_flue


def count_label_sheets(project: Aired) -> int:
    """Return the sheets they take."""
    return math.ceil(count_labels(project) / (ACROSS * DOWN))

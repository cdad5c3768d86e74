"""What each pen looks like on paper: weight, dash and grey, told apart without colour."""

from __future__ import annotations

from dataclasses import dataclass

from packet.draw.model import Pen


@dataclass(frozen=True)
class Look:
    """width_mm: line weight; dash_mm: on, off, ... (empty: unbroken); grey: 0 black .. 1 white."""

    width_mm: float
    dash_mm: tuple[float, ...] = ()
    grey: float = 0.0


LOOKS: dict[Pen, Look] = {
    Pen.CUT: Look(0.5),
    Pen.FIRST_CUT: Look(0.25, (6.0, 3.0)),
    Pen.DRILL: Look(0.3),
    Pen.MARK: Look(0.25),
    Pen.GHOST: Look(0.15, (0.6, 1.2)),
    Pen.OUTLINE: Look(0.4),
    Pen.HIDDEN: Look(0.2, (2.4, 1.2)),
    Pen.CENTRE: Look(0.15, (8.0, 1.2, 1.2, 1.2)),
    Pen.DIMENSION: Look(0.15),
    Pen.HATCH: Look(0.12),
    Pen.HIGHLIGHT: Look(1.0),
    Pen.PLOT: Look(0.5),
    Pen.PLOT_BAND: Look(0.25, (1.5, 1.0)),
    Pen.GRID: Look(0.1, (), 0.55),
    Pen.STAMP: Look(0.1, (), 0.8),
}
"""Weight and dash by pen [mm on paper]. Only the cut line is heavy and unbroken, only the first cut is long-dashed."""

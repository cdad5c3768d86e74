"""Stiffeners as parts: strips of panel stock on edge inside the box, where the strength of the panels put them."""

from __future__ import annotations

from calc.box.joints import BoxShape, Solid
from calc.box.parts import BoxPart, make_strip
from calc.settled import Settled
from calc.shapes.part_names import say_rib
from calc.strength.structure import Strength


def plan_ribs(project: Settled, shape: BoxShape, strength: Strength, first_number: int) -> tuple[BoxPart, ...]:
    """Return the ribs that the strength of the panels asks for, numbered from `first_number`."""
    solids = [
        Solid(f"rib {panel.name} {index}", panel.face, block, say_rib(panel.face, index))
        for panel in strength.panels
        for index, block in enumerate(panel.rib_blocks, start=1)
    ]
    return tuple(
        make_strip(project, shape, solid, "stiffener", str(number))
        for number, solid in enumerate(solids, start=first_number)
    )

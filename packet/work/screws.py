"""What the word files may put in about screws: how many each step drives, how long and how far apart."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from calc.box.mounts import CASTER_SCREWS
from calc.strength.fasteners import choose_inside_screw, choose_plate_screw

if TYPE_CHECKING:
    from calc.box.screws import ScrewRow
    from calc.design import Design
    from calc.project import Boxed
    from packet.work.writer import Writer


@dataclass(frozen=True)
class ScrewFacts:
    length: str
    count: int


def tell_screws(project: Boxed, design: Design, writer: Writer) -> Mapping[str, Any]:
    """Return how many screws each step drives, and how far apart: as the cut list counts them."""
    own = {(strip.name, panel.name) for panel in design.panels for strip in panel.strips if strip.inside}
    strips = [row for row in design.rows if (row.through, row.into) in own or (row.into, row.through) in own]
    others = [row for row in design.rows if row not in strips]
    removable = [row for row in others if not row.from_inside and row.through == design.box.removable]
    joints = [row for row in others if not row.from_inside and row.through != design.box.removable]
    inside = [row for row in others if row.from_inside]
    cleats = [row for row in inside if "cleat" in row.through]
    rails = [row for row in inside if "cleat" not in row.through]

    def count(rows: list[ScrewRow]) -> int:
        return sum(len(row.spots) for row in rows)

    def apart(rows: list[ScrewRow]) -> str:
        return writer.mark(max((row.spacing_mm for row in rows), default=0.0))

    def tell_lengths(rows: list[ScrewRow]) -> tuple[ScrewFacts, ...]:
        """Return the screws by length: two stocks of unlike thickness take two."""
        counts: dict[float, int] = {}
        for row in rows:
            length = design.strength.box_screw_mm
            if row.from_inside:
                length = choose_inside_screw(project.display.system, row.grip_mm, project.box.panel.thickness_mm)
            counts[length] = counts.get(length, 0) + len(row.spots)
        return tuple(ScrewFacts(writer.length(length), number) for length, number in sorted(counts.items()))

    return {
        "screw_length": writer.length(design.strength.box_screw_mm),
        "joint_screws": count(joints),
        "screw_apart": apart(joints + cleats),
        "face_screws": count(removable),
        "face_apart": apart(removable),
        "rib_screws": tell_lengths([row for row in strips if not row.from_inside]),
        "fixed_cleat_screws": tell_lengths([row for row in strips if row.from_inside]),
        "cleat_screws": tell_lengths(cleats),
        "rail_screw_sizes": tell_lengths(rails),
        "cart_screws": design.mount.screws,
        "caster_screws": design.mount.casters * CASTER_SCREWS,
        "caster_screw_length": writer.length(
            choose_plate_screw(project.display.system, project.box.panel.thickness_mm)
        ),
        "rail_screws": count(rails),
        "rail_apart": apart(rails),
    }

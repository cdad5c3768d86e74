"""Findings on what carries the box: rails clear of openings, packing under a ceiling, a cart through its door."""

from __future__ import annotations

from calc.box.joints import BoxShape
from calc.box.mounts import Mount
from calc.box.ports import PortDesign
from calc.box.room import find_port_width
from calc.box.standing import find_rail_thickness, place_base
from calc.finding import Finding, Limit, Said, Subject, Verdict, hold, tell
from calc.project import Face
from calc.settled import Settled
from calc.shapes.faces import find_flat
from calc.shapes.judge import keep_telling, say_with
from calc.shapes.part_names import say_inlet
from calc.strength.handling import Handling

SLIDE_MM = 25.0


def judge_mount(
    project: Settled, shape: BoxShape, mount: Mount, ports: tuple[PortDesign, ...], handling: Handling
) -> tuple[Finding, ...]:
    """Return the findings about rails or cart."""
    if mount.wheels_mm is not None:
        return _judge_cart(project, shape, ports, handling)
    return (*keep_telling(_judge_rails(project, shape, mount, ports)), *_judge_packing(project, shape))


def _judge_rails(project: Settled, shape: BoxShape, mount: Mount, ports: tuple[PortDesign, ...]) -> list[Finding]:
    """A rail must not lie across an opening of the face it is screwed to."""
    inlet, found = project.box.inlet, list[Finding]()
    openings: list[tuple[Subject, str | Said, Face, float, float, float]] = [
        (Subject("port", p.name), p.name, p.port.face, p.port.across_mm, p.port.up_mm, p.flange_mm) for p in ports
    ]
    duct = inlet.across_mm, inlet.up_mm, inlet.diameter_mm
    openings.append((Subject("inlet"), say_inlet(), inlet.face, *duct))
    for rail in mount.parts:
        left, bottom, right, top = find_flat(rail.face, rail.block, shape.outside)
        for subject, called, face, across, up, wide in openings:
            if face != rail.face:
                continue
            beside = max(left - across, across - right)
            above = max(bottom - up, up - top)
            room = max(beside, above) - wide / 2
            names: dict[str, str | Said] = {"rail": rail.called, "opening": called}
            found.append(
                hold(
                    f"mount.{rail.name}.{subject.name or subject.kind}",
                    Said("mount_findings.rail_what", names=names),
                    room,
                    Limit(0.0, "at least"),
                    Said("mount_findings.rail_why"),
                    topic="box",
                    subjects=(subject, Subject("panel", face), Subject("part", rail.name)),
                    mends=(say_with("mount_findings.rail_mend", names, by=-room),),
                )
            )
    return found


def _judge_packing(project: Settled, shape: BoxShape) -> list[Finding]:
    """Rails under a ceiling must reach it: what lies between is packed out."""
    if project.box.hung != "ceiling":
        return []
    top = project.box.underside_mm + shape.outside.height + find_rail_thickness(project)
    gap = project.shop.ceiling_mm - top
    if gap <= 1.0:
        return []
    why = Said("mount_findings.packing_why")
    what = Said("mount_findings.packing_what")
    mends = (say_with("mount_findings.packing_mend", None, ("by",), by=gap),)
    return [tell("mount.packing", what, why, Verdict.TIGHT, topic="box", value=gap, mends=mends)]


def _judge_cart(
    project: Settled, shape: BoxShape, ports: tuple[PortDesign, ...], handling: Handling
) -> tuple[Finding, ...]:
    inside = shape.outside.width - 2 * project.box.panel.thickness_mm
    hanging = [port for port in ports if port.port.kind == "filter"]
    widest = max((find_port_width(project, port.port) for port in hanging), default=0.0)
    found = []
    if widest:
        found.append(
            hold(
                "cart.way",
                Said("mount_findings.way_what"),
                inside,
                Limit(widest + SLIDE_MM, "at least"),
                Said("mount_findings.way_why"),
                topic="strength",
                mends=(say_with("mount_findings.way_mend", by=widest + SLIDE_MM - inside),),
            )
        )
    found.append(
        tell(
            "cart.casters",
            Said("mount_findings.casters_what"),
            Said("mount_findings.casters_why"),
            topic="strength",
            value=handling.caster_kg,
            kind="mass_kg",
        )
    )
    wide, high = project.shop.doorway_width_mm, project.shop.doorway_height_mm
    if wide is not None and high is not None:
        base = place_base(project, shape)
        across = min(base.right_mm - base.left_mm, base.back_mm - base.front_mm)
        top = project.box.underside_mm + shape.outside.height
        value, limit = (across, wide) if across - wide >= top - high else (top, high)
        found.append(
            hold(
                "door.cart",
                Said("mount_findings.door_what"),
                value,
                Limit(limit, "at most", source="project file"),
                Said("mount_findings.door_why"),
                topic="reach",
                mends=(say_with("mount_findings.door_mend", by=value - limit),),
            )
        )
    return tuple(found)

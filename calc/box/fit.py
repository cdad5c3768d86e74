"""Do the ports, the inlet and the lining fit their faces, the box its room, and the parts their sheets?"""

from __future__ import annotations

import math
from itertools import combinations

from calc.box.inlet_place import find_free_faces, find_way_aside
from calc.box.joints import BoxShape, find_cleat_width, measure_box
from calc.box.lining import LiningPlan
from calc.box.parts import BoxPart
from calc.box.ports import PortDesign
from calc.box.room import HOLE_TO_WALL_MM, find_port_width
from calc.box.standing import find_stand_off
from calc.finding import Amount, Finding, Limit, Said, Subject, Verdict, hold, tell
from calc.project import Face
from calc.settled import Settled
from calc.shapes.faces import AXIS, SIDES, Side, find_flat, find_wall
from calc.shapes.judge import keep_telling, say_with
from calc.shapes.part_names import say_face
from calc.trade import PANEL_SCREW_EDGE_MM

LIFT_OFF_MM = 300.0
"""Room to drive screws and lift a panel off (common practice, no source)."""

THICKNESS_SHARE = 0.2
"""A measured thickness this far from the one sold is taken for a slip or the wrong stock."""

_OPPOSITE_SIDE: dict[Side, Side] = {"left": "right", "right": "left", "bottom": "top", "top": "bottom"}


def judge_ports(
    project: Settled, shape: BoxShape, parts: tuple[BoxPart, ...], ports: tuple[PortDesign, ...]
) -> tuple[Finding, ...]:
    """Return the findings about every port on its face: walls, lining, panel edge, neighbours, inlet."""
    walls: list[Finding] = []
    edges: list[Finding] = []
    found: list[Finding] = []
    panels = {part.face: part for part in parts if part.kind == "panel"}
    for port in ports:
        walls.append(_judge_walls(project, shape, port))
        edges.append(_judge_edge(panels[port.port.face], port))
    for a, b in combinations(ports, 2):
        if a.port.face == b.port.face:
            found.append(_judge_neighbours(project, shape, a, b))
    walls.append(_judge_inlet_walls(project, shape))
    for port in ports:
        if port.port.face == project.box.inlet.face:
            found.append(_judge_inlet(project, shape, port, ports))
        if port.port.face == "bottom" and project.box.hung == "wall":
            found.append(_judge_behind(project, port))
    return (*keep_telling(walls), *keep_telling(edges), *keep_telling(found))


def find_lining_at(project: Settled, face: Face, side: Side) -> float:
    """Return how far [mm] lining or cleats stand out from the wall that meets a face at a side (seen from outside)."""
    wall = find_wall(face, side)
    lining = project.lining.thickness_mm if project.lining and wall in project.lining.faces else 0.0
    shape = measure_box(project.box)
    return max(lining, find_cleat_width(shape, project.box.panel.thickness_mm, face, wall))


def _list_gaps(shape: BoxShape, face: Face, across: float, up: float, radius: float) -> dict[Side, float]:
    left, bottom, right, top = find_flat(face, shape.cavity, shape.outside)
    return {
        "left": across - radius - left,
        "bottom": up - radius - bottom,
        "right": right - across - radius,
        "top": top - up - radius,
    }


def _judge_walls(project: Settled, shape: BoxShape, port: PortDesign) -> Finding:
    """The hole must clear the inner walls and the lining on them."""
    face = port.port.face
    gaps = _list_gaps(shape, face, port.port.across_mm, port.port.up_mm, port.hole_mm / 2)
    side = min(SIDES, key=lambda s: gaps[s] - find_lining_at(project, face, s))
    lining = find_lining_at(project, face, side)
    other = _OPPOSITE_SIDE[side]
    short = lining - gaps[side]
    spare = gaps[other] - find_lining_at(project, face, other)
    names: dict[str, str | Said] = {
        "port": port.name,
        "side": say_face(find_wall(face, side)),
        "way": say_face(find_wall(face, other)),
    }
    if spare >= short:
        mends = [say_with("fit.move_port", names, by=short)]
    else:
        mends = [say_with("fit.box_larger", names, by=short - spare)]
    if lining > 0 and gaps[side] > 0:
        mends.append(say_with("fit.lining_thinner", names, ("thick",), thick=gaps[side]))
    why = Said("fit.wall_why")
    if gaps[side] + gaps[other] < 0:
        why = Said("fit.wall_too_large")
    return hold(
        f"wall.{port.name}",
        Said("fit.wall_what", names=names),
        gaps[side],
        Limit(lining, "at least", tight=HOLE_TO_WALL_MM - 1.0),
        why,
        topic="box",
        subjects=_place(port),
        mends=tuple(mends),
    )


def _judge_edge(panel: BoxPart, port: PortDesign) -> Finding:
    """The ring's screws must keep off the panel's edges, or the hole leaves the panel altogether."""
    across = port.port.across_mm - panel.left_mm
    up = port.port.up_mm - panel.bottom_mm
    gaps: dict[Side, float] = {
        "left": across,
        "bottom": up,
        "right": panel.width_mm - across,
        "top": panel.height_mm - up,
    }
    side = min(SIDES, key=lambda s: gaps[s])
    room = gaps[side] - port.screw_circle_mm / 2
    spare = gaps[_OPPOSITE_SIDE[side]] - port.screw_circle_mm / 2 - PANEL_SCREW_EDGE_MM
    short = PANEL_SCREW_EDGE_MM - room
    face, other = port.port.face, _OPPOSITE_SIDE[side]
    names: dict[str, str | Said] = {
        "port": port.name,
        "side": say_face(find_wall(face, side)),
        "way": say_face(find_wall(face, other)),
        "panel": say_face(panel.face),
    }
    if spare >= short:
        mends = (say_with("fit.move_port", names, by=short),)
    else:
        mends = (say_with("fit.panel_larger", names, by=short - spare),)
    why = Said("fit.edge_why")
    if port.hole_mm > min(panel.width_mm, panel.height_mm):
        why = Said("fit.edge_too_large")
    return hold(
        f"edge.{port.name}",
        Said("fit.edge_what", names=names),
        room,
        Limit(PANEL_SCREW_EDGE_MM, "at least"),
        why,
        topic="box",
        subjects=_place(port),
        mends=mends,
    )


def _judge_neighbours(project: Settled, shape: BoxShape, a: PortDesign, b: PortDesign) -> Finding:
    apart = math.dist((a.port.across_mm, a.port.up_mm), (b.port.across_mm, b.port.up_mm))
    room = apart - (find_port_width(project, a.port) + find_port_width(project, b.port)) / 2
    grip = max(a.port.closure.grip_mm, b.port.closure.grip_mm)
    names = {"a": a.name, "b": b.name}
    left, _, right, _ = find_flat(a.port.face, shape.cavity, shape.outside)
    low, high = sorted((a, b), key=lambda p: p.port.across_mm)
    spare = low.port.across_mm - left - low.flange_mm / 2 + right - high.port.across_mm - high.flange_mm / 2
    if spare >= grip - room:
        mends = (say_with("fit.move_apart", names, by=grip - room),)
    else:
        mends = (say_with("fit.box_longer", names, by=grip - room - max(spare, 0.0)),)
    why = Said("fit.grip_why")
    if room < 0:
        why = Said("fit.grip_overlap")
    what, subjects = Said("fit.grip_what", names=names), (*_place(a), Subject("port", b.name))
    return hold(
        f"grip.{a.name}.{b.name}", what, room, limit_grip(grip), why, topic="box", subjects=subjects, eases=mends
    )


def limit_grip(grip_mm: float) -> Limit:
    """Return the limit on room for a hand: under the wanted grip it is awkward, under half of it nobody gets in."""
    return Limit(grip_mm / 2, "at least", tight=grip_mm / 2)


def _judge_inlet_walls(project: Settled, shape: BoxShape) -> Finding:
    inlet = project.box.inlet
    gaps = _list_gaps(shape, inlet.face, inlet.across_mm, inlet.up_mm, inlet.diameter_mm / 2)
    side = min(SIDES, key=lambda s: gaps[s] - find_lining_at(project, inlet.face, s))
    lining, other = find_lining_at(project, inlet.face, side), _OPPOSITE_SIDE[side]
    short, spare = lining - gaps[side], gaps[other] - find_lining_at(project, inlet.face, other)
    names: dict[str, str | Said] = {
        "side": say_face(find_wall(inlet.face, side)),
        "way": say_face(find_wall(inlet.face, other)),
    }
    if spare >= short:
        mends = (say_with("fit.move_inlet", names, by=short),)
    else:
        mends = (say_with("fit.inlet_box_larger", names, by=short - spare),)
    return hold(
        "wall.inlet",
        Said("fit.inlet_wall_what", names=names),
        gaps[side],
        Limit(lining, "at least"),
        Said("fit.inlet_wall_why"),
        topic="box",
        subjects=(Subject("inlet"), Subject("panel", inlet.face)),
        mends=mends,
    )


def _mend_inlet(project: Settled, shape: BoxShape, ports: tuple[PortDesign, ...]) -> tuple[Said, ...]:
    """Return the shortest way out for an inlet that crosses a port."""
    mends, inlet = [], project.box.inlet
    aside = find_way_aside(project, shape, ports)
    if aside is not None:
        names: dict[str, str | Said] = {"way": say_face(find_wall(inlet.face, aside.side))}
        mends.append(say_with("fit.move_inlet", names, by=aside.by_mm))
    free = find_free_faces(project, shape)
    if free:
        mends.append(Said("fit.inlet_free_face", names={"face": say_face(free[0])}))
    return tuple(mends) or (Said("fit.inlet_no_room"),)


def _judge_inlet(project: Settled, shape: BoxShape, port: PortDesign, ports: tuple[PortDesign, ...]) -> Finding:
    inlet = project.box.inlet
    apart = math.dist((port.port.across_mm, port.port.up_mm), (inlet.across_mm, inlet.up_mm))
    room = apart - inlet.diameter_mm / 2 - port.flange_mm / 2
    names = {"port": port.name}
    return hold(
        f"inlet.{port.name}",
        Said("fit.inlet_what", names=names),
        room,
        Limit(0.0, "at least", tight=10.0),
        Said("fit.inlet_why"),
        topic="box",
        subjects=(*_place(port), Subject("inlet")),
        mends=_mend_inlet(project, shape, ports) if room < 0 else (),
    )


def _judge_behind(project: Settled, port: PortDesign) -> Finding:
    """A hand must get round lid and filter between them and the wall the box hangs on."""
    # the underside's lower edge is the back; the rail holds the box off the wall
    room = port.port.up_mm + find_stand_off(project) - find_port_width(project, port.port) / 2
    grip = port.port.closure.grip_mm
    return hold(
        f"grip.wall.{port.name}",
        Said("fit.behind_what", names={"port": port.name}),
        room,
        limit_grip(grip),
        Said("fit.grip_why"),
        topic="box",
        subjects=_place(port),
        eases=(say_with("fit.move_forward", {"port": port.name}, by=grip - room),),
    )


def judge_access(project: Settled, ports: tuple[PortDesign, ...]) -> tuple[Finding, ...]:
    """Return what nobody can get at: openings and the removable face toward the wall or close under the ceiling."""
    box, found = project.box, list[Finding]()
    names = {"face": say_face(box.removable)}
    if box.hung == "wall" and box.removable == "back":
        found.append(
            _say_shut("access.removable", Said("fit.removable_what", names=names), (Subject("panel", box.removable),))
        )
    if box.hung == "wall" and box.inlet.face == "back":
        found.append(
            tell(
                "access.inlet",
                Said("fit.inlet_back_what"),
                Said("fit.inlet_back_why"),
                Verdict.TIGHT,
                topic="box",
                subjects=(Subject("inlet"),),
                mends=(Said("fit.inlet_back_mend"),),
            )
        )
    for port in ports:
        what = Said("fit.lid_what", names={"port": port.name, "face": say_face(port.port.face)})
        if box.hung == "wall" and port.port.face == "back":
            found.append(_say_shut(f"access.{port.name}", what, _place(port)))
        elif port.port.face == "top":
            closure = port.port.closure
            need = closure.ring_height_mm + closure.lid_height_mm + closure.grip_mm
            mends = (say_with("fit.lid_top_mend", need=need),)
            why = Said("fit.lid_top_why")
            limit, key = Limit(need, "at least"), f"access.{port.name}"
            found.append(
                hold(key, what, box.ceiling_gap_mm, limit, why, topic="box", subjects=_place(port), mends=mends)
            )
    if box.removable == "top":
        what = Said("fit.removable_top_what", names=names)
        mends = (say_with("fit.removable_top_mend", need=LIFT_OFF_MM),)
        limit, why = Limit(LIFT_OFF_MM, "at least"), Said("fit.removable_top_why")
        found.append(hold("access.removable", what, box.ceiling_gap_mm, limit, why, topic="box", mends=mends))
    return tuple(found)


def _say_shut(key: str, what: Said, subjects: tuple[Subject, ...]) -> Finding:
    why, mends = Said("fit.shut_why"), (Said("fit.shut_mend"),)
    return tell(key, what, why, Verdict.DOES_NOT_FIT, topic="box", subjects=subjects, mends=mends)


def _place(port: PortDesign) -> tuple[Subject, Subject]:
    """Return what a finding on a port's place speaks of: the hole, and the panel it goes into."""
    return Subject("port", port.name), Subject("panel", port.port.face)


def judge_stock(project: Settled) -> tuple[Finding, ...]:
    """Return the finding about the panel's measured thickness against the one it is sold as."""
    panel = project.box.panel
    off = abs(panel.thickness_mm / panel.nominal_mm - 1)
    names = {"stock": panel.stock}
    finer = project.display.system == "inch"  # a thirty-second hides what is told apart here
    measured, sold = Amount(panel.thickness_mm, "length_mm", fine=finer), Amount(panel.nominal_mm, "length_mm")
    return (
        hold(
            "stock.thickness",
            Said("fit.thickness_what", {"measured": measured, "sold": sold}, names),
            off,
            Limit(THICKNESS_SHARE, "at most"),
            Said("fit.thickness_why"),
            topic="box",
            kind="share",
            mends=(say_with("fit.thickness_mend", names, ("high",),
                      low=panel.nominal_mm * 0.8, high=panel.nominal_mm * 1.2, sold=panel.nominal_mm),),
        ),
    )  # fmt: skip


def judge_lining(project: Settled, plan: LiningPlan | None) -> tuple[Finding, ...]:
    """Return the finding about the room that the lining leaves in the box."""
    if plan is None or project.lining is None:
        return ()
    axis = min(range(3), key=plan.clear.along)
    smallest = plan.clear.along(axis)
    short = project.box.inlet.diameter_mm - smallest
    thinner = short / max(sum(AXIS[face] == axis for face in set(project.lining.faces)), 1)
    if thinner < project.lining.thickness_mm:
        mend = say_with("fit.lining_mend", thinner=thinner, by=short)
    else:
        mend = say_with("fit.lining_box_mend", by=short)
    return (
        hold(
            "lining.clear",
            Said("fit.lining_what"),
            smallest,
            Limit(project.box.inlet.diameter_mm, "at least"),
            Said("fit.lining_why"),
            topic="box",
            mends=(mend,),
        ),
    )

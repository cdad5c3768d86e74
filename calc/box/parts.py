"""The box's parts as they are cut: size, thickness, grain, which edge shows, grooves and holes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from calc.box.joints import BoxShape, Member, Solid, find_grooves, place_cleats, place_panels
from calc.box.ports import PortDesign, draw_hole
from calc.box.screws import ScrewRow
from calc.finding import Said, Subject
from calc.project import Face
from calc.settled import Settled
from calc.shapes.faces import AXIS, Block, find_face_size, find_flat
from calc.shapes.part_names import say_face, say_inlet, say_panel
from calc.shapes.shapes import Circle, Feature, FlatPart, Layer, Line, Point, Size, make_rectangle

INLET_FLANGE_MM = 25.0
"""Width of the starting collar's flange round the inlet hole (common practice, no source)."""

SCREW_DRILL_MM = 4.5
"""Clearance hole for a No. 8 screw (4.17 mm) through the covering panel (common practice, no source)."""


@dataclass(frozen=True, kw_only=True)
class Hole:
    """A round hole; across_mm, up_mm from the part's own lower left corner, seen from outside."""

    name: str
    kind: str  # filter, inspection, gauge or inlet
    across_mm: float
    up_mm: float
    diameter_mm: float
    flange_mm: float  # what lands round it outside


@dataclass(frozen=True)
class Groove:
    """A rabbet or dado on the inner face, from the part's own lower left corner, seen from outside."""

    left_mm: float
    bottom_mm: float
    width_mm: float
    height_mm: float
    depth_mm: float


PartKind = Literal["panel", "cleat", "stiffener", "mount"]


@dataclass(frozen=True, kw_only=True)
class BoxPart:
    """A panel, cleat or stiffener. width_mm across and height_mm up as seen from outside on its face.

    grain: ``width``, ``height`` or ``none``; left_mm, bottom_mm: its lower left corner on the box's face
    member: of what carries the box, for a part of kind ``mount``
    shows: edges that show when the box is together (``left``, ``right``, ``top``, ``bottom`` of the part)
    """

    number: str
    name: str
    called: Said
    kind: PartKind
    face: Face
    width_mm: float
    height_mm: float
    thickness_mm: float
    material: str
    grain: str
    block: Block
    left_mm: float
    bottom_mm: float
    holes: tuple[Hole, ...] = ()
    grooves: tuple[Groove, ...] = ()
    shows: tuple[str, ...] = ()
    quantity: int = 1
    member: Member | None = None

    @property
    def whole(self) -> Said:
        """What it is called in a sentence: ``front panel`` where a list says ``front``."""
        return say_panel(self.face) if self.kind == "panel" else self.called


def plan_parts(project: Settled, shape: BoxShape, ports: tuple[PortDesign, ...]) -> tuple[BoxPart, ...]:
    """Return panels (innermost first, the removable face last), then cleats, numbered as in the cut list."""
    stock = project.box.panel
    panels = place_panels(shape, stock.thickness_mm)
    by_face = {panel.face: panel for panel in panels}
    order = [*shape.cover[2], *shape.cover[1], shape.cover[0][1], shape.removable]
    parts = [
        make_panel(project, shape, by_face[face], find_grooves(by_face[face], panels), ports, str(number))
        for number, face in enumerate(order, start=1)
    ]
    for number, cleat in enumerate(place_cleats(shape, stock.thickness_mm), start=len(parts) + 1):
        parts.append(make_strip(project, shape, cleat, "cleat", str(number)))
    return tuple(parts)


def make_panel(
    project: Settled,
    shape: BoxShape,
    solid: Solid,
    grooves: tuple[Block, ...],
    ports: tuple[PortDesign, ...],
    number: str,
) -> BoxPart:
    """Return a panel as it is cut, with its holes, grooves and the edges that show."""
    left, bottom, right, top = find_flat(solid.face, solid.block, shape.outside)
    holes = [
        Hole(name=each.name, kind=each.port.kind, across_mm=each.port.across_mm - left, up_mm=each.port.up_mm - bottom,
             diameter_mm=each.hole_mm, flange_mm=each.flange_mm)
        for each in ports if each.port.face == solid.face
    ]  # fmt: skip
    inlet = project.box.inlet
    if inlet.face == solid.face:
        holes.append(
            Hole(name="inlet", kind="inlet", across_mm=inlet.across_mm - left, up_mm=inlet.up_mm - bottom,
                 diameter_mm=inlet.diameter_mm, flange_mm=inlet.diameter_mm + 2 * INLET_FLANGE_MM)
        )  # fmt: skip
    flats = [(find_flat(solid.face, block, shape.outside), block.along(AXIS[solid.face])) for block in grooves]
    cut = tuple(Groove(f[0] - left, f[1] - bottom, f[2] - f[0], f[3] - f[1], deep) for f, deep in flats)
    width, height = right - left, top - bottom
    return BoxPart(
        number=number,
        name=solid.name,
        called=solid.called,
        kind="panel",
        face=solid.face,
        width_mm=width,
        height_mm=height,
        thickness_mm=project.box.panel.thickness_mm,
        material=project.box.panel.stock,
        grain=choose_grain(project, width, height),
        block=solid.block,
        left_mm=left,
        bottom_mm=bottom,
        holes=tuple(holes),
        grooves=cut,
        shows=_find_showing(solid.face, (left, bottom, right, top), shape),
    )


def make_strip(project: Settled, shape: BoxShape, solid: Solid, kind: PartKind, number: str) -> BoxPart:
    """Return a cleat or stiffener: its length is its width in the cut list, whichever way it lies in the box."""
    sides = sorted((solid.block.along(axis) for axis in range(3)), reverse=True)
    left, bottom, _, _ = find_flat(solid.face, solid.block, shape.outside)
    return BoxPart(
        number=number,
        name=solid.name,
        called=solid.called,
        kind=kind,
        face=solid.face,
        width_mm=sides[0],
        height_mm=sides[1],
        thickness_mm=project.box.panel.thickness_mm,
        material=project.box.panel.stock,
        grain=choose_grain(project, sides[0], sides[1]),
        block=solid.block,
        left_mm=left,
        bottom_mm=bottom,
        member=solid.member,
    )


def choose_grain(project: Settled, width: float, height: float) -> str:
    """Return which way the grain runs: along the longer side, or ``none`` where it does not matter."""
    if not project.box.panel.grain_matters:
        return "none"
    return "width" if width >= height else "height"


def _find_showing(face: Face, flat: tuple[float, float, float, float], shape: BoxShape) -> tuple[str, ...]:
    wide, high = find_face_size(face, shape.outside)
    ends = (("left", flat[0]), ("bottom", flat[1]), ("right", wide - flat[2]), ("top", high - flat[3]))
    return tuple(name for name, gap in ends if gap < 1e-6)


def draw_part(part: BoxPart, ports: tuple[PortDesign, ...], rows: tuple[ScrewRow, ...]) -> FlatPart:
    """Return a part as a flat part seen from outside: outline, port lines, inlet, screw holes, grooves behind."""
    features = [
        Feature(shape=make_rectangle(0.0, 0.0, part.width_mm, part.height_mm), layer=Layer.CUT, label=part.called)
    ]
    by_name = {port.name: port for port in ports}
    cut = [by_name[hole.name] for hole in part.holes if hole.kind != "inlet"]
    for hole in part.holes:
        centre = Point(hole.across_mm, hole.up_mm)
        if hole.kind == "inlet":
            features.append(Feature(shape=Circle(centre, hole.diameter_mm / 2), layer=Layer.CUT, label=say_inlet()))
            for x, y in ((8.0, 0.0), (0.0, 8.0)):
                ends = Point(centre.x - x, centre.y - y), Point(centre.x + x, centre.y + y)
                features.append(Feature(shape=Line(*ends), layer=Layer.MARK))
        else:
            features += draw_hole(by_name[hole.name], centre, ghosts=False)
    for row in rows:
        if row.through == part.name and not row.from_inside:
            spots = [Point(spot.x - part.left_mm, spot.y - part.bottom_mm) for spot in row.spots]
            features += [Feature(shape=Circle(spot, SCREW_DRILL_MM / 2), layer=Layer.DRILL) for spot in spots]
    for groove in part.grooves:
        outline = make_rectangle(groove.left_mm, groove.bottom_mm, groove.width_mm, groove.height_mm)
        features.append(Feature(shape=outline, layer=Layer.GHOST, label=Said("parts.groove")))
    return FlatPart(
        kind="panel" if part.kind == "panel" else "strip",
        number=part.number,
        name=f"{part.name} panel" if part.kind == "panel" else part.name,
        features=tuple(features),
        quantity=part.quantity,
        material=part.material,
        thickness_mm=part.thickness_mm,
        face=say_face(part.face) if part.kind == "panel" else Said("part_names.face_side"),
        grain=part.grain,
        full_size=False,
        cnc=part.kind == "panel",
        sizes=(Size(Said("parts.width"), part.width_mm), Size(Said("parts.height"), part.height_mm)),
        assumed=tuple(dict.fromkeys(path for port in cut for path in (*port.assumed, *port.ring_assumed))),
        subjects=(
            Subject("part", part.name),
            *((Subject("panel", part.face),) if part.kind == "panel" else ()),
            *(Subject("inlet") if hole.kind == "inlet" else Subject("port", hole.name) for hole in part.holes),
        ),
        called=part.whole,
    )

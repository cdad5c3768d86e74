"""The hole for the duct into the box, as a template of its own."""

from __future__ import annotations

import math

from calc.box.lining import HOLE_PLAY_MM
from calc.box.ports import INDEX_SIDE
from calc.cutting.lids import mark_centre
from calc.finding import Said, Subject
from calc.settled import Settled
from calc.shapes.part_names import say_outside
from calc.shapes.shapes import Circle, Feature, FlatPart, Layer, Line, Point, Size


def make_inlet_hole(project: Settled, number: str, grain: str) -> FlatPart:
    """Return the inlet's hole: first cut, final line, centre and quarter marks, and the hole in the lining there."""
    inlet, panel, middle = project.box.inlet, project.box.panel, Point(0.0, 0.0)
    first = inlet.diameter_mm - 2 * project.methods.allowance_mm
    features = [
        Feature(shape=Circle(middle, first / 2), layer=Layer.FIRST_CUT, label=Said("ports.cut_first"), waste="inside"),
        Feature(shape=Circle(middle, inlet.diameter_mm / 2), layer=Layer.CUT, label=Said("ports.final_line")),
        *mark_centre(middle),
    ]
    for angle in (0.0, 90.0, 180.0, 270.0):  # ghosts: worth no sheet of paper of their own
        turn, near = math.radians(angle), inlet.diameter_mm / 2 + 3.0
        ends = [Point(reach * math.cos(turn), reach * math.sin(turn)) for reach in (near, near + 6.0)]
        features.append(Feature(shape=Line(ends[0], ends[1]), layer=Layer.GHOST))
    up = Line(Point(0.0, 12.0), Point(0.0, 24.0))
    features.append(Feature(shape=up, layer=Layer.MARK, label=Said(f"inlet_hole.to_{INDEX_SIDE[inlet.face]}")))
    if project.lining is not None and inlet.face in project.lining.faces:
        lining = Circle(middle, inlet.diameter_mm / 2 + HOLE_PLAY_MM)
        features.append(
            Feature(shape=lining, layer=Layer.GHOST, label=Said("ports.lining_hole"), label_deg=45.0, whole=True)
        )
    return FlatPart(
        number=number,
        name="hole for the inlet",
        features=tuple(features),
        quantity=1,
        material=panel.stock,
        thickness_mm=panel.thickness_mm,
        face=say_outside(inlet.face),
        kind="hole",
        grain=grain,
        assumed=project.list_assumed("filter_box.inlet", "diameter"),
        sizes=(Size(Said("ports.final"), inlet.diameter_mm), Size(Said("ports.first_cut"), first)),
        notes=(Said("inlet_hole.note"),),
        called=Said("inlet_hole.hole"),
        subjects=(Subject("inlet"),),
    )

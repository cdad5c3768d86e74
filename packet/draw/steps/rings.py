"""Small pictures of pail, ring, collar, panel, lid and filter at a step: what it touches is toned dark and named."""

from __future__ import annotations

import math

from calc.box.ports import CollarDesign, PortDesign
from calc.design import Design, Made
from calc.project import Cartridge, Panel
from calc.shapes.shapes import Box, Circle, FlatKind, FlatPart, Layer, Line, Path, Point, find_bounds
from packet.draw.model import Drawing, Entity, Fill, Pen, Stroke, Words
from packet.draw.strokes import close_drawing, draw_circle, draw_line, draw_rectangle, fill_rectangle, join_points
from packet.words.phrases import take_words

FOCUS, PLAIN = 0.5, 0.93
SPARE_MM = 10.0  # collar sticking out before it is trimmed
NAME_MM = 1.9
RIGHT_WORDS = (0.5, 0.5, 17.0, 0.5)
"""Paper margins of a picture with names on its right."""
TONES = {True: FOCUS, False: PLAIN}


def name_at(x: float, y: float, text: str, anchor: str = "start") -> Words:
    """Return a small name, its size meant on paper."""
    return Words(at=Point(x, y), text=text, size_mm=NAME_MM, anchor=anchor)


def draw_pail(panel: Panel, port: CollarDesign, language: str, focus: str, scale: float) -> Drawing:
    """Return a pail from the side. focus: ``across`` (where to measure), ``ring``, ``strip`` or ``cut``."""
    words = take_words("step_pictures", language)
    pail, closure = port.port.pail, port.port.closure
    top, low, high = pail.top_mm / 2, pail.bottom_mm / 2, pail.height_mm
    ring = closure.ring_height_mm
    collar = ring + panel.thickness_mm + SPARE_MM
    at = {h: low + (top - low) * h / high for h in (0.0, high - ring, high - collar)}
    body = join_points([(-low, 0.0), (low, 0.0), (top, high), (-top, high)])
    entities: list[Entity] = [Fill(body, 0.97), Stroke(body, Pen.OUTLINE)]
    f, t = closure.flange_mm / 2, closure.flange_thick_mm
    right = f + 2 / scale
    if focus != "across":
        drawn = [(-top - 5, high - ring, top + 5, high + 4), (-f, high - ring, f, high - ring + t)]
        for left, bottom, end, up in drawn:
            entities += [
                fill_rectangle(left, bottom, end, up, TONES[focus == "ring"]),
                draw_rectangle(left, bottom, end, up),
            ]
    if focus == "across":
        y, half = high - ring, at[high - ring]
        entities += [draw_line(-half, y, half, y, Pen.CUT), *_point(half, y, 1, scale), *_point(-half, y, -1, scale)]
        entities.append(name_at(right, y - 0.7 / scale, words("measure_here")))
    elif focus == "ring":
        entities += [draw_line(0.0, high + 60, 0.0, high + 8, Pen.CUT), *_point_down(0.0, high + 8, scale)]
        entities.append(name_at(right, high - ring / 2, words("ring_all_round")))
    elif focus == "strip":
        upper, lower, y = at[high - ring], at[high - collar], high - collar
        wrap = join_points([(-lower, y), (lower, y), (upper, high - ring), (-upper, high - ring)])
        entities += [Fill(wrap, FOCUS), Stroke(wrap, Pen.OUTLINE), draw_line(-lower - 8, y, lower + 8, y, Pen.CUT)]
        entities.append(name_at(right, high - ring + 0.2 / scale, words("strip")))
        entities.append(name_at(right, y - 2.8 / scale, words("strip_line")))
    else:
        y, half = high - collar, at[high - collar]
        entities.append(draw_line(-half - 8, y, half + 8, y, Pen.CUT))
        entities.append(name_at(right, y - 1.4 / scale, words("cut_here")))
        entities.append(name_at(right, high - collar / 2 + 1.6 / scale, words("collar")))
    return close_drawing(f"pail, {focus}", entities, Box(-f, 0.0, f, high + 60), RIGHT_WORDS, scale)


def _point(x: float, y: float, way: int, scale: float) -> list[Entity]:
    s = 1.6 / scale
    return [Fill(join_points([(x, y), (x - way * s, y + s / 3), (x - way * s, y - s / 3)]), 0.0)]


def _point_down(x: float, y: float, scale: float) -> list[Entity]:
    s = 1.6 / scale
    return [Fill(join_points([(x, y), (x + s / 3, y + s), (x - s / 3, y + s)]), 0.0)]


NUMBERED: dict[str, FlatKind] = {"lid": "filter lid", "gasket": "gasket"}
"""What has a number of its own in the list of round parts, and what it is there: of the gaskets, the one on a lid."""


class RingSection:
    """Half a section through the ring as it hangs, the port's middle to the left; what a step touches is dark."""

    def __init__(
        self,
        panel: Panel,
        design: Made,
        port: CollarDesign,
        language: str,
        focus: tuple[str, ...],
        scale: float,
    ) -> None:
        self.panel, self.design, self.port = panel, design, port
        self.with_lid = False
        self.words, self.focus, self.scale = take_words("step_pictures", language), focus, scale
        self.entities: list[Entity] = []
        self.names: list[tuple[float, float, str]] = []

    def draw(self, cartridge: Cartridge | None = None) -> Drawing:
        """Return the section, with lid and that filter below the ring or without."""
        self.with_lid = with_lid = cartridge is not None
        closure, panel, pail = self.port.port.closure, self.panel, self.port.port.pail
        hole, flange = self.port.hole_mm / 2, self.port.flange_mm / 2
        t, f, ring = panel.thickness_mm, closure.flange_thick_mm, closure.ring_height_mm
        left, right = hole - (42.0 if with_lid else 12.0), flange + 16.0
        spare = SPARE_MM if "spare" in self.focus or (not with_lid and "screw" not in self.focus) else 0.0
        self._add("panel", hole + 0.6, 0.0, right, t, at=(right - 6, t / 2))
        self._add("collar", hole - pail.wall_mm, -ring * 0.7, hole, t, at=(hole - 1, t * 0.6))
        if spare:
            self._add("spare", hole - pail.wall_mm, t, hole, t + spare, at=(hole, t + spare * 0.6))
        self._add("ring", hole, -f, flange, 0.0, at=(flange - 4, -f / 2))
        self._add("ring", hole, -ring, hole + 5.0, -f)
        bead = next((name for name in ("sealant", "gasket") if name in self.focus and not with_lid), "")
        if bead:
            self._add(bead, hole + 1.0, -0.9, flange - 1.0, 0.9, at=(flange - 12, 0.0))
        if "screw" in self.focus or bead or with_lid:
            x = self.port.screw_circle_mm / 2
            self._add("screw", x - 3.8, -f - 2.4, x + 3.8, -f)
            self._add("screw", x - 1.4, -f, x + 1.4, min(14.0, t - 2.0), at=(x, -f - 1.5))
        if "mark" in self.focus:
            self.names.append((flange, -f, self.words("mark")))
            self.entities.append(draw_line(flange, -f - 3, flange, 3.0, Pen.HIGHLIGHT))
        low = -ring if cartridge is None else self._draw_lid(left, cartridge)
        self._write_names(right)
        return close_drawing(
            "section", self.entities, Box(left, low - 2, right, t + spare + 1), RIGHT_WORDS, self.scale
        )

    def _add(
        self, name: str, left: float, low: float, right: float, high: float, at: tuple[float, float] | None = None
    ) -> None:
        dark = name in self.focus
        self.entities.append(
            fill_rectangle(left, low, right, high, 0.0 if name in ("sealant", "gasket") and dark else TONES[dark])
        )
        self.entities.append(draw_rectangle(left, low, right, high, Pen.OUTLINE if dark else Pen.MARK))
        if dark and at is not None:
            self.names.append((*at, self._name(name)))

    def _draw_lid(self, left: float, cartridge: Cartridge) -> float:
        closure = self.port.port.closure
        under, lid = -closure.ring_height_mm, closure.lid_mm / 2
        opening = closure.land_outside_mm / 2 - closure.land_mm
        skirt = self.port.hole_mm / 2 - self.port.wall_mm - 1.5
        top, thick = under - closure.lid_thick_mm, cartridge.gasket_thick_mm * 0.65
        low = top - thick - 26.0
        inner, outer = cartridge.bore_mm / 2, cartridge.outside_mm / 2
        self._add("lid", opening, top, lid, under, at=(lid - 3, top + 1))
        self._add("lid", skirt - 3.0, under, skirt, under + closure.lid_height_mm)
        self._add(
            "gasket", opening, top - thick, opening + closure.land_mm, top, at=(opening + closure.land_mm, top - 2)
        )
        self._add("filter", max(left, inner), low, outer, top - thick, at=(outer - 3, low + 8))
        if "clip" in self.focus:
            hook = closure.hook_edge_mm / 2 - closure.hook_hole_mm / 2
            path = [
                (hook + 3, under + 5),
                (hook - 2, under + 5),
                (hook - 2, top - 1),
                (outer + 2, low + 12),
                (outer + 2, low + 4),
            ]
            self.entities.append(Stroke(join_points(path, closed=False), Pen.HIGHLIGHT))
            self.names.append((outer + 2, low + 14, self.words("clip")))
        return low

    def _name(self, name: str) -> str:
        """Return the name of a piece, with its number in the cut list where it has one."""
        text = self.words(name)
        parts = self.design.flat_parts
        number = next((part.number for part in parts if self.with_lid and part.kind == NUMBERED.get(name)), "")
        if name == "panel" and isinstance(self.design, Design) and isinstance(self.port, PortDesign):
            face = self.port.port.face
            number = next(part.number for part in self.design.parts if part.face == face)
        return self.words("numbered", number=number, name=text) if number else text

    def _write_names(self, right: float) -> None:
        step, at = 2.9 / self.scale, math.inf
        for x, y, text in sorted(self.names, key=lambda each: -each[1]):
            at = min(y, at - step)
            self.entities.append(draw_line(x, y, right + 1 / self.scale, at, Pen.DIMENSION))
            self.entities.append(name_at(right + 1.6 / self.scale, at - 0.7 / self.scale, text))


def draw_hole(port: CollarDesign, language: str, focus: str, scale: float) -> Drawing:
    """Return a port's hole on its panel from outside. focus: ``centre``, ``cut`` or ``pilots``."""
    words = take_words("step_pictures", language)
    reach, radius = port.flange_mm / 2 + 14, port.hole_mm / 2
    entities: list[Entity] = [draw_line(-9, 0, 9, 0, Pen.CUT), draw_line(0, -9, 0, 9, Pen.CUT)]
    pens = {"cut": (Pen.FIRST_CUT, Pen.CUT), "centre": (Pen.GHOST, Pen.MARK), "pilots": (Pen.GHOST, Pen.MARK)}[focus]
    # the first line is drawn farther in than it is, so that the two lines can be told apart
    entities += [draw_circle(0, 0, port.hole_mm - 26, pens[0]), draw_circle(0, 0, port.hole_mm, pens[1])]
    names: list[tuple[float, float, str]] = []  # radius and angle of what is named, and its name
    if focus == "cut":
        entities.append(Fill(_dot(_at(radius - 26, -42.0), 18.0), 0.0))
        names = [
            (radius, 40.0, words("final_line")),
            (radius - 13, 5.0, words("first_line")),
            (radius - 26, -42.0, words("start_hole")),
        ]
    elif focus == "pilots":
        entities += [Fill(_dot(pilot, 12.0), 0.0) for pilot in port.pilots]
        entities += [draw_circle(0, 0, port.flange_mm, Pen.OUTLINE)]
        start, end = _at(radius, port.index_deg), _at(reach, port.index_deg)
        entities.append(draw_line(start.x, start.y, end.x, end.y, Pen.HIGHLIGHT))
        side = max(port.pilots, key=lambda pilot: (pilot.x, pilot.y), default=Point(reach, 0.0))
        last = math.degrees(math.atan2(side.y, side.x))
        names = [
            (reach - 8, port.index_deg, words("mark")),
            (port.screw_circle_mm / 2, last, words("pilots", count=len(port.pilots))),
        ]
        names.append((port.flange_mm / 2, -50.0, words("ring")))
    else:
        entities += [draw_line(-reach, 0, -10, 0, Pen.HIGHLIGHT), draw_line(0, -reach, 0, -10, Pen.HIGHLIGHT)]
        names = [(0.0, 0.0, words("centre"))]
    for distance, angle, text in names:
        at = _at(distance, angle)
        high = max(-reach * 0.9, min(at.y, reach * 0.9))
        entities.append(draw_line(at.x, at.y, reach + 1 / scale, high, Pen.DIMENSION))
        entities.append(name_at(reach + 1.5 / scale, high - 0.7 / scale, text))
    return close_drawing(f"hole, {focus}", entities, Box(-reach, -reach, reach, reach), RIGHT_WORDS, scale)


def _at(distance: float, angle_deg: float) -> Point:
    turn = math.radians(angle_deg)
    return Point(distance * math.cos(turn), distance * math.sin(turn))


def _dot(at: Point, diameter: float) -> Path:
    turns = [2 * math.pi * i / 14 for i in range(14)]
    return join_points([(at.x + diameter / 2 * math.cos(t), at.y + diameter / 2 * math.sin(t)) for t in turns])


def draw_lid(part: FlatPart, language: str, scale: float) -> Drawing:
    """Return a lid's own lines without their words: what is cut and drilled heavy, the rest thin."""
    words = take_words("step_pictures", language)
    pens = {Layer.CUT: Pen.CUT, Layer.DRILL: Pen.CUT, Layer.GHOST: Pen.MARK, Layer.MARK: Pen.DIMENSION}
    entities: list[Entity] = []
    for feature in part.features:
        pen = pens.get(feature.layer, Pen.DIMENSION)
        if feature.layer is Layer.DRILL and isinstance(feature.shape, Circle):
            entities.append(Fill(_dot(feature.shape.centre, 2 * feature.shape.radius), 0.55))
        if not isinstance(feature.shape, Line) or feature.layer is Layer.CUT:
            entities.append(Stroke(feature.shape, pen))
    bounds = find_bounds(tuple(entity.shape for entity in entities if isinstance(entity, Stroke)))
    half = bounds.right
    named = [(words("cut_out"), 0.0), (words("hook_holes"), 0.75)] if part.kind == "filter lid" else []
    named = named or [(words("fitting"), 0.0)]
    entities += [name_at(half + 1.5 / scale, share * half, text) for text, share in named]
    entities.append(name_at(half + 1.5 / scale, -0.9 * half, part.number))
    return close_drawing(part.name, entities, bounds, RIGHT_WORDS, scale)

"""The box as it stands at a step, seen from front and above: what the step touches is toned and numbered."""

from __future__ import annotations

from dataclasses import replace

from calc.box.lining import LiningPiece
from calc.box.parts import BoxPart
from calc.design import Design
from calc.project import Face
from calc.settled import Settled
from calc.shapes.faces import AXIS, Block, find_spot, is_low
from packet.draw.model import Drawing, Fill, Pen, Stroke
from packet.draw.rings import Ring
from packet.draw.steps.solids import (
    FOCUS_TONE,
    Thing,
    Vector,
    close_scene,
    draw_brick,
    draw_drum,
    find_middle,
    move_along,
    move_block,
    order_things,
    trace_circle,
)
from packet.draw.strokes import join_points
from packet.draw.views.exploded import Sight

PULL = 0.6  # how far a face is drawn in front of the box, of the box's depth
HUNG_BY: dict[str, Face] = {"wall": "back", "ceiling": "top", "cart": "bottom"}
DUCT_MM = 160.0  # how much of the inlet duct is drawn


class BoxPicture:
    """Draws the box with one thing standing out: ``apart``, ``joined``, ``seams``, ``rail``, ``cart``, ``lining``,
    ``face`` or ``inlet``."""

    def __init__(self, project: Settled, design: Design, scale: float) -> None:
        self.project, self.design, self.scale = project, design, scale
        self.sight = Sight(project.box.inlet.face == "left")
        self.removable = design.box.removable

    def draw(self, focus: str) -> Drawing:
        """Return the picture. Raises KeyError for a focus there is not."""
        things, marks = {
            "apart": self._show_apart,
            "joined": self._show_joined,
            "seams": self._show_seams,
            "rail": self._show_rail,
            "cart": self._show_cart,
            "lining": self._show_lining,
            "face": self._show_face,
            "inlet": self._show_inlet,
        }[focus]()
        return close_scene(f"box, {focus}", self.sight, order_things(things), marks, [], self.scale)

    # --- what each picture shows --------------------------------------------------------------------------------------

    def _show_apart(self) -> tuple[list[Thing], list[Ring]]:
        things, marks = [], list[Ring]()
        for part in self._list_panels():
            shift = self._pull(part.face, 0.5)
            things.append(self._draw_panel(part, True, shift))
            marks += self._number(part, shift)
        return things, marks

    def _show_joined(self) -> tuple[list[Thing], list[Ring]]:
        """All but the removable face in place, the top a little up so that the inside is seen."""
        things, marks = [], list[Ring]()
        for part in self._list_panels():
            if part.face != self.removable:
                shift = self._pull("top", 0.45) if part.face == "top" else (0.0, 0.0, 0.0)
                things.append(self._draw_panel(part, True, shift, nearest=part.face == "top"))
                marks += self._number(part, shift)
        return things, marks

    def _show_seams(self) -> tuple[list[Thing], list[Ring]]:
        things = self._show_open("top")
        x0, y0, z0 = self.design.box.cavity.low
        x1, y1, z1 = self.design.box.cavity.high
        far = x1 if self.sight.from_left else x0
        corner = (far, y1, z0)
        for end in ((x0 + x1 - far, y1, z0), (far, y0, z0), (far, y1, z1)):
            line = join_points([self.sight.see(corner), self.sight.see(end)], closed=False)
            things.append(Thing(self._find_depth_of("bottom") + 1e-3, (Stroke(line, Pen.HIGHLIGHT),)))
        inside = [part for part in self._list_panels() if self._is_seen_inside(part.face) and part.face != "top"]
        return things, [ring for part in inside if part.face != self.removable for ring in self._number(part)]

    def _show_rail(self) -> tuple[list[Thing], list[Ring]]:
        """The box with what carries it; rails behind the back are drawn through it, dashed."""
        face: Face = HUNG_BY[self.project.box.hung]
        out = {self.removable} | ({"top"} if face != "top" else set())
        things = [self._draw_panel(part, False) for part in self._list_panels() if part.face not in out]
        mount, marks = self._show_mount(Pen.HIDDEN if face == "back" else Pen.OUTLINE)
        lifted = {"back": 1e6, "top": 1e6, "bottom": -1e6}[face]
        return [*things, *(replace(thing, depth=thing.depth + lifted) for thing in mount)], marks

    def _show_cart(self) -> tuple[list[Thing], list[Ring]]:
        return self._show_mount(Pen.OUTLINE)

    def _show_mount(self, pen: Pen) -> tuple[list[Thing], list[Ring]]:
        things, marks = [], list[Ring]()
        for part in self.design.parts:
            if part.kind == "mount":
                depth = self.sight.measure_depth(find_middle(part.block))
                things.append(Thing(depth, tuple(draw_brick(self.sight, part.block, FOCUS_TONE, pen))))
                marks += self._number(part)
        return things, marks

    def _show_lining(self) -> tuple[list[Thing], list[Ring]]:
        things = self._show_open("top")
        marks: list[Ring] = []
        pieces = self.design.lining.pieces if self.design.lining else ()
        for piece in pieces:
            if self._is_seen_inside(piece.face):
                block = self._place_lining(piece)
                depth = self._find_depth_of(piece.face) + 1e-3
                things.append(Thing(depth, tuple(draw_brick(self.sight, block, FOCUS_TONE, Pen.MARK))))
                marks += self._mark(block, piece.number)
        return things, marks

    def _show_face(self) -> tuple[list[Thing], list[Ring]]:
        things = self._show_open()
        part, shift = self._get_panel(self.removable), self._pull(self.removable, PULL)
        things.append(self._draw_panel(part, True, shift, nearest=True))
        return things, self._number(part, shift)

    def _show_inlet(self) -> tuple[list[Thing], list[Ring]]:
        things = [self._draw_panel(part, False) for part in self._list_panels()]
        inlet, outside = self.project.box.inlet, self.design.box.outside
        spot = find_spot(inlet.face, inlet.across_mm, inlet.up_mm, outside)
        axis, out = AXIS[inlet.face], -1.0 if is_low(inlet.face) else 1.0
        at = (spot.x, spot.y, spot.z)
        drum = draw_drum(self.sight, at, move_along(at, axis, out * DUCT_MM), axis, inlet.diameter_mm)
        seen = out * self.sight.toward[axis] > 0
        if not seen:  # behind the box: its edges are drawn through it, dashed
            drum = [Stroke(each.shape, Pen.HIDDEN) for each in drum if isinstance(each, Stroke)]
        return [*things, Thing(1e9, tuple(drum))], self._number(self._get_panel(inlet.face)) if seen else []

    def _show_open(self, *out: Face) -> list[Thing]:
        return [
            self._draw_panel(part, False) for part in self._list_panels() if part.face not in (self.removable, *out)
        ]

    # --- pieces -------------------------------------------------------------------------------------------------------

    def _list_panels(self) -> list[BoxPart]:
        return [part for part in self.design.parts if part.kind == "panel"]

    def _get_panel(self, face: Face) -> BoxPart:
        return {part.face: part for part in self._list_panels()}[face]

    def _is_seen_inside(self, face: Face) -> bool:
        """Tell whether the inner side of a face looks at the eye."""
        return self.sight.toward[AXIS[face]] * (1.0 if is_low(face) else -1.0) > 0

    def _pull(self, face: Face, share: float) -> Vector:
        outside, shift = self.design.box.outside, [0.0, 0.0, 0.0]
        shift[AXIS[face]] = share * max(outside.height, outside.depth) * (-1.0 if is_low(face) else 1.0)
        return shift[0], shift[1], shift[2]

    def _find_depth_of(self, face: Face) -> float:
        return self.sight.measure_depth(find_middle(self._get_panel(face).block))

    def _draw_panel(self, part: BoxPart, focus: bool, shift: Vector = (0.0, 0.0, 0.0), nearest: bool = False) -> Thing:
        block = move_block(part.block, shift)
        entities = draw_brick(self.sight, block, FOCUS_TONE if focus else None, Pen.OUTLINE if focus else Pen.MARK)
        axis = AXIS[part.face]
        for hole in part.holes:
            spot = find_spot(
                part.face, hole.across_mm + part.left_mm, hole.up_mm + part.bottom_mm, self.design.box.outside
            )
            middle = [spot.x + shift[0], spot.y + shift[1], spot.z + shift[2]]
            middle[axis] = block.high[axis] if self.sight.toward[axis] > 0 else block.low[axis]
            path = trace_circle(self.sight, (middle[0], middle[1], middle[2]), axis, hole.diameter_mm)
            entities += [Fill(path, 0.85 if not focus else 0.92), Stroke(path, Pen.MARK)]
        depth = self.sight.measure_depth(find_middle(block))
        return Thing(1e8 if nearest else depth, tuple(entities))

    def _place_lining(self, piece: LiningPiece) -> Block:
        outside, thick = self.design.box.outside, self.project.box.panel.thickness_mm
        left, low = piece.left_mm, piece.bottom_mm
        a = find_spot(piece.face, left, low, outside, thick)
        b = find_spot(piece.face, left + piece.width_mm, low + piece.height_mm, outside, thick + piece.thickness_mm)
        pairs = [sorted(pair) for pair in ((a.x, b.x), (a.y, b.y), (a.z, b.z))]
        return Block((pairs[0][0], pairs[1][0], pairs[2][0]), (pairs[0][1], pairs[1][1], pairs[2][1]))

    def _number(self, part: BoxPart, shift: Vector = (0.0, 0.0, 0.0)) -> list[Ring]:
        return self._mark(move_block(part.block, shift), part.number)

    def _mark(self, block: Block, number: str) -> list[Ring]:
        """Return a number in a ring on the broadest side of a block that faces the eye."""
        axis = min(range(3), key=block.along)
        share = (0.3, 0.75, 0.45)[axis]
        spot = [block.low[i] + share * block.along(i) for i in range(3)]
        spot[axis] = block.high[axis] if self.sight.toward[axis] > 0 else block.low[axis]
        x, y = self.sight.see((spot[0], spot[1], spot[2]))
        return [Ring(x, y, number)]

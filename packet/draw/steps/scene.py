"""The box where it hangs, with what is screwed to it: rails, rings, lids, filters, pails, by number or name."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from calc.box.parts import BoxPart
from calc.box.ports import PortDesign
from calc.design import Design
from calc.settled import Settled
from calc.shapes.faces import AXIS, Block, find_spot, is_low
from calc.shapes.shapes import FlatKind
from packet.draw.model import Drawing, Fill, Pen, Stroke
from packet.draw.rings import Ring
from packet.draw.steps.solids import (
    FOCUS_TONE,
    Name,
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
from packet.words.phrases import take_words

LIFT_SHARE = 0.55  # how far a box that is being hung is drawn from its place, of its height
APART_MM = 90.0  # between lid, filter and pail that are being screwed on
FRONT, BEHIND = 1e8, -1e8
Look = Literal["part", "tone", "plain", "ghost"]


@dataclass(frozen=True)
class Piece:
    """Something round on a port: where it begins along the port's axis from the panel, how long, how wide."""

    kind: str  # ring, lid, filter or pail
    start_mm: float
    long_mm: float
    across_mm: float


def list_pieces(project: Settled, port: PortDesign, apart: float) -> list[Piece]:
    """Return what is on a port, from the panel outwards. apart: mm between the pieces that are being screwed on."""
    closure = port.port.closure
    at = closure.flange_thick_mm + closure.ring_height_mm
    pieces = [Piece("ring", 0.0, at, port.flange_mm)]
    chain = [("lid", closure.lid_height_mm, port.lid_mm)]
    if port.port.kind == "filter":
        filters = project.get_filter(port.port)
        chain += [("filter", filters.height_mm, filters.outside_mm), ("lid", closure.lid_height_mm, port.lid_mm)]
        chain.append(("pail", port.port.pail.height_mm, port.port.pail.top_mm))
    for number, (kind, long, across) in enumerate(chain):
        # lid and filter are clipped together before they are screwed in; the pail comes after them
        at += apart if number == 0 or kind == "pail" else 0.0
        pieces.append(Piece(kind, at, long, across))
        at += long
    return pieces


class Scene:
    """Draws the box and what hangs on it. focus: ``place``, ``hang``, ``filters``, ``unscrew``, ``leaks``, ``watch``
    or ``gauge``."""

    def __init__(self, project: Settled, design: Design, language: str, scale: float) -> None:
        self.project, self.design, self.scale = project, design, scale
        self.words = take_words("step_pictures", language)
        self.sight = Sight(project.box.inlet.face == "left")
        self.rings: list[Ring] = []
        self.names: list[Name] = []

    def draw(self, focus: str) -> Drawing:
        """Return the picture. Raises KeyError for a focus there is not."""
        things = {
            "place": self._show_place,
            "hang": self._show_hang,
            "filters": lambda: self._show_filters(APART_MM),
            "unscrew": lambda: self._show_filters(APART_MM),
            "leaks": self._show_leaks,
            "watch": self._show_watch,
            "gauge": self._show_gauge,
        }[focus]()
        entities = order_things(things)
        return close_scene(f"scene, {focus}", self.sight, entities, self.rings, self.names, self.scale)

    # --- what each picture shows --------------------------------------------------------------------------------------

    def _show_place(self) -> list[Thing]:
        """What carries the box, fixed to the building or on its wheels, and where the box will be, dashed."""
        fixed = [part for part in self._list_mount() if not self._goes_up(part)] or self._list_mount()
        things = [self._draw_part(part, "part") for part in fixed]
        return [*things, *(self._draw_part(part, "ghost") for part in self._list_panels())]

    def _show_hang(self) -> list[Thing]:
        """The box on its way up, toned, and what it comes onto."""
        lift = -LIFT_SHARE * self.design.box.outside.height * (1.0 if self.project.box.hung == "ceiling" else -1.0)
        shift = (0.0, 0.0, lift)
        fixed = [part for part in self._list_mount() if not self._goes_up(part)]
        things = [self._draw_part(part, "plain") for part in fixed]
        for part in [*self._list_panels(), *(part for part in self._list_mount() if self._goes_up(part))]:
            things.append(self._draw_part(part, "part" if part.kind == "mount" else "tone", shift))
        things.append(self._draw_arrow(-lift))
        return things

    def _show_filters(self, apart: float) -> list[Thing]:
        """Lids, filters and pails under their rings, on the axis they are screwed along."""
        things = [self._draw_part(part) for part in self._list_panels()]
        named: set[str] = set()
        for port in self._list_ports("filter"):
            for piece in list_pieces(self.project, port, apart):
                things.append(self._draw_piece(port, piece, FOCUS_TONE if piece.kind != "ring" else 1.0))
                if piece.kind not in named:
                    self.names.append(Name(self._find_edge(port, piece), self._name_piece(piece)))
                named.add(piece.kind)
        return things

    def _show_leaks(self) -> list[Thing]:
        """The places to hunt, in the order of the step."""
        things = self._draw_closed({"ring", "lid", "filter"}, seams=True)
        outside = self.design.box.outside
        corner = (outside.width if self.sight.toward[0] > 0 else 0.0, 0.0, 0.75 * outside.height)
        self.names.append(Name(corner, self.words("leak_seams")))
        port = self._list_ports("filter")[-1 if self.sight.toward[0] > 0 else 0]
        pieces = {piece.kind: piece for piece in reversed(list_pieces(self.project, port, 0.0))}
        for kind in ("ring", "lid", "filter"):
            self.names.append(Name(self._find_edge(port, pieces[kind]), self.words(f"leak_{kind}")))
        return things

    def _show_watch(self) -> list[Thing]:
        """What to look at while the blower starts: lids, filters, pails, and the gauge's lid."""
        things = self._draw_closed({"lid", "pail"})
        port = self._list_ports("filter")[-1 if self.sight.toward[0] > 0 else 0]
        for piece in list_pieces(self.project, port, 0.0):
            if piece.kind == "pail" or (
                piece.kind == "lid" and piece.start_mm < self.project.get_filter(port.port).height_mm / 2
            ):
                self.names.append(Name(self._find_edge(port, piece), self.words(f"watch_{piece.kind}")))
        for port in self._list_ports("gauge"):
            self.names.append(
                Name(self._find_edge(port, list_pieces(self.project, port, 0.0)[1]), self.words("watch_gauge"))
            )
        return things

    def _show_gauge(self) -> list[Thing]:
        """The gauge's lid off its ring."""
        things = [self._draw_part(part) for part in self._list_panels()]
        for port in self._list_ports("gauge"):
            for piece in list_pieces(self.project, port, 2 * APART_MM):
                things.append(self._draw_piece(port, piece, FOCUS_TONE if piece.kind == "lid" else 1.0))
                self.names.append(Name(self._find_edge(port, piece), self._name_piece(piece, "gauge lid")))
        return things

    # --- pieces -------------------------------------------------------------------------------------------------------

    def _draw_closed(self, dark: set[str], seams: bool = False) -> list[Thing]:
        """Return the box with all its ports closed, as it runs; dark: kinds that are toned."""
        things = []
        for part in self._list_panels():
            thing = self._draw_part(part)
            lines = [each.shape for each in thing.entities if isinstance(each, Stroke)] if seams else []
            things.append(Thing(thing.depth, (*thing.entities, *(Stroke(line, Pen.OUTLINE) for line in lines))))
        for port in self.design.ports:
            for piece in list_pieces(self.project, port, 0.0):
                things.append(self._draw_piece(port, piece, FOCUS_TONE if piece.kind in dark else 1.0))
        return things

    def _list_ports(self, kind: str) -> list[PortDesign]:
        return [port for port in self.design.ports if port.port.kind == kind]

    def _list_panels(self) -> list[BoxPart]:
        return [part for part in self.design.parts if part.kind == "panel"]

    def _list_mount(self) -> list[BoxPart]:
        return [part for part in self.design.parts if part.kind == "mount"]

    def _goes_up(self, part: BoxPart) -> bool:
        return part.name in self.design.mount.carried

    def _draw_part(self, part: BoxPart, look: Look = "plain", shift: Vector = (0.0, 0.0, 0.0)) -> Thing:
        """Return a panel or rail. look: ``part`` toned and numbered, ``tone`` toned, ``ghost`` its edges, dashed."""
        block = move_block(part.block, shift)
        pen = Pen.HIDDEN if look == "ghost" else Pen.OUTLINE
        entities = draw_brick(self.sight, block, FOCUS_TONE if look in ("part", "tone") else None, pen)
        if look == "ghost":
            entities = [each for each in entities if isinstance(each, Stroke)]
        axis = AXIS[part.face]
        for hole in part.holes if look != "ghost" else ():
            spot = find_spot(
                part.face, hole.across_mm + part.left_mm, hole.up_mm + part.bottom_mm, self.design.box.outside
            )
            middle = [spot.x + shift[0], spot.y + shift[1], spot.z + shift[2]]
            middle[axis] = block.high[axis] if self.sight.toward[axis] > 0 else block.low[axis]
            path = trace_circle(self.sight, (middle[0], middle[1], middle[2]), axis, hole.diameter_mm)
            entities += [Fill(path, 0.92), Stroke(path, Pen.MARK)]
        if look == "part" or (look == "plain" and part.kind == "mount"):
            self.rings.append(Ring(*self.sight.see(self._find_face(block)), part.number))
        return Thing(self.sight.measure_depth(find_middle(block)) + (1e4 if look == "ghost" else 0.0), tuple(entities))

    def _find_face(self, block: Block) -> Vector:
        """Return a spot near one end of a brick's broadest side that the eye sees."""
        axis = min(range(3), key=block.along)
        spot = [block.low[i] + (0.12 if i == 0 else 0.5) * block.along(i) for i in range(3)]
        spot[axis] = block.high[axis] if self.sight.toward[axis] > 0 else block.low[axis]
        return spot[0], spot[1], spot[2]

    def _draw_piece(self, port: PortDesign, piece: Piece, tone: float) -> Thing:
        axis, out = AXIS[port.port.face], -1.0 if is_low(port.port.face) else 1.0
        at = self._find_place(port)
        ends = [move_along(at, axis, out * far) for far in (piece.start_mm, piece.start_mm + piece.long_mm)]
        drum = draw_drum(self.sight, ends[0], ends[1], axis, piece.across_mm, tone)
        before = FRONT if out * self.sight.toward[axis] > 0 else BEHIND
        order = self.sight.measure_depth(at) / 1e3 + piece.start_mm * out * self.sight.toward[axis] / 1e6
        return Thing(before + order, tuple(drum))

    def _find_place(self, port: PortDesign) -> Vector:
        spot = find_spot(port.port.face, port.port.across_mm, port.port.up_mm, self.design.box.outside)
        return spot.x, spot.y, spot.z

    def _find_edge(self, port: PortDesign, piece: Piece) -> Vector:
        """Return the middle of a round piece: the name's line ends on it."""
        axis, out = AXIS[port.port.face], -1.0 if is_low(port.port.face) else 1.0
        return move_along(self._find_place(port), axis, out * (piece.start_mm + piece.long_mm / 2))

    def _name_piece(self, piece: Piece, lid: FlatKind = "filter lid") -> str:
        if piece.kind != "lid":
            return self.words(f"piece_{piece.kind}")
        part = next((each for each in self.design.flat_parts if each.kind == lid), None)
        name = self.words("piece_lid")
        return self.words("numbered", number=part.number, name=name) if part else name

    def _draw_arrow(self, way: float) -> Thing:
        """Return an arrow up or down beside the box: the way it goes."""
        outside = self.design.box.outside
        side = -0.12 * outside.width if self.sight.toward[0] < 0 else 1.12 * outside.width
        at = (side, 0.0, outside.height / 2 - way)
        (ax, ay), (bx, by) = self.sight.see(at), self.sight.see(move_along(at, 2, way))
        tip, half = 0.3 * (by - ay), 0.12 * abs(by - ay)
        head = join_points([(bx, by), (bx - half, by - tip), (bx + half, by - tip)])
        line = join_points([(ax, ay), (bx, by - tip)], closed=False)
        return Thing(2 * FRONT, (Stroke(line, Pen.HIGHLIGHT), Fill(head, 0.0)))

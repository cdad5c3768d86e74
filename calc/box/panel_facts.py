"""All that is marked out, cut, bored and fixed on one loose panel, from the panel's own corner.

The corner is where a woodworker hooks the tape: the panel's own left and lower edge, the outside face up. Cut list,
step, drawing and files for machines take every place from here, so that they cannot tell different ones.
"""

from __future__ import annotations

from dataclasses import dataclass

from calc.box.joints import CART_SIDES, BoxShape, Member
from calc.box.parts import BoxPart, Groove, Hole
from calc.box.screws import ScrewRow
from calc.project import Face
from calc.shapes.faces import AXIS, Block, Side, find_flat, find_wall, is_low
from calc.shapes.shapes import Point


@dataclass(frozen=True)
class JointCut:
    """A rabbet or dado on the inner face [mm]: along which edge, how deep and wide, how far in from that edge."""

    edge: Side
    depth_mm: float
    width_mm: float
    lip_mm: float
    groove: Groove


@dataclass(frozen=True, kw_only=True)
class Strip:
    """A cleat, rib or rail on the panel, by its outline from the panel's corner [mm].

    kind: ``cleat``, ``stiffener`` or ``mount``; inside: on the inner face, else on the outer one
    """

    number: str
    name: str
    kind: str
    inside: bool
    left_mm: float
    bottom_mm: float
    right_mm: float
    top_mm: float

    @property
    def is_upright(self) -> bool:
        """Tell whether it runs up the panel, not across it."""
        return self.right_mm - self.left_mm < self.top_mm - self.bottom_mm

    @property
    def middle_mm(self) -> float:
        """Return where its middle line stands: from the left edge when upright, else from the lower edge."""
        ends = (self.left_mm, self.right_mm) if self.is_upright else (self.bottom_mm, self.top_mm)
        return sum(ends) / 2

    @property
    def starts_mm(self) -> float:
        """Return where its lower or left end stands."""
        return self.bottom_mm if self.is_upright else self.left_mm


@dataclass(frozen=True)
class PanelRow:
    """A row of screws; spots from the panel's corner [mm].

    part: what the panel is screwed to; drilled: bored through the panel from outside
    """

    part: str
    drilled: bool
    spots: tuple[Point, ...]
    pitch_mm: float

    @property
    def count(self) -> int:
        """Return how many screws the row has."""
        return len(self.spots)


@dataclass(frozen=True, kw_only=True)
class PanelFacts:
    """One panel [mm], seen from outside, all places from its own lower left corner.

    left_wall, lower_wall: the sides of the box at which the panel's left and its lower edge stand
    """

    part: BoxPart
    left_wall: Face
    lower_wall: Face
    joints: tuple[JointCut, ...]
    strips: tuple[Strip, ...]
    rows: tuple[PanelRow, ...]

    @property
    def number(self) -> str:
        return self.part.number

    @property
    def name(self) -> str:
        return self.part.name

    @property
    def face(self) -> Face:
        return self.part.face

    @property
    def holes(self) -> tuple[Hole, ...]:
        return self.part.holes

    @property
    def is_worked(self) -> bool:
        """Tell whether anything is marked out on it beyond its outline and the screws of its edges."""
        return bool(self.holes or self.joints or self.strips)


def gather_panel_facts(
    shape: BoxShape, parts: tuple[BoxPart, ...], rows: tuple[ScrewRow, ...]
) -> tuple[PanelFacts, ...]:
    """Return the facts of every panel, in cut-list order."""
    return tuple(_gather(shape, part, parts, rows) for part in parts if part.kind == "panel")


def _gather(shape: BoxShape, panel: BoxPart, parts: tuple[BoxPart, ...], rows: tuple[ScrewRow, ...]) -> PanelFacts:
    return PanelFacts(
        part=panel,
        left_wall=find_wall(panel.face, "left"),
        lower_wall=find_wall(panel.face, "bottom"),
        joints=tuple(
            JointCut(find_side(groove, panel), groove.depth_mm, min(groove.width_mm, groove.height_mm),
                     shape.joint.lip_mm, groove)
            for groove in panel.grooves
        ),
        strips=tuple(_make_strip(shape, panel, part) for part in parts if is_fixed_to(part, panel)),
        rows=tuple(
            PanelRow(
                row.into if row.through == panel.name else row.through,
                not row.from_inside,
                tuple(Point(spot.x - panel.left_mm, spot.y - panel.bottom_mm) for spot in row.spots),
                row.spacing_mm,
            )
            for row in rows
            if row.face == panel.face
        ),
    )  # fmt: skip


def find_side(groove: Groove, part: BoxPart) -> Side:
    """Return which edge of its part a groove runs along."""
    if groove.width_mm < groove.height_mm:
        return "left" if groove.left_mm + groove.width_mm / 2 < part.width_mm / 2 else "right"
    return "bottom" if groove.bottom_mm + groove.height_mm / 2 < part.height_mm / 2 else "top"


OFF_THE_BOX: tuple[Member, ...] = ("wall rail", "cart back", *CART_SIDES)
"""What carries the box and is not fixed to it."""


def is_fixed_to(part: BoxPart, panel: BoxPart) -> bool:
    """Tell whether a strip lies on a panel: a cleat or rib on the panel of its face, a rail or cleat of what carries
    the box on the outer face it touches. The rail on the wall touches the box and is no part of it."""
    if part.kind in ("cleat", "stiffener"):
        return part.face == panel.face
    if part.kind != "mount" or part.member in OFF_THE_BOX:
        return False
    return touches_outside(part.block, panel)


def touches_outside(block: Block, panel: BoxPart) -> bool:
    """Tell whether a brick lies against a panel's outer face."""
    axis = AXIS[panel.face]
    outer = panel.block.low[axis] if is_low(panel.face) else panel.block.high[axis]
    near = block.high[axis] if is_low(panel.face) else block.low[axis]
    return abs(outer - near) < 1e-6


def touches_inside(block: Block, panel: BoxPart) -> bool:
    """Tell whether a brick lies against a panel's inner face."""
    axis = AXIS[panel.face]
    inner = panel.block.high[axis] if is_low(panel.face) else panel.block.low[axis]
    near = block.low[axis] if is_low(panel.face) else block.high[axis]
    return abs(inner - near) < 1e-6


def _make_strip(shape: BoxShape, panel: BoxPart, part: BoxPart) -> Strip:
    left, bottom, right, top = find_flat(panel.face, part.block, shape.outside)
    x, y = panel.left_mm, panel.bottom_mm
    inside = part.kind != "mount"
    return Strip(
        number=part.number,
        name=part.name,
        kind=part.kind,
        inside=inside,
        left_mm=left - x,
        bottom_mm=bottom - y,
        right_mm=right - x,
        top_mm=top - y,
    )

"""Plain shapes in millimetres, y up: what every part and drawing is made of."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Literal

from calc.finding import Finding, Said, Subject


@dataclass(frozen=True)
class Point:
    x: float
    y: float


@dataclass(frozen=True)
class Line:
    start: Point
    end: Point


@dataclass(frozen=True)
class Circle:
    centre: Point
    radius: float


@dataclass(frozen=True)
class Arc:
    """Part of a circle, anticlockwise from start_deg to end_deg (0 is to the right; end_deg > start_deg)."""

    centre: Point
    radius: float
    start_deg: float
    end_deg: float

    def at(self, angle_deg: float) -> Point:
        """Return the point [mm] of the circle at an angle [deg]."""
        turn = math.radians(angle_deg)
        return Point(self.centre.x + self.radius * math.cos(turn), self.centre.y + self.radius * math.sin(turn))


@dataclass(frozen=True)
class Path:
    """Lines and arcs end to end; closed when the last meets the first."""

    pieces: tuple[Line | Arc, ...]
    closed: bool = True


Shape = Line | Circle | Arc | Path


class Layer(StrEnum):
    """What a line is for. Machines cut CUT, DRILL and (if wanted) FIRST_CUT; nothing else."""

    CUT = "cut"
    FIRST_CUT = "first-cut"
    DRILL = "drill"
    MARK = "mark"
    GHOST = "ghost"


@dataclass(frozen=True)
class Box:
    """An upright rectangle [mm]."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.top - self.bottom


@dataclass(frozen=True, kw_only=True)
class Feature:
    """One line of a part: a shape, what it is for, and the words that stand on it.

    waste: which side of a closed line falls away, ``inside`` or ``outside``; it is hatched on paper
    label_deg: where on a circle its words first stand, when the place that is usual for its layer is taken
    takes: what goes into a drilled hole, where the bill counts it
    whole: a ghost that must be whole on paper, because another piece is cut by it
    """

    shape: Shape
    layer: Layer
    label: str | Said = ""
    waste: str = ""
    label_deg: float | None = None
    whole: bool = False
    takes: Literal["", "clip"] = ""


@dataclass(frozen=True)
class Size:
    """One size [mm] that stands on the template, and what it is: ``final hole``, ``drill``."""

    what: Said
    mm: float


FlatKind = Literal[
    "panel", "strip", "lining", "hole", "filter lid", "inspection lid", "gauge lid", "gasket", "wrap strip",
    "test card", "test disc", "reinforcing ring", "gauge board", "gauge bracket",
]  # fmt: skip
"""What a flat part is, whatever it is named; ``strip``: a cleat, a rib, or what carries the box."""


@dataclass(frozen=True, kw_only=True)
class FlatPart:
    """A flat part as it is cut, seen from the face named `face`, which lies up.

    kind: what it is; nothing is read out of its name
    number: its number in the cut list; name: words of the trade plus the user's own port name, the same in all files
    called: what stands for its name in print; nothing: its name
    size: upright outline box [mm]; grain: ``width``, ``height`` or ``none``
    full_size: whether the packet prints it as a 1:1 template; cnc: whether it is written as SVG and DXF
    paper: False: its sheets are not printed, for no step of this shop's methods uses them
    assumed: dotted paths of the project file it is cut by that nobody measured
    subjects: what it is and where it goes, beside the part it is by name: findings on these are findings on it
    """

    number: str
    name: str
    features: tuple[Feature, ...]
    quantity: int
    material: str
    thickness_mm: float
    face: str | Said
    grain: str = "none"
    full_size: bool = True
    cnc: bool = True
    sizes: tuple[Size, ...] = ()
    assumed: tuple[str, ...] = ()
    notes: tuple[str | Said, ...] = ()
    called: str | Said = ""
    subjects: tuple[Subject, ...] = ()
    paper: bool = True
    kind: FlatKind = field(kw_only=True)

    def is_about(self, finding: Finding) -> bool:
        """Tell whether a finding speaks of this part, or of the place it goes to."""
        own = (Subject("part", self.name), *self.subjects)
        return any(subject in own for subject in finding.subjects)


def make_rectangle(left: float, bottom: float, width: float, height: float) -> Path:
    """Return a closed rectangle [mm]."""
    a, b = Point(left, bottom), Point(left + width, bottom)
    c, d = Point(left + width, bottom + height), Point(left, bottom + height)
    return Path((Line(a, b), Line(b, c), Line(c, d), Line(d, a)))


def find_bounds(shapes: tuple[Shape, ...]) -> Box:
    """Return the smallest upright box [mm] around shapes. Raises ValueError when there are none."""
    boxes = [_bound(shape) for shape in shapes]
    if not boxes:
        raise ValueError("no shapes to bound")
    return Box(
        min(b.left for b in boxes), min(b.bottom for b in boxes), max(b.right for b in boxes), max(b.top for b in boxes)
    )


def _bound(shape: Shape) -> Box:
    if isinstance(shape, Line):
        (ax, ay), (bx, by) = (shape.start.x, shape.start.y), (shape.end.x, shape.end.y)
        return Box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by))
    if isinstance(shape, Circle):
        c, r = shape.centre, shape.radius
        return Box(c.x - r, c.y - r, c.x + r, c.y + r)
    if isinstance(shape, Arc):
        quarter = math.ceil(shape.start_deg / 90) * 90
        angles = [shape.start_deg, shape.end_deg]
        while quarter < shape.end_deg:
            angles.append(quarter)
            quarter += 90
        points = [shape.at(angle) for angle in angles]
        return Box(
            min(p.x for p in points), min(p.y for p in points), max(p.x for p in points), max(p.y for p in points)
        )
    return find_bounds(shape.pieces)


def move_shape(shape: Shape, right_mm: float, up_mm: float) -> Shape:
    """Return the shape shifted by millimetres."""
    if isinstance(shape, Line):
        return Line(_move(shape.start, right_mm, up_mm), _move(shape.end, right_mm, up_mm))
    if isinstance(shape, Circle):
        return Circle(_move(shape.centre, right_mm, up_mm), shape.radius)
    if isinstance(shape, Arc):
        return Arc(_move(shape.centre, right_mm, up_mm), shape.radius, shape.start_deg, shape.end_deg)
    return Path(tuple(_keep_piece(move_shape(piece, right_mm, up_mm)) for piece in shape.pieces), shape.closed)


def turn_shape(shape: Shape) -> Shape:
    """Return the shape turned a quarter anticlockwise about 0, 0."""
    if isinstance(shape, Line):
        return Line(turn_point(shape.start), turn_point(shape.end))
    if isinstance(shape, Circle):
        return Circle(turn_point(shape.centre), shape.radius)
    if isinstance(shape, Arc):
        return Arc(turn_point(shape.centre), shape.radius, shape.start_deg + 90.0, shape.end_deg + 90.0)
    return Path(tuple(_keep_piece(turn_shape(piece)) for piece in shape.pieces), shape.closed)


def turn_point(point: Point) -> Point:
    """Return the point turned a quarter anticlockwise about 0, 0."""
    return Point(-point.y, point.x)


def _move(point: Point, right_mm: float, up_mm: float) -> Point:
    return Point(point.x + right_mm, point.y + up_mm)


def _keep_piece(shape: Shape) -> Line | Arc:
    assert isinstance(shape, Line | Arc)
    return shape

"""Writes a Drawing as DXF for machines: millimetres in header and modelspace, real circles and arcs, no-cut layers.

Machines run the layers cut, drill and, if wanted, first-cut; they engrave mark; the rest is to look at.
"""

from __future__ import annotations

import io
import math
from typing import Any

from calc.shapes.shapes import Arc, Circle, Line, Path, Point, Shape
from packet.draw.model import Dimension, Drawing, Entity, Pen, Stroke, Words

MILLIMETRES = 4
"""$INSUNITS of millimetres (DXF reference, header variables)."""

LAYERS: tuple[tuple[str, int, str, bool], ...] = (
    ("cut", 7, "CONTINUOUS", True),
    ("first-cut", 1, "DASHED", True),
    ("drill", 5, "CONTINUOUS", True),
    ("mark", 3, "CONTINUOUS", True),
    ("ghost", 8, "DOT", False),
    ("words", 8, "CONTINUOUS", False),
    ("reference", 2, "CONTINUOUS", False),
)
"""Name, colour, line type, whether it plots."""

DASHES: dict[str, list[float]] = {"DASHED": [9.0, 7.0, -2.0], "DOT": [1.8, 0.6, -1.2]}
"""Line types by name: length of the pattern, then on (positive) and off (negative) [mm]."""

LAYER_OF_PEN: dict[Pen, str] = {
    Pen.CUT: "cut",
    Pen.FIRST_CUT: "first-cut",
    Pen.DRILL: "drill",
    Pen.MARK: "mark",
    Pen.OUTLINE: "reference",
    Pen.HIGHLIGHT: "reference",
}
SIZE_MM = 2.2
"""Height of the words on a dimension."""


def write_dxf(drawing: Drawing) -> str:
    """Return the drawing as DXF R2010 text, the same text every time: fixed dates and GUIDs, handles in order.

    Raises ValueError for a place that is no number.
    """
    from ezdxf._options import options  # the library has no public way to fix dates and GUIDs
    from ezdxf.filemanagement import new

    fixed = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        document: Any = new("R2010", units=MILLIMETRES)
        for name, pattern in DASHES.items():
            document.linetypes.add(name, pattern)
        document.header["$MEASUREMENT"] = 1
        space = document.modelspace()
        space.units = MILLIMETRES
        for name, colour, dashes, plots in LAYERS:
            document.layers.add(name, color=colour, linetype=dashes).dxf.plot = int(plots)
        for entity in drawing.entities:
            _add(space, entity)
        for kind in sorted(document.entitydb.dxf_types_in_use()):  # left to itself the library walks a set
            document.classes.add_class(kind)
        stream = io.StringIO()
        document.write(stream)
    finally:
        options.write_fixed_meta_data_for_testing = fixed
    return stream.getvalue()


def _add(space: Any, entity: Entity) -> None:
    if isinstance(entity, Stroke):
        if entity.pen is not Pen.HATCH:
            _add_shape(space, entity.shape, {"layer": LAYER_OF_PEN.get(entity.pen, "ghost")})
    elif isinstance(entity, Words):
        _add_text(space, entity.text, entity.at, entity.size_mm, entity.turn_deg, entity.anchor)
    elif isinstance(entity, Dimension):
        middle = Point((entity.start.x + entity.end.x) / 2, (entity.start.y + entity.end.y) / 2)
        _add_text(space, entity.text, middle, SIZE_MM)


def _add_text(space: Any, text: str, at: Point, size_mm: float, turn_deg: float = 0.0, anchor: str = "start") -> None:
    from ezdxf.enums import TextEntityAlignment as Alignment

    align = {"middle": Alignment.CENTER, "end": Alignment.RIGHT}.get(anchor, Alignment.LEFT)
    look = {"layer": "words"}
    space.add_text(clean_dxf(text), height=size_mm, rotation=turn_deg, dxfattribs=look).set_placement(
        _place(at), align=align
    )


def _add_shape(space: Any, shape: Shape, look: dict[str, str]) -> None:
    if isinstance(shape, Circle):
        space.add_circle(_place(shape.centre), _trim(shape.radius), dxfattribs=look)
    elif isinstance(shape, Arc):
        turns = _trim(shape.start_deg % 360), _trim(shape.end_deg % 360)
        space.add_arc(_place(shape.centre), _trim(shape.radius), *turns, dxfattribs=look)
    elif isinstance(shape, Line):
        space.add_line(_place(shape.start), _place(shape.end), dxfattribs=look)
    else:
        assert isinstance(shape, Path)
        for piece in shape.pieces:
            _add_shape(space, piece, look)


def _place(point: Point) -> tuple[float, float]:
    return _trim(point.x), _trim(point.y)


def _trim(value: float) -> float:
    """Return a number to 0.0001: finer than any saw, and never written with an exponent, which machines misread."""
    if not math.isfinite(value):
        raise ValueError("a drawing for machines has a place that is no number")
    return round(value, 4) + 0.0


def clean_dxf(text: str) -> str:
    """Return text that DXF shows as it is: no control characters, no %% codes, no caret codes."""
    plain = "".join(c if c >= " " and c != "\x7f" else " " for c in text)
    return plain.replace("%%", "% % ").replace("^", "\u02c6")

"""Writes a Drawing as DXF for machines: millimetres in header and modelspace, real circles and arcs, no-cut layers."""

from __future__ import annotations

import io
from typing import Any

from calc.geometry.shapes import Arc, Circle, Line, Path, Shape
from packet.draw.model import Dimension, Drawing, Pen, Stroke, Words

MILLIMETRES = 4
"""$INSUNITS of millimetres (DXF reference, header variables)."""

LAYERS: tuple[tuple[str, int, str], ...] = (
    ("cut", 7, "CONTINUOUS"),
    ("first-cut", 1, "DASHED"),
    ("drill", 5, "CONTINUOUS"),
    ("mark", 3, "CONTINUOUS"),
    ("ghost", 8, "DOT"),
    ("words", 8, "CONTINUOUS"),
    ("reference", 2, "CONTINUOUS"),
)
"""Machines run cut, drill and, if wanted, first-cut; they engrave mark; the rest is to look at."""

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


def write_dxf(drawing: Drawing) -> str:
    """Return the drawing as DXF R2010 text, the same text every time: fixed dates and GUIDs, handles in order."""
    from ezdxf._options import options
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
        for name, colour, dashes in LAYERS:
            layer = document.layers.add(name, color=colour, linetype=dashes)
            layer.dxf.plot = 0 if name in ("ghost", "words", "reference") else 1
        for entity in drawing.entities:
            _add(space, entity)
        stream = io.StringIO()
        document.write(stream)
    finally:
        options.write_fixed_meta_data_for_testing = fixed
    return stream.getvalue()


def _add(space: Any, entity: Any) -> None:
    if isinstance(entity, Stroke):
        layer = LAYER_OF_PEN.get(entity.pen, "ghost")
        if entity.pen is not Pen.HATCH:
            _add_shape(space, entity.shape, layer)
    elif isinstance(entity, Words):
        text = space.add_text(
            clean_dxf(entity.text), height=entity.size_mm, rotation=entity.turn_deg, dxfattribs={"layer": "words"}
        )
        text.set_placement((entity.at.x, entity.at.y), align=_get_alignment(entity.anchor))
    elif isinstance(entity, Dimension):
        middle = ((entity.start.x + entity.end.x) / 2, (entity.start.y + entity.end.y) / 2)
        space.add_text(clean_dxf(entity.text), height=2.2, dxfattribs={"layer": "words"}).set_placement(middle)


def _get_alignment(anchor: str) -> Any:
    from ezdxf.enums import TextEntityAlignment

    return {"middle": TextEntityAlignment.CENTER, "end": TextEntityAlignment.RIGHT}.get(
        anchor, TextEntityAlignment.LEFT
    )


def _add_shape(space: Any, shape: Shape, layer: str) -> None:
    look = {"layer": layer}
    if isinstance(shape, Circle):
        space.add_circle((shape.centre.x, shape.centre.y), shape.radius, dxfattribs=look)
    elif isinstance(shape, Arc):
        space.add_arc(
            (shape.centre.x, shape.centre.y), shape.radius, shape.start_deg % 360, shape.end_deg % 360, dxfattribs=look
        )
    elif isinstance(shape, Line):
        space.add_line((shape.start.x, shape.start.y), (shape.end.x, shape.end.y), dxfattribs=look)
    else:
        assert isinstance(shape, Path)
        for piece in shape.pieces:
            _add_shape(space, piece, layer)


def clean_dxf(text: str) -> str:
    """Return text that DXF shows as it is: no control characters, no %% codes, no caret codes."""
    plain = "".join(c if c >= " " and c != "\x7f" else " " for c in text)
    return plain.replace("%%", "% % ").replace("^", "\u02c6")

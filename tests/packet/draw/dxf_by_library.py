"""The same DXF files by ezdxf, a general-purpose library: it made the empty frame, and it is the second opinion.

After a change to the layers: python -m tests.packet.draw.dxf_by_library writes templates/frame.dxf anew.
"""

from __future__ import annotations

import io
from pathlib import Path
from typing import Any

import ezdxf
from ezdxf._options import options
from ezdxf.enums import TextEntityAlignment

from calc.geometry.shapes import Arc, Circle, Line, Shape
from packet.draw.dxf import LAYER_OF_PEN, clean_dxf
from packet.draw.model import Dimension, Drawing, Pen, Stroke, Words

FRAME = Path(__file__).parents[3] / "templates" / "frame.dxf"

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
"""Name, colour, line type, whether it plots: machines run cut, drill and, if wanted, first-cut; they engrave mark."""

DASHES: dict[str, list[float]] = {"DASHED": [9.0, 7.0, -2.0], "DOT": [1.8, 0.6, -1.2]}
"""Line types by name: length of the pattern, then on (positive) and off (negative) [mm]."""

ALIGNMENTS = {"middle": TextEntityAlignment.CENTER, "end": TextEntityAlignment.RIGHT}


def make_empty() -> Any:
    """Return a drawing in millimetres with our layers and nothing on them."""
    document: Any = ezdxf.new("R2010", units=MILLIMETRES)
    for name, pattern in DASHES.items():
        document.linetypes.add(name, pattern)
    document.header["$MEASUREMENT"] = 1
    document.modelspace().units = MILLIMETRES
    for name, colour, dashes, plots in LAYERS:
        document.layers.add(name, color=colour, linetype=dashes).dxf.plot = int(plots)
    return document


def write_by_library(drawing: Drawing | None) -> str:
    """Return a drawing, or the empty frame, as DXF text with fixed dates and GUIDs."""
    fixed = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        document = make_empty()
        for entity in drawing.entities if drawing else ():
            _add(document.modelspace(), entity)
        stream = io.StringIO()
        document.write(stream)
    finally:
        options.write_fixed_meta_data_for_testing = fixed
    return stream.getvalue()


def _add(space: Any, entity: Any) -> None:
    if isinstance(entity, Stroke) and entity.pen is not Pen.HATCH:
        _add_shape(space, entity.shape, {"layer": LAYER_OF_PEN.get(entity.pen, "ghost")})
    elif isinstance(entity, Words):
        text = space.add_text(
            clean_dxf(entity.text), height=entity.size_mm, rotation=entity.turn_deg, dxfattribs={"layer": "words"}
        )
        align = ALIGNMENTS.get(entity.anchor, TextEntityAlignment.LEFT)
        text.set_placement((entity.at.x, entity.at.y), align=align)
    elif isinstance(entity, Dimension):
        middle = ((entity.start.x + entity.end.x) / 2, (entity.start.y + entity.end.y) / 2)
        space.add_text(clean_dxf(entity.text), height=2.2, dxfattribs={"layer": "words"}).set_placement(middle)


def _add_shape(space: Any, shape: Shape, look: dict[str, str]) -> None:
    if isinstance(shape, Circle):
        space.add_circle((shape.centre.x, shape.centre.y), shape.radius, dxfattribs=look)
    elif isinstance(shape, Arc):
        centre = (shape.centre.x, shape.centre.y)
        space.add_arc(centre, shape.radius, shape.start_deg % 360, shape.end_deg % 360, dxfattribs=look)
    elif isinstance(shape, Line):
        space.add_line((shape.start.x, shape.start.y), (shape.end.x, shape.end.y), dxfattribs=look)
    else:
        for piece in shape.pieces:
            _add_shape(space, piece, look)


if __name__ == "__main__":
    FRAME.write_text(write_by_library(None), encoding="utf-8", newline="\n")

"""Writes a Drawing as DXF for machines: millimetres in header and modelspace, real circles and arcs, no-cut layers.

A DXF R2010 file is a long frame that never changes (header, layers, line types, layouts) around the few entities that
do. The frame is templates/frame.dxf, an empty drawing that opens in any program; entities are put into it with running
numbers from its own $HANDSEED on. Machines run the layers cut, drill and, if wanted, first-cut; they engrave mark; the
rest is to look at.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from importlib import resources

from calc.geometry.shapes import Arc, Circle, Line, Point, Shape
from packet.draw.model import Dimension, Drawing, Entity, Pen, Stroke, Words

LAYER_OF_PEN: dict[Pen, str] = {
    Pen.CUT: "cut",
    Pen.FIRST_CUT: "first-cut",
    Pen.DRILL: "drill",
    Pen.MARK: "mark",
    Pen.OUTLINE: "reference",
    Pen.HIGHLIGHT: "reference",
}
ALIGNMENTS = {"middle": " 72\n1\n", "end": " 72\n2\n"}
SIZE_MM = 2.2
"""Height of the words on a dimension."""

_SEED = "  9\n$HANDSEED\n  5\n"
_ENTITIES = "  2\nENTITIES\n"
_MODEL_SPACE = "17"


@dataclass(frozen=True)
class _Frame:
    """The empty drawing, cut where the next free number and the entities stand. first_free: that number."""

    before: str
    first_free: int
    between: str
    after: str


@cache
def _load_frame() -> _Frame:
    text = resources.files("templates").joinpath("frame.dxf").read_text(encoding="utf-8")
    before, mark, rest = text.partition(_SEED)
    number, end, rest = rest.partition("\n")
    between, entities, after = rest.partition(_ENTITIES)
    return _Frame(before + mark, int(number, 16), end + between + entities, after)


def write_dxf(drawing: Drawing) -> str:
    """Return the drawing as DXF R2010 text, the same text every time.

    Raises ValueError for a place that is no number.
    """
    frame = _load_frame()
    written: list[str] = []
    number = frame.first_free
    for entity in drawing.entities:
        for kind, layer, body in _describe(entity):
            written.append(f"  0\n{kind}\n  5\n{number:X}\n330\n{_MODEL_SPACE}\n100\nAcDbEntity\n  8\n{layer}\n{body}")
            number += 1
    return f"{frame.before}{number:X}{frame.between}{''.join(written)}{frame.after}"


def _describe(entity: Entity) -> Iterator[tuple[str, str, str]]:
    """Yield kind, layer and the groups of each DXF entity that one of ours becomes."""
    if isinstance(entity, Stroke):
        if entity.pen is not Pen.HATCH:
            layer = LAYER_OF_PEN.get(entity.pen, "ghost")
            for kind, body in _describe_shape(entity.shape):
                yield kind, layer, body
    elif isinstance(entity, Words):
        yield "TEXT", "words", _write_text(entity.text, entity.at, entity.size_mm, entity.turn_deg, entity.anchor)
    elif isinstance(entity, Dimension):
        middle = Point((entity.start.x + entity.end.x) / 2, (entity.start.y + entity.end.y) / 2)
        yield "TEXT", "words", _write_text(entity.text, middle, SIZE_MM)


def _describe_shape(shape: Shape) -> Iterator[tuple[str, str]]:
    if isinstance(shape, Line):
        yield "LINE", f"100\nAcDbLine\n{_write_place(shape.start, 10)}{_write_place(shape.end, 11)}"
    elif isinstance(shape, Circle | Arc):
        circle = f"100\nAcDbCircle\n{_write_place(shape.centre, 10)} 40\n{_write_number(shape.radius)}\n"
        if isinstance(shape, Circle):
            yield "CIRCLE", circle
        else:
            start, end = _write_number(shape.start_deg % 360), _write_number(shape.end_deg % 360)
            yield "ARC", f"{circle}100\nAcDbArc\n 50\n{start}\n 51\n{end}\n"
    else:
        for piece in shape.pieces:
            yield from _describe_shape(piece)


def _write_text(text: str, at: Point, size_mm: float, turn_deg: float = 0.0, anchor: str = "start") -> str:
    turn = f" 50\n{_write_number(turn_deg)}\n" if turn_deg else ""
    return (
        f"100\nAcDbText\n{_write_place(at, 10)} 40\n{_write_number(size_mm)}\n  1\n{clean_dxf(text)}\n"
        f"{turn}{ALIGNMENTS.get(anchor, '')}{_write_place(at, 11)}100\nAcDbText\n"
    )


def _write_place(point: Point, code: int) -> str:
    return f" {code}\n{_write_number(point.x)}\n {code + 10}\n{_write_number(point.y)}\n {code + 20}\n0.0\n"


def _write_number(value: float) -> str:
    """Return a number in full, never with an exponent; one so small that it would take one, to nine places."""
    if not math.isfinite(value):
        raise ValueError("a drawing for machines has a place that is no number")
    text = repr(float(value))
    if "e" in text:
        text = f"{value:.9f}".rstrip("0")
        text = text + "0" if text.endswith(".") else text
    return "0.0" if text == "-0.0" else text


def clean_dxf(text: str) -> str:
    """Return text that DXF shows as it is: no control characters, no %% codes, no caret codes."""
    plain = "".join(c if c >= " " and c != "\x7f" else " " for c in text)
    return plain.replace("%%", "% % ").replace("^", "\u02c6")

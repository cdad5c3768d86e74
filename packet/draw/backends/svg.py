"""Writes a Drawing as SVG: width and height in millimetres, viewBox in the same numbers, one unit = 1 mm."""

from __future__ import annotations

import math
from typing import Any

from calc.shapes.shapes import Circle, Line, Path, Point, Shape
from packet.draw.fonts import CAPITAL_EM
from packet.draw.joined import Joined, join_pieces
from packet.draw.model import Dimension, Drawing, Fill, Pen, Stroke, Words
from packet.draw.pens import LOOKS

ANCHORS = {"start": "start", "middle": "middle", "end": "end"}
DIGITS = 5


def write_svg(drawing: Drawing) -> str:
    """Return the drawing as an SVG document, one group a pen, in the pens' fixed order. Text is escaped."""
    import svgwrite

    box = drawing.bounds
    width, height = _number(box.width), _number(box.height)
    sheet = svgwrite.Drawing(size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", debug=False)
    sheet.set_desc(title=clean_xml(drawing.name), desc="One unit is one millimetre.")
    pencil = _SvgPencil(sheet, box.left, box.top)
    for entity in drawing.entities:
        if isinstance(entity, Fill):
            grey = f"{round(entity.tone * 255):02x}" * 3
            style = {"fill": "none", "stroke": "none"} if entity.hatch else {"fill": f"#{grey}", "stroke": "none"}
            sheet.add(sheet.path(d=pencil.trace(entity.outline), **style))
    for pen in Pen:
        shapes = [e.shape for e in drawing.entities if isinstance(e, Stroke) and e.pen is pen]
        if shapes:
            group = sheet.g(id=pen.value, **_style(pen))
            for shape in shapes:
                group.add(pencil.draw(shape))
            sheet.add(group)
    words = [e for e in drawing.entities if isinstance(e, Words)]
    sizes = [e for e in drawing.entities if isinstance(e, Dimension)]
    if words or sizes:
        group = sheet.g(id="words", fill="black", stroke="none", font_family="Source Sans Pro, sans-serif")
        for word in words:
            group.add(pencil.write(word))
        for size in sizes:
            group.add(pencil.write(_name_size(size)))
        sheet.add(group)
    return f'<?xml version="1.0" encoding="utf-8"?>\n{sheet.tostring()}\n'


def clean_xml(text: str) -> str:
    """Return text without the control characters that XML forbids; escaping is the writer's part."""
    return "".join(
        c if c >= " " and c not in "\x7f\ufffe\uffff" and not "\ud800" <= c <= "\udfff" else " " for c in text
    )


def _number(value: float) -> str:
    text = f"{value:.{DIGITS}f}".rstrip("0").rstrip(".")
    return "0" if text in ("", "-0") else text


def _style(pen: Pen) -> dict[str, Any]:
    look = LOOKS[pen]
    grey = f"{round(look.grey * 255):02x}" * 3
    style: dict[str, Any] = {"fill": "none", "stroke": f"#{grey}", "stroke_width": look.width_mm}
    if look.dash_mm:
        style["stroke_dasharray"] = " ".join(_number(d) for d in look.dash_mm)
    return style


def _name_size(size: Dimension) -> Words:
    """A size stands in the middle of what it measures; its lines are the drawing's own."""
    middle = Point((size.start.x + size.end.x) / 2, (size.start.y + size.end.y) / 2)
    turn = math.degrees(math.atan2(size.end.y - size.start.y, size.end.x - size.start.x))
    return Words(
        at=middle, text=size.text, size_mm=2.2, anchor="middle", turn_deg=turn if -90 < turn <= 90 else turn + 180
    )


class _SvgPencil:
    """Turns millimetres with y up into the file's with y down."""

    def __init__(self, sheet: Any, left: float, top: float) -> None:
        self.sheet, self.left, self.top = sheet, left, top

    def x(self, point: Point) -> float:
        return round(point.x - self.left, DIGITS)

    def y(self, point: Point) -> float:
        return round(self.top - point.y, DIGITS)

    def draw(self, shape: Shape) -> Any:
        if isinstance(shape, Circle):
            centre = (self.x(shape.centre), self.y(shape.centre))
            return self.sheet.circle(center=centre, r=round(shape.radius, DIGITS))
        if isinstance(shape, Line):
            start, end = (self.x(shape.start), self.y(shape.start)), (self.x(shape.end), self.y(shape.end))
            return self.sheet.line(start=start, end=end)
        return self.sheet.path(d=self.trace(shape if isinstance(shape, Path) else Path((shape,), closed=False)))

    def trace(self, path: Path) -> str:
        """Return the path's data: M, then L and A."""
        data: list[str] = []
        for joined in join_pieces(path):
            if not data:
                data.append(f"M {self._at(joined.start)}")
            data.append(self._step(joined))
        return " ".join(data) + (" Z" if path.closed else "")

    def _step(self, joined: Joined) -> str:
        piece = joined.piece
        if isinstance(piece, Line):
            return f"L {self._at(joined.end)}"
        large = 1 if piece.end_deg - piece.start_deg > 180 else 0
        # Anticlockwise with y up is anticlockwise to the eye: sweep 0 in a file whose y runs down.
        sweep = 1 if joined.backwards else 0
        radius = _number(piece.radius)
        return f"A {radius} {radius} 0 {large} {sweep} {self._at(joined.end)}"

    def _at(self, point: Point) -> str:
        return f"{_number(point.x - self.left)} {_number(self.top - point.y)}"

    def write(self, words: Words) -> Any:
        x, y = self.x(words.at), self.y(words.at)
        extra: dict[str, Any] = {"font_weight": "bold"} if words.bold else {}
        if words.turn_deg % 360:
            extra["transform"] = f"rotate({_number(-words.turn_deg)} {_number(x)} {_number(y)})"
        text = clean_xml(words.text)
        size = _number(words.size_mm / CAPITAL_EM)
        return self.sheet.text(text, insert=(x, y), font_size=size, text_anchor=ANCHORS[words.anchor], **extra)

"""Check rules: a line with ticks, millimetres or inches, every tick placed from the same end."""

from __future__ import annotations

from dataclasses import dataclass

from calc.shapes.shapes import Line, Point
from packet.draw.model import Entity, Pen, Stroke, Words

INCH_MM = 25.4


@dataclass(frozen=True)
class Rule:
    """unit ``mm`` or ``in``; count: how many of them; every: one tick so many mm; numbered: a figure so many mm."""

    unit: str
    count: int

    @property
    def length_mm(self) -> float:
        return self.count * (1.0 if self.unit == "mm" else INCH_MM)

    @property
    def name(self) -> str:
        return f"{self.count} {self.unit}"


def pick_rules(room_mm: float) -> tuple[Rule, Rule]:
    """Return the millimetre and the inch rule for the room there is: 150 mm and 6 in where they fit."""
    if room_mm >= 6 * INCH_MM + 4:
        return Rule("mm", 150), Rule("in", 6)
    if room_mm >= 4 * INCH_MM + 4:
        return Rule("mm", 100), Rule("in", 4)
    inches = max(1, int((room_mm - 4) // INCH_MM))
    return Rule("mm", max(10, int((room_mm - 4) // 10) * 10)), Rule("in", inches)


def draw_rule(
    rule: Rule, start: Point, *, upright: bool = False, tall_mm: float = 3.4, pen: Pen = Pen.MARK
) -> list[Entity]:
    """Return a rule from a point to the right, or upwards; ticks on its upper (upright: left) side."""
    entities: list[Entity] = []

    def place(along: float, off: float) -> Point:
        return Point(start.x - off, start.y + along) if upright else Point(start.x + along, start.y + off)

    entities.append(Stroke(Line(place(0.0, 0.0), place(rule.length_mm, 0.0)), pen))
    for along, reach, figure in _list_ticks(rule):
        end = along in (0.0, rule.length_mm)
        tall = tall_mm if end else tall_mm * reach
        entities.append(Stroke(Line(place(along, 0.0), place(along, tall)), pen if reach > 0.3 else Pen.DIMENSION))
        if figure:
            size = min(1.7, tall_mm * 0.45)
            spot = place(along - 0.5, tall_mm - size)
            entities.append(Words(at=spot, text=figure, size_mm=size, anchor="end", turn_deg=90.0 if upright else 0.0))
    return entities


def _list_ticks(rule: Rule) -> list[tuple[float, float, str]]:
    """Return place [mm], height (share) and figure of every tick; each place is reckoned from the start."""
    ticks = []
    if rule.unit == "mm":
        for index in range(rule.count // 5 + 1):
            along = float(index * 5)
            tenth = index % 2 == 0
            figure = f"{index * 5:g}" if tenth and index else ""
            ticks.append((along, 0.62 if tenth else 0.3, figure))
        return ticks
    for index in range(rule.count * 8 + 1):
        along = index * INCH_MM / 8
        share = {0: 0.75, 4: 0.5, 2: 0.36, 6: 0.36}.get(index % 8, 0.25)
        figure = f"{index // 8}" if index % 8 == 0 and index else ""
        ticks.append((along, share, figure))
    return ticks

"""The gauge's scale card at true size: ticks in two units from one still-air mark, and the marks of this shop."""

from __future__ import annotations

from dataclasses import replace

from calc.gauges.cards import JOIN_MM, Card, Mark
from calc.gauges.scales import UNIT_PA, Scale, ScaleUnit, make_scale
from calc.measures.quantity import Reader, write_amount, write_length
from calc.shapes.shapes import Box, Line, Path, Point, make_rectangle
from packet.draw.fonts import measure_words
from packet.draw.model import Drawing, Entity, Fill, Pen, Stroke, Words
from packet.words.phrases import Phrases, take_words
from packet.words.say import say

EDGE_TICKS = (8.5, 6.0, 4.0)
INNER_TICKS = (6.0, 4.5, 3.0)
U_WIDTH, ONE_WIDTH = 90.0, 70.0
HEAD, FOOT, TAB = 12.0, 16.0, 10.0
WORD_GAP = 4.6
NUMBER_MM, WORDS_MM = 2.3, 2.2


def draw_card(card: Card, reader: Reader, title: str, machine: str, *, way: str = "") -> Drawing:
    """Return the card [mm]; its still-air mark is at y = 0. Every tick stands where the scale says, times one.

    way: ending of the words that say how it is read: empty at a gate, ``_hose``, ``_alone``
    """
    words = take_words("gauge_card", reader.language)
    units: tuple[ScaleUnit, ScaleUnit] = ("inH2O", "Pa") if reader.system == "inch" else ("Pa", "inH2O")
    # A two-leg card numbers the pressure of one leg's share: the reader adds the two legs.
    pitch = card.instrument.mm_per_pa
    main, other = (_cut_scale(make_scale(unit, pitch, card.scale_mm), card.from_mm) for unit in units)
    left = -U_WIDTH / 2 if card.both_ways else 0.0
    right = U_WIDTH / 2 if card.both_ways else ONE_WIDTH
    bottom = card.from_mm - (card.scale_mm if card.both_ways else 0.0) - FOOT
    top = card.scale_mm + HEAD
    entities: list[Entity] = [
        Stroke(make_rectangle(left, bottom, right - left, top - bottom), Pen.CUT),
        *([] if card.joined else _draw_tab(left, right, top, words)),
        *_draw_joints(card, left, right, words),
        *_draw_scale(main, left, EDGE_TICKS, 1),
        *_draw_scale(other, left + 31.0, INNER_TICKS, -1),
        Stroke(Line(Point(left + 31.0, card.from_mm), Point(left + 31.0, card.scale_mm)), Pen.MARK),
    ]
    heads = [(left + 2.0, main.unit, "start"), (left + 31.0, other.unit, "end")]
    if card.both_ways:
        entities += _draw_scale(main, left, EDGE_TICKS, 1, -1) + _draw_scale(main, right, EDGE_TICKS, -1)
        entities += _draw_scale(main, right, EDGE_TICKS, -1, -1) + _draw_scale(other, left + 31.0, INNER_TICKS, -1, -1)
        entities.append(Stroke(Line(Point(left + 31.0, -card.scale_mm), Point(left + 31.0, 0.0)), Pen.MARK))
        heads.append((right - 2.0, main.unit, "end"))
    entities += [
        Words(at=Point(x, card.scale_mm + 2.5), text=unit, size_mm=NUMBER_MM, anchor=anchor, bold=True)
        for x, unit, anchor in heads
    ]
    entities += _draw_marks(card, reader, (left, right), words)
    entities.sort(key=lambda entity: isinstance(entity, Words) and entity.ground)  # numbers stand over the marks' lines
    told = words(f"gate{way}", machine=machine)
    entities += _draw_words(card, reader, main, (left, right, bottom, top), title, told)
    return Drawing(f"scale card, {title}", tuple(entities), Box(left - 3.0, bottom - 3.0, right + 3.0, top + TAB + 3.0))


def _cut_scale(scale: Scale, from_mm: float) -> Scale:
    """Return the part of a scale from a height up; its ticks stand where they stood."""
    return replace(scale, ticks=tuple(tick for tick in scale.ticks if tick.at_mm >= from_mm - 1e-9))


def _draw_joints(card: Card, left: float, right: float, words: Phrases) -> list[Entity]:
    """Return where strips of a long scale are laid on each other: the same line on both, and what to do there."""
    drawn: list[Entity] = []
    for is_here, y, text, x in (
        (card.joined, card.scale_mm - JOIN_MM, words("join_here"), left + 34.0),
        (card.from_mm > 0, card.from_mm, words("join_cut"), left + 2.0),
    ):
        if is_here:
            drawn.append(Stroke(Line(Point(left - 3.0, y), Point(right + 3.0, y)), Pen.CENTRE))
            drawn.append(Words(at=Point(x, y - 3.0), text=text, size_mm=1.9))
    return drawn


def _draw_tab(left: float, right: float, top: float, words: Phrases) -> list[Entity]:
    outline = make_rectangle(left, top, right - left, TAB)
    return [
        Stroke(Path(outline.pieces[1:], closed=False), Pen.CUT),
        Stroke(Line(Point(left, top), Point(right, top)), Pen.HIDDEN),
        Words(at=Point((left + right) / 2, top + 3.5), text=words("tab"), size_mm=WORDS_MM, anchor="middle"),
    ]


def _draw_scale(scale: Scale, x: float, lengths: tuple[float, float, float], way: int, up: int = 1) -> list[Entity]:
    """Return ticks from x, to the right for way 1; upward for up 1. Downward ones repeat the numbers."""
    drawn: list[Entity] = []
    for tick in scale.ticks:
        if up < 0 and tick.at_mm == 0.0:
            continue
        y = up * tick.at_mm
        reach = lengths[tick.rank]
        drawn.append(Stroke(Line(Point(x, y), Point(x + way * reach, y)), Pen.MARK))
        if tick.label:
            anchor = "start" if way > 0 else "end"
            at = Point(x + way * (lengths[0] + 1.0), y - NUMBER_MM / 2)
            drawn.append(Words(at=at, text=tick.label, size_mm=NUMBER_MM, anchor=anchor, ground=True))
    return drawn


def _draw_marks(card: Card, reader: Reader, edges: tuple[float, float], words: Phrases) -> list[Entity]:
    """Return the shop's marks: a line right across, words beside it moved apart where lines stand close."""
    drawn: list[Entity] = []
    left, right = edges
    words_left = left + 35.0
    words_right = right - (22.0 if card.both_ways else 2.0)
    taken = -1e9
    for mark in sorted(card.marks, key=lambda mark: mark.travel_mm):
        if not mark.fits:
            continue
        heights = (mark.travel_mm, -mark.travel_mm) if card.both_ways and mark.travel_mm else (mark.travel_mm,)
        for y in heights:
            drawn += _draw_mark_line(mark, y, left, right, words_left)
        place = max(mark.travel_mm + 0.8, taken + WORD_GAP)
        taken = place
        text = say(mark.words, reader)
        if mark.key != "still":
            text = words("mark", mark=text, reading=_say_pressure(mark.pressure_pa, reader))
        size = WORDS_MM * min(1.0, (words_right - words_left) / measure_words(text, WORDS_MM, bold=True))
        room = make_rectangle(words_left - 0.5, place - 0.6, words_right - words_left + 1.0, size + 1.4)
        drawn += [Fill(room, 1.0), Words(at=Point(words_left, place), text=text, size_mm=size, bold=True)]
        if place > mark.travel_mm + 1.0:
            drawn.append(
                Stroke(Line(Point(words_left - 3.5, mark.travel_mm), Point(words_left - 0.8, place + 0.8)), Pen.MARK)
            )
    return drawn


def _draw_mark_line(mark: Mark, y: float, left: float, right: float, stop: float) -> list[Entity]:
    """Still air: thin across. Clean: broken. Clean me: solid. Too high: double. Told apart without colour."""
    pen = {"still": Pen.MARK, "clean": Pen.HIDDEN}.get(mark.key, Pen.CUT)
    drawn: list[Entity] = [Stroke(Line(Point(left, y), Point(stop - 3.5 if mark.key == "clean" else right, y)), pen)]
    if mark.key == "clean":
        drawn.append(Stroke(Line(Point(right - 12.0, y), Point(right, y)), pen))
    if mark.key == "too high":
        step = 1.2 if y > 0 else -1.2
        drawn.append(Stroke(Line(Point(left, y + step), Point(right, y + step)), pen))
    return drawn


def _draw_words(
    card: Card, reader: Reader, main: Scale, edges: tuple[float, float, float, float], title: str, told: str
) -> list[Entity]:
    left, right, bottom, top = edges
    words = take_words("gauge_card", reader.language)
    numbered = [tick for tick in main.ticks if tick.rank == 0]
    first, last = numbered[0], numbered[-1]
    apart = write_length(last.at_mm - first.at_mm, reader, decimal=True)
    kind = card.instrument.kind.replace(" ", "_").replace("-", "_")
    how = words(f"how_{kind}", run=f"{1 / card.instrument.slope:.3g}")
    check = words("check", first=first.label, last=last.label, unit=main.unit, apart=apart)
    middle = (left + right) / 2
    lines = [(how, True), (told, False), (check, False)]
    room = right - left - 4.0
    drawn: list[Entity] = [
        _fit_words(Point(middle, bottom + FOOT - 6.5 - 4.0 * row), text, WORDS_MM - (0.0 if bold else 0.2), room, bold)
        for row, (text, bold) in enumerate(lines[2:] if card.from_mm > 0 else lines)
    ]
    return [*drawn, _fit_words(Point(middle, top - 4.0), title, WORDS_MM, room, bold=True)]


def _fit_words(at: Point, text: str, size: float, room: float, bold: bool) -> Words:
    """Return a line in the middle of the card, smaller where the room is too small for it."""
    return Words(
        at=at,
        text=text,
        size_mm=size * min(1.0, room / measure_words(text, size, bold=bold)),
        anchor="middle",
        bold=bold,
    )


def _say_pressure(pressure_pa: float, reader: Reader) -> str:
    small = 3 if reader.system == "inch" and pressure_pa < 0.095 * UNIT_PA["inH2O"] else None
    return write_amount(pressure_pa, "pressure_pa", reader, digits=small)

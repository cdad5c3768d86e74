"""One step as a card: number, title, who and how long; ticks and parts on the left, cautions, tools and picture
on the right, hold points with a blank below. A card stays whole unless it is taller than a page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from reportlab.platypus import Flowable

from packet.draw.model import Drawing
from packet.pages.canvas import PacketCanvas
from packet.pages.flow import break_words
from packet.pages.fonts import BODY, BOLD, ITALIC, clean_text, measure_text
from packet.pages.panels import draw_alert_sign
from packet.pages.style import BLACK, DARK, LIGHT, MIDDLE, MM, WASH

SIZE, LEADING = 8.7, 10.5
SMALL, SMALL_LEADING = 7.8, 9.3
HEAD = 15.0
NUMBER = 26.0  # room of the step number, left of everything
ASIDE = 56 * MM
GUTTER = 5 * MM
SQUARE = 7.4
HOLD_LABEL = 33.0
BLANK = 34 * MM
TOOLS = "Tools"
PARTS = "Parts"
PICTURE_MM = 30.0


@dataclass(frozen=True)
class Warned:
    """A caution at its step: signal word, whether the alert sign stands before it, its title and what to do first."""

    signal: str
    alert: bool
    text: str


@dataclass(frozen=True)
class Hold:
    what: str
    value: str
    tolerance: str
    blank: Any


@dataclass(frozen=True)
class CardWords:
    """All words of a card, cleaned. about: who, minutes, curing; lines: (to be ticked, text); parts: (name, amount)."""

    number: str
    title: str
    about: str
    why: str
    lines: tuple[tuple[bool, str], ...]
    parts: tuple[tuple[str, str], ...] = ()
    tools: str = ""
    warned: tuple[Warned, ...] = ()
    holds: tuple[Hold, ...] = field(default=())
    critical: bool = False


class StepCard(Flowable):  # type: ignore[misc]
    """The card. key, section: bookmark of the step; picture: drawn small at the right."""

    def __init__(self, words: CardWords, key: str, section: str, picture: Drawing | None = None) -> None:
        super().__init__()
        self.words, self.key, self.section, self.picture = words, key, section, picture
        self.spaceBefore, self.spaceAfter = 0.0, 5.0

    # --- measure ------------------------------------------------------------------------------------------------------

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        if getattr(self, "width", None) != width or not hasattr(self, "laid"):
            self._lay(width)
        return width, self.height

    def _lay(self, width: float) -> None:
        words = self.words
        self.width = width
        aside = bool(words.tools or words.warned or self.picture)
        self.main = width - NUMBER - (ASIDE + GUTTER if aside else 0.0)
        self.why = break_words(words.why, width - NUMBER, SIZE, ITALIC) if words.why else []
        self.laid = [
            (tick, break_words(text, self.main - (SQUARE + 5 if tick else 0), SIZE)) for tick, text in words.lines
        ]
        self.parts = lay_parts(words.parts, self.main)
        left = sum(len(lines) * LEADING + 1.6 for _, lines in self.laid)
        left += len(self.parts) * SMALL_LEADING + (3 if self.parts else 0)
        label = measure_text(TOOLS, SMALL, BOLD) + 4
        self.tools = _break_after(label, words.tools, ASIDE, SMALL) if words.tools else []
        self.picture_scale, picture = self._fit_picture()
        self.warned = self._lay_warned()
        right = len(self.tools) * SMALL_LEADING + (2 if self.tools else 0)
        right += sum(len(lines) * SMALL_LEADING + 3 for _, lines in self.warned)
        self.body = max(left, right + picture)
        self.hold_lines = [self._lay_hold(hold) for hold in words.holds]
        holds = sum(tall for _, _, tall in self.hold_lines) + (3 if self.hold_lines else 0)
        self.height = HEAD + 3 + len(self.why) * LEADING + 1 + self.body + holds

    def _lay_warned(self) -> list[tuple[Warned, list[str]]]:
        found = []
        for warned in self.words.warned:
            label = measure_text(warned.signal, SMALL, BOLD) + (13 if warned.alert else 3)
            found.append((warned, _break_after(label, warned.text, ASIDE - 5, SMALL)))
        return found

    def _fit_picture(self) -> tuple[float, float]:
        if self.picture is None:
            return 0.0, 0.0
        box = self.picture.bounds
        scale = min(ASIDE / MM / max(box.width, 1e-9), PICTURE_MM / max(box.height, 1e-9))
        return scale, box.height * scale * MM + 4

    def _lay_hold(self, hold: Hold) -> tuple[list[str], list[str], float]:
        room = self.width - NUMBER - HOLD_LABEL - BLANK - 8
        what = break_words(hold.what, room * 0.56, SIZE)
        value = break_words(f"{hold.value}   ({hold.tolerance})", room * 0.44 - 6, SIZE, BOLD)
        return what, value, max(len(what) * LEADING, len(value) * LEADING, 13.0) + 2.5

    # --- split --------------------------------------------------------------------------------------------------------

    def split(self, width: float, height: float) -> list[Any]:
        """Return nothing (go to the next page) unless the card is taller than most of a page; then break its lists."""
        self.wrap(width, height)
        if self.height <= TALLEST or height < TALLEST * 0.5:
            return []
        words, rows = self.words, max(1, int((height - HEAD - 90) / (LEADING * 1.6)))
        rest = replace(words, title=f"{words.title} (continued)", why="", tools="", warned=())
        for name in ("lines", "parts", "holds"):
            items = getattr(words, name)
            if len(items) > rows:
                others = {other: () for other in ("lines", "parts", "holds") if other != name}
                keep = {"lines": (), "parts": words.lines, "holds": words.lines}[name]
                first = replace(words, **{**others, name: items[:rows]}, **({"lines": keep} if keep else {}))
                last = {name: items[rows:]} | ({"lines": ()} if keep else {})
                return self._make_two(first, replace(rest, **last), width, height)
        return []

    def _make_two(self, first: CardWords, rest: CardWords, width: float, height: float) -> list[Any]:
        head = StepCard(first, self.key, self.section, self.picture)
        tail = StepCard(rest, "", self.section)
        return [head, tail] if head.wrap(width, height)[1] <= height else []

    # --- draw ---------------------------------------------------------------------------------------------------------

    def draw(self) -> None:
        canvas, words = self.canv, self.words
        if isinstance(canvas, PacketCanvas):
            if self.key:
                canvas.mark_place(self.key, f"{words.number}  {words.title}", 2)
            canvas.mark_section(self.section)
        top = self.height
        self._draw_head(top)
        y = top - HEAD - 4
        canvas.setFillGray(DARK)
        y = _write(canvas, NUMBER, y, self.why, SIZE, LEADING, ITALIC) - 2
        canvas.setFillGray(BLACK)
        self._draw_lines(y)
        self._draw_aside(y)
        self._draw_holds(y - self.body - 3)

    def _draw_head(self, top: float) -> None:
        canvas, words = self.canv, self.words
        canvas.setStrokeGray(BLACK)
        canvas.setLineWidth(0.9)
        canvas.line(0, top, self.width, top)
        canvas.setFillGray(WASH)
        canvas.rect(NUMBER - 4, top - HEAD, self.width - NUMBER + 4, HEAD - 0.5, stroke=0, fill=1)
        canvas.setFillGray(BLACK)
        canvas.setFont(BOLD, 12.5)
        canvas.drawString(0, top - HEAD + 4.2, words.number)
        about = measure_text(words.about, SMALL)
        title = break_words(words.title, self.width - NUMBER - about - 12, 10.6, BOLD)
        shown = title[0] if len(title) == 1 else title[0].rstrip() + "…"
        canvas.setFont(BOLD, 10.6)
        canvas.drawString(NUMBER, top - HEAD + 4.6, shown)
        canvas.setFont(BODY, SMALL)
        canvas.drawRightString(self.width - 3, top - HEAD + 5.2, words.about)

    def _draw_lines(self, y: float) -> None:
        canvas = self.canv
        canvas.setStrokeGray(BLACK)
        canvas.setLineWidth(0.7)
        for tick, lines in self.laid:
            if tick:
                canvas.rect(NUMBER, y - SIZE + 0.4, SQUARE, SQUARE)
            y = _write(canvas, NUMBER + (SQUARE + 5 if tick else 0), y, lines, SIZE, LEADING) - 1.6
        y -= 2
        for row in self.parts:
            for offset, font, text in row:
                canvas.setFont(font, SMALL)
                canvas.drawString(NUMBER + offset, y - SMALL, text)
            y -= SMALL_LEADING

    def _draw_aside(self, y: float) -> None:
        canvas, left = self.canv, self.width - ASIDE
        if self.tools or self.warned or self.picture:
            canvas.setStrokeGray(LIGHT)
            canvas.setLineWidth(0.6)
            canvas.line(left - GUTTER / 2, y + 1, left - GUTTER / 2, y - self.body + 1)
        for warned, lines in self.warned:
            y = self._draw_warned(warned, lines, left, y)
        if self.tools:
            canvas.setFillGray(BLACK)
            canvas.setFont(BOLD, SMALL)
            canvas.drawString(left, y - SMALL, TOOLS)
            canvas.setFillGray(DARK)
            canvas.setFont(BODY, SMALL)
            canvas.drawString(left + measure_text(TOOLS, SMALL, BOLD) + 4, y - SMALL, self.tools[0])
            y = _write(canvas, left, y - SMALL_LEADING, self.tools[1:], SMALL, SMALL_LEADING) - 2
        canvas.setFillGray(BLACK)
        if self.picture is not None:
            from packet.draw.pdf import paint

            box, scale = self.picture.bounds, self.picture_scale
            wide, tall = box.width * scale * MM, box.height * scale * MM
            paint(canvas, self.picture, left + (ASIDE - wide) / 2, y - tall - 2, scale)

    def _draw_warned(self, warned: Warned, lines: Sequence[str], left: float, y: float) -> float:
        canvas, tall = self.canv, len(lines) * SMALL_LEADING
        canvas.setStrokeGray(BLACK)
        canvas.setLineWidth(1.4 if warned.signal in ("DANGER", "PELIGRO") else 0.5)
        canvas.line(left, y - 0.5, left, y - tall + 0.5)
        x = left + 4
        if warned.alert:
            draw_alert_sign(canvas, x, y - SMALL + 0.2, 7.6, 0.0, 1.0)
            x += 10
        canvas.setFillGray(BLACK)
        canvas.setFont(BOLD, SMALL)
        canvas.drawString(x, y - SMALL, warned.signal)
        x += measure_text(warned.signal, SMALL, BOLD) + 3
        canvas.setFont(BODY, SMALL)
        canvas.drawString(x, y - SMALL, lines[0])
        return _write(canvas, left + 4, y - SMALL_LEADING, lines[1:], SMALL, SMALL_LEADING) - 3

    def _draw_holds(self, y: float) -> None:
        canvas = self.canv
        for hold, (what, value, tall) in zip(self.words.holds, self.hold_lines, strict=True):
            canvas.setStrokeGray(MIDDLE)
            canvas.setLineWidth(0.5)
            canvas.line(NUMBER, y, self.width, y)
            canvas.setFillGray(BLACK)
            canvas.rect(NUMBER, y - 12.6, HOLD_LABEL - 5, 10.6, stroke=0, fill=1)
            canvas.setFillGray(1)
            canvas.setFont(BOLD, 7.8)
            canvas.drawCentredString(NUMBER + (HOLD_LABEL - 5) / 2, y - 10.1, "HOLD")
            canvas.setFillGray(BLACK)
            left = NUMBER + HOLD_LABEL
            room = self.width - left - BLANK - 8
            _write(canvas, left, y - 2, what, SIZE, LEADING)
            _write(canvas, left + room * 0.56 + 4, y - 2, value, SIZE, LEADING, BOLD)
            hold.blank.wrapOn(canvas, BLANK, 14)
            hold.blank.drawOn(canvas, self.width - BLANK, y - 14.4)
            y -= tall


TALLEST = 560.0
"""A card higher than this [pt] may be broken: no page is sure to hold it."""


Row = list[tuple[float, str, str]]


def lay_parts(parts: Sequence[tuple[str, str]], width: float) -> list[Row]:
    """Return rows of (offset [pt], font, words): ``Parts`` and each part's name with its amount in bold, run on."""
    rows: list[Row] = []
    if not parts:
        return rows
    row: Row = [(0.0, BOLD, PARTS)]
    at = measure_text(PARTS, SMALL, BOLD) + 5
    for number, (name, amount) in enumerate(parts):
        pieces = [(BODY, word) for word in name.split(" ")] + [(BOLD, word) for word in amount.split(" ") if word]
        end = " ·" if number < len(parts) - 1 else ""
        for index, (font, word) in enumerate(pieces):
            text = word + (end if index == len(pieces) - 1 else "")
            need = measure_text(text, SMALL, font)
            if at and at + need > width:
                rows.append(row)
                row, at = [], 0.0
            row.append((at, font, text))
            at += need + measure_text(" ", SMALL)
    return [*rows, row]


def _break_after(label: float, text: str, width: float, size: float) -> list[str]:
    """Return the lines of a text whose first line begins after a label so wide [pt]; '' when it must start below."""
    first = break_words(text, max(width - label, 1.0), size)
    if " " not in first[0] and measure_text(first[0], size) + label > width - 1:
        first = ["", *first]
    rest = text[len(first[0]) :].lstrip()
    return [first[0], *(break_words(rest, width, size) if rest else [])]


def _write(
    canvas: Any, x: float, y: float, lines: Sequence[str], size: float, leading: float, font: str = BODY
) -> float:
    """Write lines downwards from a height [pt]; return the height below them."""
    canvas.setFont(font, size)
    for line in lines:
        canvas.drawString(x, y - size, line)
        y -= leading
    return y


def clean_parts(pairs: Sequence[tuple[str, str]]) -> tuple[tuple[str, str], ...]:
    """Return names and amounts in signs the typeface has."""
    return tuple((clean_text(label), clean_text(text)) for label, text in pairs)

"""One step as a card: number, title, who and how long; what to do, cautions, parts and tools, a picture beside
them, hold points with a blank below. A card stays whole unless it is taller than a page."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from reportlab.platypus import Flowable

from packet.draw.step_pictures import Picture
from packet.pages.canvas import PacketCanvas
from packet.pages.flow import break_words
from packet.pages.fonts import BODY, BOLD, ITALIC, clean_text, measure_text
from packet.pages.panels import draw_alert_sign
from packet.pages.style import BLACK, DARK, MIDDLE, MM, WASH

SIZE, LEADING = 8.7, 10.5
SMALL, SMALL_LEADING = 7.8, 9.3
HEAD = 15.0
NUMBER = 26.0  # room of the step number, left of everything
ASIDE = 46 * MM
GUTTER = 4 * MM
SQUARE = 7.4
HOLD_LABEL = 33.0
BLANK = 34 * MM
TITLE = 10.6
SIGN = 7.6
ALERT, GREY = "alert", "grey"
TOOLS = "Tools"
PARTS = "Parts"


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

    @property
    def count(self) -> int:
        """How many lines, parts and hold points there are: where it can be broken."""
        return len(self.lines) + len(self.parts) + len(self.holds)


class StepCard(Flowable):  # type: ignore[misc]
    """The card. key, section: bookmark of the step; picture: drawn small at the right."""

    def __init__(self, words: CardWords, key: str, section: str, picture: Picture | None = None) -> None:
        super().__init__()
        self.words, self.key, self.section, self.picture = words, key, section, picture
        self.spaceBefore, self.spaceAfter = 0.0, 4.0

    # --- measure ------------------------------------------------------------------------------------------------------

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        if getattr(self, "width", None) != width or not hasattr(self, "laid"):
            self._lay(width)
        return width, self.height

    def _lay(self, width: float) -> None:
        words = self.words
        self.width = width
        self.main = width - NUMBER - (ASIDE + GUTTER if self.picture else 0.0)
        self.title, self.aside = self._lay_head()
        self.why = [] if self.aside else break_words(words.why, self.main, SIZE, ITALIC) if words.why else []
        self.laid = [
            (tick, break_words(text, self.main - (SQUARE + 5 if tick else 0), SIZE)) for tick, text in words.lines
        ]
        self.notes = lay_runs(self._list_runs(), self.main)
        left = len(self.why) * LEADING + 1 + sum(len(lines) * LEADING + 1.6 for _, lines in self.laid)
        left += len(self.notes) * SMALL_LEADING + (3 if self.notes else 0)
        self.body = max(left, self._measure_picture()[1] + 3 if self.picture else 0.0)
        self.hold_lines = [self._lay_hold(hold) for hold in words.holds]
        holds = sum(tall for _, _, tall in self.hold_lines) + (3 if self.hold_lines else 0)
        self.height = HEAD + 3 + self.body + holds

    def _lay_head(self) -> tuple[str, str]:
        """Return the title and, where there is room for it on the same line, the reason."""
        words = self.words
        room = self.width - NUMBER - measure_text(words.about, SMALL) - 12
        title = break_words(words.title, room, TITLE, BOLD)
        if len(title) > 1:
            return title[0].rstrip() + "…", ""
        rest = room - measure_text(title[0], TITLE, BOLD) - 8
        return title[0], words.why if measure_text(words.why, SIZE, ITALIC) <= rest else ""

    def _list_runs(self) -> list[Run]:
        """Return cautions, tools and parts as words that run on, each kind under its label."""
        words, runs = self.words, list[Run]()
        for warned in words.warned:
            runs += [(ALERT, "")] if warned.alert else []
            runs += [(BOLD, warned.signal), *((BODY, word) for word in warned.text.split(" "))]
        if words.tools:
            runs += [(BOLD, TOOLS), *((GREY, word) for word in words.tools.split(" "))]
        for number, (name, amount) in enumerate(words.parts):
            runs += [(BOLD, PARTS)] if number == 0 else []
            last = number == len(words.parts) - 1
            pieces = f"{name}:".split(" ") + amount.split(" ") if amount else name.split(" ")
            runs += [(BODY, word) for word in pieces[:-1]]
            runs.append((BODY, pieces[-1] + (" ·" if not last else "")))
        return runs

    def _measure_picture(self) -> tuple[float, float]:
        if self.picture is None:
            return 0.0, 0.0
        box, scale = self.picture.drawing.bounds, self.picture.scale * MM
        return box.width * scale, box.height * scale

    def _lay_hold(self, hold: Hold) -> tuple[list[str], list[str], float]:
        room = self.width - NUMBER - HOLD_LABEL - BLANK - 8
        what = break_words(hold.what, room * 0.5, SIZE)
        value = break_words(f"{hold.value}   ({hold.tolerance})", room * 0.5 - 6, SIZE, BOLD)
        return what, value, max(len(what) * LEADING, len(value) * LEADING, 13.0) + 2.5

    # --- split --------------------------------------------------------------------------------------------------------

    def split(self, width: float, height: float) -> list[Any]:
        """Return nothing (go to the next page) unless the card is taller than most of a page; then break its lists."""
        self.wrap(width, height)
        if self.height <= TALLEST or height < TALLEST * 0.5:
            return []

        def measure(count: int) -> float:
            return StepCard(take_words(self.words, count)[0], "", "", self.picture).wrap(width, height)[1]

        fits = bisect_right(range(1, self.words.count), height, key=measure)
        if not fits:
            return []
        first, rest = take_words(self.words, fits)
        return [StepCard(first, self.key, self.section, self.picture), StepCard(rest, "", self.section)]

    # --- draw ---------------------------------------------------------------------------------------------------------

    def draw(self) -> None:
        canvas, words = self.canv, self.words
        if isinstance(canvas, PacketCanvas):
            if self.key:
                canvas.mark_place(self.key, f"{words.number}  {words.title}", 2)
            canvas.mark_section(self.section)
        top = self.height
        self._draw_head(top)
        y = top - HEAD - 3
        self._draw_main(y)
        self._draw_picture(y)
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
        canvas.setFont(BOLD, TITLE)
        canvas.drawString(NUMBER, top - HEAD + 4.4, self.title)
        if self.aside:
            canvas.setFillGray(DARK)
            canvas.setFont(ITALIC, SIZE)
            canvas.drawString(NUMBER + measure_text(self.title, TITLE, BOLD) + 8, top - HEAD + 4.6, self.aside)
            canvas.setFillGray(BLACK)
        canvas.setFont(BODY, SMALL)
        canvas.drawRightString(self.width - 3, top - HEAD + 5.2, words.about)

    def _draw_main(self, y: float) -> None:
        canvas = self.canv
        canvas.setFillGray(DARK)
        y = _write(canvas, NUMBER, y, self.why, SIZE, LEADING, ITALIC) - 1
        canvas.setFillGray(BLACK)
        canvas.setStrokeGray(BLACK)
        canvas.setLineWidth(0.7)
        for tick, lines in self.laid:
            if tick:
                canvas.rect(NUMBER, y - SIZE + 0.4, SQUARE, SQUARE)
            y = _write(canvas, NUMBER + (SQUARE + 5 if tick else 0), y, lines, SIZE, LEADING) - 1.6
        self._draw_notes(y - 1.5)

    def _draw_notes(self, y: float) -> None:
        canvas = self.canv
        for row in self.notes:
            for offset, font, text in row:
                if font == ALERT:
                    draw_alert_sign(canvas, NUMBER + offset, y - SMALL + 0.1, 7.6, 0.0, 1.0)
                    continue
                canvas.setFillGray(DARK if font == GREY else BLACK)
                canvas.setFont(BODY if font == GREY else font, SMALL)
                canvas.drawString(NUMBER + offset, y - SMALL, text)
            y -= SMALL_LEADING

    def _draw_picture(self, y: float) -> None:
        if self.picture is None:
            return
        from packet.draw.pdf import paint

        wide, tall = self._measure_picture()
        left = self.width - ASIDE + (ASIDE - wide) / 2
        paint(self.canv, self.picture.drawing, left, y - tall - 1, self.picture.scale)

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
            _write(canvas, left + room * 0.5 + 4, y - 2, value, SIZE, LEADING, BOLD)
            hold.blank.wrapOn(canvas, BLANK, 14)
            hold.blank.drawOn(canvas, self.width - BLANK, y - 14.4)
            y -= tall


TALLEST = 560.0
"""A card higher than this [pt] may be broken: no page is sure to hold it."""


def take_words(words: CardWords, count: int) -> tuple[CardWords, CardWords]:
    """Return a card with the first so many of its lines, parts and hold points, and one with the rest of them."""
    parts = max(count - len(words.lines), 0)
    holds = max(parts - len(words.parts), 0)
    first = replace(words, lines=words.lines[:count], parts=words.parts[:parts], holds=words.holds[:holds])
    rest = replace(words, lines=words.lines[count:], parts=words.parts[parts:], holds=words.holds[holds:])
    return first, replace(rest, title=f"{words.title} (continued)", why="", tools="", warned=())


Run = tuple[str, str]
Row = list[tuple[float, str, str]]


def lay_runs(runs: Sequence[Run], width: float) -> list[Row]:
    """Return rows of (offset [pt], font, word) for words that run on; an alert sign stays with its signal word."""
    rows: list[Row] = []
    row: Row = []
    at = 0.0
    for index, (font, text) in enumerate(runs):
        label = font in (ALERT, BOLD) and (index == 0 or runs[index - 1][0] != ALERT)
        if label and row:
            at += 5.0
        need = SIGN if font == ALERT else measure_text(text, SMALL, BODY if font == GREY else font)
        # a label stays with the word after it, an alert sign with its signal word and that one's next word
        bound = runs[index + 1 : index + (3 if font == ALERT else 2)] if font in (ALERT, BOLD) else []
        follower = sum(measure_text(word, SMALL, BOLD) + 5 for _, word in bound)
        if row and at + need + follower > width:
            rows.append(row)
            row, at = [], 0.0
        row.append((at, font, text))
        at += need + (1.5 if font == ALERT else measure_text(" ", SMALL) + (1.5 if font == BOLD else 0.0))
    return [*rows, row] if row else rows


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

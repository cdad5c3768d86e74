"""One step as a card: number, title, who and how long; what to do, cautions, parts and tools, a picture beside
them, hold points with a blank below. A card stays whole unless it is taller than a page."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from reportlab.platypus import Flowable

from packet.draw.fonts import BODY, BOLD, ITALIC, clean_text, measure_text
from packet.draw.steps.pictures import TALL_MM, WIDE_MM, Picture
from packet.pages.kit.canvas import PacketCanvas
from packet.pages.kit.flow import break_words
from packet.pages.kit.panels import draw_alert_sign
from packet.pages.kit.style import BLACK, DARK, MIDDLE, MM, WASH

SIZE, LEADING = 8.7, 10.0
ROW = 0.6  # between two things to do
SMALL, SMALL_LEADING = 7.8, 9.3
HEAD = 14.5
NUMBER = 26.0  # room of the step number, left of everything
MOST_MM = 44.0  # a picture is no taller, however long the words beside it
ROOMS: tuple[tuple[float, ...], ...] = ((), (WIDE_MM,), (42.0, 38.0))
"""Widths [mm] of the room for no picture, one, two."""
GUTTER, BETWEEN = 4 * MM, 2 * MM
SQUARE = 7.4
HOLD_LABEL = 30.0
BLANK, SHORT = 34 * MM, 13 * MM  # the place to write, in a row of its own and beside another
TITLE = 10.6
SIGN = 7.6
ALERT, GREY = "alert", "grey"
Draw = Callable[[float, float], Picture]


@dataclass(frozen=True)
class StepCaution:
    """A caution at its step: signal word, whether the alert sign stands before it, its title and what to do first."""

    signal: str
    alert: bool
    text: str


@dataclass(frozen=True)
class Hold:
    """A hold point. value: with its tolerance; blank: makes the place to write in, for a width in millimetres."""

    what: str
    value: str
    blank: Callable[[float], Any]


@dataclass(frozen=True)
class Labels:
    """The words that stand on every card; continued: the title of a card that goes on."""

    tools: str
    parts: str
    hold: str
    continued: str


@dataclass(frozen=True, kw_only=True)
class CardWords:
    """All words of a card, cleaned. about: who, minutes, curing; lines: (to be ticked, text); parts: (name, amount)."""

    number: str
    title: str
    about: str
    why: str
    labels: Labels
    lines: tuple[tuple[bool, str], ...]
    parts: tuple[tuple[str, str], ...] = ()
    tools: str = ""
    warned: tuple[StepCaution, ...] = ()
    holds: tuple[Hold, ...] = field(default=())

    @property
    def count(self) -> int:
        """How many lines, parts and hold points there are: where it can be broken."""
        return len(self.lines) + len(self.parts) + len(self.holds)


class StepCard(Flowable):  # type: ignore[misc]
    """The card. key, section: bookmark of the step; draw: makes the pictures at the right for a room [mm] and one of
    so many."""

    def __init__(self, words: CardWords, key: str, section: str, draw: Sequence[Draw] = ()) -> None:
        super().__init__()
        self.words, self.key, self.section, self.draws = words, key, section, draw
        self.spaceBefore, self.spaceAfter = 0.0, 3.0

    # --- measure ------------------------------------------------------------------------------------------------------

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        if getattr(self, "width", None) != width or not hasattr(self, "laid"):
            self._lay(width)
        return width, self.height

    def _lay(self, width: float) -> None:
        words = self.words
        self.width = width
        rooms = ROOMS[len(self.draws)]
        self.main = width - NUMBER - sum(room * MM + GUTTER for room in rooms)
        self.title, self.aside = self._lay_head()
        self.why = [] if self.aside else break_words(words.why, self.main, SIZE, ITALIC) if words.why else []
        self.laid = [
            (tick, break_words(text, self.main - (SQUARE + 5 if tick else 0), SIZE if tick else SMALL))
            for tick, text in words.lines
        ]
        self.notes = lay_runs(self._list_runs(), self.main)
        left = len(self.why) * LEADING + 1 + sum(_measure_line(tick, lines) for tick, lines in self.laid)
        left += len(self.notes) * SMALL_LEADING + (3 if self.notes else 0)
        tall = min(max(TALL_MM, (left - 3) / MM), MOST_MM)
        self.pictures = [make(wide, tall) for make, wide in zip(self.draws, rooms, strict=True)]
        self.body = max([left, *(picture.tall_mm * MM + 3 for picture in self.pictures)])
        self.rows = self._lay_holds()
        self.height = HEAD + 2 + self.body + sum(row.tall for row in self.rows) + (3 if self.rows else 0)

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
            runs += [(BOLD, words.labels.tools), *((GREY, word) for word in words.tools.split(" "))]
        for number, (name, amount) in enumerate(words.parts):
            runs += [(BOLD, words.labels.parts)] if number == 0 else []
            last = number == len(words.parts) - 1
            pieces = f"{name}:".split(" ") + amount.split(" ") if amount else name.split(" ")
            runs += [(BODY, word) for word in pieces[:-1]]
            runs.append((BODY, pieces[-1] + (" ·" if not last else "")))
        return runs

    def _lay_holds(self) -> list[HoldRow]:
        """Return the hold points row by row: two that are short enough stand side by side."""
        rows: list[HoldRow] = []
        waiting, room = list(self.words.holds), self.width - NUMBER
        while waiting:
            cells = [lay_short(hold) for hold in waiting[:2]]
            spare = room - sum(cell.width for cell in cells) - BETWEEN
            if len(cells) == 2 and spare >= 0.0:
                left, right = (replace(cell, width=cell.width + spare / 2) for cell in cells)
                rows.append(HoldRow((left, right)))
                del waiting[:2]
            else:
                rows.append(HoldRow((lay_wide(waiting.pop(0), room),)))
        return rows

    # --- split --------------------------------------------------------------------------------------------------------

    def split(self, width: float, height: float) -> list[Any]:
        """Return nothing (go to the next page) unless the card is taller than most of a page; then break its lists."""
        self.wrap(width, height)
        if self.height <= TALLEST or height < TALLEST * 0.5:
            return []

        def measure(count: int) -> float:
            return StepCard(take_words(self.words, count)[0], "", "", self.draws).wrap(width, height)[1]

        fits = bisect_right(range(1, self.words.count), height, key=measure)
        if not fits:
            return []
        first, rest = take_words(self.words, fits)
        return [StepCard(first, self.key, self.section, self.draws), StepCard(rest, "", self.section)]

    # --- draw ---------------------------------------------------------------------------------------------------------

    def draw(self) -> None:
        canvas, words = self.canv, self.words
        if isinstance(canvas, PacketCanvas):
            if self.key:
                canvas.mark_place(self.key, f"{words.number}  {words.title}", 2)
            canvas.mark_section(self.section)
        top = self.height
        self._draw_head(top)
        y = top - HEAD - 2
        self._draw_main(y)
        self._draw_pictures(y)
        self._draw_holds(y - self.body - 3)
        del self.laid, self.pictures  # drawn: a shop's pictures together are large; asked again, they are made again

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
                y = _write(canvas, NUMBER + SQUARE + 5, y, lines, SIZE, LEADING) - ROW
            else:
                y = _write(canvas, NUMBER, y, lines, SMALL, SMALL_LEADING) - ROW
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

    def _draw_pictures(self, y: float) -> None:
        from packet.draw.backends.pdf import paint

        left = self.width - sum(room * MM for room in ROOMS[len(self.pictures)]) - GUTTER * (len(self.pictures) - 1)
        for picture, room in zip(self.pictures, ROOMS[len(self.pictures)], strict=True):
            spare = room - picture.wide_mm
            paint(self.canv, picture.drawing, left + spare / 2 * MM, y - picture.tall_mm * MM - 1, picture.scale)
            left += room * MM + GUTTER

    def _draw_holds(self, y: float) -> None:
        canvas = self.canv
        for row in self.rows:
            canvas.setStrokeGray(MIDDLE)
            canvas.setLineWidth(0.5)
            canvas.line(NUMBER, y, self.width, y)
            left = NUMBER
            for cell in row.cells:
                draw_hold(canvas, cell, left, y, self.words.labels.hold)
                left += cell.width + BETWEEN
            y -= row.tall


@dataclass(frozen=True, kw_only=True)
class HoldCell:
    """A hold point laid out. what_wide: how far its value stands from its words; blank_wide: of the place to write."""

    hold: Hold
    what: list[str]
    value: list[str]
    what_wide: float
    width: float
    blank_wide: float


@dataclass(frozen=True)
class HoldRow:
    """Hold points side by side."""

    cells: tuple[HoldCell, ...]

    @property
    def tall(self) -> float:
        return max(max(len(cell.what) * LEADING, len(cell.value) * LEADING, 12.4) + 2.4 for cell in self.cells)


def lay_short(hold: Hold) -> HoldCell:
    """Return a hold point on one line, as wide as it is, its value right after its words."""
    what, value = measure_text(hold.what, SIZE) + 2, measure_text(hold.value, SIZE, BOLD) + 4
    return HoldCell(
        hold=hold,
        what=[hold.what],
        value=[hold.value],
        what_wide=what,
        width=HOLD_LABEL + what + 4 + value + SHORT,
        blank_wide=SHORT,
    )


def lay_wide(hold: Hold, width: float) -> HoldCell:
    """Return a hold point in a row of its own: all such values stand in one column."""
    half = (width - HOLD_LABEL - BLANK - 8) * 0.5
    what, value = break_words(hold.what, half, SIZE), break_words(hold.value, half - 6, SIZE, BOLD)
    return HoldCell(hold=hold, what=what, value=value, what_wide=half, width=width, blank_wide=BLANK)


def draw_hold(canvas: Any, cell: HoldCell, left: float, y: float, label: str) -> None:
    """Draw a hold point from its upper left corner."""
    canvas.setFillGray(BLACK)
    canvas.rect(left, y - 12.6, HOLD_LABEL - 5, 10.6, stroke=0, fill=1)
    canvas.setFillGray(1)
    canvas.setFont(BOLD, 7.8)
    canvas.drawCentredString(left + (HOLD_LABEL - 5) / 2, y - 10.1, label)
    canvas.setFillGray(BLACK)
    start = left + HOLD_LABEL
    _write(canvas, start, y - 2, cell.what, SIZE, LEADING)
    _write(canvas, start + cell.what_wide + 4, y - 2, cell.value, SIZE, LEADING, BOLD)
    blank = cell.hold.blank(cell.blank_wide / MM)
    blank.wrapOn(canvas, cell.blank_wide, 14)
    blank.drawOn(canvas, left + cell.width - cell.blank_wide, y - 14.4)


TALLEST = 560.0
"""A card higher than this [pt] may be broken: no page is sure to hold it."""


def take_words(words: CardWords, count: int) -> tuple[CardWords, CardWords]:
    """Return a card with the first so many of its lines, parts and hold points, and one with the rest of them."""
    parts = max(count - len(words.lines), 0)
    holds = max(parts - len(words.parts), 0)
    first = replace(words, lines=words.lines[:count], parts=words.parts[:parts], holds=words.holds[:holds])
    rest = replace(words, lines=words.lines[count:], parts=words.parts[parts:], holds=words.holds[holds:])
    return first, replace(rest, title=words.labels.continued, why="", tools="", warned=())


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


def _measure_line(tick: bool, lines: Sequence[str]) -> float:
    """Return the height of a thing to do, or of a remark in small print."""
    return len(lines) * (LEADING if tick else SMALL_LEADING) + ROW


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
    """Return names and amounts in characters the typeface has."""
    return tuple((clean_text(label), clean_text(text)) for label, text in pairs)

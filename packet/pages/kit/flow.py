"""The blocks that flow down a page beside text and tables: headings, drawings, whole pages, marks."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from reportlab.platypus import Flowable

from calc.finding import Verdict
from packet.draw.fonts import BODY, BOLD, measure_text
from packet.draw.model import Drawing
from packet.pages.kit.canvas import PacketCanvas
from packet.pages.kit.style import BLACK, DARK, HEADINGS, HEAVY_RULE, MIDDLE, MM, RULE, Frame

Painter = Callable[[Any, Frame], None]
TOO_HIGH = 1.0e6


def break_words(text: str, width: float, size: float, font: str = BODY) -> list[str]:
    """Return the lines of a text at a width [pt]; a word longer than the line is cut across lines."""
    lines: list[str] = []
    for part in text.split("\n"):
        line, room = "", width
        for word in part.split(" "):
            need = measure_text(word, size, font)
            gap = measure_text(" ", size, font) if line else 0.0
            if need + gap <= room:
                line, room = (f"{line} {word}" if line else word), room - need - gap
                continue
            if line:
                lines.append(line)
            while need > width and len(word) > 1:
                cut = _fit_signs(word, width, size, font)
                lines.append(word[:cut])
                word = word[cut:]
                need = measure_text(word, size, font)
            line, room = word, width - need
        lines.append(line)
    return lines


def _fit_signs(word: str, width: float, size: float, font: str) -> int:
    low, high = 1, len(word)
    while low < high:
        middle = (low + high + 1) // 2
        if measure_text(word[:middle], size, font) <= width:
            low = middle
        else:
            high = middle - 1
    return low


class Heading(Flowable):  # type: ignore[misc]
    """A heading with its bookmark. It stays with what follows: it wants room below it on the page."""

    def __init__(self, text: str, level: int, key: str, number: str = "", section: str = "") -> None:
        super().__init__()
        self.text, self.level, self.key, self.number, self.section = text, level, key, number, section
        self.size, self.leading, above, below, room = HEADINGS[level]
        self.spaceBefore, self.spaceAfter = above, below
        self.room = room * MM
        self.lines: list[str] = []
        self.indent = measure_text(number, self.size, BOLD) + 9 if number else 0.0

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        self.lines = break_words(self.text, width - self.indent, self.size, BOLD)
        tall = len(self.lines) * self.leading + (7 if self.level == 1 else 0)
        if height < tall + self.spaceAfter + self.room:
            return width, TOO_HIGH
        self.height = tall
        return width, tall

    def split(self, width: float, height: float) -> list[Any]:
        return []

    def draw(self) -> None:
        canvas = self.canv
        height = len(self.lines) * self.leading + (7 if self.level == 1 else 0)
        if self.level == 1:
            canvas.setStrokeGray(BLACK)
            canvas.setLineWidth(HEAVY_RULE)
            canvas.line(0, height - 1.1, self.width, height - 1.1)
            height -= 7
        y = height - self.size
        if self.number:
            canvas.setFillGray(MIDDLE)
            canvas.setFont(BOLD, self.size)
            canvas.drawString(0, y, self.number)
        canvas.setFillGray(BLACK)
        canvas.setFont(BOLD, self.size)
        for line in self.lines:
            canvas.drawString(self.indent, y, line)
            y -= self.leading
        if isinstance(canvas, PacketCanvas):
            canvas.open_section(self.section, self._is_at_top(), headed=True)
            canvas.mark_place(self.key, self.text, self.level - 1)

    def _is_at_top(self) -> bool:
        """Tell whether it stands at the top of its page."""
        frame = getattr(self, "_frame", None)
        return frame is not None and self.canv.absolutePosition(0, self.height)[1] > frame._y1p + frame._height - 2.0


class SectionMark(Flowable):  # type: ignore[misc]
    """Nothing to see: says that a section without a heading begins here."""

    def __init__(self, section: str, at_top: bool) -> None:
        super().__init__()
        self.section, self.at_top = section, at_top

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        return 0.0, 0.0

    def draw(self) -> None:
        if isinstance(self.canv, PacketCanvas):
            self.canv.open_section(self.section, self.at_top)


class LaterWords(Flowable):  # type: ignore[misc]
    """One line whose words are known at the end, such as the pages of a section."""

    def __init__(self, write: Callable[[PacketCanvas], str], size: float, font: str = BODY, anchor: str = "start"):
        super().__init__()
        self.write, self.size, self.font, self.anchor = write, size, font, anchor

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        return width, self.size * 1.27

    def draw(self) -> None:
        if isinstance(self.canv, PacketCanvas):
            x = self.width if self.anchor == "end" else 0.0
            self.canv.write_later(x, self.size * 0.3, self.write, self.font, self.size, self.anchor)


class Figure(Flowable):  # type: ignore[misc]
    """A drawing at a scale, with its caption, its scale in words and a scale bar."""

    GAP = 6.0
    NARROW = 108 * MM  # below this width the scale stands under the caption, not beside it

    def __init__(self, drawing: Drawing, scale: float, caption: str, scale_words: str, bar: Bar | None) -> None:
        super().__init__()
        self.drawing, self.scale, self.caption, self.scale_words, self.bar = drawing, scale, caption, scale_words, bar
        self.wide, self.tall = drawing.bounds.width * scale * MM, drawing.bounds.height * scale * MM
        self.spaceBefore, self.spaceAfter = 3.0, 8.0
        self.lines: list[str] = []

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        aside = 0.0
        if self.scale_words:
            bar = self.bar.length_mm * self.scale * MM + 6 if self.bar else 0.0
            aside = measure_text(self.scale_words, 8.8) + bar + 8
        beside = measure_text(self.caption, 8.8) <= width - aside
        self.stacked = bool(self.scale_words and self.caption) and width < self.NARROW and not beside
        room = width if self.stacked else max(width - aside, 40 * MM)
        self.lines = break_words(self.caption, room, 8.8) if self.caption else []
        foot = max(len(self.lines) + (1 if self.stacked else 0), 1 if self.scale_words else 0) * 11.2
        self.foot = foot + (self.GAP if foot else 0)
        return width, self.tall + self.foot

    def draw(self) -> None:
        from packet.draw.backends.pdf import paint

        canvas = self.canv
        paint(canvas, self.drawing, max((self.width - self.wide) / 2, 0.0), self.foot, self.scale)
        if not self.foot:
            return
        y = self.foot - self.GAP
        canvas.setStrokeGray(MIDDLE)
        canvas.setLineWidth(RULE)
        canvas.line(0, y, self.width, y)
        canvas.setFillGray(DARK)
        y -= 9.2
        canvas.setFont(BODY, 8.8)
        for line in self.lines:
            canvas.drawString(0, y, line)
            y -= 11.2
        if self.scale_words:
            y = y if self.stacked else self.foot - self.GAP - 9.2  # y: below the caption's last line
            left = self.width
            if self.bar:
                left -= self.bar.length_mm * self.scale * MM
                self.bar.draw(canvas, left, y, self.scale)
                left -= 6
            canvas.drawRightString(left, y, self.scale_words)


class Bar:
    """A scale bar: so many real millimetres, in words of the reader."""

    def __init__(self, length_mm: float, words: str) -> None:
        self.length_mm, self.words = length_mm, words

    def draw(self, canvas: Any, x: float, y: float, scale: float) -> None:
        """Draw it with its lower left at a place [pt], black and white halves."""
        half = self.length_mm * scale * MM / 2
        canvas.setStrokeGray(BLACK)
        canvas.setLineWidth(RULE)
        canvas.setFillGray(BLACK)
        canvas.rect(x, y + 6.5, half, 2, stroke=1, fill=1)
        canvas.rect(x + half, y + 6.5, half, 2, stroke=1, fill=0)
        canvas.setFillGray(DARK)
        canvas.setFont(BODY, 7)
        canvas.drawCentredString(x + half, y - 0.5, self.words)
        canvas.setFont(BODY, 8.8)


class FullPage(Flowable):  # type: ignore[misc]
    """A whole page painted by hand, such as a template tile."""

    def __init__(
        self, painter: Painter, frame: Frame, height: float, bookmark: str, level: int, key: str, section: str = ""
    ) -> None:
        super().__init__()
        self.section = section
        self.painter, self.frame, self.height = painter, frame, height
        self.bookmark, self.level, self.key = bookmark, level, key

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        return width, min(self.height, height) if height >= self.height - 0.01 else self.height

    def split(self, width: float, height: float) -> list[Any]:
        return []

    def draw(self) -> None:
        canvas = self.canv
        if isinstance(canvas, PacketCanvas):
            canvas.whole.add(canvas.getPageNumber())
            canvas.open_section(self.section, True)
            if self.bookmark:
                canvas.mark_place(self.key, self.bookmark, self.level - 1)
        left, bottom = canvas.absolutePosition(0, 0)
        canvas.saveState()
        canvas.translate(-left, -bottom)
        self.painter(canvas, self.frame)
        canvas.restoreState()


class VerdictMark(Flowable):  # type: ignore[misc]
    """A verdict as a small plate: white when it fits, grey when tight, black when it does not fit."""

    SIZE, TALL = 7.8, 11.0

    def __init__(self, verdict: Verdict, words: str) -> None:
        super().__init__()
        self.words = words
        self.ground, self.ink = {Verdict.FITS: (1.0, 0.0), Verdict.TIGHT: (0.8, 0.0)}.get(verdict, (0.0, 1.0))
        self.width = measure_text(self.words, self.SIZE, BOLD) + 9

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        return self.width, self.TALL

    def draw(self) -> None:
        canvas = self.canv
        canvas.setFillGray(self.ground)
        canvas.setStrokeGray(BLACK if self.ground < 1 else MIDDLE)
        canvas.setLineWidth(0.7)
        canvas.roundRect(0.3, 0.3, self.width - 0.6, self.TALL - 0.6, 2.5, stroke=1, fill=1)
        canvas.setFillGray(self.ink)
        canvas.setFont(BOLD, self.SIZE)
        canvas.drawCentredString(self.width / 2, 2.9, self.words)

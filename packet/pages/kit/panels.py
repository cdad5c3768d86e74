"""Safety panels: signal words, order and safety-alert sign by ANSI Z535.6 usage, legible without colour."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable, Paragraph

from packet.draw.fonts import BODY, BOLD, clean_text, measure_text
from packet.pages.kit.flow import break_words
from packet.pages.kit.style import BLACK, WASH, get_style

# word -> tone behind it, tone of the word, line round the panel [pt], safety-alert sign (Z535.6: not with NOTICE)
PANELS: dict[str, tuple[float, float, float, bool]] = {
    "DANGER": (0.0, 1.0, 1.8, True),
    "WARNING": (0.55, 0.0, 1.2, True),
    "CAUTION": (0.82, 0.0, 0.9, True),
    "NOTICE": (1.0, 0.0, 0.6, False),
}

SIZE, LEADING, PAD, HEAD = 9.6, 12.6, 5.5, 16.0


def draw_alert_sign(canvas: Any, x: float, y: float, size: float, ink: float, ground: float) -> None:
    """Draw the safety-alert sign, a triangle with an exclamation mark, its lower left at a place [pt]."""
    canvas.saveState()
    canvas.setLineJoin(1)
    path = canvas.beginPath()
    path.moveTo(x, y)
    path.lineTo(x + size, y)
    path.lineTo(x + size / 2, y + size * 0.87)
    path.close()
    canvas.setFillGray(ink)
    canvas.setStrokeGray(ink)
    canvas.setLineWidth(size * 0.1)
    canvas.drawPath(path, stroke=1, fill=1)
    canvas.setFillGray(ground)
    middle = x + size / 2
    stem = canvas.beginPath()
    stem.moveTo(middle - size * 0.075, y + size * 0.6)
    stem.lineTo(middle + size * 0.075, y + size * 0.6)
    stem.lineTo(middle + size * 0.045, y + size * 0.25)
    stem.lineTo(middle - size * 0.045, y + size * 0.25)
    stem.close()
    canvas.drawPath(stem, stroke=0, fill=1)
    canvas.circle(middle, y + size * 0.13, size * 0.065, stroke=0, fill=1)
    canvas.restoreState()


class SignalPanel(Flowable):  # type: ignore[misc]
    """A framed panel: signal word with the safety-alert sign, then what can hurt and how to avoid it."""

    def __init__(self, word: str, texts: Sequence[str], title: str = "") -> None:
        super().__init__()
        self.word, self.title = word, clean_text(title)
        self.texts = [clean_text(text) for text in texts]
        self.ground, self.ink, self.rule, self.alert = PANELS[word]
        self.spaceBefore, self.spaceAfter = 4.0, 7.0

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        self.lines: list[tuple[str, bool]] = []
        inner = width - 2 * PAD - 4
        several = len(self.texts) > 1
        for text in self.texts:
            parts = break_words(text, inner - (9 if several else 0), SIZE)
            self.lines += [(part, several and n == 0) for n, part in enumerate(parts)]
        self.several = several
        self.height = HEAD + 2 * PAD + len(self.lines) * LEADING - 1
        return width, self.height

    def split(self, width: float, height: float) -> list[Any]:
        """Split between texts only, the signal word on both parts."""
        self.wrap(width, height)
        if height >= self.height or len(self.texts) < 2:
            return []
        for count in range(len(self.texts) - 1, 0, -1):
            first = SignalPanel(self.word, self.texts[:count], self.title)
            if first.wrap(width, height)[1] <= height:
                return [first, SignalPanel(self.word, self.texts[count:], self.title)]
        return []

    def draw(self) -> None:
        canvas, top = self.canv, self.height
        canvas.setFillGray(self.ground)
        canvas.rect(0, top - HEAD, self.width, HEAD, stroke=0, fill=1)
        x = PAD + 2
        if self.alert:
            draw_alert_sign(canvas, x, top - HEAD + 3.2, 11.5, self.ink, self.ground)
            x += 17
        canvas.setFillGray(self.ink)
        canvas.setFont(BOLD, 11)
        canvas.drawString(x, top - HEAD + 4.4, self.word)
        if self.title:
            x += measure_text(self.word, 11, BOLD) + 9
            canvas.setFont(BOLD, SIZE)
            canvas.drawString(x, top - HEAD + 4.6, self.title)
        canvas.setFillGray(BLACK)
        y = top - HEAD - PAD - SIZE + 1
        for text, dot in self.lines:
            canvas.setFont(BODY, SIZE)
            if dot:
                canvas.drawString(PAD + 2, y, "•")
            canvas.drawString(PAD + 2 + (9 if self.several else 0), y, text)
            y -= LEADING
        canvas.setStrokeGray(BLACK)
        canvas.setLineWidth(self.rule)
        canvas.rect(0, 0, self.width, self.height, stroke=1, fill=0)
        canvas.setLineWidth(0.6)
        canvas.line(0, top - HEAD, self.width, top - HEAD)


class StopPanel(Flowable):  # type: ignore[misc]
    """A heavy frame under a black bar with its title: the first thing the eye finds. points: what stands in it."""

    INSIDE = 7.0

    def __init__(self, title: str, points: Sequence[Flowable], size: float) -> None:
        super().__init__()
        self.title, self.points, self.size = clean_text(title), list(points), size
        self.spaceAfter = 4.0

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width, self.bar = width, self.size * 1.7
        self.talls = [float(point.wrap(width - 2 * self.INSIDE, height)[1]) for point in self.points]
        self.height = self.bar + sum(self.talls) + self.size * 0.45 + 4
        return width, self.height

    def draw(self) -> None:
        canvas, y = self.canv, self.height - self.bar
        canvas.setFillGray(BLACK)
        canvas.rect(0, y, self.width, self.bar, stroke=0, fill=1)
        canvas.setStrokeGray(BLACK)
        canvas.setLineWidth(1.8)
        canvas.rect(0, 0, self.width, self.height)
        canvas.setFillGray(1)
        canvas.setFont(BOLD, self.size + 2)
        canvas.drawString(self.INSIDE, y + self.size * 0.5, self.title)
        y -= 3
        for point, tall in zip(self.points, self.talls, strict=True):
            y -= tall
            point.drawOn(canvas, self.INSIDE, y)


class TitleBar(Flowable):  # type: ignore[misc]
    """A grey bar with number, bold title and small words at its end."""

    def __init__(self, number: str, title: str, aside: str, size: float) -> None:
        super().__init__()
        self.number, self.title, self.aside, self.size = number, clean_text(title), clean_text(aside), size
        self.spaceAfter = 1.0

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width, self.indent = width, self.size * 2.0
        room = width - self.indent - measure_text(self.aside, self.size - 1.5) - 6
        self.lines = break_words(self.title, room, self.size + 0.5, BOLD)
        self.height = self.size * 1.3 * len(self.lines)
        return width, self.height

    def draw(self) -> None:
        canvas, y = self.canv, self.height - self.size
        canvas.setFillGray(WASH)
        canvas.rect(0, 0, self.width, self.height, stroke=0, fill=1)
        canvas.setFillGray(BLACK)
        canvas.setFont(BOLD, self.size + 1)
        canvas.drawString(2, y, self.number)
        canvas.setFont(BODY, self.size - 1.5)
        canvas.drawRightString(self.width - 2, y, self.aside)
        canvas.setFont(BOLD, self.size + 0.5)
        for line in self.lines:
            canvas.drawString(self.indent, y, line)
            y -= self.size * 1.3


class SignalWords(Flowable):  # type: ignore[misc]
    """A paragraph that begins with the signal word, and the safety-alert sign before it where the word has one."""

    def __init__(self, word: str, label: str, markup: str, size: float) -> None:
        super().__init__()
        self.alert, self.size = PANELS[word][3], size
        style = ParagraphStyle(
            word, parent=get_style("handout", size), firstLineIndent=size * 1.3 if self.alert else 0.0
        )
        self.words = Paragraph(f"<b>{label}</b> {markup}", style)
        self.spaceAfter = 3.0

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width, self.height = self.words.wrap(width, height)
        return self.width, self.height

    def draw(self) -> None:
        self.words.drawOn(self.canv, 0, 0)
        if self.alert:
            draw_alert_sign(self.canv, 0, self.height - self.size, self.size, 0.0, 1.0)

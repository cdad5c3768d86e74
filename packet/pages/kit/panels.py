"""Safety panels: signal words, order and safety-alert sign by ANSI Z535.6 usage, legible without colour."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from reportlab.platypus import Flowable

from packet.draw.fonts import BODY, BOLD, clean_text, measure_text
from packet.pages.kit.flow import break_words
from packet.pages.kit.style import BLACK

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

"""A caution in full: signal word and sign, what can happen and how to avoid it, and beside it the facts with sources.

Signal words, their order and the safety-alert sign follow ANSI Z535.6 usage (grouped safety messages).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby

from reportlab.platypus import Flowable

from packet.pages.flow import break_words
from packet.pages.fonts import BODY, BOLD, clean_text, measure_text
from packet.pages.panels import PANELS, draw_alert_sign
from packet.pages.style import BLACK, DARK, LIGHT
from packet.steps_model import Caution

HEAD, PAD = 15.0, 5.0
GAP = 9.0
FACTS_SHARE = 0.36
PAIR_GAP = 8.0


class CautionPanel(Flowable):  # type: ignore[misc]
    """The panel. label: signal word as printed in the sheet's language; size: of the words [pt]."""

    def __init__(self, caution: Caution, label: str, source: str, size: float = 8.9, facts: bool = True) -> None:
        super().__init__()
        self.caution, self.label, self.source = caution, clean_text(label), source
        self.size, self.leading, self.facts = size, size * 1.25, facts
        self.ground, self.ink, self.rule, self.alert = PANELS[caution.signal]
        self.spaceBefore, self.spaceAfter = 0.0, 5.0

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        told = self.caution.facts if self.facts else ()
        inner = width - 2 * PAD - 4
        self.fact_width = inner * FACTS_SHARE if told else 0.0
        main = inner - (self.fact_width + GAP if told else 0.0)
        self.left: list[tuple[float, str]] = [
            (0.0, line) for line in break_words(clean_text(self.caution.hazard), main, self.size, BOLD)
        ]
        self.bold = len(self.left)
        for text in self.caution.avoid:
            lines = break_words(clean_text(text), main - 9, self.size)
            self.left += [(-1.0 if n == 0 else 9.0, line) for n, line in enumerate(lines)]
        small = self.size - 1.0
        self.right: list[tuple[bool, str]] = []
        for fact in told:
            self.right += [(True, line) for line in break_words(clean_text(fact.text), self.fact_width, small)]
            origin = clean_text(f"{self.source}: {fact.source}")
            self.right += [(False, line) for line in break_words(origin, self.fact_width, small - 0.9)]
        self.title = break_words(
            clean_text(self.caution.title), width - self._find_title() - PAD, self.size + 0.8, BOLD
        )
        head = HEAD + (len(self.title) - 1) * (self.leading + 1)
        right = sum((small if strong else small - 0.9) * 1.22 + (0 if strong else 1.5) for strong, _ in self.right)
        body = max(len(self.left) * self.leading, right)
        self.head, self.height = head, head + body + 2 * PAD
        return width, self.height

    def _find_title(self) -> float:
        return PAD + (17 if self.alert else 2) + measure_text(self.label, self.size + 1.6, BOLD) + 8

    def draw(self) -> None:
        canvas, top = self.canv, self.height
        canvas.setFillGray(self.ground)
        canvas.rect(0, top - self.head, self.width, self.head, stroke=0, fill=1)
        x, base = PAD, top - HEAD + 4.3
        if self.alert:
            draw_alert_sign(canvas, x, base - 1.4, 10.8, self.ink, self.ground)
            x += 15
        canvas.setFillGray(self.ink)
        canvas.setFont(BOLD, self.size + 1.6)
        canvas.drawString(x + 2, base, self.label)
        canvas.setFont(BOLD, self.size + 0.8)
        for number, line in enumerate(self.title):
            canvas.drawString(self._find_title(), base - number * (self.leading + 1), line)
        self._draw_body(top - self.head - PAD)
        canvas.setStrokeGray(BLACK)
        canvas.setLineWidth(self.rule)
        canvas.rect(0, 0, self.width, self.height, stroke=1, fill=0)

    def _draw_body(self, top: float) -> None:
        canvas, y = self.canv, top
        canvas.setFillGray(BLACK)
        for number, (indent, line) in enumerate(self.left):
            canvas.setFont(BOLD if number < self.bold else BODY, self.size)
            if indent < 0:
                canvas.drawString(PAD + 2, y - self.size, "•")
            canvas.drawString(PAD + 2 + abs(indent if indent >= 0 else 9.0), y - self.size, line)
            y -= self.leading
        if not self.right:
            return
        left, small, y = self.width - PAD - self.fact_width, self.size - 1.0, top
        canvas.setStrokeGray(LIGHT)
        canvas.setLineWidth(0.6)
        canvas.line(left - GAP / 2, top - 1, left - GAP / 2, PAD)
        for strong, line in self.right:
            size = small if strong else small - 0.9
            canvas.setFillGray(BLACK if strong else DARK)
            canvas.setFont(BODY, size)
            canvas.drawString(left, y - size, line)
            y -= size * 1.22 + (0 if strong else 1.5)


class PanelPair(Flowable):  # type: ignore[misc]
    """Two short panels side by side, both as high as the higher."""

    def __init__(self, left: CautionPanel, right: CautionPanel) -> None:
        super().__init__()
        self.panels = (left, right)
        self.spaceBefore, self.spaceAfter = left.spaceBefore, left.spaceAfter

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.half = (width - PAIR_GAP) / 2
        self.height = max(panel.wrap(self.half, height)[1] for panel in self.panels)
        return width, self.height

    def draw(self) -> None:
        for number, panel in enumerate(self.panels):
            panel.height = self.height
            panel.drawOn(self.canv, number * (self.half + PAIR_GAP), 0)


def make_panels(cautions: Sequence[Caution], signals: Mapping[str, str], source: str) -> list[CautionPanel | PanelPair]:
    """Return a panel a caution, signal words in the sheet's language; short ones of a word stand in pairs."""
    panels: list[CautionPanel | PanelPair] = []
    for _, group in groupby(cautions, key=lambda caution: caution.signal):
        made = [CautionPanel(caution, signals[caution.signal], source) for caution in group]
        short = [panel for panel in made if not panel.caution.facts]
        panels += [panel for panel in made if panel.caution.facts]
        panels += [PanelPair(*short[at : at + 2]) for at in range(0, len(short) - 1, 2)]
        panels += short[len(short) // 2 * 2 :]
    return panels

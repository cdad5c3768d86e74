"""A caution in full: signal word and sign, what can happen and how to avoid it, and below it the facts with sources.

Signal words, their order and the safety-alert sign follow ANSI Z535.6 usage (grouped safety messages).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from reportlab.platypus import Flowable

from packet.draw.fonts import BODY, BOLD, clean_text, measure_text
from packet.pages.kit.flow import break_words
from packet.pages.kit.panels import PANELS, draw_alert_sign
from packet.pages.kit.style import BLACK, DARK, LIGHT
from packet.work.model import Caution

HEAD, PAD = 15.0, 4.5
GAP, GAP_BELOW = 9.0, 5.0
DOT = 8.0
LEADING = 1.22


@dataclass(frozen=True, kw_only=True)
class Row:
    """A line of a panel. rule: a thin rule above it; dot: a point begins."""

    indent: float
    font: str
    size: float
    text: str
    dot: bool = False
    rule: bool = False

    @property
    def tall(self) -> float:
        return self.size * LEADING + (2 if self.rule else 0)


class CautionPanel(Flowable):  # type: ignore[misc]
    """The panel. label: signal word as printed in the sheet's language; size: of the words [pt]."""

    def __init__(self, caution: Caution, label: str, size: float = 8.9) -> None:
        super().__init__()
        self.caution, self.label = caution, clean_text(label)
        self.size, self.leading = size, size * LEADING
        self.ground, self.ink, self.rule, self.alert = PANELS[caution.signal]
        self.spaceBefore, self.spaceAfter = 0.0, 5.0

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        inner, small = width - 2 * PAD - 2, self.size - 1.0
        lines = break_words(clean_text(self.caution.hazard), inner, self.size, BOLD)
        self.rows = [Row(indent=0.0, font=BOLD, size=self.size, text=line) for line in lines]
        for text in self.caution.avoid:
            for number, line in enumerate(break_words(clean_text(text), inner - DOT, self.size)):
                self.rows.append(Row(indent=DOT, font=BODY, size=self.size, text=line, dot=number == 0))
        for fact in self.caution.facts:
            words = clean_text(f"{fact.text} ({fact.source})")
            for number, line in enumerate(break_words(words, inner, small)):
                self.rows.append(Row(indent=0.0, font=BODY, size=small, text=line, rule=number == 0))
        self.title = break_words(
            clean_text(self.caution.title), width - self._find_title() - PAD, self.size + 0.8, BOLD
        )
        self.head = HEAD + (len(self.title) - 1) * (self.leading + 1)
        self.height = self.head + sum(row.tall for row in self.rows) + 2 * PAD - 2
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
        self._draw_body(top - self.head - PAD + 1)
        canvas.setStrokeGray(BLACK)
        canvas.setLineWidth(self.rule)
        canvas.rect(0, 0, self.width, self.height, stroke=1, fill=0)

    def _draw_body(self, y: float) -> None:
        canvas = self.canv
        for row in self.rows:
            if row.rule:
                canvas.setStrokeGray(LIGHT)
                canvas.setLineWidth(0.5)
                canvas.line(PAD, y - 1, self.width - PAD, y - 1)
            y -= 2 if row.rule else 0
            canvas.setFillGray(BLACK if row.size == self.size else DARK)
            canvas.setFont(row.font, row.size)
            if row.dot:
                canvas.drawString(PAD + 1, y - row.size, "•")
            canvas.drawString(PAD + 1 + row.indent, y - row.size, row.text)
            y -= row.size * LEADING


class PanelColumns(Flowable):  # type: ignore[misc]
    """Panels in two columns: each goes under the shorter one, so that their order runs down the page."""

    def __init__(self, panels: Sequence[CautionPanel]) -> None:
        super().__init__()
        self.panels = list(panels)
        self.spaceBefore, self.spaceAfter = 0.0, GAP

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width, self.half = width, (width - GAP) / 2
        self.placed, self.height = self._lay(self.panels)
        return width, self.height

    def _lay(self, panels: Sequence[CautionPanel]) -> tuple[list[tuple[CautionPanel, int, float]], float]:
        """Return (panel, column, depth of its top) and the depth of the longer column."""
        depths, placed = [0.0, 0.0], []
        for panel in panels:
            column = 0 if depths[0] <= depths[1] else 1
            placed.append((panel, column, depths[column]))
            depths[column] += panel.wrap(self.half, 0.0)[1] + GAP_BELOW
        return placed, max(depths) - GAP_BELOW

    def split(self, width: float, height: float) -> list[Any]:
        """Return as many panels as fit, and the rest; nothing when not even two do."""
        self.wrap(width, height)
        count = next((n for n in range(len(self.panels), 1, -1) if self._lay(self.panels[:n])[1] <= height), 0)
        if count == 0 or count == len(self.panels):
            return []
        return [PanelColumns(self.panels[:count]), PanelColumns(self.panels[count:])]

    def draw(self) -> None:
        for panel, column, depth in self.placed:
            panel.wrap(self.half, 0.0)
            panel.drawOn(self.canv, column * (self.half + GAP), self.height - depth - panel.height)


def make_panels(cautions: Sequence[Caution], signals: Mapping[str, str]) -> list[CautionPanel]:
    """Return a panel a caution, the signal words in the sheet's language."""
    return [CautionPanel(caution, signals[caution.signal]) for caution in cautions]

"""Form fields that are also plain blanks on paper, each with its own name and a written appearance."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from typing import Any, Literal

from reportlab.lib.colors import Color
from reportlab.platypus import Flowable

from packet.draw.fonts import BODY
from packet.pages.kit.style import BLACK, DARK, MM, RULE

FieldKind = Literal["text", "date", "tick", "choice", "long text"]

FIELD_HEIGHT = 14.0  # pt: room for a pencil
TICK_SIZE = 10.5

FRACTIONS = {"⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "½": "1/2", "¼": "1/4", "¾": "3/4", "°": " deg", "ø": "o"}


def spell_plainly(text: str) -> str:
    """Return text in the plain letters that a form's built-in typeface is sure to have."""
    for sign, plain in FRACTIONS.items():
        text = re.sub(rf"(\d){sign}", rf"\1-{plain}", text) if "/" in plain else text.replace(sign, plain)
        text = text.replace(sign, plain)
    flat = unicodedata.normalize("NFKD", text.replace("ł", "l").replace("Ł", "L").replace("ß", "ss"))
    return "".join(c for c in flat if c.isascii() and c.isprintable())


def name_field(name: str) -> str:
    """Return a field name in plain letters, digits, ``-`` and ``_``. Raises ValueError when nothing is left."""
    plain = re.sub(r"[^A-Za-z0-9_-]+", "-", spell_plainly(name)).strip("-")
    if not plain:
        raise ValueError(f"a form field needs a name with letters or digits, not {name!r}")
    return plain


class Field(Flowable):  # type: ignore[misc]
    """A blank to write in. On paper a line or a square; on screen a form field with the same name in every build."""

    def __init__(
        self, name: str, width: float, height: float, tooltip: str, kind: FieldKind, choices: Sequence[str]
    ) -> None:
        super().__init__()
        self.name, self.kind, self.choices = name, kind, [spell_plainly(c) for c in choices]
        self.tooltip = spell_plainly(tooltip) or name
        self.width, self.height = width, height

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = min(self.width, width) if width > 0 else self.width
        return self.width, self.height

    def draw(self) -> None:
        if self.kind == "tick":
            self._draw_tick()
            return
        canvas = self.canv
        canvas.setStrokeGray(DARK)
        canvas.setLineWidth(RULE)
        if self.kind == "long text":
            canvas.rect(0, 0, self.width, self.height)
        else:
            canvas.line(0, 1, self.width, 1)
        words: dict[str, Any] = {
            "name": self.name,
            "tooltip": self.tooltip,
            "x": 0,
            "y": 1.5,
            "width": self.width,
            "height": self.height - 2,
            "relative": True,
            "borderWidth": 0,
            "borderColor": None,
            "fillColor": None,
            "textColor": Color(0, 0, 0),
            "fontName": "Helvetica",
            "fontSize": 9,
        }
        if self.kind == "choice":
            canvas.acroForm.choice(value=" ", options=[" ", *self.choices], **words)
            return
        long = self.kind == "long text"
        canvas.acroForm.textfield(
            value="", maxlen=2000 if long else 100, fieldFlags="multiline" if long else "", **words
        )

    def _draw_tick(self) -> None:
        """Draw the square on the page, so that it is there whatever a viewer does with the field in it."""
        low = (self.height - TICK_SIZE) / 2
        self.canv.setStrokeGray(BLACK)
        self.canv.setLineWidth(0.8)
        self.canv.rect(0.5, low, TICK_SIZE, TICK_SIZE)
        self.canv.acroForm.checkbox(
            name=self.name,
            tooltip=self.tooltip,
            x=1.0,
            y=low + 0.5,
            size=TICK_SIZE - 1.0,
            relative=True,
            buttonStyle="check",
            borderWidth=0,
            borderColor=None,
            fillColor=None,
            textColor=Color(0, 0, 0),
            fieldFlags="",
        )


class Tick(Flowable):  # type: ignore[misc]
    """A square to tick with a pencil, and the words beside it. Not a form field."""

    SIZE = 8.6

    def __init__(self, lines_of: Any, size: float, leading: float, gap: float) -> None:
        super().__init__()
        self.lines_of, self.size, self.leading = lines_of, size, leading
        self.spaceAfter = gap

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.indent = self.size + 6
        self.lines: list[str] = self.lines_of(width - self.indent)
        return width, len(self.lines) * self.leading

    def draw(self) -> None:
        canvas = self.canv
        y = len(self.lines) * self.leading - self.size
        canvas.setStrokeGray(BLACK)
        canvas.setLineWidth(0.8)
        side = self.size * 0.86
        canvas.rect(0.5, y - self.size * 0.1, side, side)
        canvas.setFillGray(BLACK)
        canvas.setFont(BODY, self.size)
        for line in self.lines:
            canvas.drawString(self.indent, y, line)
            y -= self.leading


def find_field_height(kind: FieldKind, height_mm: float | None) -> float:
    """Return the height [pt] a field takes."""
    if height_mm is not None:
        return height_mm * MM
    return {"tick": TICK_SIZE + 2, "long text": 18 * MM}.get(kind, FIELD_HEIGHT)

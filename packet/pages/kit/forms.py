"""Form fields that are also plain blanks on paper, each with its own name and a written appearance."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Literal

from reportlab.lib.colors import Color
from reportlab.platypus import Flowable

from packet.draw.fonts import BODY
from packet.log.field_names import spell_plainly
from packet.pages.kit.style import BLACK, DARK, MM, RULE

FieldKind = Literal["text", "date", "tick", "choice", "long text"]

FIELD_HEIGHT = 14.0  # pt: room for a pencil
TICK_SIZE = 10.5


class FormField(Flowable):  # type: ignore[misc]
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


class TickBox(Flowable):  # type: ignore[misc]
    """A square to tick with a pencil, and the words beside it. Not a form field."""

    SIZE = 8.6

    def __init__(self, lines_of: Any, size: float, leading: float, gap: float, beside: float = 6.0) -> None:
        super().__init__()
        self.lines_of, self.size, self.leading, self.beside = lines_of, size, leading, beside
        self.spaceAfter = gap

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.indent = self.size + self.beside
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


class WriteLine(Flowable):  # type: ignore[misc]
    """A line to write on with a pencil. tall: room above it; indent: where it begins [pt]. Not a form field."""

    def __init__(self, tall: float, indent: float) -> None:
        super().__init__()
        self.tall, self.indent = tall, indent

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        return width, self.tall

    def draw(self) -> None:
        self.canv.setStrokeGray(BLACK)
        self.canv.setLineWidth(0.5)
        self.canv.line(self.indent, 1.0, self.width, 1.0)


def find_field_height(kind: FieldKind, height_mm: float | None) -> float:
    """Return the height [pt] a field takes."""
    if height_mm is not None:
        return height_mm * MM
    return {"tick": TICK_SIZE + 2, "long text": 18 * MM}.get(kind, FIELD_HEIGHT)

"""What every section builds its pages from. User text goes in as data and is escaped once, here."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Any
from xml.sax.saxutils import escape as escape_markup

from reportlab.platypus import CondPageBreak, Flowable, KeepTogether, Paragraph, Spacer

from calc.finding import Verdict
from calc.measures.quantity import Reader
from calc.project import Paper
from packet.draw.fonts import BODY, BOLD, clean_text, register_fonts
from packet.draw.model import Drawing
from packet.log.field_names import name_field
from packet.pages.kit.canvas import PacketCanvas
from packet.pages.kit.flow import Bar, Figure, FullPage, Heading, LaterWords, Painter, VerdictMark, break_words
from packet.pages.kit.forms import FieldKind, FormField, TickBox, find_field_height
from packet.pages.kit.panels import SignalPanel
from packet.pages.kit.style import MM, SHEET, Frame, get_style, lay_full_frame, lay_text_frame
from packet.pages.kit.tables import Cell, FlowTable, TableLook, TableShape, make_table
from packet.words.phrases import take_words

ALIGNS = {"left": "l", "right": "r", "center": "c", "centre": "c", "middle": "c", "l": "l", "r": "r", "c": "c"}

# Scales a drawing may be printed at: 1 to so many, the usual ones of each trade.
METRIC_SCALES = (1, 2, 2.5, 5, 10, 15, 20, 25, 50, 75, 100, 200, 500)
INCH_SCALES = (1, 2, 4, 8, 12, 16, 24, 32, 48, 64, 96, 192)
INCHES_A_FOOT = {
    4: "3 in", 8: "1-1/2 in", 12: "1 in", 16: "3/4 in", 24: "1/2 in", 32: "3/8 in", 48: "1/4 in", 64: "3/16 in",
    96: "1/8 in", 192: "1/16 in",
}  # fmt: skip
"""What stands for a foot on paper at a scale of 1 to so many."""


class Kit:
    """Makes the blocks of a page for one paper and one reader.

    section, number: set by the document before a section's story is made; headings carry them
    """

    def __init__(self, paper: Paper, reader: Reader) -> None:
        register_fonts()
        self.paper = paper
        self.reader = reader
        self.frame: Frame = lay_text_frame(paper)
        self.full_frame: Frame = lay_full_frame(paper)
        self.section = ""
        self.number = ""
        self.field_names: set[str] = set()
        self._keys: set[str] = set()

    @property
    def frame_width_mm(self) -> float:
        """Width [mm] of the text frame."""
        return self.frame.width / MM

    @property
    def frame_height_mm(self) -> float:
        """Height [mm] of the text frame."""
        return self.frame.height / MM

    # --- words --------------------------------------------------------------------------------------------------------

    def escape(self, user_text: str) -> str:
        """Return user text that is safe inside ``rich`` markup. Escape once only."""
        return escape_markup(clean_text(user_text)).replace("\n", "<br/>")

    def heading(self, text: str, level: int = 1) -> Heading:
        """Return a heading (level 1 opens a section, 2 and 3 are below it) with its bookmark; it is plain text."""
        number = self.number if level == 1 else ""
        return Heading(clean_text(text), level, self._make_key(text), number, self.section)

    def text(self, text: str, style: str = "body", size: float | None = None) -> Any:
        """Return a paragraph of plain text (safe for user text). Styles: packet/pages/kit/style.py, SHEET.

        size: of the type [pt], where it is not the style's own
        """
        return Paragraph(self.escape(text), get_style(style, size))

    def rich(self, markup: str, style: str = "body") -> Any:
        """Return a paragraph of trusted markup; put user text through ``escape`` first."""
        return Paragraph(clean_text(markup), get_style(style))

    def bullets(self, items: Sequence[str], style: str = "bullet", size: float | None = None) -> list[Any]:
        """Return a list of plain-text points, as flowables to add to the story."""
        return [Paragraph(self.escape(item), get_style(style, size), bulletText="•") for item in items]

    def tick(self, text: str, style: str = "body", size: float | None = None) -> TickBox:
        """Return a square to tick on paper with plain words beside it; closer together where a size [pt] is given."""
        usual, leading, strong = SHEET[style][:3]
        times, (gap, beside) = (1.0, (2.5, 6.0)) if size is None else (size / usual, (0.0, 3.0))
        font, words = (BOLD if strong else BODY), clean_text(text)
        high, line = usual * times, leading * times
        return TickBox(lambda width: break_words(words, width, high, font), high, line, gap, beside)

    def write_later(
        self, write: Callable[[PacketCanvas], str], size: float = 10.0, font: str = BODY, anchor: str = "start"
    ) -> LaterWords:
        """Return a line whose words are known only when all pages are laid out, such as a page number."""
        return LaterWords(write, size, font, anchor)

    # --- blocks -------------------------------------------------------------------------------------------------------

    def table(
        self,
        rows: Sequence[Sequence[Cell]],
        widths_mm: Sequence[float] | None = None,
        header_rows: int = 1,
        align: str | Sequence[str] | None = None,
        total_row: bool = False,
        style: TableLook = "grid",
        size: float = 8.8,
        width_mm: float | None = None,
    ) -> Any:
        """Return a table. Plain strings are data and are wrapped; other cells are flowables. Heads repeat.

        widths_mm: one a column, scaled down if together wider than the page; None shares the width by content
        align: ``"llr"`` or a word a column; style: ``grid``, ``plain`` or ``form`` (boxes to write in)
        """
        width = (width_mm * MM) if width_mm else self.frame.width
        widths = None
        if widths_mm is not None:
            fit = min(1.0, width / (sum(widths_mm) * MM))
            widths = tuple(w * MM * fit for w in widths_mm)
        anchors = "".join(ALIGNS[a] for a in align) if align else ""
        return make_table(
            rows,
            TableShape(
                width=width,
                widths=widths,
                header_rows=header_rows,
                align=anchors,
                total_row=total_row,
                look=style,
                size=size,
            ),
        )

    def drawing(
        self,
        drawing: Drawing,
        width_mm: float | None = None,
        height_mm: float | None = None,
        scale: float | None = None,
        caption: str = "",
        show_scale: bool | None = None,
    ) -> Figure:
        """Return a drawing. scale: mm on paper per real mm; None: the largest usual scale that fits the space.

        show_scale: print scale and scale bar (None: whenever the scale was chosen here).
        """
        width, height = width_mm or self.frame_width_mm, height_mm or self.frame_height_mm * 0.4
        bounds = drawing.bounds
        chosen = scale is None
        if scale is None:
            fits = min(width / max(bounds.width, 1e-9), height / max(bounds.height, 1e-9))
            usual = INCH_SCALES if self.reader.system == "inch" else METRIC_SCALES
            scale = next((1 / n for n in usual if 1 / n <= fits * 1.0001), fits)
        scale = min(scale, self.frame_width_mm / max(bounds.width, 1e-9))
        shown = chosen if show_scale is None else show_scale
        words, bar = (self._say_scale(scale), self._make_bar(scale)) if shown else ("", None)
        return Figure(drawing, scale, clean_text(caption), words, bar)

    def full_page(self, painter: Painter, bookmark: str, level: int = 2) -> FullPage:
        """Return a page of its own: painter(canvas, frame) draws inside the frame [pt] between margins and footer."""
        words = clean_text(bookmark)
        key = self._make_key(bookmark)
        return FullPage(painter, self.full_frame, self.frame.height, words, level, key, self.section)

    def signal(self, word: str, text: str | Sequence[str], title: str = "") -> SignalPanel:
        """Return a safety panel: DANGER, WARNING, CAUTION or NOTICE. Raises KeyError for another word."""
        return SignalPanel(word, [text] if isinstance(text, str) else list(text), title)

    def mark(self, verdict: Verdict) -> VerdictMark:
        """Return a verdict as a small plate for a table cell, told apart without colour."""
        words = take_words("kit", self.reader.language)
        return VerdictMark(verdict, clean_text(words(f"plate_{verdict.name.lower()}")))

    def field(
        self,
        name: str,
        width_mm: float,
        tooltip: str = "",
        kind: FieldKind = "text",
        choices: Sequence[str] = (),
        height_mm: float | None = None,
    ) -> FormField:
        """Return a form field that is a blank on paper. Raises ValueError when the name is taken already."""
        plain = name_field(name)
        if plain in self.field_names:
            raise ValueError(f"two form fields are named {plain!r}; give each its own name")
        self.field_names.add(plain)
        return FormField(plain, width_mm * MM, find_field_height(kind, height_mm), tooltip, kind, choices)

    def page_break(self) -> Any:
        """Return a break that does nothing at the top of a page."""
        return CondPageBreak(self.frame.height - 1)

    def space(self, mm: float) -> Any:
        """Return empty room [mm]."""
        return Spacer(1, mm * MM)

    def keep(self, blocks: Sequence[Flowable]) -> Any:
        """Return blocks that stay on one page where they can."""
        return KeepTogether(list(blocks))

    def columns(self, columns: Sequence[Sequence[Flowable]], widths_mm: Sequence[float] | None = None) -> Any:
        """Return columns side by side, each a list of blocks; the gutter is inside the widths.

        Columns of words go on over a page's foot; columns with a drawing stay on one page.
        """
        gutter = 7 * MM
        share = self.frame.width / len(columns)
        widths = [w * MM for w in widths_mm] if widths_mm else [share] * len(columns)
        whole = any(is_whole(block) for column in columns for block in column)
        table = FlowTable(
            [[list(column) or "" for column in columns]],
            colWidths=widths,
            hAlign="LEFT",
            splitInRow=0 if whole else 1,
            spaceAfter=6,
        )
        last = len(columns) - 1
        table.setStyle(
            [
                ("FONT", (0, 0), (-1, -1), BODY, 9),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), gutter),
                ("RIGHTPADDING", (last, 0), (last, 0), 0),
                ("TOPPADDING", (0, 0), (-1, -1), 0),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 0),
            ]
        )
        return table

    # --- inner --------------------------------------------------------------------------------------------------------

    def _make_key(self, text: str) -> str:
        """Return a bookmark name of plain letters, its own in the whole packet."""
        plain = re.sub(r"[^a-z0-9]+", "-", text.lower().encode("ascii", "ignore").decode()).strip("-")[:40]
        base = key = f"{self.section or 'page'}.{plain or 'x'}"
        count = 1
        while key in self._keys:
            count += 1
            key = f"{base}.{count}"
        self._keys.add(key)
        return key

    def _say_scale(self, scale: float) -> str:
        words = take_words("kit", self.reader.language)
        if scale >= 0.9999:
            return words("scale_full") if scale < 1.0001 else words("scale_larger", times=f"{scale:.3g}")
        ratio = 1 / scale
        usual = round(ratio, 3)
        if self.reader.system == "inch" and usual in INCHES_A_FOOT:
            return words("scale_inch", inches=INCHES_A_FOOT[int(usual)])
        if self.reader.system == "inch" and usual == 2:
            return words("scale_half")
        return words("scale", ratio=f"{ratio:.3g}")

    def _make_bar(self, scale: float) -> Bar:
        """Return a bar of a round length, 12 to 40 mm on paper."""
        inch = [(n * 25.4, f"{n} in") for n in (1, 2, 4, 6)] + [(n * 304.8, f"{n} ft") for n in (1, 2, 4, 8, 20, 40)]
        metric = [(n * 1.0, f"{n} mm") for n in (20, 50, 100, 200, 500)] + [
            (n * 1e3, f"{n} m") for n in (1, 2, 5, 10, 20)
        ]
        lengths = inch if self.reader.system == "inch" else metric
        best = next((pair for pair in lengths if pair[0] * scale >= 12), lengths[-1])
        return Bar(*best)


def is_whole(block: Any) -> bool:
    """Tell whether a block must not be split over two pages: a drawing, or columns with one."""
    return isinstance(block, Figure) or (isinstance(block, FlowTable) and block.splitInRow == 0 and block._nrows == 1)

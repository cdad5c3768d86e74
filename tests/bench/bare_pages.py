"""The floor of a build: a bare reportlab script that draws pages like those of a packet, and knows nothing else.

    python tests/bench/bare_pages.py PAGES.json FOLDER

PAGES.json lists PDF files: a name and its pages, each as numbers of curves, lines, the paths
they make, rectangles and strings of text.
A page with more strokes than strings is drawn on the canvas, as a full-size template is. Any other is flowed: half its
strings are lines of paragraphs, half stand in the wrapped cells of a table, and its strokes are drawn above them.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import font_source_sans_pro as source
from reportlab import rl_config
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, PageBreak, PageTemplate, Paragraph, Table

WIDTH, HEIGHT, MARGIN = 612.0, 792.0, 36.0
WORDS = "measure, mark, cut and fit the panel"
COLUMNS = (90.0, 90.0, 45.0, 90.0)


class Strokes(Flowable):
    """So many curves, lines, rectangles and strings; takes no room when it stands above flowed text."""

    def __init__(self, page: dict[str, int], strings: int) -> None:
        super().__init__()
        self.page, self.strings = page, strings
        self.chain = max(1, round(page["lines"] / max(page["paths"], 1)))  # lines that one path joins

    def wrap(self, *_: float) -> tuple[float, float]:
        return 0.0, 0.0

    def draw(self) -> None:
        canvas = self.canv
        for n in range(self.page["curves"] // 4):
            canvas.circle(20 + n % 23 * 22.5, -20 - n // 23 % 30 * 22.5, 9.0 + n % 7)
        for first in range(0, self.page["lines"], self.chain):
            x, y = first % 50 * 10.4, -first // 50 % 70 * 9.7
            if self.chain == 1:
                canvas.line(x, y, x + 8.25, y + 3.5)
                continue
            path = canvas.beginPath()
            path.moveTo(x, y)
            for n in range(min(self.chain, self.page["lines"] - first)):
                path.lineTo(x + n % 9 * 2.25, y + n // 9 % 9 * 3.5)
            canvas.drawPath(path)
        for n in range(self.page["rectangles"]):
            canvas.rect(n % 10 * 50.5, -n // 10 * 30.5, 40.25, 20.5)
        for n in range(self.strings):
            if n % 3 == 0:
                canvas.setFont("Bold" if n % 2 else "Body", 7 + n % 4)
            canvas.drawString(20 + n % 4 * 120, -20 - n // 4 % 65 * 10, f"{n} {WORDS[: n % 30]}")


def make_flowed(page: dict[str, int]) -> list[Any]:
    """Return a page's paragraphs of five lines and its table of four columns, one cell of a row two lines tall."""
    paragraphs, rows = page["strings"] // 10, page["strings"] // 10
    size = min(9.0, 660.0 / max(5 * paragraphs + 2 * rows, 1) / 1.25)
    body = ParagraphStyle("body", fontName="Body", fontSize=size, leading=size * 1.2)
    line = " ".join([WORDS] * int(540 / pdfmetrics.stringWidth(WORDS + " ", "Body", size)))
    story: list[Any] = [
        Paragraph(f"<b>{n}</b> " + " ".join([line] * 5)[: 5 * len(line) - 24], body) for n in range(paragraphs)
    ]
    wrapped = WORDS * int(1 + 1.4 * 85 / pdfmetrics.stringWidth(WORDS, "Body", size))
    wrapped = wrapped[: int(len(wrapped) * 1.4 * 85 / pdfmetrics.stringWidth(wrapped, "Body", size))]
    cells = [[Paragraph(wrapped, body), "11-27/32 in", str(n), f"{n * 1.5:.2f}"] for n in range(rows)]
    if cells:
        look = [
            ("FONT", (0, 0), (-1, -1), "Body", size, size * 1.2),
            *((f"{side}PADDING", (0, 0), (-1, -1), 0.0) for side in ("TOP", "BOTTOM", "LEFT", "RIGHT")),
            ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ]
        story.append(Table(cells, colWidths=COLUMNS, style=look))
    return story


def write_file(file: Path, pages: list[dict[str, int]]) -> None:
    """Write one PDF: a title, a bookmark a page, compressed streams."""
    story: list[Any] = []
    for page in pages:
        if story:
            story.append(PageBreak())
        drawn = page["curves"] + page["lines"] > page["strings"]
        story.append(Strokes(page, page["strings"] if drawn else 0))
        story += [] if drawn else make_flowed(page)
    document = BaseDocTemplate(str(file), pagesize=(WIDTH, HEIGHT), invariant=1, pageCompression=1, title="bare")
    frame = Frame(MARGIN, MARGIN, WIDTH - 2 * MARGIN, HEIGHT - 2 * MARGIN, 0, 0, 0, 0)

    def mark(canvas: Any, _: Any) -> None:
        key = f"page {canvas.getPageNumber()}"
        canvas.bookmarkPage(key)
        canvas.addOutlineEntry(key, key)

    document.addPageTemplates(PageTemplate("page", [frame], onPage=mark))
    document.build(story)


def main() -> None:
    files, folder = json.loads(Path(sys.argv[1]).read_text()), Path(sys.argv[2])
    rl_config.useA85 = 0
    pdfmetrics.registerFont(TTFont("Body", source.font_files_ttf["SourceSansPro"]))
    pdfmetrics.registerFont(TTFont("Bold", source.font_files_ttf["SourceSansProBold"]))
    pdfmetrics.registerFontFamily("Body", normal="Body", bold="Bold", italic="Body", boldItalic="Bold")
    for name, pages in files.items():
        write_file(folder / name, pages)


if __name__ == "__main__":
    main()

"""The contents: every section and its headings, with links and page numbers filled in when all pages are laid out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from reportlab.platypus import Flowable

from packet.draw.fonts import BODY, measure_text
from packet.job import AnyJob
from packet.pages.kit.canvas import PacketCanvas, name_opening
from packet.pages.kit.document import list_headings
from packet.pages.kit.flow import Heading
from packet.pages.kit.kit import Kit
from packet.pages.kit.sections import Section, name_section
from packet.pages.kit.style import BLACK, LIGHT
from packet.words.phrases import take_words

if TYPE_CHECKING:
    from packet.pages.kit.sections import Chapter


class ContentsLine(Flowable):  # type: ignore[misc]
    """One line of the contents: number, title, dots, page; the whole line is a link."""

    def __init__(self, heading: Heading) -> None:
        super().__init__()
        self.heading = heading
        self.size = 10.0

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        return width, self.size * 1.38

    def draw(self) -> None:
        canvas, heading = self.canv, self.heading
        canvas.setFont(BODY, self.size)
        canvas.setFillGray(BLACK)
        y = self.size * 0.36
        if heading.number:
            canvas.drawString(0, y, heading.number)
        title, room = heading.text, self.width - 18 - 26
        while title and measure_text(title, self.size) > room:
            title = title[:-1]
        title = title if title == heading.text else title.rstrip()[:-1] + "…"
        canvas.drawString(18, y, title)
        canvas.setStrokeGray(LIGHT)
        canvas.setLineWidth(0.6)
        start, end = 18 + measure_text(title, self.size) + 5, self.width - 24
        if end > start:
            canvas.line(start, y + 1, end, y + 1)
        canvas.linkRect("", heading.key, (0, 0, self.width, self.size * 1.3), relative=1, thickness=0)
        if isinstance(canvas, PacketCanvas):
            write = lambda done: str(done.places[heading.key])  # noqa: E731
            canvas.write_later(self.width, y, write, BODY, self.size, "end")


def make_story(job: AnyJob, kit: Kit, chapters: Sequence[Chapter]) -> list[Any]:
    """Return the contents of the chapters given, in three columns."""
    language = kit.reader.language
    opening = [_find_opening(c.section, list_headings(c.story), language) for c in chapters if c.story]
    lines = [ContentsLine(heading) for heading in opening if heading.section != "cover"]
    words = take_words("document", language)
    title = kit.heading(words("contents"), 2)
    if not lines:
        return [title, kit.text(words("contents_none"))]
    third = -(-len(lines) // 3)
    columns = [lines[start : start + third] for start in (0, third, 2 * third)]
    return [title, kit.columns(columns, (55, 72, 55))]


def _find_opening(section: Section, headings: Sequence[Heading], language: str) -> Heading:
    """Return the heading a section opens with, or one made of its title when it has none."""
    for heading in headings:
        if heading.level == 1:
            return heading
    return Heading(name_section(section, language), 1, name_opening(section.key), section.number, section.key)

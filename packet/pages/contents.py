"""The contents: every section and its headings, with links and page numbers filled in when all pages are laid out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from reportlab.platypus import Flowable

from packet.job import Job
from packet.pages.canvas import PacketCanvas
from packet.pages.flow import Heading
from packet.pages.fonts import BODY, BOLD, measure_text
from packet.pages.kit import Kit
from packet.pages.style import BLACK, DARK, LIGHT

if TYPE_CHECKING:
    from packet.pages.document import Chapter

MOST_BELOW = 7  # headings listed under one section


class ContentsLine(Flowable):  # type: ignore[misc]
    """One line of the contents: number, title, dots, page; the whole line is a link."""

    def __init__(self, heading: Heading) -> None:
        super().__init__()
        self.heading = heading
        self.top = heading.level == 1
        self.size = 10.4 if self.top else 9.0
        self.spaceBefore = 5.0 if self.top else 0.0

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width = width
        return width, self.size * 1.38

    def draw(self) -> None:
        canvas, heading = self.canv, self.heading
        font = BOLD if self.top else BODY
        canvas.setFont(font, self.size)
        canvas.setFillGray(BLACK if self.top else DARK)
        y = self.size * 0.36
        if heading.number:
            canvas.drawString(0, y, heading.number)
        title, room = heading.text, self.width - 18 - 26
        while title and measure_text(title, self.size, font) > room:
            title = title[:-1]
        title = title if title == heading.text else title.rstrip()[:-1] + "…"
        canvas.drawString(18, y, title)
        canvas.setStrokeGray(LIGHT)
        canvas.setLineWidth(0.6)
        start, end = 18 + measure_text(title, self.size, font) + 5, self.width - 24
        if end > start:
            canvas.line(start, y + 1, end, y + 1)
        canvas.linkRect("", heading.key, (0, 0, self.width, self.size * 1.3), relative=1, thickness=0)
        if isinstance(canvas, PacketCanvas):
            write = lambda done: str(done.places[heading.key])  # noqa: E731
            canvas.write_later(self.width, y, write, font, self.size, "end")


def make_story(job: Job, kit: Kit, chapters: Sequence[Chapter]) -> list[Any]:
    """Return the contents of the chapters given, in two columns."""
    from packet.pages.document import list_headings

    groups = []
    for chapter in chapters:
        found = [h for h in list_headings(chapter.story) if h.level <= 2]
        if not found or chapter.section.key == "cover":
            continue
        groups.append([h for h in found if h.level == 1][:1] + [h for h in found if h.level == 2][:MOST_BELOW])
    if not groups:
        return []
    lines = [len(group) + 0.6 for group in groups]
    left: list[Any] = []
    right: list[Any] = []
    used = 0.0
    for group, tall in zip(groups, lines, strict=True):
        column = left if used + tall / 2 <= sum(lines) / 2 else right
        used += tall
        column += [ContentsLine(heading) for heading in group]
    return [kit.heading("Contents"), kit.columns([left, right])]

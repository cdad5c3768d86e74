"""The canvas of the packet: remembers where page numbers go and writes them, with the footers, when it is saved."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from reportlab.pdfgen.canvas import Canvas

from packet.pages.fonts import BODY


@dataclass(frozen=True)
class Later:
    """Words that are only known at the end, such as a page number; x, y in points on the page."""

    page: int
    x: float
    y: float
    write: Callable[[PacketCanvas], str]
    font: str
    size: float
    anchor: str


class PacketCanvas(Canvas):  # type: ignore[misc]
    """Draws every page once. Each page calls an overlay that is defined at the end, when all numbers are known.

    places: bookmark -> page number; sections: key -> (first, last page)
    """

    def __init__(self, *args: Any, **words: Any) -> None:
        super().__init__(*args, **words)
        self.places: dict[str, int] = {}
        self.sections: dict[str, list[int]] = {}
        self.laters: list[Later] = []
        self.paint_footer: Callable[[PacketCanvas, int, int], None] = lambda canvas, page, pages: None
        self.pages = 0
        self._level = -1

    def mark_place(self, key: str, title: str, level: int) -> None:
        """Put a bookmark here and a line in the outline (level 0 is a section)."""
        self.places[key] = self.getPageNumber()
        self.bookmarkPage(key)
        level = min(level, self._level + 1)
        self.addOutlineEntry(title, key, level, closed=level > 0)
        self._level = level

    def mark_section(self, key: str) -> None:
        """Say that this page belongs to a section."""
        page = self.getPageNumber()
        self.sections.setdefault(key, [page, page])[1] = page

    def write_later(
        self,
        x: float,
        y: float,
        write: Callable[[PacketCanvas], str],
        font: str = BODY,
        size: float = 10.0,
        anchor: str = "start",
    ) -> None:
        """Write at a place of the present coordinates what is known only at the end."""
        left, bottom = self.absolutePosition(x, y)
        self.laters.append(Later(self.getPageNumber(), left, bottom, write, font, size, anchor))

    def end_page(self) -> None:
        """Call the overlay on the page being finished."""
        self.pages = self.getPageNumber()
        self.doForm(f"overlay-{self.pages}")

    def save(self) -> None:
        """Define every overlay, then save."""
        by_page: dict[int, list[Later]] = {}
        for later in self.laters:
            by_page.setdefault(later.page, []).append(later)
        for page in range(1, self.pages + 1):
            self.beginForm(f"overlay-{page}")
            for later in by_page.get(page, ()):
                self.setFont(later.font, later.size)
                words = later.write(self)
                if later.anchor == "end":
                    self.drawRightString(later.x, later.y, words)
                else:
                    self.drawString(later.x, later.y, words)
            self.paint_footer(self, page, self.pages)
            self.endForm()
        super().save()

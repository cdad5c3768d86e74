"""The canvas of the packet: remembers where page numbers go and writes them, with the footers, when it is saved."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from reportlab.pdfbase.pdfdoc import PDFName
from reportlab.pdfgen.canvas import Canvas

from packet.draw.fonts import BODY, register_fonts


@dataclass(frozen=True, kw_only=True)
class LateWords:
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

    places: bookmark -> page number; titles: of sections, set by the document
    starts: section -> page it begins on, and whether at the page's top
    whole: pages painted whole, whose footer stands lower than that of pages of text
    """

    def __init__(self, *args: Any, **words: Any) -> None:
        register_fonts()
        super().__init__(*args, **words)
        self.places: dict[str, int] = {}
        self.starts: dict[str, tuple[int, bool]] = {}
        self.titles: dict[str, str] = {}
        self.whole: set[int] = set()
        self.laters: list[LateWords] = []
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

    def open_section(self, key: str, at_top: bool, headed: bool = False) -> None:
        """Say that a section begins here; without a heading of its own its title is bookmarked too."""
        if not key or key in self.starts:
            return
        self.starts[key] = (self.getPageNumber(), at_top)
        if not headed and key in self.titles:
            self.mark_place(name_opening(key), self.titles[key], 0)

    def mark_section(self, key: str) -> None:
        """Say that a section has begun by here, for blocks that may open one without a heading of the kit."""
        self.open_section(key, at_top=False, headed=True)

    def find_pages(self, key: str) -> tuple[int, int] | None:
        """Return the first and last page of a section, None when it is not in the document."""
        if key not in self.starts:
            return None
        later = list(self.starts)[list(self.starts).index(key) + 1 :]
        first = self.starts[key][0]
        if not later:
            return first, self.pages
        page, at_top = self.starts[later[0]]
        return first, max(first, page - 1 if at_top else page)

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
        self.laters.append(
            LateWords(page=self.getPageNumber(), x=left, y=bottom, write=write, font=font, size=size, anchor=anchor)
        )

    def end_page(self) -> None:
        """Call the overlay on the page being finished."""
        self.pages = self.getPageNumber()
        self.doForm(f"overlay-{self.pages}")

    def save(self) -> None:
        """Define every overlay, then save."""
        by_page: dict[int, list[LateWords]] = {}
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
        self._order_tabs()
        super().save()

    def _order_tabs(self) -> None:
        """Have the tab key go from field to field row by row (ISO 32000-1, table 30: Tabs, R) on pages with fields."""
        for page in self._doc.Pages.pages:
            if page.Annots:
                page.__Defaults__ = {**page.__Defaults__, "Tabs": PDFName("R")}


def name_opening(section: str) -> str:
    """Return the bookmark of a section that opens without a heading."""
    return f"section.{section}"

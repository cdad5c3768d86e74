"""One reader for each kind of file of a build: what a person, a spreadsheet or a machine finds in it."""

from __future__ import annotations

import csv
import html
import io
import json
import re
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

import ezdxf
import pypdfium2
from pypdf import PdfReader

FOOTER = re.compile(r"^[^\n]* page \d+ of \d+\s*$", re.MULTILINE)


@dataclass(frozen=True)
class Page:
    """words: lines in the order they were drawn, without the footer; footer: the last line."""

    words: str
    footer: str


@dataclass(frozen=True)
class Mark:
    """One bookmark. page: from 0."""

    title: str
    page: int
    level: int


@dataclass(frozen=True)
class Circle:
    """A whole circle of a part's file, its place from the lower left corner of the part's outline [mm]."""

    layer: str
    left: float
    up: float
    across: float


@dataclass(frozen=True)
class Part:
    """A part's file. width, height: of its outline [mm], 0 where it has none."""

    width: float
    height: float
    circles: tuple[Circle, ...]


@dataclass(frozen=True, kw_only=True)
class Outputs:
    """All files of one build, read back."""

    name: str
    pages: tuple[Page, ...]
    marks: tuple[Mark, ...]
    fields: dict[str, str]
    helper: str
    helper_page: str
    bill: tuple[dict[str, str], ...]
    cuts: tuple[dict[str, str], ...]
    sizing: dict[str, Any]
    check: dict[str, Any]
    parts: dict[str, Part]
    drawn: dict[str, Part]
    """parts: from DXF; drawn: from SVG; both by file name without ending."""

    @cached_property
    def sections(self) -> dict[str, str]:
        """Words of each section, lines kept; key: its title without number, lower case."""
        tops = [mark for mark in self.marks if mark.level == 0]
        found: dict[str, str] = {}
        starts = [self._find(mark) for mark in tops] + [(len(self.pages), 0)]
        for mark, (page, at), (end, until) in zip(tops, starts, starts[1:], strict=False):
            texts = [self.pages[n].words for n in range(page, min(end + 1, len(self.pages)))]
            if end < len(self.pages):
                texts[-1] = texts[-1][:until]
            texts[0] = texts[0][at:]
            found[mark.title.lower()] = "\n".join(texts)
        return found

    def _find(self, mark: Mark) -> tuple[int, int]:
        """Return page and place of a section's heading."""
        heading = re.search(rf"^(?:\d+ )?{re.escape(mark.title)}\s*$", self.pages[mark.page].words, re.MULTILINE)
        return mark.page, heading.start() if heading else 0

    def lines(self, section: str) -> str:
        """Return a section's words, lines kept; nothing where the packet has no such section."""
        return next((text for title, text in self.sections.items() if title.startswith(section)), "")

    def words(self, section: str) -> str:
        """Return a section's words with one space between any two."""
        return " ".join(self.lines(section).split())

    def last_page(self, title: str) -> tuple[int, int]:
        """Return first and last page, from 1, of a section."""
        tops = [mark for mark in self.marks if mark.level == 0]
        at = next(n for n, mark in enumerate(tops) if mark.title.lower().startswith(title))
        if at + 1 == len(tops):
            return tops[at].page + 1, len(self.pages)
        page, start = self._find(tops[at + 1])
        return tops[at].page + 1, page if self.pages[page].words[:start].strip() == "" else page + 1

    @cached_property
    def steps(self) -> dict[int, str]:
        """Words of each step by its number, one space between any two."""
        text = self.words("steps")
        titles = [m for mark in self.marks if (m := re.fullmatch(r"(\d+)  (.+)", mark.title)) and mark.level == 2]
        starts: list[tuple[int, int]] = []
        at = 0
        for title in titles:
            at = text.find(f"{title[1]} {' '.join(title[2].split())}", at)
            starts.append((int(title[1]), at))
        ends = [start for _, start in starts[1:]] + [len(text)]
        return {number: text[start:end] for (number, start), end in zip(starts, ends, strict=True)}

    @property
    def inch(self) -> bool:
        return " in" in self.words("print check").split("rules within", 1)[1][:12]

    @cached_property
    def step_mm(self) -> float:
        """The mark to which lengths are told, as the cut list says it; else the finest the packet uses."""
        told = re.search(r"Sizes are told to (?:1/(\d+) in|([\d.]+) mm)", self.words("cut list"))
        if told:
            return 25.4 / int(told[1]) if told[1] else float(told[2])
        return 25.4 / 16 if self.inch else 1.0


def read_outputs(folder: Path, check: dict[str, Any]) -> Outputs:
    """Return all files of a folder that a build filled. check: what ``check --json`` says."""
    data = (folder / "packet.pdf").read_bytes()
    pages, marks = read_paper(data)
    names = sorted(path.stem for path in (folder / "parts").glob("*.dxf"))
    panels = [name for name in names if re.match(r"\d+-\w+-panel", name)]
    return Outputs(
        name=folder.name,
        pages=pages,
        marks=marks,
        fields=read_fields(data),
        helper=" ".join(" ".join(page.words for page in read_paper((folder / "helper.pdf").read_bytes())[0]).split())
        if (folder / "helper.pdf").exists()
        else "",
        helper_page=read_html((folder / "helper.html").read_text("utf-8")) if (folder / "helper.html").exists() else "",
        bill=read_csv(folder / "bill.csv"),
        cuts=read_csv(folder / "cuts.csv"),
        sizing=json.loads((folder / "sizing.json").read_text("utf-8")),
        check=check,
        parts={
            name: read_dxf(folder / "parts" / f"{name}.dxf") if name in panels else Part(0, 0, ()) for name in names
        },
        drawn={name: read_svg(folder / "parts" / f"{name}.svg") for name in panels},
    )


def read_paper(data: bytes) -> tuple[tuple[Page, ...], tuple[Mark, ...]]:
    """Return pages and bookmarks of a PDF."""
    document = pypdfium2.PdfDocument(data)
    pages = []
    for page in document:
        text = page.get_textpage().get_text_range().replace("\r\n", "\n").replace("\ufffe", "")
        footer = FOOTER.search(text)
        pages.append(Page(FOOTER.sub("", text), footer[0].strip() if footer else ""))
    marks = tuple(Mark(m.get_title(), m.get_dest().get_index(), m.level) for m in document.get_toc())
    document.close()
    return tuple(pages), marks


def read_fields(data: bytes) -> dict[str, str]:
    """Return the form's fields: name to the words shown over each."""
    found = PdfReader(io.BytesIO(data)).get_fields() or {}
    return {name: str(field.get("/TU", "")) for name, field in found.items()}


def read_csv(file: Path) -> tuple[dict[str, str], ...]:
    """Return the rows of a table by the names of its columns."""
    return tuple(csv.DictReader(io.StringIO(file.read_text("utf-8-sig")))) if file.exists() else ()


def read_html(text: str) -> str:
    """Return the words of a page, one space between any two."""
    body = re.sub(r"<(script|style|svg).*?</\1>", " ", text, flags=re.DOTALL)
    return " ".join(html.unescape(re.sub(r"<[^>]*>", " ", body)).split())


def read_dxf(file: Path) -> Part:
    """Return outline and circles of a part: the outline is all straight lines of the layer ``cut``."""
    space = ezdxf.readfile(file).modelspace()
    ends = [point for line in space.query('LINE[layer=="cut"]') for point in (line.dxf.start, line.dxf.end)]
    if not ends:
        return Part(0.0, 0.0, ())
    left, low = min(p.x for p in ends), min(p.y for p in ends)
    circles = tuple(
        Circle(c.dxf.layer, c.dxf.center.x - left, c.dxf.center.y - low, 2 * c.dxf.radius)
        for c in space.query("CIRCLE")
    )
    return Part(max(p.x for p in ends) - left, max(p.y for p in ends) - low, circles)


def read_svg(file: Path) -> Part:
    """Return outline and circles of a part; y runs down in this format."""
    text = file.read_text("utf-8")
    cut = re.search(r'id="cut".*?</g>', text, re.DOTALL)
    outline = re.search(r'<path d="([^"]*)"', cut[0]) if cut else None
    numbers = [float(n) for n in re.findall(r"-?[\d.]+", outline[1])] if outline else []
    if not numbers:
        return Part(0.0, 0.0, ())
    left, bottom = min(numbers[::2]), max(numbers[1::2])
    circles = tuple(
        Circle(layer, float(x) - left, bottom - float(y), 2 * float(r))
        for layer, group in re.findall(r'<g [^>]*id="([\w-]+)"[^>]*>(.*?)</g>', text, re.DOTALL)
        for x, y, r in re.findall(r'<circle cx="(-?[\d.]+)" cy="(-?[\d.]+)" r="([\d.]+)"', group)
    )
    return Part(max(numbers[::2]) - left, bottom - min(numbers[1::2]), circles)

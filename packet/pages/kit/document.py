"""Puts stories together into one PDF: one pass, one page size, same bytes for the same job."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import IO, Any

from reportlab.platypus import BaseDocTemplate, KeepTogether, PageTemplate, Paragraph, Table
from reportlab.platypus import Frame as FlowFrame

from calc.finding import Verdict
from packet.draw.fonts import BODY, BOLD, clean_text, measure_text
from packet.job import AnyJob
from packet.pages.kit.canvas import PacketCanvas
from packet.pages.kit.flow import Figure, FullPage, Heading, SectionMark
from packet.pages.kit.kit import Kit
from packet.pages.kit.panels import SignalPanel
from packet.pages.kit.sections import Chapter, Story, name_section
from packet.pages.kit.style import BLACK, DARK, FOOT_MM, FULL_FOOT_MM, MIDDLE, MM, RULE, SAFE_HEIGHT_MM
from packet.words.languages import get_language
from packet.words.phrases import take_words

CHAPTER_PT = 110.0
"""A chapter begins where at least this much room [pt] is left on its page."""


@dataclass(frozen=True)
class Pages:
    """What was written: all pages, and the first and last page of each section by key."""

    total: int
    sections: Mapping[str, tuple[int, int]]


def write_chapters(
    job: AnyJob, kit: Kit, chapters: Sequence[Chapter], stream: IO[bytes], title: str, language: str
) -> Pages:
    """Write stories as one PDF with footers, bookmarks and metadata; one page that says so when there is nothing.

    language: in which most of it is, for programs that read it aloud
    """
    story: Story = []
    words, ours = take_words("document", kit.reader.language), kit.reader.language
    for chapter in chapters:
        if chapter.story:
            if chapter.section.fresh and story:
                story.append(kit.page_break())
            settle_headings(chapter.story, kit.frame.width, kit.frame.height)
            key = chapter.section.key
            if not isinstance(chapter.story[0], (Heading, FullPage)):  # those say themselves on which page they land
                story.append(SectionMark(key, chapter.section.fresh))
            story += chapter.story
    if not story:
        story = [kit.heading(words("nothing")), kit.text(words("nothing_why"))]
    made: list[PacketCanvas] = []

    def make_canvas(*args: Any, **options: Any) -> PacketCanvas:
        canvas = PacketCanvas(*args, **options)
        canvas.paint_footer = make_footer(job, kit, title)
        canvas.titles = {chapter.section.key: name_section(chapter.section, ours) for chapter in chapters}
        _set_catalogue(canvas)
        made.append(canvas)
        return canvas

    _make_document(job, kit, stream, title, language).build(story, canvasmaker=make_canvas)
    found = {key: made[0].find_pages(key) for key in made[0].starts}
    return Pages(made[0].pages, {key: pages for key, pages in found.items() if pages})


def _make_document(job: AnyJob, kit: Kit, stream: IO[bytes], title: str, language: str) -> BaseDocTemplate:
    frame, paper, words = kit.frame, kit.paper, take_words("document", kit.reader.language)
    subject = "subject_inch" if kit.reader.system == "inch" else "subject_metric"
    size = (paper.width_mm * MM, paper.height_mm * MM)
    document = BaseDocTemplate(
        stream,
        pagesize=size,
        cropBox=(0, 0, *size),
        invariant=1,
        pageCompression=1,
        initialFontName=BODY,
        lang=get_language(language).tag,
        title=clean_text(title),
        author=clean_text(job.project.title.drawn_by),
        subject=clean_text(words(subject, revision=job.project.title.revision, file=job.digest)),
        creator=f"collector-packet {job.version}",
        keywords=[words("keyword_kind"), words("keyword_packet"), job.project.title.revision, job.digest],
    )
    flow = FlowFrame(
        frame.left, frame.bottom, frame.width, frame.height,
        leftPadding=0, rightPadding=0, topPadding=0, bottomPadding=0, id="text",
    )  # fmt: skip
    document.addPageTemplates(PageTemplate("page", [flow], onPageEnd=lambda canvas, _: canvas.end_page()))
    return document


def _set_catalogue(canvas: PacketCanvas) -> None:
    canvas.setViewerPreference("PrintScaling", "None")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    canvas.addPageLabel(0, style="ARABIC", start=1)
    canvas.showOutline()


def make_footer(job: AnyJob, kit: Kit, title: str) -> Callable[[PacketCanvas, int, int], None]:
    """Return what paints a page's footer: title, revision, digest, paper, verdict mark, page x of y."""
    paper, left, right = kit.paper, kit.frame.left, kit.frame.right
    shared = (max(paper.height_mm - SAFE_HEIGHT_MM, 0.0) / 2 + FOOT_MM) * MM
    lowest = min(shared, kit.full_frame.bottom - FULL_FOOT_MM * MM + 3.0)  # not where no printer reaches
    words = take_words("document", kit.reader.language)
    foot = words("foot", revision=job.project.title.revision, file=job.digest, paper=paper.name.title())
    about = clean_text(f" · {foot}")
    told = _shorten(clean_text(title), right - left - measure_text(about, 7.6) - 60 * MM) + about
    misfit = clean_text(words("misfit")) if job.verdict is Verdict.DOES_NOT_FIT else ""

    def paint(canvas: PacketCanvas, page: int, pages: int) -> None:
        base = lowest if page in canvas.whole else shared
        canvas.setStrokeGray(MIDDLE)
        canvas.setLineWidth(RULE)
        canvas.line(left, base + 9.5, right, base + 9.5)
        canvas.setFillGray(DARK)
        canvas.setFont(BODY, 7.6)
        canvas.drawString(left, base, told)
        place = clean_text(words("place", page=page, pages=pages))
        canvas.setFont(BOLD, 8.4)
        canvas.setFillGray(BLACK)
        canvas.drawRightString(right, base, place)
        if misfit and page not in canvas.whole:  # a template bears its own stamp, or none
            edge = right - measure_text(place, 8.4, BOLD) - 9
            wide = measure_text(misfit, 7.6, BOLD) + 8
            canvas.setLineWidth(0.9)
            canvas.setStrokeGray(BLACK)
            canvas.rect(edge - wide, base - 2.4, wide, 10)
            canvas.setFont(BOLD, 7.6)
            canvas.drawString(edge - wide + 4, base, misfit)

    return paint


def _shorten(text: str, width: float) -> str:
    if measure_text(text, 7.6) <= width:
        return text
    while text and measure_text(text + "…", 7.6) > width:
        text = text[:-1]
    return text.rstrip() + "…"


def settle_headings(story: Story, width: float, height: float) -> None:
    """Give each heading the room that what follows it needs, so that none is left alone at the foot of a page."""
    for index, block in enumerate(story):
        if isinstance(block, Heading):
            room = 0.0
            for follower in story[index + 1 : index + 4]:
                more, whole = _ask_room(follower, width)
                room += more
                if whole:
                    break
            block.room = min(max(room, 20.0 if block.level > 1 else CHAPTER_PT), height * 0.8)


def _ask_room(block: Any, width: float) -> tuple[float, bool]:
    """Return the least height [pt] of a block's beginning, and whether that is enough to stand under a heading."""
    if isinstance(block, Heading):
        return block.leading + block.spaceBefore + block.spaceAfter, False
    if isinstance(block, Table):
        block.wrap(width, 1e6)
        heights = block._rowHeights
        return sum(heights[: block.repeatRows + 2]), True
    if isinstance(block, KeepTogether):
        return sum(_ask_whole(inner, width) for inner in block._content), True
    if isinstance(block, (Figure, FullPage, SignalPanel)):
        return float(block.wrap(width, 1e6)[1]), True
    if isinstance(block, Paragraph):
        tall = float(block.wrap(width, 1e6)[1])
        return tall + block.getSpaceAfter(), tall > 60
    return 12.0, False


def _ask_whole(block: Any, width: float) -> float:
    """Return the whole height [pt] of a block with the room around it."""
    if isinstance(block, KeepTogether):
        return sum(_ask_whole(inner, width) for inner in block._content)
    if isinstance(block, Heading):
        return block.leading + block.spaceBefore + block.spaceAfter
    return float(block.wrap(width, 1e6)[1]) + float(block.getSpaceBefore()) + float(block.getSpaceAfter())


def list_headings(story: Iterable[Any]) -> list[Heading]:
    """Return the headings of a story in order, those inside kept blocks and columns too."""
    found: list[Heading] = []
    for block in story:
        if isinstance(block, Heading):
            found.append(block)
        elif isinstance(block, KeepTogether):
            found += list_headings(block._content)
        elif isinstance(block, Table):
            for row in block._cellvalues:
                found += list_headings(b for cell in row if isinstance(cell, (list, tuple)) for b in cell)
    return found

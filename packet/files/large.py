"""One page per part at full size, for a copy shop with a wide printer."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from calc.cutting.templates import LONGEST_PAGE_MM, RULES_MM, STAMP_MM, PaperLayout, lay_sheet, list_needed
from calc.shapes.shapes import Arc, Box, Circle, FlatPart, Layer, find_bounds
from packet.draw.backends.pdf import POINTS_PER_MM, paint
from packet.draw.fonts import clean_text, register_fonts
from packet.draw.turn import look_through
from packet.draw.views.part_words import describe_part, draw_part, find_warnings, write_sizes
from packet.draw.views.template_sheet import Stamp, draw_rules, draw_stamp, draw_warning, make_chrome
from packet.files.export import name_file
from packet.words.part_names import name_part
from packet.words.phrases import take_words

if TYPE_CHECKING:
    from packet.job import AnyJob

LONGEST_MM = LONGEST_PAGE_MM

MARGIN_MM = 15.0
LARGE_AROUND_MM = 6.0
LEAST_WIDTH_MM = 190.0


def write_large(job: AnyJob, folder: Path) -> None:
    """Write large/NAME.pdf for every part too large for one sheet of the packet's paper. The folder is the build's."""
    place = folder / "large"
    taken: set[str] = set()
    for part in list_large(job):
        page = lay_large(part)
        name = name_file(part, job.project.title.revision, taken)
        if max(page.frame_width_mm, page.frame_height_mm) + 2 * MARGIN_MM <= LONGEST_MM:
            place.mkdir(exist_ok=True)
            paint_large(job, part, page, place / f"{name}.pdf")


def list_large(job: AnyJob) -> tuple[FlatPart, ...]:
    """Return the parts that take more than one sheet of the packet's paper and have more to them than straight edges.

    A test disc is cut along its hole's page; it gets none of its own.
    """
    sheet = lay_sheet(job.project.display)
    sides = sorted((sheet.window_width_mm, sheet.window_height_mm))
    large = []
    for part in job.design.flat_parts:
        needed = list_needed(part)
        if needed and part.cnc and part.kind != "test disc" and _has_curve(part):
            box = find_bounds(needed)
            low, high = sorted((box.width, box.height))
            if low > sides[0] or high > sides[1]:
                large.append(part)
    return tuple(large)


def _has_curve(part: FlatPart) -> bool:
    return any(isinstance(f.shape, Arc | Circle) for f in part.features if f.layer is not Layer.GHOST)


def lay_large(part: FlatPart) -> PaperLayout:
    """Return a sheet as large as the part, its words, the rules and the stamp need."""
    box = find_bounds(tuple(f.shape for f in part.features))
    width = max(box.width + 2 * LARGE_AROUND_MM, LEAST_WIDTH_MM)
    height = max(box.height + 2 * LARGE_AROUND_MM, LEAST_WIDTH_MM)
    return PaperLayout(
        left_mm=MARGIN_MM,
        bottom_mm=MARGIN_MM,
        frame_width_mm=width + RULES_MM,
        frame_height_mm=height + RULES_MM + STAMP_MM,
        window_width_mm=width,
        window_height_mm=height,
    )


def paint_large(job: AnyJob, part: FlatPart, page: PaperLayout, file: Path) -> None:
    """Paint one part on its one page."""
    from reportlab.pdfgen.canvas import Canvas

    register_fonts()
    size = (
        (page.frame_width_mm + 2 * MARGIN_MM) * POINTS_PER_MM,
        (page.frame_height_mm + 2 * MARGIN_MM) * POINTS_PER_MM,
    )
    canvas: Any = Canvas(str(file), pagesize=size, invariant=1, pageCompression=1, cropBox=(0, 0, *size))
    title, words = job.project.title, take_words("template_sheet", job.reader.language)
    name = name_part(part, job.reader)
    canvas.setTitle(clean_text(words("large_title", number=part.number, name=name, revision=title.revision)))
    canvas.setViewerPreference("PrintScaling", "None")
    date = title.date.isoformat()
    lines = (
        describe_part(part, job.reader),
        write_sizes(part, job.reader),
        words("large_printing"),
        words("large_origin", title=title.title, revision=title.revision, date=date, file=job.digest),
    )
    stamp = Stamp(
        clean_text(words("head_part", number=part.number, name=name)), tuple(clean_text(line) for line in lines if line)
    )
    chrome = draw_rules(page, job.reader.language) + draw_stamp(page, stamp, page.frame_width_mm)
    corner = MARGIN_MM * POINTS_PER_MM
    paint(canvas, make_chrome(page, chrome), corner, corner)
    drawing = draw_part(part, job.reader, False)
    box = find_bounds(tuple(f.shape for f in part.features))
    spare_x, spare_y = page.window_width_mm - box.width, page.window_height_mm - box.height
    window = Box(box.left - spare_x / 2, box.bottom - spare_y / 2, box.right + spare_x / 2, box.top + spare_y / 2)
    warning = draw_warning(window.width, window.height, find_warnings(job, part))
    under = replace(drawing, entities=tuple(warning), bounds=Box(0.0, 0.0, window.width, window.height))
    inside = (MARGIN_MM + RULES_MM) * POINTS_PER_MM
    paint(canvas, under, inside, inside)
    paint(canvas, look_through(drawing, window), inside, inside)
    canvas.save()

"""Full-size templates: each drawing on the fewest sheets, with all it takes to tape them together true."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from calc.cutting.templates import (
    AROUND_MM,
    CAPTION_MM,
    RULES_MM,
    PaperLayout,
    PlacedPart,
    RefusedPart,
    TemplatePlan,
    TiledPart,
    find_diagonals,
    list_needed,
    plan_templates,
)
from calc.cutting.tiles import Tile
from calc.measures.quantity import Reader, write_length
from calc.project import Display
from calc.shapes.shapes import Box, Point, find_bounds, turn_shape
from packet.draw.backends.pdf import POINTS_PER_MM, paint
from packet.draw.fonts import clean_text
from packet.draw.model import Drawing, Entity
from packet.draw.turn import look_through
from packet.draw.views.part_words import describe_part, draw_part, find_warnings, write_sizes
from packet.draw.views.template_sheet import (
    MAP_WIDTH_MM,
    Stamp,
    draw_map,
    draw_rules,
    draw_seams,
    draw_stamp,
    draw_warning,
    make_chrome,
    write_lines,
)
from packet.pages.kit.sections import SECTIONS, name_section
from packet.words.part_names import name_part
from packet.words.phrases import Phrases, take_words
from packet.words.safe_work import CHECK_WITHIN
from packet.words.say import say

if TYPE_CHECKING:
    from packet.job import AnyJob
    from packet.pages.kit.kit import Kit

EDGE_MM = 0.8


def write_printing(reader: Reader) -> str:
    """Return how to print and what error is still good enough to cut from."""
    words = take_words("template_sheet", reader.language)
    within = CHECK_WITHIN[reader.system]
    return words("printing_inch" if reader.system == "inch" else "printing_metric", within=within)


def make_story(job: AnyJob, kit: Kit) -> list[Any]:
    """Return the template pages; the first of each part carries its bookmark."""
    words = take_words("template_sheet", kit.reader.language)
    plan = plan_templates(job.project.display, job.design.flat_parts)
    story: list[Any] = []
    if plan.refused:
        opening = next(section for section in SECTIONS if section.key == "templates")
        story += [kit.heading(name_section(opening, kit.reader.language)), kit.heading(words("refused"), 2)]
        story += [kit.text(_say_refusal(refused, job.reader, words)) for refused in plan.refused]
    for tiled in plan.tiled:
        windows = [tile.window for tile in tiled.tiling.tiles]
        drawing = draw_part(tiled.part, job.reader, tiled.tiling.turned, windows)
        for index, tile in enumerate(tiled.tiling.tiles):
            mark = f"{tiled.part.number} {name_part(tiled.part, job.reader)}" if index == 0 else ""
            story.append(kit.full_page(_make_tile_painter(job, plan, tiled, tile, drawing), mark))
    for index, placed in enumerate(plan.shared):
        mark = words("bookmark_small", numbers=_list_numbers(placed))
        story.append(kit.full_page(_make_shared_painter(job, plan, index), mark))
    return story


def _say_refusal(refused: RefusedPart, reader: Reader, words: Phrases) -> str:
    name, why = name_part(refused.part, reader), say(refused.why, reader)
    return words("refused_why", number=refused.part.number, name=name, why=why)


# --- words ----------------------------------------------------------------------------------------------------------


def write_origin(job: AnyJob) -> str:
    """Return what ties a sheet to its project file: title, revision, date, digest, paper and printer correction."""
    title, display = job.project.title, job.project.display
    words, date = take_words("template_sheet", job.reader.language), title.date.isoformat()
    origin = words(
        "origin", title=title.title, revision=title.revision, date=date, file=job.digest, paper=name_paper(display)
    )
    return "  ·  ".join(part for part in (clean_text(origin), write_correction(display)) if part)


def name_paper(display: Display) -> str:
    """Return the paper's name as it stands on the pack: ``Letter``, ``A4``."""
    return clean_text(display.paper.name).capitalize()


def write_correction(display: Display) -> str:
    """Return the printer correction in words, nothing when there is none."""
    if display.printer_x == 1.0 and display.printer_y == 1.0:
        return ""
    across, down = 100 / display.printer_x, 100 / display.printer_y
    words = take_words("template_sheet", display.language)
    return words("corrected", across=f"{across:.2f}", down=f"{down:.2f}")


def make_stamp(job: AnyJob, tiled: TiledPart, tile: Tile) -> Stamp:
    """Return the stamp of one sheet of a tiled part."""
    reader, part, tiling = job.reader, tiled.part, tiled.tiling
    count, words, name = len(tiling.tiles), take_words("template_sheet", reader.language), name_part(part, reader)
    head = words("head_one", number=part.number, name=name)
    if count > 1:
        place = tiling.tiles.index(tile) + 1
        head = words("head", number=part.number, name=name, sheet=tile.name, place=place, count=count)
    lines = [write_sizes(part, reader), describe_part(part, reader)] if part.sizes else [describe_part(part, reader)]
    if count > 1:
        lines.append(_say_taping(tiled, reader, words))
    lines += [*(say(note, reader) for note in part.notes), write_printing(reader), write_origin(job)]
    return Stamp(clean_text(head), tuple(clean_text(line) for line in lines if line))


def _say_taping(tiled: TiledPart, reader: Reader, words: Phrases) -> str:
    lengths = [write_length(check.length_mm, reader, decimal=True) for check in find_diagonals(tiled.tiling)[:2]]
    if len(lengths) == 1:
        checks = words("check_one", length=lengths[0])
    elif lengths[0] == lengths[1]:
        checks = words("check_both", length=lengths[0])
    else:
        checks = words("check_each", first=lengths[0], second=lengths[1])
    if tiled.tiling.skipped:
        return words("taping_skipped", checks=checks, sheets=", ".join(tiled.tiling.skipped))
    return words("taping", checks=checks)


# --- painting -------------------------------------------------------------------------------------------------------


def _make_tile_painter(
    job: AnyJob, plan: TemplatePlan, tiled: TiledPart, tile: Tile, drawing: Drawing
) -> Callable[[Any, Any], None]:
    def painter(canvas: Any, frame: Any) -> None:
        paint_tile(canvas, job, plan.layout, tiled, tile, drawing)

    return painter


def paint_tile(canvas: Any, job: AnyJob, layout: PaperLayout, tiled: TiledPart, tile: Tile, drawing: Drawing) -> None:
    """Paint one sheet of a tiled part; drawing: the part as draw_part made it, turned as the tiling wants it."""
    display = job.project.display
    needed = list_needed(tiled.part)
    if tiled.tiling.turned:
        needed = tuple(turn_shape(shape) for shape in needed)
    several = len(tiled.tiling.tiles) > 1
    room = layout.frame_width_mm - (MAP_WIDTH_MM + 3.0 if several else 0.0)
    chrome = draw_rules(layout, job.reader.language) + draw_stamp(layout, make_stamp(job, tiled, tile), room)
    if several:
        corner = Point(layout.frame_width_mm, layout.frame_height_mm)
        chrome += draw_map(tiled.tiling, tile, needed, corner, job.reader.language)
    _paint_chrome(canvas, layout, display, chrome)
    warning = draw_warning(layout.window_width_mm, layout.window_height_mm, find_warnings(job, tiled.part))
    _paint_window(canvas, layout, display, _frame_window(layout, warning))
    _paint_window(canvas, layout, display, look_through(drawing, tile.window))
    box = tile.window  # trim lines and crosses keep their whole weight at the window's edge
    wider = Box(box.left - EDGE_MM, box.bottom - EDGE_MM, box.right + EDGE_MM, box.top + EDGE_MM)
    seams = replace(drawing, entities=tuple(draw_seams(tiled.tiling, tile, needed, job.reader.language)), bounds=wider)
    _paint_window(canvas, layout, display, seams, Point(-EDGE_MM, -EDGE_MM))


def _frame_window(layout: PaperLayout, entities: list[Entity]) -> Drawing:
    return Drawing("window", tuple(entities), Box(0.0, 0.0, layout.window_width_mm, layout.window_height_mm))


def _paint_chrome(canvas: Any, layout: PaperLayout, display: Display, entities: list[Entity]) -> None:
    paint(
        canvas,
        make_chrome(layout, entities),
        layout.left_mm * POINTS_PER_MM,
        layout.bottom_mm * POINTS_PER_MM,
        stretch_x=1 / display.printer_x,
        stretch_y=1 / display.printer_y,
    )


def _paint_window(
    canvas: Any, layout: PaperLayout, display: Display, drawing: Drawing, at: Point | None = None
) -> None:
    """Paint a drawing with its lower left corner at a place [mm] of the window, cut off at its own bounds."""
    spot = at or Point(0.0, 0.0)
    sx, sy = POINTS_PER_MM / display.printer_x, POINTS_PER_MM / display.printer_y
    left = layout.left_mm * POINTS_PER_MM + (RULES_MM + spot.x) * sx
    bottom = layout.bottom_mm * POINTS_PER_MM + (RULES_MM + spot.y) * sy
    canvas.saveState()
    path = canvas.beginPath()
    path.rect(left, bottom, drawing.bounds.width * sx, drawing.bounds.height * sy)
    canvas.clipPath(path, stroke=0, fill=0)
    paint(canvas, drawing, left, bottom, stretch_x=1 / display.printer_x, stretch_y=1 / display.printer_y)
    canvas.restoreState()


# --- small parts that share a sheet ---------------------------------------------------------------------------------


def _make_shared_painter(job: AnyJob, plan: TemplatePlan, index: int) -> Callable[[Any, Any], None]:
    def painter(canvas: Any, frame: Any) -> None:
        paint_shared(canvas, job, plan, index)

    return painter


def paint_shared(canvas: Any, job: AnyJob, plan: TemplatePlan, index: int) -> None:
    """Paint one sheet of small parts, each with its own caption."""
    display, layout, placed = job.project.display, plan.layout, plan.shared[index]
    words = take_words("template_sheet", job.reader.language)
    lines = (*_gather_notes(placed, job.reader, words), write_printing(job.reader), write_origin(job))
    head = words("head_small", numbers=_list_numbers(placed), place=index + 1, count=len(plan.shared))
    stamp = Stamp(clean_text(head), tuple(clean_text(line) for line in lines))
    chrome = draw_rules(layout, job.reader.language) + draw_stamp(layout, stamp, layout.frame_width_mm)
    _paint_chrome(canvas, layout, display, chrome)
    for one in placed:
        box = find_bounds(list_needed(one.part))
        window = Box(box.left - AROUND_MM, box.bottom - AROUND_MM, box.right + AROUND_MM, box.top + AROUND_MM)
        if one.turned:
            window = Box(-window.top, window.left, -window.bottom, window.right)
        warning = draw_warning(one.room_width_mm, one.room_height_mm, find_warnings(job, one.part))
        at = Point(one.left_mm, one.bottom_mm)
        room = Drawing("room", tuple(warning), Box(0.0, 0.0, one.room_width_mm, one.room_height_mm))
        _paint_window(canvas, layout, display, room, at)
        _paint_window(canvas, layout, display, look_through(draw_part(one.part, job.reader, one.turned), window), at)
        room_mm = find_caption_room(one, placed, layout.window_width_mm)
        caption = Drawing("caption", tuple(_draw_caption(job, one, room_mm)), Box(0.0, 0.0, room_mm, CAPTION_MM))
        _paint_window(canvas, layout, display, caption, Point(one.left_mm, one.bottom_mm + one.room_height_mm))


def _list_numbers(placed: tuple[PlacedPart, ...]) -> str:
    return ", ".join(sorted(p.part.number for p in placed))


def _gather_notes(placed: tuple[PlacedPart, ...], reader: Reader, words: Phrases) -> list[str]:
    """Return what is to be done with the parts of a sheet, parts that are treated alike together."""
    by_note: dict[str, list[str]] = {}
    for one in placed:
        if one.part.notes:
            note = " ".join(say(note, reader) for note in one.part.notes)
            by_note.setdefault(note, []).append(one.part.number)
    noted = sorted(by_note.items(), key=lambda pair: pair[1])
    return [words("note_of", numbers=", ".join(sorted(numbers)), note=note) for note, numbers in noted]


def find_caption_room(one: PlacedPart, placed: tuple[PlacedPart, ...], width_mm: float) -> float:
    """Return how far a caption may run: to the next part on its right, else to the window's edge."""
    low, high = one.bottom_mm, one.bottom_mm + one.room_height_mm + CAPTION_MM
    beside = [
        other.left_mm
        for other in placed
        if other.left_mm > one.left_mm
        and other.bottom_mm < high
        and other.bottom_mm + other.room_height_mm + CAPTION_MM > low
    ]
    return min(beside, default=width_mm) - one.left_mm


def _draw_caption(job: AnyJob, one: PlacedPart, room_mm: float) -> list[Entity]:
    part, reader = one.part, job.reader
    lines = [clean_text(line) for line in (write_sizes(part, reader), describe_part(part, reader)) if line]
    words = take_words("template_sheet", reader.language)
    head = words("head_part", number=part.number, name=name_part(part, reader))
    stamp = Stamp(clean_text(head), tuple(lines))
    return write_lines(stamp, Point(0.5, CAPTION_MM - 0.4), room_mm - 1.0, CAPTION_MM - 1.0, 2.6)

"""The cut list and the sheet layouts on paper."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

from reportlab.platypus import CondPageBreak, Flowable

from calc.box.panel_facts import PanelFacts
from calc.box.parts import SCREW_DRILL_MM
from calc.box.screws import END_MM
from calc.cutting.sheets import SheetLayout, SheetPlan
from calc.measures.marking import find_step, write_mark
from calc.measures.quantity import write_length
from calc.shapes.part_names import say_face
from packet.bill.cuts import CutRow, list_cuts
from packet.draw.views.layouts import MARGINS, draw_layout, list_strips, measure_layout
from packet.draw.views.panels import draw_panel, list_worked, measure_panel
from packet.pages.kit.kit import INCH_SCALES, METRIC_SCALES
from packet.pages.kit.style import MM
from packet.words.assumed import CUT_BY, say_assumed
from packet.words.phrases import Phrases, take_words
from packet.words.say import say

if TYPE_CHECKING:
    from packet.job import BoxJob
    from packet.pages.kit.kit import Kit

SIZE = 8.0
CAPTION_MM, HEADING_MM = 10.0, 20.0
"""Paper that a caption and a heading take."""

MOSTLY_EMPTY = 0.4
"""Share of a sheet that is used, below which it is drawn smaller."""

STILL_CLEAR = 1.7
"""More panels stand in a row where they need not be drawn smaller by more than this."""

PANEL_LEGIBLE = 25
"""Names and dimensions of a panel have their room at 1 to this."""

BETWEEN_MM, CELL_MM = 2.0, 42.0
"""Paper between two panels of a row, and the least for one with its caption."""

LEGIBLE = 40
"""A sheet's parts can be read at 1 to this."""

COLUMNS = ("number", "part", "quantity", "width", "height", "grain", "from", "notes")
WIDTHS = (8.0, 22.0, 7.5, 20.5, 20.5, 19.0, 14.5, 70.0)


def make_story(job: BoxJob, kit: Kit) -> list[Flowable]:
    """Return cut list, then layouts of panel stock and lining."""
    rows, assumed = list_cuts(job.design, kit.reader), say_assumed(job.project, CUT_BY)
    words = take_words("cuts", kit.reader.language)
    kerf = write_length(job.project.methods.kerf_mm, kit.reader)
    return [
        kit.heading(words("title")),
        kit.text(_say_box(job, kit, words)),
        *([kit.text(assumed, "strong")] if assumed else []),
        kit.table(_fill_table(rows, kit, words), WIDTHS, align="llrrrlll", size=SIZE),
        kit.text(_say_screws(job, kit, words)),
        kit.heading(words("sheets_title"), 2),
        kit.text(words("sheets_how", kerf=kerf)),
        *(block for plan in job.design.sheets for block in _draw_plan(plan, job, kit, words)),
        *_draw_worked(job, kit, words),
    ]


def _say_box(job: BoxJob, kit: Kit, words: Phrases) -> str:
    """Return the box's sizes, and how the list is to be read."""
    shape, lining = job.design.box, job.design.lining
    inside, outside = _write_sizes(shape.inside, kit, words), _write_sizes(shape.outside, kit, words)
    thick = write_length(job.project.box.panel.thickness_mm, kit.reader)
    step = write_length(find_step(kit.reader), kit.reader)
    told = [words("box", inside=inside, outside=outside, joint=words(f"joint_{shape.joint.kind}"))]
    if lining:
        told.append(words("clear", clear=_write_sizes(lining.clear, kit, words)))
    return " ".join([*told, words("measure_yours", thick=thick), words("how_seen"), words("to_mark", step=step)])


def _say_screws(job: BoxJob, kit: Kit, words: Phrases) -> str:
    """Return where the box's screws go, in a sentence."""
    design, reader = job.design, kit.reader
    outside = [row for row in design.rows if not row.from_inside]
    inside = sum(len(row.spots) for row in design.rows if row.from_inside)
    told = words(
        "screws",
        count=sum(len(row.spots) for row in outside),
        length=write_length(design.strength.box_screw_mm, reader),
        drill=write_length(SCREW_DRILL_MM, reader),
        apart=write_mark(max((row.spacing_mm for row in outside), default=0.0), reader),
        end=write_mark(END_MM, reader),
    )
    return f"{told} {words('screws_inside', count=inside)}" if inside else told


def _write_sizes(sizes: Any, kit: Kit, words: Phrases) -> str:
    width, depth, height = (write_mark(mm, kit.reader) for mm in (sizes.width, sizes.depth, sizes.height))
    return words("sizes", width=width, depth=depth, height=height)


def _fill_table(rows: tuple[CutRow, ...], kit: Kit, words: Phrases) -> list[list[Any]]:
    table: list[list[Any]] = [[words(f"column_{name}") for name in COLUMNS]]
    for row in rows:
        notes = "; ".join(each for each in (row.holes, row.joints, row.noted) if each)
        table.append(
            [
                row.number, row.called, str(row.quantity), write_mark(row.width_mm, kit.reader),
                write_mark(row.height_mm, kit.reader), row.grain, row.sheet, notes,
            ]
        )  # fmt: skip
    return table


def _draw_plan(plan: SheetPlan, job: BoxJob, kit: Kit, words: Phrases) -> list[Flowable]:
    """Return a material's layouts."""
    blocks: list[Flowable] = []
    grain = job.project.box.panel.grain_matters and plan.kerf_mm > 0
    for layout in plan.layouts:
        scale = choose_scale(layout, kit)
        drawing, caption = draw_layout(layout, kit.reader, scale, grain=grain), _name_layout(layout, plan, kit, words)
        blocks.append(kit.drawing(drawing, scale=scale, caption=caption, show_scale=True))
        if strips := list_strips(layout, scale):
            blocks.append(kit.text(_say_strips(strips, words), "small"))
    if plan.too_large:
        names = ", ".join(say(blank.called or blank.name, kit.reader) for blank in plan.too_large)
        blocks.append(kit.signal("NOTICE", words("too_large", material=plan.material, names=names)))
    return blocks


def _say_strips(strips: list[tuple[list[str], list[int]]], words: Phrases) -> str:
    """Return which parts lie in the strips too narrow to be numbered, and which cuts part them."""
    rows = [
        words("strip_cut" if cuts else "strip", parts=", ".join(parts), cuts=", ".join(map(str, cuts)))
        for parts, cuts in strips
    ]
    return words("strips", rows="; ".join(rows))


def _draw_worked(job: BoxJob, kit: Kit, words: Phrases) -> list[Flowable]:
    """Return the worked panels beside each other, all at one scale: as many in a row as keeps them clear."""
    parts = list_worked(job.design)
    if not parts:
        return []
    half = kit.frame_width_mm / 2 - 4
    scale = choose_scale_for(kit, lambda s: max(measure_panel(part, s)[0] for part in parts), half)
    widths = [kit.frame_width_mm / 2] * 2
    for count in range(len(parts), 2, -1):
        in_row = choose_scale_for(kit, lambda s, n=count: sum(_list_cells(parts, s, n)), kit.frame_width_mm)  # type: ignore[misc]
        if in_row * STILL_CLEAR >= scale and in_row >= 1 / PANEL_LEGIBLE:
            scale, cells = in_row, _list_cells(parts, in_row, count)
            spare = (kit.frame_width_mm - sum(cells)) / len(cells)
            widths = [cell + spare for cell in cells]
            break
    figures = [
        kit.drawing(draw_panel(part, kit.reader, scale), scale=scale, show_scale=True,
                    caption=words("panel_caption", number=part.number, name=say(say_face(part.face), kit.reader)))
        for part in parts
    ]  # fmt: skip
    count = len(widths)
    rows = [figures[start : start + count] for start in range(0, len(figures), count)]
    heading = kit.heading(words("holes_title"), 2)
    high = max(measure_panel(part, scale)[1] for part in parts) + CAPTION_MM
    how = kit.text(words("holes_how"), "small")
    blocks: list[Flowable] = [CondPageBreak((high + HEADING_MM) * MM), heading, how]
    for row in rows:  # a row of figures cannot be split: it goes on the next page whole
        cells_of = [[figure] for figure in row] + [[]] * (count - len(row))
        blocks += [CondPageBreak(high * MM), kit.columns(cells_of, widths)]
    return blocks


def _list_cells(parts: Sequence[PanelFacts], scale: float, count: int) -> list[float]:
    """Return the widths [mm] of columns of panels, so many in a row, with room for captions and between them."""
    wide = [max(measure_panel(part, scale)[0] + BETWEEN_MM, CELL_MM) for part in parts]
    return [max(wide[column::count]) for column in range(count)]


def choose_scale_for(kit: Kit, measure: Callable[[float], float], width_mm: float) -> float:
    """Return the largest usual scale at which something measured on paper is no wider than a width."""
    usual = INCH_SCALES if kit.reader.system == "inch" else METRIC_SCALES
    return next((1 / one_to for one_to in usual if measure(1 / one_to) <= width_mm), 1 / usual[-1])


def _name_layout(layout: SheetLayout, plan: SheetPlan, kit: Kit, words: Phrases) -> str:
    key = "offcut_caption" if layout.from_hand else "sheet_caption"
    thick, used = write_length(plan.thickness_mm, kit.reader), f"{100 * layout.used:.0f}"
    return words(key, number=layout.number, material=plan.material, thick=thick, used=used)


def choose_scale(layout: SheetLayout, kit: Kit) -> float:
    """Return the largest usual scale at which a sheet is no wider than the page and about 70 mm high; a sheet that
    is mostly left over is drawn smaller where its parts stay legible."""
    usual = INCH_SCALES if kit.reader.system == "inch" else METRIC_SCALES
    highest = (63.5, 82.0) if layout.used < MOSTLY_EMPTY else (82.0,)
    for most in highest:
        for one_to in usual:
            wide, high = measure_layout(layout, 1 / one_to)
            if wide <= kit.frame_width_mm and high <= most and (most > 63.5 or one_to <= LEGIBLE):
                return 1 / one_to
    return (kit.frame_width_mm - MARGINS[0] - MARGINS[2]) / layout.length_mm

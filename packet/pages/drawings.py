"""The drawings: views with dimensions, elevation, section of a ring, exploded view, and what the box must bear."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from reportlab.platypus import Flowable

from calc.box.framing import count_studs
from calc.measures.marking import write_mark
from packet.draw.views.elevation import draw_elevation, measure_elevation
from packet.draw.views.exploded import BESIDE_MM, draw_exploded, is_crowded, measure_exploded
from packet.draw.views.section import draw_section
from packet.draw.views.views import draw_projection_sign, draw_views, measure_views
from packet.pages.report.strength_tables import make_loads, make_reach, make_screws, make_strength
from packet.words.phrases import take_words

if TYPE_CHECKING:
    from packet.job import BoxJob
    from packet.pages.kit.kit import Kit

SHEETS = 3
AROUND_MM = 42.0
"""Paper for a heading, a caption and a title block round a drawing."""

APART_MM = 84.0
"""Width on paper for the exploded view beside the sections."""


def make_story(job: BoxJob, kit: Kit) -> list[Flowable]:
    """Return the drawing pages."""
    project, design, reader = job.project, job.design, kit.reader
    words = take_words("drawings", reader.language)
    wide, high = kit.frame_width_mm, kit.frame_height_mm
    views = choose_scale(kit, lambda s: measure_views(project, design, s), wide, high - AROUND_MM)
    aside = 76.0
    stack = choose_scale(kit, lambda s: measure_elevation(project, design, s), wide - aside - 4, 150)
    elevation = kit.drawing(
        draw_elevation(project, design, reader, stack), scale=stack, show_scale=True, caption=_say_room(job, kit)
    )
    beside = [make_loads(job, kit, aside), make_screws(job, kit, aside)]
    if design.reach.port is not None:
        beside.append(make_reach(job, kit, aside))
    folded = kit.drawing(
        draw_views(project, design, reader, views),
        scale=views,
        show_scale=True,
        caption=words("views_caption"),
    )
    story: list[Flowable] = [
        kit.heading(words("title")),
        kit.keep([folded, _make_block(job, kit, 1)]),
        kit.page_break(),
        kit.heading(words("sheet_2"), 2),
        kit.columns([[elevation, *_say_framing(job, kit)], beside], (wide - aside, aside)),
        _make_block(job, kit, 2),
        *make_strength(job, kit),
    ]  # fmt: skip
    return [*story, *_draw_apart(job, kit)]


def _say_room(job: BoxJob, kit: Kit) -> str:
    """Return what room it takes to get a filter out."""
    stack = job.design.stack
    if not stack.parts:
        return ""
    drop, tilt = write_mark(stack.drop_mm, kit.reader), write_mark(stack.tilt_mm, kit.reader)
    return take_words("drawings", kit.reader.language)("room_to_unscrew", drop=drop, tilt=tilt)


def _say_framing(job: BoxJob, kit: Kit) -> list[Flowable]:
    """Return what the rails are screwed into; nothing for a cart."""
    lags, words = job.design.strength.hang_fasteners, take_words("drawings", kit.reader.language)
    if job.project.box.hung == "wall":
        return [kit.text(words("studs", count=count_studs(lags), lags=lags), "small")]
    if job.project.box.hung == "ceiling":
        return [kit.text(words("joists", lags=lags), "small")]
    return []


def _draw_apart(job: BoxJob, kit: Kit) -> list[Flowable]:
    """Return the exploded view, and beside it the sections at half size: a filter's ring and a plain lid's."""
    project, design = job.project, job.design
    words = take_words("drawings", kit.reader.language)
    hung = [port for port in design.ports if port.port.kind == "filter"]
    plain = [port for port in design.ports if port.port.kind != "filter"]
    box = measure_exploded(project, design)
    left = APART_MM if design.ports else kit.frame_width_mm
    beside = 2 * BESIDE_MM if is_crowded(design) else 0.0
    apart = min((left - 16 - beside) / box.width, (kit.frame_height_mm - 60) / box.height)
    exploded = kit.drawing(
        draw_exploded(project, design, apart),
        scale=apart,
        show_scale=False,
        caption=words("exploded_caption"),
    )
    sections = [
        kit.drawing(
            draw_section(project, port, kit.reader, 0.5),
            scale=0.5,
            show_scale=True,
            caption=words("section_caption", name=port.name),
        )
        for port in (*hung[:1], *plain[:1])
    ]
    body = kit.columns([[exploded], sections], (left, kit.frame_width_mm - left)) if sections else exploded
    return [kit.page_break(), kit.heading(words("sheet_3"), 2), body, _make_block(job, kit, 3)]


def choose_scale(kit: Kit, measure: Callable[[float], tuple[float, float]], wide: float, high: float) -> float:
    """Return the largest usual scale at which something measured on paper fits a space [mm]."""
    from packet.pages.kit.kit import INCH_SCALES, METRIC_SCALES

    usual = INCH_SCALES if kit.reader.system == "inch" else METRIC_SCALES
    for one_to in usual:
        w, h = measure(1 / one_to)
        if w <= wide and h <= high:
            return 1 / one_to
    return 1 / usual[-1]


def _make_block(job: BoxJob, kit: Kit, number: int) -> Any:
    """Return a drawing's title block."""
    title, words = job.project.title, take_words("drawings", kit.reader.language)
    sign = kit.drawing(draw_projection_sign(), scale=1.0, show_scale=False) if number == 1 else ""
    cells = [
        title.title,
        words(f"sheet_{number}"),
        words("drawn_by", name=title.drawn_by) if title.drawn_by else "",
        words("revision", date=title.date.isoformat(), revision=title.revision),
        words("number", number=number, count=SHEETS),
        sign,
    ]
    return kit.table([cells], (54.0, 36.0, 34.0, 34.0, 24.0, 20.0), header_rows=0, size=8.0)

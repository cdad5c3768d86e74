"""The drawings: views with dimensions, elevation, section of a ring, exploded view, and what the box must bear."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from reportlab.platypus import Flowable

from packet.draw.elevation import draw_elevation, measure_elevation
from packet.draw.exploded import draw_exploded, measure_exploded
from packet.draw.section import draw_section
from packet.draw.views import draw_views, measure_views
from packet.pages.strength_tables import make_strength

if TYPE_CHECKING:
    from packet.job import Job
    from packet.pages.kit import Kit

SHEETS = ("Views of the box", "Height and hanging", "Exploded view", "Section through a ring")


def make_story(job: Job, kit: Kit) -> list[Flowable]:
    """Return the drawing pages."""
    project, design, reader = job.project, job.design, kit.reader
    wide, high = kit.frame_width_mm, kit.frame_height_mm
    views = choose_scale(kit, lambda s: measure_views(design, s), wide, high - 42)
    stack = choose_scale(kit, lambda s: measure_elevation(project, design, s), wide, 150)
    box = measure_exploded(project, design)
    apart = choose_scale(kit, lambda s: (box.width * s + 12, box.height * s + 8), wide, high - 62)
    story: list[Flowable] = [
        kit.heading("Drawings"),
        kit.drawing(draw_views(project, design, reader, views), scale=views, show_scale=True,
                    caption="Third-angle projection: each view lies on the side it is seen from. Dashed: hidden."),
        _make_block(job, kit, 1),
        kit.heading(SHEETS[1], 2),
        kit.drawing(draw_elevation(project, design, reader, stack), scale=stack, show_scale=True,
                    caption="Seen from the front."),
        _make_block(job, kit, 2),
        *make_strength(job, kit),
        kit.heading(SHEETS[2], 2),
        kit.drawing(draw_exploded(project, design, apart), scale=apart, show_scale=False,
                    caption="Isometric, numbers as in the cut list. Not to be measured."),
        _make_block(job, kit, 3),
    ]  # fmt: skip
    hung = [port for port in design.ports if port.port.kind == "filter"] or list(design.ports)
    if hung:
        story += [
            kit.heading(SHEETS[3], 2),
            kit.keep(
                [
                    kit.drawing(draw_section(project, hung[0], reader, 1.0), scale=1.0, show_scale=True,
                                caption=f"{hung[0].name}: as it hangs, the middle of the opening to the left."),
                    _make_block(job, kit, 4),
                ]
            ),
        ]  # fmt: skip
    return story


def choose_scale(kit: Kit, measure: Callable[[float], tuple[float, float]], wide: float, high: float) -> float:
    """Return the largest usual scale at which something measured on paper fits a space [mm]."""
    from packet.pages.kit import INCH_SCALES, METRIC_SCALES

    usual = INCH_SCALES if kit.reader.system == "inch" else METRIC_SCALES
    for one_to in usual:
        w, h = measure(1 / one_to)
        if w <= wide and h <= high:
            return 1 / one_to
    return 1 / usual[-1]


def _make_block(job: Job, kit: Kit, number: int) -> Any:
    """Return a drawing's title block."""
    title = job.project.title
    cells = [
        title.title,
        SHEETS[number - 1],
        f"Drawn by {title.drawn_by}",
        f"{title.date.isoformat()}, revision {title.revision}",
        f"Drawing {number} of {len(SHEETS)}",
    ]
    return kit.table([cells], (58.0, 36.0, 36.0, 34.0, 22.0), header_rows=0, size=7.6)

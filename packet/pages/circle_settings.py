"""One page for those who cut with a jig: the pivot setting of every circle for every pass."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.geometry.circles import CircleSettings, list_drilled, list_settings
from calc.quantity import Reader, write_length

if TYPE_CHECKING:
    from packet.job import Job
    from packet.pages.kit import Kit


def make_story(job: Job, kit: Kit) -> list[Any]:
    """Return the table of settings and how to read it."""
    methods, reader = job.project.methods, job.reader
    bit, blade = write_length(methods.bit_mm, reader), write_length(methods.kerf_mm, reader)
    heads = [
        "Circle",
        "Across",
        f"Router, {bit} bit: first cut",
        "half way",
        "final",
        f"Jigsaw, {blade} cut: first",
        "final",
    ]
    rows = [heads]
    for circle in list_settings(job.design.flat_parts, methods):
        router, jigsaw = circle.router, circle.jigsaw
        several = len(router) > 1
        rows.append(
            [
                f"{_name(circle, reader)} - {_KEEP[circle.keep]}",
                _set(circle.diameter_mm, reader),
                _set(router[0].near_edge_mm, reader) if several else "-",
                _set(router[1].near_edge_mm, reader) if several else "-",
                _set(router[-1].near_edge_mm, reader),
                _set(jigsaw[0].bit_middle_mm, reader) if several else "-",
                _set(jigsaw[-1].bit_middle_mm, reader),
            ]
        )
    lines = [
        "Router or trammel: middle of the pivot pin to the NEAR edge of the bit. Jigsaw: pin to MIDDLE of blade.",
        "Hole: the far side of the bit makes the edge. Disc: the near side does.",
        "Check the bit first: measure a groove cut in scrap. A wider groove shortens a hole's setting by the excess.",
        "Cut the first pass, try the collar, then open by the next setting. You can always take more off.",
        "Drill the pivot hole no larger than its pin; plug it afterwards where air must not pass.",
    ]
    width = kit.frame_width_mm
    shares = (0.25, 0.125, 0.125, 0.125, 0.125, 0.125, 0.125)
    table = kit.table(rows, widths_mm=[width * share for share in shares])
    drilled = [["Drilled", "Drill", "Holes"]]
    for one in list_drilled(job.design.flat_parts):
        drilled.append([one.part, write_length(one.diameter_mm, reader), str(one.count)])
    holes = kit.table(drilled, widths_mm=[width * share for share in (0.5, 0.25, 0.25)])
    return [kit.heading("Circle settings"), *kit.bullets(lines), table, kit.space(4.0), holes]


_KEEP = {"hole": "hole: keep the outside", "disc": "disc: keep the inside"}


def _name(circle: CircleSettings, reader: Reader) -> str:
    if circle.hole_saw_mm is None:
        return circle.name
    return f"{circle.name} (hole saw {write_length(circle.hole_saw_mm, reader)})"


def _set(mm: float, reader: Reader) -> str:
    return write_length(mm, reader, decimal=True)

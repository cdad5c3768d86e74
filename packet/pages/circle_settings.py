"""One page for those who cut with a jig: the pivot setting of every circle for every pass."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.geometry.circles import CircleSettings, list_drilled, list_settings
from calc.measures.quantity import Reader, write_length
from calc.project import Methods
from packet.say import say

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
    if methods.base_mm is not None:
        heads.append("Jigsaw's guide disc, across")
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
        if methods.base_mm is not None:
            rows[-1].append("-" if circle.guide_mm is None else _set(circle.guide_mm, reader))
    lines = [
        "Router or trammel: middle of the pivot pin to the NEAR edge of the bit. Jigsaw: pin to MIDDLE of blade.",
        "Hole: the far side of the bit makes the edge. Disc: the near side does.",
        "Check the bit first: measure a groove cut in scrap. A wider groove shortens a hole's setting by the excess.",
        _say_guide(methods, reader),
        "Cut the first pass, try the collar, then open by the next setting. You can always take more off.",
        "Drill the pivot hole no larger than its pin; plug it afterwards where air must not pass.",
    ]
    width = kit.frame_width_mm
    shares = (0.25, *[0.75 / (len(heads) - 1)] * (len(heads) - 1))
    table = kit.table(rows, widths_mm=[width * share for share in shares])
    holes = kit.table(_list_drills(job), widths_mm=[width * share for share in (0.24, 0.26, 0.24, 0.26)])
    return [kit.heading("Circle settings"), *kit.bullets(lines), table, kit.space(4.0), holes]


def _list_drills(job: Job) -> list[list[str]]:
    """Return what is drilled, one part after the other in two columns: ``1/8 in x 8``."""
    drills: dict[str, list[str]] = {}
    for one in list_drilled(job.design.flat_parts):
        drills.setdefault(say(one.part, job.reader), []).append(
            f"{write_length(one.diameter_mm, job.reader)} x {one.count}"
        )
    cells = [[part, ", ".join(sizes)] for part, sizes in drills.items()]
    half = (len(cells) + 1) // 2
    cells += [["", ""]] * (2 * half - len(cells))
    return [["Drilled", "Drill x holes"] * 2, *(a + b for a, b in zip(cells[:half], cells[half:], strict=True))]


def _say_guide(methods: Methods, reader: Reader) -> str:
    """Return how to run a jigsaw freehand along a round guide: what to measure, what to reckon."""
    blade, smaller = write_length(methods.kerf_mm, reader), write_length(2 * methods.allowance_mm, reader)
    if methods.base_mm is None:
        return (
            "Jigsaw freehand, its base along a scrap disc: measure B, base edge to near side of blade. Disc across = "
            f"hole less 2 x (B + {blade} cut). First cut: disc {smaller} smaller."
        )
    return (
        "Jigsaw freehand, its base along a scrap disc fixed in the middle: "
        f"{write_length(methods.base_mm, reader)} from base edge to near side of blade. First cut of a hole: disc "
        f"{smaller} smaller."
    )


_KEEP = {"hole": "hole: keep the outside", "disc": "disc: keep the inside"}


def _name(circle: CircleSettings, reader: Reader) -> str:
    if circle.hole_saw_mm is None:
        return say(circle.name, reader)
    return f"{say(circle.name, reader)} (hole saw {write_length(circle.hole_saw_mm, reader)})"


def _set(mm: float, reader: Reader) -> str:
    return write_length(mm, reader, decimal=True)

"""One page for those who cut with a jig: the pivot setting of every circle for every pass."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.cutting.circles import CircleSettings, list_drilled, list_settings
from calc.measures.quantity import Reader, write_length
from calc.project import Methods
from packet.words.phrases import Phrases, take_words
from packet.words.say import say

if TYPE_CHECKING:
    from packet.job import AnyJob
    from packet.pages.kit.kit import Kit

COLUMNS = ("circle", "across", "router_first", "router_half", "router_final", "jigsaw_first", "jigsaw_final")


def make_story(job: AnyJob, kit: Kit) -> list[Any]:
    """Return the table of settings and how to read it."""
    methods, reader = job.project.methods, job.reader
    bit, blade = write_length(methods.bit_mm, reader), write_length(methods.kerf_mm, reader)
    words = take_words("circle_settings", kit.reader.language)
    heads = [words(f"column_{name}", bit=bit, blade=blade) for name in COLUMNS]
    if methods.base_mm is not None:
        heads.append(words("column_guide"))
    rows = [heads]
    for circle in list_settings(job.design.flat_parts, methods):
        router, jigsaw = circle.router, circle.jigsaw
        several = len(router) > 1
        rows.append(
            [
                words(f"keep_{circle.keep}", circle=_name(circle, reader, words)),
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
        words("how_measure"),
        words("how_sides"),
        words("how_check"),
        _say_guide(methods, reader, words),
        words("how_passes"),
        words("how_pivot"),
    ]
    width = kit.frame_width_mm
    shares = (0.25, *[0.75 / (len(heads) - 1)] * (len(heads) - 1))
    table = kit.table(rows, widths_mm=[width * share for share in shares])
    holes = kit.table(_list_drills(job, words), widths_mm=[width * share for share in (0.24, 0.26, 0.24, 0.26)])
    return [kit.heading(words("title")), *kit.bullets(lines), table, kit.space(4.0), holes]


def _list_drills(job: AnyJob, words: Phrases) -> list[list[str]]:
    """Return what is drilled, one part after the other in two columns: ``1/8 in x 8``."""
    drills: dict[str, list[str]] = {}
    for one in list_drilled(job.design.flat_parts):
        drills.setdefault(say(one.part, job.reader), []).append(
            f"{write_length(one.diameter_mm, job.reader)} x {one.count}"
        )
    cells = [[part, ", ".join(sizes)] for part, sizes in drills.items()]
    half = (len(cells) + 1) // 2
    cells += [["", ""]] * (2 * half - len(cells))
    return [[words("drilled"), words("drills")] * 2, *(a + b for a, b in zip(cells[:half], cells[half:], strict=True))]


def _say_guide(methods: Methods, reader: Reader, words: Phrases) -> str:
    """Return how to run a jigsaw freehand along a round guide: what to measure, what to reckon."""
    blade, smaller = write_length(methods.kerf_mm, reader), write_length(2 * methods.allowance_mm, reader)
    if methods.base_mm is None:
        return words("how_guide", blade=blade, smaller=smaller)
    return words("how_guide_known", base=write_length(methods.base_mm, reader), smaller=smaller)


def _name(circle: CircleSettings, reader: Reader, words: Phrases) -> str:
    if circle.hole_saw_mm is None:
        return say(circle.name, reader)
    return words("hole_saw", circle=say(circle.name, reader), size=write_length(circle.hole_saw_mm, reader))


def _set(mm: float, reader: Reader) -> str:
    return write_length(mm, reader, decimal=True)

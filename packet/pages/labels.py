"""Labels at true size: gates, ports, gauge, last cleaned; with a code that names title, revision and file."""

from __future__ import annotations

import functools
import itertools
from typing import TYPE_CHECKING, Any

from calc.measures.quantity import write_amount
from calc.results import Catching
from calc.shapes.shapes import Box, Point, make_rectangle
from packet.bill.labels import ACROSS, CLEANED, DOWN
from packet.draw.fonts import measure_words
from packet.draw.model import Drawing, Entity, Fill, Pen, Stroke, Words
from packet.pages.flue import say_flue
from packet.words.amounts import full_band
from packet.words.catching import say_level, say_often
from packet.words.phrases import Phrases, take_words

if TYPE_CHECKING:
    from calc.gauges.gauge_design import GaugeDesign
    from packet.job import AirJob
    from packet.pages.kit.kit import Kit

WIDE, TALL, GAP = 88.0, 34.0, 4.0
CODE_MM = 26.0
MOST_LINES = 2  # of small words about one thing; a line of its own about the flue stands below them
WRITTEN = "last_cleaned"
CODED = ("gauge", WRITTEN)


def make_story(job: AirJob, kit: Kit) -> list[Any]:
    """Return the sheets of labels."""
    words = take_words("labels", job.reader.language)
    labels = list_labels(job)
    sheets = [labels[start : start + ACROSS * DOWN] for start in range(0, len(labels), ACROSS * DOWN)]
    drawings = [
        kit.drawing(draw_labels(job, sheet, ACROSS), scale=1.0, height_mm=kit.frame_height_mm) for sheet in sheets
    ]
    return [kit.heading(words("title")), kit.text(words("how"), "small"), *drawings]


def list_labels(job: AirJob) -> list[tuple[str, str, str]]:
    """Return kind (the key of its words), large words and small words of every label."""
    reader, words = job.reader, take_words("labels", job.reader.language)
    labels = []
    for machine in (machine for machine in job.project.machines if machine.gate):
        needs = write_amount(machine.needs_m3s, "flow_m3s", reader)
        read_here = job.gauge is not None and machine.name == job.gauge.read_at
        others = list_partners(job, machine.name)
        told = words("gate_needs_set", others=others, flow=needs) if others else words("gate_needs", flow=needs)
        small = [words("read_here", told=told) if read_here else told]
        small += [say_flue(job, "gate")] if job.project.shop.draws_on_flue else []
        labels.append(("gate", machine.name, "\n".join(small)))
    if job.project.shop.draws_on_flue:
        labels.append(("switch", say_flue(job, "switch"), say_flue(job, "switch_small")))
    two = "_two" if job.project.methods.helper else ""
    for port in job.project.ports:
        told = words(f"filter_port{two}") if port.kind == "filter" else words(f"{port.kind}_port")
        labels.append((f"{port.kind}_port", port.name, told))
    labels += [_tell_catching(job, each, words) for each in job.sizing.filters.catching]
    if job.gauge is None:
        return labels
    labels.append(_tell_clean_me(job, job.gauge, words))
    labels += [(WRITTEN, words("last_cleaned"), words("last_cleaned_readings"))] * CLEANED
    return labels


def _tell_clean_me(job: AirJob, gauge: GaugeDesign, words: Phrases) -> tuple[str, str, str]:
    """Return the label that says when to clean: at the gauge's mark, or by the hours where it cannot be read."""
    later = job.sizing.filters.clean_me.hours_later
    if gauge.signal != "gauge" and later is not None:
        hours = full_band(later, "time_h", job.reader)
        return "gauge", words("clean_hours", hours=hours), words("clean_hours_count")
    mark = words("clean_me", reading=write_amount(gauge.clean_me_pa, "pressure_pa", job.reader))
    return "gauge", mark, words("clean_me_gate" if job.project.has_gates else "clean_me_hose", machine=gauge.read_at)


def _tell_catching(job: AirJob, catching: Catching, words: Phrases) -> tuple[str, str, str]:
    """Return the label for a pail's or the bin's side, at the height where it is emptied."""
    reader, level = job.reader, say_level(catching.level, job.reader)
    told = words("empty_how", level=level, often=say_often((catching,), reader))
    if catching.kind == "pail":
        pail = next(port.pail for port in job.project.ports if port.name == catching.port)
        told += "\n" + words("empty_height", height=write_amount(catching.level * pail.height_mm, "length_mm", reader))
    return catching.kind, words("empty_here"), told


def list_partners(job: AirJob, machine: str) -> str:
    """Return the machines that may run with one, by the file's sets of gates."""
    sets = [gates.open for gates in job.project.gate_sets if machine in gates.open]
    return ", ".join(dict.fromkeys(name for names in sets for name in names if name != machine))


def draw_labels(job: AirJob, labels: list[tuple[str, str, str]], columns: int) -> Drawing:
    """Return a sheet of labels at full size, so many across, from the top down."""
    rows = -(-len(labels) // columns)
    entities: list[Entity] = []
    for index, (kind, large, small) in enumerate(labels):
        left = (index % columns) * (WIDE + GAP)
        bottom = (rows - 1 - index // columns) * (TALL + GAP)
        entities += _draw_label(job, Point(left, bottom), kind, large, small)
    return Drawing("labels", tuple(entities), Box(0.0, 0.0, columns * (WIDE + GAP) - GAP, rows * (TALL + GAP) - GAP))


def _draw_label(job: AirJob, at: Point, kind: str, large: str, small: str) -> list[Entity]:
    size, foot, pitch = (2.6, 11.0, 4.8) if kind == WRITTEN else (2.0, 9.5, 3.6)  # room for a pen
    coded, words = kind in CODED, take_words("labels", job.reader.language)
    room = WIDE - 8.0 - (CODE_MM + 4.0 if coded else 0.0)
    title = words("foot", title=job.project.title.title, revision=job.project.title.revision)
    lines = _break(small, size, room)
    foot += pitch * max(len(lines) - MOST_LINES, 0)
    return [
        Stroke(make_rectangle(at.x, at.y, WIDE, TALL), Pen.MARK),
        Words(at=Point(at.x + 4.0, at.y + TALL - 6.5), text=words(f"kind_{kind}"), size_mm=2.6, bold=True),
        Words(at=Point(at.x + 4.0, at.y + TALL - 17.0), text=large, size_mm=_fit(large, 6.0, room), bold=True),
        *(
            Words(at=Point(at.x + 4.0, at.y + foot - pitch * row), text=line, size_mm=size)
            for row, line in enumerate(lines)
        ),
        Words(at=Point(at.x + 4.0, at.y + 2.0), text=title, size_mm=_fit(title, 1.5, room), pen=Pen.MARK),
        *(_draw_code(job, words, Point(at.x + WIDE - CODE_MM - 4.0, at.y + (TALL - CODE_MM) / 2)) if coded else ()),
    ]


def _fit(text: str, size: float, room: float) -> float:
    wide = measure_words(text, size, bold=True)
    return size if wide <= room else size * room / wide


def _break(text: str, size: float, room: float) -> list[str]:
    if "\n" in text:
        return [line for part in text.split("\n") for line in _break(part, size, room)]  # what stands last is kept
    lines = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if measure_words(longer, size) <= room or not lines[-1]:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines[:MOST_LINES]


def _draw_code(job: AirJob, words: Phrases, at: Point) -> list[Entity]:
    """Return the code as black squares, runs of a row joined."""
    title = job.project.title
    size, runs = make_code(words("code", title=title.title[:60], revision=title.revision, digest=job.digest))
    cell = CODE_MM / size
    return [
        Fill(make_rectangle(at.x + start * cell, at.y + (size - 1 - row) * cell, count * cell, cell), 0.0)
        for row, start, count in runs
    ]


@functools.cache
def make_code(text: str) -> tuple[int, tuple[tuple[int, int, int], ...]]:
    """Return a QR code (ISO/IEC 18004; by the segno library): cells a side, and dark runs as row, start and count."""
    import segno

    matrix = [bytes(row) for row in segno.make(text, error="m", micro=False).matrix]
    runs = [
        (index, sum(len(part) for part in parts[:place]), len(part))
        for index, row in enumerate(matrix)
        for parts in [[bytes(group) for _, group in itertools.groupby(row)]]
        for place, part in enumerate(parts)
        if part[0]
    ]
    return len(matrix), tuple(runs)

"""The cover of a job that is not a whole shop's: its figures, what it holds, what is left out and what brings it."""

from __future__ import annotations

from typing import Any

from packet.job import AirJob, AnyJob, Job
from packet.pages.kit.kit import Kit
from packet.parts import PARTS, WHOLE
from packet.words.amounts import full
from packet.words.phrases import Phrases, take_words
from packet.work.left_out import tell_left_out

MOST_FIGURES = 5


def say_subject(job: AnyJob) -> str:
    """Return what the packet is about, beside its kind."""
    words = take_words("cover", job.reader.language)
    if isinstance(job, Job):
        return words("subject")
    parts = take_words("parts", job.reader.language)
    return parts("joined", parts=", ".join(parts(f"name_{part}") for part in PARTS if part in job.has))


def list_part_figures(job: AnyJob, words: Phrases) -> list[tuple[str, str]]:
    """Return the key figures as (number, words): how many openings, how long it takes, what it costs."""
    parts, figures = take_words("parts", job.reader.language), []
    if openings := len(job.design.ports):
        figures.append((str(openings), parts("figure_openings_one" if openings == 1 else "figure_openings_many")))
    if isinstance(job, AirJob):
        figures += list_air_figures(job, words)
    figures.append(tell_work(job, words))
    return figures + list_costs(job, words)


def list_air_figures(job: AirJob, words: Phrases) -> list[tuple[str, str]]:
    """Return what the machine worst off gets, and how hard the filters work."""
    sizing, reader = job.sizing, job.reader
    flow = sizing.get_alone(sizing.worst).get_machine(sizing.worst)
    needs = full(flow.needs_m3s, "flow_m3s", reader)
    return [
        (full(flow.flow.best, "flow_m3s", reader), words("figure_flow", machine=flow.machine, needs=needs)),
        (full(sizing.filters.face_speed_ms, "face_speed_ms", reader), words("figure_media")),
    ]


def tell_work(job: AnyJob, words: Phrases) -> tuple[str, str]:
    """Return the hours of work, and for how many people."""
    two = job.project.methods.helper
    hours = write_hours(job.plan.minutes_two if two else job.plan.minutes_one)
    return hours, words("figure_two" if two else "figure_one")


def write_hours(minutes: float) -> str:
    """Return a working time in hours, to the half hour."""
    hours = round(minutes / 30) / 2
    return f"{hours:g} h"


def list_costs(job: AnyJob, words: Phrases) -> list[tuple[str, str]]:
    """Return what is to be paid, where any price is known."""
    if job.bill.total <= 0:
        return []
    missing = len(job.bill.missing)
    key = "figure_buy" if not missing else "figure_buy_one" if missing == 1 else "figure_buy_many"
    return [(f"{job.bill.total:,.2f} {job.bill.money}", words(key, count=missing))]


def say_parts(job: AnyJob, words: Phrases) -> str:
    """Return what is made, one sentence a part."""
    parts = take_words("parts", job.reader.language)
    return " ".join(parts(f"made_{part}") for part in PARTS if part in job.has)


def list_left_out(job: AnyJob, kit: Kit) -> list[Any]:
    """Return what the file leaves out, and which of its keys would bring it; nothing where nothing is left out."""
    if job.has == WHOLE:
        return []
    parts = take_words("parts", kit.reader.language)
    return [
        kit.heading(parts("left_out"), 3),
        *kit.bullets(tell_left_out(job.has, job.keys, kit.reader.language), size=9.2),
    ]

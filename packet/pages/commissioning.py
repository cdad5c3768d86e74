"""Commissioning: leak hunt stage by stage, expected and measured readings at every gate, the clean baseline."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.gauges.cards import name_kind
from calc.measures.quantity import Reader, unit_name, write_amount
from calc.record.leak_hunt import ALLOWED_SHARE, LeakLimits, find_leak_limits
from calc.record.questions import Question, ask_about_test
from packet.log.names import name_fields
from packet.pages.flue import make_danger
from packet.pages.kit.form_blocks import label_blank, make_blank, make_short_row, make_stage_table, make_yes_no
from packet.words.phrases import Phrases, take_words
from packet.words.say import say

if TYPE_CHECKING:
    from collections.abc import Mapping

    from packet.job import Job
    from packet.pages.kit.kit import Kit

GATE_ROW_MM, NOTES_MM = 5.6, 13.0


def make_story(job: Job, kit: Kit) -> list[Any]:
    """Return the commissioning sheet, to fill on paper or on screen."""
    questions = ask_about_test(job.project)
    names = name_fields(questions)
    groups: dict[str, list[Question]] = {}
    for question in questions:
        groups.setdefault(question.group, []).append(question)
    limits = find_leak_limits(job.project, job.sizing, job.gauge)
    words, by = take_words("commissioning", job.reader.language), say_way(job)
    pressure_unit, speed_unit = unit_name("pressure_pa", job.reader), unit_name("speed_ms", job.reader)
    baseline = write_amount(job.sizing.at_gauge.reading.best, "pressure_pa", job.reader)
    return [
        kit.heading(words("title")),
        make_short_row(kit, groups["test"], names),
        kit.heading(words("before"), 2),
        kit.tick(words("before_look" if job.project.separator.kind != "none" else "before_look_no_separator")),
        kit.tick(words("before_cure")),
        *_tell_flue(job, kit, groups, names),
        kit.tick(words("before_run")),
        kit.heading(words("leaks"), 2),
        kit.text(words("leaks_how"), "small"),
        make_stage_table(kit, groups["leaks"], names, _list_passes(job, limits, words)),
        kit.text(_say_allowed(job, limits, words), "small"),
        kit.heading(words("gates" if job.project.has_gates else "gates_hose"), 2),
        kit.text(words(f"gates_how{by}", pressure_unit=pressure_unit, speed_unit=speed_unit), "small"),
        _tell_gates(job, kit, names, limits, words),
        kit.heading(words("baseline"), 2),
        kit.text(words(f"baseline_how{by}", machine=job.gauge.read_at, reading=baseline)),
        *_tell_baseline(kit, groups["baseline"], names, words),
    ]


def _tell_flue(job: Job, kit: Kit, groups: Mapping[str, list[Question]], names: Mapping[str, str]) -> list[Any]:
    """Return what stands before any run where the collector draws on a flue: the limit, and two lines to fill."""
    if not job.project.shop.draws_on_flue:
        return []
    words = take_words("commissioning", kit.reader.language)
    (spillage,) = groups["flue"]
    yes, no = make_yes_no(kit, spillage, names)
    labels = [label_blank(question, kit.reader) for question in groups["draught"]]
    blanks = [make_blank(kit, question, names, 34, GATE_ROW_MM) for question in groups["draught"]]
    head = [*labels, say(spillage.label, kit.reader), words("yes"), words("no")]
    return [
        *make_danger(job, kit, "first", "limit", "instrument"),
        kit.table([head, [*blanks, "", yes, no]], widths_mm=(44, 40, 38, 40, 10, 10), style="form", size=8.4),
    ]


def _list_passes(job: Job, limits: LeakLimits, words: Phrases) -> dict[str, str]:
    """Return the value that passes each stage of the leak hunt."""
    reading = write_small_pressure(limits.pass_pa, job.reader)
    finest = min(job.gauge.cards, key=lambda card: card.error_pa)
    on = say(name_kind(finest.instrument.kind), job.reader)
    key = "passes_blanked" if limits.is_told else "passes_blanked_coarse"
    blanked = words(key, reading=reading, gauge=on)
    return {
        "zero.before": words("passes_zero"),
        "leak.lamp": words("passes_lamp", ports=len(job.project.ports)),
        "leak.blanked": blanked,
        "leak.smoke": words("passes_smoke"),
        "leak.gates": (
            words("passes_gates", speed=write_amount(limits.gate_speed_ms, "speed_ms", job.reader))
            if job.project.has_gates
            else words("passes_gates_hose")
        ),
        "leak.cloth": words("passes_cloth"),
        "leak.beam": words("passes_beam"),
    }


def _say_allowed(job: Job, limits: LeakLimits, words: Phrases) -> str:
    """Say what share of the air the gauge's pass value stands for, and what is counted in the sizing."""
    reader = job.reader
    allowed = write_amount(ALLOWED_SHARE, "share", reader, digits=0)
    counted = write_amount(job.sizing.leakage.share, "share", reader, digits=1)
    if limits.pass_share is None:
        return words("allowed_untold", allowed=allowed, counted=counted)
    told = write_amount(limits.pass_share, "share", reader, digits=0)
    return words("allowed", told=told, machine=job.gauge.read_at, allowed=allowed, counted=counted)


def say_way(job: Job) -> str:
    """Return how the keys of words end: ``_hose`` where one hose is moved from machine to machine, else nothing."""
    return "" if job.project.has_gates else "_hose"


def write_small_pressure(pressure_pa: float, reader: Reader) -> str:
    """Return a pressure with one place more when it is small in inches of water."""
    small = 3 if reader.system == "inch" and abs(pressure_pa) < 24 else None
    return write_amount(pressure_pa, "pressure_pa", reader, digits=small)


def _tell_gates(job: Job, kit: Kit, names: Mapping[str, str], limits: LeakLimits, words: Phrases) -> Any:
    reader = job.reader
    columns = ("gate", "flow", "speed", "reading", "between", "gauge_blank", "speed_blank")
    rows: list[list[Any]] = [[words(f"column_{name}") for name in columns]]
    if not job.project.has_gates:
        rows[0][0] = words("column_gate_hose")
    asked = {question.key: question for question in ask_about_test(job.project)}
    for machine in job.project.machines:
        scenario = job.sizing.get_alone(machine.name)
        speed = next((d.speed.best for d in scenario.ducts if d.place == machine.name), None)
        low, high = (
            write_amount(p, "pressure_pa", reader, unit=False) for p in (scenario.reading.low, scenario.reading.high)
        )
        is_baseline = machine.name == job.gauge.read_at
        rows.append(
            [
                words("at_baseline", machine=machine.name) if is_baseline else machine.name,
                write_amount(scenario.get_machine(machine.name).flow.best, "flow_m3s", reader),
                "-" if speed is None else write_amount(speed, "speed_ms", reader),
                write_amount(scenario.reading.best, "pressure_pa", reader),
                words("between", low=low, high=high),
                make_blank(kit, asked[f"reading.{machine.name}"], names, 24, GATE_ROW_MM),
                make_blank(kit, asked[f"speed.{machine.name}"], names, 22, GATE_ROW_MM),
            ]
        )
    passes = write_small_pressure(limits.pass_pa, reader).split()[0]
    between = words("shut", reading=passes)
    unclosed = job.project.unclosed
    every = words("boards_on", machines=", ".join(unclosed)) if unclosed else words(f"all_shut{say_way(job)}")
    shut = [every, words("leaks_only"), "-", words("still_air"), between]
    rows.append([*shut, make_blank(kit, asked["shutoff.reading"], names, 24, GATE_ROW_MM), ""])
    return kit.table(rows, widths_mm=(38, 22, 24, 24, 26, 25, 23), style="form", align="lrrrrll")


def _tell_baseline(kit: Kit, questions: list[Question], names: Mapping[str, str], words: Phrases) -> list[Any]:
    reading, clean, notes = questions
    yes, no = make_yes_no(kit, clean, names)
    head = [label_blank(reading, kit.reader), say(clean.label, kit.reader), words("yes"), words("no")]
    return [
        kit.table(
            [head, [make_blank(kit, reading, names, 60), "", yes, no]],
            widths_mm=(80, 76, 13, 13), style="form", align="llcc",
        ),
        kit.keep([
            kit.text(say(notes.label, kit.reader), "small"),
            make_blank(kit, notes, names, kit.frame_width_mm, NOTES_MM),
        ]),
    ]  # fmt: skip

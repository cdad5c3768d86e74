"""Commissioning: leak hunt stage by stage, expected and measured readings at every gate, the clean baseline."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.gauges.leak_hunt import ALLOWED_SHARE, LeakLimits, find_leak_limits
from calc.measures.quantity import Reader, unit_name, write_amount
from calc.record.questions import Question, ask_about_test
from packet.pages.form_blocks import make_blank, make_short_row, make_stage_table, make_yes_no
from packet.record_names import name_fields

if TYPE_CHECKING:
    from collections.abc import Mapping

    from packet.job import Job
    from packet.pages.kit import Kit

BEFORE = (
    "Look through the ducts for tools and offcuts, and shut the separator bin tight. Nobody near the blower's outlet.",
    "Let sealant cure as its maker says before the first run. Hearing protection on.",
    "Run the blower ten minutes. Stop at once at a scrape, a smell of burning, or a panel that drums.",
)


def make_story(job: Job, kit: Kit) -> list[Any]:
    """Return the commissioning sheet, to fill on paper or on screen."""
    questions = ask_about_test(job.project)
    names = name_fields(questions)
    groups: dict[str, list[Question]] = {}
    for question in questions:
        groups.setdefault(question.group, []).append(question)
    limits = find_leak_limits(job.project, job.sizing, job.gauge)
    return [
        kit.heading("Commissioning"),
        make_short_row(kit, groups["test"], names),
        kit.heading("Before the first start", 2),
        *(kit.tick(line) for line in BEFORE),
        kit.heading("Leak hunt, in this order", 2),
        kit.text(
            "Do not go on to the next line while one says no. Mark the leak with chalk, seal it, test that line again. "
            "Keep flame away: no candle, no lighter near dust. Use a smoke stick or talc on a brush.", "small"
        ),
        make_stage_table(kit, groups["leaks"], names, _list_passes(job, limits)),
        kit.text(_say_allowed(job, limits), "small"),
        kit.heading("Gate by gate", 2),
        kit.text(
            f"Filters clean. One gate open at a time, all others shut, blower up to speed for a minute. Unit of the "
            f"blanks: "
            f"{unit_name('pressure_pa', job.reader)} and {unit_name('speed_ms', job.reader)}.", "small"
        ),
        _tell_gates(job, kit, names, limits),
        kit.heading("Write down the clean baseline", 2),
        kit.text(
            f"Filters clean or new, the {job.gauge.read_at} gate alone open, no other. This number is what CLEAN ME "
            f"is judged "
            f"against for years: mark it on the card with a pencil. Expected "
            f"{write_amount(job.sizing.at_gauge.reading.best, 'pressure_pa', job.reader)}."
        ),
        *_tell_baseline(kit, groups["baseline"], names),
        kit.heading("Dust in the air", 2),
        kit.text(
            "Room dark, a strong lamp held low across the running machine and across the box: look along the beam, "
            "not at the "
            "lamp. A steady plume at the hood is missed dust; a plume at the box or the clean-air outlet is a leak."
        ),
    ]  # fmt: skip


def _list_passes(job: Job, limits: LeakLimits) -> dict[str, str]:
    """Return the value that passes each stage of the leak hunt."""
    shut = f"{limits.sense} {write_small_pressure(limits.pass_pa, job.reader)} on the gauge"
    if not limits.is_told:
        shut += "; too coarse to pass by it alone: trust stage 3"
    speed = write_amount(limits.gate_speed_ms, "speed_ms", job.reader)
    return {
        "zero.before": "within half a small tick",
        "leak.lamp": f"0 points of light, {len(job.project.ports)} ports and every seam looked at",
        "leak.blanked": shut,
        "leak.smoke": "0 places where it moves, 5 seconds at each",
        "leak.gates": f"nothing felt; vane meter in the duct at most {speed}",
        "leak.cloth": "0 specks, at each filter",
    }


def _say_allowed(job: Job, limits: LeakLimits) -> str:
    """Say what share of the air the gauge's pass value stands for, and what is counted in the sizing."""
    reader = job.reader
    told = "more than the eye can tell" if limits.pass_share is None else (
        f"{write_amount(limits.pass_share, 'share', reader, digits=0)} of the air at {job.gauge.read_at}"
    )  # fmt: skip
    drawn = write_amount(job.sizing.leakage.share, "share", reader, digits=1)
    return (
        f"Stage 2 stands for a leak of {told}; {write_amount(ALLOWED_SHARE, 'share', reader, digits=0)} is allowed, "
        f"{drawn} is counted in the sizing. No timed pressure drop: filters let the box empty in less than a second."
    )


def write_small_pressure(pressure_pa: float, reader: Reader) -> str:
    """Return a pressure with one place more when it is small in inches of water."""
    small = 3 if reader.system == "inch" and abs(pressure_pa) < 24 else None
    return write_amount(pressure_pa, "pressure_pa", reader, digits=small)


def _tell_gates(job: Job, kit: Kit, names: Mapping[str, str], limits: LeakLimits) -> Any:
    reader = job.reader
    head = ["Gate open", "Flow expected", "Speed expected", "Gauge expected", "likely between", "Gauge", "Speed"]
    rows: list[list[Any]] = [head]
    asked = {question.key: question for question in ask_about_test(job.project)}
    for machine in job.project.machines:
        scenario = job.sizing.get_alone(machine.name)
        speed = next((d.speed.best for d in scenario.ducts if d.place == machine.name), None)
        low, high = (
            write_amount(p, "pressure_pa", reader, unit=False) for p in (scenario.reading.low, scenario.reading.high)
        )
        star = " (baseline)" if machine.name == job.gauge.read_at else ""
        rows.append(
            [
                machine.name + star,
                write_amount(scenario.get_machine(machine.name).flow.best, "flow_m3s", reader),
                "-" if speed is None else write_amount(speed, "speed_ms", reader),
                write_amount(scenario.reading.best, "pressure_pa", reader),
                f"{low} to {high}",
                make_blank(kit, asked[f"reading.{machine.name}"], names, 24),
                make_blank(kit, asked[f"speed.{machine.name}"], names, 22),
            ]
        )
    shut_off = write_amount(job.sizing.pressures.box_worst_pa, "pressure_pa", reader)
    near = "still air"
    between = f"{limits.sense} {write_small_pressure(limits.pass_pa, reader).split()[0]}"
    if job.gauge.side != "pressure":
        near = shut_off
    shut = ["every gate shut", "leaks only", "-", near, between]
    rows.append([*shut, make_blank(kit, asked["shutoff.reading"], names, 24), ""])
    return kit.table(rows, widths_mm=(38, 22, 24, 24, 26, 25, 23), style="form", align="lrrrrll")


def _tell_baseline(kit: Kit, questions: list[Question], names: Mapping[str, str]) -> list[Any]:
    reading, clean, notes = questions
    unit = unit_name("pressure_pa", kit.reader)
    yes, no = make_yes_no(kit, clean, names)
    head = [f"{reading.label} ({unit})", clean.label, "yes", "no"]
    return [
        kit.table(
            [head, [make_blank(kit, reading, names, 60), "", yes, no]],
            widths_mm=(80, 76, 13, 13), style="form", align="llcc",
        ),
        kit.keep([kit.text(notes.label, "small"), make_blank(kit, notes, names, kit.frame_width_mm)]),
    ]  # fmt: skip

"""Maintenance: what to do and how often, and the log of cleanings."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.measures.quantity import unit_name, write_amount
from calc.record.questions import LOG_ROWS, ask_about_log
from packet.pages.form_blocks import make_blank
from packet.pages.history import say_due
from packet.record_names import name_fields

if TYPE_CHECKING:
    from packet.job import Job
    from packet.pages.kit import Kit


PENCIL = "____ - __ - __"


def make_story(job: Job, kit: Kit) -> list[Any]:
    """Return the maintenance page with its log."""
    return [
        kit.heading("Maintenance"),
        _tell_rounds(job, kit),
        kit.signal("WARNING", [
            "Unplug or lock out the blower before you open anything.",
            "Clean filters outdoors, respirator and eye protection on, wind from behind. Fine wood dust harms lungs "
            "and burns.",
            "Gloves: cage seams and filter ends are sharp. Empty pails into a lidded metal bin outside.",
        ]),
        kit.heading("Log of cleanings", 2),
        kit.text(
            f"Gauge in {unit_name('pressure_pa', job.reader)}, read with the {job.gauge.read_at} gate alone open, "
            f"before and "
            "after each cleaning. When AFTER creeps up, the cloth is wearing out of reach: plan new filters.", "small"
        ),
        _tell_log(kit),
    ]  # fmt: skip


def _tell_rounds(job: Job, kit: Kit) -> Any:
    clean_me = job.sizing.filters.clean_me
    mark = write_amount(clean_me.reading_pa, "pressure_pa", job.reader)
    hours = "not reached in the hours computed"
    if clean_me.hours_later is not None:
        hours = f"about every {write_amount(clean_me.hours_later, 'time_h', job.reader)} of machines running"
    day = job.project.dust.hours_a_day
    days = "" if clean_me.hours_later is None or day <= 0 else f" ({clean_me.hours_later / day:.0f} working days)"
    due = {each.key: say_due(each) for each in job.review.due} if job.review else {}
    rows = [
        ["When", "Do", "Next due"],
        ["Each start", "Gauge on still air with the blower off. Separator bin less than three quarters full.", "-"],
        ["Each week", f"Read the gauge with the {job.gauge.read_at} gate alone open. Empty the catch pails before "
        f"dust nears the lid.", "-"],
        [f"At {mark}, {hours}{days}",
         "Clean: unscrew, carry outside, blow through from the clean side with low pressure from a hand's width, "
         "never the nozzle "
         "on the cloth. Empty the pail. Dry before it goes back. Check the gasket, screw on hand-tight.",
         due.get("clean", PENCIL)],
        ["Each half year", "Leak hunt with smoke. Screws and clips snug. Hoses for holes. Gauge liquid topped up, "
        "tube clean.", due.get("leaks", PENCIL)],
        ["Each year", "Lining fast, ports tight, wall or cart fixings sound, wiring looked at by who is licensed "
        "to. Measure one hood.", due.get("test", PENCIL)],
        ["After two cleanings that do not help", "New filters. Enter the new clean baseline.", "-"],
    ]  # fmt: skip
    return kit.table(rows, widths_mm=(44, 108, 30))


def _tell_log(kit: Kit) -> Any:
    rows: list[list[Any]] = [["Date", "Hours run", "Gauge before", "Gauge after", "By", "What was done"]]
    asked = ask_about_log()
    names = name_fields([question for row in asked for question in row])
    widths = (28, 22, 27, 27, 24, 54)
    for row in asked[:LOG_ROWS]:
        rows.append([make_blank(kit, question, names, width - 4) for question, width in zip(row, widths, strict=True)])
    return kit.table(rows, widths_mm=widths, style="form")

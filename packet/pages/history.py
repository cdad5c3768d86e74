"""What was built and how it has run since: design against as-built, readings and what they say, trend, all entries."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from calc.finding import Verdict
from calc.gauges.diagnosis import Diagnosed
from calc.gauges.leak_hunt import LeakFound
from calc.measures.quantity import to_reader, unit_name, write_amount
from calc.record.as_built import Compared
from calc.record.entries import Entry
from calc.record.questions import ask_about_test, list_questions
from calc.record.review import Resized, Review
from calc.record.trend import Due, Trend
from packet.draw.model import Drawing, Pen
from packet.draw.plots import Axis, Curve, Limit, Plot, Spot, draw_plot
from packet.pages.commissioning import write_small_pressure
from packet.pages.forms import name_field
from packet.say import say

if TYPE_CHECKING:
    from packet.job import Job
    from packet.pages.kit import Kit

SEEN = {
    "as expected": "as expected", "still": "nothing", "low": "too low", "loaded": "filters loading",
    "clean me": "clean now", "too high": "far too high", "high": "too high",
}  # fmt: skip
CLEANING = {"cleaning.hours": "hours run", "cleaning.before": "gauge before", "cleaning.after": "gauge after"}
VERDICTS = {Verdict.FITS: "as drawn", Verdict.TIGHT: "off a little", Verdict.DOES_NOT_FIT: "OFF"}


def make_story(job: Job, kit: Kit) -> list[Any]:
    """Return the history; nothing when there is no log yet."""
    if job.record is None or job.review is None or not job.record.entries:
        return []
    review = job.review
    story: list[Any] = [
        kit.heading("What was built, and how it has run", 2),
        kit.text(
            "From the as-built log beside the project file. Values are as written down; nothing in the log is ever "
            "changed."
        ),
    ]
    if review.strays:
        story.append(kit.signal("NOTICE", _say_strays(job, review)))
    if review.compared:
        story += [kit.heading("Drawn and built", 3), _tell_compared(kit, review.compared, job)]
    if review.resized:
        story += [
            kit.heading("Sized again with what was measured", 3),
            kit.text(
                "Each machine with its gate alone open and clean filters. Everything not measured is as drawn.", "small"
            ),
            _tell_resized(kit, review.resized, job),
        ]
    if review.diagnosed:
        story.append(kit.heading("What the gauge says", 3))
        for diagnosed in review.diagnosed:
            story.append(_tell_diagnosed(kit, diagnosed, job))
    if review.leaks:
        story += [kit.heading("With every gate shut", 3), *kit.bullets([_say_leak(leak, job) for leak in review.leaks])]
    story += _tell_trend(kit, review, job)
    return [*story, kit.heading("Every entry", 3), _tell_entries(kit, job)]


def _say_strays(job: Job, review: Review) -> str:
    revisions = sorted({entry.revision for entry in review.strays if entry.revision})
    others = f" ({', '.join(revisions)})" if revisions else ""
    return (
        f"{len(review.strays)} of {len(job.record.entries) if job.record else 0} entries were written on sheets of "
        f"another "
        f"state of the project file{others}. They are compared with the file as it is now, {job.digest}."
    )


def _tell_compared(kit: Kit, rows: tuple[Compared, ...], job: Job) -> Any:
    table: list[list[Any]] = [["What", "Drawn", "Built", "Off by", "May differ", "Verdict"]]
    for row in rows:
        kind = row.designed.kind
        if kind == "temperature_k":
            off, tolerance = (write_amount(v, "temperature_rise_k", job.reader) for v in (row.off, row.tolerance))
        else:
            off, tolerance = (write_amount(v, kind, job.reader) for v in (row.off, row.tolerance))
        table.append(
            [
                row.label,
                write_amount(row.designed.value, kind, job.reader),
                write_amount(row.built.value, kind, job.reader),
                _sign(off, row.off),
                tolerance,
                VERDICTS[row.verdict],
            ]
        )
    return kit.table(table, widths_mm=(66, 27, 27, 24, 20, 22), align="lrrrrl")


def _sign(written: str, off: float) -> str:
    """Return a difference with its sign; none for one that is written as nothing."""
    nothing = re.match(r"-?0(\.0+)?( |$|°)", written) is not None
    return written.lstrip("-") if nothing else f"+{written}" if off > 0 else written


def _tell_resized(kit: Kit, rows: tuple[Resized, ...], job: Job) -> Any:
    table: list[list[Any]] = [["Machine", "Needs", "Flow drawn", "Flow built", "Gauge drawn", "Gauge built"]]
    for row in rows:
        flows = (write_amount(q, "flow_m3s", job.reader) for q in (row.needs_m3s, row.drawn_m3s, row.built_m3s))
        short = " SHORT" if row.built_m3s < row.needs_m3s else ""
        needs, drawn, built = flows
        readings = [write_amount(p, "pressure_pa", job.reader) for p in (row.drawn_pa, row.built_pa)]
        table.append([row.gate, needs, drawn, built + short, *readings])
    return kit.table(table, widths_mm=(50, 25, 27, 32, 26, 26), align="lrrrrr")


def _tell_diagnosed(kit: Kit, diagnosed: Diagnosed, job: Job) -> Any:
    head = (
        f"{diagnosed.gate}, {diagnosed.date.isoformat()}: "
        f"{write_amount(diagnosed.measured_pa, 'pressure_pa', job.reader)}, {SEEN[diagnosed.seen]}"
    )
    why = [say(reason, job.reader) for reason in diagnosed.reasons]
    look = [f"Look for: {say(cause, job.reader)}" for cause in diagnosed.likely]
    return kit.keep([kit.text(head, "strong"), *kit.bullets([*why, *look])])


def _say_leak(leak: LeakFound, job: Job) -> str:
    """Say what a reading with the gates shut stands for."""
    measured, passes = (write_small_pressure(p, job.reader) for p in (leak.measured_pa, leak.limits.pass_pa))
    words = f"{leak.date.isoformat()}: {measured}; passes with {leak.limits.sense} {passes}. "
    if leak.share is not None and leak.verdict is not Verdict.FITS:
        words += f"That is a leak of about {write_amount(leak.share, 'share', job.reader, digits=0)} of the air. "
    if leak.share is None:
        words += "No leak gives that: a gate was open, or the filters were not clean. "
    return words + {Verdict.FITS: "Tight.", Verdict.TIGHT: "At the edge: hunt again."}.get(leak.verdict, "LEAKS.")


def _tell_trend(kit: Kit, review: Review, job: Job) -> list[Any]:
    trend = review.trend
    blocks: list[Any] = [kit.heading("Trend and what is due", 3)]
    if len(trend.points) >= 2:
        plot = draw_trend_plot(job, trend, kit.frame_width_mm)
        blocks.append(kit.drawing(plot, scale=1.0, caption=_say_trend(job, trend)))
    elif trend.points:
        blocks.append(kit.text("One reading makes no trend yet. Write down the gauge before and after each cleaning."))
    rows = [["What", "When", "Because"]]
    rows += [[due.what, say_due(due), due.why] for due in review.due]
    if trend.hours_left is not None:
        hours = write_amount(trend.hours_left, "time_h", job.reader)
        rows[1][1] += f", or after {hours} more of running"
    blocks.append(kit.table(rows, widths_mm=(50, 62, 70)))
    return blocks


def say_due(due: Due) -> str:
    """Say when something is due, with the band of the guess."""
    if due.date is None:
        return "not known"
    words = due.date.isoformat()
    if due.key != "clean" or (due.early is None and due.late is None):
        return words
    late = due.late.isoformat() if due.late else "twenty years on"
    return f"{words} ({due.early.isoformat() if due.early else '?'} to {late})"


def _say_trend(job: Job, trend: Trend) -> str:
    parts = [
        f"Gauge with the {job.sizing.gauge_at} gate alone open. Ring: after a cleaning or at a test; dot: "
        f"before a cleaning."
    ]
    if trend.climb_pa_day is not None:
        month = write_amount(30 * trend.climb_pa_day, "pressure_pa", job.reader)
        parts.append(f"It climbs {month} in thirty days.")
    if trend.next_early is not None:
        parts.append("Broken lines: the fastest, the mean and the slowest climb so far, the eye's error added.")
    if trend.creep_pa is not None and trend.creep_pa > 0:
        parts.append(
            f"After cleaning it is {write_amount(trend.creep_pa, 'pressure_pa', job.reader)} higher than at first."
        )
    return " ".join(parts)


def draw_trend_plot(job: Job, trend: Trend, width_mm: float, height_mm: float = 58.0) -> Drawing:
    """Return the readings by day since the first, the line to *clean me*, and the marks."""
    first = trend.points[0].date
    clean_me = job.sizing.filters.clean_me.reading_pa

    def shown(pressure: float) -> float:
        return to_reader(pressure, "pressure_pa", job.reader)

    def day(date: Any) -> float:
        return float((date - first).days)

    points = [(day(p.date), shown(p.pressure_pa), p.kind) for p in trend.points]
    last_day = max(x for x, _, _ in points)
    curves = [Curve(tuple((x, y) for x, y, _ in points))]
    limits = [Limit(shown(clean_me), "CLEAN ME", words_at=0.12)]
    if trend.next_date is not None and trend.last_pa is not None and trend.last_date is not None:
        end = day(trend.next_date)
        for date in (trend.next_early, trend.next_date, trend.next_late):
            if date is not None and day(date) <= 3 * max(end, 1.0):
                ahead = ((day(trend.last_date), shown(trend.last_pa)), (day(date), shown(clean_me)))
                curves.append(Curve(ahead, Pen.PLOT_BAND))
                last_day = max(last_day, day(date))
        limits.append(Limit(end, f"next cleaning {trend.next_date.isoformat()}", upright=True, words_at=0.1))
        last_day = max(last_day, end)
    top = max([shown(clean_me), *(y for _, y, _ in points)])
    unit = unit_name("pressure_pa", job.reader)
    plot = Plot(
        name="gauge over time",
        x=Axis(f"days since {first.isoformat()}", 0.0, max(last_day * 1.03, 1.0)),
        y=Axis(f"gauge [{unit}]", 0.0, 1.15 * top),
        curves=tuple(curves),
        spots=tuple(Spot(x, y, solid=kind == "before") for x, y, kind in points),
        limits=tuple(limits),
    )
    return draw_plot(plot, width_mm, height_mm)


def _tell_entries(kit: Kit, job: Job) -> Any:
    rows: list[list[Any]] = [["Date", "What", "By", "Revision, file", "Written down"]]
    assert job.record is not None
    labels = {question.key: question.label for question in list_questions(job.project)} | CLEANING | _label_holds(job)
    for entry in job.record.entries:
        values = "; ".join(f"{labels.get(key, key)} {answer.written}" for key, answer in entry.answers.items())
        values += _say_unanswered(job, entry)
        written = f"{values}. {entry.notes}" if values and entry.notes else values or entry.notes or "-"
        rows.append([entry.date.isoformat(), entry.kind, entry.by or "-", f"{entry.revision} {entry.digest}", written])
    return kit.table(rows, widths_mm=(21, 19, 24, 26, 92), size=7.6)


def _label_holds(job: Job) -> dict[str, str]:
    """Return the words of each step's hold points by the key they are recorded under."""
    steps = job.plan.steps if job.plan is not None else ()
    return {
        name_field(hold.field).replace("-", "."): f"{step.title}: {hold.what}" for step in steps for hold in step.holds
    }


def _say_unanswered(job: Job, entry: Entry) -> str:
    """Name the stages of a leak hunt that were neither passed nor failed; nothing when none was begun."""
    stages = [question for question in ask_about_test(job.project) if question.group == "leaks"]
    left = [question.label.split()[0] for question in stages if question.key not in entry.answers]
    if len(left) == len(stages) or not left or not any(key.startswith("leak.") for key in entry.answers):
        return ""
    return f"; not answered: stage {', '.join(left)} of the leak hunt"

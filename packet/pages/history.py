"""What was built and how it has run since: design against as-built, readings and what they say, trend, all entries."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from calc.finding import Verdict
from calc.measures.quantity import Reader, to_reader, unit_name, write_amount
from calc.record.as_built import Compared
from calc.record.diagnosis import Diagnosed
from calc.record.draught import DraughtFound
from calc.record.entries import Entry
from calc.record.leak_hunt import LeakFound
from calc.record.questions import ask_about_test, list_questions, split_key
from calc.record.review import Resized, Review
from calc.record.trend import Due, Trend
from packet.draw.model import Drawing, Pen
from packet.draw.views.plots import Axis, Curve, LimitLine, Plot, PlotSpot, draw_plot
from packet.log.names import key_hold
from packet.pages.commissioning import write_small_pressure
from packet.words.phrases import Phrases, take_words
from packet.words.say import say

if TYPE_CHECKING:
    from packet.job import Job
    from packet.pages.kit.kit import Kit


def make_story(job: Job, kit: Kit) -> list[Any]:
    """Return the history; nothing when there is no log yet."""
    if job.record is None or job.review is None or not job.record.entries:
        return []
    review, words = job.review, take_words("history", job.reader.language)
    story: list[Any] = [
        kit.heading(words("title"), 2),
        kit.text(words("lead")),
    ]
    if review.strays:
        story.append(kit.signal("NOTICE", _say_strays(job, review, words)))
    if review.compared:
        story += [kit.heading(words("compared"), 3), _tell_compared(kit, review.compared, words)]
    if review.resized:
        story += [
            kit.heading(words("resized"), 3),
            kit.text(words("resized_how"), "small"),
            _tell_resized(kit, review.resized, words),
        ]
    if review.diagnosed:
        story.append(kit.heading(words("diagnosed"), 3))
        for diagnosed in review.diagnosed:
            story.append(_tell_diagnosed(kit, diagnosed, words))
    if review.draughts:
        draughts = [_say_draught(draught, job.reader, words) for draught in review.draughts]
        story += [kit.heading(words("draughts"), 3), *kit.bullets(draughts)]
    if review.leaks:
        leaks = [_say_leak(leak, job.reader, words) for leak in review.leaks]
        story += [kit.heading(words("leaks"), 3), *kit.bullets(leaks)]
    story += _tell_trend(kit, review, job, words)
    return [*story, kit.heading(words("entries"), 3), _tell_entries(kit, job, words)]


def _say_strays(job: Job, review: Review, words: Phrases) -> str:
    revisions = ", ".join(sorted({entry.revision for entry in review.strays if entry.revision}))
    count = {"strays": len(review.strays), "entries": len(job.record.entries) if job.record else 0}
    if not revisions:
        return words("strays", **count, digest=job.digest)
    return words("strays_of", **count, digest=job.digest, revisions=revisions)


def _tell_compared(kit: Kit, rows: tuple[Compared, ...], words: Phrases) -> Any:
    columns = ("what", "drawn", "built", "off", "may_differ", "verdict")
    table: list[list[Any]] = [[words(f"column_{name}") for name in columns]]
    for row in rows:
        kind = row.designed.kind
        if kind == "temperature_k":
            off, tolerance = (write_amount(v, "temperature_rise_k", kit.reader) for v in (row.off, row.tolerance))
        else:
            off, tolerance = (write_amount(v, kind, kit.reader) for v in (row.off, row.tolerance))
        table.append(
            [
                say(row.label, kit.reader),
                write_amount(row.designed.value, kind, kit.reader),
                write_amount(row.built.value, kind, kit.reader),
                _sign(off, row.off),
                tolerance,
                words(f"verdict_{_spell(row.verdict)}"),
            ]
        )
    return kit.table(table, widths_mm=(66, 27, 27, 24, 20, 22), align="lrrrrl")


def _sign(written: str, off: float) -> str:
    """Return a difference with its sign; none for one that is written as nothing."""
    nothing = re.match(r"-?0(\.0+)?( |$|°)", written) is not None
    return written.lstrip("-") if nothing else f"+{written}" if off > 0 else written


def _tell_resized(kit: Kit, rows: tuple[Resized, ...], words: Phrases) -> Any:
    columns = ("machine", "needs", "flow_drawn", "flow_built", "gauge_drawn", "gauge_built")
    table: list[list[Any]] = [[words(f"column_{name}") for name in columns]]
    for row in rows:
        flows = (write_amount(q, "flow_m3s", kit.reader) for q in (row.needs_m3s, row.drawn_m3s, row.built_m3s))
        needs, drawn, built = flows
        if row.built_m3s < row.needs_m3s:
            built = words("short", flow=built)
        readings = [write_amount(p, "pressure_pa", kit.reader) for p in (row.drawn_pa, row.built_pa)]
        table.append([row.gate, needs, drawn, built, *readings])
    return kit.table(table, widths_mm=(50, 25, 27, 32, 26, 26), align="lrrrrr")


def _tell_diagnosed(kit: Kit, diagnosed: Diagnosed, words: Phrases) -> Any:
    reading, seen = (
        write_amount(diagnosed.measured_pa, "pressure_pa", kit.reader),
        words(f"seen_{_spell(diagnosed.seen)}"),
    )
    head = words("diagnosed_head", gate=diagnosed.gate, date=diagnosed.date.isoformat(), reading=reading, seen=seen)
    why = [say(reason, kit.reader) for reason in diagnosed.reasons]
    look = [words("look_for", cause=say(cause, kit.reader)) for cause in diagnosed.likely]
    return kit.keep([kit.text(head, "strong"), *kit.bullets([*why, *look])])


def _spell(name: str) -> str:
    """Return a name as keys of phrases are spelt."""
    return name.replace(" ", "_")


def _say_draught(found: DraughtFound, reader: Reader, words: Phrases) -> str:
    """Say how far the room fell, and what that means."""
    reading, most = (write_amount(p, "draught_pa", reader) for p in (found.measured_pa, found.most_pa))
    key = "draught_fits" if found.verdict is Verdict.FITS else "draught_stop"
    return words(key, date=found.date.isoformat(), reading=reading, most=most)


def _say_leak(leak: LeakFound, reader: Reader, words: Phrases) -> str:
    """Say what a reading with the gates shut stands for."""
    reading, passes = (write_small_pressure(p, reader) for p in (leak.measured_pa, leak.limits.pass_pa))
    date = leak.date.isoformat()
    said = [words("shut", date=date, reading=reading, **{"pass": passes})]
    if leak.share is None:
        said.append(words("leak_none"))
    elif leak.verdict is not Verdict.FITS:
        said.append(words("leak_share", share=write_amount(leak.share, "share", reader, digits=0)))
    return " ".join([*said, words(f"found_{_spell(leak.verdict)}")])


def _tell_trend(kit: Kit, review: Review, job: Job, words: Phrases) -> list[Any]:
    trend = review.trend
    blocks: list[Any] = [kit.heading(words("trend"), 3)]
    if len(trend.points) >= 2:
        plot = draw_trend_plot(job, trend, kit.frame_width_mm)
        blocks.append(kit.drawing(plot, scale=1.0, caption=_say_trend(job, trend, words)))
    elif trend.points:
        blocks.append(kit.text(words("one_reading")))
    rows = [[words("column_what"), words("column_when"), words("column_because")]]
    rows += [[say(due.what, job.reader), say_due(due, job.reader), say(due.why, job.reader)] for due in review.due]
    if trend.hours_left is not None:
        hours = write_amount(trend.hours_left, "time_h", job.reader)
        rows[1][1] = words("due_or_hours", due=rows[1][1], hours=hours)
    blocks.append(kit.table(rows, widths_mm=(50, 62, 70)))
    return blocks


def say_due(due: Due, reader: Reader) -> str:
    """Say when something is due, with the band of the guess."""
    words = take_words("history", reader.language)
    if due.date is None:
        return words("due_unknown")
    date = due.date.isoformat()
    if due.key != "clean" or (due.early is None and due.late is None):
        return date
    early = due.early.isoformat() if due.early else words("due_early_unknown")
    late = due.late.isoformat() if due.late else words("due_late_far")
    return words("due_guess" if due.guess else "due_between", date=date, early=early, late=late)


def _say_trend(job: Job, trend: Trend, words: Phrases) -> str:
    parts = [words("trend_key", machine=job.sizing.gauge_at)]
    if trend.climb_pa_day is not None:
        parts.append(words("trend_climb", climb=write_amount(30 * trend.climb_pa_day, "pressure_pa", job.reader)))
    if trend.next_early is not None:
        parts.append(words("trend_band_one") if trend.climbs == 1 else words("trend_band", count=trend.climbs))
        if trend.rests_on_few:
            parts.append(words("trend_few"))
    if trend.creep_pa is not None and trend.creep_pa > 0:
        parts.append(words("trend_creep", creep=write_amount(trend.creep_pa, "pressure_pa", job.reader)))
    return " ".join(parts)


def draw_trend_plot(job: Job, trend: Trend, width_mm: float, height_mm: float = 58.0) -> Drawing:
    """Return the readings by day since the first, the line to *clean me*, and the marks."""
    first, words = trend.points[0].date, take_words("history", job.reader.language)
    clean_me = job.gauge.clean_me_pa

    def shown(pressure: float) -> float:
        return to_reader(pressure, "pressure_pa", job.reader)

    def day(date: Any) -> float:
        return float((date - first).days)

    points = [(day(p.date), shown(p.pressure_pa), p.kind) for p in trend.points]
    last_day = max(x for x, _, _ in points)
    curves = [Curve(tuple((x, y) for x, y, _ in points))]
    limits = [LimitLine(shown(clean_me), words("plot_clean_me"), words_at=0.12)]
    if trend.next_date is not None and trend.last_pa is not None and trend.last_date is not None:
        end = day(trend.next_date)
        for date in (trend.next_early, trend.next_date, trend.next_late):
            if date is not None and day(date) <= 3 * max(end, 1.0):
                ahead = ((day(trend.last_date), shown(trend.last_pa)), (day(date), shown(clean_me)))
                curves.append(Curve(ahead, Pen.PLOT_BAND))
                last_day = max(last_day, day(date))
        due = words("plot_next", date=trend.next_date.isoformat())
        limits.append(LimitLine(end, due, upright=True, words_at=0.1))
        last_day = max(last_day, end)
    top = max([shown(clean_me), *(y for _, y, _ in points)])
    unit = unit_name("pressure_pa", job.reader)
    plot = Plot(
        name="gauge over time",
        x=Axis(words("plot_days", date=first.isoformat()), 0.0, max(last_day * 1.03, 1.0)),
        y=Axis(words("plot_gauge", unit=unit), 0.0, 1.15 * top),
        curves=tuple(curves),
        spots=tuple(PlotSpot(x=x, y=y, solid=kind == "before") for x, y, kind in points),
        limits=tuple(limits),
    )
    return draw_plot(plot, width_mm, height_mm)


def _tell_entries(kit: Kit, job: Job, words: Phrases) -> Any:
    columns = ("date", "what", "by", "packet", "written")
    rows: list[list[Any]] = [[words(f"column_{name}") for name in columns]]
    assert job.record is not None
    labels = {question.key: say(question.label, job.reader) for question in list_questions(job.project)}
    labels |= {
        "cleaning.hours": words("hours_run"),
        "cleaning.before": words("gauge_before"),
        "cleaning.after": words("gauge_after"),
        **_label_holds(job, words),
    }
    for entry in job.record.entries:
        answers = [
            words("answer", label=labels.get(key, key), written=answer.written) for key, answer in entry.answers.items()
        ]
        values = "; ".join([*answers, *_list_unanswered(job, entry, words)])
        written = f"{values}. {entry.notes}" if values and entry.notes else values or entry.notes or "-"
        kind = words(f"entry_{_spell(entry.kind)}")
        rows.append([entry.date.isoformat(), kind, entry.by or "-", f"{entry.revision} {entry.digest}", written])
    return kit.table(rows, widths_mm=(21, 19, 24, 26, 92), size=7.6)


def _label_holds(job: Job, words: Phrases) -> dict[str, str]:
    """Return the words of each step's hold points by the key they are recorded under."""
    steps = job.plan.steps if job.plan is not None else ()
    return {
        key_hold(hold.field): words("hold", step=step.title, what=hold.what) for step in steps for hold in step.holds
    }


def _list_unanswered(job: Job, entry: Entry, words: Phrases) -> list[str]:
    """Name the stages of a leak hunt that were neither passed nor failed; nothing when none was begun."""
    stages = [question for question in ask_about_test(job.project) if question.group == "leaks"]
    left = [question.stage for question in stages if question.key not in entry.answers]
    if len(left) == len(stages) or not left or not any(split_key(key)[0] == "leak" for key in entry.answers):
        return []
    return [words("unanswered", stages=", ".join(left))]

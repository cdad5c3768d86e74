"""Maintenance: what to do and how often, and the log of cleanings."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.guess import round_as_said
from calc.measures.quantity import unit_name, write_amount
from calc.record.questions import LOG_ROWS, ask_about_log
from packet.job import AirJob, GaugeJob
from packet.log.names import name_fields
from packet.pages.flue import make_danger, say_flue
from packet.pages.gauge_sheets import name_way
from packet.pages.history import say_due
from packet.pages.kit.form_blocks import make_blank
from packet.words.amounts import full_band
from packet.words.catching import say_level, say_often
from packet.words.phrases import Phrases, take_words
from packet.words.safe_work import BLOW_AT_MOST

if TYPE_CHECKING:
    from packet.pages.kit.kit import Kit

LOG_ROW_MM = 6.8


def make_story(job: GaugeJob, kit: Kit) -> list[Any]:
    """Return the maintenance page with its log."""
    words = take_words("maintenance", job.reader.language)
    unit = unit_name("pressure_pa", job.reader)
    return [
        kit.heading(words("title")),
        _tell_rounds(job, kit, words),
        *(make_danger(job, kit, "limit", "alarm") if isinstance(job, AirJob) else []),
        kit.signal("WARNING", [words("warning_lock"), words("warning_outdoors"), words("warning_gloves")]),
        kit.heading(words("log"), 2),
        kit.text(words(f"log_how{name_way(job)}", unit=unit, machine=job.gauge.read_at), "small"),
        _tell_log(kit, words),
    ]


def _tell_rounds(job: GaugeJob, kit: Kit, words: Phrases) -> Any:
    sized, reader = job if isinstance(job, AirJob) else None, job.reader
    catching = sized.sizing.filters.catching if sized else ()
    level = say_level(catching[0].level, reader) if catching else ""
    due = {each.key: say_due(each, job.reader) for each in job.review.due} if job.review else {}
    pencil, box = words("pencil"), job.project.box
    separator = job.project.separator
    bare = "" if separator is not None and separator.kind != "none" else "_no_separator"
    year = "do_year" if job.project.lining else "do_year_bare"
    rows = [
        [words("column_when"), words("column_do"), words("column_due")],
        [words("when_start"), words(f"do_start{bare}", level=level), "-"],
        [
            words("when_week"),
            words(f"do_week{name_way(job)}", machine=job.gauge.read_at),
            "-",
        ],
        [words(f"when_pails{bare}"), words("do_pails"), "-"],
        *(
            [[words("when_catching", level=level), words("do_catching", often=say_often(catching, reader)), "-"]]
            if catching
            else []
        ),
        [words("when_first_look"), _say_first_look(job, words), pencil],
        [_say_when(job, words), words("do_clean", blow=BLOW_AT_MOST[job.reader.system]), due.get("clean", pencil)],
        [words("when_half_year"), words("do_half_year"), due.get("leaks", pencil)],
        [
            words("when_year"),
            words(year, fixings=words(f"fixings_{box.hung}")) if box else words("do_year_alone"),
            due.get("test", pencil),
        ],
        [words("when_worn"), words("do_worn"), "-"],
    ]
    if sized is not None and sized.project.shop.draws_on_flue:
        rows.insert(1, [words("when_day"), say_flue(sized, "each_day"), "-"])
        rows.insert(-1, [words("when_flue"), say_flue(sized, "test_again"), pencil])
    return kit.table(rows, widths_mm=(44, 108, 30))


def _say_first_look(job: GaugeJob, words: Phrases) -> str:
    return words("do_first_look", lining=words("first_look_lining") if job.project.lining else "")


def _say_when(job: GaugeJob, words: Phrases) -> str:
    """Say at which reading to clean, and how often that is; the hours alone where the gauge cannot be read."""
    if not isinstance(job, AirJob):
        return words("when_clean_read", reading=write_amount(job.gauge.clean_me_pa, "pressure_pa", job.reader))
    later, day = job.sizing.filters.clean_me.hours_later, job.project.dust.hours_a_day
    assert job.gauge is not None
    mark = write_amount(job.gauge.clean_me_pa, "pressure_pa", job.reader)
    if later is None:
        return words("when_clean_never", reading=mark)
    way = "when_clean" if job.gauge.signal == "gauge" else "when_hours"
    said = {"reading": mark, "hours": full_band(later, "time_h", job.reader)}
    if day <= 0:
        return words(way, **said)
    return words(f"{way}_days", **said, days=f"{round_as_said(later.best / day):.3g}")


def _tell_log(kit: Kit, words: Phrases) -> Any:
    columns = ("date", "hours", "before", "after", "by", "done")
    rows: list[list[Any]] = [[words(f"column_{name}") for name in columns]]
    asked = ask_about_log()
    names = name_fields([question for row in asked for question in row])
    widths = (28, 22, 27, 27, 24, 54)
    for row in asked[:LOG_ROWS]:
        rows.append(
            [
                make_blank(kit, question, names, width - 4, LOG_ROW_MM)
                for question, width in zip(row, widths, strict=True)
            ]
        )
    return kit.table(rows, widths_mm=widths, style="form")

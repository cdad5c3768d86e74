"""The filters: what they cost clean, how they load, and the moment to clean them."""

from __future__ import annotations

from typing import Any

from calc.measures.quantity import to_reader
from packet.draw.model import Drawing, Pen
from packet.draw.views.plots import Axis, Curve, LimitLine, Plot, PlotSpot, draw_plot
from packet.job import AirJob
from packet.pages.kit.kit import Kit
from packet.words.amounts import axis, bare, full, full_band, head
from packet.words.catching import say_catching, say_level
from packet.words.phrases import Phrases, take_words
from packet.words.say import say


def make_blocks(job: AirJob, kit: Kit) -> list[Any]:
    """Return the facts of the filters, the two loading curves and the *clean me* sentence."""
    filters, reader, words = job.sizing.filters, kit.reader, take_words("report_filters", kit.reader.language)
    clean = filters.clean_me
    blocks: list[Any] = [kit.heading(words("title"), 2)]
    first, later = (
        words("hours_never") if hours is None else full_band(hours, "time_h", reader)
        for hours in (clean.hours_first, clean.hours_later)
    )
    why = say(clean.why, reader).rstrip(".")
    if clean.criterion == "never":
        blocks.append(kit.text(words("never", why=why), "strong"))
    else:
        marked, tells = (job.gauge.clean_me_pa, job.gauge.signal == "gauge") if job.gauge else (clean.reading_pa, True)
        reading = full(marked, "pressure_pa", reader)
        key = "clean" if job.project.has_gates else "clean_hose"
        if tells:
            blocks.append(kit.text(words(key, reading=reading, machine=clean.read_at), "strong"))
        else:
            blocks.append(kit.text(words("clean_by_hours", hours=later), "strong"))
        blocks.append(kit.text(words("clean_why", why=why, first=first, later=later)))
    if len(filters.loading) > 1:
        blocks.append(
            kit.columns(
                [
                    [kit.drawing(draw_reading(job, words), scale=1.0, caption=words("reading_caption"))],
                    [
                        kit.drawing(
                            draw_flow(job, words), scale=1.0, caption=words("flow_caption", machine=clean.read_at)
                        )
                    ],
                ],
                (95.0, 87.0),
            )
        )
    facts = [
        [words("media"), full(filters.media_m2, "area_m2", reader)],
        [
            words("face_speed", gates=filters.at_scenario),
            full(filters.face_speed_ms, "face_speed_ms", reader),
        ],
        [words("clean_loss"), full_band(filters.clean_loss, "pressure_pa", reader)],
        [words("dust" if job.project.box else "dust_alone"), full_band(filters.dust_kgs, "mass_rate_kgs", reader)],
        [words("pleats"), full_band(filters.pleats_kgs, "mass_rate_kgs", reader)],
        [words("load"), full_band(clean.areal, "areal_mass_kgm2", reader)],
        [words("captures"), full(filters.captures, "share", reader)],
    ]
    if filters.cut_size_m is not None:
        facts.append([words("cut_size"), f"{filters.cut_size_m * 1e6:.1f} µm"])
    if filters.captures_assumed and filters.cake_assumed:
        facts.append([words("assumed_both"), words("assumed_so")])
    elif filters.captures_assumed or filters.cake_assumed:
        facts.append([words("assumed_capture" if filters.captures_assumed else "assumed_cake"), words("assumed_so")])
    half = -(-len(facts) // 2)
    facts += [["", ""]] * (2 * half - len(facts))
    rows = [[words("facts"), "", "", ""], *([*a, *b] for a, b in zip(facts[:half], facts[half:], strict=True))]
    left = kit.table(rows, (62, 34, 54, 32), align="lrlr", size=8.6)
    blocks.append(left)
    if len(filters.shares) > 1:
        blocks.append(_table_shares(job, kit, words))
    return [*blocks, _table_catching(job, kit, words)]


def _table_catching(job: AirJob, kit: Kit, words: Phrases) -> Any:
    """Return pails and bin: what each holds, and when it is to be emptied."""
    reader = kit.reader
    what = "pails_what" if job.project.ports else "pails_none"
    rows = [[words(what), *(words(f"pails_{name}") for name in ("holds", "level", "dust", "hours"))]]
    for each in job.sizing.filters.catching:
        hours = words("hours_never") if each.hours is None else full_band(each.hours, "time_h", reader)
        holds = full(each.volume_m3, "volume_m3", reader)
        rows.append(
            [
                say_catching(each, reader),
                words("catching_assumed" if each.assumed else "catching_known", volume=holds),
                say_level(each.level, reader),
                full(each.dust_kg, "mass_kg", reader),
                hours,
            ]
        )
    return kit.table(rows, align="lrlrr", size=8.6, width_mm=182)


def _table_shares(job: AirJob, kit: Kit, words: Phrases) -> Any:
    reader = kit.reader
    rows = [
        [
            words("share_filter"),
            words("share_count"),
            head(words("share_flow"), "flow_m3s", reader),
            head(words("share_face_speed"), "face_speed_ms", reader),
        ]
    ]
    rows += [
        [
            s.name,
            str(s.count),
            bare(s.flow_each_m3s, "flow_m3s", reader),
            bare(s.face_speed_ms, "face_speed_ms", reader),
        ]
        for s in job.sizing.filters.shares
    ]
    return kit.table(rows, align="lrrr", size=8.6, width_mm=120)


def draw_reading(job: AirJob, words: Phrases) -> Drawing:
    """Return the gauge reading against hours of machines running, with the *clean me* point."""
    filters, reader = job.sizing.filters, job.reader
    points = tuple((p.hours, to_reader(p.reading_pa, "pressure_pa", reader)) for p in filters.loading)
    clean = filters.clean_me
    spots: tuple[PlotSpot, ...] = ()
    limits: tuple[LimitLine, ...] = ()
    if clean.hours_first is not None:
        y = to_reader(clean.reading_pa, "pressure_pa", reader)
        spots = (PlotSpot(x=_find_clean_hour(job), y=y, words=words("clean_me")),)
        limits = (LimitLine(y, full(clean.reading_pa, "pressure_pa", reader), words_at=0.0),)
    plot = Plot(
        name="gauge reading while loading",
        x=Axis(words("axis_hours"), 0.0, _last_hour(job)),
        y=Axis(axis(words("axis_gauge"), "pressure_pa", reader), 0.0, max(y for _, y in points)),
        curves=(Curve(points, Pen.PLOT),),
        spots=spots,
        limits=limits,
    )
    return draw_plot(plot, 87.0, 44.0)


def draw_flow(job: AirJob, words: Phrases) -> Drawing:
    """Return the flow at the gauge's gate against hours of machines running, with the *clean me* point."""
    filters, reader = job.sizing.filters, job.reader
    points = tuple((p.hours, to_reader(p.flow_m3s, "flow_m3s", reader)) for p in filters.loading)
    clean = filters.clean_me
    spots: tuple[PlotSpot, ...] = ()
    needs = job.project.get_machine(clean.read_at).needs_m3s
    limits = (LimitLine(to_reader(needs, "flow_m3s", reader), words("needs", machine=clean.read_at), words_at=0.0),)
    if clean.hours_first is not None:
        spots = (
            PlotSpot(
                x=_find_clean_hour(job),
                y=to_reader(clean.flow_m3s, "flow_m3s", reader),
                words=words("clean_me"),
                above=True,
            ),
        )
    plot = Plot(
        name="flow while loading",
        x=Axis(words("axis_hours"), 0.0, _last_hour(job)),
        y=Axis(axis(words("axis_flow"), "flow_m3s", reader), 0.0, max(y for _, y in points)),
        curves=(Curve(points, Pen.PLOT),),
        spots=spots,
        limits=limits,
    )
    return draw_plot(plot, 87.0, 44.0)


def _last_hour(job: AirJob) -> float:
    """Return where the hours end on the axis: past *clean me*, not out where nothing happens any more."""
    loading = job.sizing.filters.loading
    last = max(p.hours for p in loading)
    return max(min(last, 1.6 * _find_clean_hour(job)), 1e-6)


def _find_clean_hour(job: AirJob) -> float:
    """Return the hour at which the curve as drawn has the load of *clean me*, not rounded."""
    filters = job.sizing.filters
    return min(filters.loading, key=lambda point: abs(point.areal_kgm2 - filters.clean_me.areal_kgm2)).hours

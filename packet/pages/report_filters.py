"""The filters: what they cost clean, how they load, and the moment to clean them."""

from __future__ import annotations

from typing import Any

from calc.measures.quantity import to_reader
from packet.draw.model import Drawing, Pen
from packet.draw.plots import Axis, Curve, Limit, Plot, Spot, draw_plot
from packet.job import Job
from packet.pages.amounts import axis, bare, full, full_band, head
from packet.pages.kit import Kit
from packet.pages.report_findings import begin_large
from packet.say import say


def make_blocks(job: Job, kit: Kit) -> list[Any]:
    """Return the facts of the filters, the two loading curves and the *clean me* sentence."""
    filters, reader = job.sizing.filters, kit.reader
    clean = filters.clean_me
    blocks: list[Any] = [kit.heading("Filters and when to clean them", 2)]
    first = "never" if clean.hours_first is None else full(clean.hours_first, "time_h", reader)
    later = "never" if clean.hours_later is None else full(clean.hours_later, "time_h", reader)
    blocks.append(kit.text(begin_large(say(clean.why, reader).rstrip(".")) + ".", "strong"))
    blocks.append(
        kit.text(
            f"Clean when the gauge shows {full(clean.reading_pa, 'pressure_pa', reader)} with only the gate of "
            f"{clean.read_at} open. From new: after {first} of machines running; after that every {later}, as some "
            "dust stays in the media after cleaning."
        )
    )
    if len(filters.loading) > 1:
        blocks.append(
            kit.columns(
                [
                    [kit.drawing(draw_reading(job), scale=1.0, caption="Gauge reading as the filters load.")],
                    [kit.drawing(draw_flow(job), scale=1.0, caption=f"Flow at {clean.read_at} meanwhile.")],
                ],
                (95.0, 87.0),
            )
        )
    assumed = [
        w for w, yes in (("capture", filters.captures_assumed), ("cake resistance", filters.cake_assumed)) if yes
    ]
    facts = [
        ["Media area, all filters", full(filters.media_m2, "area_m2", reader)],
        [
            f"Air to media at the highest flow ({filters.at_scenario})",
            full(filters.face_speed_ms, "face_speed_ms", reader),
        ],
        ["Loss when clean, opening and bore included", full_band(filters.clean_loss, "pressure_pa", reader)],
        ["Dust that reaches the filters", full(filters.dust_kgs, "mass_rate_kgs", reader)],
        ["Caught before them", full(filters.captures, "share", reader)],
    ]
    if filters.cut_size_m is not None:
        facts.append(["Cyclone catches half of particles this size", f"{filters.cut_size_m * 1e6:.1f} µm"])
    if assumed:
        facts.append([f"Assumed, not measured: {' and '.join(assumed)}", "hours are a guide only"])
    half = -(-len(facts) // 2)
    facts += [["", ""]] * (2 * half - len(facts))
    rows = [["Filters", "", "", ""], *([*a, *b] for a, b in zip(facts[:half], facts[half:], strict=True))]
    left = kit.table(rows, (58, 34, 58, 32), align="lrlr", size=8.6)
    if len(filters.shares) > 1:
        blocks += [left, _table_shares(job, kit)]
    else:
        blocks.append(left)
    return blocks


def _table_shares(job: Job, kit: Kit) -> Any:
    reader = kit.reader
    rows = [
        ["Filter", "How many", head("Flow of each", "flow_m3s", reader), head("Air to media", "face_speed_ms", reader)]
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


def draw_reading(job: Job) -> Drawing:
    """Return the gauge reading against hours of machines running, with the *clean me* point."""
    filters, reader = job.sizing.filters, job.reader
    points = tuple((p.hours, to_reader(p.reading_pa, "pressure_pa", reader)) for p in filters.loading)
    clean = filters.clean_me
    spots: tuple[Spot, ...] = ()
    limits: tuple[Limit, ...] = ()
    if clean.hours_first is not None:
        y = to_reader(clean.reading_pa, "pressure_pa", reader)
        spots = (Spot(clean.hours_first, y, "clean me"),)
        limits = (Limit(y, full(clean.reading_pa, "pressure_pa", reader), words_at=0.0),)
    plot = Plot(
        "gauge reading while loading",
        Axis("hours of machines running", 0.0, _last_hour(job)),
        Axis(axis("gauge", "pressure_pa", reader), 0.0, max(y for _, y in points)),
        (Curve(points, Pen.PLOT),),
        spots=spots,
        limits=limits,
    )
    return draw_plot(plot, 87.0, 44.0)


def draw_flow(job: Job) -> Drawing:
    """Return the flow at the gauge's gate against hours of machines running, with the *clean me* point."""
    filters, reader = job.sizing.filters, job.reader
    points = tuple((p.hours, to_reader(p.flow_m3s, "flow_m3s", reader)) for p in filters.loading)
    clean = filters.clean_me
    spots: tuple[Spot, ...] = ()
    needs = job.project.get_machine(clean.read_at).needs_m3s
    limits = (Limit(to_reader(needs, "flow_m3s", reader), f"{clean.read_at} needs", words_at=0.0),)
    if clean.hours_first is not None:
        spots = (Spot(clean.hours_first, to_reader(clean.flow_m3s, "flow_m3s", reader), "clean me", above=True),)
    plot = Plot(
        "flow while loading",
        Axis("hours of machines running", 0.0, _last_hour(job)),
        Axis(axis("flow", "flow_m3s", reader), 0.0, max(y for _, y in points)),
        (Curve(points, Pen.PLOT),),
        spots=spots,
        limits=limits,
    )
    return draw_plot(plot, 87.0, 44.0)


def _last_hour(job: Job) -> float:
    """Return where the hours end on the axis: past *clean me*, not out where nothing happens any more."""
    loading = job.sizing.filters.loading
    first = job.sizing.filters.clean_me.hours_first
    last = max(p.hours for p in loading)
    return max(min(last, first * 1.6) if first else last, 1e-6)

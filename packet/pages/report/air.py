"""What each machine gets: blower and system curves, a table of gates, the duct tree with flow and speed in each run."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from typing import Any

from calc.finding import Verdict
from calc.measures.quantity import to_reader
from calc.results import DuctFlow, Plotted, Scenario
from packet.draw.model import Drawing, Pen
from packet.draw.views.duct_tree import Duct, State, can_draw, draw_duct_tree, draw_legend
from packet.draw.views.plots import Axis, Curve, Plot, PlotSpot, PlotStrip, draw_plot
from packet.job import AirJob
from packet.pages.kit.kit import Kit
from packet.words.amounts import axis, bare, bare_band, duct, full, head, span
from packet.words.phrases import Phrases, take_words

MOST_CURVES = 8
WORST = {Verdict.FITS: 0, Verdict.TIGHT: 1, Verdict.DOES_NOT_FIT: 2}


def make_blocks(job: AirJob, kit: Kit) -> list[Any]:
    """Return the blocks on flow: curves, table of gates, sets of gates, duct tree."""
    alone = [s for s in job.sizing.scenarios if s.kind == "alone"]
    together = [s for s in job.sizing.scenarios if s.kind == "set"]
    shown = pick_gates(job, alone)
    words = take_words("report_air", kit.reader.language)
    gates = _table_gates(kit, alone, job.project.by_hose, words)
    blocks: list[Any] = [
        kit.heading(words("title"), 2),
        kit.text(words("lead" if job.project.has_gates else "lead_hose")),
        kit.drawing(draw_curves(job, shown, words), scale=1.0, caption=_caption_curves(job, shown, words)),
        gates if len(alone) > MOST_CURVES else kit.keep([gates]),
    ]
    if together:
        blocks += [kit.heading(words("sets"), 3), _table_together(kit, together, words)]
    blocks += [_tell_all_open(kit, scenario, words) for scenario in job.sizing.scenarios if scenario.kind == "all"]
    blocks += _make_tree(job, kit, alone, words)
    return blocks


def pick_gates(job: AirJob, alone: Sequence[Scenario]) -> list[tuple[int, Scenario]]:
    """Return the gates to draw with their numbers in the table: all, or the first ones and the worst off."""
    numbered = [(n, s) for n, s in enumerate(alone, 1)]
    if len(numbered) <= MOST_CURVES:
        return numbered
    keep = {job.sizing.worst, job.sizing.gauge_at}
    by_flow = sorted(numbered, key=lambda pair: pair[1].flow.best)
    keep |= {by_flow[round(i * (len(by_flow) - 1) / (MOST_CURVES - 3))][1].name for i in range(MOST_CURVES - 2)}
    return [pair for pair in numbered if pair[1].name in keep][:MOST_CURVES]


def scale_points(plotted: Plotted, job: AirJob) -> tuple[tuple[float, float], ...]:
    """Return a curve in the reader's units."""
    return tuple(
        (to_reader(q, "flow_m3s", job.reader), to_reader(p, "pressure_pa", job.reader))
        for q, p in zip(plotted.flow_m3s, plotted.pressure_pa, strict=True)
    )


def round_off(points: Sequence[tuple[float, float]], between: int = 4) -> tuple[tuple[float, float], ...]:
    """Return a system curve with points in between, straight over the square of the flow as such curves nearly are."""
    rounded: list[tuple[float, float]] = []
    for (x0, y0), (x1, y1) in itertools.pairwise(points):
        for step in range(between):
            x = x0 + (x1 - x0) * step / between
            share = (x * x - x0 * x0) / (x1 * x1 - x0 * x0) if x1 != x0 else 0.0
            rounded.append((x, y0 + (y1 - y0) * share))
    return (*rounded, *points[-1:])


def draw_curves(job: AirJob, shown: Sequence[tuple[int, Scenario]], words: Phrases) -> Drawing:
    """Return blower and system curves with the worst machine's band and the operating point of every gate shown."""
    blower = job.sizing.blower
    total, static = scale_points(blower.total, job), scale_points(blower.static, job)
    names = {s.name for _, s in shown}
    curves: list[Curve] = []
    strips = []
    for system in job.sizing.systems:
        if system.scenario == job.sizing.worst:
            low, high = scale_points(system.low, job), scale_points(system.high, job)
            strips.append(PlotStrip(round_off(low), round_off(high)))
            curves.append(Curve(round_off(scale_points(system.best, job)), Pen.OUTLINE))
        elif system.scenario in names:
            curves.append(Curve(round_off(scale_points(system.best, job)), Pen.DIMENSION))
    spots = [
        PlotSpot(
            x=to_reader(s.point.flow_m3s, "flow_m3s", job.reader),
            y=to_reader(s.point.total_pa, "pressure_pa", job.reader),
            number=str(n),
        )
        for n, s in shown
    ]
    most_flow = max([x for x, _ in total] + [s.x for s in spots])
    past = (max(s.x for s in spots) + 0.05 * most_flow) / total[-1][0]  # the name stands past the last ring if it can
    curves.append(Curve(total, Pen.PLOT, words("curve_total"), past if past < 0.8 else 0.45))
    curves.append(Curve(static, Pen.HIDDEN, words("curve_static"), 0.85, "below"))
    most_pressure = max(y for _, y in total + static)
    plot = Plot(
        name="blower and system curves",
        x=Axis(axis(words("axis_flow"), "flow_m3s", job.reader), 0.0, most_flow),
        y=Axis(axis(words("axis_pressure"), "pressure_pa", job.reader), 0.0, most_pressure),
        curves=tuple(curves),
        strips=tuple(strips),
        spots=tuple(spots),
    )
    return draw_plot(plot, 182.0, 64.0)


def _caption_curves(job: AirJob, shown: Sequence[tuple[int, Scenario]], words: Phrases) -> str:
    alone = sum(1 for s in job.sizing.scenarios if s.kind == "alone")
    if len(shown) == alone:
        whole = "curves_caption" if job.project.has_gates else "curves_caption_hose"
        return words(whole, machine=job.sizing.worst)
    key = "curves_caption_some" if job.project.has_gates else "curves_caption_some_hose"
    return words(key, machine=job.sizing.worst, shown=len(shown), count=alone)


def _table_gates(kit: Kit, alone: Sequence[Scenario], by: str, words: Phrases) -> Any:
    reader = kit.reader
    rows: list[list[Any]] = [
        [
            "", words(f"gate_open{by}"), head(words("gate_needs"), "flow_m3s", reader),
            head(words("gate_gets"), "flow_m3s", reader), head(words("gate_clean_me"), "flow_m3s", reader),
            head(words("gate_speed"), "speed_ms", reader), head(words("gate_blower"), "pressure_pa", reader),
            head(words("gate_reading"), "pressure_pa", reader), words("gate_verdict"),
        ]
    ]  # fmt: skip
    for number, scenario in enumerate(alone, 1):
        flow = scenario.machines[0]
        drop = next((d for d in scenario.ducts if d.place == flow.machine and d.kind == "drop"), None)
        worst = max([flow.verdict, *(d.verdict for d in scenario.ducts)], key=lambda v: WORST[v])
        rows.append(
            [
                str(number), flow.machine, bare(flow.needs_m3s, "flow_m3s", reader),
                bare_band(flow.flow, "flow_m3s", reader), bare(flow.clean_me_m3s, "flow_m3s", reader),
                bare_band(drop.speed, "speed_ms", reader) if drop else "–",
                bare(scenario.point.total_pa, "pressure_pa", reader),
                bare_band(scenario.reading, "pressure_pa", reader), kit.mark(worst),
            ]
        )  # fmt: skip
    return kit.table(rows, (7, 31, 15, 27, 17, 32, 17, 28, 24), align="llrrrrrrl", size=8.6)


def _table_together(kit: Kit, together: Sequence[Scenario], words: Phrases) -> Any:
    """Return the file's own sets of gates, a line a machine."""
    reader = kit.reader
    rows: list[list[Any]] = [
        [
            words("set_open"), head(words("set_blower"), "flow_m3s", reader), words("set_machine"),
            head(words("set_needs"), "flow_m3s", reader), head(words("set_gets"), "flow_m3s", reader),
            head(words("set_slowest"), "speed_ms", reader), words("set_verdict"),
        ]
    ]  # fmt: skip
    for scenario in together:
        slow = find_slowest(scenario)
        for index, flow in enumerate(scenario.machines):
            first = index == 0
            rows.append(
                [
                    scenario.name if first else "", bare(scenario.flow.best, "flow_m3s", reader) if first else "",
                    flow.machine, bare(flow.needs_m3s, "flow_m3s", reader), bare_band(flow.flow, "flow_m3s", reader),
                    words("set_slowest_run", run=slow.place, speed=bare(slow.speed.best, "speed_ms", reader))
                    if first and slow else "",
                    kit.mark(flow.verdict),
                ]
            )  # fmt: skip
    return kit.table(rows, (38, 16, 36, 16, 32, 34, 26), align="lrlrrll", size=8.6)


def _tell_all_open(kit: Kit, scenario: Scenario, words: Phrases) -> Any:
    """Return all gates open at once in a sentence: a shop that works at one gate does not ask it of its collector."""
    reader = kit.reader
    gets = "; ".join(
        words(
            "all_machine",
            machine=flow.machine,
            gets=bare_band(flow.flow, "flow_m3s", reader),
            needs=bare(flow.needs_m3s, "flow_m3s", reader),
        )
        for flow in scenario.machines
    )
    short = sum(flow.flow.best < flow.needs_m3s for flow in scenario.machines)
    moved = full(scenario.flow.best, "flow_m3s", reader)
    if short:
        said = [words("all_short", flow=moved, short=short, count=len(scenario.machines), machines=gets)]
    else:
        said = [words("all_enough", flow=moved, machines=gets)]
    slow = find_slowest(scenario)
    if slow:
        said.append(words("all_slowest", run=slow.place, speed=full(slow.speed.best, "speed_ms", reader)))
    return kit.text(" ".join(said), "small")


def find_slowest(scenario: Scenario) -> DuctFlow | None:
    """Return the duct whose air is slowest against what it wants."""
    return min(scenario.ducts, key=lambda d: d.speed.best / d.limit_ms if d.limit_ms else 9.9, default=None)


# --- the duct tree ----------------------------------------------------------------------------------------------------


def collect_ducts(alone: Sequence[Scenario]) -> dict[tuple[str, str], list[DuctFlow]]:
    """Return every duct's flows over all gates alone, those with its own machines open only, by (place, kind)."""
    found: dict[tuple[str, str], list[DuctFlow]] = {}
    for scenario in alone:
        for flow in scenario.ducts:
            found.setdefault((flow.place, flow.kind), []).append(flow)
    return found


def make_tree(job: AirJob, alone: Sequence[Scenario]) -> list[Duct]:
    """Return the tree of ducts with their words, for the drawing; roots are the runs into the separator."""
    flows = collect_ducts(alone)
    project, reader, words = job.project, job.reader, take_words("report_air", job.reader.language)

    def describe(place: str, kind: str, fallback_m: float) -> tuple[str, tuple[str, ...], float, str]:
        rows = flows.get((place, kind), [])
        size = rows[0].diameter_m if rows else fallback_m
        if not rows:
            return duct(size, reader), (), size, "fits"
        flow = span(min(r.flow.best for r in rows), max(r.flow.best for r in rows), "flow_m3s", reader)
        speed = span(min(r.speed.best for r in rows), max(r.speed.best for r in rows), "speed_ms", reader)
        worst = max((r.verdict for r in rows), key=lambda v: WORST[v])
        units = full(0.0, "flow_m3s", reader).split(" ", 1)[1], full(0.0, "speed_ms", reader).split(" ", 1)[1]
        below = words("tree_flow", flow=flow, unit=units[0]), words("tree_speed", speed=speed, unit=units[1])
        return duct(size, reader), below, size, worst.value

    def build_run(name: str) -> Duct:
        feeds = [build_run(run.name) for run in project.runs if run.into == name]
        for machine in project.machines:
            if machine.on == name:
                hood = machine.pickups[0].hood.diameter_m if machine.pickups else 0.1
                size, below, wide, state = describe(machine.name, "drop", hood)
                slow = "_slow" if state == "does not fit" else ""
                several = len(machine.pickups) > 1  # the slowest of them is told
                title = words(f"tree_pickup{slow}" if several else f"tree_drop{slow}", size=size)
                feeds.append(Duct(title=title, words=below, diameter_mm=wide * 1000, state=state, machine=machine.name))  # type: ignore[arg-type]
        size, below, wide, state = describe(name, "run", 0.15)
        title = words("tree_run_slow" if state == "does not fit" else "tree_run", run=name, size=size)
        return Duct(
            title=title,
            words=below,
            diameter_mm=wide * 1000,
            state=state,  # type: ignore[arg-type]
            machine="" if feeds else name,
            feeds=tuple(feeds),
        )

    return [build_run(run.name) for run in project.runs if run.into == "separator"]


def _make_tree(job: AirJob, kit: Kit, alone: Sequence[Scenario], words: Phrases) -> list[Any]:
    roots = make_tree(job, alone)
    blocks: list[Any] = [kit.heading(words("tree"), 2)]
    if not can_draw(roots, kit.frame_width_mm):
        blocks.append(kit.text(words("tree_too_big")))
        blocks.append(_table_ducts(kit, alone, words))
        return blocks
    project, reader = job.project, kit.reader
    flow = span(min(s.flow.best for s in alone), max(s.flow.best for s in alone), "flow_m3s", reader)
    unit = full(0.0, "flow_m3s", reader).split(" ", 1)[1]
    separator = []
    if project.separator.kind != "none":
        kind = words("tree_cyclone" if project.separator.kind == "cyclone" else "tree_drop_box")
        separator = [(kind, words("tree_separator"))]
    filters = sum(f.count for f in project.filters)
    box = (
        words("tree_filter_one" if filters == 1 else "tree_filter_many", count=filters),
        words("tree_in_box" if project.box else "tree_at_end"),
    )
    blower = (words("tree_blower"), words("tree_flow", flow=flow, unit=unit))
    tree = draw_duct_tree(roots, [*separator, blower, box], kit.frame_width_mm)
    looks: dict[State, str] = {
        "fits": words("look_fits"),
        "tight": words("look_tight"),
        "does not fit": words("look_slow"),
    }
    legend = kit.drawing(draw_legend(looks, kit.frame_width_mm), scale=1.0)
    blocks.append(
        kit.keep(
            [
                kit.drawing(
                    tree, scale=1.0, caption=words("tree_caption" if project.has_gates else "tree_caption_hose")
                ),
                legend,
            ]
        )
    )
    return blocks


def _table_ducts(kit: Kit, alone: Sequence[Scenario], words: Phrases) -> Any:
    reader = kit.reader
    rows: list[list[Any]] = [
        [words("duct_name"), words("duct_diameter"), head(words("duct_flow"), "flow_m3s", reader),
         head(words("duct_speed"), "speed_ms", reader), head(words("duct_wanted"), "speed_ms", reader),
         words("duct_verdict")]
    ]  # fmt: skip
    for (place, _), flows in collect_ducts(alone).items():
        slow = min(flows, key=lambda d: d.speed.best)
        rows.append(
            [place, duct(slow.diameter_m, reader), bare(slow.flow.best, "flow_m3s", reader),
             bare_band(slow.speed, "speed_ms", reader), bare(slow.limit_ms, "speed_ms", reader), kit.mark(slow.verdict)]
        )  # fmt: skip
    return kit.table(rows, align="llrrrl", size=8.6)

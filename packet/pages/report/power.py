"""What the motor has to give: power at the shaft beside the power in the air, along the curve and gate by gate."""

from __future__ import annotations

from typing import Any

from calc.measures.quantity import to_reader
from calc.results import Scenario
from packet.draw.model import Drawing, Pen
from packet.draw.views.plots import Axis, Curve, LimitLine, Plot, PlotSpot, PlotStrip, draw_plot
from packet.job import AirJob
from packet.pages.kit.kit import Kit
from packet.words.amounts import axis, bare, bare_band, full, head
from packet.words.phrases import Phrases, take_words

MOST_GATES = 6
Points = tuple[tuple[float, float], ...]


def make_blocks(job: AirJob, kit: Kit) -> list[Any]:
    """Return the picture of both powers against the flow, and the table of the gates that ask most of the motor."""
    words = take_words("report_power", kit.reader.language)
    blower = job.project.blower
    known = "maker" if blower.power_curve else blower.wheel or "unknown"
    free = full(job.sizing.blower.power.shaft_w[-1], "power_w", kit.reader)
    shut = full(job.sizing.blower.power.shaft_w[0], "power_w", kit.reader)
    return [
        kit.heading(words("title"), 2),
        kit.text(words(f"lead_{known}") + " " + words("lead", free=free, shut=shut)),
        kit.drawing(draw_powers(job, words), scale=1.0, caption=words("caption")),
        kit.keep([_table(job, kit, pick_gates(job), words)]),
    ]


def pick_gates(job: AirJob) -> list[Scenario]:
    """Return the scenarios that take most power at the shaft, most first."""
    return sorted(job.sizing.scenarios, key=lambda s: -s.point.shaft_power.best)[:MOST_GATES]


def draw_powers(job: AirJob, words: Phrases) -> Drawing:
    """Return the power in the air, the power at the shaft with its band, and the motor's plate, against the flow."""
    power, reader = job.sizing.blower.power, job.reader

    def scale(watts: tuple[float, ...]) -> Points:
        pairs = zip(power.flow_m3s, watts, strict=True)
        return tuple((to_reader(q, "flow_m3s", reader), to_reader(w, "power_w", reader)) for q, w in pairs)

    air, low, best, high = (scale(w) for w in (power.air_w, power.shaft_low_w, power.shaft_w, power.shaft_high_w))
    plate = to_reader(job.sizing.blower.power_w, "power_w", reader)
    worst = pick_gates(job)[0].point
    at = to_reader(worst.flow_m3s, "flow_m3s", reader), to_reader(worst.shaft_power.best, "power_w", reader)
    plot = Plot(
        name="power at the shaft and in the air",
        x=Axis(axis(words("axis_flow"), "flow_m3s", reader), 0.0, best[-1][0]),
        y=Axis(axis(words("axis_power"), "power_w", reader), 0.0, max(plate, max(y for _, y in high))),
        curves=(
            Curve(best, Pen.PLOT, words("curve_shaft"), 0.25),
            Curve(air, Pen.HIDDEN, words("curve_air"), 0.7),
        ),
        strips=(PlotStrip(low, high),),
        spots=(PlotSpot(x=at[0], y=at[1]),),
        limits=(LimitLine(plate, words("plate"), words_at=0.06),),
    )
    return draw_plot(plot, 182.0, 40.0)


def _table(job: AirJob, kit: Kit, scenarios: list[Scenario], words: Phrases) -> Any:
    reader = kit.reader
    rows: list[list[Any]] = [
        [words("open"), head(words("flow"), "flow_m3s", reader), head(words("air"), "power_w", reader),
         head(words("shaft"), "power_w", reader), head(words("motor"), "power_w", reader)]
    ]  # fmt: skip
    for scenario in scenarios:
        point = scenario.point
        rows.append(
            [scenario.name, bare(point.flow_m3s, "flow_m3s", reader), bare(point.air_power_w, "power_w", reader),
             bare_band(point.shaft_power, "power_w", reader), bare(job.sizing.blower.power_w, "power_w", reader)]
        )  # fmt: skip
    return kit.table(rows, (66, 26, 26, 40, 24), align="lrrrr", size=8.6)

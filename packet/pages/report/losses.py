"""Where the pressure goes for the worst machine: a ledger from hood to room, and a picture of it."""

from __future__ import annotations

from typing import Any

from calc.measures.quantity import to_reader
from calc.results import LedgerRow, Scenario
from packet.draw.model import Drawing, Pen
from packet.draw.views.plots import Axis, Curve, LimitLine, Plot, PlotSpot, draw_plot
from packet.job import AirJob
from packet.pages.kit.kit import Kit
from packet.words.amounts import NONE, axis, bare, duct, full, head, span
from packet.words.phrases import Phrases, take_words
from packet.words.say import say

AFTER_BLOWER = ("delivery", "filters")
MOST_NAMES = 30


def make_blocks(job: AirJob, kit: Kit) -> list[Any]:
    """Return the ledger of the worst machine and the pressure along its way."""
    scenario = job.sizing.get_alone(job.sizing.worst)
    if not scenario.ledger:
        return []
    dearest = scenario.rank_losses()[:3]
    total = scenario.ledger[-1].total_pa
    words = take_words("report_losses", kit.reader.language)
    parts = ", ".join(words("lead_part", part=say(r.what, kit.reader), share=_share(r, total)) for r in dearest)
    caption = "caption" if job.project.box else "caption_no_box"
    return [
        kit.heading(words("title", machine=scenario.ledger_machine), 2),
        kit.text(words("lead" if job.project.has_gates else "lead_hose", parts=parts)),
        kit.drawing(draw_way(job, scenario, words), scale=1.0, caption=words(caption)),
        _table(kit, scenario, total, words),
    ]


def find_blower(scenario: Scenario) -> int:
    """Return how many lines of the ledger come before the blower."""
    return next((n for n, row in enumerate(scenario.ledger) if row.section in AFTER_BLOWER), len(scenario.ledger))


def draw_way(job: AirJob, scenario: Scenario, words: Phrases) -> Drawing:
    """Return the total pressure against the room along the way: falling to the blower, up through it, back to zero."""
    at = find_blower(scenario)
    rise = sum(row.loss_pa for row in scenario.ledger)
    blower, names = words("blower_sign"), list[str]()
    points = [(0.0, 0.0)]
    level, x = 0.0, 0.0
    low = high = 0.0
    blower_x = 0.0
    for number, row in enumerate(scenario.ledger):
        if number == at:
            blower_x = x + 0.5
            level, x = _rise(points, level, x, rise)
            names.append(blower)
        level -= row.loss_pa
        x += 1.0
        points.append((x, level))
        names.append(str(number + 1))
        low, high = min(low, level), max(high, level)
    if at == len(scenario.ledger):
        blower_x = x + 0.5
        level, x = _rise(points, level, x, rise)
        names.append(blower)
    low = min(y for _, y in points)
    high = max(y for _, y in points)
    shown = tuple((px, to_reader(py, "pressure_pa", job.reader)) for px, py in points)
    step = max(1, -(-len(names) // MOST_NAMES))
    names = [name if index % step == 0 or name == blower else "" for index, name in enumerate(names)]
    blower_words = words("blower_rise", pressure=full(rise, "pressure_pa", job.reader))
    middle = (blower_x, to_reader((low + high) / 2, "pressure_pa", job.reader))
    plot = Plot(
        name="pressure along the way",
        x=Axis(words("axis_way"), 0.0, x),
        y=Axis(axis(words("axis_pressure"), "pressure_pa", job.reader), *_spread(job, low, high)),
        curves=(Curve(shown, Pen.PLOT),),
        spots=(
            PlotSpot(x=middle[0], y=middle[1], words=blower_words, side="left" if blower_x > 0.75 * x else "right"),
        ),
        limits=(LimitLine(0.0, words("room"), words_at=0.45),),
        x_names=tuple(names),
    )
    return draw_plot(plot, 182.0, 42.0)


def _rise(points: list[tuple[float, float]], level: float, x: float, rise: float) -> tuple[float, float]:
    points.append((x + 1.0, level + rise))
    return level + rise, x + 1.0


def _spread(job: AirJob, low: float, high: float) -> tuple[float, float]:
    return to_reader(low, "pressure_pa", job.reader), to_reader(high, "pressure_pa", job.reader)


def _share(row: LedgerRow, total: float) -> str:
    return f"{row.loss_pa / total:.0%}".replace("%", " %") if total > 0 else NONE


def _table(kit: Kit, scenario: Scenario, total: float, words: Phrases) -> Any:
    reader = kit.reader
    rows: list[list[Any]] = [
        [
            "",
            words("part"),
            words("diameter"),
            head(words("flow"), "flow_m3s", reader),
            head(words("speed"), "speed_ms", reader),
            head(words("velocity_pressure"), "pressure_pa", reader),
            words("coefficient"),
            head(words("loss"), "pressure_pa", reader),
            head(words("low_high"), "pressure_pa", reader),
            words("share"),
            head(words("total"), "pressure_pa", reader),
        ]
    ]
    for number, row in enumerate(scenario.ledger, 1):
        rows.append(
            [
                str(number),
                say(row.what, reader),
                duct(row.diameter_m, reader),
                bare(row.flow_m3s, "flow_m3s", reader),
                bare(row.speed_ms, "speed_ms", reader),
                bare(row.velocity_pressure_pa, "pressure_pa", reader),
                NONE if row.coefficient is None else f"{row.coefficient:.2f}",
                bare(row.loss_pa, "pressure_pa", reader),
                span(row.low_pa, row.high_pa, "pressure_pa", reader),
                _share(row, total),
                bare(row.total_pa, "pressure_pa", reader),
            ]
        )
    return kit.table(rows, (7, 41, 16, 13, 15, 18, 18, 14, 21, 12, 16), align="lllrrrrrrrr", size=8.4)

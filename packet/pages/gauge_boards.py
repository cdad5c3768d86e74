"""The boards behind the gauge: on the wall, or round on the screw lid, with why it hangs plumb."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from calc.gauges.cards import LEG_GAP_MM
from calc.gauges.gauge_board import FRICTION, PIVOT_PLAY_MM, LidBoard, design_lid_board, design_wall_board
from calc.gauges.gauge_design import GaugeDesign
from calc.gauges.gauge_parts import ROUND, list_boards
from calc.measures.quantity import Reader, write_length
from packet.draw.model import Drawing
from packet.draw.views.gauge_board import draw_lid_board, draw_wall_board, measure_wall_board
from packet.pages.drawings import choose_scale
from packet.words.part_names import name_part
from packet.words.phrases import Phrases, take_words
from packet.words.say import say

if TYPE_CHECKING:
    from packet.job import GaugeJob
    from packet.pages.kit.kit import Kit


def tell_boards(job: GaugeJob, kit: Kit, gauge: GaugeDesign) -> tuple[list[Any], list[Any]]:
    """Return words and figures of the boards: on the lid or on the wall, and the sloping one when it is advised."""
    parts = list_boards(job.design.flat_parts)
    ports = [port for port in job.project.ports if port.kind == "gauge"]
    reader, words = job.reader, take_words("gauge_boards", job.reader.language)
    figures: list[Any] = []
    story: list[Any] = []
    if gauge.on_lid:
        lid = ports[0].closure.lid_mm
        board = design_lid_board(gauge.card, ports[0].closure, gauge.asked.fitting_hole_mm, LEG_GAP_MM)
        story += [kit.heading(words("lid"), 2), *kit.bullets(_list_lid_words(board, reader, words))]
        figures.append(_show(kit, draw_lid_board(board, parts[0], lid, reader), words("lid_caption")))
    else:
        story += [kit.heading(words("wall"), 2), kit.text(words("wall_how"))]
    for card, part in zip(gauge.boards, parts, strict=True):
        if part.name != ROUND:
            wall = design_wall_board(card, LEG_GAP_MM)
            kind = "sloping" if wall.slope < 1.0 else "wall"
            caption = words(f"{kind}_caption", number=part.number, part=name_part(part, reader))
            scale = choose_scale(kit, partial(measure_wall_board, wall), 80.0, 64.0)
            figures.append(
                kit.drawing(draw_wall_board(wall, part, reader, scale), scale=scale, show_scale=True, caption=caption)
            )
    return story, figures


def _show(kit: Kit, drawing: Drawing, caption: str) -> Any:
    return kit.drawing(drawing, width_mm=82, height_mm=90, caption=caption)


def _list_lid_words(board: LidBoard, reader: Reader, words: Phrases) -> list[str]:
    weights = ", ".join(
        words("weight", part=say(part.what, reader), grams=f"{part.mass_kg * 1000:.0f}") for part in board.parts
    )
    below, hang, need, have = (
        write_length(mm, reader) for mm in (abs(board.gravity_up_mm), board.hang_mm, board.needs_tall_mm, board.tall_mm)
    )
    friction = {
        "angle": f"{board.off_plumb_deg:.1f}",
        "mu": FRICTION,
        "radius": f"{(board.pivot_hole_mm - PIVOT_PLAY_MM) / 2:.1f}",
        "hang": f"{board.hang_mm:.0f}",
    }
    lines = [
        words("lid_turns"),
        words("weights", weights=weights, below=below, hang=hang),
        words("friction", **friction),
        words("swing"),
    ]
    return [*lines, words("bulb", need=need, have=have)] if board.needs_bulb else lines

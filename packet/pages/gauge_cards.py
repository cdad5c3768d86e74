"""The water gauge: how to read it, what it says at each gate, its cards at full size and the board behind it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from calc.gauges.gauge_board import FRICTION, PLAY_MM, LidBoard, design_lid_board, design_wall_board
from calc.gauges.gauge_design import LEG_GAP_MM, USUAL_TIMES, Card, GaugeDesign, Mark, name_kind
from calc.geometry.gauge_parts import make_gauge_parts
from calc.geometry.shapes import Box, Point
from calc.measures.quantity import Reader, write_amount, write_length
from packet.draw.gauge_board import draw_lid_board, draw_wall_board, measure_wall_board
from packet.draw.gauge_card import draw_card
from packet.draw.model import Drawing, Words
from packet.draw.pdf import POINTS_PER_MM, paint
from packet.draw.rules import Rule, draw_rule
from packet.pages.drawings import choose_scale
from packet.pages.style import Frame
from packet.say import say

if TYPE_CHECKING:
    from packet.job import Job
    from packet.pages.kit import Kit

ACTS = {
    "still": "Blower off. Every meniscus must stand here before you read anything.",
    "clean": "What clean filters should show. Write the first real reading beside it: that is your baseline.",
    "clean me": "Clean the filters now.",
    "too high": "Stop. Look for a wet or split filter, a blocked opening, or the wrong gates open.",
}

WORDS_WIDE_MM = 93.0  # for the words on tube and liquid, beside the board

SLOPING = "Sloping board: jar left, tube turned up right"
SUCTION_ACT = "Stop. A gate, duct or hose before the box is blocked."


def make_story(job: Job, kit: Kit) -> list[Any]:
    """Return the gauge's pages: words and tables, the cards at full size, the board."""
    gauge, reader = job.gauge, job.reader
    story: list[Any] = [
        kit.heading("Water gauge"),
        kit.text(_say_condition(gauge), "lead"),
        kit.text(_say_why(job)),
        _tell_marks(kit, gauge, reader),
        kit.heading("How to read it", 2),
        *kit.bullets([*_list_reading_steps(job, gauge.card), *_say_advice(job, gauge)]),
        kit.heading("What it tells you", 2),
        _tell_meaning(kit, gauge),
        kit.heading("At the other gates, only the one named open", 2),
        _tell_gates(kit, gauge, reader),
    ]
    notices: list[Any] = []
    words: list[Any] = [kit.heading("Tube and liquid", 2), *kit.bullets(_list_tube(job, gauge))]
    cards = [(gauge.card, name_kind(gauge.card.instrument.kind))]
    if gauge.advised is not None:
        cards.append((gauge.advised, "sloping tube, advised"))
    if gauge.companion is not None:
        kind = name_kind(gauge.companion.instrument.kind)
        notices.append(kit.signal("NOTICE", _say_companion(gauge.card, gauge.companion)))
        cards.append((gauge.companion, f"{kind} card"))
    if gauge.strips:
        notices.append(kit.signal("NOTICE", _say_strips(gauge)))
        cards += [(strip, f"one leg, strip {number}") for number, strip in enumerate(gauge.strips, 2)]
    board, figures = _tell_board(job, kit, gauge)
    wide = kit.frame_width_mm - WORDS_WIDE_MM
    story.append(kit.columns([[*words, *figures[1:]], [*board, *figures[:1]]], (WORDS_WIDE_MM, wide)))
    story += notices
    drawings = [draw_card(card, reader, f"Water gauge, {title}", gauge.read_at) for card, title in cards]
    for index, group in enumerate(_share_sheets(drawings, job)):
        title = "Gauge cards, full size" if index == 0 else f"Gauge cards, full size, {index + 1}"
        story.append(kit.full_page(_make_painter(job, group), title))
    return story


def _say_condition(gauge: GaugeDesign) -> str:
    way = "falls" if gauge.falls else "rises"
    return (
        f"Read the gauge with the blower running and the {gauge.read_at} gate alone open, all others shut. "
        f"The reading {way} as the filters load. A reading with every gate shut says nothing about the filters: "
        "with no air moving, a clogged filter reads like a clean one."
    )


def _say_why(job: Job) -> str:
    """Say what the shop loses at *clean me*: whichever comes first as the filters load."""
    why = say(job.sizing.filters.clean_me.why, job.reader).rstrip(".")
    return f"CLEAN ME stands where the first thing is lost: {why}."


def _tell_marks(kit: Kit, gauge: GaugeDesign, reader: Reader) -> Any:
    rows: list[list[Any]] = [["Mark", "Reading", "One meniscus moves", "Do"]]
    for mark in gauge.card.marks:
        act = SUCTION_ACT if gauge.falls and mark.key == "too high" else ACTS[mark.key]
        if mark.key == "clean me":
            act += _say_times(gauge, reader)
        rows.append([mark.words, _say_both(mark.pressure_pa, reader), _say_travel(mark, reader), act])
    return kit.table(rows, widths_mm=(26, 40, 34, 80))


def _say_times(gauge: GaugeDesign, reader: Reader) -> str:
    """Hold *clean me* over clean against what other filter gauges are marked with."""
    times, (low, high) = gauge.clean_me_times, USUAL_TIMES
    if times is None:
        return ""
    words = f" {times:.1f} times clean; spray-booth filters are changed at {low:.0f} to {high:.0f} times"
    if times <= high:
        return f"{words}."
    clean = next(mark.pressure_pa for mark in gauge.card.marks if mark.key == "clean")
    return f"{words}: from {write_amount(high * clean, 'pressure_pa', reader)} on look at the cloth each week."


def _say_both(pressure_pa: float, reader: Reader) -> str:
    if pressure_pa == 0:
        return "0"
    small = 3 if pressure_pa < 24 else 2
    inch = write_amount(pressure_pa, "pressure_pa", Reader("inch"), digits=small)
    metric = write_amount(pressure_pa, "pressure_pa", Reader("metric"))
    return f"{inch} = {metric}" if reader.system == "inch" else f"{metric} = {inch}"


def _say_travel(mark: Mark, reader: Reader) -> str:
    if mark.key == "still":
        return "-"
    beyond = "" if mark.fits else " (beyond the card)"
    return f"{write_length(mark.travel_mm, reader)}{beyond}"


def _list_reading_steps(job: Job, card: Card) -> list[str]:
    kind = card.instrument.kind
    rising = "open to the room" if job.gauge.rising_leg == "room" else "joined to the box"
    falling = "joined to the box" if job.gauge.rising_leg == "room" else "open to the room"
    by_kind = {
        "u-tube": [
            "Slide the card until both menisci stand on STILL AIR.",
            f"Blower on: the leg {falling} goes down, the leg {rising} goes up. "
            "Read both and ADD them: 1 down and 1 up is 2, not 1.",
        ],
        "u-tube one leg": [
            f"The card stands beside the leg {rising}, and beside no other. Slide it until the meniscus is on STILL "
            f"AIR.",
            "Its numbers stand at half distance, so the number you read is the whole pressure. Add nothing.",
        ],
        "inclined": [
            "Level the board, then slide the card until the meniscus stands on STILL AIR.",
            "Read along the tube. The slope and the well are already in the numbers.",
        ],
        "well": [
            "Slide the card until the meniscus in the tube stands on STILL AIR.",
            "Read the tube only. The small sinking of the well is already in the numbers.",
        ],
    }[kind]
    fluid = job.project.gauge.fluid
    edge = "the lowest point of the curved surface" if fluid != "light oil" else "the bottom of the curved surface"
    return [
        "Blower off, every gate open: zero it first, every time. A gauge off its zero is worse than none.",
        *by_kind,
        f"Read {edge}, eye level with it. Wait until it stops swinging.",
        f"By eye it can be wrong by {write_amount(card.error_pa, 'pressure_pa', job.reader)}"
        f"{_say_share(card, job.reader)}.",
    ]


def _say_share(card: Card, reader: Reader) -> str:
    if card.error_share > 1:
        return ", more than the whole clean reading"
    if card.error_share < 0.005:
        return ", less than 1 % of the clean reading"
    return f", {write_amount(card.error_share, 'share', reader, digits=0)} of the clean reading"


def _tell_meaning(kit: Kit, gauge: GaugeDesign) -> Any:
    if gauge.side == "pressure":
        rows = [
            ["A steady height", "What the filters hold back: the hose ends in the box, where the blower pushes."],
            ["Rises slowly", "Filters are loading. Normal. Clean at CLEAN ME."],
            ["Jumps up", "A filter is wet or caked, its opening is blocked, or more gates are open than named."],
            ["Lower than clean", "Less air comes: gate half shut, duct or hose plugged, separator bin full or not "
            "tight. "
             "Or air goes round the filter: loose lid, split cloth, box leak."],
            ["Stays on still air", "Tube off, pinched or blocked, or the blower is not running."],
        ]  # fmt: skip
    else:
        rows = [
            ["A steady height", "What hood, duct and separator hold back: the hose ends in the box, where the blower "
            "sucks."],
            ["Falls slowly", "Less air comes because the filters load. Normal. Clean at CLEAN ME."],
            ["Jumps up", "Duct, hose or gate before the box is blocked: air is held back upstream."],
            ["Jumps down", "Filters blocked, or air leaks into the box: loose lid, open port, split seam."],
            ["Stays on still air", "Tube off, pinched or blocked, or the blower is not running."],
        ]  # fmt: skip
    return kit.table([["You see", "It means"], *rows], widths_mm=(34, 146))


def _tell_gates(kit: Kit, gauge: GaugeDesign, reader: Reader) -> Any:
    rows: list[list[Any]] = [["Open", "Flow, clean", "Reading, clean", "likely between", "Reading at CLEAN ME"]]
    for row in (row for row in gauge.readings if row.name != "all gates open"):
        name = f"{row.name} (read here)" if row.name == gauge.read_at else row.name
        low, high = (write_amount(p, "pressure_pa", reader, unit=False) for p in (row.reading.low, row.reading.high))
        rows.append(
            [
                name,
                write_amount(row.flow.best, "flow_m3s", reader),
                write_amount(row.reading.best, "pressure_pa", reader),
                f"{low} to {high}",
                write_amount(row.clean_me_pa, "pressure_pa", reader),
            ]
        )
    return kit.table(rows, widths_mm=(56, 28, 32, 32, 32), align="lrrrr")


def _list_tube(job: Job, gauge: GaugeDesign) -> list[str]:
    reader, tube = job.reader, gauge.card.tube
    millilitres = f"{tube.liquid_m3 * 1e6:.0f} mL"
    amount = f"{write_amount(tube.liquid_m3, 'volume_m3', Reader('metric'))}" if tube.liquid_m3 > 1e-3 else millilitres
    lines = [
        f"{job.project.gauge.fluid.capitalize()}, {write_amount(gauge.liquid_kgm3, 'density_kgm3', Reader('metric'))} "
        f"in this shop, is in the scale. About {amount} fills it. A drop of soap does no harm.",
        f"Clear tube, {write_length(job.project.gauge.tube_bore_mm, reader)} inside: "
        f"{write_length(tube.length_mm, reader)}, "
        f"hose to the box not counted. The open end stands {write_length(tube.above_mm, reader)} above still air.",
        f"That survives the most this blower can make, {write_amount(tube.highest_pa, 'pressure_pa', reader)}, "
        "with a quarter to spare. A shorter tube is blown empty when " + _say_worst(gauge) + ".",
    ]
    if gauge.card.both_ways or gauge.card.instrument.kind == "u-tube one leg":
        lines.append(f"Below still air as well: {write_length(tube.below_mm, reader)}, or air blows through the bend.")
        lines.append("Legs of unlike bore read the same.")
    return lines


def _say_worst(gauge: GaugeDesign) -> str:
    return "the filters are blocked" if gauge.side == "pressure" else "every gate is shut"


def _say_companion(card: Card, companion: Card) -> str:
    if companion.joined:
        return (
            "CLEAN ME lies beyond any one sheet. Use the one-leg scale in strips: its numbers are the whole pressure."
        )
    if {card.instrument.kind, companion.instrument.kind} == {"u-tube", "u-tube one leg"}:
        return (
            "CLEAN ME lies beyond the end of the first card. Use the one-leg card beside the rising leg instead: its "
            "numbers are the whole pressure, nothing is added."
        )
    return "CLEAN ME lies beyond the end of that card. Hang an upright U-tube beside it, both on one hose with a T."


def _say_strips(gauge: GaugeDesign) -> str:
    count = len(gauge.strips) + 1
    return (
        f"The one-leg scale is longer than a sheet: it comes in {count} strips. Cut each later strip on its JOIN line, "
        "lay it on the JOIN line of the strip before, tick on tick, and tape it. Measure the whole with a steel rule."
    )


def _say_advice(job: Job, gauge: GaugeDesign) -> list[str]:
    """Return what the advised card does better, if one is advised."""
    advised = gauge.advised
    if advised is None:
        return []
    return [
        f"A tube at 1 in {1 / advised.instrument.slope:.0f} (rise to length) on a well of jam-jar width reads the "
        f"clean mark to "
        f"{write_amount(advised.error_share, 'share', job.reader, digits=0)}. Its card is printed too.",
        *([] if all(mark.fits for mark in advised.marks) else
          ["Marks beyond that card are read on the upright gauge: fit both on one hose, with a T."]),
    ]  # fmt: skip


def _share_sheets(drawings: list[Drawing], job: Job) -> list[list[Drawing]]:
    """Return the cards sheet by sheet: side by side while they fit the paper."""
    paper = job.project.display.paper
    room = paper.width_mm - 2 * paper.margin_mm
    sheets: list[list[Drawing]] = []
    taken = room + 1.0
    for drawing in drawings:
        if taken + drawing.bounds.width > room:
            sheets.append([])
            taken = 0.0
        sheets[-1].append(drawing)
        taken += drawing.bounds.width + 4.0
    return sheets


def _make_painter(job: Job, drawings: list[Drawing]) -> Any:
    display = job.project.display

    def paint_sheet(canvas: Any, frame: Frame) -> None:
        x_scale, y_scale = 1 / display.printer_x, 1 / display.printer_y
        left = frame.left
        top = frame.bottom + frame.height
        for drawing in drawings:
            bottom = top - drawing.bounds.height * POINTS_PER_MM * y_scale
            paint(canvas, drawing, left, bottom, stretch_x=x_scale, stretch_y=y_scale)
            left += (drawing.bounds.width + 4.0) * POINTS_PER_MM * x_scale
        rules = _draw_rules(job.reader)
        paint(canvas, rules, frame.left, frame.bottom, stretch_x=x_scale, stretch_y=y_scale)

    return paint_sheet


def _draw_rules(reader: Reader) -> Drawing:
    rule = Rule("in", 6) if reader.system == "inch" else Rule("mm", 150)
    words = f"Actual size: {rule.name}, tick to tick."
    entities = (*draw_rule(rule, Point(0.0, 0.0)), Words(Point(rule.length_mm + 2.0, 0.5), words, 1.6))
    return Drawing("check rule", entities, Box(-0.5, -0.5, rule.length_mm + 40.0, 4.0))


def _tell_board(job: Job, kit: Kit, gauge: GaugeDesign) -> tuple[list[Any], list[Any]]:
    """Return words and figures of the boards: on the lid or on the wall, and the sloping one when it is advised."""
    parts = make_gauge_parts(job.project, job.sizing)
    ports = [port for port in job.project.ports if port.kind == "gauge"]
    reader = job.reader
    figures: list[Any] = []
    story: list[Any] = []
    if job.project.gauge.mount == "lid" and ports:
        lid = ports[0].closure.lid_mm
        board = design_lid_board(gauge.card, ports[0].closure, job.project.gauge.fitting_hole_mm, LEG_GAP_MM)
        story += [kit.heading("Round board on the lid", 2), *kit.bullets(_list_lid_words(board, reader))]
        figures.append(_show(kit, draw_lid_board(board, parts[0], lid, reader), "Round board on the screw lid"))
    else:
        words = (
            "Plumb, in sight of the machine, still air at eye height. Not on the box: the box shakes. A bracket behind "
            "each of its screws makes room for clips and hose. Clip the tube loosely at each small hole."
        )
        story += [kit.heading("Board on the wall", 2), kit.text(words)]
    for card, part in zip(gauge.boards, parts, strict=False):
        if part.name != "round gauge board":
            wall = design_wall_board(card, LEG_GAP_MM)
            caption = SLOPING if wall.slope < 1.0 else f"{part.number} {part.name}, from the front"
            scale = choose_scale(kit, partial(measure_wall_board, wall), 80.0, 64.0)
            figures.append(
                kit.drawing(draw_wall_board(wall, part, reader, scale), scale=scale, show_scale=True, caption=caption)
            )
    return story, figures


def _show(kit: Kit, drawing: Drawing, caption: str) -> Any:
    return kit.drawing(drawing, width_mm=80, height_mm=58, caption=caption)


def _list_lid_words(board: LidBoard, reader: Reader) -> list[str]:
    weights = ", ".join(f"{part.name} {part.mass_kg * 1000:.0f} g" for part in board.parts)
    radius = (board.pivot_hole_mm - PLAY_MM) / 2
    words = [
        "The lid stops at another place each time it is screwed in: the board turns on the hose fitting in the lid's "
        "middle and hangs by its own weight. Washer on both sides, nut not tight, hose in a loose loop.",
        f"Weights: {weights}. Together they pull {write_length(abs(board.gravity_up_mm), reader)} below the board's "
        f"middle. The pivot is {write_length(board.hang_mm, reader)} above that point.",
        f"Friction can hold it off plumb by {board.off_plumb_deg:.1f}° at most: sin a = mu r / d = "
        f"{FRICTION} x {radius:.1f} mm / {board.hang_mm:.0f} mm. The weight cancels out.",
        "A board hung below its weight's centre turns upside down. Let it swing: it must come back from both sides.",
    ]
    if board.needs_bulb:
        words.append(
            f"The blower's most needs {write_length(board.needs_tall_mm, reader)} of leg and this board has "
            f"{write_length(board.tall_mm, reader)}: put a small catch bottle on the open end, or use the wall."
        )
    return words

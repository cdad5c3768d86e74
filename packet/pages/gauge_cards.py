"""The water gauge: how to read it, what it says at each gate, its cards at full size and the board behind it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.airflow.scenarios import ALL_OPEN
from calc.gauges.gauge_design import USUAL_TIMES, Card, GaugeDesign, Mark
from calc.measures.quantity import Reader, write_amount, write_length
from packet.gauge_fill import write_fill
from packet.pages.gauge_boards import tell_boards
from packet.pages.gauge_sheets import make_sheets
from packet.phrases import Phrases, take_words
from packet.say import say

if TYPE_CHECKING:
    from packet.job import Job
    from packet.pages.kit import Kit

WORDS_WIDE_MM = 93.0  # for the words on tube and liquid, beside the board
PRESSURE_SIGNS = ("steady_filters", "loading", "caked", "less_air", "nothing")
SUCTION_SIGNS = ("steady_ducts", "falling", "blocked", "leak", "nothing")


def make_story(job: Job, kit: Kit) -> list[Any]:
    """Return the gauge's pages: words and tables, the cards at full size, the board."""
    gauge, reader, words = job.gauge, job.reader, take_words("gauge_cards", job.reader.language)
    way = "falls" if gauge.falls else "rises"
    why = say(job.sizing.filters.clean_me.why, reader).rstrip(".")
    story: list[Any] = [
        kit.heading(words("title")),
        kit.text(words(f"condition_{way}", machine=gauge.read_at), "lead"),
        kit.text(words("why", why=why)),
        _tell_marks(kit, gauge, words),
        kit.heading(words("reading"), 2),
        *kit.bullets([*_list_reading_steps(job, gauge.card, words), *_say_advice(job, gauge, words)]),
        kit.heading(words("meaning"), 2),
        _tell_meaning(kit, gauge, job.project.separator.kind != "none", words),
        kit.heading(words("gates"), 2),
        _tell_gates(kit, gauge, words),
    ]
    tube: list[Any] = [kit.heading(words("tube"), 2), *kit.bullets(_list_tube(job, gauge, words))]
    board, figures = tell_boards(job, kit, gauge)
    wide = kit.frame_width_mm - WORDS_WIDE_MM
    story.append(kit.columns([[*tube, *figures[1:]], [*board, *figures[:1]]], (WORDS_WIDE_MM, wide)))
    if gauge.companion is not None:
        story.append(kit.signal("NOTICE", _say_companion(gauge.card, gauge.companion, words)))
    if gauge.strips:
        story.append(kit.signal("NOTICE", words("strips", count=len(gauge.strips) + 1)))
    return [*story, *make_sheets(job, kit, _title_cards(gauge, words))]


def _title_cards(gauge: GaugeDesign, words: Phrases) -> list[tuple[Card, str]]:
    """Return every card with its title, in the order they are printed."""
    titles = [(gauge.card, _name_kind(gauge.card, words))]
    if gauge.advised is not None:
        titles.append((gauge.advised, words("title_advised")))
    if gauge.companion is not None:
        titles.append((gauge.companion, words("title_companion", kind=_name_kind(gauge.companion, words))))
    titles += [(strip, words("title_strip", number=number)) for number, strip in enumerate(gauge.strips, 2)]
    return [(card, words("card_title", kind=kind)) for card, kind in titles]


def _name_kind(card: Card, words: Phrases) -> str:
    return words(f"kind_{spell_key(card.instrument.kind)}")


def spell_key(name: str) -> str:
    """Return a name as keys of phrases are spelt."""
    return name.replace(" ", "_").replace("-", "_")


def _tell_marks(kit: Kit, gauge: GaugeDesign, words: Phrases) -> Any:
    travel = "travel_each_leg" if gauge.card.both_ways else "travel"
    rows: list[list[Any]] = [[words(f"column_{name}") for name in ("mark", "reading", travel, "act")]]
    for mark in gauge.card.marks:
        act = words(f"act_{spell_key(mark.key)}")
        if gauge.falls and mark.key == "too high":
            act = words("act_too_high_falling")
        if mark.key == "clean me" and gauge.clean_me_times is not None:
            act += " " + _say_times(gauge, gauge.clean_me_times, kit.reader, words)
        reading = _say_both(mark.pressure_pa, kit.reader, words)
        rows.append([say(mark.words, kit.reader), reading, _say_travel(mark, kit.reader, words), act])
    return kit.table(rows, widths_mm=(26, 40, 34, 80))


def _say_times(gauge: GaugeDesign, times: float, reader: Reader, words: Phrases) -> str:
    """Hold *clean me* over clean against what other filter gauges are marked with."""
    low, high = USUAL_TIMES
    said = {"times": f"{times:.1f}", "low": f"{low:.0f}", "high": f"{high:.0f}"}
    if times <= high:
        return words("times_usual", **said)
    clean = next(mark.pressure_pa for mark in gauge.card.marks if mark.key == "clean")
    return words("times_above", **said, reading=write_amount(high * clean, "pressure_pa", reader))


def _say_both(pressure_pa: float, reader: Reader, words: Phrases) -> str:
    if pressure_pa == 0:
        return "0"
    small = 3 if pressure_pa < 24 else 2
    inch = write_amount(pressure_pa, "pressure_pa", Reader("inch"), digits=small)
    metric = write_amount(pressure_pa, "pressure_pa", Reader("metric"))
    first, second = (inch, metric) if reader.system == "inch" else (metric, inch)
    return words("both_units", first=first, second=second)


def _say_travel(mark: Mark, reader: Reader, words: Phrases) -> str:
    if mark.key == "still":
        return "-"
    travel = write_length(mark.travel_mm, reader)
    return travel if mark.fits else words("travel_beyond", travel=travel)


def _list_reading_steps(job: Job, card: Card, words: Phrases) -> list[str]:
    rising = job.gauge.rising_leg
    by_kind = {
        "u-tube": [words("slide_u_tube"), words(f"read_u_tube_{rising}_rises")],
        "u-tube one leg": [words(f"slide_one_leg_{rising}_rises"), words("read_one_leg")],
        "inclined": [words("slide_inclined"), words("read_inclined")],
        "well": [words("slide_well"), words("read_well")],
    }[card.instrument.kind]
    edge = "edge_oil" if job.project.gauge.fluid == "light oil" else "edge_water"
    return [words("zero"), *by_kind, words(edge), _say_error(card, job.reader, words)]


def _say_error(card: Card, reader: Reader, words: Phrases) -> str:
    error = write_amount(card.error_pa, "pressure_pa", reader)
    if card.error_share > 1:
        return words("error_whole", error=error)
    if card.error_share < 0.005:
        return words("error_small", error=error)
    return words("error_share", error=error, share=write_amount(card.error_share, "share", reader, digits=0))


def _say_advice(job: Job, gauge: GaugeDesign, words: Phrases) -> list[str]:
    """Return what the advised card does better, if one is advised."""
    advised = gauge.advised
    if advised is None:
        return []
    share = write_amount(advised.error_share, "share", job.reader, digits=0)
    lines = [words("advised", run=f"{1 / advised.instrument.slope:.0f}", share=share)]
    return lines if all(mark.fits for mark in advised.marks) else [*lines, words("advised_beyond")]


def _tell_meaning(kit: Kit, gauge: GaugeDesign, separator: bool, words: Phrases) -> Any:
    signs = PRESSURE_SIGNS if gauge.side == "pressure" else SUCTION_SIGNS
    means = {sign: words(f"means_{sign}") for sign in signs}
    if "less_air" in means and not separator:
        means["less_air"] = words("means_less_air_no_separator")
    rows = [[words(f"see_{sign}"), means[sign]] for sign in signs]
    return kit.table([[words("column_see"), words("column_means")], *rows], widths_mm=(34, 146))


def _tell_gates(kit: Kit, gauge: GaugeDesign, words: Phrases) -> Any:
    reader = kit.reader
    columns = ("open", "flow", "clean", "between", "clean_me")
    rows: list[list[Any]] = [[words(f"column_{name}") for name in columns]]
    for row in (row for row in gauge.readings if row.name != ALL_OPEN):
        low, high = (write_amount(p, "pressure_pa", reader, unit=False) for p in (row.reading.low, row.reading.high))
        rows.append(
            [
                words("read_here", machine=row.name) if row.name == gauge.read_at else row.name,
                write_amount(row.flow.best, "flow_m3s", reader),
                write_amount(row.reading.best, "pressure_pa", reader),
                words("between", low=low, high=high),
                write_amount(row.clean_me_pa, "pressure_pa", reader),
            ]
        )
    return kit.table(rows, widths_mm=(56, 28, 32, 32, 32), align="lrrrr")


def _list_tube(job: Job, gauge: GaugeDesign, words: Phrases) -> list[str]:
    reader, tube, asked = job.reader, gauge.card.tube, job.project.gauge
    soap = [words("soap")] if asked.fluid in ("water", "dyed water") else []
    density = write_amount(gauge.liquid_kgm3, "density_kgm3", Reader("metric"))
    bore, length, above = (write_length(mm, reader) for mm in (asked.tube_bore_mm, tube.length_mm, tube.above_mm))
    survives = "survives_filters" if gauge.side == "pressure" else "survives_gates"
    lines = [
        words(
            "liquid", fluid=words(f"fluid_{spell_key(asked.fluid)}"), density=density, amount=write_fill(gauge, reader)
        ),
        *soap,
        words("tube_length", bore=bore, length=length, above=above),
        words(survives, highest=write_amount(tube.highest_pa, "pressure_pa", reader)),
    ]
    if gauge.card.both_ways or gauge.card.instrument.kind == "u-tube one leg":
        lines += [words("below", below=write_length(tube.below_mm, reader)), words("unlike_bore")]
    return lines


def _say_companion(card: Card, companion: Card, words: Phrases) -> str:
    if companion.joined:
        return words("companion_strips")
    if {card.instrument.kind, companion.instrument.kind} == {"u-tube", "u-tube one leg"}:
        return words("companion_one_leg")
    return words("companion_upright")

"""The water gauge: how to read it, what it says at each gate, its cards at full size and the board behind it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.airflow.scenarios import ALL_OPEN
from calc.gauges.cards import Card, Mark
from calc.gauges.gauge import Instrument
from calc.gauges.gauge_design import U_TUBES, USUAL_TIMES, GaugeDesign
from calc.measures.quantity import Reader, write_amount, write_length
from packet.bill.gauge_fill import write_fill
from packet.job import AirJob, GaugeJob
from packet.pages.gauge_boards import tell_boards
from packet.pages.gauge_sheets import make_sheets, name_way
from packet.words.amounts import full_band
from packet.words.phrases import Phrases, take_words
from packet.words.say import say

if TYPE_CHECKING:
    from packet.pages.kit.kit import Kit

SAME_AIR = 0.001  # a share of the air that no figure shows
WORDS_WIDE_MM = 93.0  # for the words on tube and liquid, beside the board
SIGNS = ("steady_filters", "loading", "caked", "less_air", "nothing")


def make_story(job: GaugeJob, kit: Kit) -> list[Any]:
    """Return the gauge's pages: words and tables, the cards at full size, the board."""
    gauge, words = job.gauge, take_words("gauge_cards", job.reader.language)
    by = name_way(job)
    story: list[Any] = [
        kit.heading(words("title")),
        kit.text(words(f"condition{by}", machine=gauge.read_at), "lead"),
        *_tell_clean_me(job, kit, words),
        *_tell_choice(job, kit, gauge, words),
        _tell_marks(kit, gauge, by, words),
        kit.heading(words("reading"), 2),
        *kit.bullets(_list_reading_steps(job, gauge, words)),
        kit.heading(words("meaning"), 2),
        _tell_meaning(job, kit, gauge, by, words),
        *([kit.heading(words(f"gates{by}"), 2), _tell_gates(kit, gauge, by, words)] if gauge.readings else []),
        *(_tell_more_air(job, kit, words) if isinstance(job, AirJob) else []),
    ]
    tube: list[Any] = [kit.heading(words("tube"), 2), *kit.bullets(_list_tube(job, gauge, words))]
    board, figures = tell_boards(job, kit, gauge)
    wide = kit.frame_width_mm - WORDS_WIDE_MM
    story.append(kit.columns([[*tube, *figures[1:]], [*board, *figures[:1]]], (WORDS_WIDE_MM, wide)))
    if gauge.companion is not None and len(gauge.boards) == 1:
        one_leg = "companion_strips" if gauge.companion.joined else "companion_one_leg"
        story.append(kit.signal("NOTICE", words(one_leg)))
    if gauge.strips:
        story.append(kit.signal("NOTICE", words("strips", count=len(gauge.strips) + 1)))
    return [*story, *make_sheets(job, kit, _title_cards(gauge, words))]


def _tell_clean_me(job: GaugeJob, kit: Kit, words: Phrases) -> list[Any]:
    """Say where CLEAN ME stands and why there; where it cannot be read, what tells in its place."""
    if not isinstance(job, AirJob):
        return [kit.text(_say_why(job, words))]
    gauge, clean_me, why = job.gauge, job.sizing.filters.clean_me, say(job.sizing.filters.clean_me.why, kit.reader)
    why = why.rstrip(".")
    assert gauge is not None
    if gauge.signal != "gauge":
        hours = full_band(clean_me.hours_later, "time_h", kit.reader) if clean_me.hours_later else ""
        return [kit.signal("NOTICE", words("by_hours", hours=hours) if hours else words("by_nothing"))]
    if clean_me.criterion != "dust load":
        return [kit.text(words("why", why=why))]
    rise = full_band(clean_me.rise, "pressure_pa", kit.reader)
    return [kit.text(words("why_full", why=why, rise=rise))]


def _say_why(job: GaugeJob, words: Phrases) -> str:
    """Say where the marks of a gauge for readings come from."""
    if job.gauge.signal != "gauge":
        return words("by_nothing")
    if job.gauge.drop is None:
        return words("why_read")
    return words("why_drop", share=write_amount(job.gauge.drop, "share", job.reader))


def _tell_choice(job: GaugeJob, kit: Kit, gauge: GaugeDesign, words: Phrases) -> list[Any]:
    """Say which gauge is built where it is not the one asked for, and why there are two."""
    reader, fine = job.reader, gauge.finest
    share = write_amount(fine.error_share, "share", reader, digits=0)
    told = []
    if gauge.instead_of is not None:
        asked, run = _name_instrument(gauge.instead_of, words), f"{1 / fine.instrument.slope:.3g}"
        told.append(words("instead", asked=asked, run=run, share=share))
    if len(gauge.boards) > 1:
        other = next(card for card in gauge.boards if card != fine)
        kinds = {"fine": _name_kind(fine, words), "other": _name_kind(other, words)}
        told.append(words("two", **kinds, share=share))
        if gauge.companion is not None and gauge.companion.joined:
            told.append(words("companion_strips"))
    return [kit.signal("NOTICE", " ".join(told))] if told else []


def _title_cards(gauge: GaugeDesign, words: Phrases) -> list[tuple[Card, str]]:
    """Return every card with its title, in the order they are printed."""
    cards = [card for card in (gauge.card, gauge.sloping, gauge.companion) if card is not None]
    titles = [(card, _name_kind(card, words)) for card in cards]
    titles += [(strip, words("title_strip", number=number)) for number, strip in enumerate(gauge.strips, 2)]
    return [(card, words("card_title", kind=kind)) for card, kind in titles]


def _name_instrument(instrument: Instrument, words: Phrases) -> str:
    kind = words(f"kind_{spell_key(instrument.kind)}")
    return words("asked_slope", kind=kind, run=f"{1 / instrument.slope:.3g}") if instrument.slope < 1.0 else kind


def _name_kind(card: Card, words: Phrases) -> str:
    return words(f"kind_{spell_key(card.instrument.kind)}")


def spell_key(name: str) -> str:
    """Return a name as keys of phrases are spelt."""
    return name.replace(" ", "_").replace("-", "_")


def _tell_marks(kit: Kit, gauge: GaugeDesign, by: str, words: Phrases) -> Any:
    travel = "travel_each_leg" if gauge.card.both_ways and len(gauge.boards) == 1 else "travel"
    rows: list[list[Any]] = [[words(f"column_{name}") for name in ("mark", "reading", travel, "act")]]
    for mark in gauge.card.marks:
        act = words(f"act_too_high{by}") if mark.key == "too high" else words(f"act_{spell_key(mark.key)}")
        if mark.key == "clean me" and gauge.clean_me_times is not None:
            act += " " + _say_times(gauge, gauge.clean_me_times, kit.reader, words)
        reading = _say_both(mark.pressure_pa, kit.reader, words)
        rows.append([say(mark.words, kit.reader), reading, _say_travel(mark, gauge, kit.reader, words), act])
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
    inch = _write_small(pressure_pa, Reader("inch"))
    metric = write_amount(pressure_pa, "pressure_pa", Reader("metric"))
    first, second = (inch, metric) if reader.system == "inch" else (metric, inch)
    return words("both_units", first=first, second=second)


def _write_small(pressure_pa: float, reader: Reader) -> str:
    """Return a pressure, in inches of water finely enough that a small one is told."""
    digits = (3 if pressure_pa < 24 else 2) if reader.system == "inch" else None
    return write_amount(pressure_pa, "pressure_pa", reader, digits=digits)


def _say_travel(mark: Mark, gauge: GaugeDesign, reader: Reader, words: Phrases) -> str:
    """Say how far the liquid moves to a mark, and on which gauge where there are two: the finest that shows it."""
    if mark.key == "still":
        return "-"
    cards = sorted((gauge.finest, *gauge.boards), key=lambda card: card.error_share)
    shown = [(card, each) for card in cards for each in card.marks if each.key == mark.key]
    card, found = next((pair for pair in shown if pair[1].fits), shown[0])
    travel = write_length(found.travel_mm, reader)
    if not found.fits:
        return words("travel_beyond", travel=travel)
    return travel if len(gauge.boards) == 1 else words("travel_on", travel=travel, kind=_name_kind(card, words))


def _list_reading_steps(job: GaugeJob, gauge: GaugeDesign, words: Phrases) -> list[str]:
    by_kind = {
        "u-tube": [words("slide_u_tube"), words("read_u_tube")],
        "u-tube one leg": [words("slide_one_leg"), words("read_one_leg")],
        "inclined": [words("slide_inclined"), words("read_inclined")],
        "well": [words("slide_well"), words("read_well")],
    }
    edge = "edge_oil" if gauge.asked.fluid == "light oil" else "edge_water"
    if len(gauge.boards) == 1:
        how = by_kind[gauge.card.instrument.kind]
    else:
        how = [
            words("on_kind", kind=_name_kind(card, words), how=" ".join(by_kind[card.instrument.kind]))
            for card in gauge.boards
        ]
    lines = [
        words("zero_hose" if name_way(job) else "zero"),
        *how,
        words(edge),
        _say_error(gauge.finest, job.reader, words),
    ]
    ends = any(mark.key == "too high" and not mark.fits for mark in gauge.card.marks)
    return [*lines, words("above_card")] if ends and len(gauge.cards) == 1 else lines


def _say_error(card: Card, reader: Reader, words: Phrases) -> str:
    error = _write_small(card.error_pa, reader)
    if card.error_share > 1:
        return words("error_whole", error=error)
    if card.error_share < 0.005:
        return words("error_small", error=error)
    return words("error_share", error=error, share=write_amount(card.error_share, "share", reader, digits=0))


def _tell_meaning(job: GaugeJob, kit: Kit, gauge: GaugeDesign, by: str, words: Phrases) -> Any:
    means = {sign: words(f"means_{sign}") for sign in SIGNS}
    if gauge.signal != "gauge":
        means["loading"] = words("means_loading_hours")
    separator = job.project.separator
    none = "_no_separator" if separator is not None and separator.kind == "none" else ""
    means["less_air"] = words(f"means_less_air{none}{by}")
    means["caked"] = words(f"means_caked{by}")
    rows = [[words(f"see_{sign}"), means[sign]] for sign in SIGNS]
    return kit.table([[words("column_see"), words("column_means")], *rows], widths_mm=(34, 146))


def _tell_gates(kit: Kit, gauge: GaugeDesign, by: str, words: Phrases) -> Any:
    reader = kit.reader
    marked = gauge.signal == "gauge"
    columns = ("open", "flow", "clean", "between", *(["clean_me"] if marked else []))
    rows: list[list[Any]] = [[words(f"column_{name}") for name in columns]]
    rows[0][0] = words(f"column_open{by}")
    for row in (row for row in gauge.readings if row.name != ALL_OPEN):
        low, high = (write_amount(p, "pressure_pa", reader, unit=False) for p in (row.reading.low, row.reading.high))
        rows.append(
            [
                words("read_here", machine=row.name) if row.name == gauge.read_at else row.name,
                write_amount(row.flow.best, "flow_m3s", reader),
                write_amount(row.reading.best, "pressure_pa", reader),
                words("between", low=low, high=high),
                *([write_amount(row.clean_me_pa, "pressure_pa", reader)] if marked else []),
            ]
        )
    widths = (56, 28, 32, 32, 32)[: len(columns)]
    return kit.table(rows, widths_mm=widths, align="lrrrr"[: len(columns)])


def _tell_more_air(job: AirJob, kit: Kit, words: Phrases) -> list[Any]:
    """Say why the blower moves more than the machine gets, where it does."""
    alone = [scenario for scenario in job.sizing.scenarios if scenario.kind == "alone"]
    more = [s for s in alone if s.flow.best > s.get_machine(s.name).flow.best * (1 + SAME_AIR)]
    gated = {machine.gate is not None for machine in job.project.machines}
    way = "" if gated == {True} else "_open" if gated == {True, False} else "_hose"
    return [kit.text(words(f"more_air{way}"), "small")] if more else []


def _list_tube(job: GaugeJob, gauge: GaugeDesign, words: Phrases) -> list[str]:
    """Return liquid and tube of the gauges that are built, as the bill has them."""
    reader, asked = job.reader, gauge.asked
    amount = write_fill(gauge, reader)
    soap = [words("soap")] if asked.fluid in ("water", "dyed water") else []
    density = write_amount(gauge.liquid_kgm3, "density_kgm3", Reader("metric"))
    bore = write_length(asked.tube_bore_mm, reader)
    fills = "liquid" if len(gauge.boards) == 1 else "liquid_both"
    lines = [words(fills, fluid=words(f"fluid_{spell_key(asked.fluid)}"), density=density, amount=amount), *soap]
    for card in gauge.boards:
        length, above = write_length(card.tube.length_mm, reader), write_length(card.tube.above_mm, reader)
        told = words("tube_length", bore=bore, length=length, above=above)
        lines.append(told if len(gauge.boards) == 1 else words("on_kind", kind=_name_kind(card, words), how=told))
    lines.append(words("survives", highest=write_amount(gauge.card.tube.highest_pa, "pressure_pa", reader)))
    for card in gauge.boards:
        if card.instrument.kind in U_TUBES:
            lines += [words("below", below=write_length(card.tube.below_mm, reader)), words("unlike_bore")]
    return lines

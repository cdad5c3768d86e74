"""The gauge of a shop: slope advice, tube, marks, board."""

from __future__ import annotations

import datetime
import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.finding import Verdict
from calc.gauges.cards import LEG_GAP_MM
from calc.gauges.gauge import (
    READ_WITHIN,
    Instrument,
    advise_slope,
    find_pressure,
    find_reading_error,
    find_travel,
    make_instrument,
    size_tube,
)
from calc.gauges.gauge_board import design_lid_board, design_wall_board, find_least_hang
from calc.gauges.gauge_design import design_gauge
from calc.gauges.gauge_parts import make_gauge_parts
from calc.measures.quantity import Reader
from calc.record.entries import Answer, Entry, Record, find_baseline
from calc.shapes.shapes import Layer
from packet.words.say import say
from tests.shop import INH2O, make_project, make_sizing

KINDS = ["u-tube", "u-tube one leg", "inclined", "well"]


@given(st.sampled_from(KINDS), st.floats(1, 5000), st.floats(700, 1200), st.floats(0.05, 1.0))
def test_travel_and_pressure_are_inverse_and_monotone(kind, pressure: float, density: float, slope: float) -> None:
    instrument = make_instrument(kind, density, 1.2, 6.0, slope=slope)
    assert find_pressure(instrument, find_travel(instrument, pressure)) == pytest.approx(pressure)
    assert find_travel(instrument, 1.01 * pressure) > find_travel(instrument, pressure)


@given(st.floats(12, 3000))
def test_advised_slope_reads_the_clean_mark_to_five_percent(clean: float) -> None:
    upright = make_instrument("u-tube", 998.0, 1.2, 6.0)
    slope = advise_slope(upright, clean)
    assert slope is not None
    best = upright if slope == 1.0 else make_instrument("inclined", 998.0, 1.2, 6.0, slope=slope)
    assert find_reading_error(best) / clean <= READ_WITHIN + 1e-9


def test_no_slope_is_advised_for_what_no_eye_can_read() -> None:
    assert advise_slope(make_instrument("u-tube", 998.0, 1.2, 6.0), 2.0) is None


@pytest.mark.parametrize("words", [{"slope": 1.5}, {"slope": -0.1}])
def test_impossible_slopes_are_refused(words: dict) -> None:
    with pytest.raises(ValueError, match="slope"):
        make_instrument("inclined", 998.0, 1.2, 6.0, **words)


def test_well_must_be_wider_than_the_tube() -> None:
    with pytest.raises(ValueError, match="wider"):
        make_instrument("well", 998.0, 1.2, 6.0, well_bore_mm=6.0)


@pytest.mark.parametrize("kind", KINDS)
def test_tube_holds_shut_off_with_a_quarter_to_spare(kind) -> None:
    instrument = make_instrument(kind, 998.0, 1.2, 6.0, slope=0.2)
    worst = 11.6 * INH2O
    tube = size_tube(instrument, worst, 100.0, LEG_GAP_MM)
    column = 1000 * worst / ((998.0 - 1.2) * 9.80665)
    rise = column / 2 if kind.startswith("u-tube") else column
    assert tube.above_mm >= 1.25 * rise
    if kind.startswith("u-tube"):
        assert tube.below_mm >= 1.25 * rise
        assert tube.length_mm >= 2 * (tube.above_mm + tube.below_mm)
    assert tube.liquid_m3 > 0


@pytest.mark.parametrize("kind", KINDS)
def test_marks_stand_in_order_and_say_whether_they_fit(kind) -> None:
    project = make_project()
    design = design_gauge(replace(project, gauge=replace(project.gauge, kind=kind)), make_sizing())
    travels = [mark.travel_mm for mark in design.card.marks]
    assert [mark.key for mark in design.card.marks] == ["still", "clean", "clean me", "too high"]
    assert travels == sorted(travels)
    assert all(mark.fits == (mark.travel_mm <= design.card.scale_mm) for mark in design.card.marks)
    assert design.readings[0].name == "planer"


def test_small_clean_reading_brings_a_sloping_card() -> None:
    design = design_gauge(make_project(), make_sizing(clean=0.1))
    assert design.sloping is not None
    assert design.sloping.error_share <= READ_WITHIN < design.card.error_share
    assert design.boards == (design.card, design.sloping), "CLEAN ME lies beyond the sloping card: two are built"
    readable = next(f for f in design.findings if f.key == "gauge.readable")
    assert readable.verdict is Verdict.FITS, "judged on the sloping tube that is built beside it"
    assert "a tube at a slope of 1 in 10 is added" in say(readable.why, Reader("inch"))


def test_a_sloping_tube_that_shows_clean_me_is_built_in_place_of_the_one_asked_for() -> None:
    """0.4 inH2O is 10.2 mm of water: 19.9 mm along 1 in 2 on a jar, where 20 are wanted, and 29.6 mm along 1 in 3."""
    project = make_project()
    project = replace(project, gauge=replace(project.gauge, kind="u-tube", mount="lid"))
    design = design_gauge(project, make_sizing(clean=0.4, clean_me=1.4))
    assert design.instead_of is not None
    assert design.instead_of.kind == "u-tube"
    assert design.boards == design.cards == (design.card,)
    assert (design.card.instrument.kind, design.card.instrument.slope) == ("inclined", 1 / 3)
    assert not design.on_lid, "a slope is levelled on the wall, not on a lid that turns"
    assert [part.name for part in make_gauge_parts(project, design)] == ["gauge board", "gauge bracket"]
    why = say(next(f for f in design.findings if f.key == "gauge.readable").why, Reader("inch"))
    assert "on the U-tube gauge asked for" in why
    assert "a slope of 1 in 3 is built in its place" in why


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize(("clean", "clean_me"), [(0.05, 1.8), (0.2, 1.9), (0.4, 1.4), (0.9, 2.0), (6.0, 20.0)])
def test_never_more_than_two_gauges_and_every_mark_is_on_one(kind, clean: float, clean_me: float) -> None:
    project = make_project()
    gauge = replace(project.gauge, kind=kind, slope=None)
    design = design_gauge(replace(project, gauge=gauge), make_sizing(clean, clean_me, shut_off=2 * clean_me))
    assert len(design.boards) <= 2
    for key in ("clean", "clean me"):
        assert any(mark.fits for card in design.cards for mark in card.marks if mark.key == key)


@pytest.mark.parametrize(("clean", "verdict"), [(0.01, Verdict.TIGHT), (0.007, Verdict.DOES_NOT_FIT)])
def test_clean_reading_that_no_slope_mends_is_never_called_good(clean: float, verdict: Verdict) -> None:
    """0.01 in is 0.25 mm of water: at 1 in 20, the flattest worth making, with a jar for a well 4.2 mm; half a
    millimetre twice is 24 % of it. 0.007 in: 34 %."""
    design = design_gauge(make_project(), make_sizing(clean=clean))
    readable = next(f for f in design.findings if f.key == "gauge.readable")
    assert design.sloping is not None
    assert design.sloping.instrument.slope == 1 / 20
    assert readable.verdict is verdict
    assert readable.mends


def test_marks_the_eye_cannot_tell_apart_are_not_drawn_and_the_hours_tell_instead() -> None:
    """0.004 in is 1.0 Pa, 1.7 mm along 1 in 20 on a jar: two misreadings of a millimetre cover it."""
    design = design_gauge(make_project(), make_sizing(clean=0.1, clean_me=0.104))
    assert design.signal == "hours"
    assert all(mark.key != "clean me" for card in design.cards for mark in card.marks)
    findings = {f.key: f for f in design.findings}
    assert findings["gauge.signal"].verdict is Verdict.TIGHT
    assert "machines running" in say(findings["gauge.signal"].mends[0], Reader("inch"))
    assert not {"gauge.readable", "gauge.travel", "gauge.clean_me"} & set(findings), "an unread gauge is not praised"


def test_a_gauge_without_hours_to_fall_back_on_does_not_fit() -> None:
    sizing = make_sizing(clean=0.1, clean_me=0.104)
    clean_me = replace(sizing.filters.clean_me, hours_first=None, hours_later=None)
    design = design_gauge(make_project(), replace(sizing, filters=replace(sizing.filters, clean_me=clean_me)))
    assert design.signal == "none"
    assert next(f for f in design.findings if f.key == "gauge.signal").verdict is Verdict.DOES_NOT_FIT


def test_a_slope_is_chosen_on_which_the_rise_is_seen() -> None:
    """CLEAN at 1.0 in stands well on any tube; 0.04 in above it is 1.0 mm of water: 1.99 mm along 1 in 2 on a jar,
    where 2 are wanted, and 2.96 mm along 1 in 3."""
    design = design_gauge(make_project(), make_sizing(clean=1.0, clean_me=1.04))
    assert design.signal == "gauge"
    assert design.card.instrument.kind == "inclined"
    assert design.card.instrument.slope == 1 / 3


def test_large_clean_reading_needs_no_other_card() -> None:
    design = design_gauge(make_project(), make_sizing(clean=1.2, clean_me=2.4))
    assert design.sloping is design.instead_of is None
    assert next(f for f in design.findings if f.key == "gauge.readable").verdict is Verdict.FITS


def test_frost_and_short_tube_are_found() -> None:
    project = make_project()
    cold = replace(
        project, shop=replace(project.shop, temperature_k=268.15), gauge=replace(project.gauge, tube_length_mm=500.0)
    )
    verdicts = {f.key: f.verdict for f in design_gauge(cold, make_sizing()).findings}
    assert verdicts["gauge.frost"] is Verdict.DOES_NOT_FIT
    assert verdicts["gauge.tube"] is Verdict.DOES_NOT_FIT
    long = replace(project, gauge=replace(project.gauge, tube_length_mm=3000.0, fluid="glycol mix"))
    verdicts = {f.key: f.verdict for f in design_gauge(long, make_sizing()).findings}
    assert verdicts["gauge.tube"] is Verdict.FITS
    assert "gauge.frost" not in verdicts


def test_lid_board_hangs_plumb_inside_the_lid() -> None:
    project = make_project()
    card = design_gauge(project, make_sizing()).card
    closure, fitting = project.ports[3].closure, project.gauge.fitting_hole_mm
    board = design_lid_board(card, closure, fitting, LEG_GAP_MM)
    assert board.pivot_up_mm > board.gravity_up_mm
    assert board.off_plumb_deg <= 2.0
    assert board.radius_mm + abs(board.pivot_up_mm) <= closure.lid_mm / 2  # also while the lid turns
    assert board.pivot_hole_mm > fitting
    # Second route: the board's moment at that angle equals the friction moment (weight taken as 1).
    turning = board.hang_mm * math.sin(math.radians(board.off_plumb_deg))
    assert turning == pytest.approx(0.3 * fitting / 2)
    assert find_least_hang(0.3, 2.1, 1.0) == pytest.approx(36.1, abs=0.05)
    # Centre of gravity by moments about the board's middle.
    moment = sum(part.mass_kg * (part.up_mm - board.gravity_up_mm) for part in board.parts)
    assert moment == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("kind", KINDS)
def test_wall_board_has_room_for_the_tube(kind) -> None:
    project = make_project()
    asked = replace(project, gauge=replace(project.gauge, kind=kind))
    card = design_gauge(asked, make_sizing(clean=1.7, clean_me=2.6)).card  # what one leg can be read at
    assert card.instrument.kind == kind
    board = design_wall_board(card, LEG_GAP_MM)
    for across, up in (*board.clips, *board.screws):
        assert 0 < across < board.width_mm
        assert 0 < up < board.height_mm
    if kind == "inclined":
        (x0, y0), (x1, y1) = board.low_end, board.clips[-1]
        assert math.hypot(x1 - x0, y1 - y0) == pytest.approx(card.tube.along_mm)
        assert (y1 - y0) / card.tube.along_mm == pytest.approx(card.instrument.slope)
    else:
        assert board.height_mm - board.zero_up_mm >= card.tube.above_mm
        assert board.zero_up_mm >= card.tube.below_mm + (LEG_GAP_MM / 2 if "u-tube" in kind else 0)


def test_boards_are_parts_to_cut() -> None:
    project, sizing = make_project(), make_sizing(clean=0.1)
    wall, sloping, bracket = make_gauge_parts(project, design_gauge(project, sizing))
    assert (wall.number, sloping.number, bracket.number) == ("M1", "M2", "M3")
    assert bracket.quantity == 4, "one to each of two boards' two screws"
    on_lid = replace(project, gauge=replace(project.gauge, mount="lid"))
    lid, _, behind = make_gauge_parts(on_lid, design_gauge(on_lid, sizing))
    circles = [feature.shape.radius for feature in lid.features if feature.layer is Layer.CUT]
    assert circles == [pytest.approx(lid.sizes[0].mm / 2)]
    assert lid.full_size
    assert behind.quantity == 2
    drilled = [feature for feature in wall.features if feature.layer is Layer.DRILL]
    assert len(drilled) >= 8


def test_every_gauge_has_its_own_board() -> None:
    """A sloping tube that CLEAN ME leaves hangs beside an upright one: both boards are cut, and told apart."""
    project = make_project()
    steep = replace(project, gauge=replace(project.gauge, kind="inclined", slope=0.1))
    sloping, upright, bracket = make_gauge_parts(steep, design_gauge(steep, make_sizing(0.2, 1.9)))
    assert (sloping.name, upright.name, bracket.name) == ("sloping gauge board", "upright gauge board", "gauge bracket")
    assert bracket.quantity == 4
    holes = [feature.shape for feature in bracket.features if feature.layer is Layer.DRILL]
    assert len(holes) == 3
    wide = max(size.mm for size in bracket.sizes if size.what.phrase == "gauge_parts.wide")
    assert all(abs(hole.centre.x) + hole.radius < wide / 2 - 5.0 for hole in holes)


def test_one_leg_card_hangs_on_the_u_tubes_board_with_the_longer_tube() -> None:
    gauge = design_gauge(make_project(), make_sizing(6.0, 20.0, shut_off=40.0))
    (board,) = gauge.boards
    assert board.tube.above_mm == max(card.tube.above_mm for card in gauge.cards)


def test_one_leg_is_twice_as_coarse() -> None:
    both, one = Instrument("u-tube", 1000.0, 6.0), Instrument("u-tube one leg", 1000.0, 6.0)
    assert find_reading_error(one) == pytest.approx(2 * find_reading_error(both))


@pytest.mark.parametrize("criterion", ["flow drop", "dust load"])
def test_measured_baseline_moves_the_clean_mark_and_what_the_dust_adds_to_it(criterion: Any) -> None:
    """Where air is lost CLEAN ME is a pressure of blower and ducts; where pleats are full it is the dust's, on top."""
    project, sizing = make_project(), make_sizing(clean=0.9)
    clean_me = replace(sizing.filters.clean_me, criterion=criterion)
    sizing = replace(sizing, filters=replace(sizing.filters, clean_me=clean_me))
    answers = {"baseline.reading": Answer("baseline.reading", "250 Pa", "pressure_pa", 250.0)}

    def design(**more: Answer):
        entry = Entry(
            date=datetime.date(2026, 4, 1), by="Jo", kind="test", revision="B", digest="", answers={**answers, **more}
        )
        return design_gauge(project, sizing, find_baseline(Record((entry,)))).card.marks

    drawn = design_gauge(project, sizing).card.marks
    marks = design()
    assert (say(marks[1].words, Reader("inch")), marks[1].pressure_pa) == ("CLEAN, MEASURED", 250.0)
    rise = 0.9 * INH2O  # 1.8 inH2O less 0.9
    assert marks[2].pressure_pa == pytest.approx(drawn[2].pressure_pa if criterion == "flow drop" else 250.0 + rise)
    loaded = design(**{"baseline.clean": Answer("baseline.clean", "no", "yes no", yes=False)})
    assert loaded[1] == drawn[1], "a baseline taken with loaded filters is none"


def test_a_gauge_that_hardly_moves_still_has_a_card() -> None:
    card = design_gauge(make_project(), make_sizing(clean=0.01, clean_me=0.03)).card
    assert card.scale_mm >= 30
    assert all(mark.fits for mark in card.marks)


def test_travel_is_that_of_the_instrument_asked_for() -> None:
    """12.7 mm of water is 0.5 inH2O (conventional), and 63.5 mm along a tube that rises 1 in 5."""
    project = replace(make_project(), gauge=replace(make_project().gauge, kind="inclined", slope=0.2, fluid="water"))
    upright = replace(project, gauge=replace(project.gauge, kind="u-tube"))
    sizing = make_sizing(clean=0.9, clean_me=1.4)
    sloped, plain = (
        next(f for f in design_gauge(one, sizing).findings if f.key == "gauge.travel") for one in (project, upright)
    )
    assert plain.value is not None
    assert plain.value.value == pytest.approx(12.7, rel=0.005)
    assert sloped.value is not None
    assert sloped.value.value == pytest.approx(63.5, rel=0.05)  # the well sinks a little
    assert plain.verdict is Verdict.FITS
    near = next(
        f for f in design_gauge(upright, make_sizing(clean=0.9, clean_me=1.2)).findings if f.key == "gauge.travel"
    )
    assert near.verdict is Verdict.TIGHT, "7.6 mm can be seen, not read to a tenth"

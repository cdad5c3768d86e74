"""The record held against the design: tolerances, the project as measured, readings read, the trend."""

from __future__ import annotations

import datetime
from dataclasses import replace
from functools import cache

import pytest

from calc.airflow.system import System
from calc.box.box import settle_box
from calc.finding import Band, Said, Verdict
from calc.gauges.gauge_design import design_gauge
from calc.measures.quantity import Reader
from calc.project import Hose
from calc.record.as_built import apply_record, compare_built, find_designed, find_tolerance
from calc.record.diagnosis import diagnose, diagnose_reading, find_clean_flow, find_load
from calc.record.entries import Answer, Entry, Record
from calc.record.questions import KIND_BY_KEY, KIND_BY_STEM, find_kind, list_questions
from calc.record.review import review_record
from calc.record.trend import draw_trend, list_due
from packet.words.say import say
from tests.shop import CFM, make_project, settle_and_size

INCH = Reader("inch")
WIDTH = Said("questions.box_width")

DAY = datetime.date
INH2O = 249.08891


@cache
def load():
    project = settle_box(make_project())
    return project, settle_and_size(project)


def write_down(date: datetime.date, kind: str = "test", **values: float | bool) -> Entry:
    """Return an entry; dots in keys are written as two underscores, spaces as one."""
    answers = {}
    for name, value in values.items():
        key = name.replace("__", ".").replace("_", " ")
        yes = value if isinstance(value, bool) else None
        answers[key] = Answer(
            key, str(value), find_kind(key) or "words", None if yes is not None else float(value), yes
        )
    return Entry(date=date, by="Jo", kind=kind, revision="B", digest="", answers=answers)


def test_every_question_has_a_kind_in_the_log() -> None:
    project, _ = load()
    for question in list_questions(project):
        if question.kind not in ("date",) and not question.key.endswith(".by"):
            assert find_kind(question.key) == question.kind, question.key
    assert find_kind("weather") is None
    assert find_kind("reading.") is None
    assert set(KIND_BY_KEY.values()) | set(KIND_BY_STEM.values())


@pytest.mark.parametrize(
    ("off", "verdict"),
    [
        (0.0, Verdict.FITS),
        (3.0, Verdict.FITS),
        (-3.0, Verdict.FITS),
        (3.1, Verdict.TIGHT),
        (-6.0, Verdict.TIGHT),
        (6.1, Verdict.DOES_NOT_FIT),
    ],
)
def test_tolerance_decides_the_verdict(off: float, verdict: Verdict) -> None:
    project, _ = load()
    record = Record((write_down(DAY(2026, 4, 1), "as built", box__width=project.box.width_mm + off),))
    (row,) = compare_built(project, record, {"box.width": WIDTH})
    assert row.verdict is verdict
    assert row.off == pytest.approx(off)
    assert row.tolerance == find_tolerance("box.width") == 3.0
    assert row.label == WIDTH


def test_latest_date_counts_and_later_in_the_log_wins_a_tie() -> None:
    project, _ = load()
    record = Record(
        (
            write_down(DAY(2026, 4, 3), box__width=1170.0),
            write_down(DAY(2026, 4, 1), box__width=1180.0),
            write_down(DAY(2026, 4, 3), box__width=1169.0),
        )
    )
    (row,) = compare_built(project, record, {"box.width": WIDTH})
    assert row.built.value == 1169.0


def test_measured_values_take_the_drawn_ones_place() -> None:
    project, _ = load()
    entry = write_down(
        DAY(2026, 4, 1),
        "as built",
        box__width=1170.0,
        box__panel=17.5,
        shop__ceiling=2500.0,
        filters__count=1.0,
        pail__filter_A=300.0,
        hose__planer=2.0,
        test__temperature=290.0,
        gauge__bore=8.0,
    )
    built = apply_record(project, Record((entry,)))
    assert built.box.width_mm == 1170.0
    assert built.box.depth_mm == project.box.depth_mm
    assert built.box.panel.thickness_mm == 17.5
    assert built.shop.ceiling_mm == 2500.0
    assert built.shop.temperature_k == 290.0
    assert built.filters[0].count == 1
    assert built.ports[0].pail.across_mm == (300.0,)
    assert built.ports[1] == project.ports[1]
    hose = built.machines[0].pieces[0]
    assert isinstance(hose, Hose)
    assert hose.length_m == 2.0
    assert built.gauge.tube_bore_mm == 8.0
    assert apply_record(project, Record()) == project


def test_drawn_values_come_from_the_project() -> None:
    project, _ = load()
    said = find_designed(project)
    assert said["pail.inspection"].value == pytest.approx(37.3125 * 25.4 / 3.14159265, rel=1e-6)
    assert said["pail.filter A"].value == pytest.approx((300.83 + 301.75 + 301.63) / 3)
    assert said["filters.count"].value == 2
    assert said["hose.planer"].value == pytest.approx(1.524)


# --- readings ---------------------------------------------------------------------------------------------------------


def read(factor: float, **words):
    project, sizing = load()
    system = System(project, sizing.air)
    gate = sizing.gauge_at
    measured = factor * sizing.at_gauge.reading.best
    return diagnose_reading(system, sizing, gate, measured, DAY(2026, 4, 1), **words), sizing


def join(said) -> str:
    return " ".join(say(each, INCH) for each in said)


def test_reading_in_the_band_is_as_expected() -> None:
    found, sizing = read(1.0)
    assert found.seen == "as expected"
    assert found.verdict is Verdict.FITS
    # Second route: the flow deduced from the filters is the flow the network balanced.
    assert found.flow_m3s == pytest.approx(sizing.at_gauge.flow.best, rel=1e-3)


def test_low_reading_means_less_air_and_says_what_holds_it_back() -> None:
    found, sizing = read(0.2)
    assert found.seen == "low"
    assert found.verdict is Verdict.DOES_NOT_FIT
    assert found.flow_m3s < 0.7 * sizing.at_gauge.flow.best
    assert "something holds the air back" in join(found.reasons)
    assert "gate half shut" in join(found.likely)


def test_a_clean_reading_a_little_below_the_band_is_no_alarm() -> None:
    """New cloth often lets more through than is stated: the reading alone never says that the air is held back."""
    _, sizing = read(1.0)
    found, _ = read(0.8 * sizing.at_gauge.reading.low / sizing.at_gauge.reading.best)
    assert found.seen == "low"
    assert found.verdict is Verdict.TIGHT
    assert "something holds the air back" not in join(found.reasons)
    assert "no alarm" in join(found.reasons)
    assert "Measure the air speed" in say(found.likely[0], INCH)


def test_a_measured_baseline_tells_what_the_other_gates_should_show() -> None:
    """The file's clean loss is good to a factor of six; once one gate is measured the others follow it to a tenth."""
    project, sizing = load()
    at, other = sizing.gauge_at, next(s for s in sizing.scenarios if s.kind == "alone" and s.name != sizing.gauge_at)
    baseline = 1.6 * sizing.at_gauge.reading.best
    name = f"reading__{other.name.replace(' ', '_')}"

    def look(share: float):
        values = {"baseline__reading": baseline, "baseline__clean": True, name: share * 1.6 * other.reading.best}
        (found,) = diagnose(project, sizing, Record((write_down(DAY(2026, 4, 1), **values),)))
        return found

    assert other.name != at
    assert look(1.0).seen == "as expected"
    assert look(1.0).expected.high < 1.2 * look(1.0).expected.low * 1.05
    assert look(0.7).seen == "low", "inside the band of what was computed, and yet too low for this cloth"


def test_low_reading_with_good_air_speed_is_a_leak() -> None:
    _, sizing = read(1.0)
    drop = next(d for d in sizing.at_gauge.ducts if d.place == sizing.gauge_at)
    found, _ = read(0.2, speed_ms=drop.speed.best)
    assert "Air goes round the filter" in say(found.likely[-1], INCH)
    assert "gate half shut" not in join(found.likely)
    blocked, _ = read(0.2, speed_ms=0.4 * drop.speed.best)
    assert "gate half shut" in join(blocked.likely)
    assert "Air goes round" not in join(blocked.likely)


def test_high_reading_is_followed_along_the_blowers_curve_to_a_load() -> None:
    project, sizing = load()
    stage = sizing.filters.loading[7]
    found = diagnose_reading(System(project, sizing.air), sizing, sizing.gauge_at, stage.reading_pa, DAY(2026, 4, 1))
    assert found.seen == "loaded"
    # The stage was made by loading the model; reading it back must give the same load and flow.
    share = found.reasons[-1].amounts["share"].value
    assert share == pytest.approx(stage.areal_kgm2 / sizing.filters.clean_me.areal_kgm2, rel=1e-3)
    assert found.flow_m3s == pytest.approx(stage.flow_m3s, rel=1e-3)


def test_marks_are_told_apart() -> None:
    project, sizing = load()
    system, gate = System(project, sizing.air), sizing.gauge_at
    mark = sizing.filters.clean_me.reading_pa
    seen = [diagnose_reading(system, sizing, gate, f * mark, DAY(2026, 4, 1)).seen for f in (0.0, 0.8, 1.0, 1.6)]
    assert seen == ["still", "loaded", "clean me", "too high"]


def test_reading_no_blower_can_make_is_said() -> None:
    project, sizing = load()
    system = System(project, sizing.air)
    found = diagnose_reading(system, sizing, sizing.gauge_at, 2 * sizing.blower.shut_off_pa, DAY(2026, 4, 1))
    assert "the blower cannot make it" in join(found.reasons)
    assert found.flow_m3s is None


def test_clean_filters_that_read_loaded_are_named() -> None:
    project, sizing = load()
    mark = sizing.filters.clean_me.reading_pa
    found = diagnose_reading(
        System(project, sizing.air), sizing, sizing.gauge_at, 0.8 * mark, DAY(2026, 4, 1), clean=True
    )
    assert found.verdict is Verdict.DOES_NOT_FIT
    assert "called clean" in say(found.likely[0], INCH)


def test_reading_of_another_gate_is_recognised() -> None:
    project, sizing = load()
    system = System(project, sizing.air)
    narrow = tuple(
        replace(s, reading=Band(0.99 * s.reading.best, s.reading.best, 1.01 * s.reading.best)) for s in sizing.scenarios
    )
    sizing = replace(sizing, scenarios=narrow)
    alone = sorted((s for s in narrow if s.kind == "alone"), key=lambda s: s.reading.best)
    low, high = alone[0], alone[-1]
    found = diagnose_reading(system, sizing, low.name, high.reading.best, DAY(2026, 4, 1))
    like = {s.name for s in narrow if s.reading.best > 0.95 * high.reading.best}
    assert found.likely[0].names["other"] in like
    assert "was that so?" in say(found.likely[0], INCH)


def test_every_recorded_gate_is_read() -> None:
    project, sizing = load()
    reading = sizing.at_gauge.reading.best
    entry = write_down(
        DAY(2026, 4, 1), **{f"reading__{sizing.gauge_at.replace(' ', '_')}": reading, "baseline__clean": True}
    )
    (found,) = diagnose(project, sizing, Record((entry,)))
    assert found.gate == sizing.gauge_at
    assert find_clean_flow(System(project, sizing.air), reading) == pytest.approx(found.flow_m3s)
    assert find_load(System(project, sizing.air), sizing.gauge_at, 1e9) is None


def test_earlier_trouble_is_kept_in_sight() -> None:
    project, sizing = load()
    best = sizing.at_gauge.reading.best
    key = f"reading__{sizing.gauge_at.replace(' ', '_')}"
    entries = [write_down(DAY(2026, 4, day), **{key: share * best}) for day, share in ((3, 1.0), (1, 0.2), (2, 1.0))]
    found = diagnose(project, sizing, Record(tuple(entries)))
    assert [(each.date.day, each.seen) for each in found] == [(1, "low"), (3, "as expected")]


# --- the trend --------------------------------------------------------------------------------------------------------


def clean_up(date: datetime.date, before: float, after: float, hours: float) -> Entry:
    return write_down(date, "cleaning", cleaning__before=before, cleaning__after=after, cleaning__hours=hours)


def make_log() -> Record:
    """Climb of exactly 2 Pa a day and 1 Pa an hour between cleanings."""
    return Record(
        (
            write_down(DAY(2026, 1, 1), baseline__reading=50.0, leak__lamp=True),
            write_down(
                DAY(2026, 2, 20), "cleaning", cleaning__before=150.0, cleaning__after=60.0, cleaning__hours=100.0
            ),
            write_down(DAY(2026, 3, 2), "cleaning", cleaning__before=80.0, cleaning__after=64.0, cleaning__hours=20.0),
        )
    )


def test_next_cleaning_is_predicted_from_the_climb_so_far() -> None:
    trend = draw_trend(make_log(), "planer", 264.0)
    assert trend.climb_pa_day == pytest.approx(2.0)
    assert trend.next_date == DAY(2026, 3, 2) + datetime.timedelta(days=100)
    assert trend.hours_left == pytest.approx(200.0)  # 100 Pa in 100 hours and 20 Pa in 20: 1 Pa an hour
    assert trend.creep_pa == pytest.approx(4.0)
    assert [p.kind for p in trend.points] == ["test", "before", "after", "before", "after"]


def test_too_little_gives_no_forecast() -> None:
    assert draw_trend(Record(), "planer", 300.0).next_date is None
    one = Record((write_down(DAY(2026, 1, 1), baseline__reading=50.0),))
    assert draw_trend(one, "planer", 300.0).next_date is None
    falling = Record((*one.entries, write_down(DAY(2026, 2, 1), reading__planer=40.0)))
    assert draw_trend(falling, "planer", 300.0).climb_pa_day is None
    crawling = Record((*one.entries, write_down(DAY(2026, 12, 1), reading__planer=50.01)))
    assert draw_trend(crawling, "planer", 300.0).next_date is None


def test_order_of_writing_does_not_matter() -> None:
    log = make_log()
    assert draw_trend(Record(log.entries[::-1]), "planer", 264.0) == draw_trend(log, "planer", 264.0)


def make_cleanings(*rows: tuple[str, float, float]) -> Record:
    """Return a log of cleanings: date, gauge before, gauge after [Pa]."""

    def entry(date: str, **values: float) -> Entry:
        answers = {f"cleaning.{k}": Answer(f"cleaning.{k}", "", "pressure_pa", v) for k, v in values.items()}
        return Entry(
            date=datetime.date.fromisoformat(date), by="", kind="cleaning", revision="B", digest="", answers=answers
        )

    return Record(tuple(entry(date, before=before, after=after) for date, before, after in rows))


def test_forecast_has_a_band_from_the_fastest_and_the_slowest_climb() -> None:
    """100 Pa after each cleaning; 100 Pa in 50 days, then 100 Pa in 100 days. From 100 to 300 Pa by pencil:
    at 2 Pa a day 100 days, at 1 Pa a day 200 days, at the mean of 200 Pa in 150 days 150 days."""
    log = make_cleanings(("2026-01-01", 250.0, 100.0), ("2026-02-20", 200.0, 100.0), ("2026-05-31", 200.0, 100.0))
    trend = draw_trend(log, "planer", 300.0)
    last = datetime.date(2026, 5, 31)
    assert trend.next_early == last + datetime.timedelta(days=100)
    assert trend.next_date == last + datetime.timedelta(days=150)
    assert trend.next_late == last + datetime.timedelta(days=200)
    assert trend.climbs == 2
    assert trend.rests_on_few


def test_a_single_climb_is_no_surer_than_the_eye() -> None:
    """100 Pa in 50 days, each reading off by 10 Pa: 80 to 120 Pa. 200 Pa more take 125, 100 or 83 days."""
    log = make_cleanings(("2026-01-01", 250.0, 100.0), ("2026-02-20", 200.0, 100.0))
    trend = draw_trend(log, "planer", 300.0, 10.0)
    assert trend.next_date is not None
    last = datetime.date(2026, 2, 20)
    assert [(date - last).days for date in (trend.next_early, trend.next_date, trend.next_late)] == [83, 100, 125]
    assert draw_trend(log, "planer", 300.0, 60.0).next_late is None
    assert trend.climbs == 1


def test_without_a_trend_the_next_cleaning_is_as_computed() -> None:
    log = make_cleanings(("2026-01-01", 250.0, 100.0))
    due = list_due(log, draw_trend(log, "planer", 300.0), 140.0)[0]
    assert due.date == datetime.date(2026, 1, 1) + datetime.timedelta(days=140)
    assert "as computed" in say(due.why, INCH)
    half = Record(
        (
            Entry(
                date=datetime.date(2026, 1, 1),
                by="",
                kind="cleaning",
                revision="B",
                digest="",
                answers={"cleaning.before": Answer("cleaning.before", "", "pressure_pa", 250.0)},
            ),
        )
    )
    due = list_due(half, draw_trend(half, "planer", 300.0), 140.0)[0]
    assert due.date is None
    assert "after the last cleaning" in say(due.why, INCH)


def test_what_is_due_comes_from_the_record() -> None:
    log = make_log()
    due = {say(each.what, INCH): each.date for each in list_due(log, draw_trend(log, "planer", 264.0))}
    assert due["Leak hunt with smoke"] == DAY(2026, 7, 2)
    assert due["Whole test, gate by gate"] == DAY(2027, 1, 1)
    assert due["Clean the filters"] == DAY(2026, 6, 10)
    empty = list_due(Record(), draw_trend(Record(), "planer", 264.0))
    assert {each.date for each in empty} == {None}


def test_review_sizes_again_only_what_changed() -> None:
    project, sizing = load()
    gauge = design_gauge(project, sizing)
    same = review_record(project, sizing, gauge, Record((write_down(DAY(2026, 4, 1), reading__planer=50.0),)), "abc")
    assert not same.resized
    longer = Record((write_down(DAY(2026, 4, 1), "as built", hose__planer=6.0),))
    review = review_record(project, sizing, gauge, longer, "abc")
    planer = next(row for row in review.resized if row.gate == "planer")
    other = next(row for row in review.resized if row.gate == "band saw")
    assert planer.built_m3s < planer.drawn_m3s - 10 * CFM
    assert other.built_m3s == pytest.approx(other.drawn_m3s, rel=1e-3)
    # Second route: the whole sizing of the changed project agrees.
    full = settle_and_size(apply_record(project, longer))
    assert planer.built_m3s == pytest.approx(full.get_alone("planer").get_machine("planer").flow.best, rel=1e-6)


def test_entries_of_another_state_are_strays() -> None:
    project, sizing = load()
    entry = write_down(DAY(2026, 4, 1), reading__planer=50.0)
    old = Entry(date=entry.date, by="Jo", kind="test", revision="A", digest="0" * 12, answers=entry.answers)
    assert review_record(project, sizing, design_gauge(project, sizing), Record((entry, old)), "abc").strays == (old,)

"""The sizing as a whole: verdicts by the band, gauge and loading, choices, remedies that mend and break nothing."""

from __future__ import annotations

import itertools
import math
from dataclasses import fields, is_dataclass, replace

import pytest

from calc import project as p
from calc.airflow.chains import BEST
from calc.airflow.scenarios import list_scenarios, solve_scenario
from calc.airflow.system import System
from calc.airflow.velocities import Limits
from calc.box.box import settle_box
from calc.finding import Amount, Said, Verdict
from calc.gauges.gauge_design import design_gauge
from calc.guess import round_as_said
from calc.measures.quantity import Reader
from calc.results import Sizing
from calc.sizing.checks import check_scenarios
from calc.sizing.choices import change_filters, change_runs, list_trunk
from calc.sizing.sizing import size_project
from packet.words.say import say
from tests.shop import make_project, make_shop, make_tree, settle_and_size

INCH = Reader("inch")


def make_caking() -> p.Project:
    """Return the sample with dust that cakes, so that the shop loses air before the pleats are full."""
    project = make_project()
    return replace(project, filters=(replace(project.filters[0], cake_resistance=4e6),))


@pytest.fixture(scope="module")
def sizing() -> Sizing:
    return settle_and_size(make_project())


def test_every_number_is_finite(sizing: Sizing) -> None:
    def walk(thing: object, path: str) -> None:
        if isinstance(thing, float):
            assert math.isfinite(thing), path
        elif is_dataclass(thing):
            for f in fields(thing):
                walk(getattr(thing, f.name), f"{path}.{f.name}")
        elif isinstance(thing, tuple):
            for i, one in enumerate(thing):
                walk(one, f"{path}[{i}]")

    walk(sizing, "sizing")


def list_said(thing: object) -> list[Said]:
    if isinstance(thing, Said):
        return [thing]
    if is_dataclass(thing):
        return [s for f in fields(thing) for s in list_said(getattr(thing, f.name))]
    if isinstance(thing, tuple):
        return [s for one in thing for s in list_said(one)]
    return []


def test_every_sentence_has_its_parts(sizing: Sizing) -> None:
    for said in list_said(sizing):
        assert "{" not in say(said, INCH)


def test_keys_are_steady_and_once(sizing: Sizing) -> None:
    keys = [f.key for f in sizing.findings]
    assert len(keys) == len(set(keys))
    assert {"flow.planer", "velocity.trunk", "blower.motor", "filter.air_to_media", "filter.hours"} <= set(keys)


def test_same_project_same_answer() -> None:
    assert settle_and_size(make_project()) == settle_and_size(make_project())


def test_reader_never_changes_a_result(sizing: Sizing) -> None:
    project = settle_box(make_project())  # what is marked out steps by the buyer's tape
    metric = replace(project, display=replace(project.display, system="metric"))
    other = settle_and_size(metric)
    assert other.scenarios == sizing.scenarios
    assert other.filters == sizing.filters
    assert [(f.key, f.verdict, f.value) for f in other.findings] == [
        (f.key, f.verdict, f.value) for f in sizing.findings
    ]


def test_band_encloses_best_everywhere(sizing: Sizing) -> None:
    for scenario in sizing.scenarios:
        bands = [
            scenario.flow,
            scenario.reading,
            *(m.flow for m in scenario.machines),
            *(d.speed for d in scenario.ducts),
        ]
        assert all(band.low <= band.best <= band.high for band in bands)
        assert scenario.residual_pa < 0.1


def test_reading_is_what_the_filters_lose(sizing: Sizing) -> None:
    scenario = sizing.at_gauge
    last_two = sum(row.loss_pa for row in scenario.ledger[-2:])
    assert scenario.reading.best == pytest.approx(last_two, rel=1e-9)
    assert scenario.reading_clean_me_pa == pytest.approx(sizing.filters.clean_me.reading_pa, rel=1e-6)


def test_reading_rises_and_flow_falls_as_filters_load(sizing: Sizing) -> None:
    points = sizing.filters.loading
    assert all(b.reading_pa > a.reading_pa and b.flow_m3s < a.flow_m3s for a, b in itertools.pairwise(points))


def test_clean_me_is_a_flow_drop_of_the_share_asked() -> None:
    sizing = settle_and_size(make_caking())
    clean_me = sizing.filters.clean_me
    assert clean_me.criterion == "flow drop"
    clean = sizing.at_gauge.get_machine(sizing.gauge_at).flow.best
    assert clean_me.flow_m3s == pytest.approx(clean * (1 - 0.12), rel=1e-6)


def test_clean_me_when_a_machine_first_misses_its_need() -> None:
    project = make_caking()
    project = replace(project, gauge=replace(project.gauge, clean_flow_drop=None))
    clean_me = settle_and_size(project).filters.clean_me
    assert clean_me.criterion in ("machine need", "transport velocity")
    system = System(project)
    limits = Limits(project, system.network)
    flows = {m.name: system.balance((m.name,), BEST, clean_me.areal_kgm2) for m in project.machines}
    if clean_me.criterion == "machine need":
        assert flows[clean_me.gate].flow[clean_me.gate] == pytest.approx(system.needs[clean_me.gate], rel=1e-6)
    clean = {m.name: system.balance((m.name,)) for m in project.machines}
    for machine in project.machines:
        name = machine.name
        diameter, flow = limits.find_drop(machine, flows[name])
        if clean[name].flow[name] >= machine.needs_m3s:
            assert flows[name].flow[name] >= machine.needs_m3s * (1 - 1e-6)
        del diameter, flow


@pytest.mark.parametrize("room", [0.999, 1.001, 1.03])
def test_a_need_barely_met_or_missed_is_no_sign_of_loaded_filters(room: float) -> None:
    project = make_caking()
    clean = System(project).balance(("planer",)).flow["planer"]
    machines = tuple(replace(m, needs_m3s=clean / room) if m.name == "planer" else m for m in project.machines)
    found = settle_and_size(replace(project, machines=machines)).filters.clean_me
    assert found.criterion == "flow drop"
    assert found.reading_pa == pytest.approx(settle_and_size(project).filters.clean_me.reading_pa, rel=1e-6)


def test_a_need_met_with_room_is_watched() -> None:
    project = make_caking()
    clean = System(project).balance(("planer",)).flow["planer"]
    machines = tuple(replace(m, needs_m3s=0.93 * clean) if m.name == "planer" else m for m in project.machines)
    found = settle_and_size(replace(project, machines=machines)).filters.clean_me
    assert (found.criterion, found.gate) == ("machine need", "planer")


def test_clean_me_inside_the_clean_readings_band_is_said() -> None:
    project = make_caking()
    early = replace(project, gauge=replace(project.gauge, clean_flow_drop=0.004))
    settled = settle_box(early)
    verdicts = {f.key: f.verdict for f in design_gauge(settled, size_project(settled)).findings}
    assert verdicts["gauge.clean_me"] is Verdict.TIGHT


def test_pleats_never_take_more_than_they_hold() -> None:
    """12.7 in outside, 9.4 in bore, 36 in high: 33.79 litres; a fifth of it at 190 kg/m3 is 1.284 kg on 19.51 m2."""
    project = make_project()
    machines = tuple(replace(m, needs_m3s=0.01, speed_ms=1.0) for m in project.machines)
    runs = replace(project.dust, main_speed_ms=1.0, branch_speed_ms=1.0)
    easy = replace(project, machines=machines, dust=runs, gauge=replace(project.gauge, clean_flow_drop=0.4))
    sizing = settle_and_size(easy)
    found = sizing.filters.clean_me
    assert found.criterion == "dust load"
    assert found.areal_kgm2 == pytest.approx(1.284 / 19.51, rel=1e-3)
    assert found.areal.low < found.areal.best < found.areal.high
    # 6 lb/h made, 1.5 % past the cyclone, four fifths of that on the pleats: 0.03266 kg/h; a fifth of it stays
    hours = 2 * 1.284 * 0.8 / (6 * 0.45359237 * 0.015 * 0.8)
    assert found.hours_later is not None
    assert found.hours_later.best == round_as_said(hours) == 60
    assert found.hours_later.low < 0.6 * hours
    assert found.hours_later.high > 1.5 * hours
    ahead = [row.hours.best for row in sizing.filter_choices if row.hours is not None]
    assert ahead == sorted(ahead)
    assert [ahead[0], ahead[3]] == [30, 120], "four filters hold four times as much"


def test_clean_me_at_the_medias_limit() -> None:
    project = make_caking()
    weak = replace(project, filters=(replace(project.filters[0], most_pa=100.0),))
    clean_me = settle_and_size(weak).filters.clean_me
    assert clean_me.criterion == "media limit"
    system = System(weak)
    flow = system.balance((clean_me.read_at,), BEST, clean_me.areal_kgm2).blower_flow
    assert system.bank.find_media(flow, BEST, clean_me.areal_kgm2) == pytest.approx(100.0, rel=1e-6)


def test_no_dust_no_hours() -> None:
    project = make_project()
    clean_me = settle_and_size(replace(project, separator=replace(project.separator, captures=1.0))).filters.clean_me
    assert clean_me.hours_first is None


def test_residual_dust_shortens_the_next_interval(sizing: Sizing) -> None:
    clean_me = sizing.filters.clean_me
    assert clean_me.hours_first is not None
    assert clean_me.hours_later is not None
    assert clean_me.hours_later.best == pytest.approx(0.8 * clean_me.hours_first.best, rel=0.13)  # both are rounded


def test_design_is_among_the_choices(sizing: Sizing) -> None:
    (row,) = (c for c in sizing.filter_choices if c.is_design)
    assert row.flow_m3s == pytest.approx(sizing.at_gauge.get_machine(sizing.gauge_at).flow.best, rel=1e-9)
    assert [c.count for c in sizing.filter_choices] == [1, 2, 3, 4, 5, 6]
    assert all(b.flow_m3s > a.flow_m3s for a, b in zip(sizing.filter_choices, sizing.filter_choices[1:], strict=False))
    (trunk,) = (c for c in sizing.trunk_choices if c.is_design)
    assert trunk.flow_m3s == pytest.approx(sizing.get_alone(trunk.machine).machines[0].flow.best, rel=1e-9)
    assert all(b.loss_pa < a.loss_pa for a, b in zip(sizing.trunk_choices, sizing.trunk_choices[1:], strict=False))
    assert all(c.flow_shorter_m3s > c.flow_m3s for c in sizing.hose_choices)


def test_choice_is_what_the_changed_project_gives(sizing: Sizing) -> None:
    four = settle_and_size(change_filters(make_project(), 4))
    (row,) = (c for c in sizing.filter_choices if c.count == 4)
    assert row.flow_m3s == pytest.approx(four.get_alone(sizing.gauge_at).machines[0].flow.best, rel=1e-9)
    assert row.hours == four.filters.clean_me.hours_later
    seven = settle_and_size(change_runs(make_project(), list_trunk(make_project()), 0.1778))
    (trunk,) = (c for c in sizing.trunk_choices if abs(c.diameter_m - 0.1778) < 1e-6)
    assert trunk.flow_m3s == pytest.approx(seven.get_alone(trunk.machine).machines[0].flow.best, rel=1e-9)


def test_remedies_mend_and_break_nothing(sizing: Sizing) -> None:
    assert sizing.remedies
    before = {f.key: f for f in sizing.findings}
    rank = {Verdict.FITS: 0, Verdict.TIGHT: 1, Verdict.DOES_NOT_FIT: 2}
    project = make_project()
    runs = frozenset(run.name for run in project.runs)
    after = {f.key: f for f in settle_and_size(change_runs(project, runs, 0.127)).findings}
    (remedy,) = (
        r for r in sizing.remedies if r.finding == "velocity.trunk" and r.what.phrase == "remedies.resize_all_runs"
    )
    assert after["velocity.trunk"].verdict is remedy.verdict is Verdict.FITS
    assert after["velocity.trunk"].value == remedy.after
    for key in before:
        if key.startswith(("flow", "velocity", "blower", "filter.air")):
            assert rank[after[key].verdict] <= rank[before[key].verdict], key


def test_a_change_that_drives_a_failure_further_is_no_remedy(sizing: Sizing) -> None:
    """A narrower trunk alone would mend the trunk and starve the branches, which fail already."""
    project = make_project()
    before = {f.key: f for f in sizing.findings}["velocity.north"]
    after = {f.key: f for f in settle_and_size(change_runs(project, frozenset({"trunk"}), 0.127)).findings}[
        "velocity.north"
    ]
    assert before.margin is not None
    assert after.margin is not None
    assert after.margin < before.margin < 0
    assert not [r for r in sizing.remedies if r.what.names.get("run") == "trunk"]


def test_too_much_air_for_the_filters_is_never_cured_by_choking_the_shop(sizing: Sizing) -> None:
    remedies = [r for r in sizing.remedies if r.finding == "filter.air_to_media"]
    assert remedies
    assert all("filters" in say(r.what, INCH) and "room" in say(r.what, INCH) for r in remedies)


def test_runs_that_settle_are_counted_once(sizing: Sizing) -> None:
    trunks = list_trunk(make_project())
    assert any(row.runs_settling for row in sizing.trunk_choices)
    assert all(row.runs_settling <= len(trunks) for row in sizing.trunk_choices)


def test_mends_stand_in_the_findings(sizing: Sizing) -> None:
    by_key = {f.key: f for f in sizing.findings}
    for remedy in sizing.remedies:
        assert remedy.what in by_key[remedy.finding].mends
        assert by_key[remedy.finding].verdict is not Verdict.FITS


def test_gate_sets_are_judged() -> None:
    project = make_project()
    project = replace(project, gate_sets=(p.GateSet("planer and saw", ("planer", "table saw")),))
    sizing = settle_and_size(project)
    (scenario,) = (s for s in sizing.scenarios if s.kind == "set")
    finding = {f.key: f for f in sizing.findings}["flow.planer and saw.table saw"]
    assert finding.value == Amount(scenario.get_machine("table saw").flow.best, "flow_m3s")
    alone = sizing.get_alone("table saw").machines[0].flow.best
    assert scenario.get_machine("table saw").flow.best < alone


def test_all_gates_open_never_fails_a_home_shop(sizing: Sizing) -> None:
    finding = {f.key: f for f in sizing.findings}["gates.all_open"]
    assert finding.verdict is Verdict.FITS
    assert finding.what.amounts["short"].value > 0  # told all the same
    assert "UFC 3-410-04N" in finding.source


def test_sentences_about_gates_read_well(sizing: Sizing) -> None:
    for said in list_said(sizing):
        assert "open open" not in say(said, INCH)


def test_past_the_last_point_is_said() -> None:
    project = make_project()
    short = replace(project.blower, curve=project.blower.curve[:3])  # ends at 800 cfm and 10 inH2O
    sizing = settle_and_size(replace(project, blower=short))
    finding = {f.key: f for f in sizing.findings}["blower.curve_end"]
    assert finding.verdict is not Verdict.FITS
    assert sizing.get_alone("planer").point.beyond == "past last point"


def test_motor_too_small_is_said() -> None:
    project = make_project()
    sizing = settle_and_size(replace(project, blower=replace(project.blower, power_w=700.0)))
    assert {f.key: f for f in sizing.findings}["blower.motor"].verdict is Verdict.DOES_NOT_FIT


def test_rating_only_is_said() -> None:
    project = make_project()
    blower = replace(project.blower, curve=(p.CurvePoint(0.0, 2500.0), p.CurvePoint(1.0, 0.0)), from_rating=True)
    finding = {f.key: f for f in settle_and_size(replace(project, blower=blower)).findings}["blower.rating"]
    assert finding.verdict is Verdict.TIGHT


def test_flue_and_outdoor_exhaust_always_warn() -> None:
    # whatever the flow: case C28
    project = make_project()
    shop = replace(project.shop, clean_air="outdoors", flued_appliance="unknown")
    finding = {f.key: f for f in settle_and_size(replace(project, shop=shop)).findings}["air.make_up"]
    assert finding.verdict is not Verdict.FITS
    assert any("carbon monoxide" in say(mend, INCH) for mend in finding.mends)
    assert "air.make_up" not in {f.key for f in settle_and_size(project).findings}


def test_barometer_far_from_altitude_is_asked_about() -> None:
    project = make_project()
    shop = replace(project.shop, altitude_m=1609.0, barometer_pa=101000.0)
    assert {f.key: f for f in settle_and_size(replace(project, shop=shop)).findings}[
        "air.barometer"
    ].verdict is Verdict.DOES_NOT_FIT


def test_thin_air_keeps_velocities_and_lowers_readings() -> None:
    project = make_project()
    high = settle_and_size(replace(project, shop=replace(project.shop, altitude_m=2000.0)))
    low = settle_and_size(project)
    ratio = high.air.density_kgm3 / low.air.density_kgm3
    assert high.get_alone("planer").machines[0].flow.best == pytest.approx(
        low.get_alone("planer").machines[0].flow.best, rel=0.02
    )
    assert high.pressures.box_worst_pa == pytest.approx(low.pressures.box_worst_pa * ratio, rel=1e-9)


def test_checks_agree_with_findings(sizing: Sizing) -> None:
    system = System(make_project())
    limits = Limits(system.project, system.network)
    checks = check_scenarios(system, limits, [solve_scenario(system, o) for o in list_scenarios(system)])
    by_key = {f.key: f for f in sizing.findings}
    for key, check in checks.items():
        assert by_key[key].verdict is check.verdict


def test_a_large_shop_is_sized_whole() -> None:
    sizing = settle_and_size(make_tree(60))
    assert len(sizing.scenarios) == 61
    assert len(sizing.systems) <= 3


def test_worked_numbers_come_from_the_result(sizing: Sizing) -> None:
    sums = {say(w.symbol, INCH): w for w in sizing.worked}
    assert sums["sum of losses"].value.value == sizing.get_alone(sizing.worst).ledger[-1].total_pa
    assert sums["clean reading"].value.value == sizing.at_gauge.reading.best
    assert sums["reading at CLEAN ME"].value.value == sizing.filters.clean_me.reading_pa
    assert sums["loaded media loss"].value.value < sizing.filters.clean_me.reading_pa
    assert all(w.source for w in sizing.worked)


def test_run_and_machine_of_one_name_stay_apart(sizing: Sizing) -> None:
    project = make_project()
    runs = tuple(replace(r, name="planer") if r.name == "north" else r for r in project.runs)
    machines = tuple(replace(m, on="planer") if m.on == "north" else m for m in project.machines)
    same = settle_and_size(replace(project, runs=runs, machines=machines))
    assert same.get_alone("planer").machines[0].flow == sizing.get_alone("planer").machines[0].flow
    assert {"velocity.planer", "velocity.planer run"} <= {f.key for f in same.findings}


def test_pickups_and_machines_with_stroke_in_their_names_stay_apart() -> None:
    project = make_project()
    two = replace(
        project.machines[0],
        name="a",
        pickups=(*project.machines[0].pickups, p.Pickup("b", p.Hood(kind="plain", diameter_m=0.06))),
    )
    other = replace(project.machines[1], name="a/b")
    sizing = settle_and_size(replace(project, machines=(two, other)))
    assert sizing.get_alone("a/b").machines[0].flow.best > 0
    hoods = sizing.get_alone("a").machines[0].hoods
    assert sum(h.flow_m3s for h in hoods) == pytest.approx(sizing.get_alone("a").machines[0].flow.best, rel=1e-9)


def test_every_machine_fades_as_the_filters_load(sizing: Sizing) -> None:
    filters = sizing.filters
    assert {row.machine for row in filters.fading} == {m.name for m in make_project().machines}
    for row in filters.fading:
        assert len(row.flow_m3s) == len(filters.loading)
        assert list(row.flow_m3s) == sorted(row.flow_m3s, reverse=True)
        assert row.flow_m3s[0] == pytest.approx(sizing.get_alone(row.machine).machines[0].flow.best, rel=1e-9)
    at_gauge = sizing.at_gauge.machines[0]
    assert at_gauge.clean_me_m3s == pytest.approx(filters.clean_me.flow_m3s, rel=1e-9)


def test_a_wider_trunk_that_would_settle_is_never_a_remedy() -> None:
    # the saw is short of air and a 7 in trunk would give it enough, but its dust would then settle in it
    d = 0.1524
    trunk = p.Run("trunk", "separator", (p.Pipe(d, 40.0), p.Elbow(d, count=6)), p.Join("straight", 0.0))
    saw = p.Machine(
        name="saw",
        on="trunk",
        needs_m3s=0.2,
        pickups=(p.Pickup("port", p.Hood(kind="bellmouth", diameter_m=d)),),
        pieces=(p.Pipe(d, 1.0),),
    )
    shop = change_filters(make_shop((trunk,), (saw,)), 6)
    flow = settle_and_size(shop).get_alone("saw").machines[0].flow
    wide = change_runs(shop, frozenset({"trunk"}), 0.1778)
    more = settle_and_size(wide).get_alone("saw").machines[0].flow
    needs = (flow.high + more.low) / 2
    speed = settle_and_size(wide).get_alone("saw").ducts[-1].speed.high
    dust = replace(shop.dust, branch_speed_ms=speed * 1.02, main_speed_ms=speed * 1.02)
    short = replace(shop, machines=(replace(saw, needs_m3s=needs),), dust=dust)
    assert settle_and_size(replace(wide, machines=short.machines)).get_alone("saw").machines[0].flow.best >= needs
    sizing = settle_and_size(short)
    findings = {f.key: f for f in sizing.findings}
    assert findings["flow.saw"].verdict is Verdict.DOES_NOT_FIT
    assert findings["velocity.trunk"].verdict is Verdict.FITS
    assert not [r for r in sizing.remedies if r.finding == "flow.saw" and r.what.names.get("run") == "trunk"]


def test_the_same_trunk_is_a_remedy_where_nothing_settles() -> None:
    d = 0.1524
    trunk = p.Run("trunk", "separator", (p.Pipe(d, 40.0), p.Elbow(d, count=6)), p.Join("straight", 0.0))
    saw = p.Machine(
        name="saw",
        on="trunk",
        needs_m3s=0.2,
        pickups=(p.Pickup("port", p.Hood(kind="bellmouth", diameter_m=d)),),
        pieces=(p.Pipe(d, 1.0),),
    )
    shop = change_filters(make_shop((trunk,), (saw,)), 6)
    shop = replace(shop, dust=replace(shop.dust, branch_speed_ms=5.0, main_speed_ms=5.0))
    shop = replace(shop, blower=replace(shop.blower, power_w=10e3))  # more air is no more than the motor gives
    flow = settle_and_size(shop).get_alone("saw").machines[0].flow
    more = settle_and_size(change_runs(shop, frozenset({"trunk"}), 0.1778)).get_alone("saw").machines[0].flow
    short = replace(shop, machines=(replace(saw, needs_m3s=(flow.high + more.low) / 2),))
    remedies = [r for r in settle_and_size(short).remedies if r.finding == "flow.saw"]
    (remedy,) = (r for r in remedies if r.what.names.get("run") == "trunk")
    assert remedy.before.value == pytest.approx(flow.best, rel=1e-9)
    assert remedy.after.value == pytest.approx(more.best, rel=1e-9)


def test_air_for_the_media_is_flow_over_area(sizing: Sizing) -> None:
    finding = {f.key: f for f in sizing.findings}["filter.air_to_media"]
    most = max(s.flow.best for s in sizing.scenarios if s.kind != "all")
    assert finding.value is not None
    assert finding.value.value == pytest.approx(most / sizing.filters.media_m2, rel=1e-9)
    assert sizing.filters.face_speed_ms == pytest.approx(finding.value.value, rel=1e-9)


def test_media_limit_counts_the_gates_that_draw_most() -> None:
    project = make_caking()
    weak = replace(project, filters=(replace(project.filters[0], most_pa=100.0),))
    names = tuple(m.name for m in project.machines)
    alone = settle_and_size(weak).filters.clean_me.areal_kgm2
    together = settle_and_size(replace(weak, gate_sets=(p.GateSet("all of them", names),))).filters.clean_me
    assert together.criterion == "media limit"
    assert together.areal_kgm2 < alone


def test_dust_of_the_machines_stands_in_for_a_guess_and_never_for_the_shops_own_figure() -> None:
    project = make_project()
    machines = tuple(replace(m, dust_kgs=0.001 * (i + 1)) for i, m in enumerate(project.machines))
    own = replace(project, machines=machines, assumed=())
    guessed = replace(own, assumed=("dust.made",))
    kept = 1 - settle_and_size(project).filters.captures
    assert settle_and_size(own).filters.dust_kgs.best == pytest.approx(project.dust.made_kgs * kept)
    mean = sum(0.001 * (i + 1) for i in range(len(machines))) / len(machines)
    assert settle_and_size(guessed).filters.dust_kgs.best == pytest.approx(mean * kept)


def test_every_open_machine_of_a_gate_set_has_its_ledger() -> None:
    """Every way from a hood to the room loses what the blower makes: energy, round each loop."""
    pair = p.GateSet("both saws", ("table saw", "band saw"))
    sizing = settle_and_size(replace(make_project(), gate_sets=(pair,)))
    for scenario in sizing.scenarios:
        names = {scenario.ledger_machine, *(one.machine for one in scenario.other_ledgers)}
        if scenario.kind == "set":
            assert names == set(scenario.open)
        for one in scenario.other_ledgers:
            assert one.rows[-1].total_pa == pytest.approx(scenario.point.total_pa, rel=1e-6)
    assert any(scenario.other_ledgers for scenario in sizing.scenarios)

"""Runs every calculation on a project and gives back one Sizing with its findings."""

from __future__ import annotations

from calc.airflow.chains import BEST, HIGH, LOW
from calc.airflow.dust import find_box_rate, find_pleat_rate
from calc.airflow.filters import CLEAN_TIMES, USUAL_CAKE
from calc.airflow.loading import draw_fading, draw_loading, find_clean_me
from calc.airflow.scenarios import Solved, describe_scenario, list_scenarios, make_band, solve_scenario
from calc.airflow.separator import find_capture, find_cut_size, find_turns
from calc.airflow.system import System
from calc.airflow.velocities import Limits
from calc.finding import Finding
from calc.project import Aired
from calc.results import (
    BlowerCurve,
    Considered,
    Filters,
    FilterShare,
    Later,
    Leakage,
    MakeUpAir,
    Plotted,
    Pressures,
    Scenario,
    Sizing,
    Sound,
    SystemCurve,
)
from calc.sizing.catching import list_catching
from calc.sizing.checks import ABOUT, Check, check_scenarios
from calc.sizing.judging import (
    judge_air,
    judge_all_open,
    judge_curve,
    judge_filters,
    judge_leakage,
    judge_sound,
    word_check,
)
from calc.sizing.judging_ducts import judge_steps, judge_unclosed
from calc.sizing.judging_make_up import judge_make_up
from calc.sizing.judging_power import judge_motor
from calc.sizing.make_up_air import describe_make_up, find_most
from calc.sizing.sound import describe_sound

MOST_CURVES = 12  # system curves drawn: more gates than this, only those that matter


def pick_gauge_gate(project: Aired, clean: dict[str, Solved]) -> str:
    """Return the machine whose gate alone is open for reading: the file's, or the one with most air."""
    if project.gauge.read_at is not None:
        return project.gauge.read_at
    return max(clean, key=lambda name: clean[name].best.blower_flow)


def _describe_filters(system: System, limits: Limits, alone: dict[str, Solved], solved: list[Solved]) -> Filters:
    read_at = pick_gauge_gate(system.project, alone)
    clean_me = find_clean_me(system, limits, {name: one.best for name, one in alone.items()}, read_at)
    counted = [one for one in solved if one.opened.kind != "all"]
    most = max(counted, key=lambda one: one.best.blower_flow)
    flow, bank = most.best.blower_flow, system.bank
    shares = tuple(
        FilterShare(m.filter.name, m.filter.count, q, q / m.filter.media_m2)
        for m, q in zip(bank.members, bank.share_flow(flow, BEST), strict=True)
    )
    loss = make_band(
        tuple(bank.find_loss(flow, which, times=CLEAN_TIMES[which])[0] for which in (LOW, BEST, HIGH))  # type: ignore[arg-type]
    )
    capture = find_capture(system.project.separator)
    cakes = {each.cake_resistance or USUAL_CAKE.best: each.cake_resistance is None for each in system.project.filters}
    dearest = max(cakes)
    loading = draw_loading(system, read_at, clean_me)
    return Filters(
        media_m2=bank.media_m2,
        face_speed_ms=flow / bank.media_m2,
        at_scenario=most.opened.name,
        shares=shares,
        clean_loss=loss,
        dust_kgs=find_box_rate(system.project),
        pleats_kgs=find_pleat_rate(system.project),
        catching=list_catching(system.project, tuple(each.flow_each_m3s / flow for each in shares)),
        captures=capture.share,
        captures_assumed=capture.assumed,
        loading=loading,
        clean_me=clean_me,
        cake_resistance=dearest,
        cake_assumed=cakes[dearest],
        cut_size_m=_estimate_cut(system, flow),
        fading=draw_fading(system, loading),
    )


def _estimate_cut(system: System, flow: float) -> float | None:
    """Return the cyclone's cut size [m] at a flow, where the file gives its inlet."""
    cyclone = system.project.separator
    if cyclone.kind != "cyclone" or not cyclone.inlet_width_m or not cyclone.inlet_height_m:
        return None
    speed = flow / (cyclone.inlet_width_m * cyclone.inlet_height_m)
    return find_cut_size(cyclone.inlet_width_m, speed, find_turns(cyclone), system.air.viscosity_pas)


def _draw_systems(system: System, scenarios: tuple[Scenario, ...], chosen: set[str]) -> tuple[SystemCurve, ...]:
    drawn = []
    for scenario in scenarios:
        if scenario.name not in chosen and len(scenarios) > MOST_CURVES and scenario.kind == "alone":
            continue
        curves = []
        for which, name in ((BEST, "best"), (LOW, "low"), (HIGH, "high")):
            points = system.find_need(scenario.open, 9, which)
            curves.append(Plotted(name, tuple(q for q, _ in points), tuple(p for _, p in points)))
        drawn.append(SystemCurve(scenario.name, *curves))
    return tuple(drawn)


def _find_pressures(system: System, scenarios: tuple[Scenario, ...]) -> Pressures:
    shut_off = system.blower.find_shut_off()
    # where the filters never ask for cleaning, the top of the clean band is the most
    running = max(max(s.reading_clean_me_pa, s.reading.high) for s in scenarios if s.kind != "all")
    return Pressures(running, shut_off, shut_off)


def _find_leakage(system: System, one: Solved) -> Leakage:
    flows = one.best
    seams = flows.leak_m3s - flows.gate_leak_m3s
    return Leakage(one.opened.name, flows.gate_leak_m3s, seams, flows.leak_m3s / flows.blower_flow)


def size_project(project: Aired) -> Sizing:
    """Return the sizing of a settled project: every scenario, filters, gauge, sound, findings; choices, remedies and
    calculations to follow when they are first asked for.

    Raises ValueError for a network that is no tree, an unknown name, or a value that is missing; NoBalance when
    blower and ducts find no balance.
    """
    system = System(project)
    project = system.project
    limits = Limits(project, system.network)
    opened = list_scenarios(system)
    solved = [solve_scenario(system, one) for one in opened]
    alone = {one.opened.open[0]: one for one in solved if one.opened.kind == "alone"}
    filters = _describe_filters(system, limits, alone, solved)
    areal = filters.clean_me.areal_kgm2
    scenarios = tuple(describe_scenario(system, limits, one, areal) for one in solved)
    read_at = filters.clean_me.read_at
    worst = min(alone, key=lambda name: alone[name].best.flow[name] / system.needs[name])
    leakage = _find_leakage(system, alone[read_at])
    most = find_most(scenarios)
    make_up = describe_make_up(project.shop, most.flow.best, system.air.density_kgm3, most.open)
    sound = describe_sound(project)
    checks = check_scenarios(system, limits, solved)
    curve = system.blower.describe_curve()
    findings = _collect(project, system, curve, scenarios, checks, filters, leakage, make_up, sound)
    findings += (*judge_unclosed(system, solved), *judge_steps(system, solved))
    chosen = {read_at, worst}

    def consider(sizing: Sizing) -> Considered:
        from calc.sizing.choices import choose_filters, choose_hoses, choose_trunk
        from calc.sizing.remedies import find_remedies, list_untried
        from calc.sizing.worked import work_out

        return Considered(
            filter_choices=choose_filters(system, read_at),
            trunk_choices=choose_trunk(system, worst),
            hose_choices=choose_hoses(system, chosen),
            remedies=find_remedies(system, limits, solved, checks),
            worked=work_out(system, sizing),
            untried=list_untried(checks),
        )

    return Sizing(
        air=system.air,
        scenarios=scenarios,
        gauge_at=read_at,
        worst=worst,
        blower=curve,
        systems=_draw_systems(system, scenarios, chosen),
        filters=filters,
        pressures=_find_pressures(system, scenarios),
        leakage=leakage,
        sound=sound,
        make_up_air=make_up,
        judged=findings,
        consider=Later(consider),
    )


def _collect(
    project: Aired,
    system: System,
    curve: BlowerCurve,
    scenarios: tuple[Scenario, ...],
    checks: dict[str, Check],
    filters: Filters,
    leakage: Leakage,
    make_up: MakeUpAir,
    sound: Sound | None,
) -> tuple[Finding, ...]:
    """Return all findings: what can kill first, then machines, ducts, blower, filters, gauge, room."""
    findings = judge_make_up(make_up)
    ordered = sorted(checks.values(), key=lambda c: ABOUT.index(c.about))
    findings += [word_check(check, project, curve) for check in ordered]
    findings += judge_motor(project.blower, curve)
    findings += judge_curve(project, scenarios)
    findings += judge_filters(filters, project)
    findings += [judge_all_open(s) for s in scenarios if s.kind == "all"]
    findings.append(judge_leakage(project, leakage))
    if sound is not None:
        findings.append(judge_sound(sound))
    findings += judge_air(system.air)
    return tuple(findings)

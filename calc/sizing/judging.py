"""The sizing's findings in words: what was looked at, why it matters, where the limit comes from."""

from __future__ import annotations

from dataclasses import replace

from calc.airflow.scenarios import ALL_OPEN
from calc.finding import Amount, Band, Finding, Limit, Said, Subject, Topic, Verdict, hold, say, tell
from calc.project import Aired
from calc.results import BlowerCurve, Filters, Leakage, Scenario, ShopAir, Sound
from calc.sizing.checks import Check
from calc.sizing.hearing import find_niosh_hours
from calc.sizing.judging_power import tell_power_source, word_motor
from calc.trade import PRACTICE, WORKDAYS

BLOWER, FILTERS, SHOP = Subject("blower"), Subject("filters"), Subject("shop")


def name_gates(project: Aired, scenario: str) -> Said:
    """Return the words for a scenario's open gates, or the machine that the hose is on, to stand in a sentence."""
    if scenario == ALL_OPEN:
        return say("judging.gates_all")
    return say(f"judging.gates_open{project.by_hose}", scenario=scenario)


def word_check(check: Check, project: Aired, blower: BlowerCurve) -> Finding:
    """Return the finding of a check."""
    place, scenario = check.subject.name, check.scenario
    source, eases = PRACTICE, tuple[Said, ...]()
    gates, gates_are = name_gates(project, scenario), f"alone{project.by_hose}" if check.alone else "set"
    topic: Topic = "blower"
    if check.about == "flow":
        topic, source = "air", "project file: what the machine needs"
        what, why = say(f"judging.flow_{gates_are}", machine=place, scenario=scenario), say("judging.flow_why")
    elif check.about == "velocity":
        topic, source = "air", project.dust.speed_source or source
        what = say(f"judging.velocity_{check.place}_{gates_are}", place=place, scenario=scenario)
        why = say("judging.velocity_why")
    elif check.about == "air to media":
        topic = "filters"
        what, why = say("judging.air_to_media", gates=gates), say("judging.air_to_media_why")
    elif check.about == "motor":
        source = f"project file: motor; {tell_power_source(project)}"
        what = say("judging.motor", gates=gates)
        why, eases = word_motor(project, blower)
    else:
        source = "project file: last point of the curve"
        what, why = say("judging.curve_end", gates=gates), say("judging.curve_end_why")
    limit = replace(check.limit, source=source)
    return hold(
        check.key, what, check.value, limit, why, topic=topic, kind=check.kind, subjects=(check.subject,), eases=eases,
        tried=True,
    )  # fmt: skip


def judge_curve(project: Aired, scenarios: tuple[Scenario, ...]) -> list[Finding]:
    """Return the findings on the blower's curve itself."""
    found = []
    if project.blower.from_rating:
        found.append(
            tell(
                "blower.rating", say("judging.rating"), say("judging.rating_why"), Verdict.TIGHT, topic="blower",
                subjects=(BLOWER,), mends=(say("judging.rating_mend"),), source="stated assumption",
            )
        )  # fmt: skip
    found += _judge_curve_start(project, scenarios)
    for scenario in scenarios:
        if len(scenario.point.crossings) > 1:
            flows = scenario.point.crossings
            low, high = Amount(min(flows), "flow_m3s"), Amount(max(flows), "flow_m3s")
            found.append(
                tell(
                    f"blower.crossings.{scenario.name}",
                    say("judging.crossings", gates=name_gates(project, scenario.name)),
                    say("judging.crossings_why", low=low, high=high),
                    Verdict.TIGHT,
                    topic="blower",
                    value=float(len(flows)),
                    kind="count",
                    subjects=(BLOWER,),
                    mends=(say("judging.crossings_mend"),),
                    source="fan practice, no source",
                )
            )
    return found


def _judge_curve_start(project: Aired, scenarios: tuple[Scenario, ...]) -> list[Finding]:
    """Return the findings on a curve whose first point is not shut-off: flows before it, and the highest pressure."""
    first, source = project.blower.curve[0], "project file: first point of the curve"
    if first.flow_m3s <= 0:
        return []
    pressure, flow = Amount(first.pressure_pa, "pressure_pa"), Amount(first.flow_m3s, "flow_m3s")
    found = [
        tell(
            "blower.shut_off", say("judging.shut_off", flow=flow), say("judging.shut_off_why", pressure=pressure),
            Verdict.TIGHT, topic="blower", subjects=(BLOWER,), mends=(say("judging.shut_off_mend"),), source=source,
        )
    ]  # fmt: skip
    slow = [s for s in scenarios if s.kind != "all" and s.point.beyond == "before first point"]
    if slow:
        least = min(slow, key=lambda s: s.flow.best)
        found.append(
            hold(
                "blower.curve_start",
                say("judging.curve_start", gates=name_gates(project, least.name)),
                least.flow,
                Limit(first.flow_m3s, "at least", source=source),
                say("judging.curve_start_why"),
                topic="blower",
                kind="flow_m3s",
                subjects=(BLOWER,),
                mends=(say("judging.curve_start_mend"),),
            )
        )
    return found


def judge_all_open(scenario: Scenario) -> Finding:
    """Return the finding on all gates open at once: told, never held against a shop that works one gate at a time.

    A shop that does open all its gates lists them as a gate set, and that set is held against its limits.
    """
    short = [row for row in scenario.machines if row.flow.best < row.needs_m3s]
    many = {0: "none", 1: "one"}.get(len(short), "many")
    worst = min(scenario.machines, key=lambda row: row.flow.best / row.needs_m3s)
    return tell(
        "gates.all_open",
        say(f"judging.all_open_{many}", machine=worst.machine, short=Amount(float(len(short)), "count"),
            count=Amount(float(len(scenario.machines)), "count")),
        say("judging.all_open_why"),
        topic="air",
        value=worst.flow,
        kind="flow_m3s",
        subjects=(Subject("machine", worst.machine),),
        mends=(say("judging.all_open_mend"),) if short else (),
        source="UFC 3-410-04N Industrial Ventilation 2004, section 7-4.4; one gate at a time: "
        "common practice, no source",
    )  # fmt: skip


def judge_filters(filters: Filters, project: Aired) -> list[Finding]:
    """Return the findings on cleaning interval and media limit."""
    found = []
    if filters.clean_me.hours_later is not None:
        week = WORKDAYS * project.dust.hours_a_day
        found.append(
            hold(
                "filter.hours",
                say("judging.hours"),
                filters.clean_me.hours_later,
                Limit(week, "at least", source="common practice, no source: one working week"),
                say("judging.hours_why"),
                topic="filters",
                kind="time_h",
                subjects=(FILTERS,),
                mends=(say("judging.hours_mend"),),
            )
        )
    found += _judge_media(filters, project)
    if filters.captures_assumed:
        found.append(
            tell(
                "separator.capture", say("judging.capture"), say("judging.capture_why"), Verdict.TIGHT,
                topic="filters", value=filters.captures, kind="share", subjects=(FILTERS,),
                mends=(say("judging.capture_mend"),),
            )
        )  # fmt: skip
    return found


def _judge_media(filters: Filters, project: Aired) -> list[Finding]:
    """Return the finding on the clean loss against what the media stands; none without a limit in the file."""
    limits = [f.most_pa for f in project.filters if f.most_pa]
    if not limits:
        return []
    limit = Limit(min(limits), "at most", source="project file: most pressure the media stands")
    what, why = say("judging.media_limit"), say("judging.media_limit_why")
    return [
        hold(
            "filter.media_limit", what, filters.clean_loss, limit, why, topic="filters", kind="pressure_pa",
            subjects=(FILTERS,), tried=True,
        )
    ]  # fmt: skip


SURE_DB = 3.0
"""What a level at the ear is good for at best [dB]: common practice, no source."""


def judge_sound(sound: Sound) -> Finding:
    """Return the finding on the day's noise at the operator's ear: share of the day's allowance, 3 dB either way, or as
    far as the box may take more or less away.

    With the protection that the file names; what the bare ear would take stands in the reason.
    """
    bare, worn = sound.with_others, sound.protected
    heard = worn or bare
    share = heard.niosh_share
    quieter, louder = (abs(end - bare.level_db) for end in (sound.together.low, sound.together.high))
    fewer, more = (find_niosh_hours(0.0) / find_niosh_hours(max(SURE_DB, by)) for by in (quieter, louder))
    hours, level = Amount(sound.hours_a_day, "time_h"), Amount(heard.level_db, "sound_db")
    allowed = {
        "niosh": Amount(heard.niosh_h, "time_h"),
        "osha": Amount(heard.osha_h, "time_h"),
        "sure": Amount(max(SURE_DB, louder), "sound_db", toward="up"),
    }
    why = say("judging.exposure_why", **allowed)
    source = "NIOSH 98-126: 85 dBA for 8 hours, 3 dB exchange"
    if worn is not None:
        source += "; protector derated for use in a shop: NIOSH 98-126, OSHA, the smaller (from memory)"
        spared, without = Amount(sound.protection_db, "sound_db"), Amount(bare.niosh_share, "share")
        level_bare = Amount(bare.level_db, "sound_db")
        pack = sound.protector
        rated = {} if pack is None else {"rated": Amount(pack.rating_db, "sound_db"), "rating": pack.rating_is}
        why = say("judging.exposure_why_worn", spared=spared, without=without, level=level_bare, **rated, **allowed)
    return hold(
        "sound.exposure",
        say("judging.exposure" if worn is None else "judging.exposure_worn", hours=hours, level=level),
        Band(share / fewer, share, share * more),
        Limit(1.0, "at most", source=source),
        why,
        topic="sound",
        kind="share",
        eases=(say("judging.exposure_mend" if worn is None else "judging.exposure_mend_worn"),),
    )


def judge_air(air: ShopAir) -> list[Finding]:
    """Return the finding on the barometer; none where the file gives none."""
    found = []
    if air.barometer_gap is not None:
        source = "U.S. Standard Atmosphere 1976; weather moves it by about 3 %"
        found.append(
            hold(
                "air.barometer",
                say("judging.barometer"),
                abs(air.barometer_gap),
                Limit(0.03, "at most", source=source),
                say("judging.barometer_why", standard=Amount(air.standard_pressure_pa, "barometer_pa")),
                topic="air",
                kind="share",
                subjects=(SHOP,),
                mends=(say("judging.barometer_mend"),),
            )
        )
    return found


def judge_leakage(project: Aired, leakage: Leakage) -> Finding:
    """Return the finding on leaks. Where the file gives none at all it says so, and gives no figure."""
    given = any(m.gate and m.gate.leak_m2 for m in project.machines) or any(r.leakage_class for r in project.runs)
    if not given:
        by = project.by_hose
        return tell("leaks", say(f"judging.leaks_unknown{by}"), say(f"judging.leaks_unknown_why{by}"), topic="air")
    what = say(f"judging.leaks{project.by_hose}", scenario=leakage.scenario)
    why, mends = say("judging.leaks_why"), (say(f"judging.leaks_mend{project.by_hose}"),)
    return hold("leaks", what, leakage.share, Limit(0.1, "at most"), why, topic="air", kind="share", mends=mends)

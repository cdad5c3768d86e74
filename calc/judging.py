"""The sizing's findings in words: what was looked at, why it matters, where the limit comes from."""

from __future__ import annotations

from calc.airflow.scenarios import ALL_OPEN, judge_at_most
from calc.checks import Check
from calc.finding import Amount, Finding, Said, Verdict, say
from calc.measures.quantity import Kind
from calc.project import Project
from calc.results import Band, Filters, Leakage, Scenario, ShopAir, Sound


def make_finding(
    key: str,
    what: Said,
    verdict: Verdict,
    why: Said,
    kind: Kind,
    value: float | Band,
    limit: float | None,
    sense: str,
    source: str,
    mends: tuple[Said, ...] = (),
) -> Finding:
    """Return a finding whose value may carry a band."""
    band = value if isinstance(value, Band) else None
    return Finding(
        key, what, verdict, why,
        value=Amount(band.best if band else value, kind),  # type: ignore[arg-type]
        low=Amount(band.low, kind) if band else None,
        high=Amount(band.high, kind) if band else None,
        limit=None if limit is None else Amount(limit, kind),
        sense=sense, mends=mends, source=source,
    )  # fmt: skip


def name_gates(scenario: str) -> Said:
    """Return the words for a scenario's open gates, to stand in a sentence."""
    return say("judging.gates_all" if scenario == ALL_OPEN else "judging.gates_open", scenario=scenario)


def word_check(check: Check, project: Project) -> Finding:
    """Return the finding of a check."""
    sense = "at least" if check.at_least else "at most"
    word = check.key.split(".", 1)[0]
    subject, scenario = check.subject, check.scenario
    source = "common practice, no source"
    gates = name_gates(scenario)
    if word == "flow":
        source = "project file: what the machine needs"
        what = say("judging.flow_alone" if check.alone else "judging.flow_set", machine=subject, scenario=scenario)
        why = say("judging.flow_why")
    elif word == "velocity":
        source = project.dust.speed_source or source
        gates_are = "alone" if check.alone else "set"
        what = say(f"judging.velocity_{check.place}_{gates_are}", place=subject, scenario=scenario)
        why = say("judging.velocity_why")
    elif check.key == "filter.air_to_media":
        what, why = say("judging.air_to_media", gates=gates), say("judging.air_to_media_why")
    elif check.key == "blower.motor":
        sure = "assumed, 45 to 65 %" if project.is_assumed("blower.efficiency") else "project file"
        source = f"project file: motor; air power over efficiency; efficiency: {sure}"
        what, why = say("judging.motor", gates=gates), say("judging.motor_why")
    else:
        source = "project file: last point of the curve"
        what, why = say("judging.curve_end", gates=gates), say("judging.curve_end_why")
    return make_finding(check.key, what, check.verdict, why, check.kind, check.value, check.limit, sense, source)


def judge_curve(project: Project, scenarios: tuple[Scenario, ...]) -> list[Finding]:
    """Return the findings on the blower's curve itself."""
    found = []
    if project.blower.from_rating:
        found.append(
            Finding(
                "blower.rating",
                say("judging.rating"),
                Verdict.TIGHT,
                say("judging.rating_why"),
                mends=(say("judging.rating_mend"),),
                source="stated assumption",
            )
        )
    found += _judge_curve_start(project, scenarios)
    for scenario in scenarios:
        if len(scenario.point.crossings) > 1:
            flows = scenario.point.crossings
            found.append(
                Finding(
                    f"blower.crossings.{scenario.name}",
                    say("judging.crossings", gates=name_gates(scenario.name)),
                    Verdict.TIGHT,
                    say(
                        "judging.crossings_why",
                        low=Amount(min(flows), "flow_m3s"),
                        high=Amount(max(flows), "flow_m3s"),
                    ),
                    value=Amount(float(len(flows)), "count"),
                    limit=Amount(1.0, "count"),
                    mends=(say("judging.crossings_mend"),),
                    source="fan practice, no source",
                )
            )
    return found


def _judge_curve_start(project: Project, scenarios: tuple[Scenario, ...]) -> list[Finding]:
    """Return the findings on a curve whose first point is not shut-off: flows before it, and the highest pressure."""
    first = project.blower.curve[0]
    if first.flow_m3s <= 0:
        return []
    pressure, flow = Amount(first.pressure_pa, "pressure_pa"), Amount(first.flow_m3s, "flow_m3s")
    found = [
        Finding(
            "blower.shut_off",
            say("judging.shut_off", flow=flow),
            Verdict.TIGHT,
            say("judging.shut_off_why", pressure=pressure),
            mends=(say("judging.shut_off_mend"),),
            source="project file: first point of the curve",
        )
    ]
    slow = [s for s in scenarios if s.kind != "all" and s.point.beyond == "before first point"]
    if slow:
        least = min(slow, key=lambda s: s.flow.best)
        found.append(
            make_finding(
                "blower.curve_start",
                say("judging.curve_start", gates=name_gates(least.name)),
                Verdict.TIGHT,
                say("judging.curve_start_why"),
                "flow_m3s", least.flow, first.flow_m3s, "at least", "project file: first point of the curve",
                (say("judging.curve_start_mend"),),
            )
        )  # fmt: skip
    return found


def judge_all_open(scenario: Scenario) -> Finding:
    """Return the finding on all gates open at once: told, never held against a shop that works one gate at a time.

    A shop that does open all its gates lists them as a gate set, and that set is held against its limits.
    """
    short = [row for row in scenario.machines if row.flow.best < row.needs_m3s]
    many = {0: "none", 1: "one"}.get(len(short), "many")
    worst = min(scenario.machines, key=lambda row: row.flow.best / row.needs_m3s)
    return make_finding(
        "gates.all_open",
        say(f"judging.all_open_{many}", machine=worst.machine, short=Amount(float(len(short)), "count"),
            count=Amount(float(len(scenario.machines)), "count")),
        Verdict.FITS,
        say("judging.all_open_why"),
        "flow_m3s", worst.flow, None, "at least",
        "UFC 3-410-04N Industrial Ventilation 2004, section 7-4.4; one gate at a time: common practice, no source",
        (say("judging.all_open_mend"),) if short else (),
    )  # fmt: skip


def judge_filters(filters: Filters, project: Project) -> list[Finding]:
    """Return the findings on cleaning interval and media limit."""
    found = []
    clean_me = filters.clean_me
    if clean_me.hours_later is not None:
        week = 5 * project.dust.hours_a_day
        fits = clean_me.hours_later >= week
        found.append(
            make_finding(
                "filter.hours",
                say("judging.hours"),
                Verdict.FITS if fits else Verdict.TIGHT,
                say("judging.hours_why"),
                "time_h",
                clean_me.hours_later,
                week,
                "at least",
                "common practice, no source: one working week",
                () if fits else (say("judging.hours_mend"),),
            )
        )
    found += _judge_media(filters, project)
    if filters.captures_assumed:
        found.append(
            make_finding(
                "separator.capture",
                say("judging.capture"),
                Verdict.TIGHT,
                say("judging.capture_why"),
                "share",
                filters.captures,
                None,
                "at least",
                "common practice, no source",
                (say("judging.capture_mend"),),
            )
        )
    return found


def _judge_media(filters: Filters, project: Project) -> list[Finding]:
    """Return the finding on the clean loss against what the media stands; none without a limit in the file."""
    limits = [f.most_pa for f in project.filters if f.most_pa]
    if limits:
        value, most = filters.clean_loss, min(limits)
        verdict = Verdict.FITS if value.high <= most else Verdict.TIGHT if value.best <= most else Verdict.DOES_NOT_FIT
        return [
            make_finding(
                "filter.media_limit",
                say("judging.media_limit"),
                verdict,
                say("judging.media_limit_why"),
                "pressure_pa",
                value,
                most,
                "at most",
                "project file: most pressure the media stands",
            )
        ]
    return []


def judge_clean_me(scenario: Scenario, filters: Filters) -> list[Finding]:
    """Return the finding on *clean me* against the band of the clean reading; none where there is no such mark."""
    clean, loaded = scenario.reading, filters.clean_me.reading_pa
    if filters.clean_me.criterion == "never":
        return []
    rises = loaded >= clean.best
    clear = loaded > clean.high if rises else loaded < clean.low
    finding = make_finding(
        "gauge.clean_me",
        say("judging.clean_me", machine=scenario.open[0]),
        Verdict.FITS if clear else Verdict.TIGHT,
        say("judging.clean_me_why"),
        "pressure_pa", loaded, clean.high if rises else clean.low, "at least" if rises else "at most",
        "spread of published coefficients; clean filters up to three times their loss",
        () if clear else (say("judging.clean_me_mend"),),
    )  # fmt: skip
    return [finding]


SOUND_SURE = 2.0
"""3 dB, which is what levels and the lined-plenum equation are good for, doubles or halves a NIOSH dose."""


def judge_sound(sound: Sound) -> Finding:
    """Return the finding on the day's noise at the operator's ear: share of the day's allowance, 3 dB either way."""
    heard = sound.with_others
    share = heard.niosh_share
    band = Band(share / SOUND_SURE, share, share * SOUND_SURE)
    verdict = judge_at_most(band, 1.0)
    mends = (say("judging.exposure_mend"),) if verdict is not Verdict.FITS else ()
    return make_finding(
        "sound.exposure",
        say("judging.exposure", hours=Amount(sound.hours_a_day, "time_h"), level=Amount(heard.level_db, "sound_db")),
        verdict,
        say("judging.exposure_why", niosh=Amount(heard.niosh_h, "time_h"), osha=Amount(heard.osha_h, "time_h")),
        "share", band, 1.0, "at most", "NIOSH 98-126: 85 dBA for 8 hours, 3 dB exchange", mends,
    )  # fmt: skip


def judge_air(air: ShopAir) -> list[Finding]:
    """Return the finding on the barometer; none where the file gives none."""
    found = []
    if air.barometer_gap is not None:
        wide = abs(air.barometer_gap) > 0.03
        found.append(
            make_finding(
                "air.barometer",
                say("judging.barometer"),
                Verdict.TIGHT if wide else Verdict.FITS,
                say("judging.barometer_why", standard=Amount(air.standard_pressure_pa, "barometer_pa")),
                "share",
                abs(air.barometer_gap),
                0.03,
                "at most",
                "U.S. Standard Atmosphere 1976; weather moves it by about 3 %",
                (say("judging.barometer_mend"),) if wide else (),
            )
        )
    return found


def judge_leakage(project: Project, leakage: Leakage) -> Finding:
    """Return the finding on leaks. Where the file gives none at all it says so, and gives no figure."""
    given = any(m.gate and m.gate.leak_m2 for m in project.machines) or any(r.leakage_class for r in project.runs)
    if not given:
        return Finding(
            "leaks",
            say("judging.leaks_unknown"),
            Verdict.FITS,
            say("judging.leaks_unknown_why"),
            source="common practice, no source",
        )
    fits = leakage.share <= 0.1
    return make_finding(
        "leaks", say("judging.leaks", scenario=leakage.scenario),
        Verdict.FITS if fits else Verdict.TIGHT,
        say("judging.leaks_why"), "share", leakage.share, 0.1, "at most",
        "common practice, no source",
        () if fits else (say("judging.leaks_mend"),),
    )  # fmt: skip

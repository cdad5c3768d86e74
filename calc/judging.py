"""The sizing's findings in words: what was looked at, why it matters, where the limit comes from."""

from __future__ import annotations

from calc.airflow.items import say
from calc.airflow.scenarios import ALL_OPEN, judge_at_most
from calc.checks import Check
from calc.finding import Amount, Finding, Said, Verdict
from calc.measures.quantity import Kind
from calc.project import Project
from calc.results import Band, Filters, Leakage, MakeUpAir, Scenario, ShopAir, Sound


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


def name_gates(scenario: str) -> str:
    """Return the words for a scenario's open gates, with a place for its name."""
    return "with {scenario}" if scenario == ALL_OPEN else "with {scenario} open"


def word_check(check: Check, project: Project, mends: tuple[Said, ...]) -> Finding:
    """Return the finding of a check."""
    sense = "at least" if check.at_least else "at most"
    word = check.key.split(".", 1)[0]
    subject, scenario = check.subject, check.scenario
    source = "common practice, no source"
    gates = name_gates(scenario)
    if word == "flow":
        source = "project file: what the machine needs"
        if check.alone:
            what = say("air at {machine}, its gate alone open", machine=subject)
        else:
            what = say("air at {machine}, gates {scenario}", machine=subject, scenario=scenario)
        why = say("Below its need, chips stay in the machine and fine dust gets into the air you breathe.")
    elif word == "velocity":
        source = project.dust.speed_source or source
        if check.place == "drop":
            pattern = "slowest air in the drop to {place}"
            pattern += ", its gate alone open" if check.alone else ", gates {scenario}"
        else:
            pattern = "slowest air in run {place}, "
            pattern += "{scenario} alone open" if check.alone else "gates {scenario}"
        what = say(pattern, place=subject, scenario=scenario)
        why = say("Below its transport velocity dust settles in the duct, builds a plug and can smoulder there.")
    elif check.key == "filter.air_to_media":
        what = say("air for each area of filter, " + gates, scenario=scenario)
        why = say("Too much air for the media drives fine dust into it: it clogs for good and leaks dust.")
    elif check.key == "blower.motor":
        sure = "assumed, 45 to 65 %" if project.is_assumed("blower.efficiency") else "project file"
        source = f"project file: motor; air power over efficiency; efficiency: {sure}"
        what = say("power at the blower's shaft, " + gates, scenario=scenario)
        why = say("A blower that moves more air than its motor is made for overheats the motor.")
    else:
        source = "project file: last point of the curve"
        what = say("flow against the end of the blower's curve, " + gates, scenario=scenario)
        why = say(
            "Past the last point nobody measured the blower: the curve was drawn on straight, so do not lean on it."
        )
    return make_finding(check.key, what, check.verdict, why, check.kind, check.value, check.limit, sense, source, mends)


def judge_curve(project: Project, scenarios: tuple[Scenario, ...]) -> list[Finding]:
    """Return the findings on the blower's curve itself."""
    found = []
    if project.blower.from_rating:
        found.append(
            Finding(
                "blower.rating",
                say("blower curve drawn from its rating"),
                Verdict.TIGHT,
                say(
                    "The rating's flow and pressure are the two ends of a curve, never one working point. A straight "
                    "line was drawn between them; every flow here stands on that."
                ),
                mends=(say("Get the maker's curve, or measure flow and pressure at two gates and put the points in."),),
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
                    say(
                        "blower and ducts meet at more than one flow, " + name_gates(scenario.name),
                        scenario=scenario.name,
                    ),
                    Verdict.TIGHT,
                    say(
                        "Where the curve rises the blower may hunt between {low} and {high}.",
                        low=Amount(min(flows), "flow_m3s"),
                        high=Amount(max(flows), "flow_m3s"),
                    ),
                    value=Amount(float(len(flows)), "count"),
                    limit=Amount(1.0, "count"),
                    mends=(say("Check the curve's points; keep the working flow beyond the hump."),),
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
            say("blower's pressure with every gate shut: the curve starts at {flow}", flow=flow),
            Verdict.TIGHT,
            say(
                "Panels, duct and tube are made for the highest pressure the blower can make. Below its first point, "
                "{pressure}, the curve was drawn on straight; nobody measured there.", pressure=pressure,
            ),
            mends=(say("Shut every gate, read the pressure at the blower and put the point in at a flow of nothing."),),
            source="project file: first point of the curve",
        )
    ]  # fmt: skip
    slow = [s for s in scenarios if s.kind != "all" and s.point.beyond == "before first point"]
    if slow:
        least = min(slow, key=lambda s: s.flow.best)
        found.append(
            make_finding(
                "blower.curve_start",
                say("flow against the start of the blower's curve, " + name_gates(least.name), scenario=least.name),
                Verdict.TIGHT,
                say("Before the first point nobody measured the blower: the curve was drawn on straight, so do not "
                    "lean on it."),
                "flow_m3s", least.flow, first.flow_m3s, "at least", "project file: first point of the curve",
                (say("Ask the maker for the curve down to shut-off."),),
            )
        )  # fmt: skip
    return found


def judge_all_open(scenario: Scenario) -> Finding:
    """Return the finding on all gates open at once: told, never held against a shop that works one gate at a time.

    A shop that does open all its gates lists them as a gate set, and that set is held against its limits.
    """
    short = [row for row in scenario.machines if row.flow.best < row.needs_m3s]
    worst = min(scenario.machines, key=lambda row: row.flow.best / row.needs_m3s)
    return make_finding(
        "gates.all_open",
        say("air at {machine} with all gates open, for comparison; {short} of {count} machines then get less than they "
            "need", machine=worst.machine, short=Amount(float(len(short)), "count"),
            count=Amount(float(len(scenario.machines)), "count")),
        Verdict.FITS,
        say("Government wood-shop criteria ask for all hoods open at once. This sizing is for one gate, or one set of "
            "gates, at a time, which is home-shop practice: if you must meet those criteria, size for all of them."),
        "flow_m3s", worst.flow, None, "at least",
        "UFC 3-410-04N Industrial Ventilation 2004, section 7-4.4; one gate at a time: common practice, no source",
        (say("Shut every gate but the one you work at."),) if short else (),
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
                say("machine hours between cleanings"),
                Verdict.FITS if fits else Verdict.TIGHT,
                say("Cleaning a filter is the dustiest job in the shop; more often than weekly it will be put off."),
                "time_h",
                clean_me.hours_later,
                week,
                "at least",
                "common practice, no source: one working week",
                () if fits else (say("Add a filter, or a separator that catches more."),),
            )
        )
    found += _judge_media(filters, project)
    if filters.captures_assumed:
        found.append(
            make_finding(
                "separator.capture",
                say("share of dust the separator keeps was assumed"),
                Verdict.TIGHT,
                say("Hours between cleanings stand or fall with it."),
                "share",
                filters.captures,
                None,
                "at least",
                "common practice, no source",
                (say("Weigh bin and pails after a month and put the share in."),),
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
                say("clean filter loss against the media's limit"),
                verdict,
                say("Media pushed past its limit tears or lets dust through."),
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
        say("reading at clean me, with {machine} alone open, against the band of the clean reading",
            machine=scenario.open[0]),
        Verdict.FITS if clear else Verdict.TIGHT,
        say("Inside that band new filters may already stand at clean me, and you would clean for nothing."),
        "pressure_pa", loaded, clean.high if rises else clean.low, "at least" if rises else "at most",
        "spread of published coefficients; clean filters up to three times their loss",
        () if clear else (say("Take the clean reading off the gauge on the first day and mark from that."),),
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
    mends = (say("Wear hearing protection at the machines."),) if verdict is not Verdict.FITS else ()
    return make_finding(
        "sound.exposure",
        say("share of a day's noise allowance used by {hours} at {level} at the ear",
            hours=Amount(sound.hours_a_day, "time_h"), level=Amount(heard.level_db, "sound_db")),
        verdict,
        say("Hearing lost to noise does not come back. NIOSH allows {niosh} at this level, OSHA {osha}; the level is "
            "good to about 3 dB.", niosh=Amount(heard.niosh_h, "time_h"), osha=Amount(heard.osha_h, "time_h")),
        "share", band, 1.0, "at most", "NIOSH 98-126: 85 dBA for 8 hours, 3 dB exchange", mends,
    )  # fmt: skip


def judge_air(project: Project, air: ShopAir, make_up: MakeUpAir) -> list[Finding]:
    """Return the findings on barometer and make-up air."""
    found = []
    if air.barometer_gap is not None:
        wide = abs(air.barometer_gap) > 0.03
        found.append(
            make_finding(
                "air.barometer",
                say("barometer against altitude"),
                Verdict.TIGHT if wide else Verdict.FITS,
                say(
                    "Altitude alone gives {standard}. A weather report's barometer is reduced to sea level: read "
                    "one in the shop.",
                    standard=Amount(air.standard_pressure_pa, "pressure_pa"),
                ),
                "share",
                abs(air.barometer_gap),
                0.03,
                "at most",
                "U.S. Standard Atmosphere 1976; weather moves it by about 3 %",
                (say("Check barometer and altitude: the barometer was used."),) if wide else (),
            )
        )
    if make_up.needed:
        flued = project.shop.flued_appliance
        why = say(
            "The blower pulls this much out of the room. A room that falls behind draws flue gas back down a chimney, "
            "and carbon monoxide gives no warning. The file says nothing of an opening to outdoors." if flued else
            "Air blown outdoors must come in again, or blower and heating suffer. The file says nothing of an opening."
        )  # fmt: skip
        test = say("Stop: with a flued heater in the same air, have the draught tested with the blower running, and "
                   "fit a carbon monoxide alarm.")  # fmt: skip
        opening = say("Open {area} to outdoors while the blower runs, or bring the clean air back indoors.",
                      area=Amount(make_up.opening_m2, "area_m2"))  # fmt: skip
        found.append(
            make_finding(
                "air.make_up",
                say("make-up air opening for {flow}", flow=Amount(make_up.flow_m3s, "flow_m3s")),
                Verdict.TIGHT,
                why,
                "area_m2",
                make_up.opening_m2,
                None,
                "at least",
                "orifice equation; depression limits of combustion-appliance testing",
                (test, opening) if flued else (opening,),
            )
        )
    return found


def judge_leakage(project: Project, leakage: Leakage) -> Finding:
    """Return the finding on leaks. Where the file gives none at all it says so, and gives no figure."""
    given = any(m.gate and m.gate.leak_m2 for m in project.machines) or any(r.leakage_class for r in project.runs)
    if not given:
        return Finding(
            "leaks",
            say("air coming in by shut gates and seams: not given, so none was counted"),
            Verdict.FITS,
            say("Air that leaks in is missing at the hood. Give each gate's leak area and each run's leakage class, or "
                "hunt the leaks down."),
            source="common practice, no source",
        )  # fmt: skip
    fits = leakage.share <= 0.1
    return make_finding(
        "leaks", say("air coming in by shut gates and seams, with {scenario} open", scenario=leakage.scenario),
        Verdict.FITS if fits else Verdict.TIGHT,
        say("Air that leaks in is missing at the hood."), "share", leakage.share, 0.1, "at most",
        "common practice, no source",
        () if fits else (say("Hunt leaks from the blower outward, seam by seam, with one gate open."),),
    )  # fmt: skip

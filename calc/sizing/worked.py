"""Worked calculations: every formula used, with the numbers of the worst machine put in, to follow with a pencil."""

from __future__ import annotations

import math

from calc.airflow.air import STANDARD_DENSITY
from calc.airflow.chains import BEST
from calc.airflow.ducts import RIBBED_FACTOR, find_area, find_friction_factor, find_reynolds
from calc.airflow.items import SLACK_SOURCE, Item, size_of
from calc.airflow.ledger import list_items
from calc.airflow.loading import find_made_rate
from calc.airflow.separator import find_turns
from calc.airflow.system import System
from calc.airflow.velocities import find_widest
from calc.finding import Amount, Said, say
from calc.measures.quantity import Kind
from calc.project import Filter
from calc.results import LedgerRow, Sizing, Sound, Worked
from calc.sizing.sound import find_plenum_loss, measure_plenum

_AIR, _DUCT, _BLOWER = say("worked.of_air"), say("worked.of_ducts"), say("worked.of_blower")
_FILTER, _GAUGE, _ROOM = say("worked.of_filters"), say("worked.of_gauge"), say("worked.of_room")


def _number(value: float, kind: Kind) -> Amount:
    return Amount(value, kind)


def _plain(value: float) -> Amount:
    return Amount(value, "ratio")


def _text(value: float) -> str:
    """Return a number that has no unit, or is in the formula's own, to four figures."""
    return f"{value:.0f}" if abs(value) >= 1e4 else f"{value:.4g}"


def work_air(system: System) -> list[Worked]:
    """Return pressure, humidity and density of the shop's air."""
    shop, air = system.project.shop, system.air
    pressure = Worked(
        subject=_AIR,
        symbol=say("worked.pressure"),
        formula=say("worked.pressure_formula"),
        numbers=(
            say("worked.pressure_numbers", z=_number(shop.altitude_m, "length_m"), metres=_text(shop.altitude_m)),
        ),
        value=_number(air.standard_pressure_pa, "barometer_pa"),
        source="U.S. Standard Atmosphere 1976",
    )
    density = Worked(
        subject=_AIR,
        symbol=say("worked.density"),
        formula=say("worked.density_formula"),
        numbers=(
            say(
                "worked.density_numbers",
                pascals=_text(air.pressure_pa),
                t=_number(shop.temperature_k, "temperature_k"),
                kelvin=_text(shop.temperature_k),
                w=_text(air.humidity_ratio),
                h=_number(shop.humidity, "share"),
            ),
        ),
        value=_number(air.density_kgm3, "density_kgm3"),
        source="ASHRAE Handbook Fundamentals, Psychrometrics",
    )
    factor = Worked(
        subject=_AIR,
        symbol=say("worked.factor"),
        formula=say("worked.factor_formula"),
        numbers=(
            say(
                "worked.factor_numbers",
                a=density.value,
                b=_number(STANDARD_DENSITY, "density_kgm3"),
                more=_text(air.density_kgm3),
                under=_text(STANDARD_DENSITY),
            ),
        ),
        value=_number(air.factor, "share"),
        source="standard air 0.075 lb/ft³, ASHRAE and ACGIH",
    )
    return [pressure, density, factor]


def work_friction(system: System, item: Item, flow: float) -> list[Worked]:
    """Return Reynolds number, friction factor and loss of one length of duct."""
    assert item.friction is not None
    laid = item.friction[BEST]
    air, d = system.air, laid.diameter_m
    speed = flow / find_area(d)
    reynolds = find_reynolds(speed, d, air.density_kgm3, air.viscosity_pas)
    f = find_friction_factor(reynolds, laid.roughness_m / d)
    pressure = air.density_kgm3 * speed**2 / 2
    loss = f * laid.length_m / d * pressure * laid.factor
    source = "Darcy and Weisbach; ASHRAE Handbook Fundamentals, Duct Design"
    slack = work_slack(item) if item.source == SLACK_SOURCE else []
    length = _number(laid.length_m, "length_m")
    return [
        Worked(
            subject=_DUCT,
            symbol=say("worked.reynolds"),
            formula=say("worked.reynolds_formula"),
            numbers=(
                say("worked.reynolds_numbers", v=_number(speed, "speed_ms"), d=size_of(d), mu=_text(air.viscosity_pas)),
            ),
            value=_number(reynolds, "ratio"),
            source="Reynolds number; viscosity by Sutherland's law",
        ),
        Worked(
            subject=_DUCT,
            symbol=say("worked.friction_factor"),
            formula=say("worked.friction_factor_formula"),
            numbers=(say("worked.friction_factor_numbers", e=_text(laid.roughness_m / d)),),
            value=_plain(f),
            source="Colebrook; roughness from ASHRAE Handbook Fundamentals, Duct Design",
        ),
        *slack,
        Worked(
            subject=_DUCT,
            symbol=say("worked.friction"),
            formula=say("worked.friction_formula"),
            numbers=(
                say(
                    "worked.friction_numbers",
                    k=_text(laid.factor),
                    l=length,
                    vp=_number(pressure, "pressure_pa"),
                    what=item.what,
                ),
            ),
            value=_number(loss, "pressure_pa"),
            source=item.source if laid.factor != 1 else source,
        ),
    ]


def work_slack(item: Item) -> list[Worked]:
    """Return how many times more a ribbed hose loses than smooth pipe, slack counted in."""
    assert item.friction is not None
    laid = item.friction[BEST]
    ribbed = RIBBED_FACTOR[BEST]
    slack = laid.factor / ribbed
    spread = math.exp(-0.126 * laid.diameter_m / 0.0254)
    percent = (slack - 1) / (0.58 * spread)
    return [
        Worked(
            subject=_DUCT,
            symbol=say("worked.slack"),
            formula=say("worked.slack_formula"),
            numbers=(say("worked.slack_numbers", r=_text(percent), d=size_of(laid.diameter_m)),),
            value=_plain(laid.factor),
            source="ribbed hose 3 times smooth pipe (2.5 to 3.75): common practice, no source; slack: ASHRAE "
            "Fundamentals, after Abushakra, Walker and Sherman 2004 (from memory)",
        )
    ]


def work_fitting(row: LedgerRow) -> Worked:
    """Return the loss of one fitting from its coefficient."""
    assert row.coefficient is not None
    assert row.velocity_pressure_pa is not None
    return Worked(
        subject=_DUCT,
        symbol=say("worked.fitting"),
        formula=say("worked.fitting_formula"),
        numbers=(
            say(
                "worked.fitting_numbers",
                c=_text(row.coefficient),
                vp=_number(row.velocity_pressure_pa, "pressure_pa"),
                what=row.what,
            ),
        ),
        value=_number(row.loss_pa, "pressure_pa"),
        source=row.source,
    )


def work_ducts(system: System, sizing: Sizing) -> list[Worked]:
    """Return speed, velocity pressure, one fitting of each kind, one hose and one pipe, and the sum."""
    scenario = sizing.get_alone(sizing.worst)
    machine = system.project.get_machine(sizing.worst)
    flow = scenario.get_machine(sizing.worst).flow.best
    d = find_widest(machine.pieces) or machine.pickups[0].hood.diameter_m
    speed = flow / find_area(d)
    worked = [
        Worked(
            subject=_DUCT,
            symbol=say("worked.speed"),
            formula=say("worked.speed_formula"),
            numbers=(say("worked.speed_numbers", q=_number(flow, "flow_m3s"), d=size_of(d), machine=sizing.worst),),
            value=_number(speed, "speed_ms"),
            source="continuity",
        ),
        Worked(
            subject=_DUCT,
            symbol=say("worked.velocity_pressure"),
            formula=say("worked.velocity_pressure_formula"),
            numbers=(
                say(
                    "worked.velocity_pressure_numbers",
                    rho=_number(system.air.density_kgm3, "density_kgm3"),
                    v=_number(speed, "speed_ms"),
                ),
            ),
            value=_number(system.air.density_kgm3 * speed**2 / 2, "pressure_pa"),
            source="ASHRAE Handbook Fundamentals, Duct Design",
        ),
    ]
    seen: set[str] = set()
    for row in scenario.ledger:
        if row.kind in ("hood", "fitting", "join") and row.coefficient is not None and row.what.phrase not in seen:
            seen.add(row.what.phrase)
            worked.append(work_fitting(row))
    flows = system.balance((sizing.worst,), BEST)
    for item, through in list_items(system, flows, sizing.worst):
        if item.friction is not None and item.what.phrase not in seen:
            seen.add(item.what.phrase)
            worked += work_friction(system, item, through)
    worked.append(
        Worked(
            subject=_DUCT,
            symbol=say("worked.sum"),
            formula=say("worked.sum_formula"),
            numbers=(say("worked.sum_numbers", count=_number(float(len(scenario.ledger)), "count")),),
            value=_number(scenario.ledger[-1].total_pa, "pressure_pa"),
            source="the loss ledger",
        )
    )
    return worked


def work_blower(system: System, sizing: Sizing) -> list[Worked]:
    """Return the working point, air power and shaft power."""
    point = sizing.get_alone(sizing.worst).point
    blower = system.project.blower
    ratio = system.air.density_kgm3 / blower.curve_density
    speed = blower.runs_at / blower.curve_speed if blower.runs_at and blower.curve_speed else 1.0
    return [
        Worked(
            subject=_BLOWER,
            symbol=say("worked.curve"),
            formula=say("worked.curve_formula"),
            numbers=(say("worked.curve_numbers", n=_text(speed), r=_text(ratio)),),
            value=_number(speed**2 * ratio, "share"),
            source="fan laws, AMCA 201 and ASHRAE Handbook Systems and Equipment (from memory)",
        ),
        Worked(
            subject=_BLOWER,
            symbol=say("worked.total"),
            formula=say("worked.total_formula"),
            numbers=(
                say(
                    "worked.total_numbers",
                    p=_number(point.static_pa, "pressure_pa"),
                    vp=_number(point.total_pa - point.static_pa, "pressure_pa"),
                    q=_number(point.flow_m3s, "flow_m3s"),
                ),
            ),
            value=_number(point.total_pa, "pressure_pa"),
            source="AMCA 201 (from memory)",
        ),
        Worked(
            subject=_BLOWER,
            symbol=say("worked.power"),
            formula=say("worked.power_formula"),
            numbers=(
                say(
                    "worked.power_numbers",
                    q=_number(point.flow_m3s, "flow_m3s"),
                    p=_number(point.total_pa, "pressure_pa"),
                    e=_number(blower.efficiency, "share"),
                ),
            ),
            value=_number(point.shaft_power_w, "power_w"),
            source="ASHRAE Handbook Systems and Equipment; efficiency: "
            + ("assumed" if system.project.is_assumed("blower.efficiency") else "project file"),
        ),
    ]


def work_filters(system: System, sizing: Sizing) -> list[Worked]:
    """Return air-to-media, clean media loss, loaded loss, hours, and the gauge's reading."""
    filters, bank = sizing.filters, system.bank
    member = bank.members[0]
    flow = sizing.at_gauge.flow.best
    each = bank.share_flow(flow, BEST)[0]
    face = each / member.filter.media_m2
    clean = member.clean * member.filter.media_m2
    me = filters.clean_me
    loaded = system.balance((me.read_at,), BEST, me.areal_kgm2)
    loaded_face = bank.share_flow(loaded.blower_flow, BEST, me.areal_kgm2)[0] / member.filter.media_m2
    cake = filters.cake_resistance
    opening = member.opening[BEST] * each**2
    worked = [
        Worked(
            subject=_FILTER,
            symbol=say("worked.air_to_media"),
            formula=say("worked.air_to_media_formula"),
            numbers=(
                say(
                    "worked.air_to_media_numbers",
                    q=_number(flow, "flow_m3s"),
                    a=_number(filters.media_m2, "area_m2"),
                    gate=sizing.gauge_at,
                ),
            ),
            value=_number(flow / filters.media_m2, "face_speed_ms"),
            source="definition",
        ),
        work_clean_media(member.filter, clean, face),
        Worked(
            subject=_FILTER,
            symbol=say("worked.loaded"),
            formula=say("worked.loaded_formula"),
            numbers=(
                say(
                    "worked.loaded_numbers",
                    s=_text(clean),
                    k=_text(cake),
                    w=_number(me.areal_kgm2, "areal_mass_kgm2"),
                    v=_number(loaded_face, "face_speed_ms"),
                ),
            ),
            value=_number((clean + cake * me.areal_kgm2) * loaded_face, "pressure_pa"),
            source="fabric-filter equation, US EPA Air Pollution Control Cost Manual, section 6 chapter 1 "
            "(from memory)",
        ),
        Worked(
            subject=_GAUGE,
            symbol=say("worked.clean_reading"),
            formula=say(
                "worked.clean_reading_formula" if system.pressure_side else "worked.clean_reading_formula_suction"
            ),
            numbers=(
                say(
                    "worked.clean_reading_numbers",
                    o=_number(opening, "pressure_pa"),
                    m=_number(clean * face, "pressure_pa"),
                )
                if system.pressure_side
                else say("worked.clean_reading_numbers_suction"),
            ),
            value=_number(sizing.at_gauge.reading.best, "pressure_pa"),
            source="the ledger's last lines",
        ),
        Worked(
            subject=_GAUGE,
            symbol=say("worked.clean_me"),
            formula=say("worked.clean_me_formula"),
            numbers=(say("worked.clean_me_numbers", q=_number(loaded.blower_flow, "flow_m3s"), why=me.why),),
            value=_number(me.reading_pa, "pressure_pa"),
            source="working point moved along the blower's own curve",
        ),
    ]
    if filters.cut_size_m is not None:
        worked.append(work_cut(system, sizing))
    if me.hours_first is not None and math.isfinite(me.hours_first):
        worked.append(
            Worked(
                subject=_FILTER,
                symbol=say("worked.hours"),
                formula=say("worked.hours_formula"),
                numbers=(
                    say(
                        "worked.hours_numbers",
                        w=_number(me.areal_kgm2, "areal_mass_kgm2"),
                        a=_number(filters.media_m2, "area_m2"),
                        m=_number(find_made_rate(system.project), "mass_rate_kgs"),
                        c=_number(filters.captures, "share"),
                    ),
                ),
                value=_number(me.hours_first, "time_h"),
                source="mass balance",
            )
        )
    return worked


def work_clean_media(filter_: Filter, clean: float, face: float) -> Worked:
    """Return the clean media's loss, its resistance S from whichever the file gives."""
    resistance, speed = _text(clean), _number(face, "face_speed_ms")
    if filter_.permeability_ms:
        test = _number(filter_.permeability_pa or 125.0, "pressure_pa")
        formula = say("worked.media_formula_tested")
        numbers = say(
            "worked.media_numbers_tested",
            p=test,
            k=_number(filter_.permeability_ms, "face_speed_ms"),
            r=resistance,
            v=speed,
        )
        source = "Darcy, from memory; ASTM D737 names the test pressure"
    else:
        assert filter_.loss_pa is not None
        assert filter_.loss_at_m3s
        formula = say("worked.media_formula_given")
        numbers = say(
            "worked.media_numbers_given",
            p=_number(filter_.loss_pa, "pressure_pa"),
            a=_number(filter_.media_m2, "area_m2"),
            q=_number(filter_.loss_at_m3s, "flow_m3s"),
            r=resistance,
            v=speed,
        )
        source = "Darcy, from memory; project file: loss at a flow"
    return Worked(
        subject=_FILTER,
        symbol=say("worked.media"),
        formula=formula,
        numbers=(numbers,),
        value=_number(clean * face, "pressure_pa"),
        source=source,
    )


def work_cut(system: System, sizing: Sizing) -> Worked:
    """Return the cyclone's cut size at the filters' highest flow."""
    cyclone, filters = system.project.separator, sizing.filters
    assert cyclone.inlet_width_m
    assert cyclone.inlet_height_m
    assert filters.cut_size_m is not None
    speed = filters.face_speed_ms * filters.media_m2 / (cyclone.inlet_width_m * cyclone.inlet_height_m)
    return Worked(
        subject=_FILTER,
        symbol=say("worked.cut"),
        formula=say("worked.cut_formula"),
        numbers=(
            say(
                "worked.cut_numbers",
                w=size_of(cyclone.inlet_width_m),
                n=_text(find_turns(cyclone)),
                v=_number(speed, "speed_ms"),
                rho=_number(600.0, "density_kgm3"),
                mu=_text(system.air.viscosity_pas),
            ),
        ),
        value=_number(filters.cut_size_m * 1e6, "ratio"),
        source="Lapple 1951 (from memory): an estimate for general-purpose cyclones, thin dust and round grains; "
        "expect coarser in a shop",
    )


def work_room(system: System, sizing: Sizing) -> list[Worked]:
    """Return the sound sum, allowed hours and the make-up opening."""
    worked = []
    sound = sizing.sound
    if sound is not None:
        band = max(sound.bands, key=lambda b: b.before_db)
        plenum = measure_plenum(system.project)
        lined = find_plenum_loss(
            band.absorption, plenum.surface_m2, plenum.outlet_m2, plenum.distance_m, plenum.angle_deg
        )
        worked += [
            Worked(
                subject=_ROOM,
                symbol=say("worked.level"),
                formula=say("worked.level_formula"),
                numbers=(_list_levels(sound),),
                value=_number(sound.after.level_db, "sound_db"),
                source="definition of the level",
            ),
            Worked(
                subject=_ROOM,
                symbol=say("worked.lining"),
                formula=say("worked.lining_formula"),
                numbers=(
                    say(
                        "worked.lining_numbers",
                        out=_number(plenum.outlet_m2, "area_m2"),
                        out_m2=_text(plenum.outlet_m2),
                        inside=_number(plenum.surface_m2, "area_m2"),
                        inside_m2=_text(plenum.surface_m2),
                        r=_number(plenum.distance_m, "length_m"),
                        angle=_number(plenum.angle_deg, "angle_deg"),
                        a=_text(band.absorption),
                        hz=_number(float(band.hz), "frequency_hz"),
                    ),
                ),
                value=_number(lined, "sound_db"),
                source="R. J. Wells 1958, ASHRAE Handbook HVAC Applications",
            ),
            Worked(
                subject=_ROOM,
                symbol=say("worked.left"),
                formula=say("worked.left_formula"),
                numbers=(
                    say("worked.left_numbers", l=_number(band.before_db, "sound_db"), t=_number(lined, "sound_db")),
                ),
                value=_number(band.after_db, "sound_db"),
                source="casing and motor 8 dB below the whole, untouched by the box: common practice, no source",
            ),
            Worked(
                subject=_ROOM,
                symbol=say("worked.allowed"),
                formula=say("worked.allowed_formula"),
                numbers=(say("worked.allowed_numbers", l=_number(sound.with_others.level_db, "sound_db")),),
                value=_number(sound.with_others.niosh_h, "time_h"),
                source="NIOSH 98-126",
            ),
        ]
    air = sizing.make_up_air
    worked.append(
        Worked(
            subject=_ROOM,
            symbol=say("worked.make_up"),
            formula=say("worked.make_up_formula"),
            numbers=(say("worked.make_up_numbers", q=_number(air.flow_m3s, "flow_m3s"), p=_text(air.depression_pa)),),
            value=Amount(air.opening_m2, "area_m2", toward="up"),
            source="orifice equation; needed only where the air goes outdoors",
        )
    )
    return worked


def _list_levels(sound: Sound) -> Said:
    """Return the levels of the bands in a row."""
    told: Said | None = None
    for band in sound.bands:
        level = _number(band.after_db, "sound_db")
        told = say("worked.level_numbers", l=level) if told is None else say("worked.level_more", before=told, l=level)
    assert told is not None
    return told


def work_out(system: System, sizing: Sizing) -> tuple[Worked, ...]:
    """Return all worked calculations, subject by subject."""
    ducts: list[Worked] = work_ducts(system, sizing)
    blower, filters = work_blower(system, sizing), work_filters(system, sizing)
    ordered = [*work_air(system), *ducts, *blower, *filters, *work_room(system, sizing)]
    subjects = (_AIR, _DUCT, _BLOWER, _FILTER, _GAUGE, _ROOM)
    return tuple(sorted(ordered, key=lambda w: subjects.index(w.subject)))

"""Worked calculations: every formula used, with the numbers of the worst machine put in, to follow with a pencil."""

from __future__ import annotations

import math

from calc.air import STANDARD_DENSITY
from calc.chains import BEST
from calc.ducts import find_area, find_friction_factor, find_reynolds
from calc.finding import Amount
from calc.items import Item, say, size_of
from calc.ledger import list_items
from calc.quantity import Kind
from calc.results import LedgerRow, Sizing, Worked
from calc.system import System
from calc.velocities import find_widest

_AIR, _DUCT, _BLOWER = "Shop air", "Ducts of the worst machine", "Blower"
_FILTER, _GAUGE, _ROOM = "Filters", "Gauge", "Sound and room"


def _number(value: float, kind: Kind) -> Amount:
    return Amount(value, kind)


def _plain(value: float) -> Amount:
    return Amount(value, "ratio")


def work_air(system: System) -> list[Worked]:
    """Return pressure, humidity and density of the shop's air."""
    shop, air = system.project.shop, system.air
    pressure = Worked(
        _AIR, "p", "101325 (1 − 2.25577e-5 Z)^5.2559",
        (say("Z = {z} ({metres} m)", z=_number(shop.altitude_m, "length_m"), metres=_plain(shop.altitude_m)),),
        _number(air.standard_pressure_pa, "pressure_pa"), "U.S. Standard Atmosphere 1976",
    )  # fmt: skip
    density = Worked(
        _AIR, "ρ", "(1 + W) p / (287.042 T (1 + 1.607858 W))",
        (
            say("p = {pascals} Pa,", pascals=_plain(air.pressure_pa)),
            say(
                "T = {t} ({kelvin} K),",
                t=_number(shop.temperature_k, "temperature_k"),
                kelvin=_plain(shop.temperature_k),
            ),
            say("W = {w} from {h} humidity", w=_plain(air.humidity_ratio), h=_number(shop.humidity, "share")),
        ),
        _number(air.density_kgm3, "density_kgm3"), "ASHRAE Handbook Fundamentals, Psychrometrics",
    )  # fmt: skip
    factor = Worked(
        _AIR, "air density factor", "ρ / standard density",
        (say("{a} / {b}", a=density.value, b=_number(STANDARD_DENSITY, "density_kgm3")),),
        _plain(air.factor), "standard air 0.075 lb/ft³, ASHRAE and ACGIH",
    )  # fmt: skip
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
    length = _number(laid.length_m, "length_m")
    return [
        Worked(
            _DUCT, "Re", "ρ V D / μ",
            (say("V = {v}, D = {d}, μ = {mu} Pa·s", v=_number(speed, "speed_ms"), d=size_of(d),
                 mu=_plain(air.viscosity_pas)),),
            _number(reynolds, "ratio"), "Reynolds number; viscosity by Sutherland's law",
        ),
        Worked(
            _DUCT, "f", "1/√f = −2 log10(ε/(3.7 D) + 2.51/(Re √f))",
            (say("ε/D = {e}", e=_plain(laid.roughness_m / d)),),
            _plain(f), "Colebrook; roughness from ASHRAE Handbook Fundamentals, Duct Design",
        ),
        Worked(
            _DUCT, "Δp", "k f (L/D) ρ V²/2",
            (say("k = {k}, L = {l}, ρ V²/2 = {vp}", k=_plain(laid.factor), l=length,
                 vp=_number(pressure, "pressure_pa")),
             say("for " + item.what.pattern, **item.what.amounts, **item.what.names)),
            _number(loss, "pressure_pa"), item.source if laid.factor != 1 else source,
        ),
    ]  # fmt: skip


def work_fitting(row: LedgerRow) -> Worked:
    """Return the loss of one fitting from its coefficient."""
    assert row.coefficient is not None
    assert row.velocity_pressure_pa is not None
    return Worked(
        _DUCT, "Δp", "C ρ V²/2",
        (say("C = {c}, ρ V²/2 = {vp}", c=_plain(row.coefficient), vp=_number(row.velocity_pressure_pa, "pressure_pa")),
         say("for " + row.what.pattern, **row.what.amounts, **row.what.names)),
        _number(row.loss_pa, "pressure_pa"), row.source,
    )  # fmt: skip


def work_ducts(system: System, sizing: Sizing) -> list[Worked]:
    """Return speed, velocity pressure, one fitting of each kind, one hose and one pipe, and the sum."""
    scenario = sizing.get_alone(sizing.worst)
    machine = system.project.get_machine(sizing.worst)
    flow = scenario.get_machine(sizing.worst).flow.best
    d = find_widest(machine.pieces) or machine.pickups[0].hood.diameter_m
    area = find_area(d)
    speed = flow / area
    worked = [
        Worked(
            _DUCT, "V", "Q / (π D²/4)",
            (say("{q} / {a} in the drop of {machine}", q=_number(flow, "flow_m3s"), a=_number(area, "area_m2"),
                 machine=sizing.worst),),
            _number(speed, "speed_ms"), "continuity",
        ),
        Worked(
            _DUCT, "velocity pressure", "ρ V²/2",
            (say("ρ = {rho}, V = {v}", rho=_number(system.air.density_kgm3, "density_kgm3"),
                 v=_number(speed, "speed_ms")),),
            _number(system.air.density_kgm3 * speed**2 / 2, "pressure_pa"), "ASHRAE Handbook Fundamentals, Duct Design",
        ),
    ]  # fmt: skip
    seen: set[str] = set()
    for row in scenario.ledger:
        if row.kind in ("hood", "fitting", "join") and row.coefficient is not None and row.what.pattern not in seen:
            seen.add(row.what.pattern)
            worked.append(work_fitting(row))
    flows = system.balance((sizing.worst,), BEST)
    for item, through in list_items(system, flows, sizing.worst):
        if item.friction is not None and item.what.pattern not in seen:
            seen.add(item.what.pattern)
            worked += work_friction(system, item, through)
    worked.append(
        Worked(
            _DUCT, "sum of losses", "Σ Δp from hood to room",
            (say("{count} lines of the ledger", count=_number(float(len(scenario.ledger)), "count")),),
            _number(scenario.ledger[-1].total_pa, "pressure_pa"), "the loss ledger",
        )
    )  # fmt: skip
    return worked


def work_blower(system: System, sizing: Sizing) -> list[Worked]:
    """Return the working point, air power and shaft power."""
    point = sizing.get_alone(sizing.worst).point
    blower = system.project.blower
    ratio = system.air.density_kgm3 / blower.curve_density
    speed = blower.runs_at / blower.curve_speed if blower.runs_at and blower.curve_speed else 1.0
    return [
        Worked(
            _BLOWER, "curve's pressures ×", "(N/N₀)² ρ/ρ₀",
            (say("N/N₀ = {n}, ρ/ρ₀ = {r}", n=_plain(speed), r=_plain(ratio)),),
            _plain(speed**2 * ratio), "fan laws, AMCA 201 and ASHRAE Handbook Systems and Equipment",
        ),
        Worked(
            _BLOWER, "total pressure", "static pressure + ρ V²/2 at the outlet",
            (say("{p} + {vp} at {q}", p=_number(point.static_pa, "pressure_pa"),
                 vp=_number(point.total_pa - point.static_pa, "pressure_pa"), q=_number(point.flow_m3s, "flow_m3s")),),
            _number(point.total_pa, "pressure_pa"), "AMCA 201",
        ),
        Worked(
            _BLOWER, "shaft power", "Q p / efficiency",
            (say("{q} × {p} / {e}", q=_number(point.flow_m3s, "flow_m3s"), p=_number(point.total_pa, "pressure_pa"),
                 e=_number(blower.efficiency, "share")),),
            _number(point.shaft_power_w, "power_w"), "ASHRAE Handbook Systems and Equipment; efficiency: project file",
        ),
    ]  # fmt: skip


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
            _FILTER, "air-to-media", "Q / A",
            (say("{q} / {a} with {gate} open", q=_number(flow, "flow_m3s"), a=_number(filters.media_m2, "area_m2"),
                 gate=sizing.gauge_at),),
            _number(flow / filters.media_m2, "face_speed_ms"), "definition",
        ),
        Worked(
            _FILTER, "clean media loss", "S v, S = test pressure / permeability",
            (say("S = {r} Pa·s/m, v = {v}", r=_plain(clean), v=_number(face, "face_speed_ms")),),
            _number(clean * face, "pressure_pa"), "Darcy; ASTM D737 names the test pressure",
        ),
        Worked(
            _FILTER, "loaded media loss", "(S + K₂ W) v",
            (say("S = {s} Pa·s/m, K₂ = {k} 1/s, W = {w}, v = {v}", s=_plain(clean), k=_plain(cake),
                 w=_number(me.areal_kgm2, "areal_mass_kgm2"), v=_number(loaded_face, "face_speed_ms")),),
            _number((clean + cake * me.areal_kgm2) * loaded_face, "pressure_pa"),
            "fabric-filter equation, US EPA Air Pollution Control Cost Manual, section 6 chapter 1 (from memory)",
        ),
        Worked(
            _GAUGE, "clean reading", "opening loss + clean media loss",
            (say("{o} + {m}", o=_number(opening, "pressure_pa"), m=_number(clean * face, "pressure_pa")),)
            if system.pressure_side else (say("suction of everything before the box"),),
            _number(sizing.at_gauge.reading.best, "pressure_pa"), "the ledger's last lines",
        ),
        Worked(
            _GAUGE, "clean-me reading", "blower's total pressure − losses before the box",
            (say("at {q}: ", q=_number(loaded.blower_flow, "flow_m3s")), me.why),
            _number(me.reading_pa, "pressure_pa"), "working point moved along the blower's own curve",
        ),
    ]  # fmt: skip
    if me.hours_first is not None and math.isfinite(me.hours_first):
        worked.append(
            Worked(
                _FILTER, "hours to clean me", "W A / (dust made × (1 − captured))",
                (say("{w} × {a} / ({m} × (1 − {c}))", w=_number(me.areal_kgm2, "areal_mass_kgm2"),
                     a=_number(filters.media_m2, "area_m2"), m=_number(system.project.dust.made_kgs, "mass_rate_kgs"),
                     c=_number(filters.captures, "share")),),
                _number(me.hours_first, "time_h"), "mass balance",
            )
        )  # fmt: skip
    return worked


def work_room(system: System, sizing: Sizing) -> list[Worked]:
    """Return the sound sum, allowed hours and the make-up opening."""
    worked = []
    sound = sizing.sound
    if sound is not None:
        band = max(sound.bands, key=lambda b: b.before_db)
        worked += [
            Worked(
                _ROOM, "level of all bands", "10 log10 Σ 10^(L/10)",
                tuple(say("{l},", l=_number(b.after_db, "sound_db")) for b in sound.bands),
                _number(sound.after.level_db, "sound_db"), "definition of the level",
            ),
            Worked(
                _ROOM, "taken away, loudest band", "−10 log10(S₀ (cos θ/(2π r²) + (1 − α)/(S α)))",
                (say("α = {a} at {hz}", a=_plain(band.absorption), hz=_number(float(band.hz), "frequency_hz")),),
                _number(band.taken_db, "sound_db"),
                "R. J. Wells 1958, ASHRAE Handbook HVAC Applications; casing level taken into account",
            ),
            Worked(
                _ROOM, "hours a day allowed", "8 / 2^((L − 85)/3)",
                (say("L = {l}", l=_number(sound.with_others.level_db, "sound_db")),),
                _number(sound.with_others.niosh_h, "time_h"), "NIOSH 98-126",
            ),
        ]  # fmt: skip
    air = sizing.make_up_air
    worked.append(
        Worked(
            _ROOM, "make-up opening", "Q / (0.6 √(2 Δp/ρ))",
            (say("Q = {q}, Δp = {p}", q=_number(air.flow_m3s, "flow_m3s"),
                 p=_number(air.depression_pa, "pressure_pa")),),
            _number(air.opening_m2, "area_m2"), "orifice equation; needed only where the air goes outdoors",
        )
    )  # fmt: skip
    return worked


def work_out(system: System, sizing: Sizing) -> tuple[Worked, ...]:
    """Return all worked calculations, subject by subject."""
    ducts: list[Worked] = work_ducts(system, sizing)
    blower, filters = work_blower(system, sizing), work_filters(system, sizing)
    ordered = [*work_air(system), *ducts, *blower, *filters, *work_room(system, sizing)]
    subjects = (_AIR, _DUCT, _BLOWER, _FILTER, _GAUGE, _ROOM)
    return tuple(sorted(ordered, key=lambda w: subjects.index(w.subject)))

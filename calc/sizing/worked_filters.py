"""Worked calculations of filters and gauge: face speed, media, dust, readings, hours and the cyclone's cut."""

from __future__ import annotations

from calc.airflow.chains import BEST
from calc.airflow.dust import USUAL_FILL, find_bulk, find_made_rate, find_pleat_share, find_room
from calc.airflow.filters import USUAL_CAKE, USUAL_WORKING
from calc.airflow.items import size_of
from calc.airflow.separator import find_turns
from calc.airflow.system import System
from calc.finding import Amount, say
from calc.project import Aired, Filter
from calc.results import Sizing, Worked
from calc.sizing.worked_terms import OF_FILTERS, OF_GAUGE, to_amount, to_figures


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
    cake, works = member.filter.cake_resistance or USUAL_CAKE.best, member.filter.working_area or USUAL_WORKING.best
    opening = member.opening[BEST] * each**2
    worked = [
        Worked(
            subject=OF_FILTERS,
            symbol=say("worked.air_to_media"),
            formula=say("worked.air_to_media_formula"),
            numbers=(
                say(
                    f"worked.air_to_media_numbers{system.project.by_hose}",
                    q=to_amount(flow, "flow_m3s"),
                    a=to_amount(filters.media_m2, "area_m2"),
                    gate=sizing.gauge_at,
                ),
            ),
            value=to_amount(flow / filters.media_m2, "face_speed_ms"),
            source="definition",
        ),
        work_clean_media(member.filter, clean, face),
        Worked(
            subject=OF_FILTERS,
            symbol=say("worked.loaded"),
            formula=say("worked.loaded_formula"),
            numbers=(
                say(
                    "worked.loaded_numbers",
                    s=to_figures(clean),
                    k=to_figures(cake),
                    a=to_amount(works, "share"),
                    w=to_amount(me.areal_kgm2, "areal_mass_kgm2"),
                    v=to_amount(loaded_face, "face_speed_ms"),
                ),
            ),
            value=to_amount((clean + cake / works**2 * me.areal_kgm2) * loaded_face, "pressure_pa"),
            source="fabric-filter equation, US EPA Air Pollution Control Cost Manual, section 6 chapter 1 "
            "(from memory)",
        ),
        Worked(
            subject=OF_GAUGE,
            symbol=say("worked.clean_reading"),
            formula=say("worked.clean_reading_formula"),
            numbers=(
                say(
                    "worked.clean_reading_numbers",
                    o=to_amount(opening, "pressure_pa"),
                    m=to_amount(clean * face, "pressure_pa"),
                ),
            ),
            value=to_amount(sizing.at_gauge.reading.best, "pressure_pa"),
            source="the ledger's last lines",
        ),
        Worked(
            subject=OF_GAUGE,
            symbol=say("worked.clean_me"),
            formula=say("worked.clean_me_formula" if system.project.box else "worked.clean_me_formula_filters"),
            numbers=(say("worked.clean_me_numbers", q=to_amount(loaded.blower_flow, "flow_m3s"), why=me.why),),
            value=to_amount(me.reading_pa, "pressure_pa"),
            source="working point moved along the blower's own curve",
        ),
    ]
    if filters.cut_size_m is not None:
        worked.append(work_cut(system, sizing))
    worked.append(work_room_in_pleats(system.project))
    if me.hours_first is not None:
        worked.append(
            Worked(
                subject=OF_FILTERS,
                symbol=say("worked.hours"),
                formula=say("worked.hours_formula"),
                numbers=(
                    say(
                        "worked.hours_numbers",
                        w=to_amount(me.areal_kgm2, "areal_mass_kgm2"),
                        a=to_amount(filters.media_m2, "area_m2"),
                        m=to_amount(find_made_rate(system.project), "mass_rate_kgs"),
                        c=to_amount(filters.captures, "share"),
                        s=to_amount(find_pleat_share(system.project).best, "share"),
                    ),
                ),
                value=to_amount(me.hours_first.best, "time_h"),
                source="mass balance; rounded as it is said, for its band is wide",
            )
        )
    return worked


def work_room_in_pleats(project: Aired) -> Worked:
    """Return the dust that the pleats of the first kind of filter to be full have room for."""
    bulk = find_bulk(project)
    least = min(project.filters, key=lambda each: (find_room(each, bulk).best, each.name))
    fills = USUAL_FILL.best if least.dust_fills is None else least.dust_fills
    return Worked(
        subject=OF_FILTERS,
        symbol=say("worked.room"),
        formula=say("worked.room_formula"),
        numbers=(
            say(
                "worked.room_numbers",
                f=to_amount(fills, "share"),
                b=to_amount(bulk.best, "density_kgm3"),
                o=Amount(least.outside_mm, "length_mm"),
                d=Amount(least.bore_mm, "length_mm"),
                h=Amount(least.height_mm, "length_mm"),
                a=to_amount(least.media_m2, "area_m2"),
            ),
        ),
        value=to_amount(find_room(least, bulk).best, "areal_mass_kgm2"),
        source="volume of the ring between bore and outside; share filled: "
        + ("project file" if least.dust_fills is not None else "common practice, no source"),
    )


def work_clean_media(filter_: Filter, clean: float, face: float) -> Worked:
    """Return the clean media's loss, its resistance S from whichever the file gives."""
    resistance, speed = to_figures(clean), to_amount(face, "face_speed_ms")
    if filter_.permeability_ms:
        test = to_amount(filter_.permeability_pa or 125.0, "pressure_pa")
        formula = say("worked.media_formula_tested")
        numbers = say(
            "worked.media_numbers_tested",
            p=test,
            k=to_amount(filter_.permeability_ms, "face_speed_ms"),
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
            p=to_amount(filter_.loss_pa, "pressure_pa"),
            a=to_amount(filter_.media_m2, "area_m2"),
            q=to_amount(filter_.loss_at_m3s, "flow_m3s"),
            r=resistance,
            v=speed,
        )
        source = "Darcy, from memory; project file: loss at a flow"
    return Worked(
        subject=OF_FILTERS,
        symbol=say("worked.media"),
        formula=formula,
        numbers=(numbers,),
        value=to_amount(clean * face, "pressure_pa"),
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
        subject=OF_FILTERS,
        symbol=say("worked.cut"),
        formula=say("worked.cut_formula"),
        numbers=(
            say(
                "worked.cut_numbers",
                w=size_of(cyclone.inlet_width_m),
                n=to_figures(find_turns(cyclone)),
                v=to_amount(speed, "speed_ms"),
                rho=to_amount(600.0, "density_kgm3"),
                mu=to_figures(system.air.viscosity_pas),
            ),
        ),
        value=to_amount(filters.cut_size_m * 1e6, "ratio"),
        source="Lapple 1951 (from memory): an estimate for general-purpose cyclones, thin dust and round grains; "
        "expect coarser in a shop",
    )

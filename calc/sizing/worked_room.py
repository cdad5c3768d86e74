"""Worked calculations of the room: sound behind the box, hours beside it, make-up air."""

from __future__ import annotations

from calc.airflow.system import System
from calc.finding import Amount, Said, say
from calc.results import Sizing, Sound, Worked
from calc.sizing.sound import find_plenum_loss, measure_plenum
from calc.sizing.worked_terms import OF_ROOM, to_amount, to_figures


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
                subject=OF_ROOM,
                symbol=say("worked.level"),
                formula=say("worked.level_formula"),
                numbers=(_list_levels(sound),),
                value=to_amount(sound.after.level_db, "sound_db"),
                source="definition of the level",
            ),
            Worked(
                subject=OF_ROOM,
                symbol=say("worked.lining"),
                formula=say("worked.lining_formula"),
                numbers=(
                    say(
                        "worked.lining_numbers",
                        out=to_amount(plenum.outlet_m2, "area_m2"),
                        out_m2=to_figures(plenum.outlet_m2),
                        inside=to_amount(plenum.surface_m2, "area_m2"),
                        inside_m2=to_figures(plenum.surface_m2),
                        r=to_amount(plenum.distance_m, "length_m"),
                        angle=to_amount(plenum.angle_deg, "angle_deg"),
                        a=to_figures(band.absorption),
                        hz=to_amount(float(band.hz), "frequency_hz"),
                    ),
                ),
                value=to_amount(lined, "sound_db"),
                source="R. J. Wells 1958, ASHRAE Handbook HVAC Applications",
            ),
            Worked(
                subject=OF_ROOM,
                symbol=say("worked.left"),
                formula=say("worked.left_formula"),
                numbers=(
                    say("worked.left_numbers", l=to_amount(band.before_db, "sound_db"), t=to_amount(lined, "sound_db")),
                ),
                value=to_amount(band.after_db, "sound_db"),
                source="casing and motor 8 dB below the whole, untouched by the box: common practice, no source",
            ),
            Worked(
                subject=OF_ROOM,
                symbol=say("worked.allowed"),
                formula=say("worked.allowed_formula"),
                numbers=(say("worked.allowed_numbers", l=to_amount(sound.with_others.level_db, "sound_db")),),
                value=to_amount(sound.with_others.niosh_h, "time_h"),
                source="NIOSH 98-126",
            ),
        ]
    air = sizing.make_up_air
    worked.append(
        Worked(
            subject=OF_ROOM,
            symbol=say("worked.make_up"),
            formula=say("worked.make_up_formula"),
            numbers=(
                say("worked.make_up_numbers", q=to_amount(air.flow_m3s, "flow_m3s"), p=to_figures(air.depression_pa)),
            ),
            value=Amount(air.opening_m2, "area_m2", toward="up"),
            source="orifice equation; needed only where the air goes outdoors",
        )
    )
    return worked


def _list_levels(sound: Sound) -> Said:
    """Return the levels of the bands in a row."""
    told: Said | None = None
    for band in sound.bands:
        level = to_amount(band.after_db, "sound_db")
        told = say("worked.level_numbers", l=level) if told is None else say("worked.level_more", before=told, l=level)
    assert told is not None
    return told

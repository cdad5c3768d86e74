"""Worked calculations of the room: sound behind the box, hours beside it, make-up air."""

from __future__ import annotations

from calc.airflow.system import System
from calc.finding import Amount, Said, say
from calc.results import Sizing, Sound, Worked
from calc.settled import Settled
from calc.sizing.sound_paths import find_insulation, find_screen_loss, measure_plenum
from calc.sizing.worked_terms import OF_ROOM, to_amount, to_figures


def work_room(system: System, sizing: Sizing) -> list[Worked]:
    """Return the sound sum, allowed hours and the make-up opening."""
    worked = []
    if sizing.sound is not None and isinstance(system.project, Settled):
        worked += _work_sound(system.project, sizing.sound)
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


def _work_sound(project: Settled, sound: Sound) -> list[Worked]:
    """Return the loudest band's way through the box and past it, the sum of the bands, and the hours it allows."""
    band, plenum = max(sound.bands, key=lambda b: b.before_db), measure_plenum(project)
    past, level = sound.past_below.best, to_amount(sound.after.level_db, "sound_db")
    panels = plenum.skins[0]
    insulation = find_insulation(panels, float(band.hz))
    inside = to_amount(plenum.inside_m2, "area_m2")
    heard = say("worked.allowed_numbers", l=to_amount(sound.with_others.level_db, "sound_db"))
    rows = (
        (
            "filters",
            say(
                "worked.filters_numbers",
                out=to_amount(plenum.outlet_m2, "area_m2"),
                out_m2=to_figures(plenum.outlet_m2),
                inside=inside,
                inside_m2=to_figures(plenum.inside_m2),
                direct=to_figures(plenum.direct_per_m2),
                a=to_figures(band.absorbing_m2),
                hz=to_amount(float(band.hz), "frequency_hz"),
                m=to_amount(find_screen_loss(plenum.filter_rayl), "sound_db"),
            ),
            to_amount(band.filters_db, "sound_db"),
            "R. J. Wells, Noise Control, July 1958; ASHRAE Handbook HVAC Applications, sound (from memory)",
        ),
        (
            "panels",
            say("worked.panels_numbers", m=to_figures(panels.mass_kgm2), s=to_figures(panels.area_m2),
                i=to_amount(insulation, "sound_db"), a=to_figures(band.absorbing_m2)),
            to_amount(band.panels_db, "sound_db"),
            "mass law for sound from many sides, below a wood panel's ceiling (from memory)",
        ),
        (
            "left",
            say("worked.left_numbers", l=to_amount(band.before_db, "sound_db"), t=to_amount(band.taken_db, "sound_db"),
                p=to_amount(past, "sound_db")),
            to_amount(band.after_db, "sound_db"),
            "past the box: " + ("measured" if sound.past_measured else "common practice, no source"),
        ),
        ("level", _list_levels(sound), level, "definition of the level"),
        ("allowed", heard, to_amount(sound.with_others.niosh_h, "time_h"), "NIOSH 98-126"),
    )  # fmt: skip
    return [
        Worked(
            subject=OF_ROOM,
            symbol=say(f"worked.{key}"),
            formula=say(f"worked.{key}_formula"),
            numbers=(numbers,),
            value=value,
            source=source,
        )
        for key, numbers, value, source in rows
    ]


def _list_levels(sound: Sound) -> Said:
    """Return the levels of the bands in a row."""
    told: Said | None = None
    for band in sound.bands:
        level = to_amount(band.after_db, "sound_db")
        told = say("worked.level_numbers", l=level) if told is None else say("worked.level_more", before=told, l=level)
    assert told is not None
    return told

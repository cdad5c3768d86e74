"""Air, pressures, leaks, sound and make-up air: the shop around the ducts."""

from __future__ import annotations

from typing import Any

from calc.results import Exposure
from packet.job import Job
from packet.pages.amounts import full
from packet.pages.kit import Kit
from packet.say import say


def make_blocks(job: Job, kit: Kit) -> list[Any]:
    """Return the facts of the room in two columns, then the sound."""
    reader, sizing = kit.reader, job.sizing
    air, pressures, leaks, make_up = sizing.air, sizing.pressures, sizing.leakage, sizing.make_up_air
    half = kit.frame_width_mm / 2 - 4
    left = [
        ["Shop air and pressures", ""],
        ["Density of the shop's air", full(air.density_kgm3, "density_kgm3", reader)],
        ["Against standard air", f"{air.factor:.3f}"],
        ["Box while running, filters at clean me", full(pressures.box_running_pa, "pressure_pa", reader)],
        ["Box at worst, filters blocked", full(pressures.box_worst_pa, "pressure_pa", reader)],
        ["Ducts at worst, all gates shut", full(pressures.duct_suction_pa, "pressure_pa", reader)],
    ]
    if air.barometer_gap is not None:
        left.insert(3, ["Barometer against the altitude's usual", full(air.barometer_gap, "share", reader)])
    outdoors = "blown outdoors" if job.project.shop.clean_air == "outdoors" else "returned to the room"
    right = [
        ["Leaks and make-up air", ""],
        [f"Leaks with {leaks.scenario} open: shut gates", full(leaks.gates_m3s, "flow_m3s", reader)],
        ["Leaks by duct seams", full(leaks.seams_m3s, "flow_m3s", reader)],
        ["Share of the blower's flow", full(leaks.share, "share", reader)],
        ["Clean air is", outdoors],
    ]
    if make_up.needed:
        right.append(["Opening for make-up air", full(make_up.opening_m2, "area_m2", reader)])
        right.append(["Room may fall below outdoors by", full(make_up.depression_pa, "pressure_pa", reader)])
    blocks: list[Any] = [
        kit.heading("The room: air, pressure, leaks, sound", 2),
        kit.columns(
            [
                [kit.table(left, (half - 28, 28), align="lr", size=8.6, width_mm=half)],
                [kit.table(right, (half - 30, 30), align="lr", size=8.6, width_mm=half)],
            ],
            (kit.frame_width_mm / 2 + 2, kit.frame_width_mm / 2 - 2),
        ),
    ]
    return blocks + _make_sound(job, kit)


def _make_sound(job: Job, kit: Kit) -> list[Any]:
    sound, reader = job.sizing.sound, kit.reader
    if sound is None:
        return [kit.text("Sound: the project file gives no level for the blower, so none is worked out.")]
    rows: list[list[Any]] = [["At your ear", "Level", "Loudness", "NIOSH allows", "OSHA allows", "Of a NIOSH day used"]]
    cases = (
        ("Collector, bare box", sound.before),
        ("Collector, lined box", sound.after),
        ("With the other machines", sound.with_others),
    )
    rows += [[name, *_tell(case, kit)] for name, case in cases]
    bands: list[list[Any]] = [["Octave band [Hz]", *(str(b.hz) for b in sound.bands)]]
    bands.append(["Blower at the ear [dBA]", *(f"{b.before_db:.0f}" for b in sound.bands)])
    bands.append(["Taken away by the lining [dB]", *(f"{b.taken_db:.1f}" for b in sound.bands)])
    bands.append(["Left [dBA]", *(f"{b.after_db:.0f}" for b in sound.bands)])
    notes = [say(sound.note, reader)]
    if sound.spectrum_assumed:
        notes.append("Octave bands that the file leaves out are those of a usual blower.")
    notes.append(f"The lined-plenum equation holds above {sound.lowest_hz:.0f} Hz. Sones are approximate.")
    notes.append(f"Daily times are for {full(sound.hours_a_day, 'time_h', reader)} of it a day.")
    width = kit.frame_width_mm
    blocks: list[Any] = [
        kit.table(rows, (52, 22, 26, 28, 28, 26), align="lrrrrr", size=8.6),
        kit.table(
            bands,
            (54, *([(width - 54) / len(sound.bands)] * len(sound.bands))),
            align="l" + "r" * len(sound.bands),
            size=8.6,
        ),
        kit.text(" ".join(n for n in notes if n), "small"),
    ]
    return blocks


def _tell(case: Exposure, kit: Kit) -> list[str]:
    reader = kit.reader
    return [
        full(case.level_db, "sound_db", reader),
        full(case.sones, "sone", reader),
        _hours(case.niosh_h, kit),
        _hours(case.osha_h, kit),
        full(case.niosh_share, "share", reader),
    ]


def _hours(hours: float, kit: Kit) -> str:
    return "all day" if hours >= 24 else full(hours, "time_h", kit.reader)

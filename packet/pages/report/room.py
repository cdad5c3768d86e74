"""Air, pressures, leaks, sound and make-up air: the shop around the ducts."""

from __future__ import annotations

from typing import Any

from calc.design import Design
from calc.finding import Amount, Band
from calc.results import Exposure, Sound
from packet.job import AirJob
from packet.pages.kit.kit import Kit
from packet.words.amounts import full
from packet.words.phrases import Phrases, take_words
from packet.words.say import write

COLUMNS = ("where", "level", "loudness", "niosh", "osha", "share")


def make_blocks(job: AirJob, kit: Kit) -> list[Any]:
    """Return the facts of the room in two columns, then the sound."""
    reader, sizing, words = kit.reader, job.sizing, take_words("report_room", kit.reader.language)
    air, pressures, leaks, make_up = sizing.air, sizing.pressures, sizing.leakage, sizing.make_up_air
    half, boxed = kit.frame_width_mm / 2 - 4, isinstance(job.design, Design)
    left = [
        [words("air"), ""],
        [words("density"), full(air.density_kgm3, "density_kgm3", reader)],
        [words("against_standard"), f"{air.factor:.3f}"],
        [words("box_running" if boxed else "filters_running"), full(pressures.box_running_pa, "pressure_pa", reader)],
        [words("box_worst" if boxed else "filters_worst"), full(pressures.box_worst_pa, "pressure_pa", reader)],
        [
            words("ducts_worst" if job.project.has_gates else "ducts_worst_hose"),
            full(pressures.duct_suction_pa, "pressure_pa", reader),
        ],
    ]
    if air.barometer_gap is not None:
        left.insert(3, [words("barometer"), full(air.barometer_gap, "share", reader)])
    clean_air = "blown_outdoors" if job.project.shop.clean_air == "outdoors" else "returned"
    right = [
        [words("leaks"), ""],
        [words("leaks_seams"), full(leaks.seams_m3s, "flow_m3s", reader)],
        [words("leaks_share"), full(leaks.share, "share", reader)],
        [words("clean_air"), words(clean_air)],
    ]
    if job.project.has_gates:
        right.insert(1, [words("leaks_gates", machine=leaks.scenario), full(leaks.gates_m3s, "flow_m3s", reader)])
    if make_up.needed:
        opening = write(Amount(make_up.opening_m2, "area_m2", toward="up"), reader)
        right.append([words("make_up_draught"), full(make_up.depression_pa, "draught_pa", reader)])
        right.append([words("make_up_opening"), opening])
        if make_up.given_m2 is not None:
            right.append([words("make_up_given"), full(make_up.given_m2, "area_m2", reader)])
            right.append([words("make_up_falls"), full(make_up.given_depression_pa, "draught_pa", reader)])
    blocks: list[Any] = [
        kit.heading(words("title"), 2),
        kit.columns(
            [
                [kit.table(left, (half - 28, 28), align="lr", size=8.6, width_mm=half)],
                [kit.table(right, (half - 30, 30), align="lr", size=8.6, width_mm=half)],
            ],
            (kit.frame_width_mm / 2 + 2, kit.frame_width_mm / 2 - 2),
        ),
    ]
    return blocks + _make_sound(job, kit, words)


def _make_sound(job: AirJob, kit: Kit, words: Phrases) -> list[Any]:
    sound = job.sizing.sound
    if sound is None:
        return [kit.text(words("no_level"))]
    rows: list[list[Any]] = [[words(f"column_{name}") for name in COLUMNS]]
    boxed = isinstance(job.design, Design)
    cases = [
        (words("case_bare" if boxed else "case_alone"), sound.before),
        *([(words("case_lined" if sound.lining else "case_box"), sound.after)] if boxed else []),
        *([(words("case_others"), sound.with_others)] if job.project.noise.others else []),
    ]
    if sound.protected is not None:
        cases.append((words("case_protected"), sound.protected))
    rows += [[name, *_tell(case, kit, words)] for name, case in cases]
    taken = [[words("column_taken"), words("column_level"), words("column_from"), words("column_to")]]
    taken.append([words("taken_box"), *_tell_band(sound.box, kit)])
    if sound.lining:
        taken.append([words("taken_lining"), *_tell_band(sound.lining, kit)])
        taken.append([words("taken_both"), *_tell_band(sound.quieter, kit)])
    bands: list[list[Any]] = [[words("band"), *(str(b.hz) for b in sound.bands)]]
    bands.append([words("band_before"), *(f"{b.before_db:.0f}" for b in sound.bands)])
    if boxed:
        bands.append([words("band_box"), *(f"{b.before_db - b.bare_db:.1f}" for b in sound.bands)])
    if sound.lining:
        bands.append([words("band_lining"), *(f"{b.bare_db - b.after_db:.1f}" for b in sound.bands)])
    bands.append([words("band_after"), *(f"{b.after_db:.0f}" for b in sound.bands)])
    width = kit.frame_width_mm
    return [
        kit.table(rows, (52, 22, 26, 28, 28, 26), align="lrrrrr", size=8.6),
        *([kit.table(taken, (82, 26, 26, 26), align="lrrr", size=8.6)] if boxed else []),
        kit.table(
            bands,
            (54, *([(width - 54) / len(sound.bands)] * len(sound.bands))),
            align="l" + "r" * len(sound.bands),
            size=8.6,
        ),
        kit.text(" ".join(_note_sound(sound, kit, words, boxed)), "small"),
    ]


def _note_sound(sound: Sound, kit: Kit, words: Phrases, boxed: bool) -> list[str]:
    """Return what the tables of sound rest on."""
    below = {name: f"{getattr(sound.past_below, name):.0f}" for name in ("low", "best", "high")}
    notes = [words("past_measured" if sound.past_measured else "past_usual", **below)] if boxed else []
    notes += [words("equation_holds", lowest=f"{sound.lowest_hz:.0f}")] if boxed else []
    if sound.spectrum_assumed:
        notes.append(words("spectrum_assumed"))
    notes.append(words("sones"))
    notes.append(words("daily", hours=full(sound.hours_a_day, "time_h", kit.reader)))
    return notes


def _tell_band(band: Band, kit: Kit) -> list[str]:
    return [full(level, "sound_db", kit.reader) for level in (band.best, band.low, band.high)]


def _tell(case: Exposure, kit: Kit, words: Phrases) -> list[str]:
    reader = kit.reader
    return [
        full(case.level_db, "sound_db", reader),
        full(case.sones, "sone", reader),
        _hours(case.niosh_h, kit, words),
        _hours(case.osha_h, kit, words),
        full(case.niosh_share, "share", reader),
    ]


def _hours(hours: float, kit: Kit, words: Phrases) -> str:
    return words("all_day") if hours >= 24 else full(hours, "time_h", kit.reader)

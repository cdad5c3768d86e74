"""What is measured when the thing stands: the questions of the forms, one key each, in one order.

The same list makes the fields on paper, the questions at the terminal and the keys in the as-built log.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from calc.finding import Said, say
from calc.measures.kinds import Kind, Reader
from calc.project import Hose, Machine, Piece, Port, Project

AnswerKind = Kind | Literal["words", "yes no", "date"]


@dataclass(frozen=True, kw_only=True)
class Question:
    """One thing to measure or to say.

    key: steady dotted key, for example ``reading.planer``; group: form it stands on; label: words on the form
    kind: what is answered; long: needs room for words
    stage: number of the leak hunt's stage, which stands in the label
    """

    key: str
    group: str
    label: Said
    kind: AnswerKind
    long: bool = False
    stage: str = ""


def list_questions(project: Project) -> tuple[Question, ...]:
    """Return every question of a settled project's forms, in the order of the forms."""
    return (*ask_about_test(project), *ask_about_build(project))


def ask_about_test(project: Project) -> tuple[Question, ...]:
    """Return the commissioning sheet's questions: when and who, leak hunt, reading at every gate, baseline."""
    asked = [
        Question(key="test.date", group="test", label=say("questions.test_date"), kind="date"),
        Question(key="test.by", group="test", label=say("questions.test_by"), kind="words"),
        Question(key="test.temperature", group="test", label=say("questions.test_temperature"), kind="temperature_k"),
        *_ask_about_draught(project),
        *_ask_about_leaks(project),
    ]
    asked += [
        question
        for machine in project.machines
        for question in (
            Question(
                key=f"reading.{machine.name}",
                group="gates",
                label=say("questions.reading", machine=machine.name),
                kind="pressure_pa",
            ),
            Question(
                key=f"speed.{machine.name}",
                group="gates",
                label=say("questions.speed", machine=machine.name),
                kind="speed_ms",
            ),
        )
    ]
    asked += [
        Question(
            key="shutoff.reading",
            group="gates",
            label=_say_shut("questions.shutoff_reading", project),
            kind="pressure_pa",
        ),
        Question(key="baseline.reading", group="baseline", label=say("questions.baseline_reading"), kind="pressure_pa"),
        Question(key="baseline.clean", group="baseline", label=say("questions.baseline_clean"), kind="yes no"),
        Question(key="test.notes", group="baseline", label=say("questions.test_notes"), kind="words", long=True),
    ]
    return tuple(asked)


def _ask_about_draught(project: Project) -> list[Question]:
    """Return what is asked of a flue that the collector draws on: the room's depression, then the flue itself."""
    if not project.shop.draws_on_flue:
        return []
    return [
        Question(
            key="draught.depression", group="draught", label=say("questions.draught_depression"), kind="draught_pa"
        ),
        Question(key="draught.instrument", group="draught", label=say("questions.draught_instrument"), kind="words"),
        Question(key="draught.by", group="draught", label=say("questions.draught_by"), kind="words"),
        Question(key="draught.spillage", group="flue", label=say("questions.draught_spillage"), kind="yes no"),
    ]


def _say_shut(phrase: str, project: Project, **names: str) -> Said:
    """Return a phrase of the shop with every gate shut; hoods that none closes are shut by a board."""
    if project.unclosed:
        return say(f"{phrase}_some", **names, machines=", ".join(project.unclosed))
    return say(f"{phrase}{project.by_hose}", **names)


def _ask_about_leaks(project: Project) -> list[Question]:
    """Return the stages of the leak hunt."""
    by = project.by_hose
    stages = {
        "zero.before": say("questions.zero_before", stage="0"),
        "leak.lamp": say("questions.leak_lamp", stage="1"),
        "leak.blanked": _say_shut("questions.leak_blanked", project, stage="2"),
        "leak.smoke": say(f"questions.leak_smoke{by}", stage="3"),
        "leak.gates": say(f"questions.leak_gates{by}", stage="4"),
        "leak.cloth": say(f"questions.leak_cloth{by}", stage="5"),
        "leak.beam": say("questions.leak_beam", stage="6"),
    }
    return [
        Question(key=key, group="leaks", label=label, kind="yes no", stage=str(label.names["stage"]))
        for key, label in stages.items()
    ]


def ask_about_build(project: Project) -> tuple[Question, ...]:
    """Return the as-built form's questions: when and who, box, ports, shop, hoses, and what was done otherwise."""
    asked = [
        Question(key="built.date", group="built", label=say("questions.built_date"), kind="date"),
        Question(key="built.by", group="built", label=say("questions.built_by"), kind="words"),
        Question(key="box.width", group="box", label=say("questions.box_width"), kind="length_mm"),
        Question(key="box.depth", group="box", label=say("questions.box_depth"), kind="length_mm"),
        Question(key="box.height", group="box", label=say("questions.box_height"), kind="length_mm"),
        Question(key="box.panel", group="box", label=say("questions.box_panel"), kind="length_mm"),
        Question(key="box.underside", group="box", label=say("questions.box_underside"), kind="length_mm"),
        Question(key="shop.ceiling", group="box", label=say("questions.shop_ceiling"), kind="length_mm"),
        Question(key="filters.count", group="filters", label=say("questions.filters_count"), kind="count"),
        Question(key="filters.floor", group="filters", label=say("questions.filters_floor"), kind="length_mm"),
        Question(key="gauge.bore", group="filters", label=say("questions.gauge_bore"), kind="length_mm"),
    ]
    for port in project.ports:
        asked += _ask_about_port(port)
    asked += [question for machine in project.machines for question in _ask_about_hose(machine)]
    asked.append(
        Question(key="built.notes", group="notes", label=say("questions.built_notes"), kind="words", long=True)
    )
    return tuple(asked)


def _ask_about_port(port: Port) -> list[Question]:
    return [
        Question(key=f"pail.{port.name}", group="ports", label=say("questions.pail", port=port.name), kind="length_mm"),
        Question(key=f"hole.{port.name}", group="ports", label=say("questions.hole", port=port.name), kind="length_mm"),
    ]


def _ask_about_hose(machine: Machine) -> list[Question]:
    return [
        Question(key=f"hose.{place}", group="hoses", label=say("questions.hose", place=place), kind="length_m")
        for place, _ in list_hoses(machine)
    ]


def ask_about_hold(key: str, step: str = "", what: str = "", wanted: str = "") -> Question:
    """Return the question of a step's hold point, by its key ``step.<step>.<number>``.

    step, what, wanted: the step's number and title, what is measured and the value wanted, where the plan is at hand
    """
    label = say("questions.hold", hold=split_key(key)[1])
    if what:
        label = say("questions.hold_of_step", step=step, what=what, wanted=wanted)
    return Question(key=key, group="steps", label=label, kind="words")


def list_hoses(machine: Machine) -> tuple[tuple[str, Hose], ...]:
    """Return the first hose of a machine, and of each of its pickups, with the place it hangs at."""
    places: list[tuple[str, tuple[Piece, ...]]] = [(machine.name, machine.pieces)]
    places += [(f"{machine.name}, {pickup.name}", pickup.pieces) for pickup in machine.pickups]
    found = []
    for place, pieces in places:
        hose = next((piece for piece in pieces if isinstance(piece, Hose)), None)
        if hose is not None:
            found.append((place, hose))
    return tuple(found)


LOG_ROWS = 8

KIND_BY_STEM: dict[str, AnswerKind] = {
    "reading": "pressure_pa", "speed": "speed_ms", "pail": "length_mm", "hole": "length_mm", "hose": "length_m",
    "leak": "yes no", "step": "words",
}  # fmt: skip
KIND_BY_KEY: dict[str, AnswerKind] = {
    "test.temperature": "temperature_k", "zero.before": "yes no", "shutoff.reading": "pressure_pa",
    "draught.depression": "draught_pa", "draught.instrument": "words", "draught.by": "words",
    "draught.spillage": "yes no",
    "baseline.reading": "pressure_pa", "baseline.clean": "yes no", "test.notes": "words", "built.notes": "words",
    "box.width": "length_mm", "box.depth": "length_mm", "box.height": "length_mm", "box.panel": "length_mm",
    "box.underside": "length_mm", "shop.ceiling": "length_mm", "filters.count": "count", "filters.floor": "length_mm",
    "gauge.bore": "length_mm", "cleaning.hours": "time_h", "cleaning.before": "pressure_pa",
    "cleaning.after": "pressure_pa", "cleaning.notes": "words",
}  # fmt: skip


def find_kind(key: str) -> AnswerKind | None:
    """Return what kind of answer a key of the log has; None for a key that was never asked for.

    Machines and ports may have gone from the project since: their keys still count.
    """
    if key in KIND_BY_KEY:
        return KIND_BY_KEY[key]
    stem, name = split_key(key)
    return KIND_BY_STEM.get(stem) if name else None


def split_key(key: str) -> tuple[str, str]:
    """Return a key of the log as what is asked and of which thing: ``reading.planer``; no thing: empty."""
    stem, _, name = key.partition(".")
    return stem, name


def ask_about_log() -> tuple[tuple[Question, ...], ...]:
    """Return the maintenance log's questions, one tuple a row."""
    return tuple(
        (
            Question(key=f"log.{row}.date", group="log", label=say("questions.log_date"), kind="date"),
            Question(key=f"log.{row}.hours", group="log", label=say("questions.log_hours"), kind="time_h"),
            Question(key=f"log.{row}.before", group="log", label=say("questions.log_before"), kind="pressure_pa"),
            Question(key=f"log.{row}.after", group="log", label=say("questions.log_after"), kind="pressure_pa"),
            Question(key=f"log.{row}.by", group="log", label=say("questions.log_by"), kind="words"),
            Question(key=f"log.{row}.notes", group="log", label=say("questions.log_notes"), kind="words"),
        )
        for row in range(1, LOG_ROWS + 1)
    )


def name_unit(kind: AnswerKind, reader: Reader) -> str:
    """Return the unit a blank is answered in when the number stands alone, as our own grammar spells it; or ''."""
    inch = {
        "length_mm": "in", "length_m": "ft", "pressure_pa": "inH2O", "speed_ms": "fpm", "temperature_k": "degF",
        "time_h": "h", "draught_pa": "Pa",
    }  # fmt: skip
    metric = {
        "length_mm": "mm",
        "length_m": "m",
        "pressure_pa": "Pa",
        "speed_ms": "m/s",
        "temperature_k": "degC",
        "time_h": "h",
        "draught_pa": "Pa",
    }
    return (inch if reader.system == "inch" else metric).get(kind, "")

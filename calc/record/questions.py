"""What is measured when the thing stands: the questions of the forms, one key each, in one order.

The same list makes the fields on paper, the questions at the terminal and the keys in the as-built log.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from calc.measures.kinds import Kind, Reader
from calc.project import Hose, Machine, Piece, Port, Project

AnswerKind = Kind | Literal["words", "yes no", "date"]


@dataclass(frozen=True)
class Question:
    """One thing to measure or to say.

    key: steady dotted key, for example ``reading.planer``; group: form it stands on; label: words on the form
    kind: what is answered; negative: the value may be below zero; long: needs room for words
    """

    key: str
    group: str
    label: str
    kind: AnswerKind
    negative: bool = False
    long: bool = False


def list_questions(project: Project) -> tuple[Question, ...]:
    """Return every question of a settled project's forms, in the order of the forms."""
    return (*ask_about_test(project), *ask_about_build(project))


SHUT_ON_PRESSURE = "2 Every gate shut, blower on: gauge falls back to still air, or nearly"
SHUT_ON_SUCTION = "2 Every gate shut, blower on: gauge near its highest, and steady"


def ask_about_test(project: Project) -> tuple[Question, ...]:
    """Return the commissioning sheet's questions: when and who, leak hunt, reading at every gate, baseline."""
    shut = SHUT_ON_PRESSURE if project.box.side == "pressure" else SHUT_ON_SUCTION
    asked = [
        Question("test.date", "test", "Date of the test", "date"),
        Question("test.by", "test", "Tested by", "words"),
        Question("test.temperature", "test", "Shop temperature", "temperature_k"),
        Question("zero.before", "leaks", "0 Blower off: the gauge stands on its still-air mark", "yes no"),
        Question("leak.lamp", "leaks", "1 Box shut and dark, lamp inside: no light at any joint or port", "yes no"),
        Question("leak.blanked", "leaks", shut, "yes no"),
        Question("leak.smoke", "leaks", "3 Every gate shut, smoke at joints, lids, seams: it hangs still", "yes no"),
        Question("leak.gates", "leaks", "4 Hand at each shut gate: no draught to feel", "yes no"),
        Question("leak.cloth", "leaks", "5 One gate open, white cloth under each filter, ten minutes: clean", "yes no"),
    ]
    asked += [
        question
        for machine in project.machines
        for question in (
            Question(f"reading.{machine.name}", "gates", f"{machine.name}: gauge", "pressure_pa", negative=True),
            Question(f"speed.{machine.name}", "gates", f"{machine.name}: air speed in the drop", "speed_ms"),
        )
    ]
    asked += [
        Question("shutoff.reading", "gates", "Every gate shut: gauge", "pressure_pa", negative=True),
        Question("baseline.reading", "baseline", "Clean baseline on the gauge", "pressure_pa", negative=True),
        Question("baseline.clean", "baseline", "Filters were clean or new", "yes no"),
        Question("test.notes", "baseline", "What else was seen", "words", long=True),
    ]
    return tuple(asked)


def ask_about_build(project: Project) -> tuple[Question, ...]:
    """Return the as-built form's questions: when and who, box, ports, shop, hoses, and what was done otherwise."""
    asked = [
        Question("built.date", "built", "Date measured", "date"),
        Question("built.by", "built", "Measured by", "words"),
        Question("box.width", "box", "Box inside, left to right", "length_mm"),
        Question("box.depth", "box", "Box inside, front to back", "length_mm"),
        Question("box.height", "box", "Box inside, top to bottom", "length_mm"),
        Question("box.panel", "box", "Panel thickness", "length_mm"),
        Question("box.underside", "box", "Floor to underside of the box", "length_mm"),
        Question("shop.ceiling", "box", "Floor to ceiling", "length_mm"),
        Question("filters.count", "filters", "Filters hung", "count"),
        Question("filters.floor", "filters", "Lowest pail to floor", "length_mm"),
        Question("gauge.bore", "filters", "Gauge tube inside diameter", "length_mm"),
    ]
    for port in project.ports:
        asked += _ask_about_port(port)
    asked += [question for machine in project.machines for question in _ask_about_hose(machine)]
    asked.append(Question("built.notes", "notes", "What was built otherwise, and why", "words", long=True))
    return tuple(asked)


def _ask_about_port(port: Port) -> list[Question]:
    return [
        Question(f"pail.{port.name}", "ports", f"{port.name}: pail across, mean of three", "length_mm"),
        Question(f"hole.{port.name}", "ports", f"{port.name}: hole as cut", "length_mm"),
    ]


def _ask_about_hose(machine: Machine) -> list[Question]:
    return [Question(f"hose.{place}", "hoses", f"{place}: hose length", "length_m") for place, _ in list_hoses(machine)]


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
    stem, dot, name = key.partition(".")
    return KIND_BY_STEM.get(stem) if dot and name else None


def ask_about_log() -> tuple[tuple[Question, ...], ...]:
    """Return the maintenance log's questions, one tuple a row."""
    return tuple(
        (
            Question(f"log.{row}.date", "log", "Date", "date"),
            Question(f"log.{row}.hours", "log", "Hours run", "time_h"),
            Question(f"log.{row}.before", "log", "Gauge before", "pressure_pa", negative=True),
            Question(f"log.{row}.after", "log", "Gauge after", "pressure_pa", negative=True),
            Question(f"log.{row}.by", "log", "By", "words"),
            Question(f"log.{row}.notes", "log", "What was done", "words"),
        )
        for row in range(1, LOG_ROWS + 1)
    )


def name_unit(kind: AnswerKind, reader: Reader) -> str:
    """Return the unit a blank is answered in when the number stands alone, as our own grammar spells it; or ''."""
    inch = {
        "length_mm": "in", "length_m": "ft", "pressure_pa": "inH2O", "speed_ms": "fpm", "temperature_k": "degF",
        "time_h": "h",
    }  # fmt: skip
    metric = {
        "length_mm": "mm",
        "length_m": "m",
        "pressure_pa": "Pa",
        "speed_ms": "m/s",
        "temperature_k": "degC",
        "time_h": "h",
    }
    return (inch if reader.system == "inch" else metric).get(kind, "")

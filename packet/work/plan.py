"""The plan of work: every step of the job, chosen by the project's options and put in an order that works."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any, get_args

from packet.bill.model import KINDS, Bill
from packet.parts import NOTHING, STEPS, TERMS, WHOLE, Part
from packet.words.languages import choose_language
from packet.words.phrases import take_words
from packet.words.word_files import (
    FilledWords,
    Told,
    WordFile,
    clean_text,
    fill_words,
    load_file,
    load_folder,
    work_out,
)
from packet.work.cautions import gather_cautions
from packet.work.facts import gather_facts
from packet.work.helper_sheet import plan_helper_sheet
from packet.work.model import (
    Basis,
    Caution,
    Fact,
    HelperSheet,
    HelperStep,
    HoldPoint,
    Plan,
    Slot,
    Step,
    StepLine,
    Term,
    Use,
)
from packet.work.order import Node, order_steps
from packet.work.schedule import find_critical, schedule_two
from packet.work.step_head import MARKS, check_head
from packet.work.writer import Writer

if TYPE_CHECKING:
    from calc.design import Made
    from calc.gauges.gauge_design import GaugeDesign
    from calc.project import Given
    from calc.results import Sizing

__all__ = [
    "Caution",
    "Fact",
    "HelperSheet",
    "HelperStep",
    "HoldPoint",
    "Plan",
    "Slot",
    "Step",
    "StepLine",
    "Term",
    "Use",
    "plan_steps",
]


def plan_steps(
    project: Given,
    sizing: Sizing | None,
    gauge: GaugeDesign | None,
    design: Made,
    bill: Bill,
    has: frozenset[Part] = WHOLE,
) -> Plan:
    """Return the whole job as steps in order, with cautions, times and the two-person schedule.

    has: the parts of the job; steps, cautions and terms that need another are left out.

    Raises BadWords when a step file is at fault (unknown id, a cycle of steps, an unfilled word).
    """
    facts, language = gather_facts(project, sizing, gauge, design), project.display.language
    cards = choose_language(language)
    stages = load_stages(cards)
    cautions = gather_cautions(facts, language, has)
    stock = list_stock(bill, Writer(replace(project.display.reader, language=cards)))
    in_all = tell_in_all(stock, cards)
    shared, alone = make_steps(load_folder("steps", cards), facts, stages, cautions, stock, in_all, has)
    schedule = schedule_two(shared)
    minutes, critical = find_critical(shared)
    return Plan(
        steps=shared if project.methods.helper else alone,
        minutes_one=sum(step.minutes for step in alone),
        minutes_two=schedule.minutes,
        minutes_critical=minutes,
        days_two=schedule.days,
        critical=critical,
        slots=schedule.slots,
        cautions=cautions,
        stages=stages,
        glossary=load_glossary(language, has),
        helper=plan_helper_sheet(
            shared if project.methods.helper else tuple(step for step in shared if not step.alone),
            facts,
            cautions,
            language,
        ),
        language=cards,
        card_cautions=cautions if cards == language else gather_cautions(facts, cards, has),
    )


def list_stock(bill: Bill, writer: Writer) -> tuple[Use, ...]:
    """Return the bill's lines as a step names them: lengths and areas in the reader's units, the rest counted up."""
    return tuple(
        Use(
            clean_text(line.item if bill.language == writer.reader.language else line.name),
            writer.amount(line.needed, KINDS[line.unit]) if line.unit in KINDS else f"{math.ceil(line.needed - 1e-9)}",
            line.name,
        )
        for line in bill.lines
    )


def tell_in_all(stock: Iterable[Use], language: str = "") -> tuple[Use, ...]:
    """Return the bill's lines as a step names what it takes only a part of."""
    words = take_words("steps", language)
    return tuple(replace(use, amount=words("in_all", amount=use.amount)) for use in stock)


def load_stages(language: str = "") -> tuple[tuple[str, str], ...]:
    """Return id and name of the stages in order."""
    return tuple(take_words("stages", language, room="").lines.items())


def load_glossary(language: str = "", has: frozenset[Part] = WHOLE) -> tuple[Term, ...]:
    """Return the terms of the trade that a job with these parts uses, with their meanings, by letter."""
    words = load_file("glossary.md", language)
    lines = fill_words(words, {}).lines
    for line in lines:
        if len(line.fields) != 2 or not all(line.fields):
            raise words.refuse(f"a term is 'term | meaning', not '{' | '.join(line.fields)}'", line=line.line)
    needs = (*TERMS.values(), *[NOTHING] * len(lines))  # a term that a folder adds is everybody's
    used = [line for line, need in zip(lines, needs, strict=False) if need.is_met(has)]
    return tuple(Term(line.fields[0], line.fields[1]) for line in sorted(used, key=lambda each: each.text.lower()))


def make_steps(
    files: Mapping[str, WordFile],
    facts: Mapping[str, Any],
    stages: tuple[tuple[str, str], ...],
    cautions: Iterable[Caution],
    stock: Sequence[Use] = (),
    in_all: Sequence[Use] = (),
    has: frozenset[Part] = WHOLE,
) -> tuple[tuple[Step, ...], tuple[Step, ...]]:
    """Return the steps this project takes, in order and numbered: as two share them, and as one does them alone.

    stock: what the bill holds; a step's ``bill`` line names what it takes whole
    in_all: the same for its ``bill_all`` line, of which other steps take too
    has: the job's parts; what steps of another part make (panels, where no box is built) is there from the beginning
    """
    names = [stage for stage, _ in stages]
    left = {step_id for step_id in files if not STEPS.get(step_id, NOTHING).is_met(has)}
    there = frozenset(state for step_id in left for state in files[step_id].list_ids("makes"))
    nodes = [
        _leave_out(words, names, step_id) if step_id in left else _make_node(step_id, words, facts, names, there)
        for step_id, words in files.items()
    ]
    usual = {caution.id for caution in cautions}
    shared = tuple(
        replace(_make_step(step_id, number, files[step_id], facts, usual, stock, in_all), after=after)
        for number, (step_id, after) in enumerate(order_steps(nodes), start=1)
    )
    return shared, tuple(_work_alone(step, files[step.id], facts) for step in shared)


def _leave_out(words: WordFile, stages: list[str], step_id: str) -> Node:
    """Return the node of a step whose part the job has not got: it only hands on what it comes after."""
    return replace(_make_node(step_id, words, {}, stages, frozenset(), chosen=False), needs=(), makes=(), ends=())


def _make_node(
    step_id: str,
    words: WordFile,
    facts: Mapping[str, Any],
    stages: list[str],
    there: frozenset[str],
    chosen: bool | None = None,
) -> Node:
    """Return the node of a step; there: states that hold from the beginning; chosen: None: as its ``when`` says."""
    check_head(words, stages, load_folder("cautions"))
    chosen = bool(work_out(words, "when", facts, True)) if chosen is None else chosen
    states = {key: words.list_ids(key) for key in ("needs", "makes", "ends")}
    states["needs"] = tuple(state for state in states["needs"] if state not in there)
    after = words.list_ids("after")
    perhaps = frozenset(other.removesuffix("?") for other in after if other.endswith("?"))
    after = tuple(other.removesuffix("?") for other in after)
    return Node(
        id=step_id,
        stage=stages.index(words.head["stage"]),
        after=after,
        chosen=chosen,
        perhaps=perhaps,
        places=words.places,
        **states,
    )


def _make_step(
    step_id: str,
    number: int,
    words: WordFile,
    facts: Mapping[str, Any],
    usual: set[str],
    stock: Sequence[Use],
    in_all: Sequence[Use],
) -> Step:
    filled = fill_words(words, facts, ("title", "why", "tools"))
    title, why, tools = filled.heads
    return Step(
        id=step_id,
        number=number,
        stage=words.head["stage"],
        title=title,
        why=why,
        who=words.head["who"],  # type: ignore[arg-type]
        minutes=_round_minutes(work_out(words, "minutes", facts, 0), words, "minutes"),
        lines=tuple(StepLine(line.text, line.mark == "-") for line in filled.lines if line.mark in ("", "-")),
        tools=tuple(tool.strip() for tool in tools.split(";") if tool.strip()),
        parts=tuple(_read_part(line) for line in filled.lines if line.mark == "part")
        + tuple(use for name in words.list_ids("bill") for use in stock if name in use.key)
        + tuple(use for name in words.list_ids("bill_all") for use in in_all if name in use.key),
        holds=tuple(_read_holds(step_id, words, filled)),
        cautions=tuple(caution for caution in _list_cautions(words, facts) if caution in usual),
        pictures=words.list_ids("picture"),
        overnight=words.head.get("overnight") == "yes",
        alone=words.head.get("alone", "") != "no",
    )


def _list_cautions(words: WordFile, facts: Mapping[str, Any]) -> tuple[str, ...]:
    """Return the cautions of a step; some bite only where the box is lined and closed in its place."""
    hanging = words.list_ids("cautions_hanging") if "lift" in facts and facts["lift"].way == "parts" else ()
    return (*words.list_ids("cautions"), *hanging)


def _work_alone(step: Step, words: WordFile, facts: Mapping[str, Any]) -> Step:
    """Return the step as one person does it; a lift that one cannot do stays for two."""
    if not step.alone:
        return step
    minutes = work_out(words, "alone", facts, step.minutes)
    return replace(step, who="builder", minutes=_round_minutes(minutes, words, "alone"))


def _round_minutes(minutes: object, words: WordFile, key: str) -> float:
    if not isinstance(minutes, int | float) or minutes <= 0:
        raise words.refuse(f"minutes come to {minutes!r}, not to a time", key)
    return 5.0 * max(1, round(minutes / 5))


def _read_part(line: Told) -> Use:
    return Use(line.fields[0], line.fields[1] if len(line.fields) > 1 else "")


def _read_holds(step_id: str, words: WordFile, filled: FilledWords) -> Iterable[HoldPoint]:
    words.refuse_marks(filled, MARKS)
    for number, line in enumerate((each for each in filled.lines if each.mark == "hold"), start=1):
        if len(line.fields) != 4 or not all(line.fields):
            form = "what | value | tolerance | project or trade"
            raise words.refuse(f"a hold point is '{form}', not '{' | '.join(line.fields)}'", line=line.line)
        what, value, tolerance, basis = line.fields
        if basis not in get_args(Basis):
            raise words.refuse(
                f"a tolerance comes from '{' or '.join(get_args(Basis))}', not from '{basis}'", line=line.line
            )
        yield HoldPoint(what, value, tolerance, basis, f"step {step_id} {number}")  # type: ignore[arg-type]

"""The steps section: the whole job in order, with what to measure before going on."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import TYPE_CHECKING, Any

from packet.draw.step_pictures import StepPictures
from packet.pages.fonts import clean_text
from packet.pages.kit import Kit
from packet.pages.step_card import BLANK, CardWords, Hold, StepCard, Warned, clean_parts
from packet.pages.style import MM
from packet.steps_model import SIGNALS, Caution, Plan, Step

if TYPE_CHECKING:
    from packet.job import Job

WHO = {"builder": "builder", "helper": "helper", "both": "builder + helper"}


def make_story(job: Job, kit: Kit) -> list[Any]:
    """Return the section: how to read it, the schedule, then a card a step."""
    plan = job.plan
    names = dict(plan.stages)
    pictures = StepPictures(job.project, job.design)
    story: list[Any] = [kit.heading("Steps, in an order that works"), kit.text(_introduce(plan))]
    story += _make_schedule(plan, kit)
    shown: set[str] = set()
    for stage, steps in groupby(plan.steps, key=lambda step: step.stage):
        cards = []
        for step in steps:
            picture = pictures.draw(step.picture) if step.picture and step.picture not in shown else None
            shown.add(step.picture)
            cards.append(StepCard(_make_words(step, plan, kit), f"steps.{step.id}", kit.section, picture))
        story += [kit.keep([kit.heading(names[stage], level=2), cards[0]]), *cards[1:]]
    return story


def say_time(minutes: float) -> str:
    """Return minutes as a person says them."""
    hours, rest = divmod(round(minutes), 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest:02d} min" if rest else f"{hours} h"


def _introduce(plan: Plan) -> str:
    return (
        f"{len(plan.steps)} steps. Alone about {say_time(plan.minutes_one)} of work; two people about "
        f"{say_time(plan.minutes_two)}, over {plan.days_two} days with what must cure overnight. The longest chain is "
        f"{say_time(plan.minutes_critical)}: its steps carry a » and set the pace. Tick each line. At HOLD measure, "
        "write the value down, and go on only inside the tolerance. Times are estimates; common practice, no source."
    )


def _make_schedule(plan: Plan, kit: Kit) -> list[Any]:
    """Return the two-person schedule: a row a day, the numbers of the steps each does."""
    numbers = {step.id: step.number for step in plan.steps}
    rows = [["Day", "Builder", "Together", "Helper", "Ends after"]]
    for day, slots in groupby(sorted(plan.slots, key=lambda each: (each.day, each.start)), key=lambda each: each.day):
        today = list(slots)
        columns = {
            people: ", ".join(str(numbers[slot.step]) for slot in today if slot.people == people)
            for people in (("builder",), ("builder", "helper"), ("helper",))
        }
        rows.append([str(day), *columns.values(), say_time(max(slot.end for slot in today))])
    return [
        kit.heading("For two people, day by day", level=3),
        kit.table(rows, [12, 58, 52, 34, 26], align="llllr"),
    ]


def _make_words(step: Step, plan: Plan, kit: Kit) -> CardWords:
    about = [WHO[step.who] if step.alone else "two people", say_time(step.minutes)]
    if step.overnight:
        about.append("cures overnight")
    mark = " »" if step.id in plan.critical else ""
    return CardWords(
        number=str(step.number),
        title=clean_text(step.title) + mark,
        about=" · ".join(about),
        why=clean_text(step.why),
        lines=tuple((line.tick, clean_text(line.text)) for line in step.lines),
        parts=clean_parts([(part.name, part.amount) for part in step.parts]),
        tools=clean_text(", ".join(step.tools)),
        warned=_warn(plan, step.cautions),
        holds=tuple(
            Hold(
                clean_text(hold.what),
                clean_text(hold.value),
                clean_text(hold.tolerance),
                kit.field(hold.field, BLANK / MM, f"Step {step.number}: {hold.what}"),
            )
            for hold in step.holds
        ),
    )


def _warn(plan: Plan, cautions: Sequence[str]) -> tuple[Warned, ...]:
    """Return one line a signal word: what stands at the step is short, the cautions page says the rest."""
    found = []
    for signal, group in groupby(sorted((plan.get_caution(each) for each in cautions), key=_grade), key=_signal):
        words = ". ".join(caution.short for caution in group)
        found.append(Warned(clean_text(plan.helper.signals[signal]), signal != "NOTICE", clean_text(f"{words}.")))
    return tuple(found)


def _grade(caution: Caution) -> int:
    return SIGNALS.index(caution.signal)


def _signal(caution: Caution) -> str:
    return caution.signal

"""The steps section: the whole job in order, with what to measure before going on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from itertools import groupby
from typing import TYPE_CHECKING, Any

from calc.trade import PRACTICE
from packet.draw.fonts import clean_text
from packet.draw.steps.pictures import Picture, StepPictures
from packet.pages.kit.kit import Kit
from packet.pages.step_card import CardWords, Draw, Hold, Labels, StepCard, StepCaution, clean_parts
from packet.words.phrases import Phrases, take_words
from packet.words.word_files import WordFile, load_folder
from packet.work.model import SIGNALS, Caution, HoldPoint, Plan, Step
from packet.work.writer import Writer

if TYPE_CHECKING:
    from packet.job import AnyJob

CRITICAL, TRADE = "»", "*"
"""Signs: a step of the longest chain; a tolerance that is common practice."""
PAPER_MM = 0.1
"""Office paper of 80 g/m² is about so thick (common practice, no source)."""


def make_story(job: AnyJob, kit: Kit) -> list[Any]:
    """Return the section: how to read it, the schedule, then a card a step."""
    plan = job.plan
    words = take_words("steps", plan.language)
    names = dict(plan.stages)
    read_at = job.sizing.gauge_at if job.sizing else ""
    pictures = StepPictures(job.project, job.design, plan.language, job.gauge, read_at)
    story: list[Any] = [
        kit.heading(words("title")),
        kit.text(_introduce(plan, words, Writer(kit.reader).thin(PAPER_MM), job.project.methods.helper)),
    ]
    if job.project.methods.helper:
        story += _make_schedule(plan, kit, words)
    shown: set[str] = set()
    files = load_folder("steps", plan.language)
    for stage, steps in groupby(plan.steps, key=lambda step: step.stage):
        cards = []
        for step in steps:
            draw = _draw_pictures(pictures, files[step.id], [key for key in step.pictures if key not in shown])
            shown |= set(step.pictures)
            cards.append(StepCard(_make_words(step, plan, kit, words), f"steps.{step.id}", kit.section, draw))
        story += [kit.keep([kit.heading(names[stage], level=3), cards[0]]), *cards[1:]]
    return story


def _draw_pictures(pictures: StepPictures, words: WordFile, keys: list[str]) -> list[Draw]:
    """Return what draws a step's pictures once their room is known, those the project has not got left out.

    Raises BadWords, then or when drawing, for a picture there is not.
    """

    def draw_later(key: str) -> Draw:
        def draw(wide: float, tall: float) -> Picture:
            with refuse(key):
                return pictures.draw(key, wide, tall)

        return draw

    @contextmanager
    def refuse(key: str) -> Iterator[None]:
        try:
            yield
        except LookupError as err:
            raise words.refuse(f"there is no picture '{key}'", "picture") from err

    found = []
    for key in keys:
        with refuse(key):
            if pictures.has(key):
                found.append(draw_later(key))
    return found


def say_time(minutes: float, words: Phrases) -> str:
    """Return minutes as a person says them."""
    hours, rest = divmod(round(minutes), 60)
    if not hours:
        return words("minutes", minutes=rest)
    return words("hours_minutes", hours=hours, minutes=f"{rest:02d}") if rest else words("hours", hours=hours)


def _introduce(plan: Plan, words: Phrases, paper: str, helper: bool) -> str:
    """Say how to read the cards; who works alone is told his own time, and which steps take a second person."""
    signs = {"critical": CRITICAL, "trade": TRADE, "practice": PRACTICE, "paper": paper}
    if not helper:
        two = ", ".join(str(step.number) for step in plan.steps if not step.alone)
        alone = say_time(plan.minutes_one, words)
        if not two:
            return words("introduction_alone_all", count=len(plan.steps), alone=alone, **signs)
        return words("introduction_alone", count=len(plan.steps), alone=alone, two=two, **signs)
    return words(
        "introduction",
        count=len(plan.steps),
        alone=say_time(plan.minutes_one, words),
        together=say_time(plan.minutes_two, words),
        days=plan.days_two,
        chain=say_time(plan.minutes_critical, words),
        **signs,
    )


def _make_schedule(plan: Plan, kit: Kit, words: Phrases) -> list[Any]:
    """Return the two-person schedule: a row a day, the numbers of the steps each does."""
    numbers = {step.id: step.number for step in plan.steps}
    rows = [[words(f"column_{name}") for name in ("day", "builder", "together", "helper", "ends")]]
    for day, slots in groupby(sorted(plan.slots, key=lambda each: (each.day, each.start)), key=lambda each: each.day):
        today = list(slots)
        columns = {
            people: ", ".join(str(numbers[slot.step]) for slot in today if slot.people == people)
            for people in (("builder",), ("builder", "helper"), ("helper",))
        }
        rows.append([str(day), *columns.values(), say_time(max(slot.end for slot in today), words)])
    return [kit.heading(words("schedule"), level=3), kit.table(rows, [12, 58, 52, 34, 26], align="llllr")]


def _make_words(step: Step, plan: Plan, kit: Kit, words: Phrases) -> CardWords:
    about = [words(f"who_{step.who}" if step.alone else "who_two"), say_time(step.minutes, words)]
    if step.overnight:
        about.append(words("overnight"))
    title = clean_text(step.title)
    return CardWords(
        number=str(step.number),
        title=f"{title} {CRITICAL}" if step.id in plan.critical else title,
        about=" · ".join(about),
        why=clean_text(step.why),
        labels=Labels(words("tools"), words("parts"), words("hold"), words("continued", title=title)),
        lines=tuple((line.tick, clean_text(line.text)) for line in step.lines),
        parts=clean_parts([(part.name, part.amount) for part in step.parts]),
        tools=clean_text(", ".join(step.tools)),
        warned=_warn(plan, step.cautions),
        holds=tuple(_make_hold(hold, step, kit, words) for hold in step.holds),
    )


def _make_hold(hold: HoldPoint, step: Step, kit: Kit, words: Phrases) -> Hold:
    """Return a hold point; a tolerance that nobody published and nothing here was reckoned from carries a sign."""
    sign = TRADE if hold.basis == "trade" else ""
    value = words("value", value=hold.value, tolerance=f"{hold.tolerance}{sign}")
    tip = words("hold_tip", number=step.number, what=hold.what)
    return Hold(clean_text(hold.what), clean_text(value), lambda wide: kit.field(hold.field, wide, tip))


def _warn(plan: Plan, cautions: Sequence[str]) -> tuple[StepCaution, ...]:
    """Return one line a signal word: what stands at the step is short, the cautions page says the rest."""
    found, signals = [], take_words("phrases", plan.language, room="")
    for signal, group in groupby(sorted((plan.get_caution(each) for each in cautions), key=_grade), key=_signal):
        words = ". ".join(caution.short for caution in group)
        found.append(StepCaution(clean_text(signals(signal.lower())), signal != "NOTICE", clean_text(f"{words}.")))
    return tuple(found)


def _grade(caution: Caution) -> int:
    return SIGNALS.index(caution.signal)


def _signal(caution: Caution) -> str:
    return caution.signal

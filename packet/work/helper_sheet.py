"""The helper's sheet: only the helper's steps, lifts and cautions, when to stop and whom to ask, in their language."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from packet.words.phrases import take_words
from packet.words.reader import BadWords
from packet.words.word_files import WordFile, fill_words, load_file, load_folder
from packet.work.model import SIGNALS, Caution, HelperSheet, HelperStep, Step

HEAD_KEYS, MARKS = ("title", "tools", "lift"), ("-",)
SHEET_MARKS = ("wear", "stop", "ask")
ALWAYS = ("dust_lungs", "hearing", "fire")
"""Cautions that a helper needs to see whatever the steps are."""


def plan_helper_sheet(
    steps: Iterable[Step], facts: Mapping[str, Any], cautions: tuple[Caution, ...], language: str
) -> HelperSheet:
    """Return the helper's sheet for the steps of a job done by two. Raises BadWords for a missing or unfilled word.

    cautions: those of the project, in the sheet's language.
    """
    files = load_folder("helper", language)
    mine = [step for step in steps if step.who != "builder"]
    told = tuple(_tell_step(step, files, facts) for step in mine)
    sheet_words = load_file("sheet.md", language)
    sheet = fill_words(sheet_words, facts)
    sheet_words.refuse_marks(sheet, SHEET_MARKS)
    wanted = {caution for step in mine for caution in step.cautions} | set(ALWAYS)
    phrases = take_words("phrases", language, room="")
    return HelperSheet(
        language=language,
        phrases=phrases,
        steps=told,
        wear=sheet.list_texts("wear"),
        stop=sheet.list_texts("stop"),
        ask=sheet.list_texts("ask"),
        cautions=tuple(caution for caution in cautions if caution.id in wanted),
        signals={word: phrases(word.lower()) for word in SIGNALS},
    )


def _tell_step(step: Step, files: Mapping[str, WordFile], facts: Mapping[str, Any]) -> HelperStep:
    if step.id not in files:
        raise BadWords(f"helper/{step.id}.md", "the file is missing, and this step has the helper in it")
    words = files[step.id]
    filled = fill_words(words, facts, ("title", "tools", "lift"))
    words.refuse_keys(HEAD_KEYS)
    words.refuse_marks(filled, MARKS)
    title, tools, lift = filled.heads
    if not title:
        raise words.refuse("what the helper does has a title", "title")
    return HelperStep(
        id=step.id,
        number=step.number,
        title=title,
        with_builder=step.who == "both",
        minutes=step.minutes,
        tools=tuple(tool.strip() for tool in tools.split(";") if tool.strip()),
        lift=lift,
        lines=filled.list_texts("-"),
    )

"""Every file of templates/ looked at before a build or check, also those that this project has no use for."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from importlib import resources

from packet.words.filler import PLACE, say_unknown
from packet.words.languages import FILE as LANGUAGE_FILE
from packet.words.languages import list_languages
from packet.words.phrases import Phrases, take_words
from packet.words.reader import BadWords, find_near, list_files, read_template, refuse_alone
from packet.words.word_files import WordFile, count_fields, load_file, load_folder, read_mark
from packet.work.cautions import HEAD_KEYS as CAUTION_KEYS
from packet.work.cautions import MARKS as CAUTION_MARKS
from packet.work.cautions import check_signal
from packet.work.check_tags import check_expression, check_tags
from packet.work.helper_sheet import HEAD_KEYS as HELPER_KEYS
from packet.work.helper_sheet import MARKS as HELPER_MARKS
from packet.work.helper_sheet import SHEET_MARKS
from packet.work.names import SHAPES
from packet.work.step_head import HEAD_KEYS, MARKS, WORKED_OUT, check_head

PHRASE_ROOMS = ("words", "findings")
ALONE = ("phrases", "stages")
"""Files of phrases at the top."""


@dataclass(frozen=True)
class WordRule:
    """What a kind of word file may hold. fields: how many parts a line of a mark has."""

    keys: Collection[str]
    marks: Collection[str]
    fields: Mapping[str, int] = field(default_factory=dict)
    worked_out: tuple[str, ...] = ()


ROOMS = {
    "steps": WordRule(HEAD_KEYS, MARKS, {"hold": 4}, WORKED_OUT),
    "cautions": WordRule(CAUTION_KEYS, CAUTION_MARKS, {"fact": 2}, ("when",)),
    "helper": WordRule(HELPER_KEYS, HELPER_MARKS),
}
FILES = {
    "sheet.md": WordRule(("note",), SHEET_MARKS),
    "glossary.md": WordRule(("note",), ("",), {"": 2}),
}
FRAME, FRAME_NAMES = "pages/helper.html", ("lang", "title", "revision", "digest", "key", "say", "sheet")
"""The frame of the helper's page and the names it is given."""

NO_LANGUAGE = (*ROOMS, *PHRASE_ROOMS, "pages", "__pycache__")
"""Folders of templates/ that are no language's."""


def check_words(names: Collection[str]) -> None:
    """Raise BadWords for the first slip in any file of templates/, in any language.

    names: that a file of words may use. What only a number can show (a share of nothing) shows when it is filled in.
    """
    languages = list_languages()
    for item in sorted(resources.files("templates").iterdir(), key=lambda entry: entry.name):
        if item.is_dir() and item.name not in (*NO_LANGUAGE, *languages) and any(item.iterdir()):
            raise BadWords(f"{item.name}/{LANGUAGE_FILE}", "the file is missing; without it nothing here is read")
    _check_language("", names)
    for language in languages.values():
        if not language.at_top:
            _check_language(language.folder, names)
    check_tags(FRAME, read_template(FRAME), FRAME_NAMES, {})
    _check_helper()


def _check_language(language: str, names: Collection[str]) -> None:
    """Look at the files a language has of its own; empty: at those of the top."""
    own, steps, cautions = f"{language}/" if language else "", list_files("steps"), list_files("cautions")
    stages = take_words("stages", room="").lines
    for room, rule in ROOMS.items():
        for name in _list_own(room, own):
            words = load_file(f"{room}/{name}.md", language)
            _check_file(words, rule, names)
            if room == "steps":
                check_head(words, stages, cautions)
                _check_after(words, steps)
            elif room == "cautions":
                check_signal(words)
    for file, rule in FILES.items():
        if (words := load_file(file, language)).file.startswith(own):
            _check_file(words, rule, names)
    for room in PHRASE_ROOMS:
        for name in _list_own(room, own):
            _check_phrases(take_words(name, room=room), take_words(name, language, room))
    for name in ALONE:
        _check_phrases(take_words(name, room=""), take_words(name, language, room=""))


def _list_own(room: str, own: str) -> tuple[str, ...]:
    """Return the files of a room that a language has of its own. Raises BadWords for one that the top has not."""
    names, known = list_files(f"{own}{room}"), list_files(room)
    for name in names:
        if name not in known:
            raise refuse_alone(room, own.rstrip("/"), name, known)
    return names


def _check_file(words: WordFile, rule: WordRule, names: Collection[str]) -> None:
    words.refuse_keys(rule.keys)
    check_tags(words.file, read_template(words.file), names, SHAPES)
    for key in rule.worked_out:
        if (source := words.head.get(key)) and source != "no":
            check_expression(words.file, words.places[key], source, names, SHAPES)
    for number, line in enumerate(words.body.split("\n"), words.first):
        told = read_mark(line)
        if told is None:
            continue
        words.refuse_mark(told.mark, told.text, number, rule.marks)
        wanted = rule.fields.get(told.mark, 0)
        if wanted and "{%" not in line and count_fields(line) != wanted:
            raise words.refuse(
                f"a line of this kind has {wanted} parts, with ' | ' between them; here are {count_fields(line)}",
                line=number,
            )


def _check_after(words: WordFile, steps: Collection[str]) -> None:
    for other in words.list_ids("after"):
        if other.removesuffix("?") not in steps:
            raise words.refuse(f"comes after '{other}', which is no step", "after")


def _check_helper() -> None:
    """Hold the helper's files against the steps."""
    steps, helper = load_folder("steps"), load_folder("helper")
    for step, words in steps.items():
        if words.head["who"] != "builder" and step not in helper:
            raise BadWords(f"helper/{step}.md", "the file is missing, and this step has the helper in it")
    for step, words in helper.items():
        if step not in steps:
            raise BadWords(words.file, "no step is called so, and nothing reads this file")


def _check_phrases(top: Phrases, other: Phrases) -> None:
    """Hold a language's file against the one at the top: the same keys, no other names."""
    if other.file == top.file:
        return
    for key, line in other.lines.items():
        if key not in top.lines:
            near = find_near(key, top.lines)
            raise BadWords(
                other.file,
                f"templates/{top.file} has no line '{key}: ...'"
                + (f"; the one most like it is '{near}' in its line {top.places[near]}" if near else ""),
                other.places[key],
            )
        given = tuple(PLACE.findall(top.lines[key]))
        for name in PLACE.findall(line):
            if name not in given:
                raise BadWords(other.file, f"'{key}': {say_unknown(name, given)}", other.places[key])
    for key in top.lines:
        other.fill(key, dict.fromkeys(PLACE.findall(top.lines[key]), ""))

"""The languages there are words in: that of the top of templates/, and each folder there that holds a language.md."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from types import MappingProxyType

from packet.words.reader import BadWords, KeyedLines, find_file, find_near, list_files, read_keys, read_template

FILE = "language.md"
KEYS = ("name", "tag")
CARD_ROOMS = ("steps", "cautions")
"""What a builder's card is made of."""

_FOLDER = re.compile(r"[a-z]+(-[a-z]+)*")
_TAG = re.compile(r"[a-z]{2,3}(-[A-Za-z0-9]{1,8})*")  # RFC 5646, section 2.1: language, then subtags


@dataclass(frozen=True)
class Language:
    """A language. folder: what the project file calls it; name: its own; tag: for programs (BCP 47), as ``es``.

    at_top: its words stand at the top of templates/, and are read where another language has none
    """

    folder: str
    name: str
    tag: str
    at_top: bool


@lru_cache(maxsize=1)
def list_languages() -> Mapping[str, Language]:
    """Return the languages by what the project file calls them, that of the top first. Raises BadWords."""
    top = _read_language(FILE, "")
    found = {top.folder: top}
    for item in sorted(resources.files("templates").iterdir(), key=lambda entry: entry.name):
        if item.is_dir() and item.joinpath(FILE).is_file():
            if item.name == top.folder:
                raise BadWords(f"{item.name}/{FILE}", f"the words of '{top.folder}' stand at the top of templates/")
            found[item.name] = _read_language(f"{item.name}/{FILE}", item.name)
    return MappingProxyType(found)


def get_top() -> Language:
    """Return the language of the top of templates/. Raises BadWords."""
    return next(iter(list_languages().values()))


def get_language(folder: str) -> Language:
    """Return the language that the project file calls so; empty: that of the top. Raises BadWords, KeyError."""
    return list_languages()[folder] if folder else get_top()


def choose_language(language: str) -> str:
    """Return the language of the builder's cards: the reader's if all steps, stages and cautions are in it.

    Else that of the top of templates/: a card is never in two languages.
    """
    needed = ["stages.md", "phrases.md", *(f"{room}/{name}.md" for room in CARD_ROOMS for name in list_files(room))]
    whole = get_language(language).at_top or all(find_file(file, language) != file for file in needed)
    return language if whole else get_top().folder


def _read_language(file: str, folder: str) -> Language:
    told = read_keys(file, read_template(file))
    keys = KEYS if folder else ("folder", *KEYS)
    for key in told.lines:
        if key not in keys:
            near = find_near(key, keys)
            mend = f"; the one most like it is '{near}'" if near else ""
            raise BadWords(file, f"'{key}' means nothing here{mend}", told.places[key])
    for key in keys:
        if not told.lines.get(key):
            raise BadWords(file, f"there is no line '{key}: ...'", told.places.get(key, 0))
    folder = folder or told.lines["folder"]
    if not _FOLDER.fullmatch(folder):
        raise BadWords(file, f"a language's folder is called in small letters a to z, not '{folder}'", _place(told))
    if not _TAG.fullmatch(told.lines["tag"]):
        fault = f"'{told.lines['tag']}' is no tag of a language; write it as 'es' or 'pt-BR' (BCP 47)"
        raise BadWords(file, fault, told.places["tag"])
    return Language(folder, told.lines["name"], told.lines["tag"], "folder" in told.lines)


def _place(told: KeyedLines) -> int:
    return told.places.get("folder", 0)

"""The short words of pages, pictures and findings: kept in templates/, one ``key: words`` a line, asked for by key.

``{{ name }}`` in a phrase is where the caller's value goes in. A language that has no such file reads the English one,
so that a translator can go file by file; a file that is there must be whole.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources

from packet.words import BadWords

_LINE = re.compile(r"([a-z][a-z0-9_]*): (.+)")
_PLACE = re.compile(r"\{\{ ([a-z][a-z0-9_]*) \}\}")


@dataclass(frozen=True)
class Phrases:
    """The phrases of one file by key. file: its path below templates/."""

    file: str
    lines: Mapping[str, str]

    def __call__(self, key: str, /, **values: object) -> str:
        """Return a phrase with the values put in. Raises BadWords when the key or a value is missing."""
        return self.fill(key, lambda name: str(values[name]))

    def fill(self, key: str, find: Callable[[str], str]) -> str:
        """Return a phrase with what ``find`` gives for each name in it. Raises BadWords like a call does."""
        if key not in self.lines:
            raise BadWords(self.file, f"there is no line '{key}: ...'")
        line = self.lines[key]
        if "{{" not in line:
            return line
        try:
            return _PLACE.sub(lambda place: find(place[1]), line)
        except KeyError as err:
            raise BadWords(self.file, f"'{key}' asks for {{{{ {err.args[0]} }}}}, which is not known there") from None


@lru_cache(maxsize=256)
def take_words(name: str, language: str = "english", room: str = "words") -> Phrases:
    """Return the phrases of a page, picture or finding. Raises BadWords when the file is missing or broken.

    name: of the file without its ending; room: its folder of templates/
    """
    top = resources.files("templates")
    file = f"{room}/{name}.md"
    if language != "english" and top.joinpath(f"{language}/{file}").is_file():
        file = f"{language}/{file}"
    try:
        text = top.joinpath(file).read_text(encoding="utf-8")
    except FileNotFoundError:
        raise BadWords(file, "the file is missing") from None
    return read_phrases(file, text)


def read_phrases(file: str, text: str) -> Phrases:
    """Return the phrases of a file's text. Lines that begin with # are for the translator. Raises BadWords."""
    lines: dict[str, str] = {}
    for line in text.replace("\r\n", "\n").splitlines():
        if not line.strip() or line.startswith("#"):
            continue
        found = _LINE.fullmatch(line.rstrip())
        if not found:
            raise BadWords(file, f"'{line}' is no phrase; write 'key: words'")
        if found[1] in lines:
            raise BadWords(file, f"'{found[1]}' stands twice")
        if "{" in _PLACE.sub("", found[2]) or "}" in _PLACE.sub("", found[2]):
            raise BadWords(file, f"'{found[1]}' has a brace that holds no name; write {{{{ name }}}}")
        lines[found[1]] = found[2]
    return Phrases(file, lines)

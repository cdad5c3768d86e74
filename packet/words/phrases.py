"""The short words of pages, pictures and findings: kept in templates/, one ``key: words`` a line, asked for by key.

``{{ name }}`` in a phrase is where the caller's value goes in. A language that has no such file reads the English one,
so that a translator can go file by file; a file that is there must be whole.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import lru_cache
from importlib import resources

from packet.words.word_files import BadWords, read_template

_LINE = re.compile(r"([a-z][a-z0-9_]*): (.+)")
_PLACE = re.compile(r"\{\{ ([a-z][a-z0-9_]*) \}\}")


@dataclass(frozen=True)
class Phrases:
    """The phrases of one file by key. file: its path below templates/; places: key -> line of the file."""

    file: str
    lines: Mapping[str, str]
    places: Mapping[str, int]

    def __call__(self, key: str, /, **values: object) -> str:
        """Return a phrase with the values put in. Raises BadWords when the key or a value is missing."""
        return self.fill(key, lambda name: str(values[name]))

    def fill(self, key: str, find: Callable[[str], str]) -> str:
        """Return a phrase with what ``find`` gives for each name in it. Raises BadWords like a call does."""
        if key not in self.lines:
            raise self._miss(key)
        line = self.lines[key]
        if "{{" not in line:
            return line
        try:
            return _PLACE.sub(lambda place: find(place[1]), line)
        except KeyError as err:
            fault = f"'{key}' asks for {{{{ {err.args[0]} }}}}, which is not known there"
            raise BadWords(self.file, fault, self.places[key]) from None

    def _miss(self, key: str) -> BadWords:
        """Return what to raise for a key that is not there, with the line of the one most like it."""
        fault = f"there is no line '{key}: ...'"
        near = get_close_matches(key, self.lines, 1, 0.8)
        if not near:
            return BadWords(self.file, fault)
        return BadWords(self.file, f"{fault}; the one most like it is '{near[0]}: ...'", self.places[near[0]])


@lru_cache(maxsize=256)
def take_words(name: str, language: str = "english", room: str = "words") -> Phrases:
    """Return the phrases of a page, picture or finding. Raises BadWords when the file is missing or broken.

    name: of the file without its ending; room: its folder of templates/
    """
    top = resources.files("templates")
    file = f"{room}/{name}.md"
    if language != "english" and top.joinpath(f"{language}/{file}").is_file():
        file = f"{language}/{file}"
    return read_phrases(file, read_template(file))


def read_phrases(file: str, text: str) -> Phrases:
    """Return the phrases of a file's text. Lines that begin with # are for the translator. Raises BadWords."""
    lines: dict[str, str] = {}
    places: dict[str, int] = {}
    for number, line in enumerate(text.replace("\r\n", "\n").split("\n"), 1):
        if not line.strip() or line.startswith("#"):
            continue
        found = _LINE.fullmatch(line.rstrip())
        if not found:
            raise BadWords(file, f"'{line}' is no phrase; write 'key: words'", number)
        if found[1] in lines:
            raise BadWords(file, f"'{found[1]}' stands twice", number)
        if "{" in _PLACE.sub("", found[2]) or "}" in _PLACE.sub("", found[2]):
            raise BadWords(file, f"'{found[1]}' has a brace that holds no name; write {{{{ name }}}}", number)
        lines[found[1]], places[found[1]] = found[2], number
    return Phrases(file, lines, places)

"""The short words of pages, pictures and findings: kept in templates/, one ``key: words`` a line, asked for by key.

``{{ name }}`` in a phrase is where the caller's value goes in. A language that has no such file reads the one at the
top of templates/, so that a translator can go file by file; a file that is there must be whole.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from packet.words.filler import Unfilled, fill_text, is_plain
from packet.words.reader import BadWords, KeyedLines, find_file, find_near, read_keys, read_template


@dataclass(frozen=True)
class Phrases(KeyedLines):
    """The phrases of one file by key."""

    def __call__(self, key: str, /, **values: object) -> str:
        """Return a phrase with the values put in. Raises BadWords when the key or a value is missing."""
        return self.fill(key, values)

    def fill(self, key: str, values: Mapping[str, Any]) -> str:
        """Return a phrase with the values put in. Raises BadWords like a call does."""
        if key not in self.lines:
            raise self._miss(key)
        try:
            return fill_text(self.lines[key], values)
        except Unfilled as err:
            raise BadWords(self.file, f"'{key}': {err.fault}", self.places[key]) from None

    def _miss(self, key: str) -> BadWords:
        """Return what to raise for a key that is not there, with the line of the one most like it."""
        fault, near = f"there is no line '{key}: ...'", find_near(key, self.lines)
        if not near:
            return BadWords(self.file, fault)
        return BadWords(self.file, f"{fault}; the one most like it is '{near}: ...'", self.places[near])


@lru_cache(maxsize=256)
def take_words(name: str, language: str = "", room: str = "words") -> Phrases:
    """Return the phrases of a page, picture or finding. Raises BadWords when the file is missing or broken.

    name: of the file without its ending; room: its folder of templates/, empty for the top
    """
    file = find_file(f"{room}/{name}.md".removeprefix("/"), language)
    return read_phrases(file, read_template(file))


def read_phrases(file: str, text: str) -> Phrases:
    """Return the phrases of a file's text. Raises BadWords."""
    told = read_keys(file, text)
    for key, line in told.lines.items():
        if not line:
            raise BadWords(file, f"'{key}' says nothing; write 'key: words'", told.places[key])
        if not is_plain(line):
            raise BadWords(file, f"'{key}' has a brace that holds no name; write {{{{ name }}}}", told.places[key])
    return Phrases(file, told.lines, told.places)

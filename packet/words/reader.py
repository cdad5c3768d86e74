"""The one reader of files of words: where a file lies for a language, its text, its ``key: words`` lines."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from importlib import resources

_LINE = re.compile(r"([a-z][a-z0-9_]*):(?: +(.*))?")


class BadWords(RuntimeError):
    """A file of words is at fault. file: its path below templates/; line: from 1, 0 where there is none to name."""

    def __init__(self, file: str, fault: str, line: int = 0) -> None:
        super().__init__(f"templates/{file}:{line}: {fault}" if line else f"templates/{file}: {fault}")
        self.file, self.fault, self.line = file, fault, line

    def __reduce__(self) -> tuple[type[BadWords], tuple[str, str, int]]:
        return BadWords, (self.file, self.fault, self.line)


@dataclass(frozen=True)
class KeyedLines:
    """The ``key: words`` lines of a file or of its header. places: key -> its line in the file, from 1."""

    file: str
    lines: Mapping[str, str]
    places: Mapping[str, int]


def find_file(path: str, language: str = "") -> str:
    """Return where a file of words lies: in the language's own folder if it is there, else at the top of templates/."""
    own = f"{language}/{path}"
    return own if language and resources.files("templates").joinpath(own).is_file() else path


def list_files(folder: str) -> tuple[str, ...]:
    """Return the files of words in a folder of templates/, without their ending, sorted."""
    room = resources.files("templates").joinpath(folder)
    names = [item.name for item in room.iterdir()] if room.is_dir() else []
    return tuple(sorted(name.removesuffix(".md") for name in names if name.endswith(".md")))


def read_template(path: str) -> str:
    """Return the text of a file of templates/, lines ended by line feeds. Raises BadWords: missing, or not UTF-8."""
    data = b""
    try:
        data = resources.files("templates").joinpath(path).read_bytes()
        return data.decode("utf-8-sig").replace("\r\n", "\n")
    except FileNotFoundError:
        raise BadWords(path, "the file is missing") from None
    except UnicodeDecodeError as err:
        line = data.count(b"\n", 0, err.start) + 1
        raise BadWords(path, "this is not UTF-8 text; save the file as UTF-8", line) from None


def read_keys(file: str, text: str) -> KeyedLines:
    """Return the ``key: words`` lines of a text that stands at the top of its file.

    Empty lines, and those that begin with # (for the translator), say nothing. Raises BadWords.
    """
    lines: dict[str, str] = {}
    places: dict[str, int] = {}
    for number, line in enumerate(text.split("\n"), 1):
        if not line.strip() or line.startswith("#"):
            continue
        found = _LINE.fullmatch(line.rstrip())
        if not found:
            raise BadWords(file, f"'{line}' cannot be read; write 'key: words'", number)
        if found[1] in lines:
            raise BadWords(file, f"'{found[1]}' stands twice, first in line {places[found[1]]}", number)
        lines[found[1]], places[found[1]] = (found[2] or "").strip(), number
    return KeyedLines(file, lines, places)


def find_near(word: str, known: Mapping[str, object] | tuple[str, ...]) -> str:
    """Return the known word most like this one, empty when none is."""
    return next(iter(get_close_matches(word, list(known), 1, 0.75)), "")


def refuse_alone(room: str, language: str, name: str, known: tuple[str, ...]) -> BadWords:
    """Return what to raise for a file that only a language has: nothing would ever read it."""
    near = find_near(name, known)
    mend = f"; the one most like it is '{near}.md'" if near else ""
    return BadWords(f"{language}/{room}/{name}.md", f"templates/{room}/ has no file of this name{mend}")

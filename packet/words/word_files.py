"""Reading the word files of templates/: a small header, then text with the project's numbers put in.

A word file is plain text. Header lines are ``key: value``; a line ``---`` ends the header. In the body each line is
one thing said: ``- `` begins something to tick, ``word: `` begins a line of a special kind (``hold:``, ``part:`` ...),
anything else is a remark. `` | `` separates the fields of a line. Numbers stand in ``{{ double braces }}``.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from packet.words.filler import TAGS, Unfilled, fill_text, work_out_text
from packet.words.reader import BadWords, find_file, find_near, list_files, read_keys, read_template, refuse_alone

FIELD, BLOCK, PLACE = "\x1f", "\x1e", "\x1d"  # cannot come from a user: clean_text takes them out
_MARK = re.compile(r"(-|[a-z_]+:) +(.*)", re.DOTALL)
_NUMBER = re.compile(f"{PLACE}(\\d+){PLACE}")
_BLOCK = re.compile(r"{%.*?%}|{#.*?#}")
_BLANK = re.compile(r"[\x00-\x20\x7f-\xa0\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]+")


@dataclass(frozen=True)
class Told:
    """A line of a body: its mark (``-``, ``hold``, ``''`` for a remark ...), its fields, and its line in the file."""

    mark: str
    fields: tuple[str, ...]
    line: int = 0

    @property
    def text(self) -> str:
        return self.fields[0]


@dataclass(frozen=True)
class WordFile:
    """A file of words as it stands, nothing filled in. file: its path below templates/.

    places: header line -> its line in the file; first: the body's first line in the file
    """

    file: str
    head: Mapping[str, str]
    body: str
    places: Mapping[str, int]
    first: int

    def list_ids(self, key: str) -> tuple[str, ...]:
        """Return the words of a header line, parted by semicolons."""
        return tuple(word.strip() for word in self.head.get(key, "").split(";") if word.strip())

    def refuse(self, fault: str, key: str = "", line: int = 0) -> BadWords:
        """Return what to raise for a fault of a header line (one that is missing: line 1), or of a line of the file."""
        return BadWords(self.file, fault, line or self.places.get(key, 1))

    def refuse_keys(self, known: Collection[str]) -> None:
        """Raise BadWords for a header line that is none of these."""
        for key in self.head:
            if key not in known:
                near = find_near(key, tuple(known))
                mend = f"; the one most like it is '{near}: ...'" if near else ""
                raise self.refuse(f"'{key}' is no header line here{mend}", key)

    def refuse_marks(self, filled: FilledWords, marks: Collection[str]) -> None:
        """Raise BadWords for a line whose mark is none of these."""
        for line in filled.lines:
            self.refuse_mark(line.mark, line.text, line.line, marks)

    def refuse_mark(self, mark: str, text: str, line: int, marks: Collection[str]) -> None:
        """Raise BadWords for a mark that is none of these."""
        if mark in marks:
            return
        begins = f"begins with '{mark}{':' * (mark != '-')}'" if mark else f"'{text[:40]}' has no mark"
        raise self.refuse(f"a line {begins}; here a line begins with {_list_marks(marks)}", line=line)


@dataclass(frozen=True)
class FilledWords:
    """A file of words with everything put in: asked header lines (in the order asked) and the body's lines."""

    heads: tuple[str, ...]
    lines: tuple[Told, ...]

    def list_texts(self, mark: str) -> tuple[str, ...]:
        """Return the text of each line with that mark."""
        return tuple(line.text for line in self.lines if line.mark == mark)


def _list_marks(marks: Collection[str]) -> str:
    return " or ".join(f"'{mark} '" if mark == "-" else f"'{mark}: '" if mark else "plain words" for mark in marks)


def clean_text(text: str) -> str:
    """Return a user's words as one line: no control characters, no line ends, single spaces."""
    return _BLANK.sub(" ", text).strip()


@lru_cache(maxsize=16)
def load_folder(folder: str, language: str = "") -> Mapping[str, WordFile]:
    """Return the word files of a folder of templates/ by id, sorted, each in the language if it has it.

    Raises BadWords, for a file too that only the language has: nothing would ever read it.
    """
    names = list_files(folder)
    for name in list_files(f"{language}/{folder}") if language else ():
        if name not in names:
            raise refuse_alone(folder, language, name, names)
    return {name: load_file(f"{folder}/{name}.md", language) for name in names}


def load_file(path: str, language: str = "") -> WordFile:
    """Return one word file of templates/, in the language if it has it. Raises BadWords."""
    file = find_file(path, language)
    return read_words(file, read_template(file))


def read_words(file: str, text: str) -> WordFile:
    """Return the header and body of a word file. Raises BadWords for a header that is none."""
    top, mark, body = text.partition("\n---\n")
    if not mark:
        raise BadWords(file, "a line '---' must end the header")
    told = read_keys(file, top)
    return WordFile(file, told.lines, body, told.places, top.count("\n") + 3)


def fill_words(words: WordFile, facts: Mapping[str, Any], heads: tuple[str, ...] = ()) -> FilledWords:
    """Return a word file with the facts put in. Raises BadWords when a word is missing or the text is broken."""
    # A header line ends in BLOCK, a body's line begins with its number: neither is in the way of a tag's own line end.
    asked = [_mark_fields(words.head.get(key, "")) + BLOCK for key in heads]
    source = "\n".join([*asked, _number_lines(_mark_fields(words.body), words.first)])
    try:
        text = fill_text(source, facts)
    except Unfilled as err:
        key = heads[err.line - 1] if 0 < err.line <= len(heads) else ""
        line = words.first + err.line - len(heads) - 1 if err.line > len(heads) else 0
        raise words.refuse(err.fault, key, line) from err
    *filled, told = text.split(BLOCK)
    lines = (_read_line(line) for line in told.split("\n"))
    return FilledWords(tuple(each.strip("\n") for each in filled), tuple(line for line in lines if line is not None))


def work_out(words: WordFile, key: str, facts: Mapping[str, Any], missing: object) -> Any:
    """Return the value of an expression in the header, ``missing`` when the line is not there. Raises BadWords."""
    source = words.head.get(key, "")
    if not source:
        return missing
    if source.isdecimal():
        return int(source)
    try:
        return work_out_text(source, facts)
    except Unfilled as err:
        raise words.refuse(f"'{key}: {source}': {err.fault}", key) from err


def _mark_fields(source: str) -> str:
    pieces = TAGS.split(source)
    pieces[::2] = [piece.replace(" | ", FIELD) for piece in pieces[::2]]
    return "".join(pieces)


def _number_lines(source: str, first: int) -> str:
    """Return a body with its line's number before each line; a line that begins inside a tag gets none."""
    pieces, line = TAGS.split(f"\n{source}"), first - 1
    for at, piece in enumerate(pieces):
        if at % 2 == 0:
            told = piece.split("\n")
            numbered = (f"{PLACE}{line + number}{PLACE}{each}" for number, each in enumerate(told[1:], 1))
            pieces[at] = "\n".join([told[0], *numbered])
        line += piece.count("\n")
    return "".join(pieces)[1:]


def read_mark(line: str) -> Told | None:
    """Return mark and text of a body's line that is not filled in; None for one that says nothing of its own."""
    return _read_line(_BLOCK.sub("", line))


def count_fields(line: str) -> int:
    """Return how many parts a line has that is not filled in."""
    return _mark_fields(line).count(FIELD) + 1


def _read_line(line: str) -> Told | None:
    """Return what a filled line says, None for an empty one. Lines that a tag joined count from the last of them."""
    numbers = _NUMBER.findall(line)
    line = _NUMBER.sub("", line)
    if not line.strip():
        return None
    found = _MARK.fullmatch(line.strip(" "))
    mark, text = (found[1].rstrip(":"), found[2]) if found else ("", line)
    return Told(mark, tuple(part.strip() for part in text.split(FIELD)), int(numbers[-1]) if numbers else 0)

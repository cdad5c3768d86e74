"""Reading the word files of templates/: a small header, then text with the project's numbers put in.

A word file is plain text. Header lines are ``key: value``; a line ``---`` ends the header. In the body each line is
one thing said: ``- `` begins something to tick, ``word: `` begins a line of a special kind (``hold:``, ``part:`` ...),
anything else is a remark. `` | `` separates the fields of a line. Numbers stand in ``{{ double braces }}``.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from jinja2 import Template
    from jinja2.sandbox import SandboxedEnvironment

FIELD, BLOCK, PLACE = "\x1f", "\x1e", "\x1d"  # cannot come from a user: clean_text takes them out
_TAGS = re.compile(r"({{.*?}}|{%.*?%}|{#.*?#})", re.DOTALL)
_MARK = re.compile(r"(-|[a-z_]+:) +(.*)", re.DOTALL)
_NUMBER = re.compile(f"{PLACE}(\\d+){PLACE}")
_BLANK = re.compile(r"[\x00-\x20\x7f-\xa0\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]+")


class BadWords(RuntimeError):
    """A file of words is at fault. file: its path below templates/; line: from 1, 0 where there is none to name."""

    def __init__(self, file: str, fault: str, line: int = 0) -> None:
        super().__init__(f"templates/{file}:{line}: {fault}" if line else f"templates/{file}: {fault}")
        self.file, self.fault, self.line = file, fault, line

    def __reduce__(self) -> tuple[type[BadWords], tuple[str, str, int]]:
        return BadWords, (self.file, self.fault, self.line)


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

    def refuse_marks(self, filled: Filled, marks: Collection[str]) -> None:
        """Raise BadWords for a line whose mark is none of these."""
        for line in filled.lines:
            if line.mark not in marks:
                begins = f"begins with '{line.mark}:'" if line.mark else f"'{line.text[:40]}' has no mark"
                raise self.refuse(f"a line {begins}; here a line begins with {_list_marks(marks)}", line=line.line)


@dataclass(frozen=True)
class Filled:
    """A file of words with everything put in: asked header lines (in the order asked) and the body's lines."""

    heads: tuple[str, ...]
    lines: tuple[Told, ...]

    def list_texts(self, mark: str) -> tuple[str, ...]:
        """Return the text of each line with that mark."""
        return tuple(line.text for line in self.lines if line.mark == mark)


def _list_marks(marks: Collection[str]) -> str:
    return " or ".join(f"'{mark} '" if mark == "-" else f"'{mark}: '" if mark else "plain words" for mark in marks)


def clean_text(text: str) -> str:
    """Return a user's words as one line: no control signs, no line ends, single spaces."""
    return _BLANK.sub(" ", text).strip()


@lru_cache(maxsize=8)
def load_folder(folder: str) -> Mapping[str, WordFile]:
    """Return the word files of a folder of templates/ by id, sorted. Raises BadWords."""
    room = resources.files("templates").joinpath(folder)
    found = {}
    for item in sorted(room.iterdir(), key=lambda entry: entry.name):
        if item.name.endswith(".md"):
            words = read_words(f"{folder}/{item.name}", read_template(f"{folder}/{item.name}"))
            found[item.name.removesuffix(".md")] = words
    return found


def load_file(path: str) -> WordFile:
    """Return one word file of templates/. Raises BadWords."""
    return read_words(path, read_template(path))


def read_template(path: str) -> str:
    """Return the text of a file of templates/. Raises BadWords for one that is missing or not UTF-8."""
    data = b""
    try:
        data = resources.files("templates").joinpath(path).read_bytes()
        return data.decode("utf-8")
    except FileNotFoundError:
        raise BadWords(path, "the file is missing") from None
    except UnicodeDecodeError as err:
        line = data.count(b"\n", 0, err.start) + 1
        raise BadWords(path, "this is not UTF-8 text; save the file as UTF-8", line) from None


def read_words(file: str, text: str) -> WordFile:
    """Return the header and body of a word file. Raises BadWords for a header that is none."""
    top, mark, body = text.replace("\r\n", "\n").partition("\n---\n")
    if not mark:
        raise BadWords(file, "a line '---' must end the header")
    head: dict[str, str] = {}
    places: dict[str, int] = {}
    lines = top.split("\n")
    for number, line in enumerate(lines, 1):
        key, colon, value = line.partition(":")
        if not colon or not re.fullmatch(r"[a-z_]+", key):
            raise BadWords(file, f"'{line}' is no header line; write 'key: value'", number)
        if key in head:
            raise BadWords(file, f"'{key}' stands twice in the header", number)
        head[key], places[key] = value.strip(), number
    return WordFile(file, head, body, places, len(lines) + 2)


@lru_cache(maxsize=1)
def make_environment() -> SandboxedEnvironment:
    """Return the sandbox in which words are filled in; a word that nothing fills is an error."""
    from jinja2 import StrictUndefined
    from jinja2.sandbox import SandboxedEnvironment

    return SandboxedEnvironment(undefined=StrictUndefined, autoescape=False, trim_blocks=True, lstrip_blocks=True)


def fill_words(words: WordFile, facts: Mapping[str, Any], heads: tuple[str, ...] = ()) -> Filled:
    """Return a word file with the facts put in. Raises BadWords when a word is missing or the text is broken."""
    from jinja2 import TemplateError

    # A header line ends in BLOCK, a body's line begins with its number: neither is in the way of a tag's own line end.
    asked = [_mark_fields(words.head.get(key, "")) + BLOCK for key in heads]
    source = "\n".join([*asked, _number_lines(_mark_fields(words.body), words.first)])
    try:
        # Most files hold no number at all, and making a template is the dear part.
        text = _make_template(source).render(facts) if "{" in source else source
    except (TemplateError, ArithmeticError, TypeError, ValueError, LookupError, AttributeError) as err:
        at = find_line(err)
        key = heads[at - 1] if 0 < at <= len(heads) else ""
        line = words.first + at - len(heads) - 1 if at > len(heads) else 0
        raise words.refuse(f"cannot be filled in: {err}", key, line) from err
    *filled, told = text.split(BLOCK)
    lines = (_read_line(line) for line in told.split("\n"))
    return Filled(tuple(each.strip("\n") for each in filled), tuple(line for line in lines if line is not None))


def find_line(error: BaseException) -> int:
    """Return the line of the template's source at which it failed, 0 when it is not known."""
    line = getattr(error, "lineno", None) or 0
    trail = error.__traceback__
    while trail is not None:
        if trail.tb_frame.f_code.co_filename == "<template>":
            line = trail.tb_lineno
        trail = trail.tb_next
    return int(line)


def work_out(words: WordFile, key: str, facts: Mapping[str, Any], missing: object) -> Any:
    """Return the value of an expression in the header, ``missing`` when the line is not there. Raises BadWords."""
    from jinja2 import StrictUndefined, TemplateError

    source = words.head.get(key, "")
    if not source:
        return missing
    if source.isdecimal():
        return int(source)
    try:
        value = _make_expression(source)(**facts)
    except (TemplateError, ArithmeticError, TypeError, ValueError, LookupError, AttributeError) as err:
        raise words.refuse(f"'{key}: {source}' cannot be worked out: {err}", key) from err
    if isinstance(value, StrictUndefined):
        raise words.refuse(f"'{key}: {source}' asks for something that is not known", key)
    return value


@lru_cache(maxsize=512)
def _make_template(source: str) -> Template:
    return make_environment().from_string(source)


@lru_cache(maxsize=512)
def _make_expression(source: str) -> Callable[..., Any]:
    return make_environment().compile_expression(source, undefined_to_none=False)


def _mark_fields(source: str) -> str:
    pieces = _TAGS.split(source)
    pieces[::2] = [piece.replace(" | ", FIELD) for piece in pieces[::2]]
    return "".join(pieces)


def _number_lines(source: str, first: int) -> str:
    """Return a body with its line's number before each line; a line that begins inside a tag gets none."""
    pieces, line = _TAGS.split(f"\n{source}"), first - 1
    for at, piece in enumerate(pieces):
        if at % 2 == 0:
            told = piece.split("\n")
            numbered = (f"{PLACE}{line + number}{PLACE}{each}" for number, each in enumerate(told[1:], 1))
            pieces[at] = "\n".join([told[0], *numbered])
        line += piece.count("\n")
    return "".join(pieces)[1:]


def _read_line(line: str) -> Told | None:
    """Return what a filled line says, None for an empty one. Lines that a tag joined count from the last of them."""
    numbers = _NUMBER.findall(line)
    line = _NUMBER.sub("", line)
    if not line.strip():
        return None
    found = _MARK.fullmatch(line.strip(" "))
    mark, text = (found[1].rstrip(":"), found[2]) if found else ("", line)
    return Told(mark, tuple(part.strip() for part in text.split(FIELD)), int(numbers[-1]) if numbers else 0)

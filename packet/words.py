"""Reading the word files of templates/: a small header, then text with the project's numbers put in.

A word file is plain text. Header lines are ``key: value``; a line ``---`` ends the header. In the body each line is
one thing said: ``- `` begins something to tick, ``word: `` begins a line of a special kind (``hold:``, ``part:`` ...),
anything else is a remark. `` | `` separates the fields of a line. Numbers stand in ``{{ double braces }}``.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from jinja2 import Template
    from jinja2.sandbox import SandboxedEnvironment

FIELD, BLOCK = "\x1f", "\x1e"  # cannot come from a user: clean_text takes them out
_TAGS = re.compile(r"({{.*?}}|{%.*?%}|{#.*?#})", re.DOTALL)
_MARK = re.compile(r"(-|[a-z_]+:) +(.*)", re.DOTALL)
_BLANK = re.compile(r"[\x00-\x20\x7f-\xa0\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]+")


class BadWords(RuntimeError):
    """A file of words is at fault: that is our own fault, not the user's."""

    def __init__(self, file: str, fault: str) -> None:
        super().__init__(f"templates/{file}: {fault}")
        self.file, self.fault = file, fault


@dataclass(frozen=True)
class Told:
    """A line of a body: its mark (``-``, ``hold``, ``''`` for a remark ...) and its fields."""

    mark: str
    fields: tuple[str, ...]

    @property
    def text(self) -> str:
        return self.fields[0]


@dataclass(frozen=True)
class WordFile:
    """A file of words as it stands, nothing filled in. file: its path below templates/."""

    file: str
    head: Mapping[str, str]
    body: str

    def list_ids(self, key: str) -> tuple[str, ...]:
        """Return the words of a header line, parted by semicolons."""
        return tuple(word.strip() for word in self.head.get(key, "").split(";") if word.strip())


@dataclass(frozen=True)
class Filled:
    """A file of words with everything put in: asked header lines (in the order asked) and the body's lines."""

    heads: tuple[str, ...]
    lines: tuple[Told, ...]

    def list_texts(self, mark: str) -> tuple[str, ...]:
        """Return the text of each line with that mark."""
        return tuple(line.text for line in self.lines if line.mark == mark)


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
            words = read_words(f"{folder}/{item.name}", item.read_text(encoding="utf-8"))
            found[item.name.removesuffix(".md")] = words
    return found


def load_file(path: str) -> WordFile:
    """Return one word file of templates/. Raises BadWords."""
    return read_words(path, resources.files("templates").joinpath(path).read_text(encoding="utf-8"))


def read_words(file: str, text: str) -> WordFile:
    """Return the header and body of a word file. Raises BadWords for a header that is none."""
    top, mark, body = text.replace("\r\n", "\n").partition("\n---\n")
    if not mark:
        raise BadWords(file, "a line '---' must end the header")
    head: dict[str, str] = {}
    for line in top.splitlines():
        key, colon, value = line.partition(":")
        if not colon or not re.fullmatch(r"[a-z_]+", key):
            raise BadWords(file, f"'{line}' is no header line; write 'key: value'")
        if key in head:
            raise BadWords(file, f"'{key}' stands twice in the header")
        head[key] = value.strip()
    return WordFile(file, head, body)


@lru_cache(maxsize=1)
def make_environment() -> SandboxedEnvironment:
    """Return the sandbox in which words are filled in; a word that nothing fills is an error."""
    from jinja2 import StrictUndefined
    from jinja2.sandbox import SandboxedEnvironment

    return SandboxedEnvironment(undefined=StrictUndefined, autoescape=False, trim_blocks=True, lstrip_blocks=True)


def fill_words(words: WordFile, facts: Mapping[str, Any], heads: tuple[str, ...] = ()) -> Filled:
    """Return a word file with the facts put in. Raises BadWords when a word is missing or the text is broken."""
    from jinja2 import TemplateError

    asked = [_mark_fields(words.head.get(key, "")) for key in heads]
    source = BLOCK.join([*asked, _mark_fields(words.body)])
    try:
        # Most files hold no number at all, and making a template is the dear part.
        text = _make_template(source).render(facts) if "{" in source else source
    except (TemplateError, ArithmeticError, TypeError, ValueError, LookupError, AttributeError) as err:
        raise BadWords(words.file, f"cannot be filled in: {err}") from err
    *filled, body = text.split(BLOCK)
    return Filled(tuple(filled), tuple(_read_line(line) for line in body.splitlines() if line.strip()))


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
        raise BadWords(words.file, f"'{key}: {source}' cannot be worked out: {err}") from err
    if isinstance(value, StrictUndefined):
        raise BadWords(words.file, f"'{key}: {source}' asks for something that is not known")
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


def _read_line(line: str) -> Told:
    found = _MARK.fullmatch(line.strip(" "))
    mark, text = (found[1].rstrip(":"), found[2]) if found else ("", line)
    return Told(mark, tuple(part.strip() for part in text.split(FIELD)))

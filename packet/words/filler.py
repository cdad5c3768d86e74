"""The one filler of words: puts the project's names and numbers where ``{{ name }}`` stands.

Plain names are put in at once. What holds more (``{{ length(75) }}``, ``{% if options.lined %}``) goes through a
sandbox, in which a text can reach nothing but what it is given; a name that nothing fills is a fault either way.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from packet.words.reader import find_near

if TYPE_CHECKING:
    from jinja2 import Template
    from jinja2.sandbox import SandboxedEnvironment

TAGS = re.compile(r"({{.*?}}|{%.*?%}|{#.*?#})", re.DOTALL)
PLACE = re.compile(r"\{\{ ([a-z][a-z0-9_]*) \}\}")
_UNDEFINED = re.compile(r"'(\w+)' is undefined")
_LACKING = re.compile(r"'[^']*' has no attribute '(\w+)'")


class Unfilled(Exception):
    """A text cannot be filled in. line: of the text, from 1; 0 when it is not known."""

    def __init__(self, fault: str, line: int = 0) -> None:
        super().__init__(fault)
        self.fault, self.line = fault, line


def is_plain(source: str) -> bool:
    """Tell whether a text asks for plain names only: no brace is left when they are taken out."""
    rest = PLACE.sub("", source)
    return "{" not in rest and "}" not in rest


def fill_text(source: str, values: Mapping[str, Any], *, escape: bool = False) -> str:
    """Return a text with the values put in. escape: for a web page. Raises Unfilled."""
    if "{" not in source:
        return source
    if not escape and is_plain(source):
        return PLACE.sub(lambda place: str(_find(values, place)), source)
    from jinja2 import TemplateError

    try:
        return _make_template(source, escape).render(values)
    except (TemplateError, ArithmeticError, TypeError, ValueError, LookupError, AttributeError) as err:
        raise Unfilled(_say_fault(err, values), _find_line(err)) from err


def work_out_text(source: str, values: Mapping[str, Any]) -> Any:
    """Return the value of an expression, as ``options.hung == "wall"``. Raises Unfilled."""
    from jinja2 import StrictUndefined, TemplateError

    try:
        value = _make_expression(source)(**values)
        if isinstance(value, StrictUndefined):
            str(value)  # says which name it is that is not known
    except (TemplateError, ArithmeticError, TypeError, ValueError, LookupError, AttributeError) as err:
        raise Unfilled(_say_fault(err, values), 1) from err
    return value


@lru_cache(maxsize=2)
def make_environment(escape: bool = False) -> SandboxedEnvironment:
    """Return the sandbox in which words are filled in; a word that nothing fills is an error."""
    from jinja2 import StrictUndefined
    from jinja2.sandbox import SandboxedEnvironment

    return SandboxedEnvironment(undefined=StrictUndefined, autoescape=escape, trim_blocks=True, lstrip_blocks=True)


@lru_cache(maxsize=512)
def _make_template(source: str, escape: bool) -> Template:
    return make_environment(escape).from_string(source)


@lru_cache(maxsize=512)
def _make_expression(source: str) -> Callable[..., Any]:
    return make_environment().compile_expression(source, undefined_to_none=False)


def _find(values: Mapping[str, Any], place: re.Match[str]) -> Any:
    try:
        return values[place[1]]
    except KeyError:
        raise Unfilled(say_unknown(place[1], values), place.string.count("\n", 0, place.start()) + 1) from None


def say_unknown(name: str, known: Mapping[str, object] | tuple[str, ...]) -> str:
    """Return what is wrong with a name that nothing fills, with the nearest right one."""
    near = find_near(name, known)
    return f"'{name}' is not known here" + (f"; the name most like it is '{near}'" if near else "")


def _say_fault(err: Exception, values: Mapping[str, Any]) -> str:
    """Return what went wrong in the words of who writes such a file, not in those of the sandbox."""
    if found := _UNDEFINED.search(str(err)):
        return say_unknown(found[1], values)
    if found := _LACKING.search(str(err)):
        return f"'.{found[1]}' is not known here"
    return f"cannot be filled in: {err}"


def _find_line(error: BaseException) -> int:
    """Return the line of the source at which it failed, 0 when it is not known."""
    line = getattr(error, "lineno", None) or 0
    trail = error.__traceback__
    while trail is not None:
        if trail.tb_frame.f_code.co_filename == "<template>":
            line = trail.tb_lineno
        trail = trail.tb_next
    return int(line)

"""What stands between braces in a file of words, looked at without filling it in: names, dots, blocks that end.

An expression of a template is one of Python too, but for ``~`` and an ``if`` without ``else``: so Python's own parser
reads it, at once, also in the files that this project's packet has no use for. What it cannot read the sandbox must.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache

from packet.words.filler import TAGS, say_unknown
from packet.words.reader import BadWords
from packet.work.names import INNER, list_inner

_JOIN = re.compile(r"(\"[^\"]*\"|'[^']*')|~")
_FOR = re.compile(r"for\s+(?P<to>[\w\s,]+?)\s+in\s+(?P<of>.+)", re.DOTALL)
_MACRO = re.compile(r"macro\s+(?P<name>\w+)\s*\((?P<given>[\w\s,]*)\)")
_SET = re.compile(r"set\s+(?P<to>\w+)\s*=\s*(?P<of>.+)", re.DOTALL)
_ENDS = {"endif": "if", "endfor": "for", "endmacro": "macro"}
_ALWAYS = ("loop", "true", "false", "none", "True", "False", "None")
_STRAY = re.compile(r"{{|}}|{%|%}")


@dataclass
class Names:
    """The names of a file: those given, and what stands behind their dots; its own are added as they are met."""

    shapes: dict[str, type | None]
    open: list[tuple[str, int]] = field(default_factory=list)


def check_tags(file: str, text: str, names: Collection[str], shapes: Mapping[str, type]) -> None:
    """Raise BadWords for the first slip between the braces of a file's text."""
    known = Names({**dict.fromkeys((*names, *_ALWAYS)), **shapes})
    line = 1
    for at, piece in enumerate(TAGS.split(text)):
        if at % 2:
            _check_tag(file, line, piece, known)
        elif stray := _STRAY.search(piece):
            where = line + piece.count("\n", 0, stray.start())
            raise BadWords(file, f"'{stray[0]}' has no partner; write {{{{ name }}}}, or {{% if ... %}}", where)
        line += piece.count("\n")
    if known.open:
        word, line = known.open[-1]
        raise BadWords(file, f"'{{% {word} %}}' is never ended; write {{% end{word} %}} behind it", line)


def check_expression(file: str, line: int, source: str, names: Collection[str], shapes: Mapping[str, type]) -> None:
    """Raise BadWords for a slip in a header line that is worked out, as ``options.lined``."""
    _check_names(file, line, source, Names({**dict.fromkeys((*names, *_ALWAYS)), **shapes}))


def _check_tag(file: str, line: int, tag: str, known: Names) -> None:
    inside = tag[2:-2].strip("-+ \n")
    if tag.startswith("{#"):
        return
    if tag.startswith("{{"):
        _check_names(file, line, inside, known)
        return
    word, _, rest = inside.partition(" ")
    if word in _ENDS or word in ("else", "elif"):
        _close_block(file, line, word, known)
        if word == "elif":
            _check_names(file, line, rest, known)
    elif word == "if":
        known.open.append((word, line))
        _check_names(file, line, rest, known)
    elif found := _FOR.fullmatch(inside):
        known.open.append((word, line))
        targets = [name.strip() for name in found["to"].split(",")]
        shape = _find_shape(_parse(found["of"].partition(" if ")[0]), known) if len(targets) == 1 else None
        known.shapes |= dict.fromkeys(targets, shape)
        _check_names(file, line, f"[0 for {found['to']} in {found['of']}]", known)
    elif found := _MACRO.fullmatch(inside):
        known.open.append((word, line))
        known.shapes |= dict.fromkeys([found["name"], *(name.strip() for name in found["given"].split(","))])
    elif found := _SET.fullmatch(inside):
        _check_names(file, line, found["of"], known)
        known.shapes[found["to"]] = None
    else:
        raise BadWords(file, f"'{tag}' cannot be filled in; write {{% if ... %}} or {{% for ... in ... %}}", line)


def _close_block(file: str, line: int, word: str, known: Names) -> None:
    opened = known.open[-1][0] if known.open else ""
    wanted = (_ENDS[word],) if word in _ENDS else ("if",) if word == "elif" else ("if", "for")
    if opened not in wanted:
        raise BadWords(file, f"'{{% {word} %}}' has no '{{% {wanted[0]} ... %}}' before it", line)
    if word in _ENDS:
        known.open.pop()


def _check_names(file: str, line: int, source: str, known: Names) -> None:
    tree = _parse(source)
    if tree is None:
        _ask_sandbox(file, line, source)
        return
    for name, among in _list_wrong(tree, known):
        raise BadWords(file, say_unknown(name, among), line)


@lru_cache(maxsize=4096)
def _parse(source: str) -> ast.expr | None:
    """Return an expression, None when it is not one of Python."""
    told = _JOIN.sub(lambda found: found[1] or "+", source).strip()
    for text in (told, f'{told} else ""'):
        try:
            return ast.parse(text, mode="eval").body
        except (SyntaxError, ValueError):
            continue
    return None


def _ask_sandbox(file: str, line: int, source: str) -> None:
    from jinja2 import TemplateSyntaxError

    from packet.words.filler import make_environment

    try:
        make_environment().parse("{{ " + source + " }}")
    except TemplateSyntaxError as err:
        raise BadWords(file, f"'{source}' cannot be filled in: {err.message}", line) from None


def _list_wrong(tree: ast.expr, known: Names) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Return the names that are not known, each with those that are."""
    quiet = {id(name) for node in ast.walk(tree) for name in _list_quiet(node)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Name) and id(node) not in quiet and node.id not in known.shapes:
            yield node.id, tuple(known.shapes)
        if isinstance(node, ast.Attribute) and (shape := _find_shape(node.value, known)):
            inner = list_inner(shape)
            if node.attr not in inner:
                yield node.attr, inner


def _list_quiet(node: ast.AST) -> Iterator[ast.expr]:
    """Return what is no name of ours: the filter behind a bar, the test behind 'is'."""
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.BitOr):
        yield node.right.func if isinstance(node.right, ast.Call) else node.right
    if isinstance(node, ast.Compare) and any(isinstance(op, ast.Is | ast.IsNot) for op in node.ops):
        yield from node.comparators


def _find_shape(tree: ast.expr | None, known: Names) -> type | None:
    """Return what stands behind the dot of an expression, None when that cannot be told."""
    if isinstance(tree, ast.Name):
        return known.shapes.get(tree.id)
    if isinstance(tree, ast.Subscript):
        return _find_shape(tree.value, known)
    if isinstance(tree, ast.Attribute) and _find_shape(tree.value, known):
        return INNER.get(tree.attr)
    return None

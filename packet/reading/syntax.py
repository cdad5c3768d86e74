"""What a YAML parser's complaint means for somebody who never saw YAML."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from packet.reading.faults import Faults
from packet.reading.indents import explain_indent_slip
from packet.reading.problem import Place

QUOTED_START = re.compile(
    r"""(?:[:,\[{]|^\s*-|^)\s*(?P<value>(?P<mark>["'])(?:(?!(?P=mark)).)*(?P=mark)\s*[^\s,\]}#:])"""
)
CHARACTER_START = re.compile(r"""(?:[:,\[{]|^\s*-)\s+(?P<value>[%@`&*!|>])""")
QUOTED = re.compile(r"""(?<!\w)'[^']*'|"[^"]*\"""")
SECOND_COLON = re.compile(r"^[^#'\"]*?:\s+[^#\[{'\"]*?:\s")


def explain_syntax(error: Any, faults: Faults) -> None:
    """Note one fault for a parser's error, in the words of somebody who types a shopping list."""
    mark = getattr(error, "problem_mark", None)
    if mark is None:
        faults.add(None, "", "the text cannot be read", mend="save the file as plain UTF-8 text")
        return
    line = min(mark.line, max(0, len(faults.lines) - 1))
    source = faults.lines[line] if faults.lines else ""
    said = str(getattr(error, "problem", "") or "")
    context = str(getattr(error, "context", "") or "")
    start = getattr(error, "context_mark", None)
    column = min(mark.column, len(source)) if mark.line == line else len(source)
    place = Place(line + 1, column + 1)
    if "nesting" in said or "flow level" in context:
        faults.add(place, "", "nested too deep", mend="a project needs no more than eight levels")
    elif explain_remark(faults, line, column) or explain_value(source, line, column, faults):
        return
    elif "quoted scalar" in context:
        at = Place(start.line + 1, start.column + 1) if start else place
        faults.add(
            at,
            "",
            "a quote opens here and never closes",
            mend="""for inches write 5 in, or put the whole value in single quotes: '5" duct'""",
        )
    elif "flow" in context:
        at = find_open_bracket(faults.lines[: line + 1], column) or place
        character = faults.lines[at.line - 1][at.column - 1 : at.column]
        closing = {"[": "]", "{": "}"}.get(character, "]")
        faults.add(
            at,
            "",
            f"'{character}' opens here and '{closing}' does not close it by line {line + 1}",
            mend=f"close it with {closing}, and put a comma between two values",
        )
    elif not explain_indent_slip(line, faults):
        faults.add(
            place,
            "",
            "this line does not fit under the one above it",
            expected="lines of one table to start in the same column, each as key: value",
            mend="line it up with spaces",
        )


def find_open_bracket(lines: Sequence[str], column: int) -> Place | None:
    """Return the last bracket that is still open at a column of the last line; text in quotes does not count."""
    opened: list[Place] = []
    for number, line in enumerate(lines, 1):
        shown = line[:column] if number == len(lines) else line
        bare = re.sub(r"""'[^']*'|"[^"]*"|(?:^|\s)#.*""", lambda found: " " * len(found.group()), shown)
        for place, character in enumerate(bare, 1):
            if character in "[{":
                opened.append(Place(number, place))
            elif character in "]}" and opened:
                opened.pop()
    return opened[-1] if opened else None


def explain_remark(faults: Faults, line: int, column: int) -> bool:
    """Note the fault when a # hides the bracket that would close the one still open; tell whether it did."""
    opened = find_open_bracket(faults.lines[: line + 1], column)
    if opened is None:
        return False
    closing = {"[": "]", "{": "}"}[faults.lines[opened.line - 1][opened.column - 1]]
    for number in range(opened.line, line + 2):
        bare = QUOTED.sub(lambda found: " " * len(found.group()), faults.lines[number - 1])
        start = opened.column - 1 if number == opened.line else 0
        found = re.compile(r"(?:(?<=\s)|^)#.*").search(bare, start)
        if found and closing in found.group():
            faults.add(
                Place(number, found.start() + 1),
                "",
                f"all behind # is a remark, also the {closing} that would close the line",
                mend="put the # and what follows it on a line of its own, or a value that holds # in single quotes",
            )
            return True
    return False


def explain_value(source: str, line: int, column: int, faults: Faults) -> bool:
    """Note the fault when the line shows one of the known traps of a value; tell whether it did."""
    if quoted := QUOTED_START.search(source):
        place = Place(line + 1, quoted.start("value") + 1, len(quoted["value"]))
        faults.add(
            place,
            "",
            f"a value that starts with {quoted['mark']} must end with it",
            mend="put the whole value in single quotes",
            example="""note: '"6 in" duct'""",
        )
        return True
    if character := CHARACTER_START.search(source):
        place = Place(line + 1, character.start("value") + 1)
        faults.add(
            place,
            "",
            f"a value cannot start with {character['value']}",
            mend="put the whole value in single quotes",
            example=f"note: '{character['value']} ...'",
        )
        return True
    if SECOND_COLON.match(re.sub(r"(?<=\w)'(?=\w)", "x", source)):  # Bob's is no quote
        if source[:column].count("{") > source[:column].count("}"):
            word = re.search(r"[^\s:,{}]*:?\s*$", source[:column])
            start = word.start() if word else column
            faults.add(
                Place(line + 1, start + 1, max(1, column - start)),
                "",
                "a comma is missing before this key",
                mend="put a comma between two keys, and a value that holds a colon in single quotes",
            )
            return True
        faults.add(
            Place(line + 1, source.index(": ", source.index(": ") + 1) + 1),
            "",
            "a second ': ' in one line",
            mend="put a value that holds a colon in single quotes",
            example="note: 'port: 6 in'",
        )
        return True
    return False

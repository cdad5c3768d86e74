"""What a YAML parser's complaint means for somebody who never saw YAML."""

from __future__ import annotations

import re
from typing import Any

from packet.problem import Place
from packet.reading.faults import Faults

QUOTED_START = re.compile(
    r"""(?:[:,\[{]|^\s*-|^)\s*(?P<value>(?P<mark>["'])(?:(?!(?P=mark)).)*(?P=mark)\s*[^\s,\]}#:])"""
)
SIGN_START = re.compile(r"""(?:[:,\[{]|^\s*-)\s+(?P<value>[%@`&*!|>])""")
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
    place = Place(line + 1, min(mark.column, len(source)) + 1)
    if "nesting" in said or "flow level" in context:
        faults.add(place, "", "nested too deep", mend="a project needs no more than eight levels")
    elif explain_value(source, line, faults):
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
        at = Place(start.line + 1, start.column + 1) if start else place
        sign = faults.lines[at.line - 1][at.column - 1 : at.column] if at.line <= len(faults.lines) else ""
        closing = {"[": "]", "{": "}"}.get(sign, "] or }")
        faults.add(
            at,
            "",
            f"'{sign or '['}' opens here and '{closing}' does not close it by line {line + 1}",
            mend=f"close it with {closing}, and put a comma between two values",
        )
    else:
        faults.add(
            place,
            "",
            "this line does not fit under the one above it",
            expected="lines of one table to start in the same column, each as key: value",
            mend="line it up with spaces",
        )


def explain_value(source: str, line: int, faults: Faults) -> bool:
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
    if sign := SIGN_START.search(source):
        place = Place(line + 1, sign.start("value") + 1)
        faults.add(
            place,
            "",
            f"a value cannot start with {sign['value']}",
            mend="put the whole value in single quotes",
            example=f"note: '{sign['value']} ...'",
        )
        return True
    if SECOND_COLON.match(source):
        column = source.index(": ", source.index(": ") + 1) + 1
        if source[:column].count("{") > source[:column].count("}"):
            faults.add(
                Place(line + 1, column), "", "a comma is missing before this key", mend="put a comma between two keys"
            )
            return True
        faults.add(
            Place(line + 1, column),
            "",
            "a second ': ' in one line",
            mend="put a value that holds a colon in single quotes",
            example="note: 'port: 6 in'",
        )
        return True
    return False

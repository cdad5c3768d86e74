"""Hostile project files: mutations of the samples and texts that attack what prints them."""

from __future__ import annotations

import random
import re
from pathlib import Path

PROJECTS = Path(__file__).parents[2] / "projects"
FILES = sorted(path for path in PROJECTS.glob("*.yaml") if ".as-built" not in path.name)
SAMPLE_FILES = tuple(path for path in sorted(PROJECTS.glob("*.yaml")) if not path.stem.endswith(".as-built"))
SAMPLES = tuple(path.read_text(encoding="utf-8") for path in SAMPLE_FILES)

VALUES = (
    "",
    "0",
    "-1",
    "1e308",
    "1e-308",
    "999999999999999999999",
    "nan",
    ".inf",
    "0 in",
    "-5 ft",
    "1e9 ft",
    "5 1/0 in",
    "1/0",
    "⅛ in",
    "5⅛",
    "12,5 mm",
    "{}",
    "[]",
    "[[]]",
    "[[[[[[]]]]]]",
    "~",
    "null",
    "yes",
    "*x",
    "&x y",
    "!!float 3",
    "@",
    "`",
    "%",
    "|",
    ">",
    "'",
    '"',
    "<<",
    "? ",
    "- ",
    ": ",
    "#",
    " #",
    "---",
    "...",
    "\t",
    "\u00a0",
    "\u202e",
    "\ud7ff",
    "🪚",
    "٣ in",
    "３ in",
    "²",
    "x" * 5000,
    "1" * 400,
    "{a: 1}",
    "[1, 2]",
    "2 inH2O at",
    "at 3 cfm",
    "1 x 2",
    "1 x 2 x 3 in",
    "1:0",
    "0:1",
    "auto",
    "none",
    "separator",
)
TEXTS = (
    "<b>bold</b> & </para>",
    "<img src='/etc/passwd'/>",
    "</script><script>alert(1)</script>",
    "{{ 7*7 }}{% for x in [] %}",
    "{0.__class__}{project}",
    "%s%n%d",
    "=cmd|'/c calc'!A1",
    "+1+1",
    "@SUM(1)",
    "-2+3",
    "0\\P{\\C1;x}",
    "AcDbText\n0\nEOF",
    "a\\b/c:d",
    "../../../etc/passwd",
    "/etc/passwd",
    "C:\\con",
    "nul",
    "]]>",
    "<!ENTITY x SYSTEM 'file:///etc/passwd'>",
    "שלום עולם",
    "Łódź",
    "漢字",
    "e\u0301" * 20,
    "\u0301\u0302",
    "👩‍🔧",
    "'; DROP TABLE",
    '"quoted"',
    "back`tick",
    "x" * 110,
    "$(rm -rf /)",
    "%PDF-1.7",
)


def mutate(text: str, pick: random.Random) -> str:
    """Return a sample with one to four things wrong in it."""
    for _ in range(pick.randint(1, 4)):
        text = pick.choice(
            (
                replace_value,
                cut_piece,
                double_line,
                swap_signs,
                drop_line,
                indent_line,
                insert_sign,
                *(change_number,) * 7,
            )
        )(text, pick)
    return text


def change_number(text: str, pick: random.Random) -> str:
    """Return the text with one number another: most such files can be read, so that what follows is tried too."""
    numbers = list(re.finditer(r"(?<![\w.-])\d+(?:\.\d+)?(?= |,|\]|\}|$)", text, re.MULTILINE))
    if not numbers:
        return text
    found = pick.choice(numbers)
    factor = pick.choice((0, 0.01, 0.1, 0.5, 0.9, 1.1, 1.5, 2, 3, 5, 10, 100))
    return f"{text[: found.start()]}{float(found.group()) * factor:g}{text[found.end() :]}"


def replace_value(text: str, pick: random.Random) -> str:
    lines = text.split("\n")
    at = pick.choice([n for n, line in enumerate(lines) if ":" in line] or [0])
    parts = lines[at].split(":")
    where = pick.randrange(1, len(parts)) if len(parts) > 1 else 0
    parts[where] = f" {pick.choice(VALUES + TEXTS)}" + parts[where][len(parts[where].split(",")[0]) :]
    lines[at] = ":".join(parts)
    return "\n".join(lines)


def cut_piece(text: str, pick: random.Random) -> str:
    start = pick.randrange(len(text) + 1)
    return text[:start] + text[start + pick.choice((1, 3, 30, 300)) :]


def double_line(text: str, pick: random.Random) -> str:
    lines = text.split("\n")
    at = pick.randrange(len(lines))
    return "\n".join([*lines[:at], *[lines[at]] * pick.choice((2, 3, 200)), *lines[at + 1 :]])


def swap_signs(text: str, pick: random.Random) -> str:
    old, new = pick.sample(list("[]{},:'\"#-&*!|>%@` \n\t0123456789inftm/."), 2)
    return text.replace(old, new, pick.choice((1, 2, 10_000)))


def drop_line(text: str, pick: random.Random) -> str:
    lines = text.split("\n")
    del lines[pick.randrange(len(lines))]
    return "\n".join(lines)


def indent_line(text: str, pick: random.Random) -> str:
    lines = text.split("\n")
    at = pick.randrange(len(lines))
    lines[at] = pick.choice((" ", "  ", "\t", "\u00a0")) + lines[at]
    return "\n".join(lines)


def insert_sign(text: str, pick: random.Random) -> str:
    at = pick.randrange(len(text) + 1)
    return text[:at] + pick.choice(("\x00", "\x1b[2J", "\ufeff", "\u2028", "\r", "\x85", *VALUES)) + text[at:]

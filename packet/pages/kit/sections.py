"""The sections of the packet, in order: their names on the command line and how they begin."""

from __future__ import annotations

import itertools
from dataclasses import dataclass, replace
from typing import Any

from packet.parts import SECTIONS as NEEDS
from packet.parts import WHOLE, Part
from packet.words.phrases import take_words


@dataclass(frozen=True)
class Section:
    """key: name for ``--only``; fresh: begins on a new page; number: of its heading.

    title: empty: as templates/words/sections.md has it
    """

    key: str
    title: str = ""
    number: str = ""
    fresh: bool = True


Story = list[Any]


@dataclass(frozen=True)
class Chapter:
    """A section with its story made."""

    section: Section
    story: Story


SECTIONS: tuple[Section, ...] = (
    Section("cover"),
    Section("contents", fresh=False),
    Section("print-check", number="1"),
    Section("report", number="2"),
    Section("bill", number="3"),
    Section("cuts", number="4", fresh=False),
    Section("drawings", number="5", fresh=False),
    Section("circles", number="6", fresh=False),
    Section("gauge", number="7", fresh=False),
    Section("steps", number="8"),
    Section("cautions", number="9", fresh=False),
    Section("commissioning", number="10"),
    Section("as-built", number="11"),
    Section("maintenance", number="12"),
    Section("worked", number="13", fresh=False),
    Section("labels", number="14"),
    Section("templates", number="15"),
)

SECTION_NAMES: tuple[str, ...] = tuple(section.key for section in SECTIONS)


def list_sections(has: frozenset[Part]) -> tuple[Section, ...]:
    """Return the sections that a job with these parts has, in the packet's order, numbered one after the other."""
    numbers = itertools.count(1)
    found = [section for section in SECTIONS if NEEDS[section.key].is_met(has)]
    return tuple(replace(each, number=str(next(numbers))) if each.number else each for each in found)


def name_section(section: Section, language: str) -> str:
    """Return a section's title, for contents and bookmarks where it has no heading of its own."""
    if section.title:
        return section.title
    words = take_words("sections", language)
    return words(f"title_{section.key.replace('-', '_')}")


def pick_sections(only: tuple[str, ...] | None, has: frozenset[Part] = WHOLE) -> tuple[Section, ...]:
    """Return the sections asked for, in the packet's order; all of them for None. Raises KeyError for another name.

    has: the job's parts; a section that needs another is left out
    """
    there = list_sections(has)
    if only is None:
        return there
    unknown = sorted(set(only) - set(SECTION_NAMES))
    if unknown:
        raise KeyError(unknown[0])
    return tuple(section for section in there if section.key in only)

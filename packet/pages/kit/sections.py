"""The sections of the packet, in order: their names on the command line and how they begin."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

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


def name_section(section: Section, language: str) -> str:
    """Return a section's title, for contents and bookmarks where it has no heading of its own."""
    if section.title:
        return section.title
    words = take_words("sections", language)
    return words(f"title_{section.key.replace('-', '_')}")


def pick_sections(only: tuple[str, ...] | None) -> tuple[Section, ...]:
    """Return the sections asked for, in the packet's order; all of them for None. Raises KeyError for another name."""
    if only is None:
        return SECTIONS
    unknown = sorted(set(only) - set(SECTION_NAMES))
    if unknown:
        raise KeyError(unknown[0])
    return tuple(section for section in SECTIONS if section.key in only)

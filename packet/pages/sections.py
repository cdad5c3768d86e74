"""The sections of the packet, in order: their names on the command line, their modules and how they begin."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Section:
    """key: name for ``--only``; module: room in packet/pages; fresh: begins on a new page; number: of its heading."""

    key: str
    module: str
    title: str
    number: str = ""
    fresh: bool = True


SECTIONS: tuple[Section, ...] = (
    Section("cover", "cover", "Cover"),
    Section("contents", "contents", "Contents", fresh=False),
    Section("print-check", "print_check", "Print check", "1"),
    Section("report", "report", "Sizing report", "2"),
    Section("bill", "bill", "Bill of materials", "3"),
    Section("cuts", "cuts", "Cut list", "4", fresh=False),
    Section("drawings", "drawings", "Drawings", "5", fresh=False),
    Section("circles", "circle_settings", "Circle settings", "6", fresh=False),
    Section("gauge", "gauge_cards", "Water gauge", "7", fresh=False),
    Section("steps", "steps", "Steps", "8"),
    Section("cautions", "cautions", "Cautions", "9", fresh=False),
    Section("commissioning", "commissioning", "Commissioning", "10", fresh=False),
    Section("as-built", "as_built", "As built", "11", fresh=False),
    Section("maintenance", "maintenance", "Maintenance", "12", fresh=False),
    Section("worked", "worked", "Worked calculations", "13", fresh=False),
    Section("labels", "labels", "Labels", "14"),
    Section("templates", "templates", "Full-size templates", "15"),
)

SECTION_NAMES: tuple[str, ...] = tuple(section.key for section in SECTIONS)


def pick_sections(only: tuple[str, ...] | None) -> tuple[Section, ...]:
    """Return the sections asked for, in the packet's order; all of them for None. Raises KeyError for another name."""
    if only is None:
        return SECTIONS
    unknown = sorted(set(only) - set(SECTION_NAMES))
    if unknown:
        raise KeyError(unknown[0])
    return tuple(section for section in SECTIONS if section.key in only)

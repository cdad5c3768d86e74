"""What faces and parts are called where a person reads it; the names in the data stay as they are.

A part's own name joins cut list, bill, sheets, templates and files: it is never translated. What is printed for it is a
sentence of templates/findings/part_names.md.
"""

from __future__ import annotations

from calc.finding import Said


def say_face(face: str) -> Said:
    """Return what a face of the box is called: ``front``."""
    return Said(f"part_names.{face}")


def say_panel(face: str) -> Said:
    """Return what the panel of a face is called where it stands alone: ``front panel``."""
    return Said("part_names.panel", names={"face": say_face(face)})


def say_part(name: str) -> Said:
    """Return what a part of the box, its lining or its mount is called, by its own name.

    Panels bear the name of their face; ``cleat left bottom``, ``rib front 1`` and ``lining top`` name faces too.
    """
    kind, *rest = name.split()
    if kind == "cleat":
        return Said("part_names.cleat", names={"one": say_face(rest[0]), "other": say_face(rest[1])})
    if kind == "rib":
        return Said("part_names.rib", names={"face": say_face(rest[0]), "number": rest[1]})
    if kind == "lining":
        return Said("part_names.lining", names={"face": say_face(rest[0])})
    return Said(f"part_names.{name.replace(' ', '_')}")

"""What faces and parts are called where a person reads it; the names in the data stay as they are.

A part's own name joins cut list, bill, sheets, templates and files: it is never translated. What is printed for it is a
sentence of templates/findings/part_names.md.
"""

from __future__ import annotations

from calc.finding import Said
from calc.project import FACES

OWN_STOCKS = {
    "closed-cell foam": "foam",
    "paper": "paper",
    "card": "card",
    "card or thin scrap": "thin_scrap",
    "screw lid, plastic": "screw_lid",
    "plywood or plastic": "gauge_board",
}
"""Materials of parts that the project file does not name, by what they are called in the data."""


def say_face(face: str) -> Said:
    """Return what a face of the box is called: ``front``."""
    return Said(f"part_names.{face}")


def say_panel(face: str) -> Said:
    """Return what the panel of a face is called where it stands alone: ``front panel``."""
    return Said("part_names.panel", names={"face": say_face(face)})


def say_whole(name: str) -> Said:
    """Return what a part of the box is called in a sentence: ``front panel`` where a list says ``front``."""
    return say_panel(name) if name in FACES else say_part(name)


def say_outside(face: str) -> Said:
    """Return which face of a panel lies up: ``outside of front panel``."""
    return Said("part_names.outside", names={"face": say_face(face)})


def say_stock(material: str) -> str | Said:
    """Return what a material is called: ours by look-up, a stock of the project file as the file calls it."""
    key = OWN_STOCKS.get(material)
    return material if key is None else Said(f"stocks.{key}")


def say_part(name: str) -> Said:
    """Return what a part of the box, its lining or its mount is called, by its own name.

    Panels bear the name of their face; ``cleat left bottom``, ``rib front 1`` and ``lining top`` name faces too.
    """
    kind, *rest = name.split()
    if kind == "cleat":
        return Said("part_names.cleat", names={"one": say_face(rest[0]), "other": say_face(rest[1])})
    if kind == "rib":
        return Said("part_names.rib", names={"face": say_face(rest[0]), "number": rest[1]})
    if kind == "lining" and len(rest) > 1:
        return Said("part_names.lining_strip", names={"face": say_face(rest[0]), "number": rest[1]})
    if kind == "lining":
        return Said("part_names.lining", names={"face": say_face(rest[0])})
    return Said(f"part_names.{name.replace(' ', '_')}")

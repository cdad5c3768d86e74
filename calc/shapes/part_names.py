"""What faces and parts are called where a person reads it; the names in the data stay as they are.

A part's own name joins cut list, bill, sheets, templates and files: it is never translated. What is printed for it is a
sentence of templates/findings/part_names.md.
"""

from __future__ import annotations

from calc.finding import Said

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


def say_outside(face: str) -> Said:
    """Return which face of a panel lies up: ``outside of front panel``."""
    return Said("part_names.outside", names={"face": say_face(face)})


def say_stock(material: str) -> str | Said:
    """Return what a material is called: ours by look-up, a stock of the project file as the file calls it."""
    key = OWN_STOCKS.get(material)
    return material if key is None else Said(f"stocks.{key}")


def say_inlet() -> Said:
    """Return what the hole for the duct is called."""
    return Said("part_names.inlet")


def say_cleat(one: str, other: str) -> Said:
    """Return what the cleat along the edge of two faces is called: ``cleat left bottom``."""
    return Said("part_names.cleat", names={"one": say_face(one), "other": say_face(other)})


def say_rib(face: str, number: int) -> Said:
    """Return what a rib of a panel is called: ``rib front 1``."""
    return Said("part_names.rib", names={"face": say_face(face), "number": str(number)})


def say_lining(face: str, strip: int | None) -> Said:
    """Return what a face's lining, or a numbered strip of it, is called: ``lining top``."""
    names: dict[str, str | Said] = {"face": say_face(face)}
    if strip is None:
        return Said("part_names.lining", names=names)
    return Said("part_names.lining_strip", names={**names, "number": str(strip)})


def say_member(member: str) -> Said:
    """Return what a piece that carries the box is called: ``wall rail``."""
    return Said(f"part_names.{member.replace(' ', '_')}")

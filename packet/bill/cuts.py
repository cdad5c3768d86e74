"""The cut list as rows of words, for the page and for a spreadsheet."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.box.joints import CART_CLEATS
from calc.box.mounts import find_rail_up
from calc.measures.marking import write_mark
from calc.measures.quantity import Reader
from calc.shapes.part_names import say_face, say_inlet
from packet.words.phrases import Phrases, take_words
from packet.words.say import say

if TYPE_CHECKING:
    from calc.box.panel_facts import PanelFacts, Strip
    from calc.box.parts import BoxPart, Hole
    from calc.design import Design

SIDES = ("left", "right", "bottom", "top")


@dataclass(frozen=True, kw_only=True)
class CutRow:
    """One part: sizes in mm for reckoning; words for the rest.

    name: the part's own, as in every file; called: what it is called on paper
    sheet: where it lies; joints: grooves to cut, or where a cleat, rib, rail or part of a cart goes
    edges: which ones show, for every panel; noted: the same where there is something to mind
    """

    number: str
    name: str
    called: str
    quantity: int
    width_mm: float
    height_mm: float
    thickness_mm: float
    material: str
    grain: str
    sheet: str
    holes: str
    joints: str
    edges: str
    noted: str


def list_cuts(design: Design, reader: Reader) -> tuple[CutRow, ...]:
    """Return every panel, cleat, rib and lining piece in cut-list order."""
    words = take_words("cuts", reader.language)
    where = find_sheets(design, words)
    rows = [
        CutRow(
            number=part.number,
            name=part.name,
            called=say(part.called, reader),
            quantity=part.quantity,
            width_mm=part.width_mm,
            height_mm=part.height_mm,
            thickness_mm=part.thickness_mm,
            material=part.material,
            grain=words(f"grain_{part.grain}"),
            sheet=where.get(part.number, words("no_sheet")),
            holes="; ".join(say_hole(hole, reader) for hole in part.holes),
            joints=_say_place(part, design, reader),
            edges=say_edges(part, words),
            noted=say_edges(part, words) if part.shows else "",
        )
        for part in design.parts
    ]
    for piece in design.lining.pieces if design.lining else ():
        holes = "; ".join(say_hole(hole, reader) for hole in piece.holes)
        material = design.lining.stock if design.lining else ""
        called, grain = say(piece.called, reader), words("grain_none")
        sheet = where.get(piece.number, words("no_piece"))
        rows.append(
            CutRow(
                number=piece.number,
                name=piece.name,
                called=called,
                quantity=1,
                width_mm=piece.width_mm,
                height_mm=piece.height_mm,
                thickness_mm=piece.thickness_mm,
                material=material,
                grain=grain,
                sheet=sheet,
                holes=holes,
                joints="",
                edges="",
                noted="",
            )
        )
    return tuple(rows)


def find_sheets(design: Design, words: Phrases) -> dict[str, str]:
    """Return where each part lies: number -> ``sheet 1`` (or ``offcut 1`` from what is on hand)."""
    return {
        placed.blank.number: words("on_offcut" if layout.from_hand else "on_sheet", number=layout.number)
        for plan in design.sheets
        for layout in plan.layouts
        for placed in layout.placed
    }


def say_hole(hole: Hole, reader: Reader) -> str:
    """Return a hole in words: name, diameter, middle from the part's left and lower edge."""
    words = take_words("cuts", reader.language)
    name = say(say_inlet(), reader) if hole.kind == "inlet" else hole.name
    size, across, up = (write_mark(mm, reader) for mm in (hole.diameter_mm, hole.across_mm, hole.up_mm))
    return words("hole", name=name, size=size, across=across, up=up)


def say_joints(panel: PanelFacts, reader: Reader) -> str:
    """Return the rabbets or dados to cut on the inner face: along which edges, how deep, wide and far in."""
    if not panel.joints:
        return ""
    words = take_words("cuts", reader.language)
    joint, sides = panel.joints[0], [joint.edge for joint in panel.joints]
    deep, wide = write_mark(joint.depth_mm, reader), write_mark(joint.width_mm, reader, "up")
    lip = write_mark(joint.lip_mm, reader)
    edges = ", ".join(words(f"side_{side}") for side in SIDES if side in sides)
    return words("dado" if joint.lip_mm else "rabbet", edges=edges, deep=deep, wide=wide, lip=lip)


def say_strip(panel: PanelFacts, strip: Strip, reader: Reader) -> str:
    """Return where a rib or cleat stands on its panel, from the panel's left and lower edge, and its screws."""
    words = take_words("cuts", reader.language)
    kind = "rib" if strip.kind == "stiffener" else "cleat"
    key = f"{kind}_upright" if strip.is_upright else f"{kind}_level"
    at, end = write_mark(strip.middle_mm, reader), write_mark(strip.starts_mm, reader)
    place = words(key, face=say(say_face(panel.face), reader), at=at, end=end)
    row = next((row for row in panel.rows if row.part == strip.name), None)
    if row is None:
        return place
    return words("strip_screws", place=place, count=row.count, apart=write_mark(row.pitch_mm, reader))


def _say_place(part: BoxPart, design: Design, reader: Reader) -> str:
    """Return what is cut into a panel, or where a strip or a part of the mount goes."""
    if part.kind == "mount":
        return say_mount(part, design, reader)
    for panel in design.panels:
        if panel.name == part.name:
            return say_joints(panel, reader)
        for strip in panel.strips:
            if strip.name == part.name:
                return say_strip(panel, strip, reader)
    return ""


def say_mount(part: BoxPart, design: Design, reader: Reader) -> str:
    """Return where a rail or a part of the cart goes, and what is done to its edges."""
    words = take_words("cuts", reader.language)
    place = _say_mount_place(part, design, reader, words)
    return words("layers", layers=part.quantity, place=place) if part.quantity > 1 else place


def _say_mount_place(part: BoxPart, design: Design, reader: Reader, words: Phrases) -> str:
    outside, low, high = design.box.outside, part.block.low, part.block.high
    if part.member == "box rail":
        return words("box_rail", down=write_mark(outside.height - high[2], reader))
    if part.member == "wall rail":
        return words("wall_rail", up=write_mark(find_rail_up(design.parts, design.stack.box_bottom_mm) or 0.0, reader))
    if part.member == "lower spacer":
        return words("lower_spacer")
    if part.face == "top":
        key = "left_rail" if part.member == "left rail" else "right_rail"
        return words(key, over=write_mark(-low[1], reader))
    if part.member == "cart base" and design.mount.wheels_mm is not None:
        across, deep = (write_mark(mm, reader) for mm in design.mount.wheels_mm)
        return words("cart_base", across=across, deep=deep)
    if part.member in CART_CLEATS:
        return words("cart_cleat")
    if part.member == "cart back":
        return words("cart_back")
    return words("cart_left_side" if part.member == "cart left side" else "cart_right_side")


def say_edges(part: BoxPart, words: Phrases) -> str:
    """Return which edges show when the box is together."""
    if part.kind != "panel":
        return ""
    if len(part.shows) in (0, 4):
        return words("shows_all" if part.shows else "shows_none")
    return words("shows_some", edges=", ".join(words(f"side_{side}") for side in SIDES if side in part.shows))

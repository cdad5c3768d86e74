"""The cut list as rows of words, for the page and for a spreadsheet."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.geometry.faces import find_flat
from calc.measures.quantity import Reader, write_amount, write_length
from packet.tables_csv import write_csv

if TYPE_CHECKING:
    from calc.geometry.design import Design
    from calc.geometry.parts import BoxPart, Groove, Hole

SIDES = ("left", "right", "bottom", "top")
GRAIN = {"width": "along width", "height": "along height", "none": "any way"}


@dataclass(frozen=True)
class CutRow:
    """One part: sizes in mm for reckoning; words for the rest. sheet: where it lies, ``sheet 1`` or ``offcut 1``."""

    number: str
    name: str
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


def list_cuts(design: Design, reader: Reader) -> tuple[CutRow, ...]:
    """Return every panel, cleat, rib and lining piece in cut-list order."""
    where = find_sheets(design)
    rows = [
        CutRow(
            part.number,
            part.name,
            part.quantity,
            part.width_mm,
            part.height_mm,
            part.thickness_mm,
            part.material,
            GRAIN[part.grain],
            where.get(part.number, "no sheet holds it"),
            "; ".join(say_hole(hole, reader) for hole in part.holes),
            say_joints(part, design, reader) or say_place(part, design, reader),
            say_edges(part),
        )
        for part in design.parts
    ]
    for piece in design.lining.pieces if design.lining else ():
        holes = "; ".join(say_hole(hole, reader) for hole in piece.holes)
        material = design.lining.stock if design.lining else ""
        rows.append(
            CutRow(piece.number, piece.name, 1, piece.width_mm, piece.height_mm, piece.thickness_mm, material,
                   GRAIN["none"], where.get(piece.number, "no piece holds it"), holes, "", "")
        )  # fmt: skip
    return tuple(rows)


def find_sheets(design: Design) -> dict[str, str]:
    """Return where each part lies: number -> ``sheet 1`` (or ``offcut 1`` from what is on hand)."""
    return {
        placed.blank.number: f"{'offcut' if layout.from_hand else 'sheet'} {layout.number}"
        for plan in design.sheets
        for layout in plan.layouts
        for placed in layout.placed
    }


def say_hole(hole: Hole, reader: Reader) -> str:
    """Return a hole in words: name, diameter, middle from the part's left and lower edge."""
    size, across, up = (write_length(mm, reader) for mm in (hole.diameter_mm, hole.across_mm, hole.up_mm))
    return f"{hole.name}: {size} dia. at {across} from left, {up} up"


def say_joints(part: BoxPart, design: Design, reader: Reader) -> str:
    """Return the rabbets or dados to cut on the inner face: along which edges, how deep, wide and far in."""
    if not part.grooves:
        return ""
    sides = [find_side(groove, part) for groove in part.grooves]
    groove = part.grooves[0]
    deep, wide = write_length(groove.depth_mm, reader), write_length(min(groove.width_mm, groove.height_mm), reader)
    lip = design.box.joint.lip_mm
    inset = f", {write_length(lip, reader)} in from the edge" if lip else ""
    edges = ", ".join(side for side in SIDES if side in sides)
    return f"{design.box.joint.kind} inside along {edges}: {deep} deep, {wide} wide{inset}"


def say_place(part: BoxPart, design: Design, reader: Reader) -> str:
    """Return where a rib stands on its panel: its middle from the panel's left or lower edge, seen from outside."""
    if part.kind == "mount":
        return say_mount(part, design, reader)
    if part.kind != "stiffener":
        return ""
    panel = next(each for each in design.parts if each.face == part.face and each.kind == "panel")
    left, bottom, right, top = find_flat(part.face, part.block, design.box.outside)
    upright = right - left < top - bottom
    middle = (left + right) / 2 - panel.left_mm if upright else (bottom + top) / 2 - panel.bottom_mm
    edge = "left" if upright else "lower"
    return f"on edge inside the {part.face} panel, middle {write_length(middle, reader)} from its {edge} edge"


def say_mount(part: BoxPart, design: Design, reader: Reader) -> str:
    """Return where a rail or a part of the cart goes, and what is done to its edges."""
    outside, low, high = design.box.outside, part.block.low, part.block.high
    layers = f"{part.quantity} layers glued; " if part.quantity > 1 else ""
    if part.name == "box rail":
        down = write_length(outside.height - high[2], reader)
        return f"{layers}on the back, {down} under the top; lower long edge sawn at 45°, its point toward the wall"
    if part.name == "wall rail":
        up = write_length(design.stack.box_bottom_mm + high[2], reader)
        return f"{layers}upper long edge sawn at 45°, its point away from the wall, {up} above the floor"
    if part.name == "lower spacer":
        return f"{layers}on the back, along its lower edge"
    if part.face == "top":
        over = write_length(-low[1], reader)
        return f"{layers}across the top, level with its {part.name.split()[0]} end, {over} out at front and back"
    if part.name == "cart base" and design.mount.wheels_mm is not None:
        across, deep = (write_length(mm, reader) for mm in design.mount.wheels_mm)
        return f"under the cart; casters {across} apart across, {deep} deep, middle to middle"
    if part.name in ("cart left cleat", "cart right cleat"):
        return f"{layers}inside its side, level with the top; the box is bolted to it"
    if part.name == "cart back":
        return "between the sides, right under the box"
    return f"upright under the {part.name.split()[1]} end of the box"


def find_side(groove: Groove, part: BoxPart) -> str:
    """Return which edge of its part a groove runs along."""
    if groove.width_mm < groove.height_mm:
        return "left" if groove.left_mm + groove.width_mm / 2 < part.width_mm / 2 else "right"
    return "bottom" if groove.bottom_mm + groove.height_mm / 2 < part.height_mm / 2 else "top"


def say_edges(part: BoxPart) -> str:
    """Return which edges show when the box is together."""
    if part.kind != "panel":
        return ""
    if len(part.shows) in (0, 4):
        return "edges that show: " + ("all" if part.shows else "none")
    return "edges that show: " + ", ".join(side for side in SIDES if side in part.shows)


def write_cuts_csv(design: Design, reader: Reader) -> str:
    """Return the cut list as CSV text: sizes in the reader's words and in millimetres."""
    head = [
        "no.", "part", "how many", "width", "height", "thickness", "width mm", "height mm", "thickness mm", "material",
        "grain", "from", "holes", "joints", "edges",
    ]  # fmt: skip
    rows: list[list[str | float | int | None]] = [list(head)]
    for row in list_cuts(design, reader):
        rows.append(
            [
                row.number, row.name, row.quantity, write_length(row.width_mm, reader),
                write_length(row.height_mm, reader), write_amount(row.thickness_mm, "length_mm", reader),
                round(row.width_mm, 2), round(row.height_mm, 2), round(row.thickness_mm, 2), row.material, row.grain,
                row.sheet, row.holes, row.joints, row.edges,
            ]
        )  # fmt: skip
    return write_csv(rows)

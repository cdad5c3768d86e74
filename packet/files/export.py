"""Files beside the packet: each part as SVG and DXF for machines, each template on one large page for a copy shop."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from calc.design import Design
from calc.measures.quantity import Reader
from calc.shapes.shapes import Box, FlatPart, Layer, Point, Shape, make_rectangle, move_shape, turn_shape
from packet.draw.backends.dxf import write_dxf
from packet.draw.backends.svg import write_svg
from packet.draw.flat import PEN_OF_LAYER, draw_flat
from packet.draw.fonts import clean_text
from packet.draw.model import Drawing, Entity, Pen, Stroke, Words
from packet.draw.views.template_sheet import list_lines, wrap_words
from packet.words.part_names import name_part, name_stock
from packet.words.phrases import take_words
from packet.words.say import say

if TYPE_CHECKING:
    from calc.cutting.sheets import Placed, SheetLayout
    from packet.job import AnyJob

REFERENCE_MM = 50.0
AROUND_MM = 5.0
LONGEST_FILE_NAME = 60
SPELLED = str.maketrans({"ł": "l", "Ł": "L", "ø": "o", "Ø": "O", "ß": "ss", "æ": "ae", "Æ": "AE", "đ": "d", "Đ": "D"})
"""Letters that do not fall apart into a plain letter and its mark."""


def write_parts(job: AnyJob, folder: Path) -> None:
    """Write SVG and DXF into parts/ for every part that machines get, and for every laid-out sheet."""
    from packet.draw.views.part_words import find_warnings

    place = folder / "parts"
    place.mkdir(exist_ok=True)
    taken: set[str] = set()
    for part in job.design.flat_parts:
        if part.cnc and part.features:
            drawing = draw_for_machine(
                part, job.reader, job.project.title.revision, list_lines(find_warnings(job, part))
            )
            stem = name_file(part, job.project.title.revision, taken)
            _write_both(drawing, place, stem)
    write_sheets(job, place, taken)


def write_sheets(job: AnyJob, place: Path, taken: set[str]) -> None:
    """Write every laid-out sheet with its parts where the cut list puts them."""
    from packet.draw.views.part_words import find_warnings

    parts = {part.number: part for part in reversed(job.design.flat_parts)}
    revision = job.project.title.revision
    if not isinstance(job.design, Design):
        return
    for plan in job.design.sheets:
        for layout in plan.layouts:
            laid = [parts[p.blank.number] for p in layout.placed if p.blank.number in parts]
            warnings = list_lines([warned for part in laid for warned in find_warnings(job, part)])
            drawing = draw_sheet(layout, parts, job.reader, revision, warnings)
            stem = f"sheet-{layout.number}-{slug(plan.material)}"[:LONGEST_FILE_NAME].rstrip("-")
            _write_both(drawing, place, make_unique(f"{stem}-rev-{slug(revision) or '0'}-mm", taken))


def draw_sheet(
    layout: SheetLayout, parts: Mapping[str, FlatPart], reader: Reader, revision: str, warnings: tuple[str, ...] = ()
) -> Drawing:
    """Return a sheet of stock with the lines of its parts in place; the sheet's own edge is on a no-cut layer.

    warnings: what must be known before any of its parts is cut
    """
    words = take_words("export", reader.language)
    entities: list[Entity] = [Stroke(make_rectangle(0.0, 0.0, layout.length_mm, layout.width_mm), Pen.OUTLINE)]
    for placed in layout.placed:
        part = parts.get(placed.blank.number)
        if part is None:
            continue
        for feature in part.features:
            if feature.layer is not Layer.GHOST:
                entities.append(Stroke(_place(feature.shape, placed), PEN_OF_LAYER[feature.layer]))
        middle = Point(placed.x_mm + placed.along_mm / 2, placed.y_mm + placed.across_mm / 2)
        called = words("part_short", number=part.number, name=name_part(part, reader))
        entities.append(Words(at=middle, text=clean_text(called), size_mm=8.0, anchor="middle"))
    name = words("sheet", number=layout.number, material=layout.material, revision=revision)
    corner = Point(0.0, layout.width_mm + AROUND_MM)
    entities.append(Stroke(make_rectangle(corner.x, corner.y, REFERENCE_MM, REFERENCE_MM), Pen.OUTLINE))
    room = layout.length_mm - REFERENCE_MM - 20.0
    told = [piece for line in reversed(warnings) for piece in reversed(wrap_words(clean_text(line), 8.0, room))]
    for index, text in enumerate((words("square"), name, *told)):
        up = 10.0 + 20.0 * min(index, 2) + 14.0 * max(index - 2, 0)
        entities.append(Words(at=Point(REFERENCE_MM + 10.0, corner.y + up), text=clean_text(text), size_mm=8.0))
    bounds = Box(0.0, 0.0, layout.length_mm, layout.width_mm + max(REFERENCE_MM, up + 10.0) + 2 * AROUND_MM)
    return Drawing(clean_text(name), tuple(entities), bounds)


def _place(shape: Shape, placed: Placed) -> Shape:
    """Put a part's shape on the sheet: a turned part lies a quarter anticlockwise, so its height runs to the left."""
    if placed.turned:
        return move_shape(turn_shape(shape), placed.x_mm + placed.along_mm, placed.y_mm)
    return move_shape(shape, placed.x_mm, placed.y_mm)


def _write_both(drawing: Drawing, place: Path, stem: str) -> None:
    (place / f"{stem}.svg").write_text(write_svg(drawing), encoding="utf-8", newline="\n")
    (place / f"{stem}.dxf").write_text(write_dxf(drawing), encoding="utf-8", newline="\n")


def draw_for_machine(part: FlatPart, reader: Reader, revision: str, warnings: tuple[str, ...] = ()) -> Drawing:
    """Return a part with its words on the words layer and a labelled reference square beside it.

    warnings: what must be known before it is cut; they stand first.
    """
    drawing = draw_flat(part, reader, clearance_mm=AROUND_MM)
    words = take_words("export", reader.language)
    name = words("part", number=part.number, name=name_part(part, reader), revision=revision)
    stock, face = name_stock(part.material, reader), say(part.face, reader)
    box = drawing.bounds
    corner = Point(box.right + AROUND_MM, box.bottom + 12.0)
    about = (
        *(piece for line in warnings for piece in wrap_words(clean_text(line), 2.5, REFERENCE_MM + 55.0)),
        name,
        words("about", count=part.quantity, stock=stock, thick=f"{part.thickness_mm:g}", face=face),
        words("square"),
    )
    extra: list[Entity] = [
        Stroke(make_rectangle(corner.x, corner.y, REFERENCE_MM, REFERENCE_MM), Pen.OUTLINE),
        *(
            Words(
                at=Point(corner.x, corner.y + REFERENCE_MM + 3.0 + 5.0 * (len(about) - 1 - index)),
                text=line,
                size_mm=2.5,
            )
            for index, line in enumerate(about)
        ),
    ]
    top = max(box.top, corner.y + REFERENCE_MM + 3.0 + 5.0 * len(about))
    bounds = Box(box.left, box.bottom, corner.x + REFERENCE_MM + 60.0, top)
    entities = tuple(_clean(entity) for entity in (*drawing.entities, *extra))
    return Drawing(clean_text(name), entities, bounds)


def _clean(entity: Entity) -> Entity:
    return replace(entity, text=clean_text(entity.text)) if isinstance(entity, Words) else entity


def name_file(part: FlatPart, revision: str, taken: set[str]) -> str:
    """Return a file name without ending: number, name, revision, unit; plain letters, never twice in a folder."""
    stem = f"{slug(part.number)}-{slug(part.name)}"[:LONGEST_FILE_NAME].rstrip("-")
    return make_unique(f"{stem}-rev-{slug(revision) or '0'}-mm", taken)


def make_unique(stem: str, taken: set[str]) -> str:
    """Return the name, or the name with a number when the folder has it already, and remember it."""
    name, count = stem, 2
    while name.lower() in taken:
        name, count = f"{stem}-{count}", count + 1
    taken.add(name.lower())
    return name


def slug(text: str) -> str:
    """Return text as plain lower-case letters, digits and single hyphens."""
    plain = (
        unicodedata.normalize("NFKD", text.translate(SPELLED)).replace("\u2044", "-").encode("ascii", "ignore").decode()
    )
    return re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")

"""Files beside the packet: each part as SVG and DXF for machines, each template on one large page for a copy shop."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from calc.geometry.shapes import Box, FlatPart, Point, make_rectangle
from packet.draw.dxf import write_dxf
from packet.draw.flat import draw_flat
from packet.draw.model import Drawing, Entity, Pen, Stroke, Words
from packet.draw.svg import write_svg
from packet.pages.fonts import clean_text

if TYPE_CHECKING:
    from packet.job import Job

REFERENCE_MM = 50.0
AROUND_MM = 5.0
LONGEST_NAME = 60


def write_parts(job: Job, folder: Path) -> None:
    """Write parts/NAME.svg and parts/NAME.dxf for every part that machines get. The folder is the build's own."""
    place = folder / "parts"
    place.mkdir(exist_ok=True)
    taken: set[str] = set()
    for part in job.design.flat_parts:
        if part.cnc and part.features:
            drawing = draw_for_machine(part, job.project.title.revision)
            stem = name_file(part, job.project.title.revision, taken)
            (place / f"{stem}.svg").write_text(write_svg(drawing), encoding="utf-8", newline="\n")
            (place / f"{stem}.dxf").write_text(write_dxf(drawing), encoding="utf-8", newline="\n")


def draw_for_machine(part: FlatPart, revision: str) -> Drawing:
    """Return a part with its words on the words layer and a labelled reference square beside it."""
    drawing = draw_flat(part, clearance_mm=AROUND_MM)
    box = drawing.bounds
    corner = Point(box.right + AROUND_MM, box.bottom + 12.0)
    about = (
        f"{part.number} {part.name}, revision {revision}",
        f"{part.quantity} off, {part.material} {part.thickness_mm:g} mm, face up: {part.face}",
        "this square is 50 mm: do not cut it",
    )
    extra: list[Entity] = [
        Stroke(make_rectangle(corner.x, corner.y, REFERENCE_MM, REFERENCE_MM), Pen.OUTLINE),
        *(
            Words(Point(corner.x, corner.y + REFERENCE_MM + 3.0 + 5.0 * (len(about) - 1 - index)), line, 2.5)
            for index, line in enumerate(about)
        ),
    ]
    top = max(box.top, corner.y + REFERENCE_MM + 3.0 + 5.0 * len(about))
    bounds = Box(box.left, box.bottom, corner.x + REFERENCE_MM + 60.0, top)
    entities = tuple(_clean(entity) for entity in (*drawing.entities, *extra))
    return Drawing(clean_text(about[0]), entities, bounds)


def _clean(entity: Entity) -> Entity:
    return replace(entity, text=clean_text(entity.text)) if isinstance(entity, Words) else entity


def name_file(part: FlatPart, revision: str, taken: set[str]) -> str:
    """Return a file name without ending: number, name, revision, unit; plain letters, never twice in a folder."""
    stem = f"{slug(part.number)}-{slug(part.name)}"[:LONGEST_NAME].rstrip("-")
    stem = f"{stem}-rev-{slug(revision) or '0'}-mm"
    name, count = stem, 2
    while name.lower() in taken:
        name, count = f"{stem}-{count}", count + 1
    taken.add(name.lower())
    return name


def slug(text: str) -> str:
    """Return text as plain lower-case letters, digits and single hyphens."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")

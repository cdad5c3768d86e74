"""What is written and drawn of one cut part, on its template, its large page and its file for a machine."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from calc.finding import Finding, Verdict
from calc.measures.quantity import Reader, write_length
from calc.shapes.shapes import Box, FlatPart
from packet.draw.flat import draw_flat
from packet.draw.fonts import clean_text
from packet.draw.model import Drawing, Entity, Words
from packet.draw.turn import turn_drawing
from packet.draw.views.template_sheet import Warned
from packet.draw.whole_words import keep_words_whole
from packet.words.amounts import limit_of, value_of
from packet.words.assumed import stamp_assumed
from packet.words.part_names import name_stock
from packet.words.phrases import take_words
from packet.words.say import say

if TYPE_CHECKING:
    from packet.job import AnyJob


def write_sizes(part: FlatPart, reader: Reader) -> str:
    """Return the sizes of a part as one line, each in the reader's fraction with its true decimal, or in mm."""
    return "  ·  ".join(
        f"{say(size.what, reader)} {write_length(size.mm, reader, decimal=True)}" for size in part.sizes
    )


def describe_part(part: FlatPart, reader: Reader) -> str:
    """Return quantity, material, thickness and which face is up as one line."""
    words = take_words("template_sheet", reader.language)
    thick = f" {write_length(part.thickness_mm, reader)}" if part.thickness_mm >= 1.0 else ""
    stock, face = f"{name_stock(part.material, reader)}{thick}", say(part.face, reader)
    if part.grain in ("width", "height"):
        return words(f"described_grain_{part.grain}", count=part.quantity, stock=stock, face=face)
    return words("described", count=part.quantity, stock=stock, face=face)


MOST_CAUSES = 3  # more are on the findings page; across a small sheet they could not be read


def find_warnings(job: AnyJob, part: FlatPart) -> tuple[Warned, ...]:
    """Return what goes across a sheet: what does not fit of this part or its place, with its mend; what was assumed."""
    words = take_words("template_sheet", job.reader.language)
    warned: list[Warned] = []
    bad = [f for f in job.judged if f.verdict is Verdict.DOES_NOT_FIT and part.is_about(f)]
    if bad:
        warned.append(Warned(words("stamp_part"), tuple(_tell_cause(f, job.reader) for f in bad[:MOST_CAUSES])))
    assumed = stamp_assumed(job.project, part)
    if assumed:
        warned.append(Warned(assumed[0], assumed[1:]))
    return tuple(warned)


def _tell_cause(finding: Finding, reader: Reader) -> str:
    words = take_words("template_sheet", reader.language)
    mend = say(finding.mends[0], reader) if finding.mends else ""
    if finding.limit is None:
        return words("stamp_cause_no_number", what=say(finding.what, reader), mend=mend).strip()
    value, limit = value_of(finding, reader), limit_of(finding, reader)
    return words("stamp_cause", what=say(finding.what, reader), value=value, limit=limit, mend=mend).strip()


def draw_part(part: FlatPart, reader: Reader, turned: bool, windows: Sequence[Box] = ()) -> Drawing:
    """Return a part as its template is drawn: hatched, with words on its lines, turned or not.

    windows: of the sheets it is printed on, when they are several: no edge of theirs halves its words
    """
    drawing = draw_flat(part, reader, hatch=True)
    drawing = replace(drawing, entities=tuple(_clean(entity) for entity in drawing.entities))
    drawing = turn_drawing(drawing) if turned else drawing
    return keep_words_whole(drawing, windows) if len(windows) > 1 else drawing


def _clean(entity: Entity) -> Entity:
    return replace(entity, text=clean_text(entity.text)) if isinstance(entity, Words) else entity

"""What the word files may put in about paper: which full-size templates are printed; and the boards of the gauge."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.cutting.templates import is_printed
from calc.shapes.shapes import FlatKind, FlatPart, Layer, find_bounds
from packet.words.word_files import clean_text

if TYPE_CHECKING:
    from calc.design import Made
    from packet.work.writer import Writer


@dataclass(frozen=True, kw_only=True)
class PaperFacts:
    """Numbers of the full-size templates that are printed, ``H1, H2``, by what they are for; empty: none."""

    holes: str
    lids: str
    gauge_lid: str
    gaskets: str
    strips: str
    cards: str
    discs: str
    rings: str
    boards: str


PAPER: dict[str, FlatKind] = {
    "holes": "hole", "lids": "filter lid", "gauge_lid": "gauge lid", "gaskets": "gasket", "strips": "wrap strip",
    "cards": "test card", "discs": "test disc", "rings": "reinforcing ring",
}  # fmt: skip
"""What those parts are; the boards of the gauge go with their brackets."""

BOARDS: tuple[FlatKind, ...] = ("gauge board", "gauge bracket")


@dataclass(frozen=True)
class BoardFacts:
    number: str
    name: str
    size: str
    quantity: int


def tell_paper(design: Made) -> PaperFacts:
    """Return which templates are printed."""

    def number(parts: list[FlatPart]) -> str:
        return ", ".join(dict.fromkeys(part.number for part in parts))

    printed = [part for part in design.flat_parts if is_printed(part)]
    groups = {key: [p for p in printed if p.kind == kind] for key, kind in PAPER.items()}
    return PaperFacts(
        **{key: number(parts) for key, parts in groups.items()},
        boards=number([part for part in printed if part.kind in BOARDS]),
    )


def tell_boards(design: Made, writer: Writer) -> tuple[BoardFacts, ...]:
    """Return the boards and brackets of the gauge."""
    told = []
    for part in design.flat_parts:
        if part.kind in BOARDS:
            bounds = find_bounds(tuple(f.shape for f in part.features if f.layer is Layer.CUT))
            size = writer.size(bounds.width, bounds.height)
            told.append(BoardFacts(part.number, clean_text(part.name), size, part.quantity))
    return tuple(told)
